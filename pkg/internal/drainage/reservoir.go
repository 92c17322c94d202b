package drainage

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// In every reservoir formula here voids is the porosity of the stone, the share
// of its volume that water can fill. The manuals call 0.40 a "void ratio"; the
// true void ratio of such stone is 0.67, see [VoidRatio]. A depth that comes out
// negative, because the ground takes the water faster than it comes, is given
// as 0: other needs then govern the thickness.

// ReservoirDepth returns the depth of stone that holds a storm until the ground
// has taken it, where the area that runs on is paved and sheds all its rain:
//
//	d = (P R + P - q T) / n
//
// P rain, R area that runs on over area of pavement, q infiltration of the
// ground, T time of filling (about 2 h), n voids. See [ReservoirDepthWithRunoff].
//
// Source: TRCA/CVC LID Guide 2010 sec. 4.7, seen.
func ReservoirDepth(rain quantity.Length, runOn float64, infiltration quantity.Rate, filling quantity.Time, voids float64) (quantity.Length, error) {
	return ReservoirDepthWithRunoff(rain, rain, runOn, infiltration, filling, voids)
}

// ReservoirDepthWithRunoff is [ReservoirDepth] with a depth of runoff Qc from the
// area that runs on that differs from the rain on the pavement:
//
//	d = (Qc R + P - q T) / n
//
// Source: TRCA/CVC LID Guide 2010 sec. 4.7, seen.
func ReservoirDepthWithRunoff(rain, runoff quantity.Length, runOn float64, infiltration quantity.Rate, filling quantity.Time, voids float64) (quantity.Length, error) {
	err := firstError(checkDepth("rain", rain), checkDepth("runoff", runoff), checkRatio("run-on ratio", runOn),
		checkRate("infiltration", infiltration), checkTime("time of filling", filling), checkVoids(voids))
	if err != nil {
		return 0, err
	}
	in := float64(float64(runoff)*runOn) + float64(rain)
	return stoneFor("reservoir depth", in-depthTaken(infiltration, filling), voids)
}

// ReservoirDepthCap returns the deepest reservoir that the ground empties in time:
// d = q t / n.
//
// Source: TRCA/CVC LID Guide 2010 sec. 4.7, seen. An Ontario bioretention page
// multiplies by n where this divides; that form is not used here.
func ReservoirDepthCap(infiltration quantity.Rate, drain quantity.Time, voids float64) (quantity.Length, error) {
	err := firstError(checkRate("infiltration", infiltration), checkTime("time to drain", drain), checkVoids(voids))
	if err != nil {
		return 0, err
	}
	return stoneFor("reservoir depth", depthTaken(infiltration, drain), voids)
}

// mostRunOnOntario is the largest run-on ratio of the later Ontario form.
const mostRunOnOntario = 2

// ReservoirDepthOntario returns the depth of the later Ontario form:
//
//	d = (RVC R + RVC - f' D) / n, with 0 <= R <= 2
//
// RVC is the runoff volume control target as a depth of rain, f' the design
// infiltration, D the duration of the storm.
//
// Source: TRCA/STEP LID Guide, later form, seen.
func ReservoirDepthOntario(target quantity.Length, runOn float64, infiltration quantity.Rate, duration quantity.Time, voids float64) (quantity.Length, error) {
	if !calculation.Finite(runOn) || runOn < 0 || runOn > mostRunOnOntario {
		return 0, calculation.OutOfRange("run-on ratio", runOn, "", "0 to 2", sourceOntarioLater.Document)
	}
	return ReservoirDepthWithRunoff(target, target, runOn, infiltration, duration, voids)
}

// ReservoirFootprintOntario returns the area of pavement that a drained area needs,
// A = D (i - f') Ac / (d n), for a reservoir of depth d under rain of intensity i
// lasting D. It is 0 where the ground takes water as fast as it rains.
//
// Source: TRCA/STEP LID Guide, later form, seen.
func ReservoirFootprintOntario(duration quantity.Time, intensity, infiltration quantity.Rate, drained quantity.Area, depth quantity.Length, voids float64) (quantity.Area, error) {
	err := firstError(checkTime("duration", duration), checkRate("rain intensity", intensity), checkRate("infiltration", infiltration),
		checkArea("drained area", drained), checkDepthAbove("reservoir depth", depth), checkVoids(voids))
	if err != nil {
		return 0, err
	}
	excess := max(float64(intensity)-float64(infiltration), 0) * float64(duration)
	return finite("footprint", quantity.Area(excess*float64(drained)/(float64(depth)*voids)))
}

// depthTaken is the depth of water, in meters, that the ground takes in a time.
func depthTaken(infiltration quantity.Rate, time quantity.Time) float64 {
	return float64(float64(infiltration) * float64(time))
}

// stoneFor returns the depth of stone whose voids hold a depth of water in meters;
// 0 where the depth of water is negative.
func stoneFor(name string, water, voids float64) (quantity.Length, error) {
	return finite(name, quantity.Length(max(water, 0)/voids))
}
