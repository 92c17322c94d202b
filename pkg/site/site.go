// Package site holds what is known of a job: the area, the load case, the base
// wanted, and whatever has been measured or seen of traffic, soil, water, frost
// and rain.
//
// It reads a job file, checks it, and says what is wrong where it stands. It
// decides nothing and presumes nothing: what is not known stays missing, a nil
// pointer or an empty word, never a zero that would pass for a measurement. What
// to presume in its place is for the rulebook to say.
//
// One table, in table.go, declares every field of a job file; [Fields] hands it
// out. Reading, checking, writing, the values that rules read, the schema of a
// job file, the survey and the documentation all follow it. Which words may stand
// in a job - load cases, kinds of base, names of soils - is for a rulebook to say:
// it closes the table, see [Table].
package site

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/quantity"
)

// Site is what is known of one job. Area or Shape, Use and Base are needed; anything
// else may be missing. A job of several areas says of each what is its own, under Areas,
// and [Site.Parts] makes a whole job of each. A Site is changed by none of its
// methods but Set and UnmarshalJSON, so many goroutines may read one.
type Site struct {
	// Job and Client are shown on sheets and decide nothing. Within Areas, Job is the
	// name of the area.
	Job string
	// Part is the name of the area that this job is, if it is one area of a larger job;
	// its edges then join the other areas.
	Part   string
	Client string
	// Place is where it is built, and Region the branch, county or zone that it lies
	// in. Date is the day of the job, such as "2026-04-20".
	Place  string
	Region string
	Date   string
	// Area to be paved, above zero.
	Area quantity.Area
	// Perimeter of that area.
	Perimeter *quantity.Length
	// Shape of that area, of which Area and Perimeter come where it is told, and Edges
	// what its edges meet.
	Shape Shape
	Edges []Edge
	// Use is the load case, such as "foot", and Base the kind of base wanted, such as
	// "dense": words of the rulebook.
	Use, Base string

	Traffic Traffic
	Soil    Subgrade
	Water   Water
	Frost   Frost
	Rain    Rain
	// SurfaceSlope is the fall of the finished surface, as a share of its run.
	SurfaceSlope *quantity.Share
	// GroundFalls is the way in which the ground falls around the paving.
	GroundFalls string
	Paver       Paver
	Nearby      Nearby
	Heights     Heights
	Existing    Existing
	// Joints is what the joints between the pavers are filled with.
	Joints string
	// Compactor is the compactor at hand.
	Compactor string
	// BuiltIn is the measure in which the crew builds.
	BuiltIn string
	Beside  Beside
	// Overrides are decisions taken by a person in place of the rules.
	Overrides []Override
	// Note is anything else, for people to read.
	Note string
	// Areas are the parts of a job of several areas, each with a name and what differs
	// in it from the rest of the job.
	Areas []Site
	// Alternatives are other ways to build the job, each with a name and what differs.
	Alternatives []Site
	// Company has the answers to the questions of a company, by their names, as a
	// job file writes them, such as "6 ft".
	Company map[string]string

	// table closes the words, nil where they are open.
	table *Table
	// nodes holds, for a site read from a file, the node of each path.
	nodes map[string]*document.Node
	// moved puts a place of the file elsewhere, nil for one that is where it says.
	moved func(diagnostic.Place) diagnostic.Place
}

// Heights are heights taken with a level and a tape: how far each point is below
// one level line, zero or more.
type Heights struct {
	// Sill is the lowest door sill or other opening of the house at the paving, and
	// Garage the floor of a garage that the paving meets.
	Sill, Garage *quantity.Length
	// Street is the street or walk that the paving meets, and LowEdge the ground
	// where it ends in soil; not both.
	Street, LowEdge *quantity.Length
	// Run is how far the house and that low end are apart, along the fall.
	Run *quantity.Length
}

// Traffic is what is known of wheels: a count of trucks or of 18,000-lb axles,
// and the heaviest wheel.
type Traffic struct {
	// TrucksPerDay or TrucksOverLife, not both: vehicles of six tires or more.
	TrucksPerDay   *float64
	TrucksOverLife *float64
	// ESALPerDay or ESALOverLife, not both: equivalent 18,000-lb single axles.
	ESALPerDay   *float64
	ESALOverLife *float64
	// Life is how long the pavement is to last.
	Life *quantity.Time
	// WheelLoad is the load on the heaviest single wheel.
	WheelLoad *quantity.Force
	// TirePressure of that wheel.
	TirePressure *quantity.Pressure
}

// Subgrade is what is known of the ground under the section.
type Subgrade struct {
	// Word is what the ground was called by whoever looked at it.
	Word string
	// Consistency is the answer of the hand test, for soil that holds together.
	Consistency Consistency
	// Firmest is its answer where the ground is firmest, if it differs from place to
	// place.
	Firmest Consistency
	// Group is the USCS symbol.
	Group Group
	// CBR holds each reading measured, in percent.
	CBR []float64
	// DCP is a sounding with the dynamic cone penetrometer.
	DCP DCP
	// UndrainedStrength is the undrained shear strength.
	UndrainedStrength *quantity.Pressure
	// PocketPenetrometer is its reading: an unconfined compressive strength,
	// which is twice the undrained shear strength.
	PocketPenetrometer *quantity.Pressure
	// Probe is how deep a rod of 1/2 in goes into the bottom of the dig, pushed by
	// hand, and Boot what a heel leaves there.
	Probe *quantity.Length
	Boot  string
	// Points are places where the ground was tried and found otherwise than above.
	Points []Point
	// TestedIn is the season in which the ground was tried.
	TestedIn string
	// TopsoilDepth and FillDepth are how deep topsoil and fill go, FirmDepth where
	// firm ground begins and RefusalDepth where a rod or an auger stops, each from the
	// ground as it lies.
	TopsoilDepth, FillDepth, FirmDepth, RefusalDepth *quantity.Length
	// Sieves is the sieve curve, in any order.
	Sieves []Sieve
	// Passing002 is the share by mass that is finer than 0.02 mm.
	Passing002 *quantity.Share
	// LiquidLimit and PlasticLimit in percent of water by dry mass.
	LiquidLimit  *float64
	PlasticLimit *float64
	// Nonplastic is true where the limits cannot be measured.
	Nonplastic *bool
	// LiquidLimitOvenDried is the liquid limit after oven drying, in percent.
	LiquidLimitOvenDried *float64
	// Organic reports whether organic soil was found.
	Organic *bool
	// UncontrolledFill reports whether fill was found that nobody vouches for.
	UncontrolledFill *bool
	// Expansive reports whether the soil is known to swell, by test or by history.
	Expansive *bool
	// Contaminated reports whether there are signs of contamination: a smell of
	// fuel, debris or staining.
	Contaminated *bool
	// SoftSpots is what is to be done where one reading is far below the others.
	SoftSpots string
	// FillRemoved reports whether all fill is dug out, down to native soil.
	FillRemoved *bool
}

// DCP is a sounding with the dynamic cone penetrometer: counted sets of blows,
// or the penetration of each blow, not both.
type DCP struct {
	// Hammer is the sliding hammer that was used.
	Hammer Hammer
	// Readings are sets of blows, downwards.
	Readings []Blows
	// MMPerBlow holds penetrations already divided, in mm per blow as read, not
	// corrected for the hammer.
	MMPerBlow []float64
}

// Blows is one set of blows of the penetrometer's hammer.
type Blows struct {
	// Count is how many blows, 1 or more.
	Count int
	// Penetration is how far this set of blows drove the cone: not the depth
	// from the surface.
	Penetration quantity.Length
}

// Sieve is one point of a sieve curve.
type Sieve struct {
	// Opening of the sieve.
	Opening quantity.Length
	// Passing is the share by mass that passes it.
	Passing quantity.Share
}

// Water is what is known of water in the ground.
type Water struct {
	// GroundwaterDepth is from the finished surface to the highest water
	// expected in the year.
	GroundwaterDepth *quantity.Length
	// WetGround reports whether the ground stays wet or was found wet.
	WetGround *bool
}

// Frost is what is known of the winters.
type Frost struct {
	// FreezingIndex is the design air freezing index.
	FreezingIndex *quantity.FreezingIndex
	// Depth that frost is taken to reach there, as a local code gives it.
	Depth *quantity.Length
	// MeanAnnualTemperature of the air.
	MeanAnnualTemperature *quantity.Temperature
	// FreezingSeason is how long the freezing season lasts.
	FreezingSeason *quantity.Time
	// FrostFree is true where the ground is known not to freeze.
	FrostFree *bool
}

// Rain is what is known, and wanted, of rainwater.
type Rain struct {
	// StorageWanted reports whether the base is to hold rain and let it soak away.
	StorageWanted *bool
	// Infiltrate reports whether rain may soak into the ground under the base.
	Infiltrate *bool
	// Depth of the rain to be held.
	Depth *quantity.Length
	// RunOnArea is the area that drains onto the paving, beside the paving.
	RunOnArea *quantity.Area
	// InfiltrationRate of the native ground.
	InfiltrationRate *quantity.Rate
	// DrainTimeLimit is how soon the held water must be gone.
	DrainTimeLimit *quantity.Time
}

// Paver is what is wished of the pavers.
type Paver struct {
	Thickness *quantity.Length
	// Herringbone reports whether they are to be laid in herringbone.
	Herringbone *bool
}

// Nearby is what stands near and calls for caution.
type Nearby struct {
	// Utilities reports whether buried lines are known or suspected there.
	Utilities *bool
	// WellDistance is to the nearest drinking-water well.
	WellDistance *quantity.Length
	// FoundationDistance is to the nearest building foundation.
	FoundationDistance *quantity.Length
	// Downspouts and WindowWells report whether roof water is let out onto the ground
	// here, and whether a window well opens beside the paving.
	Downspouts, WindowWells *bool
	// Roots reports whether roots thicker than an inch are in the dig.
	Roots *bool
	// AccessWidth is that of the narrowest place on the way to the dig.
	AccessWidth *quantity.Length
}

// Existing is what lies there now.
type Existing struct {
	// Surface and Condition are words, such as concrete and cracked.
	Surface, Condition string
	// Keep reports whether it is to stay under the pavers.
	Keep *bool
}

// Override is a decision taken by a person in place of the rules.
type Override struct {
	// Decision names the decision, as the rulebook does.
	Decision string
	// Answer is the answer, written in the rule language.
	Answer string
	// By says who decided, Because says why. All four are needed.
	By      string
	Because string
	// Place is where the override stands in the job file; zero if it came from
	// no file.
	Place diagnostic.Place
}
