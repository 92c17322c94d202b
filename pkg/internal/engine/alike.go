package engine

import (
	"reflect"
	"slices"
)

// Alike reports whether another job comes to the same for whoever builds: the
// courses, what they are made of, what is checked, cautioned and beyond a limit,
// and what is presumed. It stops at the first difference.
func (o *Outcome) Alike(site Site, overrides []Override) bool {
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
		was, wasGiven := o.run.site.Input(name)
		is, isGiven := site.Input(name)
		if wasGiven != isGiven || wasGiven && !reflect.DeepEqual(was, is) {
			return false
		}
	}
	return len(overrides) == len(o.run.overrides) && !slices.ContainsFunc(overrides, func(is Override) bool {
		was := o.run.overrides[is.Decision]
		return was == nil || was.Answer != is.Answer
	})
}
