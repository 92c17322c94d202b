package drainage

import (
	"fmt"
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// CriteriaSet names a published set of filter criteria. The sets disagree, and
// none is the right one everywhere: the limit on D50F/D50B is 25 for pavement
// drainage and 40 under riprap.
//
// F is the filter, the coarser course; B is what it protects, the finer course
// or the soil.
type CriteriaSet string

// The sets.
const (
	// PavementDrainage: D15F/D85B <= 5 and D50F/D50B <= 25 (Horonjeff, p. 379, seen).
	// FHWA NHI-05-037 sec. 7.2 asks the same of a separator layer (from memory).
	PavementDrainage CriteriaSet = "pavement drainage"
	// PavementDrainageWithFlow: the same, and D15F/D15B >= 5, where water must
	// pass from the protected course into the filter. Where both are
	// free-draining this is not asked.
	PavementDrainageWithFlow CriteriaSet = "pavement drainage with flow"
	// RiprapFilter: D15F/D85B < 5, 5 < D15F/D15B < 40 and D50F/D50B < 40 (river
	// engineering manual sec. 6.11, seen).
	RiprapFilter CriteriaSet = "riprap filter"
	// OpenGraded: D15F/D85B < 5 and D50F/D50B < 25 between the open-graded
	// courses of a permeable pavement (from memory).
	OpenGraded CriteriaSet = "open-graded layers"
	// OlderChoke: D15F/D50B < 5 and D50F/D50B > 2, the choke rule of the first
	// permeable paver manuals (from memory).
	OlderChoke CriteriaSet = "older choke rule"
	// TerzaghiFilter: D15F/D85B <= 4 and D15F/D15B >= 4 (from memory).
	TerzaghiFilter CriteriaSet = "Terzaghi"
	// NRCSRetention: D15F at most the limit that NEH 633 Table 26-2 sets by the
	// fines of a soil that does not disperse; see [RetentionLimitD15].
	NRCSRetention CriteriaSet = "NRCS retention"
)

// Vocabulary lists the sets.
func (CriteriaSet) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "filter_criteria",
		About: "published sets of filter criteria between a filter (F) and what it protects (B)",
		Words: []value.WordEntry{
			{Name: "pavement_drainage", Label: string(PavementDrainage), About: "D15F/D85B <= 5 and D50F/D50B <= 25"},
			{Name: "pavement_drainage_with_flow", Label: string(PavementDrainageWithFlow), About: "pavement drainage, and D15F/D15B >= 5"},
			{Name: "riprap_filter", Label: string(RiprapFilter), About: "D15F/D85B < 5, 5 < D15F/D15B < 40 and D50F/D50B < 40"},
			{Name: "open_graded_layers", Label: string(OpenGraded), About: "D15F/D85B < 5 and D50F/D50B < 25"},
			{Name: "older_choke_rule", Label: string(OlderChoke), About: "D15F/D50B < 5 and D50F/D50B > 2"},
			{Name: "terzaghi_filter", Label: string(TerzaghiFilter), About: "D15F/D85B <= 4 and D15F/D15B >= 4"},
			{Name: "nrcs_retention", Label: string(NRCSRetention), About: "D15F at most the limit by the fines of the soil"},
		},
	}
}

// Bound tells how a ratio must stand to its limit.
type Bound string

// The bounds.
const (
	Below   Bound = "<"
	AtMost  Bound = "<="
	AtLeast Bound = ">="
	Above   Bound = ">"
)

// holds reports whether ratio stands to limit as b says.
func (b Bound) holds(ratio, limit float64) bool {
	switch b {
	case Below:
		return ratio < limit
	case AtMost:
		return ratio <= limit
	case AtLeast:
		return ratio >= limit
	}
	return ratio > limit
}

// upper reports whether b keeps the ratio down.
func (b Bound) upper() bool { return b == Below || b == AtMost }

// criterion is one limit on D(filter)/D(protected), both sizes by percent passing.
type criterion struct {
	filter, protected float64
	bound             Bound
	limit             float64
	source            value.Source
}

// name writes the ratio as the trade does, such as D15F/D85B.
func (c criterion) name() string { return fmt.Sprintf("D%gF/D%gB", c.filter, c.protected) }

// The limits of each set, as published; see the constants for how each is known.
var criteria = map[CriteriaSet][]criterion{
	PavementDrainage: {
		{15, 85, AtMost, 5, sourceHoronjeff},
		{50, 50, AtMost, 25, sourceHoronjeff},
	},
	PavementDrainageWithFlow: {
		{15, 85, AtMost, 5, sourceHoronjeff},
		{50, 50, AtMost, 25, sourceHoronjeff},
		{15, 15, AtLeast, 5, sourceHoronjeff},
	},
	RiprapFilter: {
		{15, 85, Below, 5, sourceRiprap},
		{15, 15, Above, 5, sourceRiprap},
		{15, 15, Below, 40, sourceRiprap},
		{50, 50, Below, 40, sourceRiprap},
	},
	OpenGraded: {
		{15, 85, Below, 5, sourceOpenGraded},
		{50, 50, Below, 25, sourceOpenGraded},
	},
	OlderChoke: {
		{15, 50, Below, 5, sourceOlderChoke},
		{50, 50, Above, 2, sourceOlderChoke},
	},
	TerzaghiFilter: {
		{15, 85, AtMost, 4, sourceTerzaghi},
		{15, 15, AtLeast, 4, sourceTerzaghi},
	},
	NRCSRetention: nil, // its limit is worked out from the soil, see nrcs.go
}

// check refuses a set that is none of the constants.
func (s CriteriaSet) check() error {
	if _, ok := criteria[s]; ok {
		return nil
	}
	return &calculation.WordError{Name: "set of filter criteria", Got: string(s),
		Want: []string{"one of the words of filter_criteria"}, Document: "this library's list"}
}

// limitOn finds the limit that the set puts on a ratio.
func (s CriteriaSet) limitOn(filter, protected float64, upper bool) (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	i := slices.IndexFunc(criteria[s], func(c criterion) bool {
		return c.filter == filter && c.protected == protected && c.bound.upper() == upper
	})
	if i < 0 {
		return 0, &calculation.WordError{Name: "set of filter criteria", Got: string(s),
			Want:     []string{"a set with a limit on " + criterion{filter: filter, protected: protected}.name()},
			Document: "the set itself"}
	}
	return criteria[s][i].limit, nil
}

// RetentionRatioLimit returns the most that the set allows D15F/D85B to be. A set
// without such a limit is a range error, here and in the two functions below.
func RetentionRatioLimit(set CriteriaSet) (float64, error) { return set.limitOn(15, 85, true) }

// ParallelRatioLimit returns the most that the set allows D50F/D50B to be.
func ParallelRatioLimit(set CriteriaSet) (float64, error) { return set.limitOn(50, 50, true) }

// PermeabilityRatioLimit returns the least that the set asks D15F/D15B to be.
func PermeabilityRatioLimit(set CriteriaSet) (float64, error) { return set.limitOn(15, 15, false) }
