package section

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/rulebook"
)

// Work is what a crew works by: a step, a tolerance that it keeps, or something
// that it may find and then stops for.
type Work struct {
	// ID of the entry.
	ID string `json:"id"`
	// Courses of this section that it is about, from the bottom up.
	Courses []string `json:"courses"`
	// Says what the crew does, or what is within tolerance.
	Says Sentence `json:"says,omitzero"`
	// Hold says what must be looked at before work goes on; only of a hold point.
	Hold Sentence `json:"hold,omitzero"`
	// Measure says how a tolerance is measured.
	Measure Sentence `json:"measure,omitzero"`
	// Finds says what the crew may find.
	Finds Sentence `json:"finds,omitzero"`
	// Does says what it then does at once.
	Does Sentence `json:"does,omitzero"`
	// Calls says whom it calls.
	Calls Sentence `json:"calls,omitzero"`
	// Found is what the job would say if that were found; left out if no value of a job
	// says it.
	Found []Used `json:"found,omitempty"`
	// Then is what would come of the job; left out where it could not say so beside what
	// it says already.
	Then *Otherwise `json:"then,omitempty"`
	// Because is why.
	Because Sentence `json:"because"`
	// Source names the source of it.
	Source string `json:"source"`
	// Place where it is written.
	Place diagnostic.Place `json:"place"`
	// Amended is there for what an amendment added or changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}
