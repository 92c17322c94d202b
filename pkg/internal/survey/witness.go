package survey

import (
	"math"
	"strconv"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// smallest makes a job smaller while it still shows what it is to show: every
// entry that is not needed is left out, and what is left is told in the usual
// value or in few digits where that shows it too. Each smaller job is run
// through the engine.
func (s *searcher) smallest(d draft, shows func(*seen) bool) draft {
	test := func(d draft) bool {
		x, ok := s.eye.look(d)
		return ok && shows(x)
	}
	return s.smaller(d, test, -1)
}

// smaller makes a draft smaller while it passes a test; one entry is left alone.
func (s *searcher) smaller(d draft, test func(draft) bool, but int) draft {
	d = s.leaveOut(d, test)
	for i, e := range s.w.entries {
		if d[i] == nil || i == but || s.w.isHeld(i) {
			continue
		}
		for _, v := range e.simpler(d[i]) {
			if v == d[i] {
				break
			}
			if next := d.with(i, v); test(next) {
				d = next
				break
			}
		}
	}
	return s.leaveOut(d, test)
}

// leaveOut leaves out entries until none can be left out any more.
func (s *searcher) leaveOut(d draft, test func(draft) bool) draft {
	for again := true; again; {
		again = false
		for i := len(d) - 1; i >= 0; i-- {
			if d[i] == nil || s.w.entries[i].Required || s.w.isHeld(i) {
				continue
			}
			if next := d.with(i, nil); test(next) {
				d, again = next, true
			}
		}
	}
	return d
}

// simpler lists values that read more simply than the one that was found, the
// simplest first.
func (e entry) simpler(now any) []any {
	switch {
	case e.Form == site.WordForm && len(e.words) > 0:
		return []any{e.words[0]}
	case !e.numeric():
		return nil
	}
	out := []any{e.usual}
	x, _ := now.(float64)
	for digits := 1; digits <= 6; digits++ {
		if y, ok := e.rounded(x, digits); ok {
			out = append(out, y)
		}
	}
	return out
}

// rounded rounds a number to so many digits in the usual unit, and reads it as a
// job file would be read, so that it is written as short.
func (e entry) rounded(x float64, digits int) (float64, bool) {
	short := func(x float64) (float64, bool) {
		y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
		return y, err == nil && !math.IsInf(y, 0)
	}
	if e.unit == "" {
		return short(x)
	}
	in, err := quantity.Quantity{Dim: e.Dim, SI: x}.In(e.unit)
	if err != nil {
		return 0, false
	}
	y, ok := short(in)
	if !ok {
		return 0, false
	}
	q, err := quantity.ParseAs(e.Dim, strconv.FormatFloat(y, 'f', -1, 64)+" "+e.unit)
	return q.SI, err == nil
}

// written writes the job as a job file, reads it back and runs it once more;
// ok is false if what was read back does not show it.
func (s *searcher) written(d draft, job *site.Site, shows func(*seen) bool) (out Job, ok bool) {
	data, err := site.Write(job)
	if err != nil {
		return Job{}, false
	}
	back, err := s.w.table.Read("job.yaml", data)
	if err != nil {
		return Job{}, false
	}
	x := s.eye.lookAt(d, back)
	return Job{Text: string(data), Entries: d.told(), seen: x}, shows(x)
}

// witness returns the smallest job that shows something, as a job file. A job
// that was given stands as it is where no draft shows it.
func (s *searcher) witness(d draft, whole *site.Site, shows func(*seen) bool) (Job, bool) {
	if d == nil && whole != nil {
		return s.written(s.w.draftsOf(whole)[0], whole, shows)
	}
	if d == nil {
		return Job{}, false
	}
	for _, each := range []draft{s.smallest(d, shows), d} {
		if job, ok := s.w.site(each); ok {
			if out, ok := s.written(each, job, shows); ok {
				return out, true
			}
		}
	}
	return Job{}, false
}
