package engine

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// amender lays amendments over the entries of a rulebook.
type amender struct {
	r       *reader // of what amendments add
	entries []*entry
	asOf    rulebook.Date
	faults  diagnostic.List
	byName  map[string]*amendment
	touched map[*entry]touch
	applied []*amendment
	// variances are those of the amendments in force, and idle what is not in force
	// on the day.
	variances []*varianceEntry
	idle      []rulebook.Idle
}

// touch is who amended an entry, and where.
type touch struct {
	by   *amendment
	node *document.Node
}

// amend lays the amendments over the entries in the order in which they build on
// each other; of those that do not, in the order of the files.
func (r *reader) amend(asOf rulebook.Date) *amender {
	a := &amender{r: r, entries: r.entries, asOf: asOf, byName: map[string]*amendment{}, touched: map[*entry]touch{}}
	for _, each := range r.amendments {
		if first, taken := a.byName[each.Name]; taken {
			twice(&a.faults, each.node, first.node, "an amendment of this name is there already", each.Name, "", "it stands here first")
			continue
		}
		a.byName[each.Name] = each
	}
	for _, each := range a.ordered(r.amendments) {
		if a.inForce(each.node, "the amendment "+each.Name, each.Name, each.From, each.Until, each.When) {
			a.apply(each)
			a.applied = append(a.applied, each)
		}
	}
	a.unpermitted()
	return a
}

// ordered puts each amendment behind those it builds on, notes all that each
// builds on, and reports every circle with the whole of its way.
func (a *amender) ordered(amendments []*amendment) []*amendment {
	var out, way []*amendment
	var visit func(e *amendment)
	visit = func(e *amendment) {
		way = append(way, e)
		e.under = map[*amendment]bool{}
		for _, n := range e.over {
			under, ok := a.byName[n.Text()]
			switch {
			case n.Text() == e.Name:
				fault(&a.faults, n, codeCircle, "an amendment cannot build on itself", e.Name, "the name of another amendment, or no over")
				continue
			case !ok:
				fault(&a.faults, n, codeAmendment, "no amendment is called "+n.Text(), n.Text(), "the name of an amendment that this one builds on",
					slices.DeleteFunc(namesIn(amendments, func(e *amendment) string { return e.Name }), func(name string) bool { return name == e.Name })...)
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

func (a *amender) circle(n *document.Node, way []*amendment) {
	names := namesIn(way, func(e *amendment) string { return e.Name })
	d := fault(&a.faults, n, codeCircle, "amendments build on each other in a circle", strings.Join(append(names, names[0]), " over "), "an order")
	for _, e := range way {
		d.Related = append(d.Related, diagnostic.Related{Place: e.Place, Message: e.Name + " stands here"})
	}
}

// inForce reports whether something holds on the day of the design, and notes it
// if it does not. What tells no first day holds from made, the day on which it
// was made. It reports what holds on some days only, where no day was told.
func (a *amender) inForce(n *document.Node, what, name string, from, until, made rulebook.Date) bool {
	if a.asOf.IsZero() {
		if !from.IsZero() || !until.IsZero() {
			fault(&a.faults, n, rulebook.CodeNoDay, what+" holds on some days only, and no day was told", "", "the day as of which the design is made; it is never taken from the clock")
		}
		return true
	}
	if from.IsZero() {
		from = made
	}
	if !a.asOf.Before(from) && (until.IsZero() || !until.Before(a.asOf)) {
		return true
	}
	a.idle = append(a.idle, rulebook.Idle{What: what, Name: name, From: from, Until: until, Place: placeOf(n)})
	return false
}

func (a *amender) apply(e *amendment) {
	for _, c := range e.changes {
		if a.inForce(c.name, string(c.sort)+" "+c.name.Text()+" of the amendment "+e.Name, c.name.Text(), c.from, c.until, e.When) {
			a.change(e, c)
		}
	}
	for _, v := range e.variances {
		a.variance(v)
	}
}

func (a *amender) change(e *amendment, c *change) {
	if c.does == adds {
		a.add(e, c)
		return
	}
	old := a.find(c.sort, c.name)
	if old == nil || a.ofSum(old, c.name) || !a.touch(old, e, c.name) {
		return
	}
	switch c.does {
	case replaces:
		a.replace(e, c, old)
	case retires:
		old.lifted = trail(e, c, nil)
	case moves:
		if at := a.place(c, old.of); at >= 0 {
			old.amended = trail(e, c, old)
			i := slices.Index(a.entries, old)
			a.entries = slices.Delete(a.entries, i, i+1)
			if i < at {
				at--
			}
			a.entries = slices.Insert(a.entries, at, old)
		}
	}
}

// touch notes that e amends an entry, and reports it if another amendment did
// that e does not build on.
func (a *amender) touch(old *entry, e *amendment, n *document.Node) bool {
	if first, taken := a.touched[old]; taken && !e.under[first.by] {
		wanted := "one amendment of it, or over: [" + first.by.Name + "] where this one is meant to build on that"
		if first.by == e {
			wanted = "one change of it in this amendment"
		}
		d := fault(&a.faults, n, codeAmended, string(old.sort)+" "+old.id()+" is amended twice", "", wanted)
		d.Related = []diagnostic.Related{{Place: first.node.Place(), Message: "it is amended here"}}
		return false
	}
	a.touched[old] = touch{by: e, node: n}
	return true
}

// ofSum reports whether an entry only adds up what others answer, or is a rule or a limit
// of a decision that does, and puts down the fault of whoever changes or permits it.
func (a *amender) ofSum(e *entry, by *document.Node) bool {
	for _, of := range a.entries {
		if (of == e || of.sort == decisionSort && of.id() == e.of) && of.node.Field("sum").Text() == "true" {
			d := fault(&a.faults, by, codeFixed, "the "+string(of.sort)+" "+of.id()+" only adds up what others answer, and no amendment changes that", by.Text(), "a change of what is added up")
			d.Related = []diagnostic.Related{{Place: of.place(), Message: "it stands here"}}
			return true
		}
	}
	return false
}

// find returns an entry by its name. One that is not there is reported, with the
// nearest of its sort.
func (a *amender) find(s sort, name *document.Node) *entry {
	var names []string
	for _, e := range a.entries {
		switch {
		case e.sort != s:
		case e.id() == name.Text() && e.lifted == nil:
			return e
		case e.id() == name.Text() && e.instead == nil:
			d := fault(&a.faults, name, codeAmended, string(s)+" "+e.id()+" is not there any more", e.id(), "a "+string(s)+" that is still there")
			d.Related = []diagnostic.Related{{Place: e.lifted.Place, Message: e.lifted.By.Name + " retires it"}}
			return nil
		case e.lifted == nil:
			names = append(names, e.id())
		}
	}
	for _, e := range a.entries {
		if e.id() == name.Text() && e.lifted == nil {
			fault(&a.faults, name, codeEntry, name.Text()+" is a "+string(e.sort)+", not a "+string(s), string(s)+": "+name.Text(), string(e.sort)+": "+name.Text())
			return nil
		}
	}
	message, wanted := "no "+string(s)+" is called "+name.Text(), "the name of a "+string(s)+" of the rulebook"
	builtIn := slices.Contains(a.r.builtIn, name.Text())
	if builtIn {
		message, wanted = "the words of "+name.Text()+" are built into the library, and no amendment adds to them", "a vocabulary that rule files declare"
	}
	if d := fault(&a.faults, name, codeEntry, message, name.Text(), wanted, names...); d.Nearest == "" && !builtIn {
		d.Wanted += ", or an item under add if it is new"
	}
	return nil
}

// place returns the index at which a change puts an entry, -1 if that is
// reported: beside the entry that it names, or behind the last of its sort.
func (a *amender) place(c *change, of string) int {
	anchor, behind := c.before, 0
	if c.after != nil {
		anchor, behind = c.after, 1
	}
	if anchor == nil {
		at := len(a.entries)
		for i, e := range a.entries {
			if e.sort == c.sort && e.of == of {
				at = i + 1
			}
		}
		return at
	}
	beside := a.find(c.sort, anchor)
	switch {
	case beside == nil:
		return -1
	case of != "" && beside.of != of:
		fault(&a.faults, anchor, codeEntry, anchor.Text()+" belongs to "+beside.of, anchor.Text(), "a "+string(c.sort)+" of "+of)
		return -1
	}
	return slices.Index(a.entries, beside) + behind
}

// add lays an entry of its own into the rulebook, with all that stands in it.
func (a *amender) add(e *amendment, c *change) {
	for _, have := range a.entries {
		if have.sort == c.sort && have.id() == c.name.Text() && have.instead == nil {
			wanted := "another name, or a change under replace"
			if have.lifted != nil {
				wanted = "another name: what was retired stays told under its own"
			}
			twice(&a.faults, c.name, have.name, "the "+string(c.sort)+" "+c.name.Text()+" is there already", c.name.Text(), wanted, "it was declared here first")
			return
		}
	}
	of := ""
	if c.to != nil {
		in := decisionSort
		if c.sort == wordSort {
			in = vocabularySort
		}
		if a.find(in, c.to) == nil {
			return
		}
		of = c.to.Text()
	}
	at := a.place(c, of)
	if at < 0 {
		return
	}
	if of == "" && (c.sort == ruleSort || c.sort == limitSort) {
		if at > 0 && c.after != nil {
			of = a.entries[at-1].of
		} else if c.before != nil {
			of = a.entries[at].of
		}
	}
	if a.ofSum(&entry{of: of}, c.name) {
		return
	}
	a.r.chapter = "amendment " + e.Name
	added := a.r.within(&entry{sort: c.sort, name: c.name, node: c.with, of: of, chapter: a.r.chapter, keys: c.keys})
	for _, each := range added {
		each.amended = trail(e, c, nil)
		a.touched[each] = touch{by: e, node: c.name}
	}
	a.entries = slices.Insert(a.entries, at, added...)
}

func (a *amender) variance(v *varianceEntry) {
	if !a.asOf.IsZero() && !v.Until.IsZero() && v.Until.Before(a.asOf) {
		fault(&a.faults, v.node, codeExpired, "the variance "+v.Name+" has expired", "until "+v.Until.String()+", as of "+a.asOf.String(),
			"a new variance, or a rulebook within its limits")
		return
	}
	v.waits = !a.inForce(v.node, "the variance "+v.Name, v.Name, v.From, v.Until, v.From)
	if v.of == nil {
		return // reported when it was read
	}
	for _, first := range a.variances {
		if first.Setting == v.Setting && first.Bound == v.Bound && first.Retires == v.Retires {
			twice(&a.faults, v.node, first.node, "two variances for one thing", v.of.Text(), "", "the other stands here")
			return
		}
	}
	switch {
	case v.Setting != "" && a.find(settingSort, v.of) == nil:
		return
	case v.Bound != "":
		if limit := a.find(limitSort, v.of); limit == nil || a.ofSum(limit, v.of) {
			return
		}
	}
	a.variances = append(a.variances, v)
}

// unpermitted reports what an amendment takes away without permission: a refusal,
// a promise, a check that stops, a caution that every section owes, and a limit.
func (a *amender) unpermitted() {
	for _, e := range a.entries {
		if e.lifted == nil || !e.owed() || e.instead != nil && !e.weakened() {
			continue
		}
		v := varies(a.variances, func(v *varianceEntry) bool { return v.Retires == e.id() && !v.waits })
		if v == nil {
			does := "retires"
			if e.instead != nil {
				does = "changes"
			}
			d := fault(&a.faults, a.touched[cmp.Or(e.instead, e)].node, codeUnpermitted, "amendment "+e.lifted.By.Name+" "+does+" the "+string(e.sort)+" "+e.id()+" without permission", "",
				"under variances: {variance: NAME, retires: "+e.id()+", who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}")
			d.Related = []diagnostic.Related{{Place: e.place(), Message: "it stands here"}}
			continue
		}
		v.used = true
	}
	for _, v := range a.variances {
		if v.Retires != "" && !v.used && !v.waits && !a.comes(v.Retires) {
			fault(&a.faults, v.of, codeUnpermitted, "nothing that needs this variance is retired or changed", v.Retires, "a refusal, a promise, a check that stops, a limit, or a caution that every section owes, which an amendment retires or changes")
		}
	}
}

// comes reports whether a change of an entry holds on other days.
func (a *amender) comes(name string) bool {
	return slices.ContainsFunc(a.idle, func(i rulebook.Idle) bool { return i.Name == name })
}

// varies returns the variance of which something is true, nil if there is none.
func varies(all []*varianceEntry, is func(*varianceEntry) bool) *varianceEntry {
	if i := slices.IndexFunc(all, is); i >= 0 {
		return all[i]
	}
	return nil
}

// owed reports whether every job is owed an entry, so that only a variance takes
// it away.
func (e *entry) owed() bool {
	switch e.sort {
	case refusalSort, limitSort, promiseSort:
		return true
	case checkSort:
		return e.node.Field("failing").Text() == string(rulebook.Stops)
	case cautionSort:
		return e.node.Field("owed").Text() == "true"
	}
	return false
}

// weakened reports whether the entry that took another's place may speak where
// that one would not: it was changed in more than its words.
func (e *entry) weakened() bool {
	for _, key := range []string{"when", "holds", "value", "at_least", "at_most", "one_of", "none_of", "failing", "owed", "always", "never", "as", "then"} {
		was, is := e.node.Field(key), e.instead.node.Field(key)
		if was != is && (was.Shape() != document.Scalar || was.Text() != is.Text()) {
			return true
		}
	}
	return e.instead.lifted != nil
}
