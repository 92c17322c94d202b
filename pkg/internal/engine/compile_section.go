package engine

import (
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/value"
)

func (c *compiler) courses() {
	kinds := map[string]*value.Word{}
	for _, w := range c.book.env.Words("course_kind") {
		kinds[w.Name] = w
	}
	names := map[string]diagnostic.Place{}
	for _, e := range c.in.courses {
		if first, taken := names[e.name]; taken {
			c.faults.Add(&diagnostic.Diagnostic{Place: e.at, Code: CodeTwice, Message: "the course is there already", Found: e.name,
				Related: []diagnostic.Related{{Place: first, Message: "it stands here first"}}})
			continue
		}
		names[e.name] = e.at
		out := &Course{Name: e.name, Label: e.label, Source: c.sourceOf(e.source), Place: e.at, Chapter: e.chapter}
		if e.is != nil {
			if v, ok := c.literal(e.is, "course_kind"); ok {
				out.Is, _ = v.Word()
			}
		}
		out.when = c.condition(e.when, nil)
		given := out.when.settles(nil)
		out.Because = c.template(e.because, given)
		for _, a := range e.attributes {
			if d := c.attribute(a.Value, given); d != nil {
				out.Attributes = append(out.Attributes, Attribute{Name: a.Key.Text(), Decision: d})
			}
		}
		c.book.courses = append(c.book.courses, out)
	}
}

// attribute finds the decision that an attribute is taken from. Nothing but a
// decision will do: that is what gives every attribute a reason.
func (c *compiler) attribute(n *document.Node, given language.Given) *Decision {
	name := strings.TrimSpace(n.Text())
	d, ok := c.book.byName[name].(*Decision)
	if !ok {
		var names []string
		for _, each := range c.book.decisions {
			names = append(names, each.Name)
		}
		c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(n.Text())), Code: codeDecision, Message: "an attribute is taken from a decision",
			Found: name, Wanted: "the name of a decision", Nearest: diagnostic.Nearest(name, names)})
		return nil
	}
	if d.when != nil && !given[name] {
		c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(n.Text())), Code: language.CodeMayBeMissing, Message: name + " may be missing here",
			Found: name, Wanted: "known(" + name + ") in the course's when"})
	}
	return d
}

func (c *compiler) checks() {
	for _, e := range c.in.checks {
		c.ruleID(e.id, e.at)
		out := &Check{ID: e.id, Asks: e.asks, Source: c.sourceOf(e.source), Place: e.at, Chapter: e.chapter}
		out.when = c.condition(e.when, nil)
		given := out.when.settles(nil)
		out.Says, out.Because = c.template(e.says, given), c.template(e.because, given)
		if e.failing != nil {
			out.Failing = Failing(e.failing.Text())
			if out.Failing != Stops && out.Failing != Cautions {
				c.faults.Add(&diagnostic.Diagnostic{Place: e.failing.Place(), Width: len(e.failing.Text()), Code: codeFailing, Message: "this is not what a failing check does",
					Found: e.failing.Text(), Wanted: "stop or caution", Nearest: diagnostic.Nearest(e.failing.Text(), []string{"stop", "caution"})})
			}
		}
		c.checked(e, out, given)
		c.book.checks = append(c.book.checks, out)
	}
}

// checked compiles what a check asks: holds, or value with one limit.
func (c *compiler) checked(e *checkEntry, out *Check, given language.Given) {
	measured := e.value != nil && (e.atLeast == nil) != (e.atMost == nil) && e.holds == nil
	plain := e.holds != nil && e.value == nil && e.atLeast == nil && e.atMost == nil
	if !measured && !plain {
		c.faults.Add(&diagnostic.Diagnostic{Place: e.at, Code: codeCheck, Message: "a check asks one thing",
			Wanted: "either holds, or value with at_least or at_most"})
		return
	}
	if plain {
		out.holds = c.condition(e.holds, given)
		return
	}
	limit := e.atLeast
	if out.atMost = e.atMost != nil; out.atMost {
		limit = e.atMost
	}
	out.value = c.expression(e.value, value.NoKind, given)
	if out.value == nil {
		return
	}
	kind := out.value.source.Kind
	if !ordered(kind) {
		c.faults.Add(&diagnostic.Diagnostic{Place: e.value.Place(), Code: codeNoOrder, Message: "values of this kind have no order", Found: string(kind), Wanted: "a number or a quantity"})
		return
	}
	out.limit = c.expression(limit, kind, given)
}

func (c *compiler) cautions() {
	for _, e := range c.in.cautions {
		c.ruleID(e.id, e.at)
		out := &Caution{ID: e.id, Source: c.sourceOf(e.source), Place: e.at, Chapter: e.chapter}
		out.when = c.condition(e.when, nil)
		out.Says = c.template(e.says, out.when.settles(nil))
		c.book.cautions = append(c.book.cautions, out)
	}
}

func (c *compiler) refusals() {
	for _, e := range c.in.refusals {
		c.ruleID(e.id, e.at)
		out := &Refusal{ID: e.id, Source: c.sourceOf(e.source), Place: e.at, Chapter: e.chapter}
		out.when = c.condition(e.when, nil)
		given := out.when.settles(nil)
		out.Says, out.Who = c.template(e.says, given), c.template(e.who, given)
		c.book.refusals = append(c.book.refusals, out)
	}
}
