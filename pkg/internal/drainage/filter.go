package drainage

import (
	"fmt"
	"math"

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
		},
	}
}

// criterion is one limit on D(filter)/D(protected), both sizes by percent passing.
type criterion struct {
	filter, protected float64
	bound             string // how the ratio must stand to the limit
	limit             float64
}

// criteria are the limits of each set, as published; see the constants for how
// each is known.
var criteria = map[CriteriaSet][]criterion{
	PavementDrainage:         {{15, 85, "<=", 5}, {50, 50, "<=", 25}},
	PavementDrainageWithFlow: {{15, 85, "<=", 5}, {50, 50, "<=", 25}, {15, 15, ">=", 5}},
	RiprapFilter:             {{15, 85, "<", 5}, {15, 15, ">", 5}, {15, 15, "<", 40}, {50, 50, "<", 40}},
	OpenGraded:               {{15, 85, "<", 5}, {50, 50, "<", 25}},
}

func (c criterion) holds(ratio float64) bool {
	switch c.bound {
	case "<":
		return ratio < c.limit
	case "<=":
		return ratio <= c.limit
	case ">=":
		return ratio >= c.limit
	}
	return ratio > c.limit
}

// ratio returns D(filter)/D(protected) on two edges.
func (c criterion) ratio(filter, protected Gradation, filterEdge, protectedEdge Edge) (float64, error) {
	unknown := func(side string, err error) error {
		return fmt.Errorf("D%gF/D%gB of the filter criteria, %s: %w", c.filter, c.protected, side, err)
	}
	f, err := filter.sizeAt(filterEdge, c.filter)
	if err != nil {
		return 0, unknown("filter", err)
	}
	p, err := protected.sizeAt(protectedEdge, c.protected)
	if err != nil {
		return 0, unknown("protected course", err)
	}
	// Rounded to 1e-9, so that a ratio that stands at its limit is not pushed
	// over it by the arithmetic: 3.5 mm over 0.7 mm is 5.
	const perOne = 1e9
	return math.Round(float64(f)/float64(p)*perOne) / perOne, nil
}

// RetentionRatio returns D15F/D85B on the mids: small enough, and the grains of
// the protected course cannot pass into the filter.
func RetentionRatio(filter, protected Gradation) (float64, error) {
	return criterion{filter: 15, protected: 85}.ratio(filter, protected, Mid, Mid)
}

// ParallelRatio returns D50F/D50B on the mids: small enough, and the two curves
// run roughly side by side.
func ParallelRatio(filter, protected Gradation) (float64, error) {
	return criterion{filter: 50, protected: 50}.ratio(filter, protected, Mid, Mid)
}

// PermeabilityRatio returns D15F/D15B on the mids: large enough, and water passes
// freely into the filter.
func PermeabilityRatio(filter, protected Gradation) (float64, error) {
	return criterion{filter: 15, protected: 15}.ratio(filter, protected, Mid, Mid)
}

// FilterHolds reports whether every criterion of the set holds on the mids of the
// two gradations. filter is the coarser course, protected the finer one or the
// soil. A size that a criterion needs and that cannot be told makes the whole an
// error that wraps [ErrCannotTell].
func FilterHolds(set CriteriaSet, filter, protected Gradation) (bool, error) {
	return set.hold(filter, protected, false)
}

// FilterHoldsWorst reports whether every criterion holds on the edges that stand
// worst to it: for a ratio that must stay down, the filter's coarse edge over
// the protected course's fine edge; for one that must stay up, the filter's fine
// edge over the protected course's coarse edge. What holds here holds for every
// pair of curves in the two envelopes.
func FilterHoldsWorst(set CriteriaSet, filter, protected Gradation) (bool, error) {
	return set.hold(filter, protected, true)
}

func (s CriteriaSet) hold(filter, protected Gradation, worst bool) (bool, error) {
	if err := calculation.CheckWord("set of filter criteria", s); err != nil {
		return false, err
	}
	all := true
	for _, c := range criteria[s] {
		f, p := Mid, Mid
		switch {
		case worst && c.bound[0] == '<': // the ratio must stay down
			f, p = Coarse, Fine
		case worst:
			f, p = Fine, Coarse
		}
		ratio, err := c.ratio(filter, protected, f, p)
		if err != nil {
			return false, err
		}
		all = all && c.holds(ratio)
	}
	return all, nil
}

func filterCalculations() []calculation.Function {
	const beyond = "refuses a size beyond the tabulated sieves"
	pair := []calculation.Param{param("filter", "the coarser course"), param("protected", "the finer course, or the soil")}
	of := []calculation.Param{param("criteria", "the set of filter criteria"), pair[0], pair[1]}
	ratio := func(name, about string, f func(filter, protected Gradation) (float64, error)) calculation.Function {
		return calculation.Function{
			Name: name, About: about, Params: pair, Result: param("ratio", "a plain ratio"), Range: beyond,
			Sources: []value.Source{sourceHoronjeff, sourceLogLinear},
			Example: name + "(" + exampleNo57 + ", " + exampleSand + ")", Go: f,
		}
	}
	verdict := func(name, about string, f func(CriteriaSet, Gradation, Gradation) (bool, error)) calculation.Function {
		return calculation.Function{
			Name: name, About: about, Params: of, Result: param("holds", "true or false"), Range: beyond,
			Sources: []value.Source{sourceHoronjeff, sourceRiprap, sourceOpenGraded},
			Example: name + "(pavement_drainage, " + exampleNo57 + ", " + exampleSand + ")", Go: f,
		}
	}
	return []calculation.Function{
		ratio("retention_ratio", "D15 of the filter over D85 of what it protects, on the mids.", RetentionRatio),
		ratio("parallel_ratio", "D50 of the filter over D50 of what it protects, on the mids.", ParallelRatio),
		ratio("permeability_ratio", "D15 of the filter over D15 of what it protects, on the mids.", PermeabilityRatio),
		verdict("filter_holds", "Whether every criterion of a set holds on the mids of two touching courses.", FilterHolds),
		verdict("filter_holds_worst", "Whether every criterion of a set holds on the worst edges of two touching courses.", FilterHoldsWorst),
	}
}
