package drainage

import (
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var percents = calculation.Range{Name: "percent passing", Unit: "%", Low: 0, High: 100, Above: true, Document: sourceLogLinear.Document}

// SizeAt returns D(share), the smallest size that at least so much of the grains
// pass, on one edge of the gradation. Between tabulated sieves the size is
// interpolated on a log axis and the percent on a linear one; beyond them the
// error wraps [ErrCannotTell]. The share is more than 0, up to 100 %.
//
// Source: log-linear interpolation, computed.
func (g Gradation) SizeAt(e Edge, share quantity.Share) (quantity.Length, error) {
	if err := percents.CheckMeasure(share); err != nil {
		return 0, err
	}
	return g.sizeAt(e, min(share.Percent(), 100))
}

// sizeAt is [Gradation.SizeAt] for a percentage in its range.
func (g Gradation) sizeAt(e Edge, percent float64) (quantity.Length, error) {
	rows := g.table()
	if len(rows) == 0 {
		return 0, fmt.Errorf("size D%g: no gradation is known: %w", percent, ErrCannotTell)
	}
	coarsest, finest := rows[0], rows[len(rows)-1]
	switch {
	case percent > coarsest.passing(e):
		return 0, beyond(percent, e, coarsest, "coarsest")
	case percent < finest.passing(e):
		return 0, beyond(percent, e, finest, "finest")
	}
	i := len(rows) - 1
	for rows[i].passing(e) < percent {
		i--
	}
	upper := rows[i]
	if upper.passing(e) == percent {
		return quantity.Millimeters(upper.mm), nil
	}
	lower := rows[i+1]
	way := (percent - lower.passing(e)) / (upper.passing(e) - lower.passing(e))
	return quantity.Millimeters(portable.Between(lower.mm, upper.mm, way)), nil
}

func beyond(percent float64, e Edge, r row, which string) error {
	return fmt.Errorf("size D%g on the %s: %g %% pass %s, the %s sieve given: %w", percent, e, r.passing(e), nameOf(r.mm), which, ErrCannotTell)
}

// SizeOnMid is [Gradation.SizeAt] on the mid.
func SizeOnMid(g Gradation, share quantity.Share) (quantity.Length, error) {
	return g.SizeAt(Mid, share)
}

// NominalMaximum returns the nominal maximum size: the smallest tabulated sieve
// that all grains are permitted to pass, so the smallest with 100 percent on
// the fine edge.
//
// Source: ASTM C125, from memory.
func NominalMaximum(g Gradation) (quantity.Length, error) {
	size, err := g.sizeAt(Fine, 100)
	if err != nil {
		return 0, fmt.Errorf("nominal maximum size: %w", err)
	}
	return size, nil
}

const (
	exampleNo57 = `gradation_of("1-1/2 in: 100, 1 in: 95-100, 1/2 in: 25-60, No. 4: 0-10, No. 8: 0-5")`
	exampleSand = `gradation_of("3/8 in: 100, No. 4: 95-100, No. 8: 80-100, No. 16: 50-85, No. 30: 25-60, No. 50: 5-30, No. 100: 0-10")`
)

func gradationCalculations() []calculation.Function {
	gradation := param("gradation", "the aggregate or the soil")
	return []calculation.Function{
		{
			Name:    "gradation_of",
			About:   "A gradation, read as a specification lists it, sieve by sieve.",
			Params:  []calculation.Param{param("text", "sieves with percent passing, such as 1 in: 95-100, No. 4: 0-10")},
			Result:  param("gradation", "the envelope, or the curve"),
			Range:   "refuses percents outside 0 to 100, a low above its high, an edge that rises as the sieves get finer, a sieve given twice, fewer than two sieves",
			Sources: []value.Source{sourceE11, sourceInchSieves, sourceE11Memory},
			Example: exampleNo57,
			Go:      ParseGradation,
		},
		{
			Name:  "gradation_from_sizes",
			About: "A gradation, made from the three sizes that filter rules need.",
			Params: []calculation.Param{
				param("d15", "size that 15 percent pass"), param("d50", "size that 50 percent pass"), param("d85", "size that 85 percent pass"),
			},
			Result:  param("gradation", "a curve through the three sizes"),
			Range:   "the sizes must rise",
			Sources: []value.Source{sourceLogLinear},
			Example: "gradation_from_sizes(mm(0.38), mm(0.75), mm(1.5))",
			Go:      GradationFromSizes,
		},
		{
			Name:    "size_at",
			About:   "The size that so much of the grains pass, on the mid of the envelope.",
			Params:  []calculation.Param{gradation, param("share", "how much passes, more than 0, up to 100 %")},
			Result:  param("size", "the size, interpolated between the sieves"),
			Range:   "refuses a size beyond the tabulated sieves",
			Sources: []value.Source{sourceLogLinear},
			Example: "size_at(" + exampleNo57 + ", percent(85))",
			Go:      SizeOnMid,
		},
		{
			Name:    "nominal_maximum_size",
			About:   "The nominal maximum size: the smallest tabulated sieve that all grains are permitted to pass.",
			Params:  []calculation.Param{gradation},
			Result:  param("size", "opening of that sieve"),
			Range:   "refuses a gradation of which no sieve passes all",
			Sources: []value.Source{sourceC125},
			Example: "nominal_maximum_size(" + exampleNo57 + ")",
			Go:      NominalMaximum,
		},
	}
}
