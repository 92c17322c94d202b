package site

import (
	"strings"

	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/value"
)

// Use is a load case: what the paving will carry.
type Use string

// The load cases, from the lightest. That a word stands here does not say that a
// rulebook covers it.
const (
	Foot              Use = "foot"
	CarDriveway       Use = "car_driveway"
	HeavyDriveway     Use = "heavy_driveway"
	LightParking      Use = "light_parking"
	FireLane          Use = "fire_lane"
	ResidentialStreet Use = "residential_street"
	CollectorStreet   Use = "collector_street"
	TruckYard         Use = "truck_yard"
)

// Vocabulary lists the load cases.
func (Use) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "load_case",
		About: "what the paving will carry",
		Words: []value.WordEntry{
			entry(Foot, "people on foot: a patio, a walk, a pool surround; no vehicle ever"),
			entry(CarDriveway, "a home's driveway: cars and light pick-ups"),
			entry(HeavyDriveway, "a driveway that a delivery or refuse truck, or a motor home, also uses"),
			entry(LightParking, "parking for cars, with a truck now and then"),
			entry(FireLane, "a way that must also carry fire apparatus"),
			entry(ResidentialStreet, "a street that serves homes"),
			entry(CollectorStreet, "a street that gathers the traffic of others, with buses or daily trucks"),
			entry(TruckYard, "a yard or dock where trucks stand and turn"),
		},
	}
}

// Base is a kind of base under the pavers.
type Base string

// The kinds of base.
const (
	Dense Base = "dense"
	Open  Base = "open"
	Panel Base = "panel"
)

// Vocabulary lists the kinds of base.
func (Base) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "base_type",
		About: "the kind of base under the pavers",
		Words: []value.WordEntry{
			entry(Dense, "dense-graded crushed stone, compacted in lifts"),
			entry(Open, "open-graded clean stone, through which water drains"),
			entry(Panel, "foam panels on a thin leveled bed, in place of most of the stone"),
		},
	}
}

// Soil is a plain word for the ground, as whoever looked at it would call it.
type Soil string

// The plain words for the ground.
const (
	Rock        Soil = "rock"
	Gravel      Soil = "gravel"
	Sand        Soil = "sand"
	SiltySand   Soil = "silty_sand"
	ClayeySand  Soil = "clayey_sand"
	Silt        Soil = "silt"
	Loam        Soil = "loam"
	SandyClay   Soil = "sandy_clay"
	Clay        Soil = "clay"
	Topsoil     Soil = "topsoil"
	Peat        Soil = "peat"
	Fill        Soil = "fill"
	UnknownSoil Soil = "unknown"
)

// Vocabulary lists the plain words. In the rule language the word unknown is
// unknown_soil, so that it cannot be taken for something that was not given.
func (Soil) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "soil_word",
		About: "the ground, in a plain word, by eye and feel",
		Words: []value.WordEntry{
			entry(Rock, "solid or broken rock that a pick does not loosen"),
			entry(Gravel, "mostly stones larger than a pea"),
			entry(Sand, "clean grains that can be seen and felt; a dry lump falls apart"),
			entry(SiltySand, "sand that dusts the hand; a dry lump crushes at a touch"),
			entry(ClayeySand, "sand that stains the hand and holds a shape when moist"),
			entry(Silt, "floury when dry, slick when wet; rolls into no thread, or a weak one"),
			entry(Loam, "sand, silt and clay together; crumbles when moist; not the dark top layer"),
			entry(SandyClay, "sticky, with grit that can be felt"),
			entry(Clay, "sticky and smooth; rolls into a strong thread; a dry lump is hard to break"),
			entry(Topsoil, "the dark top layer, with roots"),
			entry(Peat, "dark, light and fibrous, with a smell of decay"),
			entry(Fill, "ground that was put there"),
			{Name: "unknown_soil", Label: string(UnknownSoil), About: "nobody has looked"},
		},
	}
}

func entry[W ~string](word W, about string) value.WordEntry {
	label := strings.ReplaceAll(string(word), "_", " ")
	return value.WordEntry{Name: string(word), Label: label, Go: string(word), About: about}
}

// GroundFall is the way in which the ground falls.
type GroundFall string

// Vocabulary lists the ways.
func (GroundFall) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "ground_fall",
		About: "the way in which the ground falls",
		Words: []value.WordEntry{
			entry(GroundFall("toward_house"), "rain runs to the wall of a building"),
			entry(GroundFall("away_from_house"), "rain runs away from every building"),
			entry(GroundFall("along_house"), "rain runs past the building, neither to it nor away from it"),
			entry(GroundFall("level_ground"), "rain stands, or soaks away where it falls"),
		},
	}
}

// Joints is what the joints between pavers are filled with.
type Joints string

// Vocabulary lists the ways. In the rule language the words are sand_joints and
// open_joints.
func (Joints) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "joint_kind",
		About: "what the joints between the pavers are filled with",
		Words: []value.WordEntry{
			{Name: "sand_joints", Label: "sand", Go: "sand", About: "narrow joints filled with sand, which keep most of the rain out"},
			{Name: "open_joints", Label: "open", Go: "open", About: "wide joints filled with small stone, which let the rain in"},
		},
	}
}

// Compactor is a machine or tool that compacts stone.
type Compactor string

// Vocabulary lists the compactors, from the lightest.
func (Compactor) Vocabulary() value.Vocabulary {
	machine := func(name, label, about string) value.WordEntry {
		return value.WordEntry{Name: name, Label: label, Go: name, About: about}
	}
	return value.Vocabulary{
		Name:  "compactor_type",
		About: "the compactor at hand",
		Words: []value.WordEntry{
			machine("hand_tamper", "hand tamper", "a steel plate on a pole, worked by hand"),
			machine("plate_compactor", "plate compactor, 3,000 to 5,000 lbf", "the usual plate, which moves forward only"),
			machine("reversible_plate", "reversible plate, 6,000 to 9,000 lbf", "a heavier plate, which also moves backward"),
			machine("trench_roller", "trench roller", "a walk-behind roller with two padded drums"),
			machine("ride_on_roller", "ride-on vibratory roller", "a roller with a seat and a vibrating drum"),
		},
	}
}

// Measure is the measure in which a crew builds.
type Measure string

// Vocabulary lists the measures. In the rule language the words are
// built_in_inches and built_in_millimeters.
func (Measure) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "measure",
		About: "the measure in which the crew builds",
		Words: []value.WordEntry{
			{Name: "built_in_inches", Label: "inches", Go: "inches", About: "a tape in inches, read to the sixteenth"},
			{Name: "built_in_millimeters", Label: "millimeters", Go: "millimeters", About: "a tape in millimeters, read to 5 mm"},
		},
	}
}

// SoftSpots is what is done with a soft spot in firmer ground.
type SoftSpots string

// Vocabulary lists what can be done.
func (SoftSpots) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "soft_spot_plan",
		About: "what is done with a soft spot in firmer ground",
		Words: []value.WordEntry{
			entry(SoftSpots("dig_out"), "it is dug out to firm ground and refilled; the section is for the rest"),
			entry(SoftSpots("build_over"), "it stays, and the section is for the soft spot"),
		},
	}
}

// Group is a USCS symbol, such as CL.
type Group string

// Vocabulary lists the symbols.
func (Group) Vocabulary() value.Vocabulary { return ground.Group("").Vocabulary() }

// Consistency is an answer of the hand test, such as very stiff.
type Consistency string

// Vocabulary lists the answers.
func (Consistency) Vocabulary() value.Vocabulary { return ground.Consistency("").Vocabulary() }

// Hammer is a sliding hammer of the dynamic cone penetrometer, such as 8 kg.
type Hammer string

// Vocabulary lists the hammers.
func (Hammer) Vocabulary() value.Vocabulary { return ground.DCPHammer("").Vocabulary() }

// readGroup reads a USCS symbol, in the order of ASTM or of the Army.
func readGroup(text string) (word, problem string) {
	if strings.Contains(text, "/") {
		return "", "is a borderline soil of two groups; give the weaker"
	}
	g, err := ground.ParseGroup(text)
	if err != nil {
		return "", ""
	}
	return string(g), ""
}

// wordOf finds the word that text writes, "" for none. Case, spaces, hyphens and
// underscores do not count: "very stiff" and very_stiff are one word, 8 kg and
// 8kg another.
func (f *Field) wordOf(text string) string {
	for _, w := range f.Vocabulary.Words {
		if plain(text) == plain(w.Label) || plain(text) == plain(w.Name) {
			return w.GoValue()
		}
	}
	return ""
}

func plain(text string) string {
	return strings.NewReplacer(" ", "", "-", "", "_", "").Replace(strings.ToLower(text))
}
