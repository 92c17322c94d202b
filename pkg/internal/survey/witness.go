package survey

import (
	"math"
	"strconv"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// smaller makes a job smaller while it passes a test: every entry that is not needed is
// left out, and what is left is told in the usual value or in few digits where that
// passes too.
func (s *searcher) smaller(d draft, test func(draft) bool) draft {
	d = s.leaveOut(d, test)
	for i, e := range s.w.entries {
		if d[i] == nil || s.w.isHeld(i) {
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
	x, _ := now.(float64)
	out := []any{e.usual}
	for _, y := range e.rounded(x) {
		out = append(out, y)
	}
	return out
}

// rounded rounds a number to one digit and to more in the usual unit, and reads each as
// a job file would be read, so that it is written as short.
func (e entry) rounded(x float64) []float64 {
	in := func(x float64) (float64, error) { return x, nil }
	read := func(text string) (float64, error) { return strconv.ParseFloat(text, 64) }
	if e.unit != "" {
		in = func(x float64) (float64, error) { return quantity.Quantity{Dim: e.Dim, SI: x}.In(e.unit) }
		read = func(text string) (float64, error) {
			y, err := strconv.ParseFloat(text, 64)
			if err != nil {
				return 0, err
			}
			q, err := quantity.ParseAs(e.Dim, strconv.FormatFloat(y, 'f', -1, 64)+" "+e.unit)
			return q.SI, err
		}
	}
	var out []float64
	told, err := in(x)
	for digits := 1; digits <= 6 && err == nil; digits++ {
		if y, err := read(strconv.FormatFloat(told, 'g', digits, 64)); err == nil && !math.IsInf(y, 0) {
			out = append(out, y)
		}
	}
	return out
}

// written writes the job of a draft, or one that was given, as a job file, reads it back
// and runs it once more; ok is false where that cannot be.
func (s *searcher) written(d draft, given *site.Site) (out Job, ok bool) {
	if job, ok := s.w.site(d); given == nil && ok {
		given = job
	} else if given == nil {
		return Job{}, false
	}
	data, err := site.Write(given)
	if err != nil {
		return Job{}, false
	}
	back, err := s.w.table.Read("job.yaml", data)
	if err != nil {
		return Job{}, false
	}
	x := s.w.lookAt(d, back)
	return Job{Text: string(data), Entries: d.told(), Status: string(x.Status), seen: x}, true
}

// witness returns the smallest job that shows something, as a job file. A job
// that was given stands as it is where no draft shows it.
func (s *searcher) witness(d draft, given *site.Site, shows func(*seen) bool) (Job, bool) {
	drafts := []draft{d}
	switch {
	case d == nil && given == nil:
		return Job{}, false
	case d == nil:
		drafts = s.w.draftsOf(given)[:1]
	default:
		given = nil
		drafts = []draft{s.smaller(d, func(d draft) bool {
			x, ok := s.w.look(d)
			return ok && shows(x)
		}), d}
	}
	for _, each := range drafts {
		if out, ok := s.written(each, given); ok && shows(out.seen) {
			return out, true
		}
	}
	return Job{}, false
}
