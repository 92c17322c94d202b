package drainage_test

import (
	"errors"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

// rounding is the share by which two sizes may be out of order through the
// arithmetic alone.
const rounding = 1e-11

func draw() *rand.Rand { return rand.New(rand.NewPCG(2026, 11)) }

// randomRows draws openings from coarse to fine with percents that never rise.
func randomRows(r *rand.Rand) (openings []quantity.Length, percents []float64) {
	n := 2 + r.IntN(9)
	mm := 80.0 * r.Float64()
	for range n {
		mm /= 1.01 + 2*r.Float64()
		openings = append(openings, quantity.Millimeters(mm+0.001))
		percents = append(percents, 100*r.Float64())
	}
	slices.Sort(percents)
	slices.Reverse(percents)
	if r.IntN(2) == 0 {
		percents[0], percents[n-1] = 100, 0
	}
	return openings, percents
}

// randomPair returns a curve and a finer one on the same sieves.
func randomPair(t *testing.T, r *rand.Rand) (coarser, finer drainage.Gradation) {
	openings, low := randomRows(r)
	high := make([]float64, len(low))
	share := r.Float64()
	for i, p := range low {
		high[i] = p + (100-p)*share
	}
	return curve(t, openings, low, low), curve(t, openings, high, high)
}

func curve(t *testing.T, openings []quantity.Length, low, high []float64) drainage.Gradation {
	t.Helper()
	bands := make([]drainage.Band, len(openings))
	for i := range openings {
		bands[i] = drainage.Band{Opening: openings[i], Low: low[i], High: high[i]}
	}
	g, err := drainage.NewGradation(bands...)
	require.NoError(t, err)
	return g
}

func TestSizeRisesWithPercent(t *testing.T) {
	r, told := draw(), 0
	for range 2000 {
		g, _ := randomPair(t, r)
		p, q := 100*r.Float64(), 100*r.Float64()
		small, err1 := g.SizeAt(drainage.Mid, min(p, q))
		large, err2 := g.SizeAt(drainage.Mid, max(p, q))
		if err1 != nil || err2 != nil {
			require.True(t, errors.Is(errors.Join(err1, err2), drainage.ErrCannotTell))
			continue
		}
		told++
		require.LessOrEqual(t, float64(small), float64(large)*(1+rounding), "%v: D%g and D%g", g, p, q)
	}
	require.Greater(t, told, 500)
}

func TestFinerGradationHasNoLargerSize(t *testing.T) {
	r, told := draw(), 0
	for range 2000 {
		coarser, finer := randomPair(t, r)
		p := 100 * r.Float64()
		large, err1 := coarser.SizeAt(drainage.Mid, p)
		small, err2 := finer.SizeAt(drainage.Mid, p)
		if err1 != nil || err2 != nil {
			continue
		}
		told++
		require.LessOrEqual(t, float64(small), float64(large)*(1+rounding), "%v finer than %v at %g", finer, coarser, p)
	}
	require.Greater(t, told, 300)
}

// PercentPassing undoes SizeAt, between the sieves and on them.
func TestPassingUndoesSize(t *testing.T) {
	r, told := draw(), 0
	for range 2000 {
		g, _ := randomPair(t, r)
		p := 100 * r.Float64()
		size, err := g.SizeAt(drainage.Mid, p)
		if err != nil {
			continue
		}
		told++
		back, err := g.PercentPassing(drainage.Mid, size)
		require.NoError(t, err)
		require.InDelta(t, p, back, 1e-6, "%v at %g", g, p)
	}
	require.Greater(t, told, 500)
}

// Every curve within the envelopes passes what the worst edges pass.
func TestWorstEdgesCoverEveryCurve(t *testing.T) {
	r, held := draw(), 0
	inside := func(g drainage.Gradation) drainage.Gradation {
		var openings []quantity.Length
		var percents []float64
		share := r.Float64()
		for _, b := range g.Bands() {
			openings = append(openings, b.Opening)
			percents = append(percents, b.Low+(b.High-b.Low)*share)
		}
		return curve(t, openings, percents, percents)
	}
	for range 60 {
		for _, filter := range []string{no2, no57, no8, d2940Base} {
			for _, protected := range []string{no57, no8, no9, c33, c144} {
				f, b := gradation(t, filter), gradation(t, protected)
				for _, set := range []drainage.CriteriaSet{drainage.PavementDrainage, drainage.PavementDrainageWithFlow, drainage.OlderChoke} {
					worst, err := drainage.FilterHoldsWorst(set, f, b)
					require.NoError(t, err)
					if !worst {
						continue
					}
					held++
					holds, err := drainage.FilterHolds(set, inside(f), inside(b))
					require.NoError(t, err)
					require.True(t, holds, "%s: %s under %s", set, filter, protected)
				}
			}
		}
	}
	require.Positive(t, held)
}

func TestReservoirNeverFallsWithRainNorRisesWithInfiltration(t *testing.T) {
	r := draw()
	for range 2000 {
		rain, more := inches(8*r.Float64()), inches(2*r.Float64())
		q, faster := inchesPerHour(3*r.Float64()), inchesPerHour(2*r.Float64())
		runOn, filling, voids := 2*r.Float64(), quantity.Hours(4*r.Float64()), 0.05+0.9*r.Float64()
		for name, depth := range map[string]func(quantity.Length, quantity.Rate) (quantity.Length, error){
			"full infiltration": func(p quantity.Length, q quantity.Rate) (quantity.Length, error) {
				return drainage.ReservoirDepth(p, runOn, q, filling, voids)
			},
			"later Ontario": func(p quantity.Length, q quantity.Rate) (quantity.Length, error) {
				return drainage.ReservoirDepthOntario(p, runOn, q, filling, voids)
			},
			"Virginia": func(p quantity.Length, q quantity.Rate) (quantity.Length, error) {
				return drainage.ReservoirDepthVirginia(p, runOn, p, q, filling, voids)
			},
			"Virginia, underdrain": func(p quantity.Length, q quantity.Rate) (quantity.Length, error) {
				return drainage.ReservoirDepthVirginiaUnderdrain(p, runOn, p, q, q, filling, voids)
			},
			"North Carolina": func(p quantity.Length, _ quantity.Rate) (quantity.Length, error) {
				return drainage.ReservoirDepthNorthCarolina(p, runOn, voids)
			},
		} {
			at, err := depth(rain, q)
			require.NoError(t, err)
			wetter, err := depth(rain+more, q)
			require.NoError(t, err)
			quicker, err := depth(rain, q+faster)
			require.NoError(t, err)
			require.GreaterOrEqual(t, at, quantity.Length(0), name)
			require.GreaterOrEqual(t, wetter, at, name)
			require.LessOrEqual(t, quicker, at, name)
		}
	}
}

// A reservoir as deep as the cap empties in just the time allowed.
func TestCapAndDrainTimeAgree(t *testing.T) {
	r := draw()
	for range 1000 {
		q, allowed, voids := inchesPerHour(0.001+3*r.Float64()), quantity.Hours(1+100*r.Float64()), 0.05+0.9*r.Float64()
		depth, err := drainage.ReservoirDepthCap(q, allowed, voids)
		require.NoError(t, err)
		took, err := drainage.DrainTime(depth, voids, q)
		require.NoError(t, err)
		require.InEpsilon(t, float64(allowed), float64(took), 1e-12)
	}
}

func TestUsableDepthIsContinuousAndFalls(t *testing.T) {
	barrier, slope := inches(12), 0.02
	last := barrier
	for feet := 0.0; feet < 200; feet += 0.5 {
		got, err := drainage.UsableDepthOnSlope(barrier, slope, quantity.Feet(feet))
		require.NoError(t, err)
		require.LessOrEqual(t, got, last)
		require.Less(t, float64(last-got), float64(inches(0.1)), "no jump at %g ft", feet)
		last = got
	}
}

// Run with -race: a gradation is shared freely.
func TestGradationIsSharedBetweenGoroutines(t *testing.T) {
	f, b := gradation(t, no57), gradation(t, c33)
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for range 50 {
				if _, err := drainage.JudgeWorst(drainage.PavementDrainage, f, b); err != nil {
					t.Error(err)
				}
				_ = f.String()
			}
		})
	}
	group.Wait()
}
