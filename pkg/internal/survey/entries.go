package survey

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// entry is one thing that a job can tell: an input that a job gives, or one that
// a job can be made to have by a single value. The survey writes jobs entry by
// entry and leaves them out entry by entry.
type entry struct {
	site.Field
	// usual is the value that the documentation of the field gives, and unit its
	// unit, "" for a plain number.
	usual any
	unit  string
	// low and high are the least and the most that a job may tell.
	low, high float64
	// words are those that a job may tell; of a text, those of the rulebook.
	words []string
	// closes is the opening of a sieve that is there to close the curve.
	closes quantity.Length
	// overrides reports that it is an answer in place of the rules.
	overrides bool
}

// numeric reports whether an entry tells a number. A list of numbers is told as
// one: no condition of a rule tells one list from another but by what is
// calculated from it.
func (e entry) numeric() bool {
	return e.Form == site.NumberForm || e.Form == site.NumbersForm || e.Form == site.MeasuredForm
}

// give writes a value into a job.
func (e entry) give(s *site.Site, v any) {
	switch x, _ := v.(float64); {
	case e.closes > 0:
		s.Soil.Sieves = append(s.Soil.Sieves, site.Sieve{Opening: e.closes, Passing: quantity.Share(x)})
	case e.overrides:
		s.Overrides = []site.Override{{Decision: e.Path, Answer: e.inRules(x), By: "promise", Because: "to see what moves with it"}}
	default:
		_ = e.Set(s, v) // every value that is drafted is of the form of its field
	}
}

// inRules writes a number as the rule language does.
func (e entry) inRules(si float64) string {
	u, measured := quantity.UnitNamed(e.unit, e.Dim)
	x, err := quantity.Quantity{Dim: e.Dim, SI: si}.In(e.unit)
	if !measured || err != nil {
		return strconv.FormatFloat(si, 'f', -1, 64)
	}
	return u.Builder + "(" + strconv.FormatFloat(x, 'f', -1, 64) + ")"
}

// The curve of sieves is closed at its ends by the coarsest and the finest, so
// that every size between can be told.
var (
	coarsest = quantity.Inches(3)
	finest   = quantity.Millimeters(0.002)
)

// ofCurve reports whether an input is read off the sieve curve alone.
func ofCurve(f site.Field) bool { return slices.Equal(f.From, []string{"soil.sieves"}) }

// ofEdges reports whether an input is a part of the edges, of which none has no length and
// all together are no longer than the area has.
func ofEdges(f site.Field) bool { return slices.Contains(f.From, "edges") }

// entries lists what a job can tell, from the table of the job's fields. Names
// that decide nothing, and overrides, are left out: the survey asks what the
// rules answer by themselves.
func entries(book *engine.Book, inputs []site.Field) []entry {
	var out []entry
	for _, f := range inputs {
		e := entry{Field: f, usual: f.Sample()}
		if f.Set(&site.Site{}, e.usual) != nil {
			continue // it is had from others
		}
		e.low, e.high = f.Bounds()
		if usual, _ := e.usual.(float64); ofEdges(f) {
			e.low, e.high = usual/100, 4*usual // so that most areas have as much edge
		}
		for _, w := range book.Words(value.Kind(f.Vocabulary.Name)) {
			e.words = append(e.words, w.Go)
		}
		if f.Form == site.WordForm && len(e.words) > 0 {
			e.usual = e.words[0]
		}
		if _, e.unit, _ = strings.Cut(f.Example, " "); f.Form == site.NumberForm && f.Dim == quantity.DimShare {
			e.unit = "%"
		}
		out = append(out, e)
	}
	for _, end := range []quantity.Length{coarsest, finest} {
		out = append(out, entry{Field: site.Field{Path: "sieve " + end.String(), Form: site.NumberForm, Dim: quantity.DimShare}, usual: 0.5, high: 1, closes: end})
	}
	return out
}

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
	is, yesNo := v.Bool()
	word, isWord := v.Word()
	text, isText := v.PlainText()
	switch {
	case yesNo:
		return []any{is}
	case isWord:
		return []any{word.Go}
	case isText:
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
