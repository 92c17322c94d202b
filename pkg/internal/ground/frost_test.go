package ground_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
)

func TestFrostGroups(t *testing.T) {
	gravel := func(g ground.Group, finer float64) func() (ground.FrostGroup, error) {
		return func() (ground.FrostGroup, error) { return ground.FrostGroupOfGravel(g, pct(finer)) }
	}
	sand := func(g ground.Group, finer float64, fine bool) func() (ground.FrostGroup, error) {
		return func() (ground.FrostGroup, error) { return ground.FrostGroupOfSand(g, pct(finer), fine) }
	}
	fines := func(g ground.Group, pi float64, banded bool) func() (ground.FrostGroup, error) {
		return func() (ground.FrostGroup, error) { return ground.FrostGroupOfFines(g, pi, banded) }
	}
	for _, c := range []struct {
		name, why string
		call      func() (ground.FrostGroup, error)
		want      ground.FrostGroup
	}{
		{"clean gravel", "under 1.5 %", gravel(ground.GW, 1), ground.NFS},
		{"edge of PFS", "an edge goes to the weaker", gravel(ground.GP, 1.5), ground.PFS},
		{"3 % in gravel", "3 % is frost-susceptible", gravel(ground.GW, 3), ground.S1},
		{"gravel with silt", "percentage decides, not the symbol", gravel(ground.GWGM, 2.5), ground.PFS},
		{"silty gravel 8 %", "6 to 10", gravel(ground.GM, 8), ground.F1},
		{"silty gravel 20 %", "20 is not over 20", gravel(ground.GM, 20), ground.F2},
		{"clayey gravel 21 %", "over 20", gravel(ground.GC, 21), ground.F3},
		{"clean sand", "under 3 %", sand(ground.SP, 2.9, false), ground.NFS},
		{"sand 4 %", "S2 without a laboratory test", sand(ground.SW, 4, false), ground.S2},
		{"sand with silt 8 %", "6 to 15", sand(ground.SPSM, 8, false), ground.F2},
		{"silty sand 15 %", "15 is not over 15", sand(ground.SM, 15, true), ground.F2},
		{"silty sand 16 %", "over 15", sand(ground.SM, 16, false), ground.F3},
		{"very fine silty sand", "over 15 and very fine", sand(ground.SM, 16, true), ground.F4},
		{"silt", "all silts", fines(ground.ML, 5, false), ground.F4},
		{"lean clay 13", "PI over 12", fines(ground.CL, 13, false), ground.F3},
		{"lean clay 12", "left out by the table: the weaker", fines(ground.CL, 12, false), ground.F4},
		{"banded clay", "varved is F4 at any PI", fines(ground.CH, 40, true), ground.F4},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.call()
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
	for _, c := range []struct {
		name, why, want string
		call            func() (ground.FrostGroup, error)
	}{
		{"too much in a clean gravel", "a GW has under 5 % fines", "finer than 0.02 mm is 6 %; it must be 0 to 4.5 % (ASTM D2487, fines of GW)", gravel(ground.GW, 6)},
		{"too much in a dual gravel", "12 % at most", "finer than 0.02 mm is 13 %; it must be 0 to 12.5 % (ASTM D2487, fines of GW-GM)", gravel(ground.GWGM, 13)},
		{"sand as a gravel", "the two differ", `soil group is "SW"; it must be GW, GP, GM`, gravel(ground.SW, 2)},
		{"clay as a sand", "the two differ", `soil group is "CL"; it must be SW, SP, SM`, sand(ground.CL, 2, false)},
		{"sand as fines", "the two differ", `soil group is "SM"; it must be CL, ML, CL-ML, CH or MH (TM 5-822-5 Table 18-2)`, fines(ground.SM, 2, false)},
		{"organic", "is to be removed", `soil group is "OH"; it must be CL, ML, CL-ML, CH or MH`, fines(ground.OH, 2, false)},
		{"peat by class", "is to be removed", `soil group is "PT"; it must be GW`, func() (ground.FrostGroup, error) { return ground.FrostGroupFromClass(ground.PT) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := c.call()
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}

// Whatever becomes known of a soil, its frost group is not weaker than the one
// told from the class alone.
func TestFrostGroupFromClassIsTheWeakest(t *testing.T) {
	var order []string
	for _, w := range ground.NFS.Vocabulary().Words {
		order = append(order, w.Label)
	}
	rank := func(g ground.FrostGroup) int { return slices.Index(order, string(g)) }
	for _, g := range ground.Groups() {
		alone, err := ground.FrostGroupFromClass(g)
		if slices.Contains([]ground.Group{ground.OL, ground.OH, ground.PT}, g) {
			require.Error(t, err, "%s is not fit to build on", g)
			continue
		}
		require.NoError(t, err, "%s", g)
		met := false
		for x := 0.0; x <= 60; x += 0.25 {
			for _, veryFine := range []bool{false, g == ground.SM || g == ground.SCSM} {
				for _, known := range []func() (ground.FrostGroup, error){
					func() (ground.FrostGroup, error) { return ground.FrostGroupOfGravel(g, pct(x)) },
					func() (ground.FrostGroup, error) { return ground.FrostGroupOfSand(g, pct(x), veryFine) },
					func() (ground.FrostGroup, error) {
						if g == ground.CH && x < 22 {
							return "", errors.New("a fat clay has PI of 22 and more on the A-line")
						}
						return ground.FrostGroupOfFines(g, x, false)
					},
				} {
					if got, err := known(); err == nil {
						require.LessOrEqual(t, rank(got), rank(alone), "%s with %g", g, x)
						met = met || got == alone
					}
				}
			}
		}
		require.True(t, met, "%s is %s for some sample", g, alone)
	}
}

// erf by Simpson's rule, another route than the library's own.
func erf(x float64) float64 {
	const n = 2000
	h, sum := x/n, 0.0
	for i := 0; i <= n; i++ {
		weight := 4.0
		switch {
		case i == 0 || i == n:
			weight = 1
		case i%2 == 0:
			weight = 2
		}
		t := float64(i) * h
		sum += weight * math.Exp(-t*t)
	}
	return 2 / math.Sqrt(math.Pi) * sum * h / 3
}

// The grid computed for the reference, to its print, and the root put back into
// the equation.
func TestBerggrenLambda(t *testing.T) {
	alphas := []float64{0, .25, .5, 1, 2, 3, 5}
	for mu, row := range map[float64][]float64{
		.01: {.998, .988, .977, .956, .917, .879, .809},
		.05: {.992, .966, .942, .895, .810, .737, .617},
		.1:  {.984, .946, .911, .846, .735, .645, .511},
		.2:  {.969, .914, .864, .776, .639, .538, .403},
		.3:  {.955, .887, .826, .725, .576, .473, .344},
		.5:  {.930, .841, .767, .649, .492, .393, .278},
		.7:  {.907, .803, .720, .595, .438, .344, .239},
		1:   {.877, .756, .664, .534, .382, .296, .203},
	} {
		for i, alpha := range alphas {
			lambda, err := ground.BerggrenLambda(alpha, mu)
			require.NoError(t, err)
			require.InDelta(t, row[i], lambda, 0.0005001, "mu %g alpha %g", mu, alpha)
			g := lambda * math.Sqrt(mu/2)
			cool := math.Exp(-g * g)
			left := cool/erf(g) - alpha*cool/(1-erf(g))
			require.InEpsilon(t, math.Sqrt(math.Pi)*g/mu, left, 1e-6, "mu %g alpha %g", mu, alpha)
		}
	}
}

func TestBerggrenLambdaProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 3000 {
		alpha, mu := math.Exp(r.Float64()*23.8-10), math.Exp(r.Float64()*23-20.7)
		lambda, err := ground.BerggrenLambda(alpha, mu)
		require.NoError(t, err)
		require.Greater(t, lambda, 0.0)
		require.LessOrEqual(t, lambda, 1.0)
		more, err := ground.BerggrenLambda(min(1e6, alpha*1.1), mu)
		require.NoError(t, err)
		require.LessOrEqual(t, more, lambda*(1+1e-12), "falls as alpha rises: %g %g", alpha, mu)
		more, err = ground.BerggrenLambda(alpha, min(10, mu*1.1))
		require.NoError(t, err)
		require.LessOrEqual(t, more, lambda*(1+1e-12), "falls as mu rises: %g %g", alpha, mu)
		// Without erf and erfc at hand, the equation itself.
		g := lambda * math.Sqrt(mu/2)
		cool := math.Exp(-g * g)
		right := math.Sqrt(math.Pi) * g / mu
		first := cool / math.Erf(g)
		second := alpha * cool / math.Erfc(g)
		require.InDelta(t, 0, (first-second-right)/(first+second+right), 1e-9, "%g %g", alpha, mu)
	}
}

func TestThaw(t *testing.T) {
	for _, g := range []ground.FrostGroup{ground.NFS, ground.PFS} {
		_, err := ground.FrostSoilSupport(g)
		require.EqualError(t, err, fmt.Sprintf("frost group is %q; it must be S1, S2, F1, F2, F3 or F4 "+
			"(UFC 3-260-02 Table 3-5; NFS does not weaken in thaw, and PFS needs a laboratory frost test)", g))
	}
	last := math.Inf(1)
	for _, w := range ground.NFS.Vocabulary().Words {
		f, err := ground.ThawModulusFactor(ground.FrostGroup(w.Label))
		require.NoError(t, err)
		require.LessOrEqual(t, f, last, "the order is that of thaw strength")
		last = f
	}
}

// silt is the sandy silt of the example in TM 5-852-6: surface index, moisture,
// density, temperature and season.
func silt(index float64) (surface quantity.FreezingIndex, k ground.Conductivity, dry quantity.Density, moisture quantity.Share, mean quantity.Temperature, season quantity.Time) {
	return quantity.FahrenheitDays(index), ground.BTUPerFootHourF(0.76), quantity.PCF(100), pct(15), quantity.Fahrenheit(37.2), quantity.Days(160)
}

func TestFrostDepthProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 3000 {
		surface, k := quantity.FahrenheitDays(50+3000*r.Float64()), ground.Conductivity(0.5+2*r.Float64())
		dry, moisture := quantity.PCF(85+40*r.Float64()), pct(3+12*r.Float64())
		mean, season := quantity.Celsius(15*r.Float64()), quantity.Days(30+170*r.Float64())
		depth, err := ground.BerggrenDepth(surface, k, dry, moisture, mean, season)
		require.NoError(t, err)
		stefan, err := ground.StefanDepth(surface, k, dry, moisture)
		require.NoError(t, err)
		require.LessOrEqual(t, depth, stefan, "Stefan's depth is the greatest")
		colder, err := ground.BerggrenDepth(surface*1.05, k, dry, moisture, mean, season)
		require.NoError(t, err)
		require.Greater(t, colder, depth, "frost goes deeper in a colder winter")
		warmer, err := ground.BerggrenDepth(surface, k, dry, moisture, mean+1, season)
		require.NoError(t, err)
		require.Less(t, warmer, depth, "and less deep where the ground is warmer")
	}
}

func TestFrostDepthRefuses(t *testing.T) {
	surface, k, dry, moisture, mean, season := silt(2500)
	for _, c := range []struct {
		name, why, want string
		call            func() (quantity.Length, error)
	}{
		{"below freezing all year", "ground that never thaws needs another method", "mean annual temperature is -3 C; it must be 0 to 40 C",
			func() (quantity.Length, error) {
				return ground.BerggrenDepth(surface, k, dry, moisture, quantity.Celsius(-3), season)
			}},
		{"no winter", "a surface that never freezes has no depth", "surface freezing index is 0 F-days; it must be above 0 and at most 20,000 F-days",
			func() (quantity.Length, error) { return ground.BerggrenDepth(0, k, dry, moisture, mean, season) }},
		{"nearly dry", "it would freeze without end", "frost depth is 44.29 m; it must be 0 to 30 m",
			func() (quantity.Length, error) { return ground.StefanDepth(surface, k, dry, pct(0.03)) }},
		{"more water than pores", "a slip of unit or of column", "moisture is 30 %; it must be above 0 and at most 27.9 % (room for water at 100 pcf)",
			func() (quantity.Length, error) { return ground.StefanDepth(surface, k, dry, pct(30)) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := c.call()
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}

// Kersten's equations against values read from his charts in the worked example
// of a pavement course (relayed): silt at 100 pcf and 15 %, frozen 0.8. The mean
// with the unfrozen equation was computed for the reference.
func TestKersten(t *testing.T) {
	mean, err := ground.MeanConductivity(ground.KerstenFine, quantity.PCF(100), pct(15))
	require.NoError(t, err)
	require.InDelta(t, 0.76, mean.BTUPerFootHourF(), 0.005)
	_, err = ground.MeanConductivity(ground.KerstenFine, quantity.PCF(100), pct(5))
	require.EqualError(t, err, "moisture is 5 %; it must be at least 7 % (Kersten 1949, University of Minnesota Bulletin 28, silt and clay)", "too dry for the equation")
	_, err = ground.MeanConductivity(ground.KerstenFine, quantity.PCF(130), pct(30))
	require.ErrorContains(t, err, "room for water at 130 pcf", "the pores do not hold it")
	_, err = ground.MeanConductivity(ground.KerstenCoarse, quantity.PCF(160), pct(3))
	require.NoError(t, err, "the densest stone")
	_, err = ground.MeanConductivity(ground.KerstenCoarse, quantity.PCF(161), pct(3))
	require.ErrorContains(t, err, "dry density is 161 pcf; it must be 50 to 160 pcf")
	var k ground.Conductivity
	require.NoError(t, k.UnmarshalText([]byte("0.76 Btu/ft-hr-F")))
	require.InDelta(t, 1.3154, float64(k), 0.0005)
	require.Equal(t, "0.76 Btu/ft-hr-F (1.32 W/m-K)", k.String())
	for _, bad := range []string{"", "0.76", "x W/m-K", "NaN W/m-K", "1 W"} {
		require.Error(t, k.UnmarshalText([]byte(bad)), bad)
	}
}

func TestLimitedFrostBase(t *testing.T) {
	in := quantity.Inches
	b2, err := ground.LimitedFrostBase(in(45), in(5), pct(18), pct(3), ground.RatioCap2)
	require.NoError(t, err)
	b3, err := ground.LimitedFrostBase(in(45), in(5), pct(18), pct(3), ground.RatioCap3)
	require.NoError(t, err)
	require.InDelta(t, 26.7, b2.Inches(), 0.05)
	require.InDelta(t, 40/1.75, b3.Inches(), 1e-9, "the higher cap makes the thinner base: 40 in over 1 + 3/4")
	drier, err := ground.LimitedFrostBase(in(45), in(5), pct(4), pct(4), ground.RatioCap2)
	require.NoError(t, err)
	require.InDelta(t, 40/1.25, drier.Inches(), 1e-9, "a ratio under the cap counts as it is")
	none, err := ground.LimitedFrostBase(in(4), in(5), pct(18), pct(3), ground.RatioCap2)
	require.NoError(t, err)
	require.Zero(t, none)
}

func ExampleBerggrenDepth() {
	k, _ := ground.MeanConductivity(ground.KerstenFine, quantity.PCF(100), quantity.Percent(15))
	surface, dry := quantity.FahrenheitDays(2500), quantity.PCF(100)
	depth, _ := ground.BerggrenDepth(surface, k, dry, quantity.Percent(15), quantity.Fahrenheit(37.2), quantity.Days(160))
	stefan, _ := ground.StefanDepth(surface, k, dry, quantity.Percent(15))
	fmt.Printf("%.1f ft, without the heat of the soil %.1f ft\n", depth.Feet(), stefan.Feet())
	// Output: 5.8 ft, without the heat of the soil 6.5 ft
}
