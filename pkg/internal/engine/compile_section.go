package engine

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

func (c *compiler) courses() {
	names := map[string]*document.Node{}
	c.book.courses = standing(c, c.in.of[courseSort], func(n *entry) *Course {
		first, taken := names[n.id()]
		if taken && !c.lifts {
			twice(&c.faults, n.name, first, "the course is there already", n.id(), "", "it stands here first")
		} else if !c.lifts {
			names[n.id()] = n.name
		}
		return c.course(n)
	}, func(l *lifted, x *Course) {
		l.course, l.says, l.speaks = x, x.Because, func(o *Outcome) (bool, error) { return o.run.holds(x.When, place{sort: "course", name: x.Name}) }
	})
}

func (c *compiler) course(n *entry) *Course {
	e := c.r.open(n, "a course")
	out := &Course{Course: rulebook.Course{Name: n.id(), Label: e.NeedText("label"), Place: n.place(), Chapter: n.chapter, Amended: n.amended}}
	t := &out.Course
	is, _ := c.literal(e.Need("is"), "course_kind")
	t.Is = wordOf(is)
	var given language.Given
	t.When, out.When, given = c.when(e.Get("when"), nil)
	t.Because, out.Because = c.sentence(e.Need("because"), given)
	t.Source = c.sourceOf(e.Need("source"))
	shows := e.Items("shows")
	attributes := c.r.fields(e.Need("attributes"), "the attributes")
	names := namesIn(attributes, func(a document.Field) string { return a.Key.Text() })
	t.Drawn = c.drawn(c.r.fields(e.Get("drawn"), "how it is drawn"), names)
	e.Done()
	for _, a := range attributes {
		d := c.attribute(a, given)
		if d == nil {
			continue
		}
		t.Attributes = append(t.Attributes, rulebook.Attribute{Name: a.Key.Text(), Decision: d.Name,
			Shown: slices.ContainsFunc(shows, func(n *document.Node) bool { return n.Text() == a.Key.Text() })})
		if n.first != nil {
			c.keepLimits(n.first, a.Key.Text(), d)
		}
	}
	for _, n := range shows {
		if !slices.Contains(names, n.Text()) {
			fault(&c.faults, n, codeDecision, "the course has no attribute of this name", n.Text(), "an attribute of the course", names...)
		}
	}
	return out
}

// attribute finds the decision that an attribute is taken from, nil if that is
// reported. Nothing but a decision will do: that is what gives every attribute a reason.
func (c *compiler) attribute(a document.Field, given language.Given) *Decision {
	n := a.Value
	name := strings.TrimSpace(n.Text())
	d, ok := c.book.byName[name].(*Decision)
	if !ok && c.in.gone[name] != nil {
		c.readsGone(name, n.Place())
		return nil
	}
	if !ok {
		fault(&c.faults, n, codeDecision, "an attribute is taken from a decision", name, "the name of a decision",
			namesIn(c.book.decisions, func(d *Decision) string { return d.Name })...)
		return nil
	}
	if d.When != nil && !given[name] {
		fault(&c.faults, n, language.CodeMayBeMissing, name+" may be missing here", name, "known("+name+") in the course's when")
	}
	if a.Key.Text() == c.setup.Thickness && d.Kind != value.DimensionKind(quantity.DimLength) {
		fault(&c.faults, n, language.CodeWrongKind, "a "+c.setup.Thickness+" is a length", name+", which is "+string(d.Kind), "a decision that answers a length")
	}
	return d
}

// spoken compiles what a section says beside its courses.
func (c *compiler) spoken() {
	c.book.checks = standing(c, c.in.of[checkSort], c.check, func(l *lifted, x *Check) {
		l.says, l.speaks = x.Says, func(o *Outcome) (bool, error) { return o.wouldFail(l, x) }
	})
	c.book.cautions = standing(c, c.in.of[cautionSort], c.caution, func(l *lifted, x *Caution) {
		l.says, l.speaks = x.Says, func(o *Outcome) (bool, error) {
			holds, err := o.run.holds(x.When, place{sort: "caution", name: x.ID})
			return holds && !slices.ContainsFunc(o.Cautions, func(c *Caution) bool { return l.isNow(c.ID) }), err
		}
	})
	c.book.refusals = standing(c, c.in.of[refusalSort], c.refusal, func(l *lifted, x *Refusal) {
		l.says, l.speaks = x.Says, func(o *Outcome) (bool, error) { return o.run.holds(x.When, place{sort: "refusal", name: x.ID}) }
	})
	c.book.promises = standing(c, c.in.of[promiseSort], c.promise, func(l *lifted, x *Promise) {
		l.says, l.speaks = x.Why, func(o *Outcome) (bool, error) { return o.Breaks(x) }
	})
	c.withCourses()
	c.book.work = standing(c, c.in.work, c.work, func(l *lifted, x *Work) {
		l.says, l.speaks = x.first(), func(o *Outcome) (bool, error) {
			applies, err := o.applies(x)
			return applies && !slices.ContainsFunc(o.Work, func(w *Work) bool { return l.isNow(w.ID) }), err
		}
	})
	c.book.measuring = c.measuring()
	c.lines()
}

func (c *compiler) check(n *entry) *Check {
	e := c.begin(n, "a check")
	out := &Check{Check: rulebook.Check{ID: n.id(), Asks: e.NeedText("asks"), Place: n.place(), Chapter: n.chapter, Amended: n.amended}}
	t := &out.Check
	var given language.Given
	t.When, out.When, given = c.when(e.Get("when"), nil)
	holds, of, atLeast, atMost, failing := e.Get("holds"), e.Get("value"), e.Get("at_least"), e.Get("at_most"), e.Need("failing")
	t.Holds, t.Value, t.Failing = text(holds), text(of), rulebook.Failing(text(failing).Text)
	t.Says, out.Says = c.sentence(e.Need("says"), given)
	t.Passes, out.Passes = c.sentence(e.Get("passes"), given)
	t.Because, out.Because = c.sentence(e.Need("because"), given)
	t.Source = c.sourceOf(e.Need("source"))
	e.Done()
	if t.Failing != rulebook.Stops && t.Failing != rulebook.Cautions {
		c.notOneOf(failing, codeFailing, "this is not what a failing check does", "stop", "caution")
	}
	// It asks one thing: holds, or value with one limit.
	limit := cmp.Or(atMost, atLeast)
	switch {
	case holds != nil && of == nil && limit == nil:
		out.Holds = c.condition(holds, given)
	case holds == nil && of != nil && (atLeast == nil) != (atMost == nil):
		t.AtMost, t.Limit = atMost != nil, text(limit)
		if out.value = c.expression(of, value.NoKind, given); out.value == nil {
			break
		}
		if kind := out.value.source.Kind; language.IsOrdered(kind) {
			out.limit = c.expression(limit, kind, given)
		} else {
			fault(&c.faults, of, codeNoOrder, "values of this kind have no order", string(kind), "a number or a quantity")
		}
	default:
		fault(&c.faults, n.name, codeCheck, "a check asks one thing", "", "either holds, or value with at_least or at_most")
	}
	return out
}

func (c *compiler) caution(n *entry) *Caution {
	e := c.begin(n, "a caution")
	out := &Caution{Caution: rulebook.Caution{ID: n.id(), Place: n.place(), Chapter: n.chapter, Amended: n.amended}}
	t := &out.Caution
	var given language.Given
	t.When, out.When, given = c.when(e.Get("when"), nil)
	says, short, realWhen := e.Need("says"), e.Get("short"), e.Get("real_when")
	if n.first != nil && short == n.first.node.Field("short") && says != n.first.node.Field("says") {
		short = nil // it is short for what an amendment words otherwise
	}
	t.Says, out.Says = c.sentence(says, given)
	t.Short, out.Short = c.sentence(short, given)
	t.RealWhen, out.RealWhen = text(realWhen), c.condition(realWhen, given)
	t.Source, t.Owed = c.sourceOf(e.Need("source")), e.Bool("owed")
	e.Done()
	return out
}

func (c *compiler) refusal(n *entry) *Refusal {
	e := c.begin(n, "a refusal")
	out := &Refusal{Refusal: rulebook.Refusal{ID: n.id(), Place: n.place(), Chapter: n.chapter, Amended: n.amended}}
	t := &out.Refusal
	var given language.Given
	t.When, out.When, given = c.when(e.Need("when"), nil)
	t.Says, out.Says = c.sentence(e.Need("says"), given)
	t.Who, out.Who = c.sentence(e.Need("who"), given)
	t.Source, t.Contradicts = c.sourceOf(e.Need("source")), e.Bool("contradicts")
	e.Done()
	return out
}
