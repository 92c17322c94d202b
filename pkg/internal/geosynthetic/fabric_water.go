package geosynthetic

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// fabricWater is what a fabric must let through and hold back: least
// permittivity in 1/s (ASTM D4491) and largest apparent opening size in mm
// (ASTM D4751).
type fabricWater struct{ permittivity, opening float64 }

// AASHTO M 288 Tables 3 and 4, from memory.
var applicationWater = map[FabricApplication]fabricWater{
	Separation:    {permittivity: 0.02, opening: 0.60},
	Stabilization: {permittivity: 0.05, opening: 0.43},
}

// AASHTO M 288 Table 2 as quoted in UFGS 02373 (seen; the note prints the last
// row as "greater than 15", read as 50).
var (
	cleanSoilWater = fabricWater{permittivity: 0.5, opening: 0.43}
	mixedSoilWater = fabricWater{permittivity: 0.2, opening: 0.25}
	fineSoilWater  = fabricWater{permittivity: 0.1, opening: 0.22}
)

// The bounds of those rows, percent passing 0.075 mm.
const (
	mixedFinesFrom  = 15.0
	fineFinesBeyond = 50.0
)

func waterOf(application FabricApplication) (fabricWater, error) {
	if w, known := applicationWater[application]; known {
		return w, nil
	}
	if application == Drainage {
		return fabricWater{}, &calculation.WordError{Name: "application", Got: string(application), Document: m288 + "; for drainage the fines decide",
			Want: []string{string(Separation), string(Stabilization)}}
	}
	return fabricWater{}, calculation.UnknownWord("application", application)
}

func drainageWaterOf(fines float64) (fabricWater, error) {
	if err := checkFines(fines); err != nil {
		return fabricWater{}, err
	}
	switch {
	case fines < mixedFinesFrom:
		return cleanSoilWater, nil
	case fines <= fineFinesBeyond:
		return mixedSoilWater, nil
	}
	return fineSoilWater, nil
}

// FabricPermittivity is the least permittivity of a separation or
// stabilization fabric, 0.02 and 0.05 1/s; it should exceed the soil's as
// well. AASHTO M 288 Tables 3 and 4, from memory. Drainage goes by the fines,
// see [DrainFabricPermittivity].
func FabricPermittivity(application FabricApplication) (quantity.Permittivity, error) {
	w, err := waterOf(application)
	return quantity.Permittivity(w.permittivity), err
}

// FabricOpening is the largest apparent opening size of a separation or
// stabilization fabric, 0.60 and 0.43 mm. AASHTO M 288 Tables 3 and 4, from
// memory. Drainage goes by the fines, see [DrainFabricOpening].
func FabricOpening(application FabricApplication) (quantity.Length, error) {
	w, err := waterOf(application)
	return quantity.Millimeters(w.opening), err
}

// DrainFabricPermittivity is the least permittivity of a drainage fabric by
// the percentage of the soil passing 0.075 mm: 0.5 1/s below 15, 0.2 to 50,
// 0.1 above. AASHTO M 288 Table 2 as quoted in UFGS 02373, seen. Erodible
// silts, gap-graded and laminated soils and dispersive clays need a design of
// their own, by the same note.
func DrainFabricPermittivity(fines float64) (quantity.Permittivity, error) {
	w, err := drainageWaterOf(fines)
	return quantity.Permittivity(w.permittivity), err
}

// DrainFabricOpening is the largest apparent opening size of a drainage fabric
// by the percentage of the soil passing 0.075 mm: 0.43 mm below 15, 0.25 to
// 50, 0.22 above. AASHTO M 288 Table 2 as quoted in UFGS 02373, seen; the soils
// of [DrainFabricPermittivity] need a design of their own.
func DrainFabricOpening(fines float64) (quantity.Length, error) {
	w, err := drainageWaterOf(fines)
	return quantity.Millimeters(w.opening), err
}
