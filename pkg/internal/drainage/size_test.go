package drainage_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

// Sizes computed once from the envelopes by log-linear interpolation, in mm:
// coarse edge / mid / fine edge. They are no publication; they guard the
// interpolation against change.
var computedSizes = []struct {
	name, envelope, sizes string
}{
	{"No. 2", no2, "40.7/38.1/26.7 42.42/39.34/37.50 48.0/43.3/40.6 53.25/49.21/45.03 55.5/52.1/47.5 61.69/59.67/56.13"},
	{"No. 3", no3, "28.1/25.6/17.7 29.75/26.75/25.00 35.4/30.6/27.9 40.56/36.67/32.36 42.7/39.5/34.8 48.71/46.73/43.30"},
	{"No. 57", no57, "7.00/5.40/4.75 8.488/6.148/5.233 13.1/9.05/7.00 16.01/13.74/10.30 17.7/15.6/12.5 22.64/21.36/19.28"},
	{"No. 67", no67, "6.72/5.29/4.75 7.989/5.879/5.130 10.5/8.10/6.46 12.79/11.05/8.80 14.1/12.5/10.3 18.08/16.84/15.08"},
	{"No. 8", no8, "4.75/2.98/2.36 4.975/3.762/2.811 5.71/5.23/4.75 6.875/6.328/5.790 7.54/6.96/6.39 9.500/8.843/8.189"},
	{"No. 89", no89, "2.98/1.56/1.18 3.762/2.054/1.403 5.24/3.65/2.36 6.393/5.522/4.130 7.06/6.23/5.13 9.041/8.421/7.540"},
	{"No. 9", no9, "2.36/1.40/1.18 2.473/1.669/1.325 2.84/2.49/1.87 3.427/3.058/2.652 3.76/3.39/2.98 4.750/4.395/3.988"},
	{"C33 sand", c33, "0.357/0.198/0.150 0.424/0.261/0.178 0.687/0.424/0.300 1.180/0.735/0.476 1.487/0.963/0.600 2.980/2.023/1.180"},
	{"CSA FA1", fa1, "0.315/0.189/0.160 0.397/0.232/0.183 0.723/0.397/0.275 1.250/0.723/0.445 1.575/0.950/0.561 3.150/2.102/1.090"},
	{"C144 natural", c144, "0.300/0.162/0.106 0.337/0.207/0.150 0.476/0.348/0.252 0.752/0.517/0.389 0.942/0.638/0.463 1.789/1.180/0.786"},
	{"D2940 base", d2940Base, "0.424/0.177/0.096 0.786/0.363/0.177 3.03/1.47/0.847 9.500/5.985/3.365 13.4/9.50/5.99 28.57/22.41/15.24"},
	{"D2940 subbase", d2940Subbase, "0.299/0.115/none 0.597/0.195/0.097 4.75/0.963/0.355 9.46/5.84/2.00 13.3/8.83/4.75 31.6/24.8/17.3"},
}

func TestSizesOfStandardEnvelopes(t *testing.T) {
	percents := []float64{10, 15, 30, 50, 60, 85}
	edges := []drainage.Edge{drainage.Coarse, drainage.Mid, drainage.Fine}
	for _, c := range computedSizes {
		t.Run(c.name, func(t *testing.T) {
			g := gradation(t, c.envelope)
			for i, group := range strings.Fields(c.sizes) {
				for k, text := range strings.Split(group, "/") {
					got, err := g.SizeAt(edges[k], percents[i])
					if text == "none" {
						require.ErrorIs(t, err, drainage.ErrCannotTell)
						continue
					}
					require.NoError(t, err)
					want, err := strconv.ParseFloat(text, 64)
					require.NoError(t, err)
					require.InDelta(t, want, got.Millimeters(), halfDigit(text), "D%g on the %s", percents[i], edges[k])
				}
			}
		})
	}
}

// halfDigit is how far a computed size may be from one of computedSizes. Those
// were rounded to three decimals first and again after (56.1249 is written 56.13),
// so where fewer than three are shown, half of the third decimal comes on top.
func halfDigit(text string) float64 {
	_, fraction, _ := strings.Cut(text, ".")
	half := 0.5
	for range fraction {
		half /= 10
	}
	if len(fraction) >= 3 {
		return half * 1.001
	}
	return half + 0.0005
}

func TestSizeAtIsExactOnASieve(t *testing.T) {
	g := gradation(t, no8)
	for _, c := range []struct {
		name    string
		edge    drainage.Edge
		percent float64
		want    quantity.Length
	}{
		{"coarse edge meets 3/8 in at 85", drainage.Coarse, 85, quantity.Millimeters(9.5)},
		{"coarse edge meets No. 4 at 10", drainage.Coarse, 10, quantity.Millimeters(4.75)},
		{"the finest sieve answers at its own percent", drainage.Fine, 5, quantity.Millimeters(1.18)},
		{"all pass: the smallest of the sieves that pass all", drainage.Fine, 100, quantity.Millimeters(9.5)},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := g.SizeAt(c.edge, c.percent)
			require.NoError(t, err)
			require.Equal(t, c.want, got)
		})
	}
}

func TestSizeAtRefuses(t *testing.T) {
	g := gradation(t, "12 mm: 90, 6 mm: 40")
	for _, c := range []struct {
		name    string
		percent float64
	}{{"above the coarsest sieve", 95}, {"below the finest sieve", 30}} {
		t.Run(c.name, func(t *testing.T) {
			_, err := g.SizeAt(drainage.Mid, c.percent)
			require.ErrorIs(t, err, drainage.ErrCannotTell)
		})
	}
	for _, percent := range []float64{-1, 0, 100.5} {
		_, err := g.SizeAt(drainage.Mid, percent)
		var outside *calculation.RangeError
		require.ErrorAs(t, err, &outside, "percent %g", percent)
	}
	_, err := drainage.Gradation{}.SizeAt(drainage.Mid, 50)
	require.ErrorIs(t, err, drainage.ErrCannotTell, "the zero gradation tells nothing")
}

func TestPercentPassing(t *testing.T) {
	g := gradation(t, no57)
	for _, c := range []struct {
		name string
		edge drainage.Edge
		size quantity.Length
		want float64
		near float64
	}{
		{"on a sieve, mid of 25-60", drainage.Mid, quantity.Millimeters(12.5), 42.5, 0},
		{"on a sieve, coarse edge", drainage.Coarse, quantity.Millimeters(12.5), 25, 0},
		{"above a sieve that all pass", drainage.Coarse, quantity.Millimeters(60), 100, 0},
		{"below a sieve that none pass on the coarse edge", drainage.Coarse, quantity.Millimeters(1), 0, 0},
		// By hand: ln(9.5/4.75)/ln(12.5/4.75) = 0.71637; 5 + 37.5 * 0.71637.
		{"between two sieves", drainage.Mid, quantity.Millimeters(9.5), 31.864, 0.001},
		{"a rounding off a sieve is the sieve", drainage.Fine, quantity.Millimeters(37.5) * (1 + 1e-12), 100, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := g.PercentPassing(c.edge, c.size)
			require.NoError(t, err)
			require.InDelta(t, c.want, got, c.near)
		})
	}
	_, err := g.PercentPassing(drainage.Fine, quantity.Millimeters(1))
	require.ErrorIs(t, err, drainage.ErrCannotTell, "5 %% pass No. 8 on the fine edge; finer is not told")
	_, err = gradation(t, "12 mm: 90, 6 mm: 40").PercentPassing(drainage.Mid, quantity.Millimeters(13))
	require.ErrorIs(t, err, drainage.ErrCannotTell, "10 %% are coarser than the coarsest sieve")
}

func TestMeasures(t *testing.T) {
	near := func(want, got float64, err error, delta float64) {
		t.Helper()
		require.NoError(t, err)
		require.InDelta(t, want, got, delta)
	}
	// Computed in the reference for the C33 envelope: mid 2.80, coarse 3.45, fine 2.15.
	sand := gradation(t, c33)
	for edge, want := range map[drainage.Edge]float64{drainage.Mid: 2.80, drainage.Coarse: 3.45, drainage.Fine: 2.15} {
		got, err := sand.FinenessModulus(edge)
		near(want, got, err, 1e-9)
	}
	_, err := gradation(t, no57).FinenessModulus(drainage.Mid)
	require.ErrorIs(t, err, drainage.ErrCannotTell, "2.5 %% pass No. 8; how many pass No. 100 is not told")

	// Computed: No. 57 mid D60/D10 = 15.6/5.40, and 9.05^2/(5.40*15.6).
	cu, err := gradation(t, no57).UniformityCoefficient(drainage.Mid)
	near(2.89, cu, err, 0.02)
	cc, err := gradation(t, no57).CurvatureCoefficient(drainage.Mid)
	near(0.972, cc, err, 0.01)

	size, err := gradation(t, no57).LargestStone()
	near(37.5, size.Millimeters(), err, 1e-9)
	size, err = gradation(t, no57).NominalMaximum()
	near(25, size.Millimeters(), err, 1e-9)
	_, err = gradation(t, "12 mm: 90, 6 mm: 40").LargestStone()
	require.ErrorIs(t, err, drainage.ErrCannotTell)
}
