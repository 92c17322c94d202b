package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// String gives the quantity in US units.
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

// In gives the value in a unit, named by symbol, spelling or builder; "" and
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

// Text gives the quantity as the trade writes it in a system; [EitherSystem] is
// read as [US]. [ParseAs] reads it back to within the rounding of the print:
//
//   - lengths in US units: inches up to 48 in, feet and inches above, with a
//     fraction where one of sixteenths or coarser is within 0.005 in (below 1 in,
//     where it is exact), such as 3-1/8 in or 12 ft 6 in; else decimals, to
//     0.01 in or 0.01 ft;
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
	switch q.Dim {
	case DimRatio:
		return figures(q.SI, 4)
	case DimTemperature:
		return q.textIn(choose(system, "fahrenheit", "celsius"), 1)
	case DimLength:
		if system == US {
			return q.usLength()
		}
		return q.siLength()
	}
	return q.textIn(q.unitFor(system), -1)
}

func choose(system System, us, si string) string {
	if system == US {
		return us
	}
	return si
}

// Sizes at which the trade turns to the larger unit.
const (
	cubicYardFrom = cubicYard // below it volumes are in cubic feet
	tonFrom       = shortTon
	tonneFrom     = 1000.0
	megapascal    = 1e6
	heavyCover    = 10.0 // kg/m2; fabrics are far below, pavers far above
	// A drained reservoir is timed in hours up to 72 h and more.
	daysFrom  = 4 * secondsDay
	yearsFrom = secondsYear
)

// unitFor gives the builder of the unit in which a value is printed.
func (q Quantity) unitFor(system System) string {
	size := math.Abs(q.SI)
	larger := func(from float64, small, large string) string {
		// What rounds up to the larger unit is printed in it.
		if size >= from || same(size, from) {
			return large
		}
		return small
	}
	switch q.Dim {
	case DimArea:
		return choose(system, "sq_ft", "sq_m")
	case DimVolume:
		return choose(system, larger(cubicYardFrom, "cu_ft", "cu_yd"), "cu_m")
	case DimMass:
		return choose(system, larger(tonFrom, "lb", "tons"), larger(tonneFrom, "kg", "tonnes"))
	case DimDensity:
		return choose(system, "pcf", "kg_per_m3")
	case DimForce:
		return choose(system, "lbf", "kn")
	case DimPressure:
		return choose(system, "psi", larger(megapascal, "kpa", "mpa"))
	case DimRate:
		return choose(system, "in_per_hour", "mm_per_hour")
	case DimFreezingIndex:
		return choose(system, "f_days", "c_days")
	case DimLineStrength:
		return choose(system, "lb_per_ft", "kn_per_m")
	case DimArealMass:
		return choose(system, "oz_per_sq_yd", larger(heavyCover, "g_per_sq_m", "kg_per_sq_m"))
	case DimPermittivity:
		return "per_second"
	}
	switch { // a time
	case size < 60:
		return "seconds"
	case size < secondsHour && !same(size, secondsHour):
		return "minutes"
	case size < daysFrom && !same(size, daysFrom):
		return "hours"
	}
	return larger(yearsFrom, "days", "years")
}

// textIn prints in the unit of a builder, with so many decimals, or to four
// figures if decimals is negative.
func (q Quantity) textIn(builder string, decimals int) string {
	u, _ := UnitNamed(builder, q.Dim)
	x := u.fromSI(q.SI)
	if math.IsInf(x, 0) || x == 0 && q.SI != 0 && q.Dim != DimTemperature {
		return strconv.FormatFloat(q.SI, 'g', -1, 64) + " " + q.Dim.BaseUnit()
	}
	number := figures(x, 4)
	if decimals >= 0 {
		number = fixed(x, decimals)
	}
	symbol := u.Symbol
	if u.Plural != "" && number != "1" {
		symbol = u.Plural
	}
	return number + " " + symbol
}

const (
	inchesUpTo = 48
	// fractionWithin is half of the hundredth to which decimals are printed, so
	// that a fraction is no coarser than the decimals it stands for. A wider
	// net would show 6.01 in as 6 in, beside a limit of 6 in that it crosses.
	fractionWithin = 0.005
	sixteenths     = 16
)

func (q Quantity) usLength() string {
	inches := inchScale.from(math.Abs(q.SI))
	sign := ""
	if q.SI < 0 {
		sign = "-"
	}
	steps := math.Round(inches * sixteenths)
	if math.Abs(inches-steps/sixteenths) > fractionWithin || inches < 1 && !same(inches, steps/sixteenths) || steps > 1e9 {
		if inches <= inchesUpTo {
			return q.textIn("inches", decimalsFrom(inches, 2))
		}
		return q.textIn("feet", 2)
	}
	n := int(steps)
	if n <= inchesUpTo*sixteenths {
		return sign + fractional(n) + " in"
	}
	const foot = 12 * sixteenths
	text := sign + grouped(strconv.Itoa(n/foot)) + " ft"
	if n%foot != 0 {
		text += " " + fractional(n%foot) + " in"
	}
	return text
}

// fractional writes a number of sixteenths as 3, 1/2 or 3-1/8.
func fractional(n int) string {
	whole, top, bottom := n/sixteenths, n%sixteenths, sixteenths
	if top == 0 {
		return strconv.Itoa(whole)
	}
	for top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	fraction := fmt.Sprintf("%d/%d", top, bottom)
	if whole == 0 {
		return fraction
	}
	return fmt.Sprintf("%d-%s", whole, fraction)
}

func (q Quantity) siLength() string {
	mm := millimetreScale.from(math.Abs(q.SI))
	const metre, tenth = 1000, 0.05
	if mm < metre-tenth {
		return q.textIn("mm", decimalsFrom(mm, 1))
	}
	return q.textIn("m", 3)
}

// decimalsFrom gives the decimals for values from 1 on; below, four figures.
func decimalsFrom(x float64, decimals int) int {
	if x < 1 {
		return -1
	}
	return decimals
}

// Sizes beyond which a number is written with a power of ten.
const (
	plainFrom = 1e-6
	plainTo   = 1e15
)

// figures writes x to so many significant figures, and to the whole number if
// it has more digits than that.
func figures(x float64, most int) string {
	size := math.Abs(x)
	if size != 0 && (size < plainFrom || size >= plainTo) {
		return powered(strconv.FormatFloat(x, 'e', most-1, 64))
	}
	decimals := most - 1
	if size != 0 {
		// The figure count is taken after rounding, so that 9.9999 has two
		// digits before the point.
		exponent, _ := strconv.Atoi(strings.SplitN(strconv.FormatFloat(x, 'e', most-1, 64), "e", 2)[1])
		decimals = max(0, most-1-exponent)
	}
	return fixed(x, decimals)
}

// fixed writes x with at most so many decimals and commas between thousands.
func fixed(x float64, decimals int) string {
	if math.Abs(x) >= plainTo {
		return powered(strconv.FormatFloat(x, 'e', 3, 64))
	}
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return grouped(text)
}

// powered tidies 1.500e-07 to 1.5e-7.
func powered(text string) string {
	number, power, _ := strings.Cut(text, "e")
	if strings.Contains(number, ".") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	n, _ := strconv.Atoi(power)
	return fmt.Sprintf("%se%d", number, n)
}

// grouped puts commas between the thousands of the whole part.
func grouped(text string) string {
	sign := ""
	if strings.HasPrefix(text, "-") {
		sign, text = "-", text[1:]
	}
	whole, rest := text, ""
	if i := strings.IndexByte(text, '.'); i >= 0 {
		whole, rest = text[:i], text[i:]
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	return sign + whole + rest
}
