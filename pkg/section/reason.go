package section

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Reason is what a decision leaves behind.
type Reason struct {
	// Decision is the name of the decision, or "course.NAME" for a presence.
	Decision string `json:"decision"`
	// Label to show a person.
	Label string `json:"label"`
	// Asks is the question that the decision answers.
	Asks string `json:"asks"`
	// Answer that was taken.
	Answer value.Value `json:"answer"`
	// Take is how the answer was chosen: first, only, largest, smallest, all.
	Take rulebook.Take `json:"take"`
	// Taken are the rules whose answers were taken: one, or several for all.
	Taken []Rule `json:"taken"`
	// Passed are the other rules, in the order of the file.
	Passed []Rule `json:"passed"`
	// Amended is there for a decision that an amendment added or changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}

// Rule is a rule as it bore on a decision.
type Rule struct {
	// ID of the rule; "override" if a person decided.
	ID string `json:"id"`
	// State is chosen, held, not_held or not_reached.
	State rulebook.State `json:"state"`
	// Place where the rule is written; left out if a person decided.
	Place diagnostic.Place `json:"place,omitzero"`
	// Chapter in which it is written.
	Chapter string `json:"chapter,omitempty"`
	// Answer of a rule that holds.
	Answer value.Value `json:"answer,omitzero"`
	// AnswerText is the answer as it is written, of a rule that does not hold or
	// was not reached.
	AnswerText string `json:"answer_text,omitempty"`
	// Because is why it answers so, in a sentence.
	Because Sentence `json:"because,omitzero"`
	// BecauseTemplate is that sentence as it is written, with the names of values
	// in braces, of a rule that does not hold or was not reached.
	BecauseTemplate string `json:"because_template,omitempty"`
	// Source names the source of the rule; left out if a person decided.
	Source string `json:"source,omitempty"`
	// RestsOn names the sources of the answers that a rule of practice or of the
	// rulebook's own passes on, where they are others: a thickness that is rounded up
	// is as well known as what was rounded.
	RestsOn []string `json:"rests_on,omitempty"`
	// Standing is measured, correlated or presumed, for a rule that gives a value
	// of the site.
	Standing rulebook.Standing `json:"standing,omitempty"`
	// Clauses are those that settle it: that made it hold, or made it fail.
	Clauses []Clause `json:"clauses"`
	// Used are the values that the rule read.
	Used []Used `json:"used"`
	// By is the person, for an override.
	By string `json:"by,omitempty"`
	// Amended is there for a rule that came by an amendment.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}

// Clause is a part of a condition with what it came to.
type Clause struct {
	// Text of the clause.
	Text string `json:"text"`
	// Place where it is written.
	Place diagnostic.Place `json:"place"`
	// Column is there for a cell of a table: what the cell is compared with.
	Column string `json:"column,omitempty"`
	// Holds is what it came to.
	Holds bool `json:"holds"`
	// Values that it read.
	Values []Used `json:"values"`
	// Amended is there for a clause by which something is not there, of an entry
	// that an amendment changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}

// Used is a value that a rule read.
type Used struct {
	// Name of the value.
	Name string `json:"name"`
	// Label to show a person.
	Label string `json:"label"`
	// Value that was read.
	Value value.Value `json:"value"`
	// Origin is site, setting, term or decision.
	Origin rulebook.Origin `json:"origin"`
	// Presumed is true of a value that was presumed and not measured, and of a
	// term that rests on one.
	Presumed bool `json:"presumed,omitempty"`
	// Amended is there for a setting or a term that an amendment added or changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}
