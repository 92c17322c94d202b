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
		small, err1 := g.SizeAt(drainage.Mid, percent(min(p, q)))
		large, err2 := g.SizeAt(drainage.Mid, percent(max(p, q)))
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
		large, err1 := coarser.SizeAt(drainage.Mid, percent(p))
		small, err2 := finer.SizeAt(drainage.Mid, percent(p))
		if err1 != nil || err2 != nil {
			continue
		}
		told++
		require.LessOrEqual(t, float64(small), float64(large)*(1+rounding), "%v finer than %v at %g", finer, coarser, p)
	}
	require.Greater(t, told, 300)
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
				for _, set := range []drainage.CriteriaSet{drainage.PavementDrainage, drainage.PavementDrainageWithFlow, drainage.RiprapFilter} {
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

// Run with -race: a gradation is shared freely.
func TestGradationIsSharedBetweenGoroutines(t *testing.T) {
	f, b := gradation(t, no57), gradation(t, c33)
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for range 50 {
				if _, err := drainage.FilterHoldsWorst(drainage.PavementDrainage, f, b); err != nil {
					t.Error(err)
				}
				_ = f.String()
			}
		})
	}
	group.Wait()
}
