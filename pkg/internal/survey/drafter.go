package survey

import (
	"math"
	"math/rand/v2"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// put changes the draft so that an input lies in a cell, and reports whether it
// knows a way to; only the site itself can say whether the job then is as wanted.
func (w *drafter) put(d draft, input string, cell int, rng *rand.Rand) bool {
	cs, told := w.m.cells[input], cell != w.m.notTold(input)
	if i, ok := w.index[input]; ok {
		return w.putEntry(d, i, cs, cell, told, rng)
	}
	f := w.inputs[input]
	if ofCurve(f) {
		w.putEnds(d, told)
		return true
	}
	return len(f.From) == 2 && w.putRelated(d, f, cs, cell, told, rng)
}

func (w *drafter) putEntry(d draft, i int, cs *cells.Cells, cell int, told bool, rng *rand.Rand) bool {
	e := w.entries[i]
	switch {
	case !told && e.Required:
		return false
	case !told:
		d[i] = nil
	case e.Form == site.FlagForm:
		d[i] = cell == 1
	case e.Form == site.WordForm:
		if cell >= len(e.words) {
			return false
		}
		d[i] = e.words[cell]
	case e.Form == site.TextForm:
		text, ok := e.textIn(cs, cell)
		if !ok {
			return false
		}
		d[i] = text
	case w.worth != nil && len(w.worth[i][cell]) > 0 && rng.IntN(4) == 0:
		d[i] = w.worth[i][cell][rng.IntN(len(w.worth[i][cell]))]
	default:
		usual, _ := e.usual.(float64)
		d[i] = w.drawIn(cs, cell, e.low, e.high, usual, rng)
	}
	return true
}

// textIn returns a text that lies in a cell; ok is false where the rulebook has no
// such word.
func (e entry) textIn(cs *cells.Cells, cell int) (text string, ok bool) {
	if v, one := cs.Single(cell); one {
		text, _ = v.PlainText()
		return text, len(e.words) == 0 || slices.Contains(e.words, text)
	}
	for _, w := range e.words {
		if at, _ := cs.Of(value.Text(w)); at == cell {
			return w, true
		}
	}
	return "something else", len(e.words) == 0
}

// putRelated tells the first of the two entries from which an input is worked out.
func (w *drafter) putRelated(d draft, f site.Field, cs *cells.Cells, cell int, told bool, rng *rand.Rand) bool {
	i, j := w.index[f.From[0]], w.index[f.From[1]]
	if !told {
		d[i] = nil
		return true
	}
	if d[j] == nil {
		d[j] = w.entries[j].usual
	}
	other, _ := d[j].(float64)
	low, high := f.Bounds()
	usual, _ := f.Sample().(float64)
	first, ok := f.Solve(w.drawIn(cs, cell, low, high, usual, rng), other)
	d[i] = min(max(first, w.entries[i].low), w.entries[i].high)
	return ok
}

// putEnds closes the sieve curve at both ends, or opens it.
func (w *drafter) putEnds(d draft, told bool) {
	last := len(w.entries) - 1
	first := last - 1
	if !told {
		d[first], d[last] = nil, nil
		return
	}
	if d[first] == nil {
		d[first] = 1.0
	}
	if d[last] == nil {
		d[last] = 0.0
	}
}

// drawIn draws a number from a cell, between the least and most that may be.
func (w *drafter) drawIn(cs *cells.Cells, cell int, low, high, usual float64, rng *rand.Rand) float64 {
	if v, one := cs.Single(cell); one {
		return cells.NumberOf(v)
	}
	a, b, closedLow, closedHigh := low, high, true, true
	if from, fromOK, to, toOK := cs.Ends(cell); true {
		if fromOK && cells.NumberOf(from) >= a {
			a, closedLow = cells.NumberOf(from), false
		}
		if toOK && cells.NumberOf(to) <= b {
			b, closedHigh = cells.NumberOf(to), false
		}
	}
	x := drawBetween(a, b, usual, rng)
	if closedLow && rng.IntN(12) == 0 && !unbounded(a) {
		x = a
	}
	if closedHigh && rng.IntN(24) == 0 && !unbounded(b) {
		x = b
	}
	return x
}

// unbounded tells a limit that is there for the writing of numbers alone.
func unbounded(x float64) bool { return math.Abs(x) > 1e50 || math.Abs(x) < 1e-50 && x != 0 }

// drawBetween draws from an open stretch: near its ends, in its middle, or
// anywhere, over some orders of size where it is long.
func drawBetween(a, b, usual float64, rng *rand.Rand) float64 {
	scale := math.Max(math.Abs(usual), 1e-12)
	far := func(decades float64) float64 { return portable.Pow(10, float64(decades*rng.Float64())-2) }
	openLow, openHigh := unbounded(a) && a < 0, unbounded(b) && b > 0
	switch {
	case openLow && openHigh:
		return scale * far(4)
	case openHigh:
		if rng.IntN(4) == 0 && usual > a {
			return usual
		}
		return a + float64(math.Max(scale, math.Abs(a))*far(3.5))
	case openLow:
		return b - float64(math.Max(scale, math.Abs(b))*far(3.5))
	}
	width := b - a
	switch rng.IntN(8) {
	case 0:
		return a + width/2
	case 1:
		return a + width/1000
	case 2:
		return b - width/1000
	case 3, 4:
		return a + float64(width*portable.Pow(10, -3*rng.Float64()))
	}
	return a + float64(width*rng.Float64())
}

// hold puts the inputs that the survey holds into the draft.
func (w *drafter) hold(d draft, rng *rand.Rand) {
	for _, p := range w.fixed {
		w.put(d, p.input, p.cell, rng)
	}
}

// start is the plain job with the held inputs.
func (w *drafter) start(rng *rand.Rand) draft {
	d := w.plain()
	w.hold(d, rng)
	return d
}

// inputOf returns the input that an entry tells by itself.
func (w *drafter) inputOf(i int) (string, bool) {
	path := w.entries[i].Path
	_, ok := w.m.inputs[path]
	return path, ok
}

// entriesOf returns the entries from which an input is had.
func (w *drafter) entriesOf(input string) []int {
	if i, ok := w.index[input]; ok {
		return []int{i}
	}
	f := w.inputs[input]
	var out []int
	for i, e := range w.entries {
		if slices.Contains(f.From, e.Path) || ofCurve(f) && (e.closes > 0 || ofCurve(e.Field)) {
			out = append(out, i)
		}
	}
	return out
}
