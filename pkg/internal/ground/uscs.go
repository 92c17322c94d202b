package ground

import (
	"cmp"
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// Sample is what is known of a soil sample, of the part finer than 75 mm (3 in).
// P4 and P200 must be given. Of the rest, a zero is "not known".
type Sample struct {
	// P4 and P200 are the percentages by mass passing the No. 4 (4.75 mm) and
	// No. 200 (0.075 mm) sieves.
	P4, P200 float64
	// Cu and Cc are the coefficients of uniformity and curvature. If not given
	// they are worked out from the sizes.
	Cu, Cc float64
	// D10, D30 and D60 are the sizes than which that percentage is finer.
	D10, D30, D60 quantity.Length
	// LL and PL are the liquid and plastic limits in percent. A plastic limit at
	// or over the liquid limit is a nonplastic soil.
	LL, PL float64
	// Nonplastic says that no thread could be rolled; the limits may then be
	// missing.
	Nonplastic bool
	// LLOvenDried is the liquid limit after oven drying, for organic soils.
	LLOvenDried float64
	// Fines is what the fines of a coarse soil are by eye. Limits, if known,
	// count before it.
	Fines Fines
	// Peat declares a soil that is mainly organic, dark and smelling of it;
	// D2487 leaves that to the eye.
	Peat bool
	// Cobbles and Boulders say that there was material over 75 mm (3 in) and
	// 300 mm (12 in); they are added to the name only.
	Cobbles, Boulders bool
}

// Classification is the answer of the unified classification.
type Classification struct {
	Group Group
	// Name is the group name with what the sieve adds, "sandy lean clay".
	Name string
	// Suspect is not nil if the limits plot above the U-line. D2487 gives such a
	// sample a class all the same and asks for the tests to be verified.
	Suspect *SuspectError
}

// Limits of the fines content, ASTM D2487 (over 12 % seen in the 1998 edition,
// the others from memory), in whole percent.
const (
	fineGrainedFrom = 50
	dualFrom        = 5
	dualTo          = 12
)

// Classify returns the group and the name of a sample to ASTM D2487. Percentages
// and limits are rounded to whole numbers first, a half upwards.
//
// It fails with a [calculation.RangeError] for a value that cannot be, with a
// [MissingError] if what is known leaves more than one group open. Limits above
// the U-line do not fail here: see [Classification.Suspect]. The functions for
// the rule language, which have no second answer, refuse them.
func Classify(s Sample) (Classification, error) {
	if s.Peat {
		return Classification{Group: PT, Name: PT.Name()}, nil
	}
	z, err := s.sieve()
	if err != nil {
		return Classification{}, err
	}
	a, missing, err := s.limits()
	if err != nil {
		return Classification{}, err
	}
	if z.fines >= fineGrainedFrom {
		if missing != nil {
			return Classification{}, &MissingError{What: missing,
				Because: fmt.Sprintf("%d %% passes the No. 200 sieve", z.fines), Document: d2487}
		}
		return classifyFine(z, a, s), nil
	}
	return classifyCoarse(z, a, missing, s)
}

// readSlip is how far, as a share, two readings of one curve may differ by the
// arithmetic of interpolation alone.
const readSlip = 1e-9

// sieve is the whole percentages of gravel, sand and fines.
type sieve struct{ gravel, sand, fines int }

func (s Sample) sieve() (sieve, error) {
	if err := cmp.Or(aPercentage.Named("p4").Check(s.P4), aPercentage.Named("p200").Check(s.P200)); err != nil {
		return sieve{}, err
	}
	if s.P200 > s.P4*(1+readSlip) {
		return sieve{}, calculation.OutOfRange("p200", s.P200, "%",
			fmt.Sprintf("at most the %g %% that passes the No. 4 sieve", s.P4), d2487)
	}
	if err := s.sizesAgree(); err != nil {
		return sieve{}, err
	}
	p4, p200 := wholeNumber(s.P4), wholeNumber(s.P200)
	return sieve{gravel: 100 - p4, sand: p4 - p200, fines: p200}, nil
}

func classifyFine(z sieve, a atterberg, s Sample) Classification {
	group := a.symbol()
	base := group.Name()
	if a.organic {
		group, base = OL, "organic silt"
		if a.ll >= highPlasticityLL {
			group = OH
		}
		if onOrAboveALine(a.ll, a.pi) {
			base = "organic clay"
		}
	}
	return Classification{Group: group, Name: fineName(base, z, s), Suspect: a.suspect()}
}

func classifyCoarse(z sieve, a atterberg, missing []string, s Sample) (Classification, error) {
	gravel := z.gravel > z.sand
	var need []string
	var kind Fines
	var c Classification
	if z.fines >= dualFrom {
		switch {
		case missing == nil:
			kind, c.Suspect = a.fines(), a.suspect()
		case s.Fines != "":
			if err := calculation.CheckWord("fines", s.Fines); err != nil {
				return Classification{}, err
			}
			kind = s.Fines
		default:
			need = append(need, missing...)
		}
	}
	var graded grading
	if z.fines <= dualTo {
		cu, cc, err := s.coefficients()
		if err != nil {
			return Classification{}, err
		}
		var what []string
		graded, what = grade(gravel, cu, cc)
		need = append(need, what...)
	}
	if need != nil {
		return Classification{}, &MissingError{What: need,
			Because: fmt.Sprintf("a coarse soil with %d %% fines turns on it", z.fines), Document: d2487}
	}
	c.Group = coarseGroup(gravel, graded, kind)
	c.Name = coarseName(c.Group, z, kind, missing == nil && a.organic && z.fines >= dualFrom, s)
	return c, nil
}

// coarseGroup puts the symbol together. Silty, clayey fines of 5 to 12 % make
// the clayey dual symbol; over 12 % they make GC-GM or SC-SM.
func coarseGroup(gravel bool, graded grading, kind Fines) Group {
	letter := "S"
	if gravel {
		letter = "G"
	}
	var head, tail string
	switch graded {
	case wellGraded:
		head = letter + "W"
	case poorlyGraded:
		head = letter + "P"
	}
	switch kind {
	case SiltyFines:
		tail = letter + "M"
	case ClayeyFines:
		tail = letter + "C"
	case SiltyClayeyFines:
		tail = letter + "C"
		if head == "" {
			head, tail = tail, letter+"M"
		}
	}
	if head == "" || tail == "" {
		return Group(head + tail)
	}
	return Group(head + "-" + tail)
}
