package drawn

import (
	"math"

	"example.com/groundrule/pkg/quantity"
)

// Heights in the picture.
const (
	perInch   = 10.0  // of an inch
	leastHigh = 7.0   // of a bed that would be too thin to show
	mostHigh  = 120.0 // above which a bed is broken
	brokenTo  = 100.0 // of a bed that is
	sheetHigh = 4.0   // of a sheet, which has no thickness
)

// depths are where the depths below finish grade lie in the picture: to scale, but for
// beds that are too thin or too thick to show, and for sheets, which have room of
// their own below what lies on them.
type depths struct {
	at    []float64 // depths in meters, down
	y     []float64
	under []float64 // where what lies below the sheets at that depth begins
}

// same is within what two depths are one, in meters.
const same = 1e-6

func inches(l quantity.Length) float64 { return l.Meters() / quantity.Inches(1).Meters() }

// start begins at finish grade.
func start(y float64) depths { return depths{at: []float64{0}, y: []float64{y}, under: []float64{y}} }

// add goes on to a depth with so many sheets and reports whether it is to scale.
func (d *depths) add(depth quantity.Length, sheets int) bool {
	last := len(d.at) - 1
	high := perInch * (inches(depth) - inches(quantity.Meters(d.at[last])))
	drawn := high
	switch {
	case high < leastHigh:
		drawn = leastHigh
	case high > mostHigh:
		drawn = brokenTo
	}
	y := d.under[last] + drawn
	d.at, d.y, d.under = append(d.at, depth.Meters()), append(d.y, y), append(d.under, y+sheetHigh*float64(sheets))
	return drawn == high
}

// of returns where a depth lies, of what stands on it: between two beds as they are
// drawn, below the last to scale.
func (d *depths) of(depth quantity.Length) float64 {
	x := depth.Meters()
	for i := range d.at {
		switch {
		case x > d.at[i]+same:
		case i == 0:
			return d.y[0]
		default:
			return d.under[i-1] + (d.y[i]-d.under[i-1])*(x-d.at[i-1])/(d.at[i]-d.at[i-1])
		}
	}
	last := len(d.at) - 1
	return d.under[last] + perInch*(inches(depth)-inches(quantity.Meters(d.at[last])))
}

// below is where a depth lies, of what lies under it.
func (d *depths) below(depth quantity.Length) float64 {
	for i, x := range d.at {
		if math.Abs(x-depth.Meters()) < same {
			return d.under[i]
		}
	}
	return d.of(depth)
}
