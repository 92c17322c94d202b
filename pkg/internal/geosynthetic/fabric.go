package geosynthetic

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// FabricClass is a class of geotextile by the strength that it needs to
// survive being built over, after AASHTO M 288.
type FabricClass string

// The classes, from the strongest.
const (
	Class1 FabricClass = "class 1"
	Class2 FabricClass = "class 2"
	Class3 FabricClass = "class 3"
)

// Vocabulary lists the classes.
func (FabricClass) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "fabric_class",
		About: "Class of a geotextile by the strength that it needs to survive being built over, after AASHTO M 288.",
		Words: []value.WordEntry{
			{Name: "fabric_class_1", Label: string(Class1), About: "The strongest, for severe installation."},
			{Name: "fabric_class_2", Label: string(Class2), About: "For ordinary installation."},
			{Name: "fabric_class_3", Label: string(Class3), About: "For mild installation."},
		},
	}
}

// FabricElongation tells fabrics apart by their grab elongation at break.
type FabricElongation string

// The two bands of elongation.
const (
	LowElongation  FabricElongation = "elongation below 50 percent"
	HighElongation FabricElongation = "elongation 50 percent or more"
)

// Vocabulary lists the bands.
func (FabricElongation) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "fabric_elongation",
		About: "Grab elongation at break of a geotextile.",
		Words: []value.WordEntry{
			{Name: "low_elongation", Label: string(LowElongation), About: "Below 50 percent, usually a woven fabric."},
			{Name: "high_elongation", Label: string(HighElongation), About: "50 percent or more, usually a nonwoven fabric."},
		},
	}
}

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
			{Name: "nonwoven", Label: string(Nonwoven), About: "Fibres bonded by needling or heat."},
		},
	}
}

// known reports whether m is one of the makings.
func (m FabricMaking) known() bool {
	return m == Woven || m == WovenMonofilament || m == Nonwoven
}

// UsualElongation is the band in which a fabric of this making usually lies:
// woven below 50 percent, nonwoven at 50 percent or more. From memory; a
// fabric's own sheet goes before it.
func UsualElongation(making FabricMaking) (FabricElongation, error) {
	switch making {
	case Woven, WovenMonofilament:
		return LowElongation, nil
	case Nonwoven:
		return HighElongation, nil
	}
	return "", calculation.UnknownWord("making", making)
}

// FabricApplication is what a fabric is laid for.
type FabricApplication string

// The applications of AASHTO M 288 under a pavement.
const (
	Drainage      FabricApplication = "drainage"
	Separation    FabricApplication = "separation"
	Stabilization FabricApplication = "stabilization"
)

// Vocabulary lists the applications.
func (FabricApplication) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "fabric_application",
		About: "What a geotextile is laid for.",
		Words: []value.WordEntry{
			{Name: "for_drainage", Label: string(Drainage), About: "To let water into a drain and keep soil out."},
			{Name: "for_separation", Label: string(Separation), About: "To keep firm ground and stone apart, CBR 3 and more."},
			{Name: "for_stabilization", Label: string(Stabilization), About: "To build over soft wet ground, CBR above 1 and below 3."},
		},
	}
}

const m288 = "AASHTO M 288-06"

// Where the applications of AASHTO M 288 lie by CBR (memory).
const (
	stabilizationAbove = 1.0
	separationFrom     = 3.0
)

// FabricApplicationFor is the application of AASHTO M 288 for ground of the
// given CBR in percent: stabilization above 1 and below 3, separation from 3.
// At 1 and below M 288 does not cover the case, which is engineered as
// reinforcement, and the error is a [calculation.RangeError]. M 288 also takes
// separation to be on unsaturated ground; on wet ground of CBR 3 and more a
// rule may well ask for more. From memory.
func FabricApplicationFor(cbr float64) (FabricApplication, error) {
	covered := calculation.Range{Name: "cbr", Unit: "percent", Low: stabilizationAbove, Above: true, High: 100, Document: m288}
	if err := covered.Check(cbr); err != nil {
		return "", err
	}
	if cbr < separationFrom {
		return Stabilization, nil
	}
	return Separation, nil
}

// DefaultFabricClass is the class that AASHTO M 288 asks for where nothing is
// known of the installation: 1 for stabilization, 2 for separation and
// drainage. From memory.
func DefaultFabricClass(application FabricApplication) (FabricClass, error) {
	switch application {
	case Stabilization:
		return Class1, nil
	case Separation, Drainage:
		return Class2, nil
	}
	return "", calculation.UnknownWord("application", application)
}

// When a separation fabric may drop to class 3 (AASHTO M 288, memory).
const (
	thickLift    = 300.0 // mm, first lift above this
	thickStone   = 50.0  // mm, stone below this
	thinLift     = 150.0
	thinStone    = 30.0
	lightContact = 550.0 // kPa, contact pressure below this
)

// SeparationFabricClass is the class of a separation fabric by how it is built
// over: class 3 under a first lift above 300 mm of stone below 50 mm, or above
// 150 mm of stone below 30 mm and contact pressure below 550 kPa; else class
// 2. AASHTO M 288, from memory (of medium sureness).
func SeparationFabricClass(firstLift, largestStone quantity.Length, contact quantity.Pressure) (FabricClass, error) {
	if err := cmp.Or(
		checkThickness("first lift", firstLift),
		checkSize("largest stone", largestStone),
		armyPressure.Check(contact.Kilopascals()),
	); err != nil {
		return "", err
	}
	lift, stone := firstLift.Millimeters(), largestStone.Millimeters()
	thick := lift > thickLift && stone < thickStone
	thin := lift > thinLift && stone < thinStone && contact.Kilopascals() < lightContact
	if thick || thin {
		return Class3, nil
	}
	return Class2, nil
}
