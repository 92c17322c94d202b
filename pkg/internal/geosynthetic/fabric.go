package geosynthetic

import (
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// FabricMaking is how a fabric is made.
type FabricMaking string

// The makings.
const (
	Woven             FabricMaking = "woven"
	WovenMonofilament FabricMaking = "woven monofilament"
	Nonwoven          FabricMaking = "nonwoven"
)

// Vocabulary lists the makings.
func (FabricMaking) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "fabric_making",
		About: "How a geotextile is made.",
		Words: []value.WordEntry{
			{Name: "woven", Label: string(Woven), About: "Woven of tapes or yarns."},
			{Name: "woven_monofilament", Label: string(WovenMonofilament), About: "Woven of single round filaments."},
			{Name: "nonwoven", Label: string(Nonwoven), About: "Fibers bonded by needling or heat."},
		},
	}
}

// drainFabric returns the least permittivity in 1/s (ASTM D4491) and the largest
// apparent opening size in mm (ASTM D4751) of a drainage fabric by the percentage
// of the soil passing 0.075 mm: AASHTO M 288 Table 2 as quoted in UFGS 02373
// (seen; the note prints the last row as "greater than 15", read as 50).
// Erodible silts, gap-graded and laminated soils and dispersive clays need a
// design of their own, by the same note.
func drainFabric(fines quantity.Share) (permittivity, opening float64, err error) {
	if err := aFines.CheckMeasure(fines); err != nil {
		return 0, 0, err
	}
	switch fines := fines.Percent(); {
	case fines < 15:
		return 0.5, 0.43, nil
	case fines <= 50:
		return 0.2, 0.25, nil
	}
	return 0.1, 0.22, nil
}

// DrainFabricPermittivity returns the least permittivity of a drainage fabric:
// 0.5 1/s below 15 percent of fines, 0.2 to 50, 0.1 above. AASHTO M 288 Table 2
// as quoted in UFGS 02373, seen.
func DrainFabricPermittivity(fines quantity.Share) (quantity.Permittivity, error) {
	least, _, err := drainFabric(fines)
	return quantity.Permittivity(least), err
}

// DrainFabricOpening returns the largest apparent opening size of a drainage
// fabric: 0.43 mm below 15 percent of fines, 0.25 to 50, 0.22 above. AASHTO M
// 288 Table 2 as quoted in UFGS 02373, seen.
func DrainFabricOpening(fines quantity.Share) (quantity.Length, error) {
	_, most, err := drainFabric(fines)
	return quantity.Millimeters(most), err
}
