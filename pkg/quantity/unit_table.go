package quantity

import (
	"slices"
	"strings"
	"sync"
)

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
	inchScale       = scale{127, 5000, 0}
	footScale       = scale{381, 1250, 0}
	millimeterScale = scale{1, 1000, 0}
	squareFootScale = scale{145161, 1562500, 0}
	pcfScale        = by(pound / cubicFoot)
	lbfScale        = by(poundOfForce)
	psiScale        = by(poundOfForce / squareInch)
	inPerHourScale  = scale{127, 5000 * secondsHour, 0}
	mmPerHourScale  = scale{1, 1000 * secondsHour, 0}
	kiloScale       = by(1000)
	megaScale       = by(1e6)
	plainScale      = by(1)
	hourScale       = by(secondsHour)
	dayScale        = by(secondsDay)
	yearScale       = by(secondsYear)
	fahrenheitScale = scale{5, 9, 32}
	fDayScale       = by(48000) // 86,400 s at 5/9 K
)

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

// by is the scale of a unit that is so many SI units.
func by(x float64) scale { return scale{x, 1, 0} }

// table returns every unit. Within a dimension the order is that in which an
// error lists what would do. It is made when first used, and not changed after.
var table = sync.OnceValue(func() []Unit {
	return slices.Concat(
		units(DimLength,
			us("in", "inches", "inch", inchScale, slices.Concat(inches, []string{`"`})...),
			us("ft", "feet", "foot", footScale, slices.Concat(feet, []string{"'", "lf", "lin ft", "linear foot", "linear feet"})...),
			us("yd", "yards", "yard", scale{1143, 1250, 0}, "yard", "yards", "yds"),
			si("mm", "mm", "millimeter", millimeterScale, milli...),
			si("cm", "cm", "centimeter", scale{1, 100, 0}, "centimetre", "centimetres", "centimeter", "centimeters"),
			si("m", "m", "meter", plainScale, meter...),
			si("um", "um", "micrometer", scale{1, 1e6, 0}, "µm", "μm", "micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers"),
		),
		units(DimArea,
			us("sq ft", "sq_ft", "square foot", squareFootScale, sqFt...),
			us("sq yd", "sq_yd", "square yard", by(squareYard), sqYd...),
			us("acre|acres", "acres", "acre of 43,560 square feet", by(43560*foot*foot)),
			us("sq in", "sq_in", "square inch", by(squareInch), sqIn...),
			si("m2", "sq_m", "square meter", plainScale, sqM...),
			si("mm2", "sq_mm", "square millimeter", scale{1, 1e6, 0}, "sq mm", "square millimetre", "square millimetres", "square millimeter", "square millimeters"),
		),
		units(DimVolume,
			us("cu yd", "cu_yd", "cubic yard", by(cubicYard), cuYd...),
			us("cu ft", "cu_ft", "cubic foot", by(cubicFoot), cuFt...),
			si("m3", "cu_m", "cubic meter", plainScale, cuM...),
		),
		units(DimMass,
			us("lb", "lb", "pound", by(pound), pounds...),
			us("oz", "oz", "ounce", by(ounce), "ounce", "ounces"),
			us("ton|tons", "tons", "short ton of 2,000 lb", by(shortTon), "short ton", "short tons", "US ton", "US tons"),
			si("kg", "kg", "kilogram", plainScale, "kilogram", "kilograms", "kilo", "kilos"),
			si("g", "grams", "gram", scale{1, 1000, 0}, "gram", "grams"),
			si("t", "tonnes", "metric tonne of 1,000 kg", kiloScale, "tonne", "tonnes", "metric ton", "metric tons"),
		),
		units(DimDensity,
			us("pcf", "pcf", "pound per cubic foot", pcfScale, per(pounds, cuFt)...),
			us("lb/cu yd", "lb_per_cu_yd", "pound per cubic yard", by(pound/cubicYard), slices.Concat(per(pounds, cuYd), []string{"pcy"})...),
			us("ton/cu yd|tons/cu yd", "tons_per_cu_yd", "short ton per cubic yard", by(shortTon/cubicYard), per([]string{"ton", "tons", "t", "short ton", "short tons"}, cuYd)...),
			si("kg/m3", "kg_per_m3", "kilogram per cubic meter", plainScale, per([]string{"kg"}, cuM)...),
			si("t/m3", "tonnes_per_cu_m", "metric tonne per cubic meter", kiloScale, slices.Concat(per([]string{"t", "tonne", "tonnes"}, cuM), []string{"Mg/m3"})...),
			si("g/cm3", "g_per_cu_cm", "gram per cubic centimeter", kiloScale, "g/cc", "g/mL"),
		),
		units(DimForce,
			us("lbf", "lbf", "pound-force", lbfScale, lbf...),
			us("kip|kips", "kips", "kip of 1,000 lbf", by(1000*poundOfForce)),
			si("kN", "kn", "kilonewton", kiloScale, "kilonewton", "kilonewtons"),
			si("N", "newtons", "newton", plainScale, "newton", "newtons"),
		),
		units(DimPressure,
			us("psi", "psi", "pound-force per square inch", psiScale, per(slices.Concat(pounds, lbf), sqIn)...),
			us("ksi", "ksi", "kip per square inch", by(1000*poundOfForce/squareInch), per([]string{"kip", "kips"}, sqIn)...),
			us("psf", "psf", "pound-force per square foot", by(poundOfForce/foot/foot), slices.Concat(per(lbf, sqFt), per(pounds, sqFt))...),
			us("ksf", "ksf", "kip per square foot", by(1000*poundOfForce/foot/foot), per([]string{"kip", "kips"}, sqFt)...),
			us("tsf", "tsf", "short ton-force per square foot", by(2000*poundOfForce/foot/foot), per([]string{"ton", "tons"}, sqFt)...),
			si("kPa", "kpa", "kilopascal", kiloScale, slices.Concat([]string{"kilopascal", "kilopascals"}, per([]string{"kN"}, sqM))...),
			si("MPa", "mpa", "megapascal", megaScale, "megapascal", "megapascals", "N/mm2", "MN/m2"),
			si("kg/cm2", "kg_per_sq_cm", "kilogram-force per square centimeter", by(gravity*10000), per([]string{"kg", "kgf"}, []string{"cm2", "sq cm", "square centimeter"})...),
			si("Pa", "pascals", "pascal", plainScale, slices.Concat([]string{"pascal", "pascals"}, per([]string{"N"}, sqM))...),
		),
		units(DimRate,
			us("in/h", "in_per_hour", "inch per hour", inPerHourScale, slices.Concat(per(inches, hours), []string{"iph"})...),
			us("ft/day", "ft_per_day", "foot per day", scale{381, 1250 * secondsDay, 0}, per(feet, days)...),
			si("mm/h", "mm_per_hour", "millimeter per hour", mmPerHourScale, per(milli, hours)...),
			si("m/day", "m_per_day", "meter per day", scale{1, secondsDay, 0}, per(meter, days)...),
			si("cm/s", "cm_per_s", "centimeter per second", scale{1, 100, 0}, per([]string{"cm"}, seconds)...),
			si("m/s", "m_per_s", "meter per second", plainScale, per(meter, seconds)...),
		),
		units(DimFreezingIndex,
			us("F-day|F-days", "f_days", "degree Fahrenheit day", fDayScale, "F d", "Fahrenheit day", "Fahrenheit days", "degree day F", "degree days F"),
			si("C-day|C-days", "c_days", "degree Celsius day", dayScale, "C d", "Celsius day", "Celsius days", "degree day C", "degree days C"),
			si("K-s", "kelvin_seconds", "kelvin second", plainScale),
		),
		units(DimTime,
			either("h", "hours", "hour", hourScale, hours...),
			either("day|days", "days", "day", dayScale, days...),
			either("year|years", "years", "year of 365.25 days", yearScale, "yr", "yrs"),
			either("min", "minutes", "minute", by(60), "mins", "minute", "minutes"),
			either("s", "seconds", "second", plainScale, seconds...),
		),
		units(DimTemperature,
			us("F", "fahrenheit", "degree Fahrenheit on its scale", fahrenheitScale, "Fahrenheit"),
			si("C", "celsius", "degree Celsius on its scale", plainScale, "Celsius"),
		),
		units(DimLineStrength,
			us("lb/ft", "lb_per_ft", "pound-force per foot of width", by(poundOfForce/foot), slices.Concat(per(slices.Concat(pounds, lbf), feet), []string{"plf"})...),
			us("lb/in", "lb_per_in", "pound-force per inch of width", by(poundOfForce*12/foot), slices.Concat(per(slices.Concat(pounds, lbf), inches), []string{"pli"})...),
			si("kN/m", "kn_per_m", "kilonewton per meter of width", kiloScale, slices.Concat(per([]string{"kN"}, meter), []string{"N/mm"})...),
			si("N/m", "n_per_m", "newton per meter of width", plainScale),
		),
		units(DimArealMass,
			us("oz/sq yd", "oz_per_sq_yd", "ounce per square yard", by(ounce/squareYard), slices.Concat(per([]string{"oz", "ounce", "ounces"}, sqYd), []string{"osy"})...),
			us("lb/sq ft", "lb_per_sq_ft", "pound mass per square foot", by(pound/foot/foot), per(pounds, sqFt)...),
			us("lb/sq yd", "lb_per_sq_yd", "pound mass per square yard", by(pound/squareYard), per(pounds, sqYd)...),
			si("g/m2", "g_per_sq_m", "gram per square meter", scale{1, 1000, 0}, slices.Concat(per([]string{"g"}, sqM), []string{"gsm"})...),
			si("kg/m2", "kg_per_sq_m", "kilogram per square meter", plainScale, per([]string{"kg"}, sqM)...),
		),
		units(DimPermittivity,
			either("1/s", "per_second", "per second", plainScale, "/s", "s-1", "/sec", "1/sec", "sec-1", "/second", "1/second"),
		),
		units(DimShare,
			either("%", "percent", "percent", scale{1, 100, 0}, "percent", "pct", "per cent"),
		),
	)
})

// units gives units their dimension.
func units(dim Dimension, of ...Unit) []Unit {
	for i := range of {
		of[i].Dim = dim
	}
	return of
}

// us, si and either make a unit of a system. Its symbol may have a plural behind
// a "|".
func us(symbol, builder, about string, s scale, spellings ...string) Unit {
	one, many, _ := strings.Cut(symbol, "|")
	return Unit{Symbol: one, Plural: many, Builder: builder, About: about, System: US, scale: s, spellings: spellings}
}

func si(symbol, builder, about string, s scale, spellings ...string) Unit {
	u := us(symbol, builder, about, s, spellings...)
	u.System = SI
	return u
}

func either(symbol, builder, about string, s scale, spellings ...string) Unit {
	u := us(symbol, builder, about, s, spellings...)
	u.System = EitherSystem
	return u
}
