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

// runs returns what strips must cover of which the first has its lower edge at
// start, at or up to a strip less its lap below the area. A strip covers all of
// the area between its edges, the lap with the strip before it too, but for what
// lies in that lap alone, which the strip before covers.
func (f *field) runs(start float64) []run {
	var out []run
	type reach struct{ from, to, top float64 }
	var found []reach
	first := 0
	for i := 0; ; i++ {
		low := start + float64(float64(i)*(f.width-f.lap))
		if i > 0 && low+f.lap >= f.high-slack {
			return out
		}
		for f.parts[first].high <= low+slack && first+1 < len(f.parts) {
			first++
		}
		top := low + f.width
		found = found[:0]
		for _, t := range f.parts[first:] {
			if t.low >= top-slack {
				break
			}
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
			if i == 0 || whole.top > low+f.lap+slack {
				out = append(out, run{i, low, whole.from, whole.to})
			}
		}
	}
}

func total(runs []run) float64 {
	sum := 0.0
	for _, r := range runs {
		sum += r.length()
	}
	return sum
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
	return slices.CompactFunc(out, func(a, b float64) bool { return a-b <= slack })
}

// search tries every start at which the need can be least: the starts at which
// an edge passes a corner, and between them where falling and rising lines meet.
// It leaves out what cannot need less than most.
func (f *field) search(most func() float64, try func(start float64)) {
	starts := f.starts()
	for _, s := range starts {
		try(s)
	}
	starts = append(starts, starts[0]-(f.width-f.lap))
	for i, high := range starts[:len(starts)-1] {
		low := starts[i+1]
		if near := 4 * slack; high-low > 10*near {
			f.valley(low+near, high-near, 8, most, try)
		}
	}
}

// valley looks between two starts for the lowest need. The lines through both
// ends meet below it, as long as the need bends upward only.
func (f *field) valley(low, high float64, depth int, most func() float64, try func(start float64)) {
	const near = 4 * slack
	if depth == 0 || high-low < 10*near {
		return
	}
	need := func(start float64) float64 { return total(f.runs(start)) }
	left, right := need(low), need(high)
	falls, rises := (need(low+near)-left)/near, (right-need(high-near))/near
	if falls >= -1e-9 || rises <= 1e-9 {
		return // it is least at an end
	}
	at := low + (right-left-float64(rises*(high-low)))/(falls-rises)
	least := left + float64(falls*(at-low))
	if at <= low || at >= high || least >= most()-slack {
		return
	}
	try(at)
	if need(at) > least+10*slack {
		f.valley(low, at, depth-1, most, try)
		f.valley(at, high, depth-1, most, try)
	}
}
