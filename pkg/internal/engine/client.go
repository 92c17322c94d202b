package engine

import (
	"slices"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// What the client is told stands in parts of the client's sheet. It is about a course,
// or on a condition, as other work is; or it tells in a client's words what rules,
// limits, checks, cautions or refusals say, and is told where one of these speaks.

// clientPart is the vocabulary of the parts of the client's sheet.
const clientPart value.Kind = "client_part"

// telling compiles what a sentence for the client tells; own is a condition that it has.
func (c *compiler) telling(tells []*document.Node, own *document.Node, out *Work) {
	if own != nil && len(tells) > 0 {
		fault(&c.faults, own, codeEntry, "what tells of rules is told where one of them speaks, and has no condition of its own", own.Text(), "tells, or course and when")
	}
	for _, n := range tells {
		out.Tells = append(out.Tells, n.Text())
		out.tells = append(out.tells, c.speaking(n))
	}
}

// speaking finds what a sentence for the client tells, and returns whether it speaks in
// an outcome. What an amendment took away never does.
func (c *compiler) speaking(n *document.Node) func(*Outcome) bool {
	id := n.Text()
	for _, d := range c.book.decisions {
		if named := func(l *Limit) bool { return l.ID == id }; slices.ContainsFunc(d.limits, named) {
			return func(o *Outcome) bool {
				return slices.ContainsFunc(o.Crossed, func(x *Crossed) bool { return named(x.Limit) && x.Variance == nil })
			}
		}
		if i := slices.IndexFunc(d.Rules, func(r *Rule) bool { return r.ID == id }); i >= 0 {
			return func(o *Outcome) bool {
				decided, came := o.Came(d)
				return came && decided.Asked && decided.States[i] == rulebook.Chosen
			}
		}
	}
	if named := func(x *Check) bool { return x.ID == id }; slices.ContainsFunc(c.book.checks, named) {
		return func(o *Outcome) bool {
			return slices.ContainsFunc(o.Checks, func(x *Checked) bool { return named(x.Check) && !x.Holds })
		}
	}
	if named := func(x *Caution) bool { return x.ID == id }; slices.ContainsFunc(c.book.cautions, named) {
		return func(o *Outcome) bool { return slices.ContainsFunc(o.Cautions, named) }
	}
	if named := func(x *Refusal) bool { return x.ID == id }; slices.ContainsFunc(c.book.refusals, named) {
		return func(o *Outcome) bool { return slices.ContainsFunc(o.Refusals, named) }
	}
	if !slices.ContainsFunc(c.book.lifted, func(l *lifted) bool { return l.entry.id() == id }) {
		var ids []string
		for _, d := range c.book.decisions {
			ids = append(ids, namesIn(d.Rules, func(r *Rule) string { return r.ID })...)
		}
		fault(&c.faults, n, language.CodeUnknownName, "no rule, limit, check, caution or refusal is called "+id, id, "the id of a rule, a limit, a check, a caution or a refusal", ids...)
	}
	return func(*Outcome) bool { return false }
}
