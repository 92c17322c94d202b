package drawn

import (
	"example.com/groundrule/pkg/quantity"
)

// Heights in the picture.
const (
	perInch   = 10.0 // how high an inch is drawn
	leastHigh = 7.0  // a bed that would be lower is drawn so high
	mostHigh  = 120.0
	brokenAt  = 100.0 // how high a bed is drawn that would be higher than the most
)

// depths are where the depths below finish grade lie in the picture: to scale, but for
// beds that are too thin or too thick to show.
type depths struct {
	at []float64 // depths in meters, down
	y  []float64
}

// add goes on to a depth and reports whether it is to scale.
func (d *depths) add(depth quantity.Length) bool {
	last := len(d.at) - 1
	high := (depth.Meters() - d.at[last]) / quantity.Inches(1).Meters() * perInch
	drawn := high
	switch {
	case high < leastHigh:
		drawn = leastHigh
	case high > mostHigh:
		drawn = brokenAt
	}
	d.at, d.y = append(d.at, depth.Meters()), append(d.y, d.y[last]+drawn)
	return drawn == high
}

// of returns where a depth lies: between two beds as they are drawn, below the last at
// the last scale there is.
func (d *depths) of(depth quantity.Length) float64 {
	x := depth.Meters()
	for i := 1; i < len(d.at); i++ {
		if x <= d.at[i] {
			return d.y[i-1] + (d.y[i]-d.y[i-1])*(x-d.at[i-1])/(d.at[i]-d.at[i-1])
		}
	}
	last := len(d.at) - 1
	return d.y[last] + (x-d.at[last])/quantity.Inches(1).Meters()*perInch
}
