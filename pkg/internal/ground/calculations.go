package ground

import (
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// Calculations describes every calculation of the package that a rule may call.
func Calculations() []calculation.Function {
	return slices.Concat(
		groupCalculations(),
		uscsCalculations(),
		aashtoCalculations(),
		fieldTestCalculations(),
		cbrCalculations(),
		modulusCalculations(),
		frostGroupCalculations(),
		frostDepthCalculations(),
		frostSectionCalculations(),
		swellCalculations(),
		earthworkCalculations(),
	)
}

// Arguments that many calculations share.
var (
	argGroup  = calculation.Param{Name: "group", About: "soil group, ASTM D2487"}
	argAASHTO = calculation.Param{Name: "group", About: "soil group, AASHTO M 145"}
	argP4     = calculation.Param{Name: "p4", About: "percent by mass passing the No. 4 (4.75 mm) sieve, 0 to 100"}
	argP10    = calculation.Param{Name: "p10", About: "percent by mass passing the No. 10 (2 mm) sieve, 0 to 100"}
	argP40    = calculation.Param{Name: "p40", About: "percent by mass passing the No. 40 (0.425 mm) sieve, 0 to 100"}
	argP200   = calculation.Param{Name: "p200", About: "percent by mass passing the No. 200 (0.075 mm) sieve, 0 to 100"}
	argLL     = calculation.Param{Name: "ll", About: "liquid limit in percent, above 0"}
	argPL     = calculation.Param{Name: "pl", About: "plastic limit in percent, above 0; at or over the liquid limit the soil is nonplastic"}
	argPI     = calculation.Param{Name: "pi", About: "plasticity index in percent, from 0"}
	argCu     = calculation.Param{Name: "cu", About: "coefficient of uniformity, from 1"}
	argCc     = calculation.Param{Name: "cc", About: "coefficient of curvature, above 0"}
	argFines  = calculation.Param{Name: "fines", About: "what the fines are"}
	argD10    = calculation.Param{Name: "d10", About: "size than which 10 % by mass is finer"}
	argD30    = calculation.Param{Name: "d30", About: "size than which 30 % by mass is finer"}
	argD60    = calculation.Param{Name: "d60", About: "size than which 60 % by mass is finer"}
	argCBR    = calculation.Param{Name: "cbr", About: "California bearing ratio in percent"}
	argFrost  = calculation.Param{Name: "frost_group", About: "frost design soil group"}
	argFiner  = calculation.Param{Name: "finer_002", About: "percent by mass finer than 0.02 mm, no more than the group holds"}
	argDry    = calculation.Param{Name: "dry_density", About: "dry density, 50 to 160 pcf"}
	argMoist  = calculation.Param{Name: "moisture", About: "moisture in percent of dry mass, up to what the pores hold"}
	argDepth  = calculation.Param{Name: "frost_depth", About: "frost depth, 0 to 1000 in"}
)

func params(p ...calculation.Param) []calculation.Param { return p }

func result(name, about string) calculation.Param {
	return calculation.Param{Name: name, About: about}
}

func sources(s ...value.Source) []value.Source { return s }
