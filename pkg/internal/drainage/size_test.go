package drainage_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

// Sizes computed once from the envelopes by log-linear interpolation, in mm:
// coarse edge / mid / fine edge. They are no publication; they guard the
// interpolation against change.
var computedSizes = []struct {
	name, why, envelope, sizes string
}{
	{"No. 2", "the coarsest stone", no2, "40.7/38.1/26.7 42.42/39.34/37.50 48.0/43.3/40.6 53.25/49.21/45.03 55.5/52.1/47.5 61.69/59.67/56.13"},
	{"No. 3", "stone that stores water", no3, "28.1/25.6/17.7 29.75/26.75/25.00 35.4/30.6/27.9 40.56/36.67/32.36 42.7/39.5/34.8 48.71/46.73/43.30"},
	{"No. 57", "base and choke", no57, "7.00/5.40/4.75 8.488/6.148/5.233 13.1/9.05/7.00 16.01/13.74/10.30 17.7/15.6/12.5 22.64/21.36/19.28"},
	{"No. 67", "base in place of No. 57", no67, "6.72/5.29/4.75 7.989/5.879/5.130 10.5/8.10/6.46 12.79/11.05/8.80 14.1/12.5/10.3 18.08/16.84/15.08"},
	{"No. 8", "bedding and choke; its coarse edge meets 3/8 in at 85 %", no8, "4.75/2.98/2.36 4.975/3.762/2.811 5.71/5.23/4.75 6.875/6.328/5.790 7.54/6.96/6.39 9.500/8.843/8.189"},
	{"No. 89", "bedding and joints", no89, "2.98/1.56/1.18 3.762/2.054/1.403 5.24/3.65/2.36 6.393/5.522/4.130 7.06/6.23/5.13 9.041/8.421/7.540"},
	{"No. 9", "the finest bedding stone; its coarse edge meets No. 4 at 85 %", no9, "2.36/1.40/1.18 2.473/1.669/1.325 2.84/2.49/1.87 3.427/3.058/2.652 3.76/3.39/2.98 4.750/4.395/3.988"},
	{"C33 sand", "bedding sand", c33, "0.357/0.198/0.150 0.424/0.261/0.178 0.687/0.424/0.300 1.180/0.735/0.476 1.487/0.963/0.600 2.980/2.023/1.180"},
	{"CSA FA1", "bedding sand by metric sieves", fa1, "0.315/0.189/0.160 0.397/0.232/0.183 0.723/0.397/0.275 1.250/0.723/0.445 1.575/0.950/0.561 3.150/2.102/1.090"},
	{"C144 natural", "joint sand", c144, "0.300/0.162/0.106 0.337/0.207/0.150 0.476/0.348/0.252 0.752/0.517/0.389 0.942/0.638/0.463 1.789/1.180/0.786"},
	{"D2940 base", "the usual base", d2940Base, "0.424/0.177/0.096 0.786/0.363/0.177 3.03/1.47/0.847 9.500/5.985/3.365 13.4/9.50/5.99 28.57/22.41/15.24"},
	{"D2940 subbase", "few sieves, wide apart; D10 of its fine edge is finer than the finest", d2940Subbase, "0.299/0.115/none 0.597/0.195/0.097 4.75/0.963/0.355 9.46/5.84/2.00 13.3/8.83/4.75 31.6/24.8/17.3"},
}

func TestSizesOfStandardEnvelopes(t *testing.T) {
	percents := []float64{10, 15, 30, 50, 60, 85}
	edges := []drainage.Edge{drainage.Coarse, drainage.Mid, drainage.Fine}
	for _, c := range computedSizes {
		t.Run(c.name, func(t *testing.T) {
			g := gradation(t, c.envelope)
			for i, group := range strings.Fields(c.sizes) {
				for k, text := range strings.Split(group, "/") {
					got, err := g.SizeAt(edges[k], percent(percents[i]))
					if text == "none" {
						require.ErrorIs(t, err, drainage.ErrCannotTell)
						continue
					}
					require.NoError(t, err)
					want, err := strconv.ParseFloat(text, 64)
					require.NoError(t, err)
					require.InDelta(t, want, got.Millimeters(), halfDigit(text), "D%g on the %s: %s", percents[i], edges[k], c.why)
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
		name, why string
		edge      drainage.Edge
		percent   float64
		want      quantity.Length
	}{
		{"coarse edge at 85", "it meets 3/8 in there", drainage.Coarse, 85, quantity.Millimeters(9.5)},
		{"coarse edge at 10", "it meets No. 4 there", drainage.Coarse, 10, quantity.Millimeters(4.75)},
		{"fine edge at 5", "the finest sieve answers at its own percent", drainage.Fine, 5, quantity.Millimeters(1.18)},
		{"fine edge at 100", "all pass: the smallest of the sieves that pass all", drainage.Fine, 100, quantity.Millimeters(9.5)},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := g.SizeAt(c.edge, percent(c.percent))
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
}

func TestSizeAtRefuses(t *testing.T) {
	g := gradation(t, "12 mm: 90, 6 mm: 40")
	for _, c := range []struct {
		name, why string
		g         drainage.Gradation
		percent   float64
		want      string
	}{
		{"above the coarsest sieve", "not extrapolated", g, 95, "size D95 on the mid: 90 % pass 12 mm, the coarsest sieve given: cannot be told from what is known"},
		{"below the finest sieve", "not extrapolated", g, 30, "size D30 on the mid: 40 % pass 6 mm, the finest sieve given: cannot be told from what is known"},
		{"no gradation", "the zero gradation tells nothing", drainage.Gradation{}, 50, "size D50: no gradation is known: cannot be told from what is known"},
	} {
		t.Run(c.name, func(t *testing.T) {
			size, err := c.g.SizeAt(drainage.Mid, percent(c.percent))
			require.EqualError(t, err, c.want, c.why)
			require.ErrorIs(t, err, drainage.ErrCannotTell)
			require.Zero(t, size)
		})
	}
}

// As rules ask for a size: on the mid, where 30 % pass the sieve that 20 to 40 % may.
func TestSizeOnMid(t *testing.T) {
	g := gradation(t, "1 in: 100, 1/2 in: 20-40, No. 4: 0-10")
	size, err := drainage.SizeOnMid(g, percent(30))
	require.NoError(t, err)
	require.Equal(t, quantity.Millimeters(12.5), size)
	_, err = drainage.SizeOnMid(g, percent(4))
	require.ErrorIs(t, err, drainage.ErrCannotTell, "5 % pass the finest sieve on the mid")
}

func TestNominalMaximum(t *testing.T) {
	size, err := drainage.NominalMaximum(gradation(t, no57))
	require.NoError(t, err)
	require.Equal(t, quantity.Millimeters(25), size, "95-100 pass the 1 in sieve, so all may; by the coarse edge it would be 1-1/2 in")
	_, err = drainage.NominalMaximum(gradation(t, "12 mm: 90, 6 mm: 40"))
	require.ErrorIs(t, err, drainage.ErrCannotTell)
}
