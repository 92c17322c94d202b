package geosynthetic

import "example.com/groundrule/pkg/value"

// Support is what lies between the stone of a platform and the soft ground.
type Support string

// The kinds of support.
const (
	NoSupport     Support = "none"
	FabricSupport Support = "fabric"
	GridSupport   Support = "grid"
)

// Vocabulary lists the kinds of support.
func (Support) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "platform_support",
		About: "What lies between the stone of a platform and the soft ground.",
		Words: []value.WordEntry{
			{Name: "no_support", Label: string(NoSupport), About: "Stone directly on the ground."},
			{Name: "fabric_support", Label: string(FabricSupport), About: "A geotextile under the stone."},
			{Name: "grid_support", Label: string(GridSupport), About: "A geogrid under the stone, with a separator where the stone does not hold the ground back by itself."},
		},
	}
}

// PlatformConstants names a set of constants of the platform equation.
type PlatformConstants string

// The sets of constants. They give different thicknesses, so a design must say
// which it used.
const (
	// PublishedConstants are those of the published design equation.
	PublishedConstants PlatformConstants = "published constants"
	// LaboratoryConstants were recovered by computation from an anonymous worked
	// sheet and read in no publication; they are believed to be those of a plate-load
	// fit before its correction to field wheels. They give the thicker platform.
	LaboratoryConstants PlatformConstants = "laboratory constants"
)

// Vocabulary lists the sets of constants.
func (PlatformConstants) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "platform_constants",
		About: "The constants of the platform equation.",
		Words: []value.WordEntry{
			{Name: "published_constants", Label: string(PublishedConstants), About: "Those of the published design equation."},
			{Name: "laboratory_constants", Label: string(LaboratoryConstants), About: "Those of the laboratory fit, larger by one factor of 1.45; recovered by computation. The thicker answer."},
		},
	}
}

// platformFit holds the three fitted constants of the platform equation:
// (a + (b - c*J^2) * (r/h)^1.5 * log10 N).
type platformFit struct{ a, b, c float64 }

var platformFits = map[PlatformConstants]platformFit{
	// Giroud & Han (2004) design equation; relayed by lecture slides of the
	// second author.
	PublishedConstants: {a: 0.868, b: 0.661, c: 1.006},
	// Computed: all three stand to the published ones as 1 to 0.689.
	LaboratoryConstants: {a: 1.26, b: 0.96, c: 1.46},
}
