package drainage

import (
	"errors"
	"fmt"
	"math"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Judgment is what a set of filter criteria says of two touching courses, or of
// a course and the soil.
type Judgment struct {
	// Set that was applied.
	Set CriteriaSet
	// Worst tells that the edges of the envelopes were judged and not the mids.
	Worst bool
	// Tests are the criteria of the set, in its order.
	Tests []Test
	// Holds tells that every test holds.
	Holds bool
}

// Test is one criterion, judged.
type Test struct {
	// Ratio names what is judged, such as "D15F/D85B".
	Ratio string
	// Value and Limit are the ratio as worked out and as published.
	Value, Limit float64
	// Bound tells how the value must stand to the limit.
	Bound Bound
	// Holds is the verdict.
	Holds bool
	// Source of the limit.
	Source value.Source
}

// String returns the test in one line, such as "D15F/D85B 7.19 <= 5: fails".
func (t Test) String() string {
	verdict := "fails"
	if t.Holds {
		verdict = "holds"
	}
	return fmt.Sprintf("%s %.3g %s %g: %s", t.Ratio, t.Value, t.Bound, t.Limit, verdict)
}

// Judge applies a set to the mids of the two gradations. filter is the coarser
// course, protected the finer one or the soil. A size that a criterion needs and
// that cannot be told makes the whole an error that wraps [ErrCannotTell].
func Judge(set CriteriaSet, filter, protected Gradation) (Judgment, error) {
	return judge(set, filter, protected, false)
}

// JudgeWorst applies a set to the edges that stand worst to each criterion: for
// a ratio that must stay down, the filter's coarse edge over the protected
// course's fine edge; for one that must stay up, the filter's fine edge over the
// protected course's coarse edge. A set of ratios that passes here passes for
// every pair of curves in the two envelopes. For [NRCSRetention] the smallest of
// the limits on the soil's two edges and mid is taken.
func JudgeWorst(set CriteriaSet, filter, protected Gradation) (Judgment, error) {
	return judge(set, filter, protected, true)
}

func judge(set CriteriaSet, filter, protected Gradation, worst bool) (Judgment, error) {
	if err := set.check(); err != nil {
		return Judgment{}, err
	}
	j := Judgment{Set: set, Worst: worst, Holds: true}
	if set == NRCSRetention {
		test, err := judgeNRCS(filter, protected, worst)
		if err != nil {
			return Judgment{}, err
		}
		j.Tests, j.Holds = []Test{test}, test.Holds
		return j, nil
	}
	for _, c := range criteria[set] {
		value, err := c.ratio(filter, protected, worst)
		if err != nil {
			return Judgment{}, fmt.Errorf("%s: %w", set, err)
		}
		test := Test{Ratio: c.name(), Value: value, Limit: c.limit, Bound: c.bound,
			Holds: c.bound.holds(value, c.limit), Source: c.source}
		j.Tests = append(j.Tests, test)
		j.Holds = j.Holds && test.Holds
	}
	return j, nil
}

// ratio works out D(filter)/D(protected), on the mids or on the worst edges.
func (c criterion) ratio(filter, protected Gradation, worst bool) (float64, error) {
	filterEdge, protectedEdge := Mid, Mid
	if worst && c.bound.upper() {
		filterEdge, protectedEdge = Coarse, Fine
	} else if worst {
		filterEdge, protectedEdge = Fine, Coarse
	}
	f, err := filter.SizeAt(filterEdge, c.filter)
	if err != nil {
		return 0, fmt.Errorf("%s, filter: %w", c.name(), err)
	}
	b, err := protected.SizeAt(protectedEdge, c.protected)
	if err != nil {
		return 0, fmt.Errorf("%s, protected: %w", c.name(), err)
	}
	return quotient(f, b), nil
}

// quotient divides two sizes and rounds to 1e-9, so that a ratio that stands at
// its limit is not pushed over it by the arithmetic: 3.5 mm over 0.7 mm is 5.
func quotient(f, b quantity.Length) float64 {
	const perOne = 1e9
	x := float64(f) / float64(b)
	return math.Round(x*perOne) / perOne
}

// RetentionRatio returns D15F/D85B on the mids: small enough, and the grains of
// the protected course cannot pass into the filter.
func RetentionRatio(filter, protected Gradation) (float64, error) {
	return criterion{filter: 15, protected: 85, bound: AtMost}.ratio(filter, protected, false)
}

// RetentionRatioWorst returns D15F/D85B of the filter's coarse edge over the
// protected course's fine edge.
func RetentionRatioWorst(filter, protected Gradation) (float64, error) {
	return criterion{filter: 15, protected: 85, bound: AtMost}.ratio(filter, protected, true)
}

// ParallelRatio returns D50F/D50B on the mids: small enough, and the two curves
// run roughly side by side.
func ParallelRatio(filter, protected Gradation) (float64, error) {
	return criterion{filter: 50, protected: 50, bound: AtMost}.ratio(filter, protected, false)
}

// ParallelRatioWorst returns D50F/D50B of the filter's coarse edge over the
// protected course's fine edge.
func ParallelRatioWorst(filter, protected Gradation) (float64, error) {
	return criterion{filter: 50, protected: 50, bound: AtMost}.ratio(filter, protected, true)
}

// PermeabilityRatio returns D15F/D15B on the mids: large enough, and water passes
// freely into the filter.
func PermeabilityRatio(filter, protected Gradation) (float64, error) {
	return criterion{filter: 15, protected: 15, bound: AtLeast}.ratio(filter, protected, false)
}

// PermeabilityRatioWorst returns D15F/D15B at its smallest: the filter's fine edge
// over the protected course's coarse edge.
func PermeabilityRatioWorst(filter, protected Gradation) (float64, error) {
	return criterion{filter: 15, protected: 15, bound: AtLeast}.ratio(filter, protected, true)
}

// FilterHolds reports whether every criterion of the set holds on the mids.
func FilterHolds(set CriteriaSet, filter, protected Gradation) (bool, error) {
	j, err := Judge(set, filter, protected)
	return j.Holds, err
}

// FilterHoldsWorst reports whether every criterion holds on the worst edges.
func FilterHoldsWorst(set CriteriaSet, filter, protected Gradation) (bool, error) {
	j, err := JudgeWorst(set, filter, protected)
	return j.Holds, err
}

// FilterCanBeJudged reports whether both gradations tell every size that the set
// needs, on the mids and on the worst edges. Any other fault stays an error.
func FilterCanBeJudged(set CriteriaSet, filter, protected Gradation) (bool, error) {
	for _, worst := range []bool{false, true} {
		_, err := judge(set, filter, protected, worst)
		switch {
		case errors.Is(err, ErrCannotTell):
			return false, nil
		case err != nil:
			return false, err
		}
	}
	return true, nil
}

// SizeCanBeTold reports whether a gradation tells D(percent) on both edges.
func SizeCanBeTold(g Gradation, percent float64) (bool, error) {
	for _, e := range []Edge{Mid, Coarse, Fine} {
		_, err := g.SizeAt(e, percent)
		switch {
		case errors.Is(err, ErrCannotTell):
			return false, nil
		case err != nil:
			return false, err
		}
	}
	return true, nil
}

// RetentionD15Most returns the largest D15 that a filter may have over a soil of
// which only D85 is known: the set's limit on D15F/D85B times D85.
func RetentionD15Most(set CriteriaSet, d85 quantity.Length) (quantity.Length, error) {
	limit, err := RetentionRatioLimit(set)
	if err == nil {
		err = checkSize("D85", d85)
	}
	if err != nil {
		return 0, err
	}
	return quantity.Length(limit) * d85, nil
}
