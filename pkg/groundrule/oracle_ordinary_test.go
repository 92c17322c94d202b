package groundrule_test

import "example.com/groundrule/pkg/site"

// ordinaryJobs are those that every contractor builds: refusing them is as wrong
// as building what may not be built.
var ordinaryJobs = []sentence{
	{"ordinary job", "a walk, a patio or a car driveway on firm dry ground is designed", "review A2 and D",
		func(x *look) string {
			return when(!x.built() && usual(x) && x.ground.least >= 3 && x.ground.tested, "%s: %s", x.Status, x.why())
		}},
	{"feet on medium clay", "a patio on medium clay is designed", "review A2; facts 2",
		func(x *look) string {
			medium := x.job.Soil.Consistency == "medium" && x.ground.hand > 2 && len(x.ground.readings) == 0
			return when(!x.built() && usual(x) && medium, "%s: %s", x.Status, x.why())
		}},
	{"untested clay", "a patio or a car driveway on untested clay is designed", "review A2; facts 2, HD 25/94 relayed",
		func(x *look) string {
			return when(!x.built() && usual(x) && !x.ground.tested && (x.job.Soil.Word == "clay" || x.job.Soil.Word == ""), "%s: %s", x.Status, x.why())
		}},
}

// usual reports whether nothing was told that could call for a refusal.
func usual(x *look) bool {
	j := x.job
	s := j.Soil
	plain := len(s.Sieves) == 0 && s.LiquidLimit == nil && s.PlasticLimit == nil && s.LiquidLimitOvenDried == nil && s.Nonplastic == nil && s.Passing002 == nil &&
		s.Organic == nil && s.UncontrolledFill == nil && !yes(s.Contaminated) && !x.ground.swells && !x.ground.fill && !x.ground.organic
	agree := s.Group == "" || s.Word == "" || wordClass[s.Word] == string(s.Group)
	agree = agree && s.Word != "topsoil" && s.Word != "rock" && (s.Consistency == "" || len(x.ground.readings) == 0 && x.ground.fine)
	n := len(x.ground.readings)
	agree = agree && (n == 0 || x.ground.readings[n-1] <= 1.5*x.ground.readings[0] && x.ground.readings[n-1] <= 20) &&
		(len(s.CBR) == 0 || len(x.ground.readings) == len(s.CBR)) && s.UndrainedStrength == nil && s.PocketPenetrometer == nil
	bare := j.Heights == site.Heights{} && j.Existing == site.Existing{} && len(s.Points) == 0 && s.Probe == nil && s.Boot == "" && s.TopsoilDepth == nil && s.FillDepth == nil &&
		s.FirmDepth == nil && s.RefusalDepth == nil && s.SoftSpots == "" && j.Nearby == site.Nearby{}
	dry := j.Water.GroundwaterDepth == nil && !x.ground.wet
	flat := j.SurfaceSlope == nil || slope(j) >= 1.5 && slope(j) <= 4
	traffic := j.Traffic == site.Traffic{}
	sand := j.Joints != "open" // open joints let rain into a base that holds none: see "open joints on an open base"
	frost := j.Frost == site.Frost{} || j.Frost.FreezingIndex == nil && j.Frost.MeanAnnualTemperature == nil && j.Frost.FreezingSeason == nil
	return light(j) && j.Base == "dense" && plain && agree && bare && dry && flat && traffic && sand && frost && j.Paver == site.Paver{} && j.GroundFalls == "" &&
		(j.Compactor == "" || j.Compactor == "plate_compactor") && len(j.Overrides) == 0 && !yes(j.Rain.StorageWanted) && j.Rain == site.Rain{StorageWanted: j.Rain.StorageWanted}
}

// why returns what refused or stopped a job.
func (x *look) why() string {
	out := ""
	for _, r := range x.Refusals {
		out += r.ID + " " + r.Says.US + "\n"
	}
	for _, c := range x.Failed() {
		out += c.ID + " " + c.Says.US + "\n"
	}
	for _, c := range x.Crossed {
		out += c.Limit + " "
	}
	return out
}
