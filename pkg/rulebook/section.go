package rulebook

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/value"
)

// Course is one layer or element of the section.
type Course struct {
	Name  string
	Label string
	// Is is a word of course_kind.
	Is value.Word
	// When is the condition under which it is laid; zero if it always is.
	When       Text
	Because    Text
	Source     value.Source
	Attributes []Attribute
	// Drawn says as what a drawing of the section shows it, under "symbol", and which of
	// its attributes give what that symbol shows, such as "up" how far it is turned
	// up; nil for what is only named.
	Drawn   map[string]string
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Attribute is one property of a course, taken from a decision.
type Attribute struct {
	Name     string
	Decision string
	// Shown reports whether a page has it beside the course.
	Shown bool
}

// Failing is what a check that fails does.
type Failing string

// What a failing check does.
const (
	Stops    Failing = "stop"
	Cautions Failing = "caution"
)

// Check is something that the finished section must satisfy: a condition that
// holds, or a value within a limit.
type Check struct {
	ID      string
	Asks    string
	Failing Failing
	// When is the condition under which it applies; zero if it always does.
	When Text
	// Holds is zero for a check that compares Value with Limit, and they are for
	// one that does not.
	Holds Text
	Value Text
	Limit Text
	// AtMost reports whether the limit is one not to go above.
	AtMost bool
	Says   Text
	// Passes is what a page says of a check that holds; zero for one that it counts.
	Passes  Text
	Because Text
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Compares returns the comparison that a check makes, as a text, and "" for a
// check with a condition.
func (c *Check) Compares() string {
	sign := " >= "
	if c.AtMost {
		sign = " <= "
	}
	if c.Value == (Text{}) || c.Limit == (Text{}) {
		return ""
	}
	return c.Value.Text + sign + c.Limit.Text
}

// Caution is something to tell whoever builds the section.
type Caution struct {
	ID string
	// When is the condition under which it is given; zero if it always is.
	When Text
	Says Text
	// Short is what a page says in place of that, in one line; zero for one that is
	// short itself.
	Short Text
	// RealWhen is the condition under which a page puts it before others; zero for none.
	RealWhen Text
	// Owed reports whether every section owes it, so that only a variance takes
	// it away.
	Owed    bool
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Refusal is a limit of what the rulebook covers.
type Refusal struct {
	ID   string
	When Text
	Says Text
	// Who can settle it, such as a licensed engineer.
	Who Text
	// Contradicts reports whether what the job says cannot all be true, so that no
	// such job is worth asking for.
	Contradicts bool
	Source      value.Source
	Place       diagnostic.Place
	Chapter     string
	Amended     *Amended
}

// Promise is what the rulebook owes on every job that gets a section: something
// that always or never holds, or that one value never falls, or never rises, as
// another moves and all else stays as it is.
type Promise struct {
	ID string
	// When is the condition of the jobs that it is about; zero if it is about all.
	When Text
	// Always or Never is the condition, or As and Then say what moves and what then
	// never falls or rises, such as "support_cbr falls" and "stone_need never
	// falls". The others are zero.
	Always  Text
	Never   Text
	As      Text
	Then    Text
	Because Text
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Line is a heading or a fixed sentence of the sheets.
type Line struct {
	Name string
	// Says is its text; what stands in braces is filled by the sheet.
	Says    Text
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Work is what a crew works by: a quantity that the job takes, a step, a tolerance
// that it keeps, something that it may find and then stops for, a remedy for what is in
// the ground when a section changes, an option, another way to build the job, or what the
// client is told.
type Work struct {
	Sort string // quantity, step, tolerance, stop, option, remedy or client
	ID   string
	// Course that it is about, by its name, or a kind of course; it applies only where
	// one is laid. "" if it is about none.
	Course string
	// When is the condition under which it applies; zero if there is none.
	When Text
	// Says has its sentences by their keys: about of a quantity, says, sizes and hold
	// of a step, says and measure of a tolerance, finds, does and calls of a stop, about,
	// gives, lacks and leaves_out of an option, says of a remedy and of what the client
	// is told.
	Says map[string]Text
	// As says what must differ for a remedy, such as "section_depth rises".
	As string
	// Part of the client's sheet in which it stands, a word of client_part, and the ids of
	// the rules, limits, checks, cautions and refusals that it tells in the client's words.
	Part  string
	Tells []string
	// Kind of a quantity, a word of quantity_kind; "" of other work, as the next are.
	Kind string
	// Amount of the quantity; Item is what it is bought as, and zero for what is only
	// told; Step is the whole unit in which it is ordered, and Weighs the density or the
	// areal mass by which it is weighed.
	Amount, Item, Step, Weighs Text
	// CountedIn names the steps, such as load.
	CountedIn string
	Because   Text
	Source    value.Source
	Place     diagnostic.Place
	Chapter   string
	Amended   *Amended
}
