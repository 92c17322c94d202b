package groundrule

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// differing tells in short words what differs between two sections.
type differing struct {
	rules         *engine.Book
	before, after *engine.Outcome
	found         []difference
	details       []detail
	cautions      []section.Sentence
	length        quantity.Length
	other         bool
	by            quantity.Length // the greatest of a thickness
	of            string
	t             *teller // of what comes of it
}

type difference struct {
	says section.Sentence
	rank int // what weighs more comes first
	size quantity.Length
}

// detail is what differs in how a course is laid.
type detail struct {
	course *engine.Course
	labels []string
	says   section.Sentence // of the first
}

// The ranks of differences.
const (
	byThickness = iota
	byPresence
	byMaterial
)

// both says a sentence in both systems of units, in one where they are the same, each
// as the language of the rulebook writes it.
func both(rules *engine.Book, say func(quantity.System) string) section.Sentence {
	us, si := say(rules.In(quantity.US)), say(rules.In(quantity.SI))
	if si == us {
		si = ""
	}
	return section.Sentence{US: us, SI: si}
}

func (d *differing) add(rank int, size quantity.Length, say func(quantity.System) string) {
	said := both(d.rules, say)
	if !slices.ContainsFunc(d.found, func(x difference) bool { return x.says == said }) {
		d.found = append(d.found, difference{said, rank, size})
	}
}

// detailsTold is of how many courses small differences are told.
const detailsTold = 2

// sorted lists what was found; of small differences the first alone.
func (d *differing) sorted() []section.Sentence {
	slices.SortStableFunc(d.found, func(a, b difference) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.size, a.size))
	})
	var out []section.Sentence
	for _, f := range d.found {
		out = append(out, f.says)
	}
	told := min(len(d.details), detailsTold)
	for _, each := range d.details[:told] {
		if len(each.labels) > 1 {
			each.says = section.Plain(small(each.course.Label) + ": other " + strings.Join(each.labels, ", "))
		}
		out = append(out, each.says)
	}
	switch rest := len(d.details) - told; {
	case rest == 1:
		out = append(out, section.Plain("details of 1 more course"))
	case rest > 1:
		out = append(out, section.Plain(fmt.Sprintf("details of %d more courses", rest)))
	}
	return out
}

// ending tells why there is no section to build, and who should design it.
func (d *differing) ending(ran inside.Ran) (says []section.Sentence, who section.Sentence) {
	told := func(id string, s section.Sentence) { says = append(says, d.inShort(string(ran.Status), s, id)) }
	if ran.Outcome == nil {
		call := new(engine.CallError)
		errors.As(ran.Err, &call)
		told(ran.Why[0], section.Plain(call.Error()))
		return says, section.Plain(engineerWithData)
	}
	for _, r := range ran.Outcome.Refusals {
		told(r.ID, d.t.say(r.Says()))
		if who.US == "" {
			who = d.t.say(r.Who())
		}
	}
	if ran.Status == section.Stopped {
		for _, c := range ran.Outcome.Crossed {
			if c.Variance == nil {
				told(c.Limit.ID, both(d.rules, func(in quantity.System) string {
					return fmt.Sprintf("%s is %s; wanted %s", label(d.rules, c.Decided.Decision.Name), c.Decided.Answer.Text(in), c.Limit.Says(c.Value, in))
				}))
			}
		}
		for _, c := range ran.Outcome.Checks {
			if !c.Holds && c.Check.Failing == rulebook.Stops {
				told(c.Check.ID, d.t.say(c.Check.Says()))
			}
		}
	}
	return says, who
}

// inShort is the first sentence of what is told, and by which entry.
func (d *differing) inShort(what string, s section.Sentence, id string) section.Sentence {
	return both(d.rules, func(in quantity.System) string {
		first, _, _ := strings.Cut(s.In(in), ". ")
		return fmt.Sprintf("%s: %s (%s)", what, small(strings.TrimSuffix(first, ".")), id)
	})
}

// hair is less than any crew builds to.
const hair = quantity.Length(0.001)

// thicknesses compares how much there is of each kind of course.
func (d *differing) thicknesses() {
	seen := map[string]bool{}
	for _, course := range d.rules.Courses() {
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
		is, after := sum(d.after)
		by := is - was
		amount := value.Measured(max(by, -by))
		if max(by, -by) < hair || before == 0 || after == 0 {
			continue // a course that comes or goes is told as that
		}
		d.length = max(d.length, by, -by)
		if max(by, -by) > max(d.by, -d.by) {
			d.by, d.of = by, kind.Label
		}
		form, more := "%s %s %s", [2]string{"more", "less"}
		several := count(d.rules.Courses(), func(c *engine.Course) bool {
			return c.Is.Name == kind.Name && differ.Attributed(c, inside.Thickness) != ""
		}) > 1
		if !several {
			form, more = "%[3]s %[1]s %[2]s", [2]string{"thicker", "thinner"}
		}
		word := more[0]
		if by < 0 {
			word = more[1]
		}
		d.add(byThickness, max(by, -by), func(in quantity.System) string {
			return fmt.Sprintf(form, amount.Brief(in), word, kind.Label)
		})
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
	for _, course := range d.rules.Courses() {
		of := group(course)
		if seen[of] {
			continue
		}
		seen[of] = true
		in := func(c *engine.Course) bool { return group(c) == of }
		was, is := slices.DeleteFunc(slices.Clone(d.before.Courses), not(in)), slices.DeleteFunc(slices.Clone(d.after.Courses), not(in))
		if slices.Equal(was, is) {
			continue
		}
		if differ.Attributed(course, inside.Thickness) != "" && d.laysKind(d.before, course) && d.laysKind(d.after, course) {
			continue
		}
		d.other = true
		many := count(d.rules.Courses(), in) > 1
		d.add(byPresence, 0, func(system quantity.System) string {
			switch {
			case len(is) == 0 && many:
				return "no " + course.Is.Label
			case len(is) == 0:
				return "no " + small(course.Label)
			case len(was) == 0 && !many:
				if kind := differ.Answer(d.after, differ.Attributed(course, inside.Kind)); !kind.IsZero() {
					return kind.Text(system) + " added"
				}
				return small(course.Label) + " added"
			case len(is) > len(was):
				return nth(len(is), len(is)-len(was), course.Is.Label)
			case len(is) < len(was):
				return fmt.Sprintf("%d %s in place of %d", len(is), course.Is.Label, len(was))
			}
			return labels(is) + " in place of " + labels(was)
		})
	}
}

func not[T any](is func(T) bool) func(T) bool { return func(x T) bool { return !is(x) } }

// laysKind reports whether a section has a course of the same kind.
func (d *differing) laysKind(o *engine.Outcome, as *engine.Course) bool {
	return slices.ContainsFunc(o.Courses, func(c *engine.Course) bool { return c.Is.Name == as.Is.Name })
}

func labels(courses []*engine.Course) string {
	var out []string
	for _, c := range courses {
		out = append(out, small(c.Label))
	}
	return strings.Join(out, " and ")
}

// nth names the last of what there is now, or how many more there are.
func nth(is, more int, what string) string {
	names := []string{"a", "a second", "a third"}
	if more > 1 || is > len(names) {
		return fmt.Sprintf("%d more: %s", more, what)
	}
	return names[is-1] + " " + what
}

// attributes compares what courses that are laid in both are made of, and how they
// are laid, and which cautions come with it. What tells of the site alone is not
// built.
func (d *differing) attributes() {
	for _, c := range differ.Changes(d.rules.Courses(), d.before, d.after) {
		if given, _ := c.After.Bool(); c.What == differ.Caution && given {
			at := slices.IndexFunc(d.after.Cautions, func(each *engine.Caution) bool { return each.ID == c.Name })
			d.cautions = append(d.cautions, d.inShort("caution", d.t.say(d.after.Cautions[at].Says()), c.Name))
		}
		if c.What != differ.Attribute || ofSite(d.before, c.Decision) || ofSite(d.after, c.Decision) {
			continue
		}
		course := *d.rules.Courses()[slices.IndexFunc(d.rules.Courses(), func(each *engine.Course) bool { return each.Name == c.Course })]
		was, isLength := c.Before.Length()
		is, _ := c.After.Length()
		switch {
		case c.Name == inside.Thickness:
			continue
		case c.Name == inside.Material && d.kindDiffers(&course):
			continue // its kind tells it
		case c.Name == inside.Kind || c.Name == inside.Material:
			d.other = true
			d.add(byMaterial, 0, func(in quantity.System) string { return inPlaceOf(c.After.Text(in), c.Before.Text(in)) })
			continue
		case isLength && !c.After.IsZero() && max(is-was, was-is) < hair:
			continue
		case isLength && !c.After.IsZero():
			d.length = max(d.length, is-was, was-is)
		case c.Before.Kind() == value.NumberKind || c.After.Kind() == value.NumberKind:
			continue // how many lifts follows from thickness
		default:
			d.other = true
		}
		if at := len(d.details) - 1; at >= 0 && d.details[at].course.Name == course.Name {
			d.details[at].labels = append(d.details[at].labels, label(d.rules, c.Name))
			continue
		}
		d.details = append(d.details, detail{&course, []string{label(d.rules, c.Name)}, both(d.rules, func(in quantity.System) string {
			is := c.After.Text(in)
			if !strings.HasPrefix(is, label(d.rules, c.Name)) {
				is = label(d.rules, c.Name) + " " + is
			}
			return small(c.Label) + ": " + is
		})})
	}
}

// kindDiffers reports whether the kind of a course differs, which tells what it is
// made of.
func (d *differing) kindDiffers(c *engine.Course) bool {
	kind := differ.Attributed(c, inside.Kind)
	return kind != "" && !differ.Answer(d.before, kind).Equal(differ.Answer(d.after, kind))
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

// inPlaceOf says that one thing takes the place of another, without the words with
// which both end: "woven fabric in place of nonwoven".
func inPlaceOf(is, was string) string {
	a, b := strings.Fields(small(is)), strings.Fields(small(was))
	for len(b) > 1 && len(a) > 1 && a[len(a)-1] == b[len(b)-1] && !strings.ContainsAny(b[len(b)-1], "(),") {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return small(is) + " in place of " + strings.TrimSuffix(strings.Join(b, " "), ",")
}
