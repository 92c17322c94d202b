package rulebook

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/value"
)

// Decision is one question about the section.
type Decision struct {
	Name string
	Asks string
	// About is what a sentence calls the answer, "" for the words of the name; of a
	// yes or no it begins with "whether".
	About string
	Kind  value.Kind // of the answer; a list for All
	Take  Take
	// When is the condition under which it is asked; zero if it always is.
	When Text
	// Columns are the names that the cells of a decision written as a table are
	// compared with, nil for one with rules.
	Columns []string
	Rules   []Rule
	// Question is the value of a job, such as company.pool_distance, that a question
	// of the rulebook hands on; "" for any other decision.
	Question string
	Bounds   []Bound
	Place    diagnostic.Place
	Chapter  string
	Amended  *Amended
}

// Bound is a limit of the answers of a decision, whoever gives them: a rule, an
// amendment or a person. It has one of AtLeast, AtMost, OneOf and NoneOf.
type Bound struct {
	ID       string
	Decision string
	// When is the condition under which it holds; zero if it always does.
	When    Text
	AtLeast Text
	AtMost  Text
	// OneOf are the words that may be answered, NoneOf those that may not.
	OneOf   []value.Word
	NoneOf  []value.Word
	Because Text
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Take is how an answer is chosen among the rules that hold.
type Take string

// The ways of taking.
const (
	First    Take = "first"    // the first rule that holds
	Only     Take = "only"     // the one answer; two different ones are an error
	Largest  Take = "largest"  // the largest of all that hold
	Smallest Take = "smallest" // the smallest of all that hold
	All      Take = "all"      // a list of all that hold, in order
)

// Rule is one rule of a decision.
type Rule struct {
	ID string
	// When is the rule's condition; zero if it always holds.
	When Text
	// Cells are what the row of a table says under the columns of its decision,
	// from which the condition is made; nil for any other rule.
	Cells    []Text
	Answer   Text
	Because  Text
	Source   value.Source
	Standing Standing
	// Confirm says what to do to confirm a presumed value before building.
	Confirm string
	Place   diagnostic.Place
	Chapter string
	// Amended is set if the rule came by an amendment.
	Amended *Amended
}

// Standing is how well the value that a rule answers is known.
type Standing string

// The standings, from the surest. Rules that answer a design choice have none.
const (
	NoStanding Standing = ""
	Measured   Standing = "measured"
	Correlated Standing = "correlated"
	Presumed   Standing = "presumed"
)

// State is what a rule came to for one site.
type State string

// What a rule can come to.
const (
	Chosen     State = "chosen"
	Held       State = "held"        // it holds; another answer was taken
	NotHeld    State = "not_held"    // its condition does not hold
	NotReached State = "not_reached" // an earlier rule had answered
)

// Holds reports whether the rule holds, taken or not.
func (s State) Holds() bool { return s == Chosen || s == Held }

// Origin is where the value under a name comes from.
type Origin string

// The origins.
const (
	FromSite     Origin = "site"
	FromSetting  Origin = "setting"
	FromTerm     Origin = "term"
	FromDecision Origin = "decision"
)
