package sheet

import (
	"fmt"
	"math"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// crew shows depths as a crew can measure them, and remembers whether any of
// them is not the exact one.
type crew struct {
	system quantity.System
	// dig is how deep the excavation is.
	dig     value.Value
	rounded bool
}

// A tape is read to the sixteenth of an inch; anything between is rounded to
// the eighth, which can be seen while standing.
const (
	tapeReads  = 16 // parts of an inch
	crewReads  = 8
	sameOnTape = 1e-6 // of a part of an inch
)

// depth returns a depth or a thickness as text. In US units one that is not in
// whole sixteenths as printed is rounded to the nearest eighth, and that of the
// dig up, since ground that was left cannot be built into. What would round to
// nothing is left as it is, and so is everything in SI units.
func (c *crew) depth(v value.Value) string {
	exact := v.Text(c.system)
	l, ok := v.Length()
	if c.system != quantity.US || !ok {
		return exact
	}
	up := !c.dig.IsZero() && v.Equal(c.dig)
	shown, err := quantity.ParseAs(quantity.DimLength, exact)
	if err == nil && whole(float64(quantity.Length(shown.SI).Inches()*tapeReads)) && !(up && shorter(quantity.Length(shown.SI), l)) {
		return exact
	}
	parts := math.Round(l.Inches() * crewReads)
	if up {
		parts = math.Ceil(l.Inches() * crewReads)
	}
	if parts == 0 {
		return exact
	}
	c.rounded = true
	return quantity.Inches(parts / crewReads).String()
}

// note says how the depths on the page are rounded.
func (c *crew) note() string {
	l, ok := c.dig.Length()
	if !ok || c.depth(c.dig) == c.dig.Text(c.system) {
		return "Depths are to the nearest 1/8 in. Exact thicknesses are under WHY."
	}
	return fmt.Sprintf("Depths are to the nearest 1/8 in; the dig is rounded up from %.2f in. Exact thicknesses are under WHY.", l.Inches())
}

func whole(x float64) bool { return math.Abs(x-math.Round(x)) < sameOnTape }

// shorter reports whether a depth as shown would leave ground undug that a tape
// can find.
func shorter(shown, exact quantity.Length) bool {
	return shown.Inches() < exact.Inches()-sameOnTape
}
