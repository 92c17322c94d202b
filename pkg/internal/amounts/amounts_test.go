package amounts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/amounts"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
)

var (
	feet, inches, percent = quantity.Feet, quantity.Inches, quantity.Percent
	pcf, squareFeet       = quantity.PCF, quantity.SquareFeet
)

// cubicYard is 27 cubic feet of 0.3048 m.
const cubicYard = 27 * 0.3048 * 0.3048 * 0.3048

// TestByHand holds each calculation to arithmetic by hand; rows of published examples are
// in testdata/published.
func TestByHand(t *testing.T) {
	yards := func(v quantity.Volume, err error) (float64, error) { return float64(v) / cubicYard, err }
	share := func(s quantity.Share, err error) (float64, error) { return s.Fraction() * 100, err }
	length := func(l quantity.Length, err error) (float64, error) { return l.Inches(), err }
	for _, c := range []struct {
		name, why string
		want      float64
		call      func() (float64, error)
	}{
		{"loose", "100 x 1.25", 125, func() (float64, error) { return yards(amounts.LooseVolume(100*cubicYard, percent(25))) }},
		{"compacted", "100 x 0.88", 88, func() (float64, error) { return yards(amounts.CompactedVolume(100*cubicYard, percent(12))) }},
		{"compacted rock", "it is more than it was: 100 x 1.3", 130, func() (float64, error) { return yards(amounts.CompactedVolume(100*cubicYard, percent(-30))) }},
		{"bank", "88 / 0.88", 100, func() (float64, error) { return yards(amounts.BankVolume(88*cubicYard, percent(12))) }},
		{"swell", "100 / 80 - 1", 25, func() (float64, error) { return share(amounts.SwellByDensity(pcf(100), pcf(80))) }},
		{"shrink", "1 - 100 / 125", 20, func() (float64, error) { return share(amounts.ShrinkByDensity(pcf(100), pcf(125))) }},
		{"shrink of rock", "1 - 160 / 100", -60, func() (float64, error) { return share(amounts.ShrinkByDensity(pcf(160), pcf(100))) }},
		{"joints", "of 9 x 5 in, 8 x 4 are paver: 2 x 13 / 45", 26.0 / 45, func() (float64, error) {
			return length(amounts.JointFiller(inches(8), inches(4), inches(1), inches(2)))
		}},
		{"no joints", "nothing is filled", 0, func() (float64, error) { return length(amounts.JointFiller(inches(8), inches(4), 0, inches(2))) }},
		{"cuts", "60 ft x 4 in over 200 sq ft", 10, func() (float64, error) { return share(amounts.CutWaste(squareFeet(200), feet(60), inches(4))) }},
		{"pieces along a line", "one at each end of ten", 11, func() (float64, error) { return amounts.PiecesAlong(feet(10), inches(12), false) }},
		{"pieces around a loop", "the last is the first", 10, func() (float64, error) { return amounts.PiecesAlong(feet(10), inches(12), true) }},
		{"pieces along a little more", "one more, that none stands too far apart", 12, func() (float64, error) { return amounts.PiecesAlong(feet(10.01), inches(12), false) }},
		{"pieces along nothing", "one stands where it is", 1, func() (float64, error) { return amounts.PiecesAlong(0, inches(12), false) }},
		{"perimeter of a square", "4 x 10 ft", 480, func() (float64, error) { return length(amounts.PerimeterOf(squareFeet(100), 1)) }},
		{"perimeter of a strip", "20 ft by 5 ft", 600, func() (float64, error) { return length(amounts.PerimeterOf(squareFeet(100), 4)) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.call()
			require.NoError(t, err)
			require.InDelta(t, c.want, got, 1e-9, c.why)
		})
	}
}

// TestRangeEnds takes each argument at both ends of its range and just beyond, with the
// others as a job has them.
func TestRangeEnds(t *testing.T) {
	yards := func(x float64) quantity.Volume { return quantity.Volume(x * cubicYard) }
	for _, c := range []struct {
		name, why string
		low, high float64
		above     bool // the low end itself is not taken
		call      func(x float64) error
	}{
		{"bank volume that is dug", "nothing may be dug", 0, 1e8, false, func(x float64) error { return refused(amounts.LooseVolume(yards(x), percent(25))) }},
		{"swell", "to twice the volume", 0, 100, false, func(x float64) error { return refused(amounts.LooseVolume(1, percent(x))) }},
		{"bank volume that is placed", "nothing may be placed", 0, 1e8, false, func(x float64) error { return refused(amounts.CompactedVolume(yards(x), percent(12))) }},
		{"shrink", "rock grows", -50, 50, false, func(x float64) error { return refused(amounts.CompactedVolume(1, percent(x))) }},
		{"compacted volume", "nothing may be wanted", 0, 1e8, false, func(x float64) error { return refused(amounts.BankVolume(yards(x), percent(12))) }},
		{"shrink of what is wanted", "rock grows", -50, 50, false, func(x float64) error { return refused(amounts.BankVolume(1, percent(x))) }},
		{"bank density by loose", "from peat to beyond solid rock", 30, 250, false, func(x float64) error { return refused(amounts.SwellByDensity(pcf(x), pcf(100))) }},
		{"loose density", "from peat to beyond solid rock", 30, 250, false, func(x float64) error { return refused(amounts.SwellByDensity(pcf(100), pcf(x))) }},
		{"bank density by compacted", "from peat to beyond solid rock", 30, 250, false, func(x float64) error { return refused(amounts.ShrinkByDensity(pcf(x), pcf(100))) }},
		{"compacted density", "from peat to beyond solid rock", 30, 250, false, func(x float64) error { return refused(amounts.ShrinkByDensity(pcf(100), pcf(x))) }},
		{"length of a paver", "from a mosaic to a slab of 10 ft", 1, 120, false, func(x float64) error { return refused(amounts.JointFiller(inches(x), inches(4), inches(1), inches(2))) }},
		{"width of a paver", "from a mosaic to a slab of 10 ft", 1, 120, false, func(x float64) error { return refused(amounts.JointFiller(inches(8), inches(x), inches(1), inches(2))) }},
		{"joint", "pavers may touch", 0, 6, false, func(x float64) error { return refused(amounts.JointFiller(inches(8), inches(4), inches(x), inches(2))) }},
		{"depth of joints", "they may be empty", 0, 24, false, func(x float64) error { return refused(amounts.JointFiller(inches(8), inches(4), inches(1), inches(x))) }},
		{"area that is cut", "there is no share of nothing", 0, 1e9, true, func(x float64) error { return refused(amounts.CutWaste(squareFeet(x), feet(60), inches(4))) }},
		{"perimeter", "nothing may be cut", 0, 1e6, false, func(x float64) error { return refused(amounts.CutWaste(squareFeet(100), feet(x), inches(4))) }},
		{"strip", "nothing may be lost", 0, 24, false, func(x float64) error { return refused(amounts.CutWaste(squareFeet(100), feet(60), inches(x))) }},
		{"length of a line", "it may be a point", 0, 1e6, false, func(x float64) error { return refused(amounts.PiecesAlong(feet(x), inches(12), false)) }},
		{"spacing", "an inch to 100 ft", 1, 1200, false, func(x float64) error { return refused(amounts.PiecesAlong(feet(70), inches(x), false)) }},
		{"area of a rectangle", "one of nothing has no sides", 0, 1e9, true, func(x float64) error { return refused(amounts.PerimeterOf(squareFeet(x), 1.5)) }},
		{"proportion", "from a square on", 1, 100, false, func(x float64) error { return refused(amounts.PerimeterOf(squareFeet(300), x)) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			below := c.low - 0.001*max(1, c.low, -c.low)
			for _, x := range []float64{below, c.high * 1.001} {
				var outside *calculation.RangeError
				require.ErrorAs(t, c.call(x), &outside, "%g is beyond: %s", x, c.why)
			}
			require.Equal(t, c.above, c.call(c.low) != nil, "%g: %s", c.low, c.why)
			require.NoError(t, c.call(c.low+0.001), "just above %g: %s", c.low, c.why)
			require.NoError(t, c.call(c.high), "%g: %s", c.high, c.why)
		})
	}
}

// refused is the error alone of a call.
func refused[T any](_ T, err error) error { return err }

func TestCalculationsAreDescribed(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range amounts.Calculations() {
		t.Run(f.Name, func(t *testing.T) {
			require.False(t, seen[f.Name], "described twice")
			seen[f.Name] = true
			sig, err := signature.Of(f)
			require.NoError(t, err)
			require.Len(t, f.Moves, len(sig.Params), "which way it goes with each argument")
			for i, p := range append(f.Params, f.Result) {
				require.NotEmpty(t, p.Name, "of value %d", i)
				require.NotEmpty(t, p.About, p.Name)
			}
			require.NotEmpty(t, f.Sources)
			require.Regexp(t, "^"+f.Name+`\(`, f.Example)
			require.Equal(t, f.Name != "swell_by_density" && f.Name != "shrink_by_density", f.Positive, "soil may shrink when dug and grow when placed; nothing else is below zero")
		})
	}
	for _, name := range []string{"loose_volume", "joint_filler", "pieces_along", "perimeter_of"} {
		require.True(t, seen[name], "soil, joints, pieces and edges: %s", name)
	}
}
