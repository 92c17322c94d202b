package quantity

import "reflect"

// exponents are the powers of length, mass, time and temperature difference of
// which a dimension is made.
type exponents struct{ length, mass, time, temperature int8 }

// dimensionEntry says all there is to a dimension.
type dimensionEntry struct {
	name    string // identifier
	words   string
	base    string // unit in which JSON writes it
	powers  exponents
	measure Measure // the zero value of its measured type; nil for a ratio
}

// dimensions is indexed by Dimension. No two entries that [byPowers] finds have
// the same powers; a test holds that.
var dimensions = [...]dimensionEntry{
	NoDimension:      {name: "none", words: "no dimension"},
	DimRatio:         {"ratio", "ratio", "1", exponents{}, nil},
	DimLength:        {"length", "length", "m", exponents{length: 1}, Length(0)},
	DimArea:          {"area", "area", "m2", exponents{length: 2}, Area(0)},
	DimVolume:        {"volume", "volume", "m3", exponents{length: 3}, Volume(0)},
	DimMass:          {"mass", "mass", "kg", exponents{mass: 1}, Mass(0)},
	DimDensity:       {"density", "density", "kg/m3", exponents{length: -3, mass: 1}, Density(0)},
	DimForce:         {"force", "force", "N", exponents{length: 1, mass: 1, time: -2}, Force(0)},
	DimPressure:      {"pressure", "pressure", "Pa", exponents{length: -1, mass: 1, time: -2}, Pressure(0)},
	DimRate:          {"rate", "rate", "m/s", exponents{length: 1, time: -1}, Rate(0)},
	DimFreezingIndex: {"freezing_index", "freezing index", "K-s", exponents{time: 1, temperature: 1}, FreezingIndex(0)},
	DimTime:          {"time", "time", "s", exponents{time: 1}, Time(0)},
	DimTemperature:   {"temperature", "temperature", "C", exponents{}, Temperature(0)},
	DimLineStrength:  {"line_strength", "line strength", "N/m", exponents{mass: 1, time: -2}, LineStrength(0)},
	DimArealMass:     {"areal_mass", "areal mass", "kg/m2", exponents{length: -2, mass: 1}, ArealMass(0)},
	DimPermittivity:  {"permittivity", "permittivity", "1/s", exponents{time: -1}, Permittivity(0)},
	DimShare:         {"share", "share", "%", exponents{}, Share(0)},
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
func (d Dimension) String() string { return d.entry().words }

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
	for _, d := range Dimensions() {
		if d.Name() == name {
			return d, true
		}
	}
	return NoDimension, false
}

// DimensionOf finds the dimension of a measured type such as [Length]. A plain
// float64 is a ratio. [Quantity] has no one dimension, and is not found.
func DimensionOf(t reflect.Type) (Dimension, bool) {
	if t == reflect.TypeFor[float64]() {
		return DimRatio, true
	}
	for _, d := range Dimensions() {
		if m := d.entry().measure; m != nil && reflect.TypeOf(m) == t {
			return d, true
		}
	}
	return NoDimension, false
}
