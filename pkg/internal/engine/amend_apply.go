package engine

import (
	"slices"

	"example.com/groundrule/pkg/diagnostic"
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
	by *amendmentEntry
	at diagnostic.Place
}

// amend lays the amendments over the rulebook in the order in which they build
// on each other; of those that do not, in the order of the files.
func amend(in *written, amendments []*amendmentEntry, asOf rulebook.Date) ([]*amendmentEntry, diagnostic.List) {
	a := &amender{in: in, asOf: asOf, byName: map[string]*amendmentEntry{}, touched: map[string]touch{}}
	for _, each := range amendments {
		if first, twice := a.byName[each.Name]; twice {
			a.faults.Add(&diagnostic.Diagnostic{Place: each.Place, Code: CodeTwice, Message: "an amendment of this name is there already", Found: each.Name,
				Related: []diagnostic.Related{{Place: first.Place, Message: "it stands here first"}}})
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

// ordered puts each amendment behind those it builds on, and reports circles.
func (a *amender) ordered(amendments []*amendmentEntry) []*amendmentEntry {
	var out []*amendmentEntry
	marks := map[string]int{}
	var visit func(e *amendmentEntry)
	visit = func(e *amendmentEntry) {
		marks[e.Name] = 1
		for i, name := range e.Over {
			under, ok := a.byName[name]
			switch {
			case !ok:
				var names []string
				for _, each := range amendments {
					names = append(names, each.Name)
				}
				a.faults.Add(&diagnostic.Diagnostic{Place: e.overNodes[i].Place(), Width: len([]rune(name)), Code: codeAmendment, Message: "no amendment is called " + name,
					Found: name, Wanted: "the name of an amendment that this one builds on", Nearest: diagnostic.Nearest(name, names)})
			case marks[name] == 1:
				a.faults.Add(&diagnostic.Diagnostic{Place: e.overNodes[i].Place(), Width: len([]rune(name)), Code: codeCircle, Message: "amendments build on each other in a circle",
					Found: e.Name + " over " + name, Wanted: "an order", Related: []diagnostic.Related{{Place: under.Place, Message: name + " stands here"}}})
			case marks[name] == 0:
				visit(under)
			}
		}
		marks[e.Name] = 2
		out = append(out, e)
	}
	for _, e := range amendments {
		if a.byName[e.Name] == e && marks[e.Name] == 0 {
			visit(e)
		}
	}
	return out
}

// dated reports anything that holds on some days only, where no day was told.
func (a *amender) dated(e *amendmentEntry) {
	if !a.asOf.IsZero() {
		return
	}
	need := func(at diagnostic.Place, what string) {
		a.faults.Add(&diagnostic.Diagnostic{Place: at, Code: rulebook.CodeNoDay, Message: what + " holds on some days only, and no day was told", Wanted: "the day as of which the design is made; it is never taken from the clock"})
	}
	if !e.From.IsZero() || !e.Until.IsZero() {
		need(e.Place, "the amendment "+e.Name)
	}
	for _, s := range e.settings {
		if !s.from.IsZero() || !s.until.IsZero() {
			need(s.at, "the setting "+s.name)
		}
	}
	for _, v := range e.variances {
		need(v.Place, "the variance "+v.Name)
	}
}

// builds reports whether e builds on under, directly or not.
func (a *amender) builds(e, under *amendmentEntry) bool {
	for _, name := range e.Over {
		if next := a.byName[name]; next != nil && (next == under || a.builds(next, under)) {
			return true
		}
	}
	return false
}

// touch notes that e amends an entry, and reports it if another amendment did
// that e does not build on.
func (a *amender) touch(key, words string, e *amendmentEntry, at diagnostic.Place) bool {
	if first, twice := a.touched[key]; twice && (first.by == e || !a.builds(e, first.by)) {
		a.faults.Add(&diagnostic.Diagnostic{Place: at, Code: codeAmended, Message: words + " is amended twice",
			Wanted:  "one amendment of it, or over: " + first.by.Name + " where this one is meant to build on that",
			Related: []diagnostic.Related{{Place: first.at, Message: "it is amended here"}}})
		return false
	}
	a.touched[key] = touch{by: e, at: at}
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
		for i, r := range d.rules {
			if r.ID == id {
				return d, i
			}
		}
	}
	return nil, -1
}

// unknownRule reports a rule that is not there: one that another amendment took
// away, or one that never was.
func (a *amender) unknownRule(id string, at diagnostic.Place) {
	if first, was := a.touched["rule "+id]; was {
		a.faults.Add(&diagnostic.Diagnostic{Place: at, Width: len([]rune(id)), Code: codeAmended, Message: "rule " + id + " is amended twice", Found: id,
			Wanted:  "a rule that is still there; " + first.by.Name + " retired or renamed this one",
			Related: []diagnostic.Related{{Place: first.at, Message: "it is amended here"}}})
		return
	}
	var ids []string
	for _, d := range a.in.decisions {
		for _, r := range d.rules {
			ids = append(ids, r.ID)
		}
	}
	ids = append(ids, a.otherIDs()...)
	a.faults.Add(&diagnostic.Diagnostic{Place: at, Width: len([]rune(id)), Code: codeRule, Message: "no rule is called " + id, Found: id,
		Wanted: "the id of a rule of the rulebook", Nearest: diagnostic.Nearest(id, ids)})
}

func (a *amender) otherIDs() []string {
	var ids []string
	for _, c := range a.in.checks {
		ids = append(ids, c.ID)
	}
	for _, c := range a.in.cautions {
		ids = append(ids, c.ID)
	}
	for _, c := range a.in.refusals {
		ids = append(ids, c.ID)
	}
	return ids
}

func (a *amender) change(e *amendmentEntry, c changeEntry) {
	if c.targetNode == nil {
		return // reported when it was read
	}
	switch {
	case c.replace != "":
		a.replace(e, c)
	case c.retire != "":
		a.retire(e, c)
	case c.add != nil:
		a.insert(e, c)
	}
}

func (a *amender) replace(e *amendmentEntry, c changeEntry) {
	d, i := a.find(c.replace)
	if d == nil {
		a.unknownRule(c.replace, c.targetNode.Place())
		return
	}
	if !a.touch("rule "+c.replace, "rule "+c.replace, e, c.at) || c.with == nil {
		return
	}
	old := d.rules[i]
	c.with.Amended = &rulebook.Amended{By: e.Amendment, Because: orElse(c.because, e.Why), Place: c.at, Replaced: replacedOf(old)}
	d.rules[i] = c.with
	if c.with.ID != c.replace {
		a.touched["rule "+c.with.ID] = touch{by: e, at: c.at}
	}
}

func replacedOf(r *ruleEntry) *rulebook.Replaced {
	return &rulebook.Replaced{ID: r.ID, When: r.When.Text, Answer: r.Answer.Text, Place: r.Place, By: by(r.Amended)}
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
	if d, i := a.find(c.retire); d != nil {
		if a.touch("rule "+c.retire, "rule "+c.retire, e, c.at) {
			d.rules = slices.Delete(d.rules, i, i+1)
		}
		return
	}
	before := len(a.otherIDs())
	a.in.checks = slices.DeleteFunc(a.in.checks, func(x *checkEntry) bool { return x.ID == c.retire })
	a.in.cautions = slices.DeleteFunc(a.in.cautions, func(x *cautionEntry) bool { return x.ID == c.retire })
	a.in.refusals = slices.DeleteFunc(a.in.refusals, func(x *refusalEntry) bool { return x.ID == c.retire })
	if len(a.otherIDs()) == before {
		a.unknownRule(c.retire, c.targetNode.Place())
		return
	}
	a.touch("rule "+c.retire, "rule "+c.retire, e, c.at)
}

func (a *amender) insert(e *amendmentEntry, c changeEntry) {
	c.add.Amended = &rulebook.Amended{By: e.Amendment, Because: orElse(c.because, e.Why), Place: c.at}
	anchor := orElse(c.before, c.after)
	if anchor == "" {
		for _, d := range a.in.decisions {
			if d.Name == c.to {
				d.rules = append(d.rules, c.add)
				return
			}
		}
		var names []string
		for _, d := range a.in.decisions {
			names = append(names, d.Name)
		}
		at := c.at
		if c.placeNode != nil {
			at = c.placeNode.Place()
		}
		a.faults.Add(&diagnostic.Diagnostic{Place: at, Code: codeDecision, Message: "no decision is called " + c.to, Found: c.to,
			Wanted: "to: the name of a decision, or before: or after: a rule", Nearest: diagnostic.Nearest(c.to, names)})
		return
	}
	d, i := a.find(anchor)
	if d == nil || c.to != "" && d.Name != c.to {
		a.unknownRule(anchor, c.placeNode.Place())
		return
	}
	if c.after != "" {
		i++
	}
	d.rules = slices.Insert(d.rules, i, c.add)
}

func (a *amender) setting(e *amendmentEntry, s settingChange) {
	i := slices.IndexFunc(a.in.settings, func(x *settingEntry) bool { return x.Name == s.name })
	if i < 0 {
		a.unknownSetting(s.name, s.at)
		return
	}
	if !holdsOn(s.from, s.until, a.asOf) || s.value == nil || !a.touch("setting "+s.name, "setting "+s.name, e, s.at) {
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
	changed.Amended = &rulebook.Amended{By: e.Amendment, Because: orElse(text(s.because).Text, e.Why), Place: s.at,
		Replaced: &rulebook.Replaced{ID: old.Name, Answer: text(old.value).Text, Place: old.Place, By: by(old.Amended)}}
	a.in.settings[i] = &changed
}

func (a *amender) unknownSetting(name string, at diagnostic.Place) {
	var names []string
	for _, each := range a.in.settings {
		names = append(names, each.Name)
	}
	a.faults.Add(&diagnostic.Diagnostic{Place: at, Width: len([]rune(name)), Code: codeSetting, Message: "no setting is called " + name, Found: name,
		Wanted: "the name of a setting of the rulebook", Nearest: diagnostic.Nearest(name, names)})
}

func (a *amender) words(w wordsChange) {
	var names []string
	for _, v := range a.in.vocabularies {
		if v.name == w.vocabulary {
			v.words = append(v.words, w.words...)
			return
		}
		names = append(names, v.name)
	}
	a.faults.Add(&diagnostic.Diagnostic{Place: w.at, Width: len([]rune(w.vocabulary)), Code: codeVocabulary, Message: "no vocabulary of the rule files is called " + w.vocabulary,
		Found: w.vocabulary, Wanted: "a vocabulary that rule files declare", Nearest: diagnostic.Nearest(w.vocabulary, names)})
}

func (a *amender) variance(v *varianceEntry) {
	if !a.asOf.IsZero() && !v.Until.IsZero() && v.Until.Before(a.asOf) {
		a.faults.Add(&diagnostic.Diagnostic{Place: v.Place, Code: codeExpired, Message: "the variance " + v.Name + " has expired", Found: "until " + v.Until.String() + ", as of " + a.asOf.String(),
			Wanted: "a new variance, or a setting within its limit"})
		return
	}
	v.waits = !a.asOf.IsZero() && a.asOf.Before(v.From)
	i := slices.IndexFunc(a.in.settings, func(x *settingEntry) bool { return x.Name == v.Setting })
	if i < 0 {
		a.unknownSetting(v.Setting, v.Place)
		return
	}
	if first := a.in.settings[i].variance; first != nil {
		a.faults.Add(&diagnostic.Diagnostic{Place: v.Place, Code: CodeTwice, Message: "two variances for one setting", Found: v.Setting,
			Related: []diagnostic.Related{{Place: first.Place, Message: "the other stands here"}}})
		return
	}
	changed := *a.in.settings[i]
	changed.variance = v
	a.in.settings[i] = &changed
}
