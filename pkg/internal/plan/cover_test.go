package plan

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// lies reports whether a point lies on a piece, by its corners alone, and no
// farther than slack beyond its edges.
func lies(p Piece, x, y, slack float64) bool {
	for i, a := range p.Corners {
		b := p.Corners[(i+1)%4]
		ux, uy := float64(b.X-a.X), float64(b.Y-a.Y)
		if (ux*(y-float64(a.Y))-uy*(x-float64(a.X)))/math.Hypot(ux, uy) < -slack {
			return false
		}
	}
	return true
}

// within counts the sides of a shape that a ray crosses; of a circle it measures.
func within(s Shape, x, y float64) bool {
	if s.kind == circle {
		return math.Hypot(x, y) < s.radius
	}
	in := false
	for i, a := range s.told {
		b := s.told[(i+1)%len(s.told)]
		if a.y > y != (b.y > y) && x < a.x+(y-a.y)/(b.y-a.y)*(b.x-a.x) {
			in = !in
		}
	}
	return in
}

// covered holds a layout to what it is for, by points: each point of the shape
// lies on a piece on every level; and wherever the area goes on beyond an edge of
// a piece, another piece covers both sides of that edge and all of the lap.
func covered(t *testing.T, r *rand.Rand, s Shape, p Product, l Layout, levels int) (seams int) {
	t.Helper()
	const near = 2e-5
	byLevel := make([][]Piece, levels)
	for _, piece := range l.Pieces() {
		byLevel[piece.Level] = append(byLevel[piece.Level], piece)
	}
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, c := range s.corners {
		low, high = point{min(low.x, c.x), min(low.y, c.y)}, point{max(high.x, c.x), max(high.y, c.y)}
	}
	on := func(pieces []Piece, points ...point) bool {
		for _, piece := range pieces {
			all := true
			for _, q := range points {
				all = all && lies(piece, q.x, q.y, near/4)
			}
			if all {
				return true
			}
		}
		return false
	}
	for _, pieces := range byLevel {
		for range 200 {
			q := point{low.x + r.Float64()*(high.x-low.x), low.y + r.Float64()*(high.y-low.y)}
			if within(s, q.x, q.y) {
				require.True(t, on(pieces, q), "%v of %s is bare: %s", q, s, l)
			}
		}
		for _, piece := range pieces {
			for k, c := range piece.Corners {
				d := piece.Corners[(k+1)%4]
				from, to := point{float64(c.X), float64(c.Y)}, point{float64(d.X), float64(d.Y)}
				out, lap := to.minus(from).unit().right(), p.Lap
				if k%2 == 1 {
					lap = p.EndLap
				}
				for range 25 {
					q := from.plus(to.minus(from).times(r.Float64()))
					inner, outer := q.minus(out.times(near)), q.plus(out.times(near))
					if within(s, inner.x, inner.y) && within(s, outer.x, outer.y) {
						seams++
						require.True(t, on(pieces, outer, q.minus(out.times(lap.Meters()))), "the lap at %v of %s is short: %s", q, s, l)
					}
				}
			}
		}
	}
	return seams
}

func TestLayoutsCover(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	seams, joints, n := 0, 0, many(60, 1000)
	for range n {
		s := anyShape(r, 10, 20+60*r.Float64())
		if r.IntN(10) == 0 {
			s, _ = Circle(quantity.Feet(5 + 60*r.Float64()))
		}
		p := Product{Width: quantity.Feet(4 + 10*r.Float64()), Length: quantity.Feet(30 + 100*r.Float64()),
			Lap: quantity.Feet(2 * r.Float64()), EndLap: quantity.Feet(3 * r.Float64()), Shortest: quantity.Feet(4)}
		levels := 1 + r.IntN(2)
		turnUp := quantity.Feet([]float64{0, r.Float64()}[r.IntN(2)])
		l, err := LayRolls(s, p, turnUp, float64(levels))
		require.NoError(t, err)
		seams += covered(t, r, s, p, l, levels)
		on := map[int]bool{}
		for _, piece := range l.Pieces() {
			on[piece.Unit] = true
			require.LessOrEqual(t, piece.At+piece.Length, p.Length+1e-5, "no roll is longer than it is")
		}
		require.Len(t, on, l.Units(), "a piece is cut from every roll")
		needed := 0.0
		for _, part := range trapezoids(s.grown(turnUp.Meters()), point{1, 0}) {
			needed += part.area() * float64(levels)
		}
		require.Positive(t, needed)
		require.GreaterOrEqual(t, l.Cut().SquareMeters(), needed*(1-1e-12), "what is cut covers the area")
		joints += l.joints()
	}
	require.Greater(t, seams, n*40, "few seams were looked at")
	require.Greater(t, joints, n/10, "few strips are joined")
	t.Logf("%d layouts, %d places along seams, %d joints", n, seams, joints)
}

// joints counts the pieces of strips beyond the first of each run.
func (l *laid) joints() int {
	runs := 0
	for _, a := range l.areas {
		runs += len(a.runs) * a.levels
	}
	return len(l.pieces) - runs
}

// leastCut returns a length below which no strips that run one way cover the
// area, wherever each lies: strips are taken to begin on a fine row of heights
// and to be so much narrower, and the cheapest row of them is found.
func leastCut(c []point, p Product, fine int) float64 {
	low, high := heights(c)
	step := p.Width.Meters() / float64(fine)
	rows := int((high-low)/step) + fine + 2
	reach := int((p.Width-p.Lap).Meters()/step) + 1 // rows from one strip to the next, at most
	need := make([]float64, rows)                   // of a strip that begins in the row, which is counted from a strip below the area
	for g := range need {
		y := low + float64(g-fine)*step
		lapped := y + 2*step + p.Lap.Meters()
		if g <= fine { // it may be the first
			lapped = math.Inf(-1)
		}
		for _, l := range shadow(c, y+step, y+p.Width.Meters(), lapped) {
			need[g] += l
		}
	}
	least := make([]float64, rows)
	best := math.Inf(1)
	for g := range rows {
		least[g] = math.Inf(1)
		if g <= fine {
			least[g] = need[g]
		}
		for before := max(g-reach, 0); before < g; before++ {
			least[g] = min(least[g], least[before]+need[g])
		}
		if low+float64(g-fine+1)*step+p.Width.Meters() >= high {
			best = min(best, least[g])
		}
	}
	return best
}

// TestLayoutsNearTheirBound holds what is cut to the least that any strips along
// or across a side need, evenly spaced or not.
func TestLayoutsNearTheirBound(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	n, fine, within, moreRolls := many(8, 1000), many(40, 100), 0, 0
	type far struct {
		ratio float64
		text  string
	}
	var worst []far
	for range n {
		s := anyShape(r, 10, 20+80*r.Float64())
		p := Product{Width: quantity.Feet(6 + 9*r.Float64()), Length: quantity.Feet(300), Lap: quantity.Feet(1 + 2*r.Float64()),
			EndLap: quantity.Feet(3), Shortest: quantity.Feet(10)}
		l, err := LayRolls(s, p, 0, 1)
		require.NoError(t, err)
		least := math.Inf(1)
		for side := range s.told {
			for _, across := range []bool{false, true} {
				least = min(least, leastCut(turned(s, side, across), p, fine))
			}
		}
		least = max(least, (s.Area().SquareMeters())/p.Width.Meters())
		cut := l.Cut().SquareMeters() / p.Width.Meters()
		require.GreaterOrEqual(t, cut, least-1e-6, "%s: %s", s, l)
		if bound := int(math.Ceil(least/p.Length.Meters() - 1e-9)); l.Units() > bound {
			moreRolls++
			t.Logf("%d rolls, bound %d: %s", l.Units(), bound, s)
		}
		if cut <= 1.1*least {
			within++
		} else {
			worst = append(worst, far{cut / least, s.String() + ": " + l.String()})
		}
	}
	t.Logf("of %d layouts %d cut at most 10 %% over the bound, and %d take more rolls than it", n, within, moreRolls)
	for _, w := range worst {
		t.Logf("%.3f %s", w.ratio, w.text)
	}
	require.GreaterOrEqual(t, within, n*9/10)
}
