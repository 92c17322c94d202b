package engine

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// amendment is an amendment as written.
type amendment struct {
	rulebook.Amendment
	node      *document.Node // of its name
	over      []*document.Node
	under     map[*amendment]bool // all that it builds on, directly or not
	changes   []*change
	variances []*varianceEntry
}

// change is one entry added, replaced, retired or moved.
type change struct {
	does          string
	node          *document.Node
	sort          sort
	name          *document.Node // of the entry that is changed or added
	set, with     *document.Node // named keys alone, or the whole entry that takes its place
	to            *document.Node // the decision or vocabulary that an added entry belongs to
	before, after *document.Node // the entry beside which it goes
	because       *document.Node
	from, until   rulebook.Date
	keys          []string // of an added entry, beside those of its sort
}

type varianceEntry struct {
	rulebook.Variance
	node, to *document.Node
	of       *document.Node // the setting, limit or entry that it is for
	// waits reports whether it does not hold yet on the day of the design.
	waits bool
	// used reports whether it permits something that is done.
	used bool
}

// The four things that a change does.
const (
	adds     = "add"
	replaces = "replace"
	retires  = "retire"
	moves    = "move"
)

// amendment reads one amendment file.
func (r *reader) amendment(root *document.Node) *amendment {
	e := root.Entry("an amendment", &r.faults)
	a := &amendment{node: e.Get("amendment")}
	a.Name, a.Who, a.Why, a.Company, a.Place = e.NeedText("amendment"), e.NeedText("who"), e.NeedText("why"), e.NeedText("company"), cmp.Or(a.node, root).Place()
	r.chapter = "amendment " + a.Name
	unseen(&r.faults, e.Get("why"))
	a.When = r.date(e.Need("when"))
	a.From, a.Until = r.span(e)
	if n := e.Get("over"); n.Shape() == document.Scalar {
		a.over = []*document.Node{n}
	} else {
		a.over = e.Items("over")
	}
	a.Over = append(a.Over, namesIn(a.over, (*document.Node).Text)...)
	for _, does := range []string{adds, replaces, retires, moves} {
		for _, n := range e.Items(does) {
			if c := r.change(does, n); c != nil {
				a.changes = append(a.changes, c)
			}
		}
	}
	for _, n := range e.Items("variances") {
		a.variances = append(a.variances, r.variance(n))
	}
	r.formOfChapters(root, e)
	e.Done()
	return a
}

// formOfChapters reports the lists of a chapter in an amendment, where each change
// stands under what it does.
func (r *reader) formOfChapters(root *document.Node, e *document.Entry) {
	for _, f := range root.Fields() {
		key := f.Key.Text()
		for _, s := range allSorts {
			if slices.Contains([]string{string(s), string(s) + "s", "new_" + string(s) + "s", strings.TrimSuffix(string(s), "y") + "ies"}, key) {
				e.Get(key)
				fault(&r.faults, f.Key, codeChange, "the changes of an amendment stand under what they do", key, "under add, replace, retire or move an item such as - "+string(s)+": NAME")
			}
		}
	}
}

// span reads the days from which and until which something holds.
func (r *reader) span(e *document.Entry) (from, until rulebook.Date) {
	first, last := document.Span(e.Get("from"), e.Get("until"), &r.faults)
	return dateOf(first), dateOf(last)
}

// date reads a day; the zero Date if there is none, or if it is reported.
func (r *reader) date(n *document.Node) rulebook.Date { return dateOf(n.Day(&r.faults)) }

func dateOf(day string) rulebook.Date {
	d, _ := rulebook.ParseDate(day) // it was read as one
	return d
}

// change reads one change, nil if it does not say what it changes.
func (r *reader) change(does string, n *document.Node) *change {
	c := &change{does: does, node: n}
	if n.Shape() != document.Mapping {
		n.Entry("a change", &r.faults)
		return nil
	}
	for _, s := range allSorts {
		if n.Field(string(s)) != nil {
			c.sort, c.name = s, n.Field(string(s))
			break
		}
	}
	if c.sort == "" {
		names := namesIn(allSorts, func(s sort) string { return string(s) })
		found := ""
		if fields := n.Fields(); len(fields) > 0 {
			found = fields[0].Key.Text()
		}
		fault(&r.faults, n, codeChange, "the change does not say what it is of", found, "a line such as setting: NAME, with one of "+strings.Join(names, ", "), names...)
		return nil
	}
	e := n.Entry("a change", &r.faults)
	e.NeedText(string(c.sort))
	c.from, c.until = r.span(e)
	if does == adds || does == moves {
		c.before, c.after = oneText(e, "before"), oneText(e, "after")
	}
	if c.before != nil && c.after != nil {
		fault(&r.faults, c.after, codeChange, "an entry goes before another or after one, not both", "", "before or after")
	}
	if does == adds {
		if !r.addition(c, e) {
			return nil
		}
		return c
	}
	c.because = oneText(e, "because")
	switch does {
	case replaces:
		c.set, c.with = e.Get("set"), e.Get("with")
		if (c.set == nil) == (c.with == nil) {
			r.unclearReplacement(c)
			return nil
		}
	case moves:
		if e.Get("before") == nil && e.Get("after") == nil {
			fault(&r.faults, n, codeChange, "the change does not say where the "+string(c.sort)+" goes", "", "before: or after: another "+string(c.sort))
		}
	}
	switch {
	case does == retires || does == moves:
		e.NeedText("because")
	case c.because == nil && !saysWhy(c.with, true) && !saysWhy(c.set, false) && !saysWhy(n, false):
		fault(&r.faults, n, codeChange, "the change does not say why", "", "because: WHY, of the change or of what it sets")
	}
	e.Done()
	return c
}

// unclearReplacement reports a replacement that gives neither the keys that change
// nor a whole entry, or both.
func (r *reader) unclearReplacement(c *change) {
	at, found := c.node, ""
	message := "a replacement says what changes, or what takes the whole entry's place"
	if c.set != nil {
		message = "a replacement says what changes or gives the whole entry, not both"
	}
	for _, f := range c.node.Fields() {
		if key := f.Key.Text(); c.set == nil && !slices.Contains([]string{string(c.sort), "from", "until", "because", "set", "with"}, key) {
			at, found, message = f.Key, key, "the keys that change stand under set"
			break
		}
	}
	fault(&r.faults, at, codeChange, message, found, "set: with the keys that change, or with: a whole "+string(c.sort))
}

// saysWhy reports whether a mapping has a because, or a key that is most likely meant as
// that and is reported as unknown; one left empty is none, but is reported of a whole
// entry.
func saysWhy(n *document.Node, isWhole bool) bool {
	return slices.ContainsFunc(n.Fields(), func(f document.Field) bool {
		if f.Key.Text() == "because" {
			return isWhole || !f.Value.Null()
		}
		return diagnostic.Nearest(f.Key.Text(), []string{"because"}) != ""
	})
}

// oneText returns the node of a key that has one text, nil if there is none; what is no
// text is reported.
func oneText(e *document.Entry, key string) *document.Node {
	if e.Text(key) == "" {
		return nil
	}
	return e.Get(key)
}

// addition reads what an added entry says beside what it would say in a chapter, and
// reports whether it has a name.
func (r *reader) addition(c *change, e *document.Entry) bool {
	c.with = c.node
	c.keys = []string{"before", "after", "from", "until"}
	where := func(what, wanted string) {
		if c.to == nil && e.Get("before") == nil && e.Get("after") == nil {
			fault(&r.faults, c.node, codeChange, "the change does not say where the "+what+" goes", "", wanted)
		}
	}
	switch c.sort {
	case ruleSort, limitSort:
		c.to = e.Get("to")
		c.keys = append(c.keys, "to")
		where(string(c.sort), "to: the name of a decision, or before: or after: a "+string(c.sort))
	case courseSort:
		where("course", "after: the course that it lies on, or before: the course that lies on it")
	case stepSort:
		where("step", "after: the step that it follows, or before: the step that follows it")
	case wordSort:
		c.to = e.Need("to")
		c.keys = append(c.keys, "to")
	case decisionSort, cautionSort, refusalSort, sourceSort, kindSort:
		c.because = oneText(e, "because") // these have no because of their own
		c.keys = append(c.keys, "because")
	}
	if !slices.ContainsFunc(sections, func(s section) bool { return s.sort == c.sort && s.listed }) && c.sort != ruleSort && c.sort != limitSort {
		return r.named(c.name) // an expression must be able to write it
	}
	return true
}

func (r *reader) variance(n *document.Node) *varianceEntry {
	e := n.Entry("a variance", &r.faults)
	v := &varianceEntry{node: n}
	v.Variance = rulebook.Variance{Name: e.NeedText("variance"), Setting: e.Text("setting"), Bound: e.Text("limit"), Retires: e.Text("retires"),
		Who: e.NeedText("who"), Why: e.NeedText("why"), Until: r.date(e.Need("until")), Place: n.Place()}
	v.From, _ = r.span(e)
	v.to = e.Get("to")
	given := present(e.Get("setting"), e.Get("limit"), e.Get("retires"))
	switch {
	case n.Shape() != document.Mapping:
	case len(given) != 1:
		fault(&r.faults, n, codeChange, "a variance is for one thing", "", "setting: a setting, limit: a limit, or retires: what an amendment takes away")
	default:
		if v.of = given[0]; v.to == nil && v.Retires == "" {
			fault(&r.faults, n, codeChange, "the variance does not say how far", "", "to: the value that is permitted")
		}
	}
	e.Done()
	return v
}
