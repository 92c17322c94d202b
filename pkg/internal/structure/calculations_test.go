package structure

import (
	"errors"
	"math"
	"reflect"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/value"
)

func TestCalculationsAreDescribedAsWritten(t *testing.T) {
	name := regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)
	seen := map[string]bool{}
	words := map[string]string{}
	for _, f := range Calculations() {
		t.Run(f.Name, func(t *testing.T) {
			sig, err := signature.Of(f)
			require.NoError(t, err)
			require.Regexp(t, name, f.Name)
			require.False(t, seen[f.Name], "described twice")
			seen[f.Name] = true
			require.True(t, len(f.Example) > len(f.Name) && f.Example[:len(f.Name)+1] == f.Name+"(", "example calls another function: %s", f.Example)
			require.Equal(t, f.Moves != "", f.Positive, "none of the results that move one way is below zero, and a proof must know it")
			for _, s := range f.Sources {
				require.True(t, s.Known.Valid(), "source %q has no tag", s.ID)
				require.NotEmpty(t, s.ID)
				require.NotEmpty(t, s.Clause)
			}
			for _, k := range sig.Params {
				if k.Form != signature.Word {
					continue
				}
				for _, w := range reflect.Zero(k.Go).Interface().(value.Worded).Vocabulary().Words {
					owner, taken := words[w.Name]
					require.True(t, !taken || owner == k.Name, "word %q is in two vocabularies", w.Name)
					words[w.Name] = k.Name
				}
			}
		})
	}
}

// FuzzCalculations throws any numbers and any words at every function: no
// panic, and no result that is not a number. An error comes with a zero result.
func FuzzCalculations(f *testing.F) {
	f.Add(5e6, 95.0, 0.35, 1.9, 34473786.0, 0.5, 0.5, uint8(0))
	f.Add(math.NaN(), math.Inf(1), math.Inf(-1), 0.0, -1.0, 1e308, 5e-324, uint8(1))
	f.Add(1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, uint8(2))
	f.Add(5e5, 0.15, 0.2, 1.5e8, 5e7, 0.35, 0.45, uint8(0))
	f.Add(5e5, 0.1, 1.0, 1e9, 1e6, 0.0, 0.5, uint8(0))
	functions := Calculations()
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h float64, word uint8) {
		for _, fn := range functions {
			callAny(t, fn, []float64{a, b, c, d, e, g, h}, word)
		}
	})
}

// FuzzInRange draws every number inside the range that its function takes, so
// that the insides are reached and not only the refusals.
func FuzzInRange(f *testing.F) {
	for _, x := range []float64{0, 0.001, 0.25, 0.5, 0.75, 0.999, 1} {
		f.Add(x, 1-x, x, 0.5, x, 1-x, uint8(x*4))
	}
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g float64, word uint8) {
		us := []float64{a, b, c, d, e, g}
		for i, u := range us {
			if !(u >= 0 && u <= 1) {
				us[i] = math.Abs(math.Mod(u, 1))
			}
			if !portable.Finite(us[i]) {
				us[i] = 0.5
			}
		}
		for name, draw := range inRange {
			fn := functionNamed(t, name)
			callAny(t, fn, draw(us), word)
		}
	})
}

// between maps 0 to 1 onto low to high, evenly in the logarithm.
func between(u, low, high float64) float64 { return low * math.Pow(high/low, u) }

const onePSI = 6894.757293168361

// inRange draws arguments in range, in SI; a word takes up one place that is
// not used.
var inRange = map[string]func(u []float64) []float64{
	"required_sn": func(u []float64) []float64 {
		return []float64{between(u[0], 1, 50e6), 0.75, between(u[1], 0.2, 0.6), between(u[2], 0.5, 3), between(u[3], 1000, 40000) * onePSI}
	},
	"traffic_capacity": func(u []float64) []float64 {
		return []float64{between(u[0], 0.44, 9), 0.75, between(u[1], 0.2, 0.6), between(u[2], 0.5, 3), between(u[3], 1000, 40000) * onePSI}
	},
	"axle_equivalence": func(u []float64) []float64 {
		return []float64{between(u[0], 2, 50) * 4448.2216152605, 0, between(u[1], 1, 6), between(u[2], 2, 3)}
	},
	"wheel_cover": func(u []float64) []float64 {
		return []float64{between(u[0], 100, 2e5) * 4.4482216152605, between(u[1], 5, 500) * onePSI, between(u[2], 0.5, 12)}
	},
	"pair_cover": func(u []float64) []float64 { return []float64{9.144 * u[0]} },
	"boussinesq_circle": func(u []float64) []float64 {
		return []float64{between(u[0], 1, 6e7), between(u[1], 1e-3, 100), 100 * u[2] * u[2] * u[2]}
	},
	"growth_factor":  func(u []float64) []float64 { return []float64{0.1 * u[0], between(u[1], 1e-9, 50) * 365.25 * 86400} },
	"normal_deviate": func([]float64) []float64 { return []float64{0.75} },
	"layer_sn": func(u []float64) []float64 {
		return []float64{10.16 * u[0], between(u[1], 0.01, 1), between(u[2], 0.4, 1.4)}
	},
	"drainage_coefficient": func(u []float64) []float64 { return []float64{0, u[0]} },
	"coverage_factor":      func(u []float64) []float64 { return []float64{between(u[0], 10, 1e6)} },
	"panel_stress": func(u []float64) []float64 {
		return []float64{between(u[0], 1e-3, 4e6), between(u[1], 1e-3, 100), 0.3 * u[2], between(u[3], 0.5, 5)}
	},
}

func functionNamed(t *testing.T, name string) calculation.Function {
	for _, f := range Calculations() {
		if f.Name == name {
			return f
		}
	}
	t.Fatalf("no function %q", name)
	return calculation.Function{}
}

func callAny(t *testing.T, f calculation.Function, numbers []float64, word uint8) {
	sig, err := signature.Of(f)
	require.NoError(t, err)
	in := make([]reflect.Value, len(sig.Params))
	for i, k := range sig.Params {
		in[i] = reflect.New(k.Go).Elem()
		if k.Form == signature.Word {
			words := in[i].Interface().(value.Worded).Vocabulary().Words
			if n := int(word) % (len(words) + 1); n < len(words) {
				in[i].SetString(words[n].Label)
			} else {
				in[i].SetString("no such word")
			}
			continue
		}
		if i < len(numbers) {
			in[i].SetFloat(numbers[i])
		}
	}
	out := reflect.ValueOf(f.Go).Call(in)
	result := out[0].Float()
	require.True(t, portable.Finite(result), "%s(%v) = %v", f.Name, in, result)
	if !sig.Fails || out[1].IsNil() {
		return
	}
	err = out[1].Interface().(error)
	var outside *calculation.RangeError
	var unknown *calculation.WordError
	require.True(t, errors.As(err, &outside) || errors.As(err, &unknown), "%s(%v): %v is neither a range error nor a word error", f.Name, in, err)
	require.Zero(t, result, "%s(%v): a result beside an error", f.Name, in)
}
