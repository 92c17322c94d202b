package survey

import (
	"math"
	"math/rand/v2"
	"strings"

	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/value"
)

// drafter drafts jobs whose inputs lie in wanted cells.
type drafter struct {
	*desk
	m     *model
	fixed []pin
	// used tells which entries have a part in what is asked; the others are
	// left untold.
	used []bool
}

// pin is an input that the survey was told to hold in one cell.
type pin struct {
	input string
	cell  int
	value value.Value // zero for not told
}

// put changes the draft so that an input lies in a cell. It is false where it
// knows no way; whether the job then is as wanted is told by the site itself.
func (w *drafter) put(d draft, input string, cell int, rng *rand.Rand) bool {
	cs, told := w.m.cells[input], cell != w.m.notTold(input)
	name := input
	if sieve, ok := sieveOf(input); ok {
		name = sieve
	}
	if i, ok := w.index[name]; ok {
		return w.putEntry(d, i, cs, cell, told, rng)
	}
	switch {
	case input == "soil.plasticity_index":
		return w.putRelated(d, "soil.liquid_limit", "soil.plastic_limit", told, func(plastic float64) float64 {
			return plastic + w.drawIn(cs, cell, 0, math.Inf(1), 10, rng)
		})
	case input == "soil.liquid_limit_ratio":
		return w.putRelated(d, "soil.liquid_limit_oven_dried", "soil.liquid_limit", told, func(limit float64) float64 {
			return limit * w.drawIn(cs, cell, 0, math.Inf(1), 1, rng)
		})
	case isSize(input):
		w.putEnds(d, told)
		return true
	}
	return false
}

func (w *drafter) putEntry(d draft, i int, cs *cells, cell int, told bool, rng *rand.Rand) bool {
	e := w.entries[i]
	switch {
	case !told && e.required:
		return false
	case !told:
		d[i] = nil
	case e.form == flag:
		d[i] = cell == 1
	case e.form == worded:
		if cell >= len(w.words[i]) {
			return false
		}
		d[i] = w.words[i][cell]
	case e.form == free:
		d[i] = "something else"
		if v, one := cs.single(cell); one {
			d[i], _ = v.PlainText()
		}
	default:
		usual, _ := w.usual[i].(float64)
		d[i] = w.drawIn(cs, cell, w.low[i], w.high[i], usual, rng)
	}
	return true
}

// putRelated tells an entry that an input compares with another entry.
func (w *drafter) putRelated(d draft, entry, with string, told bool, of func(float64) float64) bool {
	i, j := w.index[entry], w.index[with]
	if !told {
		d[i] = nil
		return true
	}
	if d[j] == nil {
		d[j] = w.usual[j]
	}
	other, _ := d[j].(float64)
	d[i] = min(max(of(other), w.low[i]), w.high[i])
	return true
}

// isSize reports whether an input is a size read off the sieve curve.
func isSize(input string) bool {
	digits, ok := strings.CutPrefix(input, "soil.d")
	return ok && strings.Trim(digits, "0123456789") == ""
}

// putEnds closes the sieve curve at both ends, or opens it.
func (w *drafter) putEnds(d draft, told bool) {
	first, last := w.index["sieve "+coarsest], w.index["sieve "+finest]
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
func (w *drafter) drawIn(cs *cells, cell int, low, high, usual float64, rng *rand.Rand) float64 {
	if v, one := cs.single(cell); one {
		return numberOf(v)
	}
	a, b, closedLow, closedHigh := low, high, true, true
	if from, fromOK, to, toOK := cs.ends(cell); true {
		if fromOK && numberOf(from) >= a {
			a, closedLow = numberOf(from), false
		}
		if toOK && numberOf(to) <= b {
			b, closedHigh = numberOf(to), false
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

func numberOf(v value.Value) float64 { q, _ := v.Measure(); return q.SI }

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
	name := w.entries[i].name
	if number, ok := strings.CutPrefix(name, "sieve No. "); ok {
		name = "soil.passing_no" + number
	}
	_, ok := w.m.inputs[name]
	return name, ok
}

// entriesOf returns the entries from which an input is had.
func (w *drafter) entriesOf(input string) []int {
	var names []string
	if sieve, ok := sieveOf(input); ok {
		names = []string{sieve}
	} else if input == "soil.plasticity_index" {
		names = []string{"soil.liquid_limit", "soil.plastic_limit"}
	} else if input == "soil.liquid_limit_ratio" {
		names = []string{"soil.liquid_limit", "soil.liquid_limit_oven_dried"}
	} else if isSize(input) {
		for _, e := range w.entries {
			if e.sieve > 0 {
				names = append(names, e.name)
			}
		}
	} else {
		names = []string{input}
	}
	var out []int
	for _, n := range names {
		if i, ok := w.index[n]; ok {
			out = append(out, i)
		}
	}
	return out
}
