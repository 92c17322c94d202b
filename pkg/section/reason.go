package section

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Reason is what a decision leaves behind.
type Reason struct {
	// Decision is the name of the decision, or "course NAME" for a presence.
	Decision string `json:"decision"`
	// Asks is the question that the decision answers.
	Asks string `json:"asks"`
	// Answer that was taken.
	Answer value.Value `json:"answer"`
	// Take is how the answer was chosen: first, only, largest, smallest, all.
	Take rulebook.Take `json:"take"`
	// Taken are the rules whose answers were taken: one, or several for all.
	Taken []Rule `json:"taken"`
	// Passed are the other rules, in the order of the file.
	Passed []Rule `json:"passed,omitempty"`
}

// Rule is a rule as it bore on a decision.
type Rule struct {
	// ID of the rule.
	ID string `json:"id"`
	// State is chosen, held, not held or not reached.
	State rulebook.State `json:"state"`
	// Place where the rule stands.
	Place diagnostic.Place `json:"place"`
	// Chapter in which it stands.
	Chapter string `json:"chapter,omitempty"`
	// Answer of a rule that holds.
	Answer *value.Value `json:"answer,omitempty"`
	// Because of what it answers so, in a sentence.
	Because Sentence `json:"because"`
	// Source is where the rule comes from; SourceText is it in words.
	Source value.Source `json:"source"`
	// SourceText is the source in words.
	SourceText string `json:"source_text"`
	// Standing is measured, correlated or presumed, for a rule that tells a
	// value of the site.
	Standing rulebook.Standing `json:"standing,omitempty"`
	// Clauses are those that settle it: that made it hold, or made it fail.
	Clauses []Clause `json:"clauses,omitempty"`
	// Used are the values that the rule read.
	Used []Used `json:"used,omitempty"`
	// By is the person, for an override.
	By string `json:"by,omitempty"`
	// Amended is there for a rule that came by an amendment.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}

// Clause is a part of a condition with what it came to.
type Clause struct {
	// Text of the clause.
	Text string `json:"text"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
	// Holds tells what it came to.
	Holds bool `json:"holds"`
	// Values that it read.
	Values []Used `json:"values,omitempty"`
}

// Used is a value that a rule read.
type Used struct {
	// Name of the value.
	Name string `json:"name"`
	// Value that was read.
	Value value.Value `json:"value"`
	// Origin is site, setting, term or decision.
	Origin rulebook.Origin `json:"origin"`
	// Presumed tells that the value was presumed and not measured, or is a term
	// that rests on one that was.
	Presumed bool `json:"presumed,omitempty"`
	// Amended is there for a setting that an amendment set.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}
