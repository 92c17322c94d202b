package drainage_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

func inches(x float64) quantity.Length      { return quantity.Inches(x) }
func inchesPerHour(x float64) quantity.Rate { return quantity.InchesPerHour(x) }

// Every expected value in this file is computed by hand from the formula; no
// publication prints one.

// The three storms of a Minnesota watershed district (2.4, 4.1, 5.9 in) in stone
// with voids of 40 %, filled in 2 h.
func TestReservoirDepth(t *testing.T) {
	rains := []float64{2.4, 4.1, 5.9}
	for _, c := range []struct {
		why         string
		rate, runOn float64
		want        []float64
	}{
		{"the paving alone, on soil that soaks", 0.5, 0, []float64{3.5, 7.75, 12.25}},
		{"half as much area runs on", 0.5, 0.5, []float64{6.5, 12.875, 19.625}},
		{"as much area runs on", 0.5, 1, []float64{9.5, 18.0, 27.0}},
		{"slow soil", 0.06, 0, []float64{5.7, 9.95, 14.45}},
		{"slow soil and run-on", 0.06, 1, []float64{11.7, 20.2, 29.2}},
		{"soil that takes nothing", 0, 0, []float64{6.0, 10.25, 14.75}},
		{"soil that takes all: never below 0", 3, 0, []float64{0, 0, 0}},
	} {
		for i, rain := range rains {
			t.Run(fmt.Sprintf("%g in, %g in/h, run-on %g", rain, c.rate, c.runOn), func(t *testing.T) {
				got, err := drainage.ReservoirDepth(inches(rain), c.runOn, inchesPerHour(c.rate), quantity.Hours(2), percent(40))
				require.NoError(t, err)
				require.InDelta(t, c.want[i], got.Inches(), 1e-9, c.why)
			})
		}
	}
}

func TestDrainTime(t *testing.T) {
	for _, c := range []struct {
		name, why          string
		depth, rate, hours float64
	}{
		{"a foot", "0.4 times 12 in at 0.5 in/h", 12, 0.5, 9.6},
		{"half a foot in slow soil", "0.4 times 6 in at 0.1 in/h", 6, 0.1, 24},
		{"nothing", "an empty bed is empty at once", 0, 0.1, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := drainage.DrainTime(inches(c.depth), percent(40), inchesPerHour(c.rate))
			require.NoError(t, err)
			require.InDelta(t, c.hours, got.Hours(), 1e-9, c.why)
		})
	}
}

func TestUnderdrainNeededToDrain(t *testing.T) {
	for _, c := range []struct {
		name, why   string
		depth, rate float64
		want        bool
	}{
		{"just in time", "12 in at 0.101 in/h take 47.5 h", 12, 0.101, false},
		{"too slow", "12 in at 0.099 in/h take 48.5 h", 12, 0.099, true},
		{"takes nothing", "soil that takes no water empties no bed", 12, 0, true},
		{"nothing to drain", "no bed needs no drain", 0, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := drainage.UnderdrainNeededToDrain(inches(c.depth), percent(40), inchesPerHour(c.rate), quantity.Hours(48))
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
}

func TestBarriers(t *testing.T) {
	for _, c := range []struct {
		why         string
		slope, feet float64
	}{
		{"gentle", 1, 66.7}, {"the usual limit of level beds", 2, 33.3}, {"steeper", 3, 22.2}, {"a steep drive", 5, 13.3},
	} {
		t.Run(fmt.Sprintf("slope %g %%", c.slope), func(t *testing.T) {
			barrier := inches(12)
			spacing, err := drainage.BarrierSpacingDenver(barrier, percent(c.slope))
			require.NoError(t, err)
			require.InDelta(t, c.feet, spacing.Feet(), 0.05, c.why)
			// By geometry the mean of what level water fills is the height less half
			// of the drop, and so much level stone needs the barriers just so high.
			level := barrier - spacing*quantity.Length(c.slope)/100/2
			height, err := drainage.BarrierHeightDenver(level)
			require.NoError(t, err)
			require.InEpsilon(t, float64(barrier), float64(height), 1e-12, c.why)
		})
	}
}

// Both a reservoir that has time to drain and one that has not, found from its
// drain time.
func TestDrainTimeAndUnderdrainAgree(t *testing.T) {
	r := draw()
	for range 1000 {
		depth, voids, rate := inches(0.1+48*r.Float64()), percent(10+50*r.Float64()), inchesPerHour(0.001+3*r.Float64())
		took, err := drainage.DrainTime(depth, voids, rate)
		require.NoError(t, err)
		if took > quantity.Years(9) {
			continue
		}
		for longest, want := range map[quantity.Time]bool{took * 0.999: true, took * 1.001: false} {
			got, err := drainage.UnderdrainNeededToDrain(depth, voids, rate, longest)
			require.NoError(t, err)
			require.Equal(t, want, got)
		}
	}
}

func TestReservoirNeverFallsWithRainNorRisesWithInfiltration(t *testing.T) {
	r := draw()
	for range 2000 {
		rain, more := inches(8*r.Float64()), inches(2*r.Float64())
		rate, faster := inchesPerHour(3*r.Float64()), inchesPerHour(2*r.Float64())
		runOn, filling, voids := 2*r.Float64(), quantity.Hours(4*r.Float64()), percent(10+50*r.Float64())
		depth := func(rain quantity.Length, rate quantity.Rate) quantity.Length {
			d, err := drainage.ReservoirDepth(rain, runOn, rate, filling, voids)
			require.NoError(t, err)
			return d
		}
		require.GreaterOrEqual(t, depth(rain+more, rate), depth(rain, rate))
		require.LessOrEqual(t, depth(rain, rate+faster), depth(rain, rate))
	}
}
