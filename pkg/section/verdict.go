package section

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Check is something that the section must satisfy, with what it came to.
type Check struct {
	// ID of the check.
	ID string `json:"id"`
	// Asks is the question that it puts.
	Asks string `json:"asks"`
	// Holds is what it came to.
	Holds bool `json:"holds"`
	// Failing is what it does if it does not hold: stop or caution.
	Failing rulebook.Failing `json:"failing"`
	// Value that is held against a limit, for a check that compares.
	Value value.Value `json:"value,omitzero"`
	// Limit that the value is held against.
	Limit value.Value `json:"limit,omitzero"`
	// Bound is the side of the limit that is right: at_least or at_most.
	Bound Bound `json:"bound,omitempty"`
	// Margin as a share of the limit; positive is on the right side.
	Margin *float64 `json:"margin,omitempty"`
	// Says what to do if it does not hold.
	Says Sentence `json:"says"`
	// Because is why it is asked, in a sentence.
	Because Sentence `json:"because"`
	// Source names the source of the check.
	Source string `json:"source"`
	// Place where it is written.
	Place diagnostic.Place `json:"place"`
	// Clauses that settle it, for a check that does not compare.
	Clauses []Clause `json:"clauses"`
}

// Bound is a side of a limit.
type Bound string

// The sides of a limit.
const (
	AtLeast Bound = "at_least"
	AtMost  Bound = "at_most"
)

// Caution is something to tell whoever builds the section.
type Caution struct {
	// ID of the caution.
	ID string `json:"id"`
	// Says what to heed.
	Says Sentence `json:"says"`
	// Source names the source of the caution.
	Source string `json:"source"`
	// Place where it is written.
	Place diagnostic.Place `json:"place"`
}

// Refusal is a limit that the job crossed.
type Refusal struct {
	// ID of the limit.
	ID string `json:"id"`
	// Says which limit was crossed, and how.
	Says Sentence `json:"says"`
	// Who should design it instead.
	Who Sentence `json:"who"`
	// Source names the source of the limit.
	Source string `json:"source"`
	// Place where it is written.
	Place diagnostic.Place `json:"place"`
	// Clauses that settle it.
	Clauses []Clause `json:"clauses"`
}

// Presumed is a value that was presumed and not measured.
type Presumed struct {
	// Name of the decision that presumes.
	Name string `json:"name"`
	// Label to show a person.
	Label string `json:"label"`
	// Asks is the question that it answers.
	Asks string `json:"asks"`
	// Value that was presumed.
	Value value.Value `json:"value"`
	// How it was presumed, in a sentence.
	How Sentence `json:"how"`
	// Confirm says what to do before building.
	Confirm string `json:"confirm"`
	// Rule by which it was presumed.
	Rule string `json:"rule"`
}

// Override is a decision that a person took over.
type Override struct {
	// Decision that was taken over.
	Decision string `json:"decision"`
	// Label to show a person.
	Label string `json:"label"`
	// Answer of the person.
	Answer value.Value `json:"answer"`
	// Instead is what the rulebook would have answered; null if nothing.
	Instead value.Value `json:"instead"`
	// By whom.
	By string `json:"by"`
	// Because is why, in the person's words.
	Because string `json:"because"`
}
