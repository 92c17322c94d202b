package drainage

import "example.com/groundrule/pkg/quantity"

// DrainTime returns the time in which ground of a steady infiltration f empties a
// flat-bottomed reservoir: t = n d / f. Infiltration must be more than 0.
//
// Source: water balance, computed.
func DrainTime(depth quantity.Length, voids float64, infiltration quantity.Rate) (quantity.Time, error) {
	err := firstError(checkDepth("reservoir depth", depth), checkVoids(voids), checkRateAbove("infiltration", infiltration))
	if err != nil {
		return 0, err
	}
	return finite("drain time", quantity.Time(float64(depth)*voids/float64(infiltration)))
}

// UnderdrainNeeded reports whether the ground takes water slower than the
// threshold. Manuals differ: below 0.3 in/h in a coastal South Carolina /
// Georgia guide (sec. 4.3, seen), 0.5 in/h in several states (from memory).
func UnderdrainNeeded(infiltration, threshold quantity.Rate) (bool, error) {
	if err := firstError(checkRate("infiltration", infiltration), checkRate("threshold", threshold)); err != nil {
		return false, err
	}
	return infiltration < threshold, nil
}

// UnderdrainNeededToDrain reports whether the ground alone would take longer than
// the longest time allowed to empty the reservoir. Ground that takes no water
// needs an underdrain under any reservoir that has a depth.
//
// Source: FHWA-HIF-19-021, an underdrain where not infiltrated within 48 to 72 h, seen.
func UnderdrainNeededToDrain(depth quantity.Length, voids float64, infiltration quantity.Rate, longest quantity.Time) (bool, error) {
	err := firstError(checkDepth("reservoir depth", depth), checkVoids(voids), checkRate("infiltration", infiltration),
		checkTime("longest time to drain", longest))
	if err != nil {
		return false, err
	}
	return float64(depth)*voids > depthTaken(infiltration, longest), nil
}

// RunoffVolume returns the water that rain on an area brings, all of it shed.
func RunoffVolume(rain quantity.Length, area quantity.Area) (quantity.Volume, error) {
	if err := firstError(checkDepth("rain", rain), checkArea("area", area)); err != nil {
		return 0, err
	}
	return quantity.Volume(float64(rain) * float64(area)), nil
}

// StoneVolume returns the stone whose voids hold a volume of water.
//
// Source: Bucks County code example, seen.
func StoneVolume(water quantity.Volume, voids float64) (quantity.Volume, error) {
	if err := firstError(checkVolume("water", water), checkVoids(voids)); err != nil {
		return 0, err
	}
	return finite("stone volume", quantity.Volume(float64(water)/voids))
}

// TrenchArea returns the bottom area of an infiltration trench that holds a volume
// of water while the ground takes part of it: A = V / (n d + f T), T the time of
// filling, generally 2 h or less.
//
// Source: Center for Watershed Protection / Maryland 1984; variables seen, algebra
// from memory.
func TrenchArea(water quantity.Volume, voids float64, depth quantity.Length, infiltration quantity.Rate, filling quantity.Time) (quantity.Area, error) {
	err := firstError(checkVolume("water", water), checkVoids(voids), checkDepthAbove("trench depth", depth),
		checkRate("infiltration", infiltration), checkTime("time of filling", filling))
	if err != nil {
		return 0, err
	}
	held := float64(float64(depth)*voids) + depthTaken(infiltration, filling)
	return finite("trench area", quantity.Area(float64(water)/held))
}
