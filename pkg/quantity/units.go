package quantity

import (
	"fmt"
	"slices"
)

// System is a system of units. A text for a reader is written in one of them.
type System uint8

// The systems. The zero System is neither: a [Unit] with it belongs to both, and
// a text asked for in it is written in US units, as the trade writes.
const (
	EitherSystem System = iota
	US
	SI
)

// String gives "US", "SI" or "either".
func (s System) String() string {
	switch s {
	case US:
		return "US"
	case SI:
		return "SI"
	}
	return "either"
}

// Unit is a unit of the trade.
type Unit struct {
	// Symbol is the unit as printed behind a number, such as "in".
	Symbol string
	// Plural is the symbol behind any number but 1, if it differs: "days".
	Plural string
	// Builder is the function that makes a quantity of the unit in the rule
	// language, such as "inches". Every unit has one.
	Builder string
	// About names the unit in words.
	About string
	// Dim is what the unit measures.
	Dim Dimension
	// Factor is the SI value of one unit (for a temperature, of one degree).
	Factor float64
	// Zero is the reading at which the SI value is 0; 32 for Fahrenheit, 0 for
	// every other unit.
	Zero float64
	// System is the system to which the unit belongs.
	System System
	// Spellings are further ways to write it that [Parse] reads. Superscripts,
	// "per" for "/", "^" and full stops need no spelling of their own.
	Spellings []string

	scale scale
}

// scale turns a number of units into SI as x*mul/div. Keeping the two apart
// gives the nearest float64 wherever both are whole: 6 in is exactly the float64
// that 0.1524 is, which x*0.0254 does not promise.
type scale struct{ mul, div float64 }

func (s scale) si(x float64) float64   { return x * s.mul / s.div }
func (s scale) from(v float64) float64 { return v * s.div / s.mul }

// Exact definitions of the units that other units are made of. The foot is the
// international foot, the pound-force the weight of a pound under standard
// gravity (9.80665 m/s²), the year the Julian year of 365.25 days.
const (
	pound        = 0.45359237 // kg
	gravity      = 9.80665    // m/s²
	foot         = 0.3048     // m
	ounce        = pound / 16 // kg
	shortTon     = 2000 * pound
	secondsHour  = 3600
	secondsDay   = 86400
	secondsYear  = 365.25 * secondsDay
	cubicFoot    = foot * foot * foot
	cubicYard    = 27 * cubicFoot
	squareInch   = foot * foot / 144
	squareYard   = 9 * foot * foot
	poundOfForce = pound * gravity // N
)

// Scales that the constructors of the measured types share with the table, so
// that a value parsed and a value built in Go are the same bits.
var (
	inchScale       = scale{127, 5000}
	footScale       = scale{381, 1250}
	millimeterScale = scale{1, 1000}
	squareFootScale = scale{145161, 1562500}
	poundScale      = scale{pound, 1}
	pcfScale        = scale{pound / cubicFoot, 1}
	lbfScale        = scale{poundOfForce, 1}
	psiScale        = scale{poundOfForce / squareInch, 1}
	inPerHourScale  = scale{127, 5000 * secondsHour}
	mmPerHourScale  = scale{1, 1000 * secondsHour}
	kiloScale       = scale{1000, 1}
	megaScale       = scale{1e6, 1}
	plainScale      = scale{1, 1}
	hourScale       = scale{secondsHour, 1}
	dayScale        = scale{secondsDay, 1}
	yearScale       = scale{secondsYear, 1}
	fahrenheitScale = scale{5, 9}
	fDayScale       = scale{48000, 1} // 86,400 s at 5/9 K
)

const fahrenheitZero = 32

var (
	inches  = []string{"in", "inch", "inches"}
	feet    = []string{"ft", "foot", "feet"}
	hours   = []string{"h", "hr", "hrs", "hour", "hours"}
	days    = []string{"d", "day", "days"}
	seconds = []string{"s", "sec", "secs", "second", "seconds"}
	pounds  = []string{"lb", "lbs", "pound", "pounds"}
	sqIn    = []string{"in2", "sq in", "square inch", "square inches"}
	sqFt    = []string{"ft2", "sq ft", "sqft", "sf", "square foot", "square feet"}
	sqYd    = []string{"yd2", "sq yd", "sqyd", "sy", "square yard", "square yards"}
	cuFt    = []string{"ft3", "cu ft", "cuft", "cf", "cubic foot", "cubic feet"}
	cuYd    = []string{"yd3", "cu yd", "cuyd", "cy", "cubic yard", "cubic yards"}
	sqM     = []string{"m2", "sq m", "square metre", "square metres", "square meter", "square meters"}
	cuM     = []string{"m3", "cu m", "cubic metre", "cubic metres", "cubic meter", "cubic meters"}
	meter   = []string{"m", "metre", "metres", "meter", "meters"}
	milli   = []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}
	lbf     = []string{"lbf", "pounds force", "pound force", "lbs force", "lb force"}
)

// per spells every unit of tops over every unit of bottoms.
func per(tops, bottoms []string) []string {
	out := make([]string, 0, len(tops)*len(bottoms))
	for _, t := range tops {
		for _, b := range bottoms {
			out = append(out, t+"/"+b)
		}
	}
	return out
}

func join(lists ...[]string) []string { return slices.Concat(lists...) }

// table is every unit. Within a dimension the order is that in which an error
// lists what would do.
var table = fill([]Unit{
	{Symbol: "in", Builder: "inches", About: "inch", Dim: DimLength, System: US, scale: inchScale,
		Spellings: append(inches, `"`)},
	{Symbol: "ft", Builder: "feet", About: "foot", Dim: DimLength, System: US, scale: footScale,
		Spellings: append(feet, "'", "lf", "lin ft", "linear foot", "linear feet")},
	{Symbol: "yd", Builder: "yards", About: "yard", Dim: DimLength, System: US, scale: scale{1143, 1250},
		Spellings: []string{"yard", "yards", "yds"}},
	{Symbol: "mm", Builder: "mm", About: "millimeter", Dim: DimLength, System: SI, scale: millimeterScale,
		Spellings: milli},
	{Symbol: "cm", Builder: "cm", About: "centimeter", Dim: DimLength, System: SI, scale: scale{1, 100},
		Spellings: []string{"centimetre", "centimetres", "centimeter", "centimeters"}},
	{Symbol: "m", Builder: "m", About: "meter", Dim: DimLength, System: SI, scale: plainScale, Spellings: meter},
	{Symbol: "um", Builder: "um", About: "micrometer", Dim: DimLength, System: SI, scale: scale{1, 1e6},
		Spellings: []string{"µm", "μm", "micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers"}},

	{Symbol: "ft2", Builder: "sq_ft", About: "square foot", Dim: DimArea, System: US, scale: squareFootScale, Spellings: sqFt},
	{Symbol: "yd2", Builder: "sq_yd", About: "square yard", Dim: DimArea, System: US, scale: scale{squareYard, 1}, Spellings: sqYd},
	{Symbol: "in2", Builder: "sq_in", About: "square inch", Dim: DimArea, System: US, scale: scale{squareInch, 1}, Spellings: sqIn},
	{Symbol: "m2", Builder: "sq_m", About: "square meter", Dim: DimArea, System: SI, scale: plainScale, Spellings: sqM},
	{Symbol: "mm2", Builder: "sq_mm", About: "square millimeter", Dim: DimArea, System: SI, scale: scale{1, 1e6},
		Spellings: []string{"sq mm", "square millimetre", "square millimetres", "square millimeter", "square millimeters"}},

	{Symbol: "yd3", Builder: "cu_yd", About: "cubic yard", Dim: DimVolume, System: US, scale: scale{cubicYard, 1}, Spellings: cuYd},
	{Symbol: "ft3", Builder: "cu_ft", About: "cubic foot", Dim: DimVolume, System: US, scale: scale{cubicFoot, 1}, Spellings: cuFt},
	{Symbol: "m3", Builder: "cu_m", About: "cubic meter", Dim: DimVolume, System: SI, scale: plainScale, Spellings: cuM},

	{Symbol: "lb", Builder: "lb", About: "pound", Dim: DimMass, System: US, scale: poundScale, Spellings: pounds},
	{Symbol: "oz", Builder: "oz", About: "ounce", Dim: DimMass, System: US, scale: scale{ounce, 1},
		Spellings: []string{"ounce", "ounces"}},
	{Symbol: "ton", Plural: "tons", Builder: "tons", About: "short ton of 2,000 lb", Dim: DimMass, System: US, scale: scale{shortTon, 1},
		Spellings: []string{"short ton", "short tons", "US ton", "US tons"}},
	{Symbol: "kg", Builder: "kg", About: "kilogram", Dim: DimMass, System: SI, scale: plainScale,
		Spellings: []string{"kilogram", "kilograms", "kilo", "kilos"}},
	{Symbol: "g", Builder: "grams", About: "gram", Dim: DimMass, System: SI, scale: scale{1, 1000},
		Spellings: []string{"gram", "grams"}},
	{Symbol: "t", Builder: "tonnes", About: "metric tonne of 1,000 kg", Dim: DimMass, System: SI, scale: kiloScale,
		Spellings: []string{"tonne", "tonnes", "metric ton", "metric tons"}},

	{Symbol: "pcf", Builder: "pcf", About: "pound per cubic foot", Dim: DimDensity, System: US, scale: pcfScale,
		Spellings: per(pounds, cuFt)},
	{Symbol: "lb/yd3", Builder: "lb_per_cu_yd", About: "pound per cubic yard", Dim: DimDensity, System: US, scale: scale{pound / cubicYard, 1},
		Spellings: join(per(pounds, cuYd), []string{"pcy"})},
	{Symbol: "ton/yd3", Plural: "tons/yd3", Builder: "tons_per_cu_yd", About: "short ton per cubic yard", Dim: DimDensity, System: US, scale: scale{shortTon / cubicYard, 1},
		Spellings: per([]string{"ton", "tons", "t", "short ton", "short tons"}, cuYd)},
	{Symbol: "kg/m3", Builder: "kg_per_m3", About: "kilogram per cubic meter", Dim: DimDensity, System: SI, scale: plainScale,
		Spellings: per([]string{"kg"}, cuM)},
	{Symbol: "t/m3", Builder: "tonnes_per_cu_m", About: "metric tonne per cubic meter", Dim: DimDensity, System: SI, scale: kiloScale,
		Spellings: join(per([]string{"t", "tonne", "tonnes"}, cuM), []string{"Mg/m3"})},
	{Symbol: "g/cm3", Builder: "g_per_cu_cm", About: "gram per cubic centimeter", Dim: DimDensity, System: SI, scale: kiloScale,
		Spellings: []string{"g/cc", "g/mL"}},

	{Symbol: "lbf", Builder: "lbf", About: "pound-force", Dim: DimForce, System: US, scale: lbfScale, Spellings: lbf},
	{Symbol: "kip", Plural: "kips", Builder: "kips", About: "kip of 1,000 lbf", Dim: DimForce, System: US, scale: scale{1000 * poundOfForce, 1}},
	{Symbol: "kN", Builder: "kn", About: "kilonewton", Dim: DimForce, System: SI, scale: kiloScale,
		Spellings: []string{"kilonewton", "kilonewtons"}},
	{Symbol: "N", Builder: "newtons", About: "newton", Dim: DimForce, System: SI, scale: plainScale,
		Spellings: []string{"newton", "newtons"}},

	{Symbol: "psi", Builder: "psi", About: "pound-force per square inch", Dim: DimPressure, System: US, scale: psiScale,
		Spellings: per(join(pounds, lbf), sqIn)},
	{Symbol: "ksi", Builder: "ksi", About: "kip per square inch", Dim: DimPressure, System: US, scale: scale{1000 * poundOfForce / squareInch, 1},
		Spellings: per([]string{"kip", "kips"}, sqIn)},
	{Symbol: "psf", Builder: "psf", About: "pound-force per square foot", Dim: DimPressure, System: US, scale: scale{poundOfForce / foot / foot, 1},
		Spellings: join(per(lbf, sqFt), per(pounds, sqFt))},
	{Symbol: "ksf", Builder: "ksf", About: "kip per square foot", Dim: DimPressure, System: US, scale: scale{1000 * poundOfForce / foot / foot, 1},
		Spellings: per([]string{"kip", "kips"}, sqFt)},
	{Symbol: "kPa", Builder: "kpa", About: "kilopascal", Dim: DimPressure, System: SI, scale: kiloScale,
		Spellings: join([]string{"kilopascal", "kilopascals"}, per([]string{"kN"}, sqM))},
	{Symbol: "MPa", Builder: "mpa", About: "megapascal", Dim: DimPressure, System: SI, scale: megaScale,
		Spellings: []string{"megapascal", "megapascals", "N/mm2", "MN/m2"}},
	{Symbol: "Pa", Builder: "pascals", About: "pascal", Dim: DimPressure, System: SI, scale: plainScale,
		Spellings: join([]string{"pascal", "pascals"}, per([]string{"N"}, sqM))},

	{Symbol: "in/h", Builder: "in_per_hour", About: "inch per hour", Dim: DimRate, System: US, scale: inPerHourScale,
		Spellings: join(per(inches, hours), []string{"iph"})},
	{Symbol: "ft/day", Builder: "ft_per_day", About: "foot per day", Dim: DimRate, System: US, scale: scale{381, 1250 * secondsDay},
		Spellings: per(feet, days)},
	{Symbol: "mm/h", Builder: "mm_per_hour", About: "millimeter per hour", Dim: DimRate, System: SI, scale: mmPerHourScale,
		Spellings: per(milli, hours)},
	{Symbol: "m/day", Builder: "m_per_day", About: "meter per day", Dim: DimRate, System: SI, scale: scale{1, secondsDay},
		Spellings: per(meter, days)},
	{Symbol: "cm/s", Builder: "cm_per_s", About: "centimeter per second", Dim: DimRate, System: SI, scale: scale{1, 100},
		Spellings: per([]string{"cm"}, seconds)},
	{Symbol: "m/s", Builder: "m_per_s", About: "meter per second", Dim: DimRate, System: SI, scale: plainScale,
		Spellings: per(meter, seconds)},

	{Symbol: "F-day", Plural: "F-days", Builder: "f_days", About: "degree Fahrenheit day", Dim: DimFreezingIndex, System: US, scale: fDayScale,
		Spellings: []string{"F d", "Fahrenheit day", "Fahrenheit days", "degree day F", "degree days F"}},
	{Symbol: "C-day", Plural: "C-days", Builder: "c_days", About: "degree Celsius day", Dim: DimFreezingIndex, System: SI, scale: dayScale,
		Spellings: []string{"C d", "Celsius day", "Celsius days", "degree day C", "degree days C"}},
	{Symbol: "K-s", Builder: "kelvin_seconds", About: "kelvin second", Dim: DimFreezingIndex, System: SI, scale: plainScale},

	{Symbol: "h", Builder: "hours", About: "hour", Dim: DimTime, scale: hourScale, Spellings: hours},
	{Symbol: "day", Plural: "days", Builder: "days", About: "day", Dim: DimTime, scale: dayScale, Spellings: days},
	{Symbol: "year", Plural: "years", Builder: "years", About: "year of 365.25 days", Dim: DimTime, scale: yearScale,
		Spellings: []string{"yr", "yrs"}},
	{Symbol: "min", Builder: "minutes", About: "minute", Dim: DimTime, scale: scale{60, 1},
		Spellings: []string{"mins", "minute", "minutes"}},
	{Symbol: "s", Builder: "seconds", About: "second", Dim: DimTime, scale: plainScale, Spellings: seconds},

	{Symbol: "F", Builder: "fahrenheit", About: "degree Fahrenheit on its scale", Dim: DimTemperature, System: US,
		scale: fahrenheitScale, Zero: fahrenheitZero, Spellings: []string{"Fahrenheit"}},
	{Symbol: "C", Builder: "celsius", About: "degree Celsius on its scale", Dim: DimTemperature, System: SI, scale: plainScale,
		Spellings: []string{"Celsius"}},

	{Symbol: "lb/ft", Builder: "lb_per_ft", About: "pound-force per foot of width", Dim: DimLineStrength, System: US, scale: scale{poundOfForce / foot, 1},
		Spellings: join(per(join(pounds, lbf), feet), []string{"plf"})},
	{Symbol: "lb/in", Builder: "lb_per_in", About: "pound-force per inch of width", Dim: DimLineStrength, System: US, scale: scale{poundOfForce * 12 / foot, 1},
		Spellings: join(per(join(pounds, lbf), inches), []string{"pli"})},
	{Symbol: "kN/m", Builder: "kn_per_m", About: "kilonewton per meter of width", Dim: DimLineStrength, System: SI, scale: kiloScale,
		Spellings: join(per([]string{"kN"}, meter), []string{"N/mm"})},
	{Symbol: "N/m", Builder: "n_per_m", About: "newton per meter of width", Dim: DimLineStrength, System: SI, scale: plainScale},

	{Symbol: "oz/yd2", Builder: "oz_per_sq_yd", About: "ounce per square yard", Dim: DimArealMass, System: US, scale: scale{ounce / squareYard, 1},
		Spellings: join(per([]string{"oz", "ounce", "ounces"}, sqYd), []string{"osy"})},
	{Symbol: "lb/ft2", Builder: "lb_per_sq_ft", About: "pound mass per square foot", Dim: DimArealMass, System: US, scale: scale{pound / foot / foot, 1},
		Spellings: per(pounds, sqFt)},
	{Symbol: "lb/yd2", Builder: "lb_per_sq_yd", About: "pound mass per square yard", Dim: DimArealMass, System: US, scale: scale{pound / squareYard, 1},
		Spellings: per(pounds, sqYd)},
	{Symbol: "g/m2", Builder: "g_per_sq_m", About: "gram per square meter", Dim: DimArealMass, System: SI, scale: scale{1, 1000},
		Spellings: join(per([]string{"g"}, sqM), []string{"gsm"})},
	{Symbol: "kg/m2", Builder: "kg_per_sq_m", About: "kilogram per square meter", Dim: DimArealMass, System: SI, scale: plainScale,
		Spellings: per([]string{"kg"}, sqM)},

	{Symbol: "1/s", Builder: "per_second", About: "per second", Dim: DimPermittivity, scale: plainScale,
		Spellings: []string{"/s", "s-1", "/sec", "1/sec", "sec-1", "/second", "1/second"}},

	{Symbol: "%", Builder: "percent", About: "percent", Dim: DimShare, scale: scale{1, 100},
		Spellings: []string{"percent", "pct", "per cent"}},
})

// fill sets what follows from the scale.
func fill(units []Unit) []Unit {
	for i := range units {
		units[i].Factor = units[i].scale.si(1)
	}
	return units
}

// byBuilder finds a unit by its builder.
var byBuilder = func() map[string]Unit {
	m := make(map[string]Unit, len(table))
	for _, u := range table {
		m[u.Builder] = u
	}
	return m
}()

// Units lists every unit. The slice is the caller's own.
func Units() []Unit {
	out := slices.Clone(table)
	for i := range out {
		out[i].Spellings = slices.Clone(out[i].Spellings)
	}
	return out
}

// UnitsOf lists the units of a dimension, those that a reader would think of
// first in front.
func UnitsOf(dim Dimension) []Unit {
	return slices.DeleteFunc(Units(), func(u Unit) bool { return u.Dim != dim })
}

// Quantity gives x of the unit. The error is [ErrNotFinite] if x, or its SI
// value, is NaN or infinite.
func (u Unit) Quantity(x float64) (Quantity, error) {
	q := Quantity{u.Dim, u.toSI(x)}
	if err := q.check(); err != nil {
		return Quantity{}, fmt.Errorf("%s(%g): %w", u.Builder, x, err)
	}
	return q, nil
}

// toSI and fromSI hold no sum of a product, so no machine can fuse one and
// round otherwise than the next.
func (u Unit) toSI(x float64) float64 {
	if u.Dim == DimShare {
		return float64(Percent(x))
	}
	return u.scale.si(x - u.Zero)
}

func (u Unit) fromSI(si float64) float64 {
	if u.Dim == DimShare {
		return Share(si).Percent()
	}
	return u.scale.from(si) + u.Zero
}

// symbols returns the symbols of the units of a dimension, for an error to list.
func symbols(dim Dimension) []string {
	if dim == DimRatio {
		return []string{"a plain number"}
	}
	var out []string
	for _, u := range table {
		if u.Dim == dim {
			out = append(out, u.Symbol)
		}
	}
	return out
}
