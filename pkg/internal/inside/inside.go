// Package inside is how what reviews a rulebook reaches the engine behind the
// closed types of package groundrule, which sets the functions here.
package inside

import (
	"math"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/jobnode"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// Rules returns the engine's book in a *groundrule.Book.
var Rules func(book any) *engine.Book

// Partial is a groundrule.Option that opens a rulebook which cannot design, for
// want of courses, refusals or cautions.
var Partial any

// NotCalculated is the id of the refusal of a job that a calculation does not
// reach, where no rule asked for it; else it is the rule's.
const NotCalculated = "NOT-CALCULATED"

// Thickness is the attribute by which courses add up to the depth of the dig.
const Thickness = "thickness"

// Added is the term that counts the courses that amendments add into the depth of the
// dig, and Depth the decision that answers that depth.
const (
	Added = "added_depth"
	Depth = "section_depth"
)

// Material and Kind are the attributes that say what a course is made of.
const (
	Material = "material"
	Kind     = "kind"
)

// AskingEnds is the setting that says which difference of a length is too small to
// ask for.
const AskingEnds = "asking_ends_at"

// Level is the attribute that says how deep below finish grade something lies
// that takes no thickness of its own, such as the invert of a pipe.
const Level = "below_finish_grade"

// Table returns the table of a job's fields, closed by the words of a book.
func Table(b *engine.Book) *site.Table {
	words := b.WordsOfJobs()
	var questions []site.Field
	for _, q := range b.Questions() {
		questions = append(questions, asked(q, words))
	}
	return site.NewTable(words, questions)
}

// asked is the field of a question of the company.
func asked(q engine.Question, words []value.Vocabulary) site.Field {
	f := site.Field{Path: jobnode.Company + "." + q.Name, Label: page.Capital(strings.ReplaceAll(q.Name, "_", " ")), About: q.Asks, Form: site.WordForm, Example: "yes",
		Range: calculation.Range{Unit: q.Unit, Low: math.Inf(-1), High: math.Inf(1)}}
	dim, measured := quantity.DimensionNamed(string(q.Kind))
	switch {
	case q.Kind == value.BoolKind:
		f.Form = site.FlagForm
		return f
	case q.Kind == value.NumberKind:
		f.Form, f.Dim = site.NumberForm, quantity.DimRatio
	case measured:
		f.Form, f.Dim = site.MeasuredForm, dim
		if _, ok := quantity.UnitNamed(q.Unit, dim); !ok {
			f.Range.Unit = dim.BaseUnit()
		}
	default:
		for _, v := range words {
			if v.Name == string(q.Kind) {
				f.Vocabulary, f.Example = v, v.Words[0].GoValue()
			}
		}
		return f
	}
	in := func(v value.Value, otherwise float64) float64 {
		m, ok := v.Measure()
		if x, err := m.In(f.Range.Unit); ok && measured && err == nil {
			return x
		}
		if ok {
			return m.SI
		}
		return otherwise
	}
	f.Range.Low, f.Range.High = in(q.AtLeast, f.Range.Low), in(q.AtMost, f.Range.High)
	usual := in(q.Presumed, in(q.AtLeast, in(q.AtMost, 1)))
	f.Example = strings.TrimSpace(strconv.FormatFloat(usual, 'f', -1, 64) + " " + f.Range.Unit)
	return f
}

// Overrides returns the overrides of a job as [engine.Book.Run] takes them.
func Overrides(job *site.Site) []engine.Override {
	var out []engine.Override
	for _, o := range job.Overrides {
		out = append(out, engine.Override{Decision: o.Decision, Answer: o.Answer, By: o.By, Because: o.Because, Place: o.Place,
			At: func(path string, offset int) diagnostic.Place {
				if at, written := job.PlaceWithin(path, offset); written {
					return at
				}
				return o.Place
			}})
	}
	return out
}
