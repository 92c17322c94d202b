package site

import (
	"cmp"
	"math"
	"slices"

	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
)

// sameOpening is how near two openings are, as a share of the larger, when they
// are the same sieve written in two units.
const sameOpening = 1e-9

func sameSieve(a, b quantity.Length) bool {
	return math.Abs(float64(a-b)) <= sameOpening*max(float64(a), float64(b))
}

// point002 is the particle size by which frost design sorts soils.
var point002 = quantity.Millimeters(0.02)

// point is one point of the curve, with the paths under which it and its percent
// were given.
type point struct {
	Sieve
	path, passing string
}

// curve returns all points known, the coarsest first. The share finer than
// 0.02 mm is a point like any other.
func (g Subgrade) curve() []point {
	var out []point
	for i, s := range g.Sieves {
		at := index("soil.sieves", i)
		out = append(out, point{s, at, at + ".passing"})
	}
	if g.Passing002 != nil {
		const at = "soil.passing_0_02_mm"
		out = append(out, point{Sieve{point002, *g.Passing002}, at, at})
	}
	slices.SortStableFunc(out, func(a, b point) int { return cmp.Compare(b.Opening, a.Opening) })
	return out
}

// passing returns the share passing an opening: that of the sieve itself, or on
// the straight line, share against the logarithm of the opening, between the
// two sieves beside it. Outside the curve it is known only above a sieve that
// all passes and below one that nothing passes.
func (g Subgrade) passing(opening quantity.Length) (quantity.Share, bool) {
	c := g.curve()
	for _, p := range c {
		if sameSieve(p.Opening, opening) {
			return p.Passing, true
		}
	}
	if len(c) == 0 {
		return 0, false
	}
	coarsest, finest := c[0], c[len(c)-1]
	switch {
	case opening > coarsest.Opening:
		return 1, coarsest.Passing == 1
	case opening < finest.Opening:
		return 0, finest.Passing == 0
	}
	for i := 1; i < len(c); i++ {
		if above, below := c[i-1], c[i]; below.Opening < opening && opening < above.Opening {
			along := quantity.Share(portable.Share(float64(below.Opening), float64(above.Opening), float64(opening)))
			return quantity.Share(below.Passing*(1-along)) + quantity.Share(above.Passing*along), true
		}
	}
	return 0, false
}

// finerThan returns the size than which a share is finer, on the same straight
// lines, inside the curve only. Where the curve runs level at that share, no
// one size can be told.
func (g Subgrade) finerThan(share quantity.Share) (quantity.Length, bool) {
	c := g.curve()
	at := slices.IndexFunc(c, func(p point) bool { return p.Passing == share })
	if at >= 0 {
		level := at+1 < len(c) && c[at+1].Passing == share
		return c[at].Opening, !level
	}
	for i := 1; i < len(c); i++ {
		if above, below := c[i-1], c[i]; below.Passing < share && share < above.Passing {
			along := (share - below.Passing) / (above.Passing - below.Passing)
			return quantity.Length(portable.Between(float64(below.Opening), float64(above.Opening), float64(along))), true
		}
	}
	return 0, false
}
