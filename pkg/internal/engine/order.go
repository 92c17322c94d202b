package engine

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
)

// reads lists the names that a term or a decision reads, in the order of the
// text, each once.
func reads(entry any) []string {
	switch e := entry.(type) {
	case *Term:
		return namesOf(e.When, e.TermCondition, e.expr)
	case *Decision:
		parts := []reading{e.When}
		for _, r := range e.Rules {
			parts = append(parts, r.When, r.answer)
		}
		return namesOf(parts...)
	}
	return nil
}

// reading is a condition or an expression; either may be a nil pointer.
type reading interface{ Names() []string }

// readsAny reports whether any of the parts reads a name of a set.
func readsAny(set map[string]bool, parts ...reading) bool {
	for _, part := range parts {
		if slices.ContainsFunc(part.Names(), func(name string) bool { return set[name] }) {
			return true
		}
	}
	return false
}

func namesOf(parts ...reading) []string {
	var out []string
	for _, part := range parts {
		for _, name := range part.Names() {
			if !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

// uses lists the terms and decisions that a term or a decision needs before it
// can be worked out, in the order of the text.
func (b *Book) uses(entry any) []string {
	return slices.DeleteFunc(reads(entry), func(name string) bool {
		switch b.byName[name].(type) {
		case *Term, *Decision:
			return false
		}
		return true
	})
}

// order sorts the decisions by use, and reports every circle with the whole of
// its way.
func (c *compiler) order() {
	const (
		fresh = iota
		open
		done
	)
	marks := map[string]int{}
	c.book.readers, c.book.askedBy = map[string][]int{}, map[string][]int{}
	for i, clause := range c.book.clauses {
		for _, name := range clause.Names {
			c.book.askedBy[name] = append(c.book.askedBy[name], i)
		}
	}
	var path []string
	var visit func(name string)
	visit = func(name string) {
		switch marks[name] {
		case done:
			return
		case open:
			c.circle(append(path[slices.Index(path, name):len(path):len(path)], name))
			return
		}
		marks[name] = open
		path = append(path, name)
		for _, used := range c.book.uses(c.book.byName[name]) {
			visit(used)
		}
		path = path[:len(path)-1]
		marks[name] = done
		for _, used := range reads(c.book.byName[name]) {
			c.book.readers[used] = append(c.book.readers[used], len(c.book.sequence))
		}
		if d, ok := c.book.byName[name].(*Decision); ok {
			d.at = len(c.book.sequence)
			c.book.order = append(c.book.order, d)
		}
		c.book.sequence = append(c.book.sequence, name)
	}
	for _, t := range c.book.terms {
		visit(t.Name)
	}
	for _, d := range c.book.decisions {
		visit(d.Name)
	}
}

// touch marks the terms and decisions that read a name, by their place in the sequence.
func (b *Book) touch(name string, marks []bool) {
	for _, at := range b.readers[name] {
		marks[at] = true
	}
}

func (c *compiler) circle(way []string) {
	d := fault(&c.faults, c.declared[way[0]], codeCircle, "these need each other", strings.Join(way, " needs "), "an order in which each can be worked out before it is used")
	for _, name := range way[1 : len(way)-1] {
		d.Related = append(d.Related, diagnostic.Related{Place: placeOf(c.declared[name]), Message: name + " is declared here"})
	}
}
