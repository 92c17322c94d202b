package geosynthetic

import (
	"cmp"

	"example.com/groundrule/pkg/quantity"
)

// A grid's aperture against the stone over it, FHWA NHI-07-092 ch. 5, from
// memory.
const (
	apertureLeast  = 12.5 // mm
	apertureMost   = 75.0
	aperturePerD85 = 2.0
)

// GridHoldsStone reports whether stone locks into a grid: D50 <= aperture <= 2
// D85, the aperture from 12.5 to 75 mm. FHWA NHI-07-092 ch. 5, from memory. Sizes
// 0.0001 mm to 1 m, D50 no larger than D85.
func GridHoldsStone(aperture, d50, d85 quantity.Length) (bool, error) {
	most := aSize.Named("d50")
	most.High, most.Document = d85.Millimeters(), "no larger than d85"
	if err := cmp.Or(aSize.Named("aperture").CheckMeasure(aperture), aSize.Named("d85").CheckMeasure(d85), most.CheckMeasure(d50)); err != nil {
		return false, err
	}
	least := max(d50, quantity.Millimeters(apertureLeast))
	return least <= aperture && aperture <= min(aperturePerD85*d85, quantity.Millimeters(apertureMost)), nil
}
