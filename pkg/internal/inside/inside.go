// Package inside is how what reviews a rulebook reaches the engine behind the
// closed types of package groundrule, which sets the functions here.
package inside

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/site"
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

// Level is the attribute that says how deep below finish grade something lies
// that takes no thickness of its own, such as the invert of a pipe.
const Level = "below_finish_grade"

// Table returns the table of a job's fields, closed by the words of a book.
func Table(b *engine.Book) *site.Table { return site.NewTable(b.WordsOfJobs()) }

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
