package engine

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Limit is a limit of the answers of a decision.
type Limit struct {
	rulebook.Bound
	When     *Condition
	limit    *Expression // for at_least and at_most, nil for one of what the rules answer
	Because  *Template
	variance *rulebook.Variance // in force; Value is how far an answer may go
}

// Permitted reports whether a variance lets answers cross the limit.
func (l *Limit) Permitted() bool { return l.variance != nil }

// Crossed is an answer beyond a limit of its decision.
type Crossed struct {
	Decided *Decided
	Limit   *Limit
	// Value of the limit, for one that compares.
	Value value.Value
	// Overrides and Amended are whose doing it is.
	Overrides []Override
	Amended   []rulebook.Amended
	// Variance permits it, nil if nothing does.
	Variance *rulebook.Variance
}

// ByRules is what is written in a limit that holds a person to what the rules
// answer.
const ByRules = "by_rules"

// limit compiles a limit of a decision whose answers are of a kind.
func (c *compiler) limit(d *Decision, n *entry, kind value.Kind, given language.Given) *Limit {
	e := c.begin(n, "a limit")
	out := &Limit{Bound: rulebook.Bound{ID: n.id(), Decision: n.of, Place: n.place(), Chapter: n.chapter, Amended: n.amended}}
	t := &out.Bound
	t.When, out.When, given = c.when(e.Get("when"), given)
	given[d.Name] = true // its answer is there when it is held to the limit
	atLeast, atMost, oneOf, noneOf := e.Get("at_least"), e.Get("at_most"), e.Get("one_of"), e.Get("none_of")
	t.AtLeast, t.AtMost, t.OneOf, t.NoneOf = text(atLeast), text(atMost), c.limitWords(oneOf, kind), c.limitWords(noneOf, kind)
	t.Because, out.Because = c.sentence(e.Need("because"), given)
	t.Source = c.sourceOf(e.Need("source"))
	if len(present(atLeast, atMost, oneOf, noneOf)) != 1 && n.node.Shape() == document.Mapping {
		fault(&c.r.faults, cmp.Or(n.name, n.node), codeCheck, "a limit says one thing", "", "one of at_least, at_most, one_of and none_of")
	}
	e.Done()
	if bound := cmp.Or(atLeast, atMost); bound != nil {
		if !language.IsOrdered(kind) {
			fault(&c.faults, bound, codeNoOrder, "answers of this kind have no order", string(kind), "one_of or none_of")
		} else if bound.Text() != ByRules {
			out.limit = c.expression(bound, kind, given)
		}
	}
	v := varies(c.in.variances, func(v *varianceEntry) bool { return v.Bound == t.ID })
	if v != nil && v.to != nil && !v.waits {
		granted := v.Variance
		if to, ok := c.literal(v.to, kind); ok {
			granted.Value = to
			out.variance = &granted
			c.book.variances = append(c.book.variances, granted)
		}
	}
	return out
}

// present lists the nodes that are there.
func present(nodes ...*document.Node) []*document.Node {
	return slices.DeleteFunc(nodes, func(n *document.Node) bool { return n == nil })
}

func (c *compiler) limitWords(list *document.Node, kind value.Kind) []value.Word {
	if list == nil {
		return nil
	}
	if list.Shape() != document.Sequence || len(list.Items()) == 0 {
		fault(&c.faults, list, document.CodeNotList, "these are written as a list of words", "", "[one, another]")
		return nil
	}
	var out []value.Word
	for _, n := range list.Items() {
		if v, ok := c.literal(n, kind); ok {
			w, isWord := v.Word()
			if !isWord {
				fault(&c.faults, n, codeNoOrder, "only words are named one by one", string(kind), "at_least or at_most")
				return nil
			}
			out = append(out, w)
		}
	}
	return out
}

// keepLimits holds a decision that an amendment puts in another's place in a
// course to the limits of that other, so that no limit is got around.
func (c *compiler) keepLimits(first *entry, attribute string, now *Decision) {
	was, ok := c.book.byName[strings.TrimSpace(first.node.Field("attributes").Field(attribute).Text())].(*Decision)
	if !ok || was == now || was.Kind != now.Kind {
		return
	}
	for _, l := range was.limits {
		if !slices.Contains(now.limits, l) {
			now.limits = append(now.limits, l)
		}
	}
}

// allLimits holds every answer to the limits of its decision.
func (r *run) allLimits(out *Outcome) error {
	for _, d := range out.Decided {
		if !d.Asked {
			continue
		}
		for _, l := range d.Decision.limits {
			if !r.moved[d.Decision.Name] && r.stays(l.When, l.limit) && !slices.ContainsFunc(r.first.Crossed, func(c *Crossed) bool { return c.Limit == l }) {
				continue
			}
			crossed, err := r.crosses(d, l)
			if err != nil {
				return err
			}
			if crossed == nil {
				continue
			}
			if crossed.Overrides, crossed.Amended = r.causes(d, l); len(crossed.Overrides)+len(crossed.Amended) == 0 {
				return r.ownFault(d, l, crossed.Value)
			}
			out.Crossed = append(out.Crossed, crossed)
		}
	}
	return nil
}

// Beyond returns a limit that an answer is beyond without permission, nil if there
// is none. It asks anew, whatever was found before.
func (o *Outcome) Beyond(d *Decided) (*Limit, error) {
	if !d.Asked {
		return nil, nil
	}
	for _, l := range d.Decision.limits {
		crossed, err := o.run.crosses(d, l)
		if err != nil {
			return l, err
		}
		if crossed != nil && crossed.Variance == nil {
			return l, nil
		}
	}
	return nil, nil
}

// crosses returns what is crossed if an answer is beyond a limit, else nil.
func (r *run) crosses(d *Decided, l *Limit) (*Crossed, error) {
	in := place{name: d.Decision.Name, rule: l.ID}
	applies, err := r.holds(l.When, in)
	if err != nil || !applies {
		return nil, err
	}
	out := &Crossed{Decided: d, Limit: l}
	switch {
	case l.limit != nil:
		if out.Value, err = r.eval(l.limit, in); err != nil {
			return nil, err
		}
	case l.orders():
		if out.Value = d.Instead; d.Override == nil || d.Instead.IsZero() {
			return nil, nil
		}
	}
	words := l.OneOf
	if l.OneOf == nil {
		words = l.NoneOf
	}
	if !l.beyond(d.Answer, out.Value, words) {
		return nil, nil
	}
	if v := l.variance; v != nil && !l.beyond(d.Answer, v.Value, []value.Word{wordOf(v.Value)}) {
		out.Variance = v
	}
	return out, nil
}

// orders reports whether the limit is at_least or at_most.
func (l *Limit) orders() bool { return l.AtLeast != (rulebook.Text{}) || l.AtMost != (rulebook.Text{}) }

func wordOf(v value.Value) value.Word {
	w, _ := v.Word()
	return w
}

// beyond reports whether an answer is beyond a limit of this value or of these
// words.
func (l *Limit) beyond(answer, limit value.Value, words []value.Word) bool {
	if elements, ok := answer.List(); ok {
		return slices.ContainsFunc(elements, func(v value.Value) bool { return l.beyond(v, limit, words) })
	}
	if l.orders() {
		order, comparable := answer.Compare(limit)
		return !comparable || order < 0 && l.AtLeast != (rulebook.Text{}) || order > 0 && l.AtMost != (rulebook.Text{})
	}
	is := wordOf(answer)
	named := slices.ContainsFunc(words, func(w value.Word) bool { return is.Is(w.Name) })
	return named == (l.OneOf == nil)
}

// causes tells whose doing it is that an answer is beyond a limit: a person who
// took a decision over on which it rests, or whoever amended the rulebook there.
func (r *run) causes(d *Decided, l *Limit) (overrides []Override, amended []rulebook.Amended) {
	note := func(a *rulebook.Amended) {
		if a != nil && !slices.ContainsFunc(amended, func(b rulebook.Amended) bool { return b.Place == a.Place }) {
			amended = append(amended, *a)
		}
	}
	note(l.Amended)
	seen := map[string]bool{}
	var walk func(name string)
	walk = func(name string) {
		if seen[name] {
			return
		}
		seen[name] = true
		switch e := r.book.byName[name].(type) {
		case *Setting:
			note(e.Amended)
			note(r.book.words[wordOf(e.Value).Name].Amended)
		case *Term:
			note(e.Amended)
		case *Decision:
			note(e.Amended)
			if o := r.overrides[name]; o != nil {
				overrides = append(overrides, o.Override)
			}
			for _, rule := range e.Rules {
				note(rule.Amended)
			}
			for _, gone := range e.lifted {
				note(gone.entry.lifted)
			}
			if done := r.decided[e.index]; done != nil {
				note(r.book.words[wordOf(done.Answer).Name].Amended)
			}
		}
		for _, each := range reads(r.book.byName[name]) {
			walk(each)
		}
	}
	walk(d.Decision.Name)
	for _, name := range namesOf(l.When, l.limit) {
		walk(name)
	}
	return overrides, amended
}

// ownFault is the error of a rulebook that crosses its own limit.
func (r *run) ownFault(d *Decided, l *Limit, limit value.Value) error {
	out := &rulebook.RunError{In: d.Decision.Name, Place: d.Decision.Place, Against: l.ID,
		Err:    fmt.Errorf("%w: %s, where limit %s at %s says %s", rulebook.ErrCrossed, d.Answer.Text(quantity.US), l.ID, l.Place, l.Says(limit, quantity.US)),
		Values: r.values(conditionNames(d.Decision))}
	if d.Rule != nil {
		out.Rule, out.Place, out.Text = d.Rule.ID, d.Rule.Place, d.Rule.Answer.Text
	}
	return out
}

// Says writes the limit in words, with its value if it compares.
func (l *Limit) Says(limit value.Value, system quantity.System) string {
	how, of := l.Wants(limit, system)
	return strings.ReplaceAll(how, "_", " ") + " " + of
}

// Wants returns how the limit bounds an answer, at_least, at_most, one_of or none_of, and
// of what, in words.
func (l *Limit) Wants(limit value.Value, system quantity.System) (how, of string) {
	words := func(words []value.Word) string {
		return strings.Join(namesIn(words, func(w value.Word) string { return system.Name(w.Label) }), ", ")
	}
	switch {
	case l.AtLeast != rulebook.Text{}:
		return "at_least", limit.Text(system)
	case l.AtMost != rulebook.Text{}:
		return "at_most", limit.Text(system)
	case l.OneOf != nil:
		return "one_of", words(l.OneOf)
	}
	return "none_of", words(l.NoneOf)
}
