package site

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/quantity"
)

// derived are the values that rules read beside those that a job gives: each is
// worked out from others by arithmetic alone, and known only where that can be
// done.
var derived = []*Field{
	shapeInput(),
	partOf("year", 9999, 0), partOf("month", 12, 1), partOf("day", 31, 2),
	passing("soil.passing_no4", "No. 4", 4.75),
	passing("soil.passing_no10", "No. 10", 2),
	passing("soil.passing_no40", "No. 40", 0.425),
	passing("soil.passing_no200", "No. 200", 0.075),
	meeting("edges.held", holdsPavers, "length of edge along which other paving, or what else lies beyond, holds the pavers"),
	meeting("edges.not_dug", stopsDig, "length of edge that the dig does not go beyond"),
	{
		Path: "soil.passing_0_02_mm", Label: "Finer than 0.02 mm", About: "percent by mass finer than 0.02 mm, as given or from the sieve curve",
		Form: NumberForm, Dim: quantity.DimShare, Range: percentage, Example: "12", From: []string{"soil.passing_0_02_mm", "soil.sieves"},
		derive: func(s *Site) (any, bool) { return s.Soil.passing(point002) },
		put:    func(s *Site, x float64) { s.Soil.Passing002 = (*quantity.Share)(&x) },
	},
	size("soil.d10", 10), size("soil.d15", 15), size("soil.d30", 30),
	size("soil.d50", 50), size("soil.d60", 60), size("soil.d85", 85),
	{
		Path: "soil.plasticity_index", Label: "Plasticity index", About: "liquid limit less plastic limit, in percent",
		Form: NumberForm, Dim: quantity.DimRatio, Range: limitRange, Example: "16", From: []string{"soil.liquid_limit", "soil.plastic_limit"}, Total: true,
		derive: func(s *Site) (any, bool) {
			ll, pl := s.Soil.LiquidLimit, s.Soil.PlasticLimit
			if ll == nil || pl == nil {
				return nil, false
			}
			return *ll - *pl, true
		},
		solve: func(index, plastic float64) float64 { return index + plastic },
	},
	{
		Path: "soil.liquid_limit_ratio", Label: "Ratio of liquid limits", About: "liquid limit after oven drying over that before, a plain ratio",
		Form: NumberForm, Dim: quantity.DimRatio, Range: upTo(math.Inf(1), ""), Example: "0.7", From: []string{"soil.liquid_limit_oven_dried", "soil.liquid_limit"},
		derive: func(s *Site) (any, bool) {
			dried, ll := s.Soil.LiquidLimitOvenDried, s.Soil.LiquidLimit
			if dried == nil || ll == nil || *ll <= 0 {
				return nil, false
			}
			return *dried / *ll, true
		},
		solve: func(ratio, limit float64) float64 { return ratio * limit },
	},
	{
		Path: "soil.penetration_index", Label: "Penetration of each blow", About: "penetration of each blow of the cone penetrometer in mm, one for each reading, as read, not corrected for the hammer",
		Form: NumbersForm, Dim: quantity.DimRatio, Range: above0(1000, ""), Example: "12", From: []string{"soil.dcp.readings", "soil.dcp.mm_per_blow"},
		derive: penetrationIndex,
		put:    func(s *Site, x float64) { s.Soil.DCP.MMPerBlow = []float64{x} },
	},
}

// partOf is a part of the day of the job.
func partOf(part string, high float64, at int) *Field {
	return &Field{
		Path: "date." + part, Label: strings.ToUpper(part[:1]) + part[1:] + " of the job", About: part + " of the date of the job", Form: NumberForm, Dim: quantity.DimRatio,
		Range: between(1, high, ""), Example: "4", From: []string{"date"}, Total: true,
		derive: func(s *Site) (any, bool) {
			if !isDay(s.Date) {
				return nil, false
			}
			x, err := strconv.ParseFloat(strings.Split(s.Date, "-")[at], 64)
			return x, err == nil
		},
		put: func(s *Site, x float64) {
			parts := []string{"2026", "01", "01"}
			if isDay(s.Date) {
				parts = strings.Split(s.Date, "-")
			}
			if parts[at] = fmt.Sprintf("%0*d", len(parts[at]), int(x)); x < 1 || x > high {
				parts[at] = writeNumber(x) // which no date has
			}
			s.Date = strings.Join(parts, "-")
		},
	}
}

func passing(path, sieve string, mm float64) *Field {
	opening := quantity.Millimeters(mm)
	return &Field{
		Path: path, Label: "Passing " + sieve, About: "percent by mass passing the " + sieve + " sieve, from the sieve curve",
		Form: NumberForm, Dim: quantity.DimShare, Range: percentage, Example: "62", From: []string{"soil.sieves"},
		derive: func(s *Site) (any, bool) { return s.Soil.passing(opening) },
		put: func(s *Site, x float64) {
			s.Soil.Sieves = append(s.Soil.Sieves, Sieve{Opening: opening, Passing: quantity.Share(x)})
		},
	}
}

func size(path string, percent float64) *Field {
	p := writeNumber(percent)
	return &Field{
		Path: path, Label: "D" + p, About: "size that " + p + " percent by mass is finer than, inside the sieve curve",
		Form: MeasuredForm, Dim: quantity.DimLength, Range: above0(40, "in"), Example: "0.5 mm", From: []string{"soil.sieves"},
		derive: func(s *Site) (any, bool) { return s.Soil.finerThan(quantity.Percent(percent)) },
	}
}

func penetrationIndex(s *Site) (any, bool) {
	if given := s.Soil.DCP.MMPerBlow; len(given) > 0 {
		return append([]float64(nil), given...), true
	}
	var out []float64
	for _, b := range s.Soil.DCP.Readings {
		if b.Count < 1 {
			return nil, false
		}
		out = append(out, b.Penetration.Millimeters()/float64(b.Count))
	}
	return out, len(out) > 0
}

// Inputs lists all that rules may read of a site whose words are open: see
// [Table.Inputs].
func Inputs() []Field { return open().Inputs() }

// Input returns the value of an input by its path, as [Field.Get] does. given is
// false where it is not known, and for a name that is not an input.
func (s *Site) Input(path string) (x any, given bool) {
	f, ok := s.fields().inputs[path]
	if !ok {
		return nil, false
	}
	return f.Get(s)
}
