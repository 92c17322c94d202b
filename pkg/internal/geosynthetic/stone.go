package geosynthetic

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// A grid's aperture against the stone over it, FHWA NHI-07-092 ch. 5, from
// memory.
const (
	apertureLeast  = 12.5 // mm
	apertureMost   = 75.0
	aperturePerD85 = 2.0
)

// Stone against the ground below it, where no fabric lies between. Seen as a
// filter rule in Horonjeff and others, Planning and Design of Airports, p. 379;
// its use under grids from memory.
const (
	separatorD15OverD85 = 5.0
	separatorD50OverD50 = 25.0
	drainingD15OverD15  = 5.0
)

// GridApertureLeast is the smallest aperture into which the stone locks: its
// D50, and never under 12.5 mm. FHWA NHI-07-092 ch. 5, from memory. Where it
// comes out above [GridApertureMost] no aperture suits the stone.
func GridApertureLeast(d50 quantity.Length) (quantity.Length, error) {
	if err := checkSize("d50", d50); err != nil {
		return 0, err
	}
	return max(d50, quantity.Millimeters(apertureLeast)), nil
}

// GridApertureMost is the largest aperture that still holds the stone: twice
// its D85, and never over 75 mm. FHWA NHI-07-092 ch. 5, from memory.
func GridApertureMost(d85 quantity.Length) (quantity.Length, error) {
	if err := checkSize("d85", d85); err != nil {
		return 0, err
	}
	return min(aperturePerD85*d85, quantity.Millimeters(apertureMost)), nil
}

// GridHoldsStone reports whether stone locks into a grid: D50 <= aperture <= 2
// D85, the aperture from 12.5 to 75 mm. FHWA NHI-07-092 ch. 5, from memory.
// The error is for sizes that cannot be, and for a D50 above the D85.
func GridHoldsStone(aperture, d50, d85 quantity.Length) (bool, error) {
	least, err := GridApertureLeast(d50)
	if err != nil {
		return false, err
	}
	most, err := GridApertureMost(d85)
	if err = cmp.Or(err, checkSize("aperture", aperture), sizesInOrder("d50", d50, "d85", d85)); err != nil {
		return false, err
	}
	return least <= aperture && aperture <= most, nil
}

// GridNeedsSeparator reports whether a fabric, or a graded layer, must lie
// between the stone over a grid and the ground: the stone's D15 is over 5 times
// the ground's D85, or its D50 over 25 times the ground's D50. Filter rule seen
// in Planning and Design of Airports p. 379; its use under grids from memory.
func GridNeedsSeparator(stoneD15, stoneD50, groundD50, groundD85 quantity.Length) (bool, error) {
	if err := cmp.Or(
		checkSize("stone d15", stoneD15), checkSize("stone d50", stoneD50),
		checkSize("ground d50", groundD50), checkSize("ground d85", groundD85),
		sizesInOrder("stone d15", stoneD15, "stone d50", stoneD50),
		sizesInOrder("ground d50", groundD50, "ground d85", groundD85),
	); err != nil {
		return false, err
	}
	return stoneD15 > separatorD15OverD85*groundD85 || stoneD50 > separatorD50OverD50*groundD50, nil
}

// StoneDrainsGround reports whether the stone is open enough for the water of
// the ground below: its D15 is at least 5 times the ground's. Planning and
// Design of Airports p. 379, seen.
func StoneDrainsGround(stoneD15, groundD15 quantity.Length) (bool, error) {
	if err := cmp.Or(checkSize("stone d15", stoneD15), checkSize("ground d15", groundD15)); err != nil {
		return false, err
	}
	return stoneD15 >= drainingD15OverD15*groundD15, nil
}

// sizesInOrder refuses a smaller percentile above a larger one.
func sizesInOrder(lowName string, low quantity.Length, highName string, high quantity.Length) error {
	return calculation.Range{
		Name: lowName, Unit: "mm", Low: 0, High: high.Millimeters(),
		Document: lowName + " cannot be above " + highName,
	}.Check(low.Millimeters())
}
