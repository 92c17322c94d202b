package engine

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
)

// uses lists the terms and decisions that a term or a decision needs before it
// can be worked out, in the order of the text.
func (b *Book) uses(entry any) []string {
	var out []string
	add := func(names []string) {
		for _, n := range names {
			switch b.byName[n].(type) {
			case *Term, *Decision:
				if !slices.Contains(out, n) {
					out = append(out, n)
				}
			}
		}
	}
	condition := func(c *Condition) {
		if c != nil {
			add(c.source.Names)
		}
	}
	expression := func(x *Expression) {
		if x != nil {
			add(x.source.Names)
		}
	}
	switch e := entry.(type) {
	case *Term:
		condition(e.when)
		condition(e.condition)
		expression(e.expr)
	case *Decision:
		condition(e.when)
		for _, r := range e.Rules {
			condition(r.when)
			expression(r.answer)
		}
	}
	return out
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
		if d, ok := c.book.byName[name].(*Decision); ok {
			c.book.order = append(c.book.order, d)
		}
	}
	for _, t := range c.book.terms {
		visit(t.Name)
	}
	for _, d := range c.book.decisions {
		visit(d.Name)
	}
}

func (c *compiler) circle(way []string) {
	d := &diagnostic.Diagnostic{Place: c.declared[way[0]], Width: len(way[0]), Code: codeCircle, Message: "these need each other",
		Found: strings.Join(way, " needs "), Wanted: "an order in which each can be worked out before it is used"}
	for _, name := range way[1 : len(way)-1] {
		d.Related = append(d.Related, diagnostic.Related{Place: c.declared[name], Message: name + " is declared here"})
	}
	c.faults.Add(d)
}
