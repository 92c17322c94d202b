package plan

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

func many(few, all int) int {
	if os.Getenv("GROUNDRULE_MANY") != "" {
		return all
	}
	return few
}

// anyShape makes a polygon of up to most corners, seen from its middle; one in
// four has its sides along two directions.
func anyShape(r *rand.Rand, most int, size float64) Shape {
	for {
		var corners []Point
		if r.IntN(4) == 0 {
			x, y, a, b := size*(0.3+r.Float64()), size*(0.3+r.Float64()), 0.2+0.6*r.Float64(), 0.2+0.6*r.Float64()
			cut := [][2]float64{{0, 0}, {x, 0}, {x, b * y}, {a * x, b * y}, {a * x, y}, {0, y}} // an L
			if r.IntN(2) == 0 {                                                                 // a U
				cut = [][2]float64{{0, 0}, {x, 0}, {x, y}, {0.8 * x, y}, {0.8 * x, b * y}, {a / 2 * x, b * y}, {a / 2 * x, y}, {0, y}}
			}
			for _, c := range cut {
				corners = append(corners, Point{quantity.Feet(c[0]), quantity.Feet(c[1])})
			}
		} else {
			n := 3 + r.IntN(most-2)
			for i := range n {
				at := (float64(i) + 0.8*r.Float64()) / float64(n) * 2 * math.Pi
				far := size * (0.15 + 0.6*r.Float64())
				corners = append(corners, Point{quantity.Feet(far * math.Cos(at)), quantity.Feet(far * math.Sin(at))})
			}
		}
		if s, err := Polygon(corners...); err == nil {
			return s
		}
	}
}

// shadow finds what a strip between two heights must cover, by looking up and
// down at places between all those where something changes. lapped is the height
// up to which the strip before covers what lies there alone.
func shadow(c []point, low, high, lapped float64) (lengths []float64) {
	var xs []float64
	highest := map[float64]float64{} // of what changes there
	change := func(x, y float64) {
		x = math.Round(x*1e8) / 1e8
		if before, ok := highest[x]; ok {
			y = max(y, before)
		}
		xs, highest[x] = append(xs, x), y
	}
	for i, a := range c {
		b := c[(i+1)%len(c)]
		if low <= a.y && a.y <= high {
			change(a.x, a.y)
		}
		for _, y := range []float64{low, high} {
			if a.y > y != (b.y > y) {
				change(a.x+(y-a.y)/(b.y-a.y)*(b.x-a.x), y)
			}
		}
	}
	slices.Sort(xs)
	covers := func(x float64) bool { // whether any of the area is within the strip at x
		var ys []float64
		for i, a := range c {
			b := c[(i+1)%len(c)]
			if a.x > x != (b.x > x) {
				ys = append(ys, a.y+(x-a.x)/(b.x-a.x)*(b.y-a.y))
			}
		}
		slices.Sort(ys)
		for k := 0; k+1 < len(ys); k += 2 {
			if min(high, ys[k+1])-max(low, ys[k]) > 2e-6 {
				return true
			}
		}
		return false
	}
	length, reach := 0.0, math.Inf(-1)
	done := func() {
		if length > 0 && reach > lapped+2e-6 {
			lengths = append(lengths, length)
		}
		length, reach = 0, math.Inf(-1)
	}
	for k := 0; k+1 < len(xs); k++ {
		wide := xs[k+1] - xs[k]
		if wide < 1e-7 {
			continue
		}
		if !covers((xs[k] + xs[k+1]) / 2) {
			done()
			continue
		}
		length += wide
		reach = max(reach, highest[xs[k]], highest[xs[k+1]])
	}
	done()
	return lengths
}

// turned returns the corners with the direction of a side to the right, or up if
// across, by angles.
func turned(s Shape, from int, across bool) []point {
	c := s.told
	a, b := c[from], c[(from+1)%len(c)]
	angle := -math.Atan2(b.y-a.y, b.x-a.x)
	if across {
		angle += math.Pi / 2
	}
	out := make([]point, len(c))
	for i, p := range c {
		out[i] = point{p.x*math.Cos(angle) - p.y*math.Sin(angle), p.x*math.Sin(angle) + p.y*math.Cos(angle)}
	}
	return out
}

func heights(c []point) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range c {
		low, high = min(low, p.y), max(high, p.y)
	}
	return low, high
}

// TestLayoutsAgainstExhaustive tries every direction and a fine row of starts, by
// another way of finding what each strip covers.
func TestLayoutsAgainstExhaustive(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	n, better, rolls := many(40, 200), 0, 0
	for range n {
		s := anyShape(r, 7, 20+30*r.Float64())
		p := Product{Width: quantity.Feet(6 + 8*r.Float64()), Length: quantity.Feet(50 + 100*r.Float64()),
			Lap: quantity.Feet(2 * r.Float64()), EndLap: quantity.Feet(3 * r.Float64()), Shortest: quantity.Feet([]float64{3, 10, 1000}[r.IntN(3)])}
		levels := 1 + r.IntN(2)
		l, err := LayRolls(s, p, 0, float64(levels))
		require.NoError(t, err)
		mine := &choice{packing: packing{rolls: l.Units()}, cut: l.Cut().SquareMeters() / p.Width.Meters(), pieces: len(l.Pieces())}
		rolls += mine.rolls
		beaten := true
		for side := range s.told {
			for _, across := range []bool{false, true} {
				c := turned(s, side, across)
				low, high := heights(c)
				period := (p.Width - p.Lap).Meters()
				const starts = 48
				for k := range starts {
					var items []float64
					for i, y := 0, low-period*float64(k)/starts; i == 0 || y+p.Lap.Meters() < high; i, y = i+1, y+period {
						lapped := math.Inf(-1)
						if i > 0 {
							lapped = y + p.Lap.Meters()
						}
						items = append(items, shadow(c, y, y+p.Width.Meters(), lapped)...)
					}
					var every []float64
					for range levels {
						every = append(every, items...)
					}
					packed, _ := p.stock().pack(every, 1000) // held to exhaustive search on its own
					cut := float64(packed.joints) * p.EndLap.Meters()
					for _, l := range every {
						cut += l
					}
					is := rank(packed.rolls, len(packed.cuts), cut, mine)
					require.GreaterOrEqual(t, is, 0, "%s\n%v, %d levels: %s\nside %d, across %t, start %d: %d rolls, %.4f m, %d pieces against %d, %.4f, %d\n%v",
						s, p, levels, l, side+1, across, k, packed.rolls, cut, len(packed.cuts), mine.rolls, mine.cut, mine.pieces, every)
					beaten = beaten && is > 0
				}
			}
		}
		if beaten {
			better++
		}
	}
	require.Greater(t, rolls, n*3/2, "few take more than one roll")
	t.Logf("%d shapes, %d rolls; %d layouts beat all that the search tried", n, rolls, better)
}
