package engine

import (
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// amender lays amendments over a written rulebook.
type amender struct {
	in      *written
	asOf    rulebook.Date
	faults  diagnostic.List
	byName  map[string]*amendmentEntry
	touched map[string]touch // by "rule ID" or "setting NAME"
	applied []*amendmentEntry
}

// touch is who amended an entry, and where.
type touch struct {
	by   *amendmentEntry
	node *document.Node
}

// amend lays the amendments over the rulebook in the order in which they build
// on each other; of those that do not, in the order of the files.
func amend(in *written, amendments []*amendmentEntry, asOf rulebook.Date) ([]*amendmentEntry, diagnostic.List) {
	a := &amender{in: in, asOf: asOf, byName: map[string]*amendmentEntry{}, touched: map[string]touch{}}
	for _, each := range amendments {
		if first, taken := a.byName[each.Name]; taken {
			twice(&a.faults, each.node, first.node, "an amendment of this name is there already", each.Name, "", "it stands here first")
			continue
		}
		a.byName[each.Name] = each
	}
	for _, each := range a.ordered(amendments) {
		a.dated(each)
		if holdsOn(each.From, each.Until, asOf) {
			a.apply(each)
			a.applied = append(a.applied, each)
		}
	}
	return a.applied, a.faults
}

// ordered puts each amendment behind those it builds on, notes all that each
// builds on, and reports every circle with the whole of its way.
func (a *amender) ordered(amendments []*amendmentEntry) []*amendmentEntry {
	var out, way []*amendmentEntry
	var visit func(e *amendmentEntry)
	visit = func(e *amendmentEntry) {
		way = append(way, e)
		e.under = map[*amendmentEntry]bool{}
		for _, n := range e.over {
			under, ok := a.byName[n.Text()]
			switch {
			case !ok:
				fault(&a.faults, n, codeAmendment, "no amendment is called "+n.Text(), n.Text(), "the name of an amendment that this one builds on",
					namesIn(amendments, func(e *amendmentEntry) string { return e.Name })...)
				continue
			case slices.Contains(way, under):
				a.circle(n, way[slices.Index(way, under):])
				continue
			case under.under == nil:
				visit(under)
			}
			e.under[under] = true
			maps.Copy(e.under, under.under)
		}
		way = way[:len(way)-1]
		out = append(out, e)
	}
	for _, e := range amendments {
		if a.byName[e.Name] == e && e.under == nil {
			visit(e)
		}
	}
	return out
}

func (a *amender) circle(n *document.Node, way []*amendmentEntry) {
	names := namesIn(way, func(e *amendmentEntry) string { return e.Name })
	d := fault(&a.faults, n, codeCircle, "amendments build on each other in a circle", strings.Join(append(names, names[0]), " over "), "an order")
	for _, e := range way {
		d.Related = append(d.Related, diagnostic.Related{Place: e.Place, Message: e.Name + " stands here"})
	}
}

// dated reports anything that holds on some days only, where no day was told.
func (a *amender) dated(e *amendmentEntry) {
	if !a.asOf.IsZero() {
		return
	}
	need := func(n *document.Node, what string) {
		fault(&a.faults, n, rulebook.CodeNoDay, what+" holds on some days only, and no day was told", "", "the day as of which the design is made; it is never taken from the clock")
	}
	if !e.From.IsZero() || !e.Until.IsZero() {
		need(e.node, "the amendment "+e.Name)
	}
	for _, s := range e.settings {
		if !s.from.IsZero() || !s.until.IsZero() {
			need(s.key, "the setting "+s.key.Text())
		}
	}
	for _, v := range e.variances {
		need(v.node, "the variance "+v.Name)
	}
}

// touch notes that e amends an entry, and reports it if another amendment did
// that e does not build on.
func (a *amender) touch(entry string, e *amendmentEntry, n *document.Node) bool {
	if first, taken := a.touched[entry]; taken && !e.under[first.by] {
		d := fault(&a.faults, n, codeAmended, entry+" is amended twice", "", "one amendment of it, or over: "+first.by.Name+" where this one is meant to build on that")
		d.Related = []diagnostic.Related{{Place: first.node.Place(), Message: "it is amended here"}}
		return false
	}
	a.touched[entry] = touch{by: e, node: n}
	return true
}

func (a *amender) apply(e *amendmentEntry) {
	for _, c := range e.changes {
		a.change(e, c)
	}
	for _, s := range e.settings {
		a.setting(e, s)
	}
	for _, w := range e.words {
		a.words(w)
	}
	a.add(e)
	for i := range e.variances {
		a.variance(&e.variances[i])
	}
}

func (a *amender) add(e *amendmentEntry) {
	in, from := a.in, e.added
	in.sources = append(in.sources, from.sources...)
	in.vocabularies = append(in.vocabularies, from.vocabularies...)
	in.kinds = append(in.kinds, from.kinds...)
	in.materials = append(in.materials, from.materials...)
	in.settings = append(in.settings, from.settings...)
	in.terms = append(in.terms, from.terms...)
	in.decisions = append(in.decisions, from.decisions...)
	in.courses = append(in.courses, from.courses...)
	in.checks = append(in.checks, from.checks...)
	in.cautions = append(in.cautions, from.cautions...)
	in.refusals = append(in.refusals, from.refusals...)
	for _, d := range from.decisions {
		for _, r := range d.rules {
			r.Amended = &rulebook.Amended{By: e.Amendment, Because: e.Why, Place: r.Place}
		}
	}
}

// find returns the decision and the place in it of a rule.
func (a *amender) find(id string) (*decisionEntry, int) {
	for _, d := range a.in.decisions {
		if i := slices.IndexFunc(d.rules, func(r *ruleEntry) bool { return r.ID == id }); i >= 0 {
			return d, i
		}
	}
	return nil, -1
}

// unknownRule reports a rule that is not there: one that another amendment took
// away, or one that never was.
func (a *amender) unknownRule(n *document.Node) {
	id := n.Text()
	if first, was := a.touched["rule "+id]; was {
		d := fault(&a.faults, n, codeAmended, "rule "+id+" is amended twice", id, "a rule that is still there; "+first.by.Name+" retired or renamed this one")
		d.Related = []diagnostic.Related{{Place: first.node.Place(), Message: "it is amended here"}}
		return
	}
	ids := a.otherIDs()
	for _, d := range a.in.decisions {
		ids = append(ids, namesIn(d.rules, func(r *ruleEntry) string { return r.ID })...)
	}
	fault(&a.faults, n, codeRule, "no rule is called "+id, id, "the id of a rule of the rulebook", ids...)
}

// otherIDs lists the ids of checks, cautions and refusals.
func (a *amender) otherIDs() []string {
	return slices.Concat(namesIn(a.in.checks, func(c *checkEntry) string { return c.ID }),
		namesIn(a.in.cautions, func(c *cautionEntry) string { return c.ID }), namesIn(a.in.refusals, func(c *refusalEntry) string { return c.ID }))
}

func (a *amender) change(e *amendmentEntry, c changeEntry) {
	switch {
	case c.replace != nil:
		a.replace(e, c)
	case c.retire != nil:
		a.retire(e, c)
	case c.add != nil:
		a.insert(e, c)
	}
}

func (a *amender) replace(e *amendmentEntry, c changeEntry) {
	d, i := a.find(c.replace.Text())
	if d == nil {
		a.unknownRule(c.replace)
		return
	}
	if !a.touch("rule "+c.replace.Text(), e, c.node) || c.with == nil {
		return
	}
	old := d.rules[i]
	c.with.Amended = &rulebook.Amended{By: e.Amendment, Because: orElse(c.because, e.Why), Place: c.node.Place(),
		Replaced: &rulebook.Replaced{ID: old.ID, When: old.When.Text, Answer: old.Answer.Text, Place: old.Place, By: by(old.Amended)}}
	d.rules[i] = c.with
	if c.with.ID != old.ID {
		a.touched["rule "+c.with.ID] = touch{by: e, node: c.node}
	}
}

// by returns the amendment by which an entry came, nil for the rulebook's own.
func by(a *rulebook.Amended) *rulebook.Amendment {
	if a == nil {
		return nil
	}
	return &a.By
}

func orElse(text, fallback string) string {
	if text == "" {
		return fallback
	}
	return text
}

func (a *amender) retire(e *amendmentEntry, c changeEntry) {
	id := c.retire.Text()
	d, i := a.find(id)
	switch {
	case d != nil:
		if a.touch("rule "+id, e, c.node) {
			d.rules = slices.Delete(d.rules, i, i+1)
		}
		return
	case !slices.Contains(a.otherIDs(), id):
		a.unknownRule(c.retire)
		return
	}
	a.in.checks = slices.DeleteFunc(a.in.checks, func(x *checkEntry) bool { return x.ID == id })
	a.in.cautions = slices.DeleteFunc(a.in.cautions, func(x *cautionEntry) bool { return x.ID == id })
	a.in.refusals = slices.DeleteFunc(a.in.refusals, func(x *refusalEntry) bool { return x.ID == id })
	a.touch("rule "+id, e, c.node)
}

func (a *amender) insert(e *amendmentEntry, c changeEntry) {
	c.add.Amended = &rulebook.Amended{By: e.Amendment, Because: orElse(c.because, e.Why), Place: c.node.Place()}
	anchor := c.before
	if c.after != nil {
		anchor = c.after
	}
	if anchor == nil {
		const wanted = "to: the name of a decision, or before: or after: a rule"
		i := slices.IndexFunc(a.in.decisions, func(d *decisionEntry) bool { return d.Name == c.to.Text() })
		switch {
		case c.to == nil:
			fault(&a.faults, c.node, codeDecision, "the change does not say where the rule goes", "", wanted)
		case i < 0:
			fault(&a.faults, c.to, codeDecision, "no decision is called "+c.to.Text(), c.to.Text(), wanted, namesIn(a.in.decisions, func(d *decisionEntry) string { return d.Name })...)
		default:
			a.in.decisions[i].rules = append(a.in.decisions[i].rules, c.add)
		}
		return
	}
	d, i := a.find(anchor.Text())
	if d == nil || c.to != nil && d.Name != c.to.Text() {
		a.unknownRule(anchor)
		return
	}
	if c.after != nil {
		i++
	}
	d.rules = slices.Insert(d.rules, i, c.add)
}

// settingAt returns the place of a setting in the rulebook, and reports one that
// is not there.
func (a *amender) settingAt(n *document.Node) int {
	i := slices.IndexFunc(a.in.settings, func(x *settingEntry) bool { return x.Name == n.Text() })
	if i < 0 {
		fault(&a.faults, n, codeSetting, "no setting is called "+n.Text(), n.Text(), "the name of a setting of the rulebook",
			namesIn(a.in.settings, func(s *settingEntry) string { return s.Name })...)
	}
	return i
}

func (a *amender) setting(e *amendmentEntry, s settingChange) {
	i := a.settingAt(s.key)
	if i < 0 || !holdsOn(s.from, s.until, a.asOf) || s.value == nil || !a.touch("setting "+s.key.Text(), e, s.key) {
		return
	}
	old := a.in.settings[i]
	changed := *old
	changed.value, changed.because, changed.Because = s.value, s.because, text(s.because)
	if changed.first == nil {
		changed.first = old.value
	}
	if s.source != nil {
		changed.source = s.source
	}
	changed.Amended = &rulebook.Amended{By: e.Amendment, Because: orElse(text(s.because).Text, e.Why), Place: s.key.Place(),
		Replaced: &rulebook.Replaced{ID: old.Name, Answer: text(old.value).Text, Place: old.Place, By: by(old.Amended)}}
	a.in.settings[i] = &changed
}

func (a *amender) words(w wordsChange) {
	i := slices.IndexFunc(a.in.vocabularies, func(v *vocabularyEntry) bool { return v.key.Text() == w.key.Text() })
	if i < 0 {
		fault(&a.faults, w.key, codeVocabulary, "no vocabulary of the rule files is called "+w.key.Text(), w.key.Text(), "a vocabulary that rule files declare",
			namesIn(a.in.vocabularies, func(v *vocabularyEntry) string { return v.key.Text() })...)
		return
	}
	a.in.vocabularies[i].words = append(a.in.vocabularies[i].words, w.words...)
}

func (a *amender) variance(v *varianceEntry) {
	if !a.asOf.IsZero() && !v.Until.IsZero() && v.Until.Before(a.asOf) {
		fault(&a.faults, v.node, codeExpired, "the variance "+v.Name+" has expired", "until "+v.Until.String()+", as of "+a.asOf.String(),
			"a new variance, or a setting within its limit")
		return
	}
	v.waits = !a.asOf.IsZero() && a.asOf.Before(v.From)
	if v.setting == nil {
		return // reported when it was read
	}
	i := a.settingAt(v.setting)
	if i < 0 {
		return
	}
	if first := a.in.settings[i].variance; first != nil {
		twice(&a.faults, v.node, first.node, "two variances for one setting", v.Setting, "", "the other stands here")
		return
	}
	changed := *a.in.settings[i]
	changed.variance = v
	a.in.settings[i] = &changed
}
