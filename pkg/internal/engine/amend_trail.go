package engine

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// trail tells who changed an entry, why, and what it was.
func trail(e *amendment, c *change, old *entry) *rulebook.Amended {
	out := &rulebook.Amended{By: e.Amendment, Because: e.Why, Place: c.node.Place()}
	if because := cmp.Or(c.because, c.with.Field("because"), c.set.Field("because")); because != nil {
		out.Because = because.Text()
	}
	if old == nil {
		return out
	}
	was := rulebook.Replaced{ID: old.id(), Place: old.place()}
	next := c.with
	if c.set != nil {
		next = old.node.With(c.set, properties)
	}
	for _, f := range old.node.Fields() {
		if key := f.Key.Text(); key != string(old.sort) && next != nil {
			was.Was = append(was.Was, differing(key, f.Value, next.Field(key))...)
		}
	}
	if old.amended != nil {
		was.By = &old.amended.By
		out.Replaced = append(out.Replaced, old.amended.Replaced...)
	}
	out.Replaced = slices.Insert(out.Replaced, 0, was)
	return out
}

// differing tells what was written under a key where something else is now: of a
// mapping each of its keys.
func differing(key string, was, now *document.Node) []rulebook.Was {
	if was.Shape() == document.Mapping {
		var out []rulebook.Was
		for _, f := range was.Fields() {
			out = append(out, differing(key+"."+f.Key.Text(), f.Value, now.Field(f.Key.Text()))...)
		}
		return out
	}
	if now != nil && now.Shape() == was.Shape() && asWritten(now) == asWritten(was) {
		return nil
	}
	return []rulebook.Was{{Key: key, Text: asWritten(was)}}
}

// asWritten is the text of a scalar, and of a list those of its items.
func asWritten(n *document.Node) string {
	if n.Shape() == document.Sequence {
		return strings.Join(namesIn(n.Items(), (*document.Node).Text), ", ")
	}
	return n.Text()
}
