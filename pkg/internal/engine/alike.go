package engine

import (
	"reflect"
	"slices"
)

// Alike reports whether another job comes to the same for whoever builds: the
// courses, what they are made of, what is checked, cautioned and beyond a limit, and
// what is presumed; and, of a section that is taken off, what its amounts are made of.
// It stops at the first difference.
func (o *Outcome) Alike(site Site, overrides []Override, takenOff bool) bool {
	if o.AsksAlike(site, overrides) {
		return true
	}
	r := o.run.book.newRun(site)
	if r.compileOverrides(overrides) != nil {
		return false
	}
	shown := map[string]bool{}
	for _, c := range o.Courses {
		for _, a := range c.Attributes {
			shown[a.Decision] = true
		}
	}
	if takenOff && !o.measuresAlike(site, shown) {
		return false
	}
	for _, was := range o.Decided { // before all else, since most differences are here
		is, err := r.decide(was.Decision)
		if err != nil || was.presumed() != is.presumed() || shown[was.Decision.Name] && !was.Answer.Equal(is.Answer) {
			return false
		}
	}
	other, err := r.outcome(overrides)
	return err == nil && slices.Equal(o.Refusals, other.Refusals) && slices.Equal(o.Courses, other.Courses) &&
		slices.Equal(o.Cautions, other.Cautions) && slices.EqualFunc(o.Checks, other.Checks, sameCheck) &&
		slices.EqualFunc(o.Crossed, other.Crossed, sameCrossing)
}

// measuresAlike reports whether another job tells the same of what amounts are made of,
// and adds the decisions among these to those that are shown.
func (o *Outcome) measuresAlike(site Site, shown map[string]bool) bool {
	for _, name := range o.run.book.measuring {
		shown[name] = true
		if _, isInput := o.run.book.inputs[name]; isInput && !o.tellsAlike(site, name) {
			return false
		}
	}
	return true
}

func sameCheck(a, b *Checked) bool {
	return a.Check == b.Check && a.Holds == b.Holds && a.Value.Equal(b.Value) && a.Limit.Equal(b.Limit)
}

func sameCrossing(a, b *Crossed) bool { return a.Limit == b.Limit && a.Variance == b.Variance }

// Asks reports whether the site was asked for an input, or whether it is known.
func (o *Outcome) Asks(input string) bool { return o.run.asked[input] }

// AsksAlike reports whether another job tells the same of all that this one was
// asked, and has the same taken over: what a run never asked for, not even whether
// it is known, cannot change it.
func (o *Outcome) AsksAlike(site Site, overrides []Override) bool {
	for name := range o.run.asked {
		if !o.tellsAlike(site, name) {
			return false
		}
	}
	return len(overrides) == len(o.run.overrides) && !slices.ContainsFunc(overrides, func(is Override) bool {
		was := o.run.overrides[is.Decision]
		return was == nil || was.Answer != is.Answer
	})
}

func (o *Outcome) tellsAlike(site Site, input string) bool {
	was, wasGiven := o.run.site.Input(input)
	is, isGiven := site.Input(input)
	return wasGiven == isGiven && (!wasGiven || reflect.DeepEqual(was, is))
}

// ReadTogether lists the names that each thing reads of which what is built is made:
// terms, decisions, limits, courses, checks and refusals.
func (b *Book) ReadTogether() [][]string {
	var out [][]string
	for _, t := range b.terms {
		out = append(out, reads(t))
	}
	for _, d := range b.decisions {
		out = append(out, reads(d))
		for _, l := range d.limits {
			out = append(out, append(namesOf(l.when, l.limit), d.Name))
		}
	}
	for _, c := range b.courses {
		out = append(out, namesOf(c.when))
	}
	for _, c := range b.checks {
		out = append(out, namesOf(c.when, c.holds, c.value, c.limit))
	}
	for _, r := range b.refusals {
		out = append(out, namesOf(r.when))
	}
	return out
}

// Moved lists the terms and decisions that have another value in another run.
func (o *Outcome) Moved(other *Outcome) []string {
	var out []string
	note := func(name string) {
		was, _ := o.Value(name)
		if is, _ := other.Value(name); !was.Equal(is) {
			out = append(out, name)
		}
	}
	for _, t := range o.run.book.terms {
		note(t.Name)
	}
	for _, d := range o.run.book.decisions {
		note(d.Name)
	}
	return out
}
