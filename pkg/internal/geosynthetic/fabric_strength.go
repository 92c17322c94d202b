package geosynthetic

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// fabricStrength is a column of AASHTO M 288 Table 1: minimum average roll
// values in the weaker direction, newtons.
type fabricStrength struct{ grab, seam, tear, puncture float64 }

type classAndElongation struct {
	class      FabricClass
	elongation FabricElongation
}

// AASHTO M 288-06 Table 1, from memory: grab, seam and tear surely, puncture
// less so. UFGS 02832 (seen) asks the grab values of class 2.
var fabricStrengths = map[classAndElongation]fabricStrength{
	{Class1, LowElongation}:  {grab: 1400, seam: 1260, tear: 500, puncture: 2750},
	{Class1, HighElongation}: {grab: 900, seam: 810, tear: 350, puncture: 1925},
	{Class2, LowElongation}:  {grab: 1100, seam: 990, tear: 400, puncture: 2200},
	{Class2, HighElongation}: {grab: 700, seam: 630, tear: 250, puncture: 1375},
	{Class3, LowElongation}:  {grab: 800, seam: 720, tear: 300, puncture: 1650},
	{Class3, HighElongation}: {grab: 500, seam: 450, tear: 180, puncture: 990},
}

// monofilamentTear is the tear strength asked of a class 2 woven monofilament,
// in newtons (memory).
const monofilamentTear = 250

func strengthOf(class FabricClass, elongation FabricElongation) (fabricStrength, error) {
	s, known := fabricStrengths[classAndElongation{class, elongation}]
	if known {
		return s, nil
	}
	if elongation == LowElongation || elongation == HighElongation {
		return s, calculation.UnknownWord("class", class)
	}
	return s, calculation.UnknownWord("elongation", elongation)
}

// FabricGrabStrength is the least grab strength (ASTM D4632) of a fabric of
// the class. AASHTO M 288 Table 1, from memory.
func FabricGrabStrength(class FabricClass, elongation FabricElongation) (quantity.Force, error) {
	s, err := strengthOf(class, elongation)
	return quantity.Force(s.grab), err
}

// FabricSeamStrength is the least strength of a sewn seam (ASTM D4632) in a
// fabric of the class. AASHTO M 288 Table 1, from memory.
func FabricSeamStrength(class FabricClass, elongation FabricElongation) (quantity.Force, error) {
	s, err := strengthOf(class, elongation)
	return quantity.Force(s.seam), err
}

// FabricTearStrength is the least trapezoid tear strength (ASTM D4533) of a
// fabric of the class; a class 2 woven monofilament of low elongation needs
// 250 N instead of 400. AASHTO M 288 Table 1, from memory.
func FabricTearStrength(class FabricClass, elongation FabricElongation, making FabricMaking) (quantity.Force, error) {
	s, err := strengthOf(class, elongation)
	if err != nil {
		return 0, err
	}
	if !making.known() {
		return 0, calculation.UnknownWord("making", making)
	}
	if class == Class2 && elongation == LowElongation && making == WovenMonofilament {
		return monofilamentTear, nil
	}
	return quantity.Force(s.tear), nil
}

// FabricPunctureStrength is the least puncture strength by a 50 mm plunger
// (ASTM D6241) of a fabric of the class. AASHTO M 288 Table 1, from memory.
func FabricPunctureStrength(class FabricClass, elongation FabricElongation) (quantity.Force, error) {
	s, err := strengthOf(class, elongation)
	return quantity.Force(s.puncture), err
}
