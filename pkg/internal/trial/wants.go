package trial

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// want is one expectation.
type want struct {
	what string // such as "stone_depth"
	at   diagnostic.Place
	// wanted and was are what should come of the job and what did, as a trial
	// would write them.
	wanted string
	was    func(*result) string
	// met compares; nil where wanted and was must read the same.
	met func(*result) bool
	// decision whose reason goes with the report, nil if there is none.
	decision *engine.Decision
}

// wants binds everything that a trial expects.
func (b *binder) wants(e expect) []want {
	out := []want{b.status(e)}
	for _, each := range pairings {
		for _, p := range e.pairs[each.key] {
			out = append(out, each.bind(b, p)...)
		}
	}
	out = append(out, b.decisionWants(e)...)
	for _, s := range singles {
		for _, n := range b.known(e.lists[s.key], s.sort) {
			name := n.Text()
			out = append(out, want{what: cmp.Or(b.given[name], s.sort) + " " + name, at: n.Place(), wanted: s.wanted,
				was: func(r *result) string { return s.was(r, name) }})
		}
	}
	for _, l := range wholes {
		if list, given := e.lists[l.key]; given {
			var wanted []string
			for _, n := range b.known(list, l.sort) {
				wanted = append(wanted, n.Text())
			}
			text := func(all []string) string {
				if !l.ordered {
					all = slices.Sorted(slices.Values(all))
				}
				return listText(all)
			}
			out = append(out, want{what: l.what, at: list.at, wanted: text(wanted), was: func(r *result) string { return text(l.was(r)) }})
		}
	}
	return out
}

// pairings are the mappings of names, each pair an expectation or some.
var pairings = []struct {
	key, what string
	bind      func(*binder, pair) []want
}{
	{"answers", "the answers", (*binder).answer},
	{"between", "the answers between limits", (*binder).within},
	{"rules", "the rules", (*binder).chosen},
	{"says", "what is said", (*binder).said},
	{"quantities", "the quantities", (*binder).measured},
}

// singles are the lists of which each name is an expectation of its own.
var singles = []struct {
	key, sort, wanted string
	was               func(*result, string) string
}{
	{"fails", "check", "fails", (*result).check},
	{"holds", "check", "holds", (*result).check},
	{"idle", "check", "is not made", (*result).check},
	{"cautions", "caution", "given", (*result).given},
	{"steps", "step", "given", (*result).given},
	{"tolerances", "tolerance", "given", (*result).given},
	{"stops", "stop", "given", (*result).given},
	{"options", "option", "given", (*result).given},
	{"remedies", "remedy", "given", (*result).given},
	{"client", "client", "given", (*result).given},
	{"without", givenSorts, "not given", (*result).given},
	{"present", "course", "laid", (*result).course},
	{"absent", "course", "not laid", (*result).course},
}

// wholes are the lists that name everything of their sort.
var wholes = []struct {
	key, sort, what string
	was             func(*result) []string
	ordered         bool
}{
	{"failed", "check", "failed checks", (*result).failed, false},
	{"refusals", "refusal", "refusals", (*result).limits, false},
	{"crossed", "limit", "limits crossed", (*result).crossed, false},
	{"from_bottom", "course", "courses from the bottom", (*result).courses, true},
}

var statuses = []string{string(section.Designed), string(section.Refused), string(section.Stopped)}

func (b *binder) status(e expect) want {
	out := want{what: "status", at: e.at, wanted: string(section.Designed), was: (*result).statusText}
	if n := e.status; n != nil {
		out.at, out.wanted = n.Place(), n.Text()
		if !slices.Contains(statuses, out.wanted) {
			d := b.fault(n, CodeWord, "a design has no such status")
			d.Wanted, d.Nearest = strings.Join(statuses, ", "), diagnostic.Nearest(out.wanted, statuses)
		}
	}
	out.met = func(r *result) bool { return string(r.Status) == out.wanted }
	return out
}

func (b *binder) answer(p pair) []want {
	d := b.decision(p.key)
	if d == nil {
		return nil
	}
	v, ok := b.literal(p.value, d.Kind, d.Name)
	if !ok {
		return nil
	}
	return []want{{what: d.Name, at: p.key.Place(), decision: d, wanted: written(v), was: func(r *result) string { return r.answerText(d) },
		met: func(r *result) bool { was, asked := r.answer(d); return asked && was.Equal(v) }}}
}

// within binds {D: [A, B]}.
func (b *binder) within(p pair) []want {
	d := b.decision(p.key)
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
	if order, _ := low.Compare(high); order > 0 {
		f := b.faults.Addf(p.value.Place(), CodeValue, "the least is more than the most, so that nothing lies between them")
		f.Found, f.Wanted = written(low)+", "+written(high), "[least, most]"
		return nil
	}
	return []want{{what: d.Name, at: p.key.Place(), decision: d, wanted: written(low) + " to " + written(high),
		was: func(r *result) string { return r.answerText(d) },
		met: func(r *result) bool {
			was, asked := r.answer(d)
			fromLow, ordered := was.Compare(low)
			fromHigh, _ := was.Compare(high)
			return asked && ordered && fromLow >= 0 && fromHigh <= 0
		}}}
}

// chosen binds {D: RULE} or {D: [RULE, RULE]}.
func (b *binder) chosen(p pair) []want {
	d := b.decision(p.key)
	if d == nil {
		return nil
	}
	ids := []string{overrideID}
	for _, rule := range d.Rules {
		ids = append(ids, rule.ID)
	}
	var wanted []string
	for _, n := range scalars(p.value) {
		if of := b.ruleOf[n.Text()]; of != nil && of != d {
			b.fault(n, CodeName, "rule %s decides %s, not %s", n.Text(), of.Name, d.Name).Wanted = "a rule of " + d.Name
		} else if b.among(n, "rule of "+d.Name, ids) {
			wanted = append(wanted, n.Text())
		}
	}
	return []want{{what: "rule of " + d.Name, at: p.key.Place(), decision: d, wanted: listText(wanted),
		was: func(r *result) string { return listText(r.chosen(d)) }}}
}

// said binds {ID: TEXT} or {ID: [TEXT, TEXT]}: what one of the entries says.
func (b *binder) said(p pair) []want {
	return b.texts(p, givenSorts, (*result).said, func(r *result, id, text string) bool {
		return r.said(id) != "" && strings.Contains(r.said(id), text)
	})
}

// measured binds {ID: TEXT}, or of a list each text: what a quantity comes to.
func (b *binder) measured(p pair) []want {
	return b.texts(p, "quantity", func(r *result, id string) string { return listText(r.measured(id)) },
		func(r *result, id, text string) bool { return slices.Contains(r.measured(id), text) })
}

// texts binds what an entry of a sort must have among what it tells.
func (b *binder) texts(p pair, sort string, tells func(*result, string) string, met func(*result, string, string) bool) []want {
	id := p.key.Text()
	if !b.among(p.key, sort, b.names[sort]) {
		return nil
	}
	var out []want
	for _, n := range scalars(p.value) {
		text := n.Text()
		out = append(out, want{what: b.given[id] + " " + id, at: n.Place(), wanted: text,
			was: func(r *result) string { return cmp.Or(tells(r, id), "not given") },
			met: func(r *result) bool { return met(r, id, text) }})
	}
	return out
}

// scalars returns the items of a list, or what stands alone.
func scalars(n *document.Node) []*document.Node {
	if n.Shape() == document.Sequence {
		return n.Items()
	}
	return []*document.Node{n}
}

// overrideID stands for a person's decision where a rule is named.
const overrideID = "override"

// decisionWants binds held, not_held, unasked and confirm.
func (b *binder) decisionWants(e expect) []want {
	var out []want
	for _, l := range []struct{ key, wanted string }{{"held", "holds"}, {"not_held", "does not hold"}} {
		for _, n := range b.known(e.lists[l.key], "rule") {
			d, id := b.ruleOf[n.Text()], n.Text()
			out = append(out, want{what: "rule " + id, at: n.Place(), decision: d, wanted: l.wanted, was: func(r *result) string { return r.rule(d, id) }})
		}
	}
	for _, n := range b.known(e.lists["unasked"], "decision") {
		d := b.decision(n)
		out = append(out, want{what: d.Name, at: n.Place(), decision: d, wanted: "not asked", was: func(r *result) string { return r.answerText(d) },
			met: func(r *result) bool { _, asked := r.answer(d); return !asked }})
	}
	for _, n := range b.known(e.lists["confirm"], "decision") {
		d := b.decision(n)
		out = append(out, want{what: d.Name, at: n.Place(), decision: d, wanted: "presumed, to be confirmed", was: func(r *result) string { return r.standing(d) }})
	}
	return out
}

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

func listText(items []string) string {
	if len(items) == 0 {
		return "none"
	}
	return strings.Join(items, ", ")
}
