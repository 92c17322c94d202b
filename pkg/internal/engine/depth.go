package engine

import (
	"slices"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// depths keeps the depth that rules read the same as that of the courses. The rulebook
// sums its own courses; to the term of [Setup.Added] this adds the thickness of each
// course that amendments add, and takes off that of each which they take away. Each is a
// decision of its own: the thickness where the course is laid, and 0 where it is not.
func (c *compiler) depths() {
	terms := slices.Clone(c.in.of[termSort])
	at := slices.IndexFunc(terms, func(e *entry) bool { return e.id() == c.setup.Added })
	if at < 0 {
		return
	}
	was := terms[at].node.Field("value")
	sum := []document.Piece{{Text: was.Text(), At: was}}
	count := func(sign, prefix string, n *entry, by *rulebook.Amended) {
		if thickness := n.node.Field("attributes").Field(c.setup.Thickness); thickness != nil {
			d := depthOf(n, prefix, thickness, by)
			c.in.decisions = append(c.in.decisions, d)
			sum = append(sum, document.Piece{Text: sign + d.Name, At: was})
		}
	}
	for _, n := range c.in.of[courseSort] {
		first := n.first
		if first == nil && (n.amended == nil || len(n.amended.Replaced) > 0) {
			first = n // of the rulebook, where it was or moved
		}
		switch {
		case n.lifted != nil && n.instead == nil && first != nil:
			count(" - ", "depth_without_", first, n.lifted)
		case n.lifted == nil && first == nil:
			count(" + ", "depth_of_", n, n.amended)
		case n.lifted == nil && first != n && !thickAlike(n.node, first.node, c.setup.Thickness):
			count(" + ", "depth_of_", n, n.amended)
			count(" - ", "depth_without_", first, n.amended)
		}
	}
	if len(sum) > 1 {
		term := *terms[at]
		term.node = term.node.With(document.Gather(document.Field{Key: document.Key("value", was), Value: document.Join(sum, "")}))
		terms[at] = &term
		c.in.of[termSort] = terms
	}
}

// thickAlike reports whether two entries of a course are as thick as each other, and are
// laid on the same jobs.
func thickAlike(n, other *document.Node, thickness string) bool {
	return n.Field("when").Text() == other.Field("when").Text() && n.Field("attributes").Field(thickness).Text() == other.Field("attributes").Field(thickness).Text()
}

// depthOf is the decision that answers how much a course counts for the depth.
func depthOf(n *entry, prefix string, thickness *document.Node, by *rulebook.Amended) *decisionEntry {
	e := &entry{sort: decisionSort, name: document.Key(prefix+n.id(), n.name), node: n.node, chapter: n.chapter, amended: by}
	d := &decisionEntry{entry: e, answers: n.made("length"), take: n.made(string(rulebook.First))}
	d.Decision = rulebook.Decision{Name: e.id(), Asks: "How much does the course " + n.node.Field("label").Text() + " count for the depth?", Kind: value.Kind("length"),
		Take: rulebook.First, Place: n.place(), Chapter: n.chapter, Amended: by}
	for _, bound := range [][2]string{{"-NOT-LESS", "at_least"}, {"-NOT-MORE", "at_most"}} {
		d.limits = append(d.limits, e.part(limitSort, bound[0], n.field(bound[1], n.made(ByRules)), n.field("because", n.made("It counts as thick as it is laid."))))
	}
	when := n.node.Field("when")
	d.rules = append(d.rules, e.part(ruleSort, "-LAID", n.field("answer", thickness), n.field("because", n.node.Field("because")), n.field("when", when)))
	if when != nil {
		d.rules = append(d.rules, e.part(ruleSort, "-NOT", n.field("answer", n.made("inches(0)")), n.field("because", n.made("It is not laid here."))))
	}
	return d
}
