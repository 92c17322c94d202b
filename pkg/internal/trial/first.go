package trial

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
)

// FirstFailure runs the trials until one fails, and gives what came of that one;
// nil if all pass. It measures no coverage, so it is much quicker than [Run]
// where nothing but failing matters.
//
// A setting that a trial tries beyond its limits, or by leave where no limit is
// crossed, is a failure of that trial: it is how a trial holds a limit. The error
// is an [*Error] if a trial names what the rulebook does not have, or writes a
// value of the wrong kind; then no trial is run.
func FirstFailure(book *groundrule.Book, trials []Trial) (*Result, error) {
	b := newBinder(book.Rules())
	all := make([]bound, len(trials))
	var other diagnostic.List
	var beyond *Result
	for i := range trials {
		b.faults = nil
		all[i] = b.bind(&trials[i])
		for _, d := range b.faults {
			switch {
			case d.Code != CodeLimit:
				other.Add(d)
			case beyond == nil:
				beyond = &Result{Name: trials[i].Name(), Why: trials[i].Why, Place: trials[i].Place, Expected: len(all[i].wants),
					Failures: []Failure{{What: "settings", Place: d.Place, Was: d.Message, Wanted: d.Wanted}}}
			}
		}
	}
	if err := errorOf(once(other)); err != nil {
		return nil, err
	}
	if beyond != nil {
		return beyond, nil
	}
	for i := range all {
		if one := all[i].judge(all[i].runJob()); len(one.Failures) > 0 {
			return &one, nil
		}
	}
	return nil, nil
}
