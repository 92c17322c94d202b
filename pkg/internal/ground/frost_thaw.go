package ground

import "example.com/groundrule/pkg/calculation"

// soilSupport is the frost-area soil support index, in place of CBR. UFC
// 3-260-02 (30 Jun 2001) Table 3-5, seen.
var soilSupport = map[FrostGroup]float64{S1: 9.0, F1: 9.0, S2: 6.5, F2: 6.5, F3: 3.5, F4: 3.5}

// thawFactor is the modulus in thaw over the normal modulus. UFC 3-260-03 (15
// Apr 2001) Table 7-4, seen.
var thawFactor = map[FrostGroup]float64{
	NFS: 1.00, PFS: 0.90, S1: 0.75, S2: 0.70, F1: 0.60, F2: 0.50, F3: 0.30, F4: 0.30,
}

// FrostSoilSupport returns the frost-area soil support index, used as if it were
// a CBR in percent for the weeks of thaw; it is not a CBR. NFS and PFS have none:
// the first does not weaken in thaw, and a laboratory frost test must first show
// what the second is.
func FrostSoilSupport(g FrostGroup) (float64, error) {
	index, ok := soilSupport[g]
	if !ok {
		return 0, &calculation.WordError{Name: "frost group", Got: string(g), Want: []string{string(S1), string(S2), string(F1), string(F2), string(F3), string(F4)},
			Document: "UFC 3-260-02 Table 3-5; NFS does not weaken in thaw, and PFS needs a laboratory frost test"}
	}
	return index, nil
}

// ThawModulusFactor returns the part of its normal modulus that a soil of the
// group keeps in thaw.
func ThawModulusFactor(g FrostGroup) (float64, error) {
	return onlyIf(thawFactor[g], calculation.CheckWord("frost group", g))
}
