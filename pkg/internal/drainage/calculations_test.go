package drainage_test

import (
	"errors"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	snakeCase  = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)
	quotedText = regexp.MustCompile(`"[^"]*"`)
	names      = regexp.MustCompile(`[a-z_][a-z_0-9]*`)
)

func TestCalculationsAreDescribedAsTheyAreWritten(t *testing.T) {
	words, functions := map[string]bool{}, map[string]bool{}
	for _, f := range drainage.Calculations() {
		require.False(t, functions[f.Name], "%s is described twice", f.Name)
		functions[f.Name] = true
	}
	for _, v := range []value.Worded{drainage.CriteriaSet("")} {
		for _, w := range v.Vocabulary().Words {
			require.Regexp(t, snakeCase, w.Name)
			require.False(t, words[w.Name], "the word %s is given twice", w.Name)
			words[w.Name] = true
		}
	}
	for _, name := range []string{"filter_holds", "gradation_of", "reservoir_depth", "barrier_spacing_denver"} {
		require.True(t, functions[name], "filters, gradations, reservoirs and barriers: %s", name)
	}
	builders := map[string]bool{}
	for _, u := range quantity.Units() {
		builders[u.Builder] = true
	}
	for _, f := range drainage.Calculations() {
		t.Run(f.Name, func(t *testing.T) {
			require.Regexp(t, snakeCase, f.Name)
			signature, err := signature.Of(f)
			require.NoError(t, err)
			require.NotNil(t, signature.Params)
			require.Regexp(t, "^"+f.Name+`\(`, f.Example)
			for i, p := range append(f.Params, f.Result) {
				require.NotEmpty(t, p.Name, "of value %d", i)
			}
			require.Equal(t, f.Moves != "", f.Positive, "none of the results that move one way is below zero, and a proof must know it")
			for _, s := range f.Sources {
				require.True(t, s.Known.Valid())
				require.NotEmpty(t, s.ID)
				require.NotEmpty(t, s.Document)
			}
			// Every name in the example is a function, a unit or a word.
			for _, name := range names.FindAllString(quotedText.ReplaceAllString(f.Example, `""`), -1) {
				require.True(t, functions[name] || words[name] || builders[name], "%s in %s", name, f.Example)
			}
		})
	}
}

// TestRangeEnds takes each argument at both ends of its range and just beyond, with
// the others as a job has them.
func TestRangeEnds(t *testing.T) {
	forty, stone := percent(40), gradation(t, no57)
	for _, c := range []struct {
		name, why string
		low, high float64
		above     bool // the low end itself is not taken
		call      func(x float64) error
	}{
		{"rain", "in meters; it may not rain", 0, 100, false,
			func(x float64) error {
				return refused(drainage.ReservoirDepth(quantity.Meters(x), 1, inchesPerHour(0.5), 7200, forty))
			}},
		{"run-on", "nothing may run on", 0, 1000, false,
			func(x float64) error {
				return refused(drainage.ReservoirDepth(inches(2), x, inchesPerHour(0.5), 7200, forty))
			}},
		{"infiltration under a reservoir", "ground may take no water", 0, 1e5, false,
			func(x float64) error {
				return refused(drainage.ReservoirDepth(inches(2), 1, inchesPerHour(x), 7200, forty))
			}},
		{"time of filling", "the storm may come at once", 0, 10, false,
			func(x float64) error {
				return refused(drainage.ReservoirDepth(inches(2), 1, inchesPerHour(0.5), quantity.Years(x), forty))
			}},
		{"voids of a reservoir", "no stone is all voids or none", 10, 60, false,
			func(x float64) error {
				return refused(drainage.ReservoirDepth(inches(2), 1, inchesPerHour(0.5), 7200, percent(x)))
			}},
		{"depth to drain", "an empty bed drains at once", 0, 100, false,
			func(x float64) error {
				return refused(drainage.DrainTime(quantity.Meters(x), forty, inchesPerHour(0.5)))
			}},
		{"voids to drain", "no stone is all voids or none", 10, 60, false,
			func(x float64) error { return refused(drainage.DrainTime(inches(12), percent(x), inchesPerHour(0.5))) }},
		{"infiltration that drains", "ground that takes no water drains nothing", 0.001, 1e5, false,
			func(x float64) error { return refused(drainage.DrainTime(inches(12), forty, inchesPerHour(x))) }},
		{"depth over a drain", "an empty bed needs none", 0, 100, false,
			func(x float64) error {
				return refused(drainage.UnderdrainNeededToDrain(quantity.Meters(x), forty, inchesPerHour(0.5), 259200))
			}},
		{"voids over a drain", "no stone is all voids or none", 10, 60, false,
			func(x float64) error {
				return refused(drainage.UnderdrainNeededToDrain(inches(12), percent(x), inchesPerHour(0.5), 259200))
			}},
		{"infiltration beside a drain", "ground may take no water", 0, 1e5, false,
			func(x float64) error {
				return refused(drainage.UnderdrainNeededToDrain(inches(12), forty, inchesPerHour(x), 259200))
			}},
		{"longest time to drain", "none may be allowed", 0, 10, false,
			func(x float64) error {
				return refused(drainage.UnderdrainNeededToDrain(inches(12), forty, inchesPerHour(0.5), quantity.Years(x)))
			}},
		{"barrier", "in meters", 0, 100, false,
			func(x float64) error { return refused(drainage.BarrierSpacingDenver(quantity.Meters(x), percent(2))) }},
		{"slope", "a level subgrade needs no barriers", 0.01, 100, false,
			func(x float64) error { return refused(drainage.BarrierSpacingDenver(1, percent(x))) }},
		{"level depth", "in meters", 0, 100, false,
			func(x float64) error { return refused(drainage.BarrierHeightDenver(quantity.Meters(x))) }},
		{"share that passes", "no size is passed by none", 0, 100, true,
			func(x float64) error { return outsideRange(refused(stone.SizeAt(drainage.Fine, percent(x)))) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			below := c.low * 0.999
			if c.low == 0 {
				below = -0.001
			}
			for _, x := range []float64{below, c.high * 1.001} {
				var outside *calculation.RangeError
				require.ErrorAs(t, c.call(x), &outside, "%g is beyond: %s", x, c.why)
			}
			require.Equal(t, c.above, c.call(c.low) != nil, "%g: %s", c.low, c.why)
			require.NoError(t, c.call(c.low*1.001+1e-6), "just above %g: %s", c.low, c.why)
			require.NoError(t, c.call(c.high), "%g: %s", c.high, c.why)
		})
	}
}

// refused is the error alone of a call.
func refused[T any](_ T, err error) error { return err }

// outsideRange leaves out an error that says that a size cannot be told.
func outsideRange(err error) error {
	if errors.Is(err, drainage.ErrCannotTell) {
		return nil
	}
	return err
}
