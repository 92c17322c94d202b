package site

import (
	"reflect"
	"sync"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// Input describes one value that rules may read.
type Input struct {
	// Name in the rule language, such as "soil.liquid_limit".
	Name string
	// About says what it is, and for a plain number its unit.
	About string
	// Kind of value.
	Kind calculation.Kind
	// Required tells that every site has it.
	Required bool
	// Derived tells that it is worked out from others by arithmetic alone; it
	// is given only where that can be done.
	Derived bool
}

// Inputs lists all that rules may read of a site, those that are written in a
// job file first and then those worked out from them.
func Inputs() []Input {
	all := inputs().list
	out := make([]Input, len(all))
	for i, in := range all {
		out[i] = in.Input
	}
	return out
}

// Input returns the value of an input: a float64, a bool, a quantity of its own
// type, a word of its own type, a string or a []float64, as its Kind says. given
// is false where it is not known, and for a name that is no input.
func (s *Site) Input(name string) (value any, given bool) {
	in, ok := inputs().byName[name]
	if s == nil || !ok {
		return nil, false
	}
	if value, given = in.value(s); !given || !finite(reflect.ValueOf(value)) {
		return nil, false
	}
	return value, true
}

// finite is false for what is no number, which only a site that does not
// validate can hold.
func finite(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return calculation.Finite(v.Float())
	case reflect.Slice:
		for i := range v.Len() {
			if !finite(v.Index(i)) {
				return false
			}
		}
	}
	return true
}

// source of an input: how it is had from a site, and the paths it comes from.
type inputSource struct {
	Input
	value func(*Site) (any, bool)
	from  []string
}

type inputTable struct {
	list   []inputSource
	byName map[string]inputSource
}

// inputs is made once, from the table of fields and that of derived inputs.
var inputs = sync.OnceValue(func() inputTable {
	t := inputTable{byName: map[string]inputSource{}}
	add := func(in inputSource, kind reflect.Type) {
		k, err := calculation.KindOf(kind)
		if err != nil {
			panic("site: input " + in.Name + ": " + err.Error())
		}
		in.Kind = k
		t.list = append(t.list, in)
		t.byName[in.Name] = in
	}
	walk("", table, func(path string, f field[Site]) {
		if f.input != "" {
			add(inputSource{Input{Name: f.input, About: f.about, Required: f.required}, f.value, []string{path}}, f.kind)
		}
	})
	for _, d := range derived {
		add(inputSource{Input{Name: d.name, About: d.about, Derived: true}, d.value, d.from}, d.kind)
	}
	return t
})

// derivation is an input that is worked out by arithmetic alone.
type derivation struct {
	name  string
	about string
	kind  reflect.Type
	from  []string
	value func(*Site) (any, bool)
}

var derived = []derivation{
	passingInput("soil.passing_no4", "No. 4", 4.75),
	passingInput("soil.passing_no10", "No. 10", 2),
	passingInput("soil.passing_no40", "No. 40", 0.425),
	passingInput("soil.passing_no200", "No. 200", 0.075),
	{
		name: "soil.passing_0_02_mm", about: "percent by mass finer than 0.02 mm, as given or from the sieve curve",
		kind: reflect.TypeFor[quantity.Share](), from: []string{"soil.passing_0_02_mm", "soil.sieves"},
		value: func(s *Site) (any, bool) { return s.Soil.passing(point002) },
	},
	sizeInput("soil.d10", 10), sizeInput("soil.d15", 15), sizeInput("soil.d30", 30),
	sizeInput("soil.d50", 50), sizeInput("soil.d60", 60), sizeInput("soil.d85", 85),
	{
		name: "soil.plasticity_index", about: "liquid limit less plastic limit, in percent",
		kind: reflect.TypeFor[float64](), from: []string{"soil.plastic_limit"},
		value: func(s *Site) (any, bool) {
			ll, pl := s.Soil.LiquidLimit, s.Soil.PlasticLimit
			if ll == nil || pl == nil {
				return nil, false
			}
			return *ll - *pl, true
		},
	},
	{
		name: "soil.liquid_limit_ratio", about: "liquid limit after oven drying over that before, a plain ratio",
		kind: reflect.TypeFor[float64](), from: []string{"soil.liquid_limit_oven_dried"},
		value: func(s *Site) (any, bool) {
			dried, ll := s.Soil.LiquidLimitOvenDried, s.Soil.LiquidLimit
			if dried == nil || ll == nil || *ll <= 0 || !calculation.Finite(*dried / *ll) {
				return nil, false
			}
			return *dried / *ll, true
		},
	},
	{
		name: "soil.penetration_index", about: "penetration of each blow of the cone penetrometer in mm, one for each reading, as read, not corrected for the hammer",
		kind: reflect.TypeFor[[]float64](), from: []string{"soil.dcp.readings", "soil.dcp.mm_per_blow"},
		value: penetrationIndex,
	},
}

func passingInput(name, sieve string, mm float64) derivation {
	return derivation{
		name: name, about: "percent by mass passing the " + sieve + " sieve, from the sieve curve",
		kind: reflect.TypeFor[quantity.Share](), from: []string{"soil.sieves"},
		value: func(s *Site) (any, bool) { return s.Soil.passing(quantity.Millimeters(mm)) },
	}
}

func sizeInput(name string, percent float64) derivation {
	return derivation{
		name: name, about: "size than which " + writeNumber(percent) + " percent by mass is finer, inside the sieve curve",
		kind: reflect.TypeFor[quantity.Length](), from: []string{"soil.sieves"},
		value: func(s *Site) (any, bool) { return s.Soil.finerThan(quantity.Percent(percent)) },
	}
}

func penetrationIndex(s *Site) (any, bool) {
	if given := s.Soil.DCP.MMPerBlow; len(given) > 0 {
		return append([]float64(nil), given...), true
	}
	var out []float64
	for _, b := range s.Soil.DCP.Readings {
		if b.Count < 1 {
			return nil, false
		}
		out = append(out, b.Penetration.Millimeters()/float64(b.Count))
	}
	return out, len(out) > 0
}
