package plan

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/groundrule/pkg/quantity"
)

// ErrStrips is for an area that needs more strips than anyone lays.
var ErrStrips = errors.New("too many strips")

// mostStrips is how many strips or courses an area may need across it.
const mostStrips = 500

// field is an area to be covered by strips that run one way: what must be
// covered, turned so that the strips run to the right.
type field struct {
	axis       point
	parts      []trapezoid // from the lowest up
	low, high  float64
	width, lap float64 // of a strip, and over the one before
}

// run is what one strip must cover without a break: from and to are places along
// it, low is its lower edge.
type run struct {
	strip         int
	low, from, to float64
}

func (r run) length() float64 { return r.to - r.from }

func newField(area [][]point, axis point, width, lap float64) *field {
	f := &field{axis: axis, parts: trapezoids(area, axis), width: width, lap: lap}
	f.low, f.high = f.parts[0].low, f.parts[len(f.parts)-1].high
	return f
}

// check refuses an area that needs more strips than are laid out.
func (f *field) check(width quantity.Length) error {
	if across := f.high - f.low; across > mostStrips*(f.width-f.lap) {
		return fmt.Errorf("%w: the area is %s across strips of %s; up to %d are laid out", ErrStrips, quantity.Meters(across), width, mostStrips)
	}
	return nil
}

// within returns where, from left to right, t lies between two heights.
func (t trapezoid) within(low, high float64) (from, to float64) {
	at := func(bottom, top, y float64) float64 {
		return bottom + float64((top-bottom)*((y-t.low)/(t.high-t.low)))
	}
	low, high = max(low, t.low), min(high, t.high)
	from = min(at(t.left, t.leftTop, low), at(t.left, t.leftTop, high))
	to = max(at(t.right, t.rightTop, low), at(t.right, t.rightTop, high))
	return from, to
}

// runs returns what strips must cover that lie at even distances, of which the
// first has its lower edge at start, at or up to a strip less its lap below the
// area. With play, it returns what they must cover at least, start lower by up to
// so much as they may.
func (f *field) runs(start, play float64) []run {
	var out []run
	for i := 0; ; i++ {
		low, lapped := start+float64(float64(i)*(f.width-f.lap)), math.Inf(-1)
		if i > 0 {
			lapped = low + f.lap
		}
		if lapped >= f.high-slack {
			return out
		}
		out = f.strip(out, i, low, low+f.width-play, lapped)
	}
}

// strip appends what one strip must cover: all of the area between its edges, the
// lap with the strip before it too, which ends at lapped, but for what lies in
// that lap alone, which the strip before covers.
func (f *field) strip(out []run, i int, low, top, lapped float64) []run {
	type reach struct{ from, to, top float64 }
	var found []reach
	for _, t := range f.parts {
		if min(top, t.high)-max(low, t.low) > slack {
			from, to := t.within(low, top)
			found = append(found, reach{from, to, min(top, t.high)})
		}
	}
	slices.SortFunc(found, func(a, b reach) int { return cmp.Compare(a.from, b.from) })
	for k := 0; k < len(found); {
		whole := found[k]
		for k++; k < len(found) && found[k].from <= whole.to+slack; k++ {
			whole.to, whole.top = max(whole.to, found[k].to), max(whole.top, found[k].top)
		}
		if whole.top > lapped+slack {
			out = append(out, run{i, low, whole.from, whole.to})
		}
	}
	return out
}

// strips counts the strips that cover anything.
func strips(runs []run) int {
	n := 0
	for i, r := range runs {
		if i == 0 || runs[i-1].strip != r.strip {
			n++
		}
	}
	return n
}

// starts returns the places of the first strip at which an edge of some strip
// passes a corner, the one flush with the lowest point first. Between two of
// them what the strips need goes up and down along straight lines.
func (f *field) starts() []float64 {
	step := f.width - f.lap
	var out []float64
	add := func(y float64) {
		back := math.Mod(f.low-y, step)
		if back < -slack {
			back += step
		}
		if back < step-slack {
			out = append(out, f.low-back)
		}
	}
	for i, t := range f.parts {
		add(t.low)
		add(t.low - f.width)
		if i+1 == len(f.parts) || f.parts[i+1].low > t.low+slack {
			add(t.high)
			add(t.high - f.width)
		}
	}
	slices.Sort(out)
	slices.Reverse(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return abs(a-b) <= slack })
}

// halve tries starts between two of them, and stops where nothing can be better
// than what was found, as worse tells of what the strips must cover at least, and
// of whether the starts are close together; or where the rest is too small to
// matter.
func (f *field) halve(low, high float64, worse func(least []run, close bool) bool, try func(start float64)) {
	period, wide := f.width-f.lap, high-low
	if wide < period/1000 || worse(f.runs(high, wide), wide < period/32) {
		return
	}
	middle := (low + high) / 2
	try(middle)
	f.halve(middle, high, worse, try)
	f.halve(low, middle, worse, try)
}

// mostHeights is how many heights the corners of an area may have for which strips
// with wider laps are tried.
const mostHeights = 6

// uneven returns the strips that need the least where laps may be wider than they
// must be and each strip, or one that goes on from it at the least lap, has an edge
// at a corner; none where there are too many corners to try.
func (f *field) uneven() []run {
	if len(f.parts) >= mostHeights {
		return nil
	}
	step := f.width - f.lap
	var lows []float64
	for _, start := range f.starts() {
		for low := start; low < f.high-slack; low += step {
			lows = append(lows, low)
		}
	}
	slices.Sort(lows)
	type row struct {
		length float64
		runs   []run
	}
	rows := make([]row, len(lows))
	best := row{length: math.Inf(1)}
	for k, low := range lows {
		rows[k].length = math.Inf(1)
		lay := func(before row, lapped float64) {
			i := 0
			if n := len(before.runs); n > 0 {
				i = before.runs[n-1].strip + 1
			}
			own := f.strip(nil, i, low, low+f.width, lapped)
			length := before.length
			for _, r := range own {
				length += r.length()
			}
			if length < rows[k].length-slack {
				rows[k] = row{length, slices.Concat(before.runs, own)}
			}
		}
		if low <= f.low+slack {
			lay(row{}, math.Inf(-1))
		}
		for j := k - 1; j >= 0 && low-lows[j] <= step+slack; j-- {
			if low > lows[j]+slack {
				lay(rows[j], lows[j]+f.width)
			}
		}
		if low+f.width >= f.high-slack && rows[k].length < best.length-slack {
			best = rows[k]
		}
	}
	return best.runs
}
