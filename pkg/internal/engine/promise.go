package engine

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Promise is what the rulebook owes on every job that gets a section.
type Promise struct {
	rulebook.Promise
	When, Always, Never *Condition // Always and Never are nil where it says neither
	as                  string
	rises               bool
	then                *Expression
	neverRises          bool
	Why                 *Template
}

// Promises returns every promise in the order of the files.
func (b *Book) Promises() []*Promise { return slices.Clone(b.promises) }

// As returns the input or the decision that moves, and whether it rises; "" for a
// promise about one job at a time.
func (p *Promise) As() (name string, rises bool) { return p.as, p.rises }

// Then returns what never falls, or never rises, as that moves.
func (b *Book) Then(p *Promise) (f Formula, neverRises bool) { return Formula{b, p.then}, p.neverRises }

// Breaks reports whether the job breaks a promise about one job at a time.
func (o *Outcome) Breaks(p *Promise) (bool, error) {
	in := place{sort: "promise", name: p.ID}
	if about, err := o.run.holds(p.When, in); err != nil || !about || p.as != "" {
		return false, err
	}
	if p.Never != nil {
		return o.run.holds(p.Never, in)
	}
	kept, err := o.run.holds(p.Always, in)
	return !kept, err
}

// Reach returns what a promise that compares jobs looks at: the value that never
// falls or rises. ok is false where the job is not among those that it is about, or
// has no such value.
func (o *Outcome) Reach(p *Promise) (v value.Value, ok bool) {
	in := place{sort: "promise", name: p.ID}
	if about, err := o.run.holds(p.When, in); err != nil || !about {
		return value.Value{}, false
	}
	v, err := o.run.eval(p.then, in)
	return v, err == nil
}

// ways are the ends of what a promise says of a value that moves.
var ways = map[string]bool{"rises": true, "falls": false}

// promise compiles a promise.
func (c *compiler) promise(n *entry) *Promise {
	e := c.begin(n, "a promise")
	out := &Promise{Promise: rulebook.Promise{ID: n.id(), Place: n.place(), Chapter: n.chapter, Amended: n.amended}}
	t := &out.Promise
	var given language.Given
	t.When, out.When, given = c.when(e.Get("when"), nil)
	always, never, as, then := e.Get("always"), e.Get("never"), e.Get("as"), e.Get("then")
	t.Always, t.Never, t.As, t.Then = text(always), text(never), text(as), text(then)
	t.Because, out.Why = c.sentence(e.Need("because"), given)
	t.Source = c.sourceOf(e.Need("source"))
	e.Done()
	if len(present(always, never, as)) != 1 || (as == nil) != (then == nil) {
		fault(&c.faults, cmp.Or(n.name, n.node), codePromise, "a promise says one thing", "", "always, or never, with a condition; or as with then")
		return out
	}
	out.Always, out.Never = c.condition(always, given), c.condition(never, given)
	if as != nil {
		c.moving(as, then, out)
	}
	return out
}

// moving compiles a promise of what happens to one value as another moves.
func (c *compiler) moving(as, end *document.Node, out *Promise) {
	name, rises, ok := c.way(as, "", "support_cbr falls")
	if !ok {
		return
	}
	out.as, out.rises = name, rises
	_, isInput := c.book.byName[name].(rulebook.Input)
	d, isDecision := c.book.byName[name].(*Decision)
	declared, _ := c.book.env.NameOf(name)
	element, isList := declared.Kind.Element()
	switch {
	case !isInput && !isDecision:
		fault(&c.faults, as, codePromise, "only an input or a decision moves by itself", name, "the name of an input or of a decision", c.book.movable()...)
	case isDecision && d.When != nil:
		fault(&c.faults, as, codePromise, name+" is not asked on every job", name, "an input, or a decision that is always asked")
	case !language.IsOrdered(declared.Kind) && !(isList && language.IsOrdered(element)):
		fault(&c.faults, as, codeNoOrder, "values of this kind have no order", string(declared.Kind), "a number or a quantity")
	}
	then, neverRises, ok := c.way(end, "never ", "stone_need never falls")
	if !ok {
		return
	}
	out.neverRises = neverRises
	x, faults := c.book.env.Expression(then, value.NoKind, c.book.everyName())
	if c.report(end, 0, faults) {
		return
	}
	out.then = &Expression{source: x, node: end}
	if !language.IsOrdered(x.Kind) && x.Kind != value.BoolKind {
		fault(&c.faults, end, codeNoOrder, "values of this kind have no order", string(x.Kind), "a number, a quantity, or a comparison, which never lapses")
	}
}

// way splits "NAME falls", or "EXPRESSION never falls", at its end.
func (c *compiler) way(n *document.Node, never, sample string) (what string, rises, ok bool) {
	said := strings.TrimSpace(n.Text())
	for word, up := range ways {
		if cut, has := strings.CutSuffix(said, " "+never+word); has {
			return strings.TrimSpace(cut), up, true
		}
	}
	if cut, has := strings.CutSuffix(said, " never lapses"); has && never != "" {
		return strings.TrimSpace(cut), false, true
	}
	fault(&c.faults, n, codePromise, "this does not say which way it goes", said, sample)
	return "", false, false
}

// movable lists what a promise may move.
func (b *Book) movable() []string {
	var out []string
	for _, in := range b.Inputs() {
		if language.IsOrdered(in.Kind) {
			out = append(out, in.Name)
		}
	}
	for _, d := range b.decisions {
		if d.When == nil && language.IsOrdered(d.Kind) {
			out = append(out, d.Name)
		}
	}
	return out
}
