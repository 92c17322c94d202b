package trial

import (
	"fmt"
	"slices"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// written returns a value as a trial would write it.
func written(v value.Value) string {
	if w, ok := v.Word(); ok {
		return w.Name
	}
	if x, ok := v.Number(); ok {
		return fmt.Sprintf("%.6g", x)
	}
	if b, ok := v.Bool(); ok {
		return fmt.Sprint(b)
	}
	if q, ok := v.Quantity(); ok {
		if us, si := q.Text(quantity.US), q.Text(quantity.SI); us != si {
			return us + " (" + si + ")"
		}
	}
	return v.Text(quantity.US)
}

func (b *binder) answer(p pair) []want {
	d := b.decisionNamed(p.key)
	if d == nil {
		return nil
	}
	v, ok := b.literal(p.value, d.Kind, d.Name)
	if !ok {
		return nil
	}
	return []want{{what: d.Name, at: p.key.Place(), decision: d, met: func(r *result) (string, string, bool) {
		was, asked := r.answer(d)
		return r.answerText(d), written(v), asked && was.Equal(v)
	}}}
}

// within binds {D: [A, B]}.
func (b *binder) within(p pair) []want {
	d := b.decisionNamed(p.key)
	if d == nil {
		return nil
	}
	_, isDimension := quantity.DimensionNamed(string(d.Kind))
	if len(p.value.Items()) != 2 || !isDimension && d.Kind != value.NumberKind {
		f := b.faults.Addf(p.value.Place(), CodeValue, "%s is %s; between takes the least and the most of a number or a quantity", d.Name, d.Kind)
		f.Found, f.Wanted = p.value.Shape().String(), "[least, most]"
		return nil
	}
	low, ok := b.literal(p.value.Items()[0], d.Kind, d.Name)
	high, also := b.literal(p.value.Items()[1], d.Kind, d.Name)
	if !ok || !also {
		return nil
	}
	if order, _ := value.Compare(low, high); order > 0 {
		f := b.faults.Addf(p.value.Place(), CodeValue, "nothing lies between limits that stand the wrong way about")
		f.Found, f.Wanted = written(low)+", "+written(high), "[least, most]"
		return nil
	}
	return []want{{what: d.Name, at: p.key.Place(), decision: d, met: func(r *result) (string, string, bool) {
		was, asked := r.answer(d)
		fromLow, ordered := value.Compare(was, low)
		fromHigh, _ := value.Compare(was, high)
		return r.answerText(d), written(low) + " to " + written(high), asked && ordered && fromLow >= 0 && fromHigh <= 0
	}}}
}

// chosen binds {D: RULE} or {D: [RULE, RULE]}.
func (b *binder) chosen(p pair) []want {
	d := b.decisionNamed(p.key)
	if d == nil {
		return nil
	}
	nodes := []*document.Node{p.value}
	if p.value.Shape() == document.Sequence {
		nodes = p.value.Items()
	}
	var ids, wanted []string
	for _, rule := range d.Rules {
		ids = append(ids, rule.ID)
	}
	ids = append(ids, overrideID)
	for _, n := range nodes {
		if of := b.ruleOf[n.Text()]; of != nil && of != d {
			f := b.faults.Addf(n.Place(), CodeName, "rule %s decides %s, not %s", n.Text(), of.Name, d.Name)
			f.Found, f.Width, f.Wanted = n.Text(), n.Width(), "a rule of "+d.Name
			continue
		}
		if b.named(n, "rule of "+d.Name, ids) {
			wanted = append(wanted, n.Text())
		}
	}
	return []want{{what: "rule of " + d.Name, at: p.key.Place(), decision: d, met: func(r *result) (string, string, bool) {
		was := r.chosen(d)
		return listText(was), listText(wanted), slices.Equal(was, wanted)
	}}}
}

// overrideID stands for a person's decision where a rule is named.
const overrideID = "override"

// decisionWants binds held, unasked and confirm.
func (b *binder) decisionWants(e expect) []want {
	var out []want
	for _, n := range b.allNamed(e.held, "rule", b.rules) {
		d := b.ruleOf[n.Text()]
		out = append(out, want{what: "rule " + n.Text(), at: n.Place(), decision: d, met: func(r *result) (string, string, bool) {
			state := r.stateOf(d, n.Text())
			return stateWords[state], "holds", state == engine.Held || state == engine.Chosen
		}})
	}
	for _, n := range e.unasked.items {
		d := b.decisionNamed(n)
		if d == nil {
			continue
		}
		out = append(out, want{what: d.Name, at: n.Place(), decision: d, met: func(r *result) (string, string, bool) {
			_, asked := r.answer(d)
			return r.answerText(d), "not asked", !asked
		}})
	}
	for _, n := range e.confirm.items {
		d := b.decisionNamed(n)
		if d == nil {
			continue
		}
		out = append(out, want{what: d.Name, at: n.Place(), decision: d, met: func(r *result) (string, string, bool) {
			rule := r.ruleOf(d)
			return "not presumed", "presumed, to be confirmed", rule != nil && rule.Standing == engine.Presumed
		}})
	}
	return out
}

var stateWords = map[engine.RuleState]string{engine.NotReached: "is not reached", engine.NotHeld: "does not hold",
	engine.Held: "holds", engine.Chosen: "holds, and its answer is taken"}

// checkWants binds failed, fails, holds and idle.
func (b *binder) checkWants(e expect) []want {
	var out []want
	if e.failed.given {
		wanted := texts(b.allNamed(e.failed, "check", b.checks))
		out = append(out, want{what: "failed checks", at: e.failed.at.Place(), met: func(r *result) (string, string, bool) {
			was := r.failed()
			return listText(was), listText(wanted), sameSet(was, wanted)
		}})
	}
	for _, n := range b.allNamed(e.fails, "check", b.checks) {
		out = append(out, b.oneCheck(n, "fails"))
	}
	for _, n := range b.allNamed(e.holds, "check", b.checks) {
		out = append(out, b.oneCheck(n, "holds"))
	}
	for _, n := range b.allNamed(e.idle, "check", b.checks) {
		out = append(out, b.oneCheck(n, "is not made"))
	}
	return out
}

func (b *binder) oneCheck(n *document.Node, wanted string) want {
	return want{what: "check " + n.Text(), at: n.Place(), met: func(r *result) (string, string, bool) {
		was := r.check(n.Text())
		return was, wanted, was == wanted
	}}
}

// listWants binds cautions, without and refusals.
func (b *binder) listWants(e expect) []want {
	var out []want
	given := func(n *document.Node, wanted bool) want {
		return want{what: "caution " + n.Text(), at: n.Place(), met: func(r *result) (string, string, bool) {
			was := r.cautioned(n.Text())
			return givenWords[was], givenWords[wanted], was == wanted
		}}
	}
	for _, n := range b.allNamed(e.cautions, "caution", b.cautions) {
		out = append(out, given(n, true))
	}
	for _, n := range b.allNamed(e.without, "caution", b.cautions) {
		out = append(out, given(n, false))
	}
	if e.refusals.given {
		ids := slices.Concat(b.refusals, b.rules, []string{groundrule.NotCalculated})
		wanted := texts(b.allNamed(e.refusals, "refusal", ids))
		out = append(out, want{what: "refusals", at: e.refusals.at.Place(), met: func(r *result) (string, string, bool) {
			return listText(r.refusals), listText(wanted), sameSet(r.refusals, wanted)
		}})
	}
	return out
}

var givenWords = map[bool]string{true: "given", false: "not given"}

// courseWants binds the courses.
func (b *binder) courseWants(e expect) []want {
	var out []want
	laid := func(n *document.Node, wanted bool) want {
		return want{what: "course " + n.Text(), at: n.Place(), met: func(r *result) (string, string, bool) {
			was := slices.Contains(r.courses(), n.Text())
			return laidWords[was], laidWords[wanted], was == wanted
		}}
	}
	for _, n := range b.allNamed(e.present, "course", b.courses) {
		out = append(out, laid(n, true))
	}
	for _, n := range b.allNamed(e.absent, "course", b.courses) {
		out = append(out, laid(n, false))
	}
	if e.ordered.given {
		wanted := texts(b.allNamed(e.ordered, "course", b.courses))
		out = append(out, want{what: "courses from the bottom", at: e.ordered.at.Place(), met: func(r *result) (string, string, bool) {
			was := r.courses()
			return listText(was), listText(wanted), slices.Equal(was, wanted)
		}})
	}
	return out
}

var laidWords = map[bool]string{true: "laid", false: "not laid"}

func texts(nodes []*document.Node) []string {
	var out []string
	for _, n := range nodes {
		out = append(out, n.Text())
	}
	return out
}

func sameSet(a, b []string) bool {
	a, b = slices.Clone(a), slices.Clone(b)
	slices.Sort(a)
	slices.Sort(b)
	return slices.Equal(a, b)
}
