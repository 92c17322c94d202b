package plan

import (
	"cmp"
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

// anyField turns a made-up shape so that strips run along or across one of its sides.
func anyField(r *rand.Rand, most int, size float64) (Shape, []point, *field) {
	s := anyShape(r, most, size)
	side, across := r.IntN(len(s.told)), r.IntN(2) == 0
	axis := s.told[(side+1)%len(s.told)].minus(s.told[side]).unit()
	if across {
		axis = axis.right()
	}
	width := 1.5 + 3*r.Float64()
	return s, turned(s, side, across), newField([][]point{s.corners}, axis, width, width/2*r.Float64())
}

// TestStripsAgainstShadows holds what strips must cover, and what they must at least
// if they may lie lower, to what is seen by looking up and down.
func TestStripsAgainstShadows(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 20))
	gaps := 0
	for range many(300, 5000) {
		s, c, f := anyField(r, 9, 40)
		low, high := heights(c)
		require.InDeltaSlice(t, []float64{low, high}, []float64{f.low, f.high}, 1e-9)
		step := f.width - f.lap
		start, play := low-step*r.Float64(), []float64{0, f.width * r.Float64()}[r.IntN(2)]
		got := f.runs(start, play)
		n, covering := 0, 0
		for i := 0; i == 0 || start+float64(i)*step+f.lap < high; i++ {
			y, lapped := start+float64(i)*step, math.Inf(-1)
			if i > 0 {
				lapped = y + f.lap
			}
			var want, is []float64
			if play < f.width-1e-5 {
				want = shadow(c, y, y+f.width-play, lapped)
			}
			for ; n < len(got) && got[n].strip == i; n++ {
				is = append(is, got[n].length())
				require.InDelta(t, y, got[n].low, 1e-9)
			}
			require.InDeltaSlice(t, want, is, 1e-5, "%s, strip %d of %v", s, i, f)
			if len(want) > 0 {
				covering++
			}
			if len(want) > 1 {
				gaps++
			}
		}
		require.Len(t, got, n)
		require.Equal(t, covering, strips(got))
	}
	require.Greater(t, gaps, 20, "few strips lie on both sides of a gap")
}

// TestStartsPassCorners finds the starts at which an edge of a strip passes a corner
// strip by strip.
func TestStartsPassCorners(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range many(300, 5000) {
		_, c, f := anyField(r, 7, 30)
		step := f.width - f.lap
		var want []float64
		for _, corner := range c {
			for _, y := range []float64{corner.y, corner.y - f.width} {
				for ; y > f.low+1e-9; y -= step {
				}
				for ; y <= f.low-step+1e-9; y += step {
				}
				if !slices.ContainsFunc(want, func(w float64) bool { return math.Abs(w-y) < 1e-6 }) {
					want = append(want, y)
				}
			}
		}
		slices.SortFunc(want, func(a, b float64) int { return cmp.Compare(b, a) })
		require.InDeltaSlice(t, want, f.starts(), 1e-6)
		require.InDelta(t, f.low, f.starts()[0], 1e-9, "the first is flush with the lowest point")
	}
	s, err := Rectangle(quantity.Meters(10), quantity.Meters(6))
	require.NoError(t, err)
	for _, c := range []struct {
		name, why  string
		width, lap float64
		want       []float64
	}{
		{"a whole number of strips", "both edges lead to one start", 3, 0, []float64{0}},
		{"but for rounding", "a thousandth of a millimeter is nothing", 3 + 4e-7, 0, []float64{0}},
		{"strips that are wider", "flush with the low or the high edge", 4, 0, []float64{0, -2}},
		{"strips that lap", "the lower edge of one at 6 is 3 of 9 up: 0; upper edges at 0 and 6 are 4 below and -1", 4, 1, []float64{0, -1}},
	} {
		f := newField([][]point{s.corners}, point{1, 0}, c.width, c.lap)
		require.InDeltaSlice(t, c.want, f.starts(), 1e-6, "%s: %s", c.name, c.why)
	}
}

// TestHalve holds in which order starts between two are tried, and how far.
func TestHalve(t *testing.T) {
	s, err := Rectangle(quantity.Meters(10), quantity.Meters(6))
	require.NoError(t, err)
	f := newField([][]point{s.corners}, point{1, 0}, 5, 1)
	for _, c := range []struct {
		name, why string
		worse     func(close bool) bool
		want      int
	}{
		{"nothing is ruled out", "10 times in half: 1,024 steps are less than a thousandth apart", func(bool) bool { return false }, 1023},
		{"close together nothing is better", "steps of a 32nd of the period are halved, those of a 64th not", func(close bool) bool { return close }, 63},
		{"all is ruled out", "nothing is tried", func(bool) bool { return true }, 0},
	} {
		var tried []float64
		asked := 0
		f.halve(-4, 0, func(least []run, close bool) bool {
			if asked++; asked == 1 {
				require.Equal(t, f.runs(0, 4), least, "what any start between must cover")
			}
			return c.worse(close)
		}, func(start float64) { tried = append(tried, start) })
		require.Len(t, tried, c.want, "%s: %s", c.name, c.why)
		if len(tried) > 0 {
			require.Equal(t, []float64{-2, -1, -0.5}, tried[:3], "the upper half first")
			require.Positive(t, slices.Min(tried)+4)
		}
	}
}

// TestUnevenStripsAgainstEveryRow tries every row of strips of which each, or one
// that goes on from it, has an edge at a corner.
func TestUnevenStripsAgainstEveryRow(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	uneven, none := 0, 0
	for range many(900, 9000) {
		s, _, f := anyField(r, 6, 60)
		got := f.uneven()
		if len(f.parts) >= 6 {
			none++
			require.Nil(t, got, "too many corners to try")
			continue
		}
		step := f.width - f.lap
		var lows []float64
		for _, start := range f.starts() {
			for low := start; low < f.high-1e-6; low += step {
				lows = append(lows, low)
			}
		}
		total := func(runs []run) (sum float64) {
			for _, r := range runs {
				sum += r.length()
			}
			return sum
		}
		rest := map[float64]float64{} // the least of the strips above one
		var above func(low float64) float64
		above = func(low float64) float64 {
			least, known := rest[low]
			if known || low+f.width >= f.high-1e-6 {
				return least
			}
			least = math.Inf(1)
			for _, next := range lows {
				if next > low+1e-6 && next <= low+step+1e-6 {
					least = min(least, total(f.strip(nil, 0, next, next+f.width, low+f.width))+above(next))
				}
			}
			rest[low] = least
			return least
		}
		least := math.Inf(1)
		for _, low := range lows {
			if low <= f.low+1e-6 {
				least = min(least, total(f.strip(nil, 0, low, low+f.width, math.Inf(-1)))+above(low))
			}
		}
		require.InDelta(t, least, total(got), 1e-5, "%s", s)
		even := math.Inf(1)
		for _, start := range f.starts() {
			even = min(even, total(f.runs(start, 0)))
		}
		if least < even-1e-3 {
			uneven++
			l, err := LayRolls(s, Product{Width: quantity.Meters(f.width), Length: quantity.Feet(5000), Lap: quantity.Meters(f.lap)}, 0, 1)
			require.NoError(t, err)
			require.LessOrEqual(t, l.Cut().SquareMeters()/f.width, least+1e-3, "%s", s)
		}
		lapped, at := math.Inf(-1), 0
		for i := 0; at < len(got); i++ { // the strips are told one by one
			low := got[at].low
			own := f.strip(nil, got[at].strip, low, low+f.width, lapped)
			require.Equal(t, own, got[at:at+len(own)])
			at += len(own)
			lapped = low + f.width
			if at < len(got) {
				require.Greater(t, got[at].strip, own[0].strip)
			}
		}
	}
	require.Greater(t, uneven, 5, "wider laps seldom cover the area with less")
	require.Positive(t, none)
}

func TestTooManyStrips(t *testing.T) {
	for _, c := range []struct {
		name, why   string
		across, lap float64
		want        bool
	}{
		{"500 strips", "as many as are laid", 1500, 0, true},
		{"more than 500", "one too many", 1500.1, 0, false},
		{"500 with laps", "each covers 2 m of its own", 1000, 1, true},
		{"more than 500 with laps", "one too many", 1000.1, 1, false},
	} {
		s, err := Rectangle(quantity.Meters(10), quantity.Meters(c.across))
		require.NoError(t, err)
		err = newField([][]point{s.corners}, point{1, 0}, 3, c.lap).check(quantity.Meters(3))
		require.Equal(t, c.want, err == nil, "%s: %s", c.name, c.why)
	}
}

// TestRank holds which of two ways to lay is the better.
func TestRank(t *testing.T) {
	than := &choice{packing: packing{rolls: 2}, cut: 50, pieces: 4}
	for _, c := range []struct {
		name          string
		rolls, pieces int
		cut           float64
		want          int
	}{
		{"fewer rolls, be it with more cut", 1, 9, 90, -1},
		{"more rolls", 3, 1, 10, 1},
		{"less cut, be it in more pieces", 2, 9, 50 - 1.02e-4, -1},
		{"more cut", 2, 1, 50 + 1.02e-4, 1},
		{"a tenth of a millimeter less is none", 2, 5, 50 - 0.99e-4, 1},
		{"a tenth of a millimeter more is none", 2, 3, 50 + 0.99e-4, -1},
		{"alike", 2, 4, 50, 0},
	} {
		require.Equal(t, c.want, rank(c.rolls, c.pieces, c.cut, than), c.name)
	}
	for cut, want := range map[float64]int{1e-4: 0, -1e-4: 0} {
		require.Equal(t, want, rank(2, 4, cut, &choice{packing: packing{rolls: 2}, pieces: 4}), "just a tenth of a millimeter is none: %g", cut)
	}
}

// TestWorse holds what rules out that strips are better than what was found: two
// levels, rolls of 100 that lap 4 at ends.
func TestWorse(t *testing.T) {
	found := func(rolls, pieces int, cut float64) *choice {
		return &choice{packing: packing{rolls: rolls}, pieces: pieces, cut: cut}
	}
	for _, c := range []struct {
		name, why string
		found     *choice
		length    float64
		close     bool
		want      bool
	}{
		{"nothing was found", "all is better", nil, 120, false, false},
		{"less cut", "2 of 120 with a joint each are 248", found(3, 2, 250), 120, false, false},
		{"as much cut in as many pieces", "no better", found(3, 2, 248), 120, false, true},
		{"as much cut in fewer pieces", "2 at least", found(3, 3, 248), 120, false, false},
		{"more cut", "2 of 130 with a joint each are 268", found(3, 4, 250), 130, false, true},
		{"fewer rolls", "2 of 90 might be cut from 2", found(3, 4, 150), 90, false, false},
		{"fewer rolls, close to others", "are not hoped for, and 180 are more than 150", found(3, 4, 150), 90, true, true},
		{"less cut, close to others", "is hoped for", found(3, 4, 190), 90, true, false},
	} {
		b := bestLayout{area: area{levels: 2}, stock: stock{100, 4, 10}, choice: c.found}
		require.Equal(t, c.want, b.worse([]run{{from: 3, to: 3 + c.length}}, c.close), "%s: %s", c.name, c.why)
	}
	require.Equal(t, []float64{2, 3, 2, 3}, lengthsOf([]run{{from: 1, to: 3}, {from: -1, to: 2}}, 2))
	require.Equal(t, 2, strips([]run{{strip: 1}, {strip: 1}, {strip: 3}}), "a strip of two pieces, and one that lies beyond one that covers nothing")
	require.Equal(t, stock{3, 0, 0}, Product{Length: 3, EndLap: -1e-9, Shortest: -1e-9}.stock(), "what is 0 but for rounding is 0")
}

// TestAxes holds along what strips may run.
func TestAxes(t *testing.T) {
	m := func(xy ...float64) (s Shape) {
		var c []Point
		for i := 0; i < len(xy); i += 2 {
			c = append(c, Point{quantity.Meters(xy[i]), quantity.Meters(xy[i+1])})
		}
		s, err := Polygon(c...)
		require.NoError(t, err)
		return s
	}
	round, err := Circle(3)
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		shape     Shape
		want      []point
	}{
		{"circle", "all ways are the same", round, []point{{1, 0}}},
		{"rectangle", "along and across the longest side", m(0, 0, 3, 0, 3, 5, 0, 5), []point{{0, 1}, {1, 0}}},
		{"triangle", "the slope is the longest; then the other two, which are across each other", m(0, 0, 4, 0, 0, 3), []point{{-0.8, 0.6}, {0.6, 0.8}, {1, 0}, {0, -1}}},
	} {
		got := c.shape.axes()
		require.Len(t, got, len(c.want), c.why)
		for i, w := range c.want {
			require.InDeltaSlice(t, []float64{w.x, w.y}, []float64{got[i].x, got[i].y}, 1e-12, "%s: %s", c.name, c.why)
		}
	}
	var xy []float64
	for i := range 19 { // no two sides run the same way, or across each other
		p := heading(float64(i) * 360 / 19)
		xy = append(xy, 10*p.x, 10*p.y)
	}
	require.Len(t, m(xy...).axes(), 32, "along and across 16 of 19 sides")
}
