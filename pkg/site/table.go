package site

import (
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/internal/jobnode"
)

// rows are every field of a job file, in the order in which it is written. Reading,
// checking, writing, the values that rules read, the schema, the survey, the
// making of jobs and the documentation all follow them. What the Go type tells -
// the form, the dimension, the words of a formula - is not repeated here; words
// names the vocabulary of a rulebook.
var rows = []*Field{
	{key: "job", at: of(func(s *Site) any { return &s.Job }), Example: "Maple Court patio", Label: "Job", About: "name of the job"},
	{key: "client", at: of(func(s *Site) any { return &s.Client }), Example: "R. Ellery", Label: "Client", About: "for whom it is built"},
	{key: "place", at: of(func(s *Site) any { return &s.Place }), Rules: true, Example: "14 Maple Court", Label: "Place", About: "where it is built"},
	{key: "region", at: of(func(s *Site) any { return &s.Region }), Rules: true, Example: "Lower County", Label: "Region", About: "branch, county or zone that it lies in, as the company calls it"},
	{key: "date", at: of(func(s *Site) any { return &s.Date }), Day: true, Example: "2026-04-20", Label: "Date", About: "day of the job"},
	{key: "area", at: of(func(s *Site) any { return &s.Area }), Required: true, Rules: true, Range: above0(10e6, "sq ft"), Example: "400 sq ft",
		Label: "Area", About: "area to be paved", keys: []string{"size", "square_feet", "sq_ft"}},
	{key: "perimeter", at: of(func(s *Site) any { return &s.Perimeter }), Rules: true, Range: above0(100e3, "ft"), Example: "82 ft",
		Label: "Perimeter", About: "perimeter of that area"},
	{key: "use", at: of(func(s *Site) any { return &s.Use }), Required: true, words: "load_case", Rules: true, Example: "foot",
		Label: "Use", About: "load case: what the paving will carry", keys: []string{"load_case", "load"}},
	{key: "base", at: of(func(s *Site) any { return &s.Base }), Required: true, words: "base_type", Rules: true, Example: "dense",
		Label: "Base", About: "kind of base wanted", keys: []string{"base_type", "stone"}},
	{key: "traffic", Label: "Traffic", About: "what is known of wheels", kids: trafficFields},
	{key: "soil", Label: "Soil", About: "what is known of the ground under the section", kids: soilFields, keys: []string{"ground", "subgrade"}},
	{key: "water", Label: "Water", About: "what is known of water in the ground", kids: waterFields},
	{key: "frost", Label: "Frost", About: "what is known of the winters", kids: frostFields, keys: []string{"winter", "climate"}},
	{key: "rain", Label: "Rain", About: "what is known, and wanted, of rainwater", kids: rainFields},
	{key: "surface_slope", at: of(func(s *Site) any { return &s.SurfaceSlope }), Rules: true, slope: true, Range: upTo(50, "%"), Example: "2 %",
		Label: "Slope of the surface", About: "fall of the finished surface", keys: []string{"slope", "fall", "pitch", "grade"}},
	{key: "ground_falls", at: of(func(s *Site) any { return &s.GroundFalls }), words: "ground_fall", Rules: true, Example: "toward_house",
		Label: "The ground falls", About: "fall of the ground around the paving", keys: []string{"drains", "drainage", "fall_direction"}},
	{key: "paver", Label: "Pavers", About: "what is wished of the pavers", keys: []string{"pavers"}, kids: []*Field{
		{key: "thickness", at: of(func(s *Site) any { return &s.Paver.Thickness }), Rules: true, Range: between(0.375, 6, "in"), Example: "60 mm",
			Label: "Paver thickness", About: "thickness of the pavers wanted"},
		{key: "herringbone", at: of(func(s *Site) any { return &s.Paver.Herringbone }), Rules: true,
			Label: "Herringbone", About: "whether the pavers are to be laid in herringbone"},
	}},
	{key: "joints", at: of(func(s *Site) any { return &s.Joints }), words: "joint_kind", Rules: true, Example: "open",
		Label: "Joints", About: "filling of the joints between the pavers", keys: []string{"joint"}},
	{key: "compactor", at: of(func(s *Site) any { return &s.Compactor }), words: "compactor_type", Rules: true, Example: "plate_compactor",
		Label: "Compactor", About: "compactor at hand"},
	{key: "built_in", at: of(func(s *Site) any { return &s.BuiltIn }), words: "measure", Rules: true, Example: "inches",
		Label: "Built in", About: "measure in which the crew builds: thicknesses come out in whole parts of it", keys: []string{"units"}},
	{key: "nearby", Label: "Nearby", About: "what stands near and calls for caution", kids: []*Field{
		{key: "utilities", at: of(func(s *Site) any { return &s.Nearby.Utilities }), Rules: true,
			Label: "Buried lines", About: "whether buried lines are known or suspected there"},
		{key: "well_distance", at: of(func(s *Site) any { return &s.Nearby.WellDistance }), Rules: true, Range: upTo(100e3, "ft"), Example: "120 ft",
			Label: "Distance to a well", About: "distance to the nearest drinking-water well"},
		{key: "foundation_distance", at: of(func(s *Site) any { return &s.Nearby.FoundationDistance }), Rules: true, Range: upTo(100e3, "ft"), Example: "8 ft",
			Label: "Distance to a foundation", About: "distance to the nearest building foundation"},
	}},
	{key: "overrides", at: of(func(s *Site) any { return &s.Overrides }), Item: "an override",
		Label: "Overrides", About: "decisions taken by a person in place of the rules", kids: []*Field{
			{key: "decision", at: of(func(o *Override) any { return &o.Decision }), Required: true, Example: "stone_depth",
				Label: "Decision", About: "decision that is taken, by its name in the rulebook"},
			{key: "answer", at: of(func(o *Override) any { return &o.Answer }), Required: true, Example: "inches(8)",
				Label: "Answer", About: "answer, in the rule language"},
			{key: "by", at: of(func(o *Override) any { return &o.By }), Required: true, Example: "J. Orr", Label: "By", About: "who takes it"},
			{key: "because", at: of(func(o *Override) any { return &o.Because }), Required: true, Example: "the last job settled", Label: "Because", About: "why"},
		}},
	{key: jobnode.Company, at: of(func(s *Site) any { return &s.Company }), Item: "an answer",
		Label: "Company", About: "answers to the questions of the company"},
	{key: "note", at: of(func(s *Site) any { return &s.Note }), Example: "Gate is 36 in wide.", Label: "Note", About: "anything else, for people to read"},
}

var trafficFields = []*Field{
	{key: "trucks_per_day", at: of(func(s *Site) any { return &s.Traffic.TrucksPerDay }), Rules: true, Range: upTo(10e3, ""), Example: "2",
		Label: "Trucks a day", About: "number of vehicles of six tires or more, each day; or trucks_over_life"},
	{key: "trucks_over_life", at: of(func(s *Site) any { return &s.Traffic.TrucksOverLife }), Rules: true, Range: upTo(100e6, ""), Example: "500",
		Label: "Trucks in all", About: "number of vehicles of six tires or more, over the whole life; or trucks_per_day",
		Contradictions: []Contradiction{{With: "traffic.trucks_per_day", Because: "counts the trucks a second time"}}},
	{key: "esal_per_day", at: of(func(s *Site) any { return &s.Traffic.ESALPerDay }), Rules: true, Range: upTo(100e3, ""), Example: "1.5",
		Label: "ESALs a day", About: "number of equivalent 18,000-lb single axles (ESAL), each day; or esal_over_life"},
	{key: "esal_over_life", at: of(func(s *Site) any { return &s.Traffic.ESALOverLife }), Rules: true, Range: upTo(1e9, ""), Example: "10,000",
		Label: "ESALs in all", About: "number of equivalent 18,000-lb single axles (ESAL), over the whole life; or esal_per_day",
		Contradictions: []Contradiction{{With: "traffic.esal_per_day", Because: "counts the axles a second time"}}},
	{key: "life", at: of(func(s *Site) any { return &s.Traffic.Life }), Rules: true, Range: between(1, 100, "years"), Example: "20 years",
		Label: "Life", About: "how long the pavement is to last"},
	{key: "wheel_load", at: of(func(s *Site) any { return &s.Traffic.WheelLoad }), Rules: true, Range: between(50, 200e3, "lbf"), Example: "9,000 lbf",
		Label: "Wheel load", About: "load on the heaviest single wheel"},
	{key: "tire_pressure", at: of(func(s *Site) any { return &s.Traffic.TirePressure }), Rules: true, Range: between(5, 500, "psi"), Example: "80 psi",
		Label: "Tire pressure", About: "tire pressure of that wheel"},
}

var soilFields = []*Field{
	{key: "word", at: of(func(s *Site) any { return &s.Soil.Word }), words: "soil_word", Rules: true, Example: "clay",
		Label: "Soil, in a word", About: "the ground in a plain word, by eye and feel", keys: []string{"type", "kind"}},
	{key: "consistency", at: of(func(s *Site) any { return &s.Soil.Consistency }), Rules: true, Example: "stiff",
		Label: "Hand test", About: "firmness of a clay or silt, by the hand test"},
	{key: "uscs", at: of(func(s *Site) any { return &s.Soil.Group }), Rules: true, Example: "CL", read: readGroup,
		Label: "USCS symbol", About: "USCS symbol of a laboratory or a field report", keys: []string{"group", "symbol"}},
	{key: "cbr", at: of(func(s *Site) any { return &s.Soil.CBR }), Rules: true, Range: cbrRange, Example: "4.5",
		Label: "CBR", About: "CBR readings, each in percent"},
	{key: "dcp", Label: "Cone penetrometer", About: "a sounding with the dynamic cone penetrometer", kids: []*Field{
		{key: "hammer", at: of(func(s *Site) any { return &s.Soil.DCP.Hammer }), Rules: true, Example: "8 kg",
			Label: "Hammer", About: "sliding hammer that was used"},
		{key: "readings", at: of(func(s *Site) any { return &s.Soil.DCP.Readings }), Item: "a set of blows",
			Label: "Blows", About: "sets of blows, downwards; or mm_per_blow", kids: []*Field{
				{key: "blows", at: of(func(b *Blows) any { return &b.Count }), Required: true, Whole: true, Range: countable, Example: "5",
					Label: "Blows", About: "how many blows"},
				{key: "penetration", at: of(func(b *Blows) any { return &b.Penetration }), Required: true, Range: above0(40, "in"), Example: "55 mm",
					Label: "Penetration", About: "how far this set of blows drove the cone, not the depth from the surface"},
			}},
		{key: "mm_per_blow", at: of(func(s *Site) any { return &s.Soil.DCP.MMPerBlow }), Range: above0(1000, ""), Example: "12",
			Label: "Penetration of each blow", About: "penetration of each blow in mm, as read, not corrected for the hammer; or readings",
			Contradictions: []Contradiction{{With: "soil.dcp.readings", Because: "gives the sounding a second time"}}},
	}},
	{key: "undrained_strength", at: of(func(s *Site) any { return &s.Soil.UndrainedStrength }), Rules: true, Range: upTo(700, "psi"), Example: "50 kPa",
		Label: "Undrained strength", About: "undrained shear strength"},
	{key: "pocket_penetrometer", at: of(func(s *Site) any { return &s.Soil.PocketPenetrometer }), Rules: true, Range: upTo(700, "psi"), Example: "2000 psf",
		Label: "Pocket penetrometer", About: "reading of the pocket penetrometer: unconfined compressive strength, twice the undrained strength"},
	{key: "sieves", at: of(func(s *Site) any { return &s.Soil.Sieves }), Item: "a sieve with the percent that passes it",
		Label: "Sieve curve", About: "the sieve curve, in any order", kids: []*Field{
			{key: "sieve", at: of(func(p *Sieve) any { return &p.Opening }), Required: true, sieve: true, Range: above0(40, "in"), Example: "No. 200",
				Label: "Sieve", About: "the sieve"},
			{key: "passing", at: of(func(p *Sieve) any { return &p.Passing }), Required: true, zero: true, Range: percentage, Example: "62",
				Label: "Percent passing", About: "percent by mass that passes it"},
		}},
	{key: "passing_0_02_mm", at: of(func(s *Site) any { return &s.Soil.Passing002 }), Range: percentage, Example: "12",
		Label: "Finer than 0.02 mm", About: "percent by mass finer than 0.02 mm, from a hydrometer test"},
	{key: "liquid_limit", at: of(func(s *Site) any { return &s.Soil.LiquidLimit }), Rules: true, Range: limitRange, Example: "34",
		Label: "Liquid limit", About: "liquid limit, in percent", NotBelow: "soil.plastic_limit"},
	{key: "plastic_limit", at: of(func(s *Site) any { return &s.Soil.PlasticLimit }), Rules: true, Range: limitRange, Example: "18",
		Label: "Plastic limit", About: "plastic limit, in percent"},
	{key: "nonplastic", at: of(func(s *Site) any { return &s.Soil.Nonplastic }), Rules: true,
		Label: "Nonplastic", About: "whether the soil has no plastic limit (NP)", Contradictions: []Contradiction{
			{Is: "yes", With: "soil.liquid_limit", Because: "cannot be yes beside a liquid limit"},
			{Is: "yes", With: "soil.plastic_limit", Because: "cannot be yes beside a plastic limit"},
		}},
	{key: "liquid_limit_oven_dried", at: of(func(s *Site) any { return &s.Soil.LiquidLimitOvenDried }), Rules: true, Range: limitRange, Example: "24",
		Label: "Liquid limit, oven dried", About: "liquid limit after oven drying, in percent"},
	{key: "organic", at: of(func(s *Site) any { return &s.Soil.Organic }), Rules: true,
		Label: "Organic soil", About: "whether organic soil was found", Contradictions: []Contradiction{
			{Is: "no", With: "soil.uscs", Words: []string{string(ground.OL), string(ground.OH), string(ground.PT)}, Because: "cannot be no in an organic group"},
		}},
	{key: "uncontrolled_fill", at: of(func(s *Site) any { return &s.Soil.UncontrolledFill }), Rules: true,
		Label: "Uncontrolled fill", About: "whether fill was found that nobody vouches for"},
	{key: "expansive", at: of(func(s *Site) any { return &s.Soil.Expansive }), Rules: true,
		Label: "Expansive soil", About: "whether the soil is known to swell, by test or by history"},
	{key: "contaminated", at: of(func(s *Site) any { return &s.Soil.Contaminated }), Rules: true,
		Label: "Contaminated ground", About: "whether there are signs of contamination: a smell of fuel, debris or staining"},
	{key: "soft_spots", at: of(func(s *Site) any { return &s.Soil.SoftSpots }), words: "soft_spot_plan", Rules: true, Example: "dig_out",
		Label: "Soft spots", About: "plan for a reading far below the others"},
	{key: "fill_removed", at: of(func(s *Site) any { return &s.Soil.FillRemoved }), Rules: true,
		Label: "Fill removed", About: "whether all fill is dug out down to native soil, and the dig refilled with compacted base stone"},
}

var waterFields = []*Field{
	{key: "groundwater", at: of(func(s *Site) any { return &s.Water.GroundwaterDepth }), Rules: true, Range: upTo(5000, "ft"), Example: "5 ft",
		Label: "Depth to groundwater", About: "depth from the finished surface to the highest groundwater of the year", keys: []string{"water_table", "groundwater_depth"}},
	{key: "wet_ground", at: of(func(s *Site) any { return &s.Water.WetGround }), Rules: true,
		Label: "Wet ground", About: "whether the ground stays wet or was found wet", keys: []string{"wet"}},
}

var frostFields = []*Field{
	{key: "freezing_index", at: of(func(s *Site) any { return &s.Frost.FreezingIndex }), Rules: true, Range: upTo(20e3, "F-days"), Example: "900 F-days",
		Label: "Freezing index", About: "design air freezing index"},
	{key: "depth", at: of(func(s *Site) any { return &s.Frost.Depth }), Rules: true, Range: upTo(30, "ft"), Example: "40 in",
		Label: "Frost depth", About: "depth that frost is taken to reach there", keys: []string{"frost_depth", "frost_line"}},
	{key: "mean_annual_temperature", at: of(func(s *Site) any { return &s.Frost.MeanAnnualTemperature }), Rules: true, Range: meanTemperatureRange, Example: "48 F",
		Label: "Mean annual temperature", About: "mean annual temperature of the air"},
	{key: "freezing_season", at: of(func(s *Site) any { return &s.Frost.FreezingSeason }), Rules: true, Range: upTo(366, "days"), Example: "90 days",
		Label: "Freezing season", About: "length of the freezing season"},
	{key: "frost_free", at: of(func(s *Site) any { return &s.Frost.FrostFree }), Rules: true,
		Label: "Free of frost", About: "whether the ground is known not to freeze", Contradictions: []Contradiction{
			{Is: "yes", With: "frost.freezing_index", AboveZero: true, Because: "cannot be yes beside a freezing index above 0"},
			{Is: "yes", With: "frost.depth", AboveZero: true, Because: "cannot be yes beside a frost depth above 0"},
		}},
}

var rainFields = []*Field{
	{key: "storage", at: of(func(s *Site) any { return &s.Rain.StorageWanted }), Rules: true,
		Label: "Storage of rain", About: "whether the base is to hold rain and let it soak away"},
	{key: "infiltrate", at: of(func(s *Site) any { return &s.Rain.Infiltrate }), Rules: true,
		Label: "Rain may soak in", About: "whether rain may soak into the ground under the base; if not, a liner keeps it out"},
	{key: "depth", at: of(func(s *Site) any { return &s.Rain.Depth }), Rules: true, Range: upTo(100, "in"), Example: "2 in",
		Label: "Depth of rain", About: "depth of the rain to be held"},
	{key: "run_on_area", at: of(func(s *Site) any { return &s.Rain.RunOnArea }), Rules: true, Range: upTo(100e6, "sq ft"), Example: "300 sq ft",
		Label: "Area that drains onto it", About: "area that drains onto the paving, beside the paving itself"},
	{key: "infiltration", at: of(func(s *Site) any { return &s.Rain.InfiltrationRate }), Rules: true, Range: upTo(10e3, "in/h"), Example: "0.5 in/h",
		Label: "Infiltration rate", About: "infiltration rate of the native ground"},
	{key: "drain_within", at: of(func(s *Site) any { return &s.Rain.DrainTimeLimit }), Rules: true, Range: above0(30, "days"), Example: "48 h",
		Label: "Drains within", About: "how soon the held water must be gone"},
}
