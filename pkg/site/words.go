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

// word is a string type whose values are the labels of its vocabulary.
type word interface {
	~string
	value.Worded
}

// groupOf reads a USCS symbol, in the order of ASTM or of the Army.
func groupOf(text string) (ground.Group, string) {
	if strings.Contains(text, "/") {
		return "", "is a borderline soil of two groups; give the weaker"
	}
	g, err := ground.ParseGroup(text)
	if err != nil {
		return "", noWord[ground.Group]()
	}
	return g, ""
}

// wordOf finds the word that text writes. Case, spaces, hyphens and underscores
// do not count: "very stiff" and very_stiff are one word, 8 kg and 8kg another.
// The problem is "" if there is one.
func wordOf[W word](text string) (w W, problem string) {
	var none W
	for _, w := range none.Vocabulary().Words {
		if plain(text) == plain(w.Label) || plain(text) == plain(w.Name) {
			return W(w.GoValue()), ""
		}
	}
	return none, noWord[W]()
}

func noWord[W word]() string {
	var none W
	return "is no word for " + none.Vocabulary().About
}

func plain(text string) string {
	return strings.NewReplacer(" ", "", "-", "", "_", "").Replace(strings.ToLower(text))
}

// isWord reports whether w is, to the letter, a label of its vocabulary.
func isWord[W word](w W) bool {
	for _, each := range w.Vocabulary().Words {
		if string(w) == each.GoValue() {
			return true
		}
	}
	return false
}

func labels[W word]() []string {
	var none W
	var out []string
	for _, w := range none.Vocabulary().Words {
		out = append(out, w.GoValue())
	}
	return out
}
