package engine

import (
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
	for _, e := range c.in.courses {
		if e.lifted != nil {
			c.lifting(e.entry, func(l *lifted) { l.course = c.course(e) })
			continue
		}
		if first, taken := names[e.Name]; taken {
			twice(&c.faults, e.name, first, "the course is there already", e.Name, "", "it stands here first")
			continue
		}
		names[e.Name] = e.name
		c.book.courses = append(c.book.courses, c.course(e))
	}
}

func (c *compiler) course(e *courseEntry) *Course {
	out := &Course{Course: e.Course}
	out.Source = c.sourceOf(e.source)
	if e.is != nil {
		if v, ok := c.literal(e.is, "course_kind"); ok {
			out.Is, _ = v.Word()
		}
	}
	out.when = c.condition(e.when, nil)
	given := out.when.settles(nil)
	out.because = c.template(e.because, given)
	for _, a := range e.attributes {
		name, ok := c.attribute(a, given)
		if !ok {
			continue
		}
		out.Attributes = append(out.Attributes, rulebook.Attribute{Name: a.Key.Text(), Decision: name,
			Shown: slices.ContainsFunc(e.shows, func(n *document.Node) bool { return n.Text() == a.Key.Text() })})
		if e.first != nil {
			c.keepLimits(e.first, a.Key.Text(), c.book.byName[name].(*Decision))
		}
	}
	for _, n := range e.shows {
		if !slices.ContainsFunc(e.attributes, func(a document.Field) bool { return a.Key.Text() == n.Text() }) {
			fault(&c.faults, n, codeDecision, "the course has no attribute of this name", n.Text(), "an attribute of the course",
				namesIn(e.attributes, func(a document.Field) string { return a.Key.Text() })...)
		}
	}
	out.Drawn = c.drawn(e)
	return out
}

// attribute finds the decision that an attribute is taken from. Nothing but a
// decision will do: that is what gives every attribute a reason.
func (c *compiler) attribute(a document.Field, given language.Given) (decision string, ok bool) {
	n := a.Value
	name := strings.TrimSpace(n.Text())
	d, ok := c.book.byName[name].(*Decision)
	if !ok && c.in.gone[name] != nil {
		c.readsGone(name, n.Place())
		return name, false
	}
	if !ok {
		fault(&c.faults, n, codeDecision, "an attribute is taken from a decision", name, "the name of a decision",
			namesIn(c.book.decisions, func(d *Decision) string { return d.Name })...)
		return name, false
	}
	if d.when != nil && !given[name] {
		fault(&c.faults, n, language.CodeMayBeMissing, name+" may be missing here", name, "known("+name+") in the course's when")
	}
	if a.Key.Text() == c.setup.Thickness && d.Kind != value.DimensionKind(quantity.DimLength) {
		fault(&c.faults, n, language.CodeWrongKind, "a "+c.setup.Thickness+" is a length", name+", which is "+string(d.Kind), "a decision that answers a length")
	}
	return name, true
}

// spoken compiles what a section says beside its courses.
func (c *compiler) spoken() {
	c.book.checks = standing(c, c.in.checks, c.check, func(l *lifted, x *Check) { l.check = x })
	c.book.cautions = standing(c, c.in.cautions, c.caution, func(l *lifted, x *Caution) { l.caution = x })
	c.book.refusals = standing(c, c.in.refusals, c.refusal, func(l *lifted, x *Refusal) { l.refusal = x })
	c.book.promises = standing(c, c.in.promises, c.promise, func(l *lifted, x *Promise) { l.promise = x })
	c.withCourses()
	c.book.work = standing(c, c.in.work, c.work, func(l *lifted, x *Work) { l.work = x })
	c.book.measuring = c.measuring()
	c.lines()
}

func (c *compiler) check(e *checkEntry) *Check {
	c.ruleID(e.ID, e.name)
	out := &Check{Check: e.Check}
	out.Source = c.sourceOf(e.source)
	out.when = c.condition(e.when, nil)
	given := out.when.settles(nil)
	out.says, out.passes, out.because = c.template(e.says, given), c.template(e.passes, given), c.template(e.because, given)
	if e.Failing != rulebook.Stops && e.Failing != rulebook.Cautions {
		c.notOneOf(e.failing, codeFailing, "this is not what a failing check does", "stop", "caution")
	}
	c.checked(e, out, given)
	return out
}

// checked compiles what a check asks: holds, or value with one limit.
func (c *compiler) checked(e *checkEntry, out *Check, given language.Given) {
	measured := e.value != nil && (e.atLeast == nil) != (e.atMost == nil) && e.holds == nil
	plain := e.holds != nil && e.value == nil && e.atLeast == nil && e.atMost == nil
	if !measured && !plain {
		fault(&c.faults, e.name, codeCheck, "a check asks one thing", "", "either holds, or value with at_least or at_most")
		return
	}
	if plain {
		out.holds = c.condition(e.holds, given)
		return
	}
	limit := e.atLeast
	if out.AtMost = e.atMost != nil; out.AtMost {
		limit = e.atMost
	}
	out.Limit = text(limit)
	out.value = c.expression(e.value, value.NoKind, given)
	if out.value == nil {
		return
	}
	kind := out.value.source.Kind
	if !ordered(kind) {
		fault(&c.faults, e.value, codeNoOrder, "values of this kind have no order", string(kind), "a number or a quantity")
		return
	}
	out.limit = c.expression(limit, kind, given)
}

func (c *compiler) caution(e *cautionEntry) *Caution {
	c.ruleID(e.ID, e.name)
	out := &Caution{Caution: e.Caution}
	out.Source = c.sourceOf(e.source)
	out.when = c.condition(e.when, nil)
	given := out.when.settles(nil)
	out.says, out.short, out.real = c.template(e.says, given), c.template(e.short, given), c.condition(e.real, given)
	return out
}

func (c *compiler) refusal(e *refusalEntry) *Refusal {
	c.ruleID(e.ID, e.name)
	out := &Refusal{Refusal: e.Refusal}
	out.Source = c.sourceOf(e.source)
	out.when = c.condition(e.when, nil)
	given := out.when.settles(nil)
	out.says, out.who = c.template(e.says, given), c.template(e.who, given)
	return out
}
