package quantity

import "strings"

// exponents are the powers of length, mass, time and temperature difference of
// which a dimension is made.
type exponents struct{ length, mass, time, temperature int8 }

// printed is a unit, by its builder, in which values of a size are printed.
type printed struct {
	builder string
	from    float64 // SI
}

// dimensionEntry says all there is to a dimension.
type dimensionEntry struct {
	name   string // identifier
	base   string // unit in which JSON writes it
	powers exponents
	us, si []printed // units of print, by size; none where print has rules of its own
}

// Sizes at which the trade turns to the larger unit.
const (
	cubicYardFrom = cubicYard // below it volumes are in cubic feet
	tonFrom       = shortTon
	tonneFrom     = 1000.0
	megapascal    = 1e6
	heavyCover    = 10.0 // kg/m2; fabrics are far below, pavers far above
	// A reservoir's drain time is counted in hours up to 72 h and more.
	daysFrom  = 4 * secondsDay
	yearsFrom = secondsYear
)

// in prints in one unit whatever the size.
func in(builder string) []printed { return []printed{{builder, 0}} }

var times = []printed{{"seconds", 0}, {"minutes", 60}, {"hours", secondsHour}, {"days", daysFrom}, {"years", yearsFrom}}

// dimensions is indexed by Dimension. No two entries that [byPowers] finds have
// the same powers; a test holds that.
var dimensions = [...]dimensionEntry{
	NoDimension:      {name: "none"},
	DimRatio:         {name: "ratio", base: "1"},
	DimLength:        {name: "length", base: "m", powers: exponents{length: 1}},
	DimArea:          {"area", "m2", exponents{length: 2}, in("sq_ft"), in("sq_m")},
	DimVolume:        {"volume", "m3", exponents{length: 3}, []printed{{"cu_ft", 0}, {"cu_yd", cubicYardFrom}}, in("cu_m")},
	DimMass:          {"mass", "kg", exponents{mass: 1}, []printed{{"lb", 0}, {"tons", tonFrom}}, []printed{{"kg", 0}, {"tonnes", tonneFrom}}},
	DimDensity:       {"density", "kg/m3", exponents{length: -3, mass: 1}, in("pcf"), in("kg_per_m3")},
	DimForce:         {"force", "N", exponents{length: 1, mass: 1, time: -2}, in("lbf"), in("kn")},
	DimPressure:      {"pressure", "Pa", exponents{length: -1, mass: 1, time: -2}, in("psi"), []printed{{"kpa", 0}, {"mpa", megapascal}}},
	DimRate:          {"rate", "m/s", exponents{length: 1, time: -1}, in("in_per_hour"), in("mm_per_hour")},
	DimFreezingIndex: {"freezing_index", "K-s", exponents{time: 1, temperature: 1}, in("f_days"), in("c_days")},
	DimTime:          {"time", "s", exponents{time: 1}, times, times},
	DimTemperature:   {"temperature", "C", exponents{}, in("fahrenheit"), in("celsius")},
	DimLineStrength:  {"line_strength", "N/m", exponents{mass: 1, time: -2}, in("lb_per_ft"), in("kn_per_m")},
	DimArealMass:     {"areal_mass", "kg/m2", exponents{length: -2, mass: 1}, in("oz_per_sq_yd"), []printed{{"g_per_sq_m", 0}, {"kg_per_sq_m", heavyCover}}},
	DimPermittivity:  {"permittivity", "1/s", exponents{time: -1}, in("per_second"), in("per_second")},
	DimShare:         {"share", "%", exponents{}, in("percent"), in("percent")},
}

// Dimensions lists every dimension, in the order of the constants, without
// [NoDimension].
func Dimensions() []Dimension {
	out := make([]Dimension, 0, len(dimensions)-1)
	for d := NoDimension + 1; int(d) < len(dimensions); d++ {
		out = append(out, d)
	}
	return out
}

// entry never fails: what is no dimension is read as [NoDimension].
func (d Dimension) entry() dimensionEntry {
	if int(d) >= len(dimensions) {
		d = NoDimension
	}
	return dimensions[d]
}

// String returns the dimension in words, such as "freezing index".
func (d Dimension) String() string { return strings.ReplaceAll(d.Name(), "_", " ") }

// Name returns the dimension as an identifier, such as "freezing_index".
func (d Dimension) Name() string { return d.entry().name }

// BaseUnit returns the unit in which JSON writes a value of the dimension: the
// SI unit in which [Quantity] holds it, such as "m", "kg/m3" and "1" for a ratio,
// and "%" for a share.
func (d Dimension) BaseUnit() string { return d.entry().base }

// Valid reports whether d is a dimension that a value can have.
func (d Dimension) Valid() bool { return d != NoDimension && int(d) < len(dimensions) }

// DimensionNamed finds a dimension by its [Dimension.Name].
func DimensionNamed(name string) (Dimension, bool) {
	for d := range dimensions {
		if d := Dimension(d); d.Valid() && d.Name() == name {
			return d, true
		}
	}
	return NoDimension, false
}
