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
	// Says what to do if it does not hold; in the usual form of one that holds it is
	// left out, as are its place and its clauses.
	Says Sentence `json:"says,omitzero"`
	// Passes says what was found of one that holds and that people look for; only in the
	// full form.
	Passes Sentence `json:"passes,omitzero"`
	// Because is why it is asked, in a sentence.
	Because Sentence `json:"because"`
	// Source names the source of the check.
	Source string `json:"source"`
	// Place where it is written.
	Place diagnostic.Place `json:"place,omitzero"`
	// Clauses that settle it, for a check that does not compare.
	Clauses []Clause `json:"clauses"`
	// Amended is there for a check that an amendment added or changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
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
	// Short says that in one line; in the full form alone, as the next two are.
	Short Sentence `json:"short,omitzero"`
	// Usual is true of what every section owes.
	Usual bool `json:"usual,omitempty"`
	// Real is true of what this job makes real.
	Real bool `json:"real,omitempty"`
	// Source names the source of the caution.
	Source string `json:"source"`
	// Place where it is written, in the full form alone.
	Place diagnostic.Place `json:"place,omitzero"`
	// Amended is there for a caution that an amendment added or changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}

// Refusal is a limit that the job crossed.
type Refusal struct {
	// ID of the limit.
	ID string `json:"id"`
	// Says which limit was crossed, and how.
	Says Sentence `json:"says"`
	// Who can settle it, such as a licensed engineer.
	Who Sentence `json:"who"`
	// Source names the source of the limit.
	Source string `json:"source"`
	// Place where it is written.
	Place diagnostic.Place `json:"place"`
	// Clauses that settle it.
	Clauses []Clause `json:"clauses"`
	// Amended is there for a limit that an amendment added or changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
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
	// Keys of the job that would tell it, of a section that was made with its
	// questions. Where none of the questions is of these, no likely answer changes the
	// section.
	Keys []string `json:"keys,omitempty"`
}

// Override is a decision that a person took over.
type Override struct {
	// Decision that was taken over.
	Decision string `json:"decision"`
	// Label to show a person.
	Label string `json:"label"`
	// Answer of the person.
	Answer value.Value `json:"answer"`
	// Asked is false where this job does not ask the question, so that the answer
	// changes nothing.
	Asked bool `json:"asked"`
	// Instead is what the rulebook would have answered; null if nothing.
	Instead value.Value `json:"instead"`
	// By whom.
	By string `json:"by"`
	// Because is why, in the person's words.
	Because string `json:"because"`
	// Effects are what differs in the section from that without this override, from
	// the bottom up; the dig comes last.
	Effects []Effect `json:"effects"`
}

// Effect is one difference that an override makes, or that is between two sections.
type Effect struct {
	// Course that differs; left out for the depth of the dig, and for a quantity.
	Course string `json:"course,omitempty"`
	// Quantity that differs, by its id.
	Quantity string `json:"quantity,omitempty"`
	// What differs of it, to show a person.
	What string `json:"what"`
	// Without the override it would be this; null if it would not be there.
	Without value.Value `json:"without"`
	// With the override it is this; null if it is not there.
	With value.Value `json:"with"`
	// RuleWithout decided it without, by its id; left out for the dig, and where it is
	// not there.
	RuleWithout string `json:"rule_without,omitempty"`
	// RuleWith decided it with, likewise.
	RuleWith string `json:"rule_with,omitempty"`
	// Makes are what makes the difference: another rule of what it rests on, or another
	// value, without a rule, that this reads; left out where that is not known.
	Makes []Effect `json:"makes,omitempty"`
}

// Question is something that the job does not say, and with which the section
// changes.
type Question struct {
	// Key of the value in the job.
	Key string `json:"key"`
	// Label to show a person.
	Label string `json:"label"`
	// Asks is how people are asked for it.
	Asks string `json:"asks"`
	// How to find the answer out.
	How Sentence `json:"how,omitzero"`
	// Worth says in one sentence what the answer may save or add, in thickness, weight
	// and, by a price list, money; only where what is worth asking was asked for.
	Worth Sentence `json:"worth,omitzero"`
	// Choices are what it may be, each with what comes of it, in the order of the
	// rulebook.
	Choices []Otherwise `json:"choices"`
}

// Otherwise is what comes of a job with something in it otherwise.
type Otherwise struct {
	// Answer is what the job then says, as a job writes it; left out unless it is a
	// choice of a question.
	Answer string `json:"answer,omitempty"`
	// Label of that answer, to show a person, where it is a word.
	Label string `json:"label,omitempty"`
	// Status is that of the section then.
	Status Status `json:"status"`
	// Differs says in short words what differs then, the weightiest first and new
	// cautions last; empty if nothing does.
	Differs []Sentence `json:"differs,omitempty"`
	// Mass is how much more material is bought then, less being below zero; only of the
	// choices of a question that is worth asking.
	Mass value.Value `json:"mass,omitzero"`
	// Price is how much more it then costs by a price list, to the cent; left out
	// without one.
	Price string `json:"price,omitempty"`
	// Who can settle it then; left out unless it is refused.
	Who Sentence `json:"who,omitzero"`
	// Option is the id of the option of the rulebook that it is, or the name of the
	// job's own alternative.
	Option string `json:"option,omitempty"`
	// Gives says in a sentence what such an option gives.
	Gives Sentence `json:"gives,omitzero"`
	// Lacks says in a sentence what it lacks.
	Lacks Sentence `json:"lacks,omitzero"`
	// LeavesOut names what such an option leaves out; left out if it is not one of these.
	LeavesOut Sentence `json:"leaves_out,omitzero"`
	// Because is why it is offered.
	Because Sentence `json:"because,omitzero"`
	// Source names the source of it.
	Source string `json:"source,omitempty"`
	// Why has the ids of what refuses or stops it.
	Why []string `json:"why,omitempty"`
	// Depth of the dig then.
	Depth value.Value `json:"depth,omitzero"`
	// Effects are what differs then, from the bottom up.
	Effects []Effect `json:"effects,omitempty"`
	// Remedies say what to do with what is in the ground already.
	Remedies []Work `json:"remedies,omitempty"`
	// Section is the whole of it, for what is made of it; it is not written.
	Section *Section `json:"-"`
}

// Crossed is an answer beyond a limit of its decision. Without permission, the
// section is stopped.
type Crossed struct {
	// Limit that is crossed, by its id.
	Limit string `json:"limit"`
	// Decision whose answer is beyond it.
	Decision string `json:"decision"`
	// Label of the decision, to show a person.
	Label string `json:"label"`
	// Answer that is beyond the limit.
	Answer value.Value `json:"answer"`
	// Wanted says what the limit asks for.
	Wanted Sentence `json:"wanted"`
	// Because is why there is the limit.
	Because Sentence `json:"because"`
	// Source names the source of the limit.
	Source string `json:"source"`
	// Place where the limit is written.
	Place diagnostic.Place `json:"place"`
	// By names the persons and amendments whose doing it is.
	By []string `json:"by"`
	// Variance is the permission for it; left out if there is none.
	Variance string `json:"variance,omitempty"`
}

// Lifted is what an amendment took away, or put something weaker in the place
// of, and that would have spoken on this job.
type Lifted struct {
	// Sort of the entry: rule, limit, course, check, caution, refusal, promise, step,
	// tolerance or stop.
	Sort string `json:"sort"`
	// ID or name of the entry.
	ID string `json:"id"`
	// Decision of a rule or a limit.
	Decision string `json:"decision,omitempty"`
	// Says what it would have said; left out if it cannot be worked out any more,
	// since what it reads was taken away too.
	Says Sentence `json:"says,omitzero"`
	// Replaced reports whether something stands in its place.
	Replaced bool `json:"replaced,omitempty"`
	// Amended tells by whom it was taken away, and why.
	Amended rulebook.Amended `json:"amended"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
}

// Absent is a course that is not laid, a question that is not asked, or a value
// of the job that makes no difference, with the reason.
type Absent struct {
	// Sort is course, decision or input.
	Sort string `json:"sort"`
	// Name of the course or decision, or path of the value.
	Name string `json:"name"`
	// Label to show a person.
	Label string `json:"label"`
	// Clauses are those by which it is not there, or not asked for; none for a
	// course that an amendment took away and a value that no rule reads.
	Clauses []Clause `json:"clauses"`
	// Because has the reasons of the decisions that these clauses read.
	Because []Sentence `json:"because"`
	// Set are the settings of amendments by which no rule that would have had it
	// there applies.
	Set []Used `json:"set,omitempty"`
}

// Account is what a value that reasons rest on rests on itself.
type Account struct {
	// Sort is setting, term, word or material.
	Sort string `json:"sort"`
	// Name of it.
	Name string `json:"name"`
	// Label to show a person.
	Label string `json:"label"`
	// Value of a setting.
	Value value.Value `json:"value,omitzero"`
	// Reads are the names that a term reads.
	Reads []string `json:"reads,omitempty"`
	// Because is why it has its value, or why it is a word of its own.
	Because Sentence `json:"because"`
	// Source names its source.
	Source string `json:"source"`
	// Place where it is written.
	Place diagnostic.Place `json:"place"`
	// Amended is there for what an amendment added or changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}
