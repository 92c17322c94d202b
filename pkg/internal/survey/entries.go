package survey

import (
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// entry is one thing that a job can tell: an input that a job gives, or one that
// a job can be made to have by a single value. The survey writes jobs entry by
// entry and leaves them out entry by entry.
type entry struct {
	site.Field
	// usual is the value that the documentation of the field gives, and unit its
	// unit, "" for a plain number.
	usual any
	unit  string
	// low and high are the least and the most that a job may tell.
	low, high float64
	// words are those that a job may tell; of a text, those of the rulebook.
	words []string
	// closes is the opening of a sieve that is there to close the curve.
	closes quantity.Length
	// overrides reports that it is an answer in place of the rules.
	overrides bool
}

// numeric reports whether an entry tells a number. A list of numbers is told as
// one: no condition of a rule tells one list from another but by what is
// calculated from it.
func (e entry) numeric() bool {
	return e.Form == site.NumberForm || e.Form == site.NumbersForm || e.Form == site.MeasuredForm
}

// give writes a value into a job.
func (e entry) give(s *site.Site, v any) {
	switch x, _ := v.(float64); {
	case e.closes > 0:
		s.Soil.Sieves = append(s.Soil.Sieves, site.Sieve{Opening: e.closes, Passing: quantity.Share(x)})
	case e.overrides:
		s.Overrides = []site.Override{{Decision: e.Path, Answer: e.inRules(x), By: "promise", Because: "to see what moves with it"}}
	default:
		_ = e.Set(s, v) // every value that is drafted is of the form of its field
	}
}

// inRules writes a number as the rule language does.
func (e entry) inRules(si float64) string {
	u, measured := quantity.UnitNamed(e.unit, e.Dim)
	x, err := quantity.Quantity{Dim: e.Dim, SI: si}.In(e.unit)
	if !measured || err != nil {
		return strconv.FormatFloat(si, 'f', -1, 64)
	}
	return u.Builder + "(" + strconv.FormatFloat(x, 'f', -1, 64) + ")"
}

// The curve of sieves is closed at its ends by the coarsest and the finest, so
// that every size between can be told.
var (
	coarsest = quantity.Inches(3)
	finest   = quantity.Millimeters(0.002)
)

// ofCurve reports whether an input is read off the sieve curve alone.
func ofCurve(f site.Field) bool { return slices.Equal(f.From, []string{"soil.sieves"}) }

// entries lists what a job can tell, from the table of the job's fields. Names
// that decide nothing, and overrides, are left out: the survey asks what the
// rules answer by themselves.
func entries(book *engine.Book, inputs []site.Field) []entry {
	var out []entry
	for _, f := range inputs {
		e := entry{Field: f, usual: f.Sample()}
		if f.Set(&site.Site{}, e.usual) != nil {
			continue // it is had from others
		}
		e.low, e.high = f.Bounds()
		for _, w := range book.Words(value.Kind(f.Vocabulary.Name)) {
			e.words = append(e.words, w.Go)
		}
		if f.Form == site.WordForm && len(e.words) > 0 {
			e.usual = e.words[0]
		}
		if _, e.unit, _ = strings.Cut(f.Example, " "); f.Form == site.NumberForm && f.Dim == quantity.DimShare {
			e.unit = "%"
		}
		out = append(out, e)
	}
	for _, end := range []quantity.Length{coarsest, finest} {
		out = append(out, entry{Field: site.Field{Path: "sieve " + end.String(), Form: site.NumberForm, Dim: quantity.DimShare}, usual: 0.5, high: 1, closes: end})
	}
	return out
}
