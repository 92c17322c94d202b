package drainage

import (
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// The functions here turn a set of criteria round: from the course that is known
// they give the size that the other must have. All work on the mids. A set that
// puts no such limit is a range error.

// FilterD15Most returns the largest D15 that the set allows a filter over the
// protected course.
func FilterD15Most(set CriteriaSet, protected Gradation) (quantity.Length, error) {
	if set == NRCSRetention {
		return nrcsLimit(protected, false)
	}
	return set.bounding(15, true, true, protected)
}

// FilterD15Least returns the smallest D15 that the set asks of a filter over the
// protected course.
func FilterD15Least(set CriteriaSet, protected Gradation) (quantity.Length, error) {
	return set.bounding(15, true, false, protected)
}

// FilterD50Most returns the largest D50 that the set allows a filter over the
// protected course.
func FilterD50Most(set CriteriaSet, protected Gradation) (quantity.Length, error) {
	return set.bounding(50, true, true, protected)
}

// ProtectedD15Most returns the largest D15 of a course that the set allows beside
// the filter, so that water passes.
func ProtectedD15Most(set CriteriaSet, filter Gradation) (quantity.Length, error) {
	return set.bounding(15, false, true, filter)
}

// ProtectedD15Least returns the smallest D15 of a course that the filter holds.
func ProtectedD15Least(set CriteriaSet, filter Gradation) (quantity.Length, error) {
	return set.bounding(15, false, false, filter)
}

// ProtectedD50Least returns the smallest D50 of a course that the filter holds.
func ProtectedD50Least(set CriteriaSet, filter Gradation) (quantity.Length, error) {
	return set.bounding(50, false, false, filter)
}

// ProtectedD85Least returns the smallest D85 of a course that the filter holds.
func ProtectedD85Least(set CriteriaSet, filter Gradation) (quantity.Length, error) {
	return set.bounding(85, false, false, filter)
}

// bounding works out the tightest limit that the set puts on one size of one
// side (of the filter, or of what it protects), given the other side.
func (s CriteriaSet) bounding(percent float64, ofFilter, most bool, other Gradation) (quantity.Length, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	var tightest quantity.Length
	found := false
	for _, c := range criteria[s] {
		// A ratio kept down bounds the filter from above and what it protects
		// from below.
		wanted, given := c.filter, c.protected
		if !ofFilter {
			wanted, given = given, wanted
		}
		if wanted != percent || (c.bound.upper() == ofFilter) != most {
			continue
		}
		size, err := other.SizeAt(Mid, given)
		if err != nil {
			return 0, fmt.Errorf("%s, %s: %w", s, c.name(), err)
		}
		bound := size * quantity.Length(c.limit)
		if !ofFilter {
			bound = size / quantity.Length(c.limit)
		}
		if !found || (most && bound < tightest) || (!most && bound > tightest) {
			tightest, found = bound, true
		}
	}
	if !found {
		return 0, s.setsNone(percent, ofFilter, most)
	}
	return tightest, nil
}

func (s CriteriaSet) setsNone(percent float64, ofFilter, most bool) error {
	side, end := "filter", "largest"
	if !ofFilter {
		side = "protected course"
	}
	if !most {
		end = "smallest"
	}
	return &calculation.WordError{Name: "set of filter criteria", Got: string(s),
		Want: []string{fmt.Sprintf("a set that limits the %s D%g of the %s", end, percent, side)}, Document: "the set itself"}
}
