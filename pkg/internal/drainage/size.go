package drainage

import (
	"fmt"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
)

// SizeAt returns D(percent), the smallest size that at least so many percent of
// the grains pass, on one edge of the gradation. Between tabulated sieves the
// size is interpolated on a log axis and the percent on a linear one; beyond
// them the answer is [ErrCannotTell]. percent is more than 0, up to 100.
//
// Source: log-linear interpolation, computed.
func (g Gradation) SizeAt(e Edge, percent float64) (quantity.Length, error) {
	if err := checkPercent("percent passing", percent); err != nil {
		return 0, err
	}
	if percent == 0 {
		return 0, calculation.OutOfRange("percent passing", 0, "%", "more than 0, up to 100 %", sourceLogLinear.Document)
	}
	rows := g.table()
	if len(rows) == 0 {
		return 0, cannotTell("D%g: no gradation is known", percent)
	}
	coarsest, finest := rows[0], rows[len(rows)-1]
	if percent > coarsest.passing(e) {
		return 0, cannotTell("D%g on the %s: only %g %% pass the coarsest tabulated sieve %s", percent, e, coarsest.passing(e), nameOf(coarsest.mm))
	}
	if percent < finest.passing(e) {
		return 0, cannotTell("D%g on the %s: %g %% pass the finest tabulated sieve %s", percent, e, finest.passing(e), nameOf(finest.mm))
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
	share := (percent - lower.passing(e)) / (upper.passing(e) - lower.passing(e))
	return quantity.Millimeters(portable.Between(lower.mm, upper.mm, share)), nil
}

// PercentPassing returns the percent of the grains that pass a size, on one edge
// of the gradation, interpolated as in [Gradation.SizeAt]. Above a sieve that
// all pass it is 100, below a sieve that none pass it is 0; elsewhere beyond
// the tabulated sieves the answer is [ErrCannotTell].
func (g Gradation) PercentPassing(e Edge, size quantity.Length) (float64, error) {
	if err := checkSize("size", size); err != nil {
		return 0, err
	}
	rows := g.table()
	if len(rows) == 0 {
		return 0, cannotTell("percent passing %s: no gradation is known", sizeMM(size))
	}
	mm := size.Millimeters()
	for _, r := range rows {
		// A size turned from another unit may miss its sieve by a rounding.
		if math.Abs(mm-r.mm) <= 1e-9*r.mm {
			return r.passing(e), nil
		}
	}
	coarsest, finest := rows[0], rows[len(rows)-1]
	if mm > coarsest.mm {
		if coarsest.passing(e) == 100 {
			return 100, nil
		}
		return 0, cannotTell("percent passing %s on the %s: the coarsest tabulated sieve is %s", sizeMM(size), e, nameOf(coarsest.mm))
	}
	if mm < finest.mm {
		if finest.passing(e) == 0 {
			return 0, nil
		}
		return 0, cannotTell("percent passing %s on the %s: the finest tabulated sieve is %s", sizeMM(size), e, nameOf(finest.mm))
	}
	i := 1
	for rows[i].mm > mm {
		i++
	}
	upper, lower := rows[i-1], rows[i]
	share := portable.Share(lower.mm, upper.mm, mm)
	return lower.passing(e) + float64((upper.passing(e)-lower.passing(e))*share), nil
}

func cannotTell(format string, args ...any) error {
	return fmt.Errorf(format+": %w", append(args, ErrCannotTell)...)
}
