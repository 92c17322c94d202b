package survey

import (
	"math/rand/v2"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// given returns the jobs of trials and examples as the survey looks at them: what
// people decided in place of the rules is left out.
func (w *drafter) given(jobs []*site.Site) []*site.Site {
	var out []*site.Site
	for _, job := range jobs {
		bare := *job
		bare.Overrides = nil
		if closed, err := w.table.Close(&bare); err == nil {
			out = append(out, closed)
		}
	}
	return out
}

// draftsOf returns drafts that tell what a job tells: one, or where it tells
// several readings of a kind, one for each.
func (w *drafter) draftsOf(job *site.Site) []draft {
	readings := 1
	told := make([][]any, len(w.entries))
	for i, e := range w.entries {
		told[i] = w.toldIn(e, job)
		readings = max(readings, len(told[i]))
	}
	out := make([]draft, readings)
	for n := range out {
		out[n] = make(draft, len(w.entries))
		for i, values := range told {
			if len(values) > 0 {
				out[n][i] = values[min(n, len(values)-1)]
			}
		}
	}
	return out
}

// toldIn returns the values that a job tells of an entry, as a draft has them.
func (w *drafter) toldIn(e entry, job *site.Site) []any {
	if e.closes > 0 {
		for _, sieve := range job.Soil.Sieves {
			if sieve.Opening == e.closes {
				return []any{float64(sieve.Passing)}
			}
		}
		return nil
	}
	x, given := e.Get(job)
	if !given {
		return nil
	}
	if list, isList := x.([]float64); isList {
		var out []any
		for _, each := range list {
			out = append(out, each)
		}
		return out
	}
	v, err := w.book.ValueOf(x, e.Kind())
	if err != nil {
		return nil // no word of the rulebook, which it refuses
	}
	if is, ok := v.Bool(); ok {
		return []any{is}
	}
	if word, ok := v.Word(); ok {
		return []any{word.Go}
	}
	if text, ok := v.PlainText(); ok {
		return []any{text}
	}
	return []any{cells.NumberOf(v)}
}

// gather keeps, for each number that a job may tell, the values worth trying: those
// that the drafts tell of it, and every value that anything of its kind is
// compared with.
func (w *drafter) gather(drafts []draft) {
	compared := map[quantity.Dimension][]float64{}
	for _, cs := range w.m.cells {
		for cell := range cs.Count() {
			if v, one := cs.Single(cell); one && cs.Ordered() {
				q, _ := v.Measure()
				compared[q.Dim] = append(compared[q.Dim], q.SI)
			}
		}
	}
	w.worth = make([][][]float64, len(w.entries))
	for i, e := range w.entries {
		if !e.numeric() {
			continue
		}
		values := slices.Clone(compared[e.Dim])
		for _, d := range drafts {
			if x, told := d[i].(float64); told {
				values = append(values, x)
			}
		}
		slices.Sort(values)
		cs := w.cellsOf(i)
		w.worth[i] = make([][]float64, cs.Count())
		for _, x := range slices.Compact(values) {
			if cell, _ := cs.Of(value.Measured(quantity.Quantity{Dim: e.Dim, SI: x})); x >= e.low && x <= e.high {
				w.worth[i][cell] = append(w.worth[i][cell], x)
			}
		}
	}
}

// boundaries drafts the jobs that tell one number beside what every job must tell,
// at each value worth trying, for the smallest jobs at which conditions meet.
func (w *drafter) boundaries(rng *rand.Rand) []draft {
	var out []draft
	for _, i := range w.movable() {
		if w.worth[i] == nil {
			continue
		}
		for _, x := range slices.Concat(w.worth[i]...) {
			out = append(out, w.start(rng).with(i, x))
		}
	}
	return out
}
