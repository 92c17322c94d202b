package quantity

import (
	"fmt"
	"math"
	"strconv"
)

// String returns the quantity in US units.
func (q Quantity) String() string { return q.Text(US) }

// Each measured type prints itself in US units, so that no message can show a
// bare SI number by mistake.
func (l Length) String() string        { return l.Quantity().String() }
func (a Area) String() string          { return a.Quantity().String() }
func (v Volume) String() string        { return v.Quantity().String() }
func (m Mass) String() string          { return m.Quantity().String() }
func (d Density) String() string       { return d.Quantity().String() }
func (f Force) String() string         { return f.Quantity().String() }
func (p Pressure) String() string      { return p.Quantity().String() }
func (r Rate) String() string          { return r.Quantity().String() }
func (f FreezingIndex) String() string { return f.Quantity().String() }
func (t Time) String() string          { return t.Quantity().String() }
func (t Temperature) String() string   { return t.Quantity().String() }
func (s LineStrength) String() string  { return s.Quantity().String() }
func (m ArealMass) String() string     { return m.Quantity().String() }
func (p Permittivity) String() string  { return p.Quantity().String() }
func (s Share) String() string         { return s.Quantity().String() }

// In returns the value in a unit, named by symbol, spelling or builder; "" and
// "1" name the plain number of a ratio. The error is a [*ParseError] for an
// unknown unit, wraps [ErrDimension] for a unit of another dimension, and
// [ErrNotFinite] for a value that is no number.
func (q Quantity) In(unit string) (float64, error) {
	if err := q.check(); err != nil {
		return 0, err
	}
	if q.Dim == DimRatio && (unit == "" || unit == "1") {
		return q.SI, nil
	}
	u, ok := UnitNamed(unit, q.Dim)
	if !ok {
		return 0, unknownUnit(unit, q.Dim)
	}
	x := u.fromSI(q.SI)
	if math.IsInf(x, 0) {
		return 0, fmt.Errorf("%s in %s: %w", q.Dim, unit, ErrNotFinite)
	}
	return x, nil
}

// Text returns the quantity as the trade writes it in a system; [EitherSystem] is
// read as [US]. [ParseAs] reads it back to within the rounding of the print:
//
//   - lengths in US units, up to 48 in: inches, as a fraction of sixteenths or
//     coarser where the hundredths are those of the fraction, such as 3-1/8 in;
//     else decimals to 0.01 in, such as 5.91 in;
//   - longer lengths in US units: feet and inches to the nearest sixteenth, such
//     as 12 ft 6 in;
//   - lengths in SI: to 0.1 mm below 1 m, to 1 mm from there on;
//   - temperatures to 0.1 degree;
//   - all else, and lengths below 1 in or 1 mm, to four figures, whole digits
//     never rounded.
//
// But for temperatures nothing shows as 0 that is not 0. A value without a
// dimension or not finite gives a text that says so, and that does not parse.
func (q Quantity) Text(system System) string {
	if err := q.check(); err != nil {
		return err.Error()
	}
	if system != SI {
		system = US
	}
	if size := math.Abs(q.SI); size > largestPrinted || size < smallestPrinted && size != 0 && q.Dim != DimTemperature {
		x, _ := q.In(q.Dim.BaseUnit())
		text := strconv.FormatFloat(x, 'g', -1, 64)
		if q.Dim == DimRatio {
			return text
		}
		return text + " " + q.Dim.BaseUnit()
	}
	switch q.Dim {
	case DimRatio:
		return figures(q.SI)
	case DimTemperature:
		return q.textIn(choose(system, "fahrenheit", "celsius"), 1)
	case DimLength:
		if system == US {
			return q.usLength()
		}
		return q.siLength()
	}
	builder, q := q.unitFor(system)
	return q.textIn(builder, -1)
}

func choose(system System, us, si string) string {
	if system == US {
		return us
	}
	return si
}

// The sizes between which a value is rounded for print. Beyond, where nothing of
// this trade lies, it is written in full in its SI unit, so that no turn between
// units and no rounding can carry it out of what is read.
const (
	largestPrinted  = 1e90
	smallestPrinted = 1e-90
)

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

// unitFor returns the builder of the unit in which a value is printed, and the
// value to print, which [Quantity.larger] may have rounded.
func (q Quantity) unitFor(system System) (string, Quantity) {
	us := system == US
	switch q.Dim {
	case DimArea:
		return choose(system, "sq_ft", "sq_m"), q
	case DimVolume:
		if us {
			return q.larger(cubicYardFrom, "cu_ft", "cu_yd")
		}
		return "cu_m", q
	case DimMass:
		if us {
			return q.larger(tonFrom, "lb", "tons")
		}
		return q.larger(tonneFrom, "kg", "tonnes")
	case DimDensity:
		return choose(system, "pcf", "kg_per_m3"), q
	case DimForce:
		return choose(system, "lbf", "kn"), q
	case DimPressure:
		if us {
			return "psi", q
		}
		return q.larger(megapascal, "kpa", "mpa")
	case DimRate:
		return choose(system, "in_per_hour", "mm_per_hour"), q
	case DimFreezingIndex:
		return choose(system, "f_days", "c_days"), q
	case DimTime:
		return q.timeUnit()
	case DimLineStrength:
		return choose(system, "lb_per_ft", "kn_per_m"), q
	case DimArealMass:
		if us {
			return "oz_per_sq_yd", q
		}
		return q.larger(heavyCover, "g_per_sq_m", "kg_per_sq_m")
	case DimShare:
		return "percent", q
	}
	return "per_second", q
}

func (q Quantity) timeUnit() (string, Quantity) {
	for _, turn := range []struct {
		from         float64
		small, large string
	}{{60, "seconds", "minutes"}, {secondsHour, "minutes", "hours"}, {daysFrom, "hours", "days"}} {
		var unit string
		if unit, q = q.larger(turn.from, turn.small, turn.large); unit == turn.small {
			return unit, q
		}
	}
	return q.larger(yearsFrom, "days", "years")
}

// larger chooses between two units by size. What would round up to the turn is
// printed as the turn itself, so that 59.999 s is 1 min, and a text read back is
// printed the same.
func (q Quantity) larger(from float64, small, large string) (string, Quantity) {
	u := byBuilder[small]
	size := math.Abs(q.SI)
	switch {
	case size >= from:
		return large, q
	case u.toSI(rounded(u.fromSI(size))) >= from*(1-sameWithin):
		return large, Quantity{q.Dim, math.Copysign(from, q.SI)}
	}
	return small, q
}

// textIn prints in the unit of a builder, with so many decimals, or to four
// figures if decimals is negative.
func (q Quantity) textIn(builder string, decimals int) string {
	u := byBuilder[builder]
	x := u.fromSI(q.SI)
	number := figures(x)
	if decimals >= 0 {
		number = fixed(x, decimals)
	}
	symbol := u.Symbol
	if u.Plural != "" && number != "1" {
		symbol = u.Plural
	}
	return number + " " + symbol
}
