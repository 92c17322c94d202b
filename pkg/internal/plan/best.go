package plan

import (
	"cmp"
	"math"
	"slices"
)

// choice is a way to lay an area, with the packing of its strips.
type choice struct {
	area
	packing
	cut    float64
	pieces int
}

// rank is below 0 for what is better than a choice, and above for what is worse: by the
// rolls, the length cut and the pieces. Lengths that differ by less than a tenth of a
// millimeter are the same.
func rank(rolls, pieces int, cut float64, than *choice) int {
	switch {
	case rolls != than.rolls:
		return rolls - than.rolls
	case cut < than.cut-100*slack:
		return -1
	case cut > than.cut+100*slack:
		return 1
	}
	return pieces - than.pieces
}

func (p Product) stock() stock {
	return stock{p.Length.Meters(), max(p.EndLap.Meters(), 0), max(p.Shortest.Meters(), 0)}
}

// best returns the best way to lay an area: first of those in which an edge of a
// strip passes a corner of the area, then of those between.
func (p Product) best(a area) (*choice, error) {
	type try struct {
		field *field
		runs  []run
		need  float64
	}
	var fields []*field
	var tries []try
	b := bestLayout{area: a, stock: p.stock()}
	ground := a.shape.grown(a.turnUp)
	for _, axis := range a.shape.axes() {
		f := newField(ground, axis, p.Width.Meters(), max(p.Lap.Meters(), 0))
		if err := f.check(p.Width); err != nil {
			return nil, err
		}
		fields = append(fields, f)
		for _, start := range f.starts() {
			runs := f.runs(start, 0)
			need, _ := b.stock.need(lengthsOf(runs, 1))
			tries = append(tries, try{f, runs, math.Round(need / (100 * slack))})
		}
	}
	slices.SortStableFunc(tries, func(a, b try) int {
		return cmp.Or(cmp.Compare(a.need, b.need), len(a.runs)-len(b.runs))
	})
	for _, t := range tries {
		b.try(t.field, t.runs)
	}
	for _, f := range fields {
		if runs := f.uneven(); runs != nil {
			b.try(f, runs)
		}
		starts := f.starts()
		starts = append(starts, starts[0]-(f.width-f.lap))
		for i, high := range starts[:len(starts)-1] {
			f.halve(starts[i+1], high, b.worse, func(start float64) { b.try(f, f.runs(start, 0)) })
		}
	}
	return b.choice, nil
}

// bestLayout is the best layout found so far.
type bestLayout struct {
	area
	stock
	*choice
}

// worse reports whether no layout of strips that cover at least these is better.
// Close to others that were tried, no fewer rolls are hoped for.
func (b *bestLayout) worse(least []run, close bool) bool {
	if b.choice == nil {
		return false
	}
	length, _ := b.stock.need(lengthsOf(least, b.levels))
	rolls := roundUp(length / b.stock.length)
	if close {
		rolls = max(rolls, b.rolls)
	}
	return rank(rolls, strips(least)*b.levels, length, b.choice) >= 0
}

// try packs the strips of a layout, unless it can be no better.
func (b *bestLayout) try(f *field, runs []run) {
	if b.worse(runs, false) {
		return
	}
	items := lengthsOf(runs, b.levels)
	most := math.MaxInt32
	need, forced := b.stock.need(items)
	if b.choice != nil {
		most = b.rolls
		if b.worse(runs, true) {
			most--
		}
	}
	packed, ok := b.pack(items, most)
	if !ok {
		return
	}
	c := &choice{area: b.area, packing: packed, cut: need + float64(float64(packed.joints-forced)*b.lap), pieces: len(packed.cuts)}
	c.axis, c.runs = f.axis, runs
	if b.choice == nil || rank(c.rolls, c.pieces, c.cut, b.choice) < 0 {
		b.choice = c
	}
}

func lengthsOf(runs []run, levels int) []float64 {
	out := make([]float64, 0, len(runs)*levels)
	for range levels {
		for _, r := range runs {
			out = append(out, r.length())
		}
	}
	return out
}

// axes returns the directions in which strips may run: along and across the
// sides, the longest first. A circle has one.
func (s Shape) axes() []point {
	if s.kind == circle {
		return []point{{1, 0}}
	}
	var sides []point
	for i, c := range s.told {
		sides = append(sides, s.told[(i+1)%len(s.told)].minus(c))
	}
	slices.SortStableFunc(sides, func(a, b point) int { return cmp.Compare(b.length(), a.length()) })
	var out []point
	for _, side := range sides[:min(len(sides), mostSides)] {
		u := side.unit()
		for _, axis := range []point{u, u.right()} {
			if !slices.ContainsFunc(out, func(o point) bool { return abs(o.cross(axis)) < slack }) {
				out = append(out, axis)
			}
		}
	}
	return out
}

func abs(x float64) float64 { return max(x, -x) }
