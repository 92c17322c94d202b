package engine

import "slices"

// Alike reports whether another job comes to the same for whoever builds: the
// courses, what they are made of, what is checked, cautioned and beyond a limit,
// and what is presumed. It stops at the first difference.
func (o *Outcome) Alike(site Site, overrides []Override) bool {
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
