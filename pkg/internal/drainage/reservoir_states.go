package drainage

import "example.com/groundrule/pkg/quantity"

// Virginia halves the infiltration of the ground (Spec No. 7, from memory).
const virginiaInfiltrationShare = 0.5

// northCarolinaSafety is the share of the measured infiltration that NCDENR
// Ch. 18 relies on (from memory).
const northCarolinaSafety = 0.2

// ReservoirDepthVirginia returns eq. 7.1 of Virginia DEQ Spec No. 7:
//
//	d = (dc R + P - (i/2) tf) / n
//
// dc is the depth of runoff from the area that runs on, tf the time of filling
// (2 h in the document), i the measured infiltration. Negative is given as 0.
//
// Source: Virginia DEQ Spec No. 7, from memory.
func ReservoirDepthVirginia(runoff quantity.Length, runOn float64, rain quantity.Length, infiltration quantity.Rate, filling quantity.Time, voids float64) (quantity.Length, error) {
	return ReservoirDepthVirginiaUnderdrain(runoff, runOn, rain, infiltration, 0, filling, voids)
}

// ReservoirDepthVirginiaUnderdrain returns eq. 7.3 of Virginia DEQ Spec No. 7, which
// takes off what the underdrain carries away while the reservoir fills:
//
//	d = (dc R + P - (i/2) tf - qu tf) / n
//
// See [UnderdrainOutflowVirginia] for qu. Negative is given as 0.
//
// Source: Virginia DEQ Spec No. 7, from memory.
func ReservoirDepthVirginiaUnderdrain(runoff quantity.Length, runOn float64, rain quantity.Length, infiltration, outflow quantity.Rate, filling quantity.Time, voids float64) (quantity.Length, error) {
	if err := checkRate("underdrain outflow", outflow); err != nil {
		return 0, err
	}
	if err := checkRate("infiltration", infiltration); err != nil {
		return 0, err
	}
	lost := quantity.Rate(float64(infiltration)*virginiaInfiltrationShare) + outflow
	return ReservoirDepthWithRunoff(rain, runoff, runOn, lost, filling, voids)
}

// ReservoirDepthCapVirginia returns eq. 7.2 of Virginia DEQ Spec No. 7,
// d = (i/2) td / n: the deepest reservoir that empties in td (1 to 2 days there).
//
// Source: Virginia DEQ Spec No. 7, from memory.
func ReservoirDepthCapVirginia(infiltration quantity.Rate, drain quantity.Time, voids float64) (quantity.Length, error) {
	if err := checkRate("infiltration", infiltration); err != nil {
		return 0, err
	}
	return ReservoirDepthCap(infiltration*virginiaInfiltrationShare, drain, voids)
}

// UnderdrainOutflowVirginia returns qu = k m, the outflow of an underdrain as a
// depth of water in a time: k the permeability of the stone (100 ft/day for
// small stone in the document), m the slope of the pipe, 0 to 1.
//
// Source: Virginia DEQ Spec No. 7, from memory.
func UnderdrainOutflowVirginia(permeability quantity.Rate, slope float64) (quantity.Rate, error) {
	if err := firstError(checkRate("permeability", permeability), checkSlope(slope)); err != nil {
		return 0, err
	}
	return permeability * quantity.Rate(slope), nil
}

// ReservoirDepthNorthCarolina returns d = P (1 + R) / n of NCDENR Ch. 18, which
// credits no infiltration while the storm lasts.
//
// Source: NCDENR BMP Manual Ch. 18, from memory.
func ReservoirDepthNorthCarolina(rain quantity.Length, runOn, voids float64) (quantity.Length, error) {
	return ReservoirDepth(rain, runOn, 0, 0, voids)
}

// DrawdownNorthCarolina returns T = P (1 + R) / (SF i) of NCDENR Ch. 18 with its
// SF of 0.2: the time in which the ground takes the storm.
//
// Source: NCDENR BMP Manual Ch. 18, from memory.
func DrawdownNorthCarolina(rain quantity.Length, runOn float64, infiltration quantity.Rate) (quantity.Time, error) {
	err := firstError(checkDepth("rain", rain), checkRatio("run-on ratio", runOn), checkRateAbove("infiltration", infiltration))
	if err != nil {
		return 0, err
	}
	water := float64(rain) * (1 + runOn)
	return finite("drawdown time", quantity.Time(water/(northCarolinaSafety*float64(infiltration))))
}

// VolumeCreditMinnesota returns V = (AO + AB)/2 D n: the water that a bed holds
// between its overflow, of area AO, and its bottom, of area AB.
//
// Source: Minnesota Stormwater Manual, credits for permeable pavement, seen.
func VolumeCreditMinnesota(overflow, bottom quantity.Area, depth quantity.Length, voids float64) (quantity.Volume, error) {
	err := firstError(checkArea("area at the overflow", overflow), checkArea("area of the bottom", bottom),
		checkDepth("depth", depth), checkVoids(voids))
	if err != nil {
		return 0, err
	}
	mean := (float64(overflow) + float64(bottom)) / 2
	return quantity.Volume(mean * float64(depth) * voids), nil
}
