package groundrule

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// differing tells in short words what differs between two sections.
type differing struct {
	*teller // of what comes of it
	before  *engine.Outcome
	out     *otherwise
	found   []difference
	details []detail
}

type difference struct {
	says section.Sentence
	rank int // what weighs more comes first
	size quantity.Length
}

// detail is what differs in how a course is laid.
type detail struct {
	course string
	labels []string
	says   section.Sentence // of the first
}

// The ranks of differences.
const (
	byThickness = iota
	byPresence
	byMaterial
)

func (d *differing) add(rank int, size quantity.Length, line string, holes ...any) {
	said := d.b.told(line, holes...)
	if !slices.ContainsFunc(d.found, func(x difference) bool { return x.says == said }) {
		d.found = append(d.found, difference{said, rank, size})
	}
}

// detailsTold is of how many courses small differences are told.
const detailsTold = 2

// sorted lists what was found; of small differences the first alone.
func (d *differing) sorted() (out []section.Sentence) {
	slices.SortStableFunc(d.found, func(a, b difference) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.size, a.size))
	})
	for _, f := range d.found {
		out = append(out, f.says)
	}
	told := min(len(d.details), detailsTold)
	for _, each := range d.details[:told] {
		if len(each.labels) > 1 {
			each.says = d.b.told("differs_details", "course", each.course, "what", strings.Join(each.labels, ", "))
		}
		out = append(out, each.says)
	}
	switch rest := len(d.details) - told; {
	case rest == 1:
		out = append(out, d.b.told("differs_rest_one"))
	case rest > 1:
		out = append(out, d.b.told("differs_rest", "count", strconv.Itoa(rest)))
	}
	return out
}

// ending tells why there is no section to build, and whom to take it to.
func (d *differing) ending(ran inside.Ran) (says []section.Sentence, who section.Sentence) {
	told := func(id string, s section.Sentence) { says = append(says, d.inShort(string(ran.Status), s, id)) }
	if ran.Outcome == nil {
		call := new(engine.CallError)
		errors.As(ran.Err, &call)
		told(ran.Why[0], section.Plain(call.Error()))
		return says, d.b.told("refused_engineer")
	}
	for _, r := range d.o.Refusals {
		told(r.ID, d.say(r.Says))
		if who.US == "" {
			who = d.say(r.Who)
		}
	}
	if ran.Status == section.Stopped {
		for _, c := range d.o.Crossed {
			says := d.say(c.Limit.Because)
			if !c.Value.IsZero() {
				says = d.b.told("differs_crossed", "what", label(d.b.rules, c.Decided.Decision.Name), "answer", c.Decided.Answer, "wanted", d.b.wanted(c.Limit, c.Value))
			}
			if c.Variance == nil {
				told(c.Limit.ID, says)
			}
		}
		for _, c := range d.o.Checks {
			if !c.Holds && c.Check.Failing == rulebook.Stops {
				told(c.Check.ID, d.say(c.Check.Says))
			}
		}
	}
	return says, who
}

// inShort is the first sentence of what is told, and by which entry.
func (d *differing) inShort(what string, s section.Sentence, id string) section.Sentence {
	first := both(d.b.rules, func(in quantity.System) string {
		first, _, _ := strings.Cut(s.In(in), ". ")
		return small(strings.TrimSuffix(first, "."))
	})
	return d.b.told("differs_"+what, "says", first, "id", id)
}

// hair is less than any crew builds to.
const hair = quantity.Length(0.001)

// thicknesses compares how much there is of each kind of course.
func (d *differing) thicknesses() {
	seen := map[string]bool{}
	for _, course := range d.b.rules.Courses() {
		kind := course.Is
		if seen[kind.Name] {
			continue
		}
		seen[kind.Name] = true
		sum := func(o *engine.Outcome) (all quantity.Length, courses int) {
			for _, c := range o.Courses {
				if thickness, ok := differ.Thickness(o, c); ok && c.Is.Name == kind.Name {
					all, courses = all+thickness, courses+1
				}
			}
			return all, courses
		}
		was, before := sum(d.before)
		is, after := sum(d.o)
		size := max(is-was, was-is)
		if size < hair || before == 0 || after == 0 {
			continue // a course that comes or goes is told as that
		}
		d.out.length = max(d.out.length, size)
		if size > max(d.out.by, -d.out.by) {
			d.out.by, d.out.of = is-was, kind.Label
		}
		several := count(d.b.rules.Courses(), func(c *engine.Course) bool {
			return c.Is.Name == kind.Name && differ.Attributed(c, inside.Thickness) != ""
		}) > 1
		line := map[[2]bool]string{{true, true}: "differs_more", {true, false}: "differs_less", {false, true}: "differs_thicker", {false, false}: "differs_thinner"}[[2]bool{several, is > was}]
		d.add(byThickness, size, line, "amount", value.Measured(size), "what", kind.Label)
	}
}

func count[T any](list []T, is func(T) bool) (n int) {
	for _, each := range list {
		if is(each) {
			n++
		}
	}
	return n
}

// group names what courses are the same thing, laid more than once: those whose
// material is one decision. Courses with a thickness are each their own.
func group(c *engine.Course) string {
	if m := differ.Attributed(c, inside.Material); m != "" && differ.Attributed(c, inside.Thickness) == "" {
		return m
	}
	return "course " + c.Name
}

// present compares which courses are laid. Stone that is split in other courses
// is told by its thickness alone.
func (d *differing) present() {
	seen := map[string]bool{}
	for _, course := range d.b.rules.Courses() {
		of := group(course)
		if seen[of] {
			continue
		}
		seen[of] = true
		not := func(c *engine.Course) bool { return group(c) != of }
		was, is := slices.DeleteFunc(slices.Clone(d.before.Courses), not), slices.DeleteFunc(slices.Clone(d.o.Courses), not)
		laysKind := func(c *engine.Course) bool { return c.Is.Name == course.Is.Name }
		if slices.Equal(was, is) || differ.Attributed(course, inside.Thickness) != "" && slices.ContainsFunc(d.before.Courses, laysKind) && slices.ContainsFunc(d.o.Courses, laysKind) {
			continue
		}
		d.out.other = true
		var what any = small(course.Label)
		many := count(d.b.rules.Courses(), func(c *engine.Course) bool { return group(c) == of }) > 1
		if many {
			what = course.Is.Label
		}
		switch more := len(is) - len(was); {
		case len(is) == 0:
			d.add(byPresence, 0, "differs_none", "what", what)
		case len(was) == 0 && !many:
			if kind := differ.Answer(d.o, differ.Attributed(course, inside.Kind)); !kind.IsZero() {
				what = kind
			}
			d.add(byPresence, 0, "differs_added", "what", what)
		case more == 1 && len(is) <= 3:
			d.add(byPresence, 0, "differs_"+strconv.Itoa(len(is)), "what", what)
		case more > 0:
			d.add(byPresence, 0, "differs_added_more", "count", strconv.Itoa(more), "what", what)
		case more < 0:
			d.add(byPresence, 0, "differs_fewer", "count", strconv.Itoa(len(is)), "what", what, "was", strconv.Itoa(len(was)))
		default:
			d.add(byPresence, 0, "differs_instead", "is", labels(is), "was", labels(was))
		}
	}
}

func labels(courses []*engine.Course) string {
	var out []string
	for _, c := range courses {
		out = append(out, small(c.Label))
	}
	return strings.Join(out, ", ")
}

// attributes compares what courses that are laid in both are made of, and how they
// are laid, and which cautions come with it. What tells of the site alone is not
// built.
func (d *differing) attributes() {
	for _, c := range differ.Changes(d.b.rules.Courses(), d.before, d.o) {
		if given, _ := c.After.Bool(); c.What == differ.Caution && given {
			at := slices.IndexFunc(d.o.Cautions, func(each *engine.Caution) bool { return each.ID == c.Name })
			d.out.cautions = append(d.out.cautions, d.inShort("caution", d.say(d.o.Cautions[at].Says), c.Name))
		}
		if c.What != differ.Attribute || ofSite(d.before, c.Decision) || ofSite(d.o, c.Decision) {
			continue
		}
		course := d.b.rules.Courses()[slices.IndexFunc(d.b.rules.Courses(), func(each *engine.Course) bool { return each.Name == c.Course })]
		was, isLength := c.Before.Length()
		is, _ := c.After.Length()
		switch {
		case c.Name == inside.Thickness:
			continue
		case c.Name == inside.Material && d.kindDiffers(course):
			continue // its kind tells it
		case c.Name == inside.Kind || c.Name == inside.Material:
			d.out.other = true
			d.add(byMaterial, 0, "differs_instead", "is", d.smallValue(c.After), "was", d.smallValue(c.Before))
			continue
		case isLength && !c.After.IsZero() && max(is-was, was-is) < hair:
			continue
		case isLength && !c.After.IsZero():
			d.out.length = max(d.out.length, is-was, was-is)
		case c.Before.Kind() == value.NumberKind || c.After.Kind() == value.NumberKind:
			continue // how many lifts follows from thickness
		default:
			d.out.other = true
		}
		what := label(d.b.rules, c.Name)
		if at := len(d.details) - 1; at >= 0 && d.details[at].course == small(course.Label) {
			d.details[at].labels = append(d.details[at].labels, what)
			continue
		}
		line := "differs_detail"
		if strings.HasPrefix(c.After.Text(quantity.US), what) {
			line = "differs_detail_alone"
		}
		d.details = append(d.details, detail{small(course.Label), []string{what}, d.b.told(line, "course", small(c.Label), "what", what, "value", c.After)})
	}
}

// smallValue is a value within a line.
func (d *differing) smallValue(v value.Value) section.Sentence {
	return both(d.b.rules, func(in quantity.System) string { return small(v.Text(in)) })
}

// kindDiffers reports whether the kind of a course differs, which tells what it is
// made of.
func (d *differing) kindDiffers(c *engine.Course) bool {
	kind := differ.Attributed(c, inside.Kind)
	return kind != "" && !differ.Answer(d.before, kind).Equal(differ.Answer(d.o, kind))
}

// passesOnPresumed reports whether the value of a decision is presumed, or passes on
// what the site is presumed to be.
func (t *teller) passesOnPresumed(decision string) bool {
	decided, err := t.o.DecidedBy(decision)
	if err != nil || decided.Rule == nil {
		return false
	}
	return t.o.Presumed(decision) || ofSite(t.o, decision) && slices.ContainsFunc(decided.Rule.AnswerNames(), t.o.Presumed)
}

// ofSite reports whether a decision passes on what the site is: whatever its answer
// reads is measured, correlated or presumed.
func ofSite(o *engine.Outcome, decision string) bool {
	decided, err := o.DecidedBy(decision)
	if err != nil || decided.Rule == nil {
		return false
	}
	names := decided.Rule.AnswerNames()
	return len(names) > 0 && !slices.ContainsFunc(names, func(name string) bool {
		from, err := o.DecidedBy(name)
		return err != nil || from.Rule == nil || from.Rule.Standing == rulebook.NoStanding
	})
}

// wanted says what a limit asks for.
func (b *Book) wanted(l *engine.Limit, limit value.Value) section.Sentence {
	return both(b.rules, func(in quantity.System) string {
		how, of := l.Wants(limit, in)
		return page.Fill(b.words()["limit_"+how], "limit", of)
	})
}
