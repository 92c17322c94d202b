package engine

import (
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

func (c *compiler) sources() {
	for _, k := range []value.Known{value.Practice, value.Own, value.Company} {
		c.book.sources[string(k)] = value.Source{ID: string(k), Known: k}
	}
	first := map[string]*document.Node{}
	for _, n := range c.in.of[sourceSort] {
		e := c.r.open(n, "a source")
		known := e.Get("known")
		s := value.Source{ID: n.id(), Document: e.NeedText("document"), Clause: e.Text("clause"), Known: value.Known(e.NeedText("known")), Via: e.Text("via"), Note: e.Text("note")}
		e.Done()
		if !s.Known.Valid() {
			c.notOneOf(known, codeTag, "this is not a way of knowing", namesIn(value.AllKnown(), func(k value.Known) string { return string(k) })...)
		}
		if _, taken := c.book.sources[s.ID]; taken {
			twice(&c.faults, n.name, first[s.ID], "the source is there already", s.ID, "", "it was declared here first")
			continue
		}
		first[s.ID] = n.name
		c.book.sources[s.ID] = s
		c.book.declared[s.ID] = rulebook.Source{Place: n.place(), Amended: n.amended}
	}
}

// sourceOf reads "id" or "id, clause".
func (c *compiler) sourceOf(n *document.Node) value.Source {
	if n == nil {
		return value.Source{}
	}
	if n.Shape() != document.Scalar {
		c.notScalar(n, "a source")
		return value.Source{}
	}
	id, clause, _ := strings.Cut(n.Text(), ",")
	id, clause = strings.TrimSpace(id), strings.TrimSpace(clause)
	s, ok := c.book.sources[id]
	if !ok && c.in.gone[id] != nil {
		c.readsGone(id, n.Place())
		return value.Source{}
	}
	if !ok {
		fault(&c.faults, n, codeSource, "no source is called "+id, id, "practice, own, company, or a name under sources", slices.Sorted(maps.Keys(c.book.sources))...)
		return value.Source{}
	}
	if clause != "" {
		s.Clause = clause
	}
	c.ownSource(n, &s, clause != "")
	return s
}

// ownSource holds a source that an amendment gives to what it changes: the
// company's standard bears the company's name, and a publication of the rulebook
// is named with the place that says so.
func (c *compiler) ownSource(n *document.Node, s *value.Source, placed bool) {
	by := c.in.own[n.Place().File]
	switch {
	case by == nil:
	case s.Known == value.Company && s.Document == "":
		s.Document = by.Company
	case s.Known == value.Own:
		fault(&c.faults, n, codeSource, "own is the rulebook's own choice, and this is an amendment", n.Text(), "company, practice, or the name of a source")
	case s.Published() && !placed && c.book.declared[s.ID].Amended == nil:
		fault(&c.faults, n, codeSource, "this document does not say what an amendment says", n.Text(), "company, or the place in the document after a comma, as in "+s.ID+", table 2")
	}
}
