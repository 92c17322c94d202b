package site

import "math"

// bounds are the values that are possible at all. They are in SI for a measured
// value. What is possible may still be more than a rulebook covers.
type bounds struct {
	least, most float64
	// above leaves out least itself.
	above bool
	// says it in words, in the units of the trade.
	says string
}

var (
	aboveZero  = bounds{least: 0, most: largest, above: true, says: "more than 0"}
	zeroOrMore = bounds{least: 0, most: largest, says: "0 or more"}
	percentage = bounds{least: 0, most: 1, says: "0 to 100 %"}
	// cbrRange runs past the 100 % of the standard crushed stone, since sound
	// rock and cemented gravel read more; above 200 a reading is a slip of the
	// pen (practice).
	cbrRange = bounds{least: 0, most: 200, says: "0 to 200 %"}
	// slopeRange: no one paves steeper than 1 in 2, so that more is a slip of
	// the pen (practice).
	slopeRange = bounds{least: 0, most: 0.5, says: "0 to 50 %"}
	// meanTemperatureRange holds every place on earth where anyone lives (from
	// memory); it catches a Fahrenheit reading written as Celsius.
	meanTemperatureRange = bounds{least: -60, most: 40, says: "-60 C to 40 C (-76 F to 104 F)"}
	withinYear           = bounds{least: 0, most: 366 * 86400, says: "0 to 366 days"}
)

// The sizes between which a value other than 0 can be written and read back.
const (
	largest  = 1e100
	smallest = 1e-100
)

// holds is false for NaN and for infinities.
func (b bounds) holds(x float64) bool {
	if b.above && x == b.least || x != 0 && math.Abs(x) < smallest {
		return false
	}
	return x >= b.least && x <= b.most
}
