package language

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// wheel is an object that expressions only pass on.
type wheel struct{ tons float64 }

func (wheel) RuleTypeName() string { return "wheel" }

// gridWord is the Go type of the words of grid.
type gridWord string

func (gridWord) Vocabulary() value.Vocabulary { return value.Vocabulary{Name: "grid"} }

// errRefused stands for what a calculation refuses with.
var errRefused = errors.New("refused")

// described returns a calculation with the parts that its checks want.
func described(name string, params []calculation.Param, fn any) calculation.Function {
	return calculation.Function{Name: name, About: "a calculation of the tests", Params: params,
		Result: calculation.Param{Name: "result", About: "what it comes to"}, Sources: []value.Source{{ID: "practice", Known: value.Practice}}, Go: fn}
}

var cbrRange = calculation.Range{Name: "cbr", Unit: "percent", Low: 1, High: 20, Document: "the test's own table"}

// testFunctions are calculations that behave in every way that one can.
func testFunctions() []calculation.Function {
	cbr := []calculation.Param{{Name: "cbr", About: "in percent"}}
	return []calculation.Function{
		described("modulus", cbr, func(cbr float64) (quantity.Pressure, error) {
			if err := cbrRange.Check(cbr); err != nil {
				return 0, err
			}
			return quantity.Megapascals(cbr * 10), nil
		}),
		described("panics", cbr, func(float64) float64 { panic("a fault of its own") }),
		described("endless", cbr, func(x float64) float64 { return x / 0.0e0 * zero() }),
		described("spread", []calculation.Param{{Name: "depth", About: "of the base"}, {Name: "wheel", About: "on top"}},
			func(d quantity.Length, w wheel) (quantity.Pressure, error) { return quantity.Kilopascals(w.tons), nil }),
		described("fall", []calculation.Param{{Name: "run", About: "level"}, {Name: "slope", About: "of the run"}},
			func(run quantity.Length, slope quantity.Share) quantity.Length { return run * quantity.Length(slope) }),
		described("stronger", []calculation.Param{{Name: "grid", About: "that is laid"}, {Name: "wet", About: "while it is laid"}, {Name: "label", About: "of the job"}},
			func(g gridWord, wet bool, label string) gridWord {
				if g == "biaxial" && wet && label == "north" {
					return "multiaxial"
				}
				return "no_grid"
			}),
		described("lost", cbr, func(float64) gridWord { return "paper" }),
		described("wheel_of", cbr, func(x float64) wheel { return wheel{x} }),
		described("is_soft", cbr, func(x float64) bool { return x < 3.5 }),
		described("sign", cbr, func(x float64) string { return fmt.Sprintf("CBR %g", x) }),
		described("mean", []calculation.Param{{Name: "readings", About: "in percent"}}, func(xs []float64) (float64, error) {
			if len(xs) == 0 {
				return 0, errRefused
			}
			sum := 0.0
			for _, x := range xs {
				sum += x
			}
			return sum / float64(len(xs)), nil
		}),
		described("several", cbr, func(cbr float64) []float64 { return []float64{cbr, 2 * cbr} }),
	}
}

// zero is a 0 that the compiler does not see.
func zero() float64 { return float64(len("")) }

func words(vocabulary value.Kind, names ...string) []*value.Word {
	var out []*value.Word
	for _, n := range names {
		out = append(out, &value.Word{Vocabulary: vocabulary, Name: n, Label: strings.ReplaceAll(n, "_", " "), Go: n})
	}
	return out
}

func (d *Declarations) vocabulary(kind value.Kind, words []*value.Word, properties []rulebook.Property) {
	d.Vocabularies = append(d.Vocabularies, Vocabulary{kind, words, properties})
}

// testBuilder is a small language with one of everything.
func testBuilder() *Declarations {
	b := &Declarations{}
	b.vocabulary("base_type", words("base_type", "open_graded", "dense_graded", "panel", "sand"), nil)
	grids := words("grid", "no_grid", "biaxial", "multiaxial")
	b.vocabulary("grid", grids, nil)
	b.Also = []Also{{"triaxial", grids[2]}}
	products := words("grid_product", "light_net", "heavy_net")
	*products[0] = products[0].With(map[string]value.Value{"strength": value.Measured(quantity.LineStrength(12000))})
	*products[1] = products[1].With(map[string]value.Value{"strength": value.Measured(quantity.LineStrength(20000)),
		"aperture": value.Measured(quantity.Millimeters(35)), "note": value.Text("stiff")})
	b.vocabulary("grid_product", products, []rulebook.Property{
		{Name: "strength", Kind: "line_strength", About: "in use"},
		{Name: "aperture", Kind: "length", About: "between ribs", Optional: true},
		{Name: "note", Kind: value.TextKind, About: "a remark", Optional: true},
	})
	b.vocabulary("sand", words("sand", "river_sand"), nil) // sand is a word and a kind
	b.Objects = append(b.Objects, "wheel")
	for name, kind := range map[string]value.Kind{
		"area": "area", "cbr": value.NumberKind, "cover": "length", "depth": "length", "force": "force",
		"frost": "temperature", "label": value.TextKind, "load": "pressure", "mass": "mass", "net": "grid_product",
		"readings": value.ListOf(value.NumberKind), "wet": value.BoolKind, "base": "base_type", "bed": "sand", "grid": "grid",
		"soil.cbr": value.NumberKind, "soil.liquid_limit": value.NumberKind, "tire": "wheel", "zero": value.NumberKind,
		"time": "time", "volume": "volume", "density": "density", "rain": "rate", "slope": "share",
	} {
		b.Names = append(b.Names, Name{Name: name, Kind: kind})
	}
	sortNames(b.Names)
	b.Names = append(b.Names, []Name{{Name: "water", Kind: "length", MayLack: true}, {Name: "swell", Kind: value.NumberKind, MayLack: true},
		{Name: "spare", Kind: "grid_product", MayLack: true}, {Name: "old.base", Kind: "base_type", MayLack: true}}...)
	b.Functions = append(b.Functions, testFunctions()...)
	return b
}

func sortNames(names []Name) {
	for i := range names {
		for j := i; j > 0 && names[j].Name < names[j-1].Name; j-- {
			names[j], names[j-1] = names[j-1], names[j]
		}
	}
}

func testEnv(t testing.TB) *Env {
	t.Helper()
	e, err := New(*testBuilder())
	require.NoError(t, err)
	return e
}

// testValues are the values of the names of the small language; spare and
// old.base are missing.
func testValues(e *Env) map[string]value.Value {
	word := func(name string) value.Value { return value.OfWord(e.words[name]) }
	return map[string]value.Value{
		"area": value.Measured(quantity.SquareMeters(12)), "slope": value.Measured(quantity.Percent(2)), "cbr": value.Number(3), "cover": value.Measured(quantity.Inches(6)),
		"depth": value.Measured(quantity.Inches(10)), "force": value.Measured(quantity.Kilonewtons(20)),
		"frost": value.Measured(quantity.Celsius(-5)), "label": value.Text("north"), "load": value.Measured(quantity.Kilopascals(550)),
		"mass": value.Measured(quantity.Mass(2000)), "net": word("heavy_net"),
		"readings": value.List(value.NumberKind, []value.Value{value.Number(3), value.Number(5), value.Number(4)}),
		"wet":      value.Bool(true), "base": word("panel"), "grid": word("biaxial"), "soil.cbr": value.Number(3),
		"soil.liquid_limit": value.Number(45), "tire": value.Object("wheel", wheel{4}), "zero": value.Number(0),
		"time": value.Measured(quantity.Hours(2)), "volume": value.Measured(quantity.Quantity{Dim: quantity.DimVolume, SI: 6}),
		"density": value.Measured(quantity.KgPerM3(2000)), "rain": value.Measured(quantity.MillimetersPerHour(10)),
		"water": value.Measured(quantity.Inches(20)), "swell": value.Number(2),
	}
}

func testFrame(e *Env) *Frame { return frameOf(e, testValues(e)) }

func frameOf(e *Env, values map[string]value.Value) *Frame {
	return e.NewFrame(func(name string) (value.Value, error) {
		if v, ok := values[name]; ok {
			return v, nil
		}
		return value.Value{}, fmt.Errorf("%s is missing", name)
	}, func(name string) (bool, error) {
		_, ok := values[name]
		return ok, nil
	})
}

// written returns a fault in one line: the marked text, the code, the message and
// the rest.
func written(text string, f Fault) string {
	runes := []rune(text)
	from := min(max(f.Offset, 0), len(runes))
	to := min(from+max(f.Width, 0), len(runes))
	out := fmt.Sprintf("[%s] %s: %s", string(runes[from:to]), f.Code, f.Message)
	if f.Found != "" {
		out += "; found " + f.Found
	}
	if f.Wanted != "" {
		out += "; wanted " + f.Wanted
	}
	if f.Nearest != "" {
		out += "; nearest " + f.Nearest
	}
	return out
}
