package geosynthetic

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// The Army's limits for filter fabrics, a set of its own beside the FHWA
// design. UFC 3-270-04 and the Corps of Engineers' criteria of 1977, seen.
const (
	armyFilter       = "UFC 3-270-04, p. 83"
	armyOpeningLeast = 0.150 // mm, No. 100 sieve
	armyFinesBelow   = 85.0  // percent passing No. 200; from here no fabric filter
	armyFineSoil     = 50.0  // percent; from here the No. 70 sieve bounds the opening
	armyFineOpening  = 0.212 // mm, No. 70 sieve (its opening from memory of ASTM E11)
)

var armyFines = calculation.Range{Name: "fines", Unit: "percent", Low: 0, High: armyFinesBelow, Below: true, Document: armyFilter}

// ArmyFilterOpeningLeast is the smallest apparent opening size of a filter
// fabric by the Army, that of a No. 100 sieve, 0.150 mm; the largest that the
// criteria allow is to be preferred. On soil of 85 percent fines and more the
// Army allows no fabric filter, and the error is a [calculation.RangeError].
// UFC 3-270-04 p. 83, seen.
func ArmyFilterOpeningLeast(fines float64) (quantity.Length, error) {
	if err := armyFines.Check(fines); err != nil {
		return 0, err
	}
	return quantity.Millimeters(armyOpeningLeast), nil
}

// ArmyFilterOpeningMost is the largest apparent opening size of a filter
// fabric by the Army: the soil's D85 below 50 percent fines, that of a No. 70
// sieve (0.212 mm) from there. From 85 percent fines it refuses, as
// [ArmyFilterOpeningLeast]. Corps of Engineers (1977), relayed. Where D85 is
// under 0.150 mm no fabric meets both.
func ArmyFilterOpeningMost(d85 quantity.Length, fines float64) (quantity.Length, error) {
	if err := cmp.Or(armyFines.Check(fines), checkSize("d85", d85)); err != nil {
		return 0, err
	}
	if fines < armyFineSoil {
		return d85, nil
	}
	return quantity.Millimeters(armyFineOpening), nil
}
