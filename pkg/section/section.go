// Package section is the result of a design: the courses from the bottom up,
// each attribute with its reason, the checks, the cautions, and what was
// presumed. It is data, ready to be shown, kept or sent.
//
// # The JSON form
//
// The order of fields is the order of the structs here, and the order of every
// list is documented at its field; nothing depends on the order of a map. A
// quantity is written as
//
//	{"kind": "length", "value": 0.1524, "unit": "m", "us": "6 in", "si": "152 mm"}
//
// and a sentence as {"us": "...", "si": "..."}, so that a screen in either
// system of units needs no arithmetic. [Schema] and [Version] stand at the head.
package section

import (
	"encoding/json"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/source"
	"example.com/groundrule/pkg/value"
)

// Schema and Version name the JSON form. The version rises when a field changes
// its meaning or goes; a field that is added does not raise it.
const (
	Schema  = "groundrule/section"
	Version = 1
)

// Status is what a design came to.
type Status string

// What a design can come to.
const (
	// Designed: the section can be built, once what was presumed is confirmed.
	Designed Status = "designed"
	// Refused: the job lies outside what the rulebook covers. There is no section.
	Refused Status = "refused"
	// Stopped: a check failed that stops the design. The courses show what was
	// tried; they are not to be built.
	Stopped Status = "stopped"
)

// Section is the whole result of one design.
type Section struct {
	// Schema names the form.
	Schema string `json:"schema"`
	// Version of the form.
	Version int `json:"version"`
	// Status is designed, refused or stopped.
	Status Status `json:"status"`
	// Job says whose section it is.
	Job Job `json:"job"`
	// Files are the rule files the section was made from, by name, with the
	// hash of their bytes.
	Files []File `json:"files"`
	// AsOf is the day by whose rules the section was made; "" if none was told.
	AsOf string `json:"as_of,omitempty"`
	// Amendments that were laid over the rulebook, in their order.
	Amendments []Amendment `json:"amendments,omitempty"`
	// Variances by which a setting crosses its limit.
	Variances []Variance `json:"variances,omitempty"`
	// Refusals are the limits that the job crossed, in the order of the
	// rulebook; only for a refused job.
	Refusals []Refusal `json:"refusals,omitempty"`
	// Depth is from the finished surface to the excavation floor.
	Depth value.Value `json:"depth"`
	// Courses lie from the bottom up.
	Courses []Course `json:"courses"`
	// Checks in the order of the rulebook.
	Checks []Check `json:"checks"`
	// Cautions in the order of the rulebook.
	Cautions []Caution `json:"cautions"`
	// Confirm lists what was presumed and not measured, in the order in which
	// it was needed.
	Confirm []Presumed `json:"confirm"`
	// Overrides are the decisions that a person took over, in the order of use.
	Overrides []Override `json:"overrides,omitempty"`
	// Absorbed are errors in part of a condition whose other part settled it.
	Absorbed []string `json:"absorbed,omitempty"`
	// Reasons has one reason for each decision that was asked and for the
	// presence of each course, in the order of use.
	Reasons []*Reason `json:"reasons"`
}

// Job says whose section it is.
type Job struct {
	// Name of the job.
	Name string `json:"name,omitempty"`
	// Client for whom it is built.
	Client string `json:"client,omitempty"`
	// Place where it is built.
	Place string `json:"place,omitempty"`
	// Area that is paved.
	Area value.Value `json:"area"`
}

// Amendment is a company's change to the rulebook.
type Amendment struct {
	// Name of the amendment.
	Name string `json:"name"`
	// Who made it.
	Who string `json:"who"`
	// When it was made, a day.
	When string `json:"when"`
	// Why it was made.
	Why string `json:"why"`
}

// Variance is leave by which a setting crosses its limit.
type Variance struct {
	// Name of the variance.
	Name string `json:"name"`
	// Setting that it lets cross a limit.
	Setting string `json:"setting"`
	// Value that the setting has by it.
	Value value.Value `json:"value"`
	// Limit that is crossed.
	Limit value.Value `json:"limit"`
	// Who gave leave.
	Who string `json:"who"`
	// Why leave was given.
	Why string `json:"why"`
	// Until which day it holds.
	Until string `json:"until"`
}

// Amended tells how an amendment changed a rule or a setting.
type Amended struct {
	// By which amendment.
	By Amendment `json:"by"`
	// Because of what this very change was made.
	Because string `json:"because"`
	// Place of the change.
	Place diagnostic.Place `json:"place"`
	// Replaced is the entry that stood there before; null for what was added.
	Replaced *Replaced `json:"replaced,omitempty"`
}

// Replaced is an entry as it stood before an amendment.
type Replaced struct {
	// ID of the rule, or name of the setting.
	ID string `json:"id"`
	// When it held, as written.
	When string `json:"when,omitempty"`
	// Answer or value, as written.
	Answer string `json:"answer,omitempty"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
}

// File is a rule file with the hash of its bytes.
type File struct {
	// Name of the file.
	Name string `json:"name"`
	// SHA256 of its bytes, in hexadecimal.
	SHA256 string `json:"sha256"`
}

// Course is one layer or element.
type Course struct {
	// Name of the course in the rulebook.
	Name string `json:"name"`
	// Label to show a person.
	Label string `json:"label"`
	// Is says what sort of course it is: a word of course_kind.
	Is string `json:"is"`
	// Top is the depth of its top below the finished surface; as Bottom for what
	// has no thickness.
	Top value.Value `json:"top"`
	// Bottom is the depth of its underside below the finished surface.
	Bottom value.Value `json:"bottom"`
	// Presence names the reason for which the course is there.
	Presence string `json:"presence"`
	// Attributes in the order of the rulebook.
	Attributes []Attribute `json:"attributes"`
}

// Attribute is one property of a course. Its reason is the one under Decision
// in Section.Reasons; the short form of it stands here.
type Attribute struct {
	// Name of the attribute.
	Name string `json:"name"`
	// Value of the attribute.
	Value value.Value `json:"value"`
	// Decision that it is taken from; its reason is under that name.
	Decision string `json:"decision"`
	// Rule that was taken.
	Rule string `json:"rule"`
	// Because of what, in a sentence.
	Because Sentence `json:"because"`
	// Source in words, with how it is known.
	Source string `json:"source"`
}

// Reason is what a decision leaves behind.
type Reason struct {
	// Decision is the name of the decision, or "course NAME" for a presence.
	Decision string `json:"decision"`
	// Asks is the question that the decision answers.
	Asks string `json:"asks"`
	// Answer that was taken.
	Answer value.Value `json:"answer"`
	// Take is how the answer was chosen: first, only, largest, smallest, all.
	Take string `json:"take"`
	// Taken are the rules whose answers were taken: one, or several for all.
	Taken []Rule `json:"taken"`
	// Passed are the other rules, in the order of the file.
	Passed []Rule `json:"passed,omitempty"`
}

// State is what a rule came to.
type State string

// What a rule can come to.
const (
	Chosen     State = "chosen"
	Held       State = "held"        // it holds; another answer was taken
	NotHeld    State = "not held"    // its condition does not hold
	NotReached State = "not reached" // an earlier rule had answered
)

// Rule is a rule as it bore on a decision.
type Rule struct {
	// ID of the rule.
	ID string `json:"id"`
	// State is chosen, held, not held or not reached.
	State State `json:"state"`
	// Place where the rule stands.
	Place diagnostic.Place `json:"place"`
	// Chapter in which it stands.
	Chapter string `json:"chapter,omitempty"`
	// Answer of a rule that holds.
	Answer *value.Value `json:"answer,omitempty"`
	// Because of what it answers so, in a sentence.
	Because Sentence `json:"because"`
	// Source is where the rule comes from; SourceText is it in words.
	Source source.Source `json:"source"`
	// SourceText is the source in words.
	SourceText string `json:"source_text"`
	// Standing is measured, correlated or presumed, for a rule that tells a
	// value of the site.
	Standing string `json:"standing,omitempty"`
	// Clauses are those that settle it: that made it hold, or made it fail.
	Clauses []Clause `json:"clauses,omitempty"`
	// Used are the values that the rule read.
	Used []Used `json:"used,omitempty"`
	// By is the person, for an override.
	By string `json:"by,omitempty"`
	// Amended is there for a rule that came by an amendment.
	Amended *Amended `json:"amended,omitempty"`
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
	Origin string `json:"origin"`
	// Presumed tells that the value was presumed and not measured, or is a term
	// that rests on one that was.
	Presumed bool `json:"presumed,omitempty"`
	// Amended is there for a setting that an amendment set.
	Amended *Amended `json:"amended,omitempty"`
}

// Check is something that the section must satisfy, with what it came to.
type Check struct {
	// ID of the check.
	ID string `json:"id"`
	// Asks is the question that it puts.
	Asks string `json:"asks"`
	// Holds tells what it came to.
	Holds bool `json:"holds"`
	// Failing is what it does if it does not hold: stop or caution.
	Failing string `json:"failing"`
	// Value that is held against a limit, for a check that compares.
	Value *value.Value `json:"value,omitempty"`
	// Limit that the value is held against.
	Limit *value.Value `json:"limit,omitempty"`
	// Bound says which side of the limit is right: at least or at most.
	Bound string `json:"bound,omitempty"`
	// Margin as a share of the limit; positive is on the right side.
	Margin *float64 `json:"margin,omitempty"`
	// Says what to do if it does not hold.
	Says Sentence `json:"says"`
	// Because of what it is asked, in a sentence.
	Because Sentence `json:"because"`
	// SourceText is the source in words.
	SourceText string `json:"source_text"`
	// Source of the check.
	Source source.Source `json:"source"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
	// Clauses that settle it, for a check that does not compare.
	Clauses []Clause `json:"clauses,omitempty"`
}

// Caution is something to tell whoever builds the section.
type Caution struct {
	// ID of the caution.
	ID string `json:"id"`
	// Says what to heed.
	Says Sentence `json:"says"`
	// SourceText is the source in words.
	SourceText string `json:"source_text"`
	// Source of the caution.
	Source source.Source `json:"source"`
	// Place where it stands.
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
	// SourceText is the source in words.
	SourceText string `json:"source_text"`
	// Source of the limit.
	Source source.Source `json:"source"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
	// Clauses that settle it.
	Clauses []Clause `json:"clauses,omitempty"`
}

// Presumed is a value that was presumed and not measured.
type Presumed struct {
	// Name of the decision that presumes.
	Name string `json:"name"`
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
	// Answer of the person.
	Answer value.Value `json:"answer"`
	// Instead is what the rulebook would have answered; null if nothing.
	Instead value.Value `json:"instead"`
	// By whom.
	By string `json:"by"`
	// Because of what.
	Because string `json:"because"`
}

// Sentence is a sentence in both systems of units.
type Sentence struct {
	// US writes quantities in feet, inches and pounds.
	US string `json:"us"`
	// SI writes them in metres and kilograms.
	SI string `json:"si"`
}

// In gives the sentence in one system.
func (s Sentence) In(system quantity.System) string {
	if system == quantity.SI {
		return s.SI
	}
	return s.US
}

// Plain is a sentence that quotes no quantity.
func Plain(text string) Sentence { return Sentence{US: text, SI: text} }

// Reason finds the reason under a decision's name, or nil.
func (s *Section) Reason(decision string) *Reason {
	i := slices.IndexFunc(s.Reasons, func(r *Reason) bool { return r.Decision == decision })
	if i < 0 {
		return nil
	}
	return s.Reasons[i]
}

// Course finds a course by its name, or nil.
func (s *Section) Course(name string) *Course {
	i := slices.IndexFunc(s.Courses, func(c Course) bool { return c.Name == name })
	if i < 0 {
		return nil
	}
	return &s.Courses[i]
}

// Attribute finds an attribute of the course, or nil.
func (c *Course) Attribute(name string) *Attribute {
	i := slices.IndexFunc(c.Attributes, func(a Attribute) bool { return a.Name == name })
	if i < 0 {
		return nil
	}
	return &c.Attributes[i]
}

// Failed gives the checks that do not hold.
func (s *Section) Failed() []Check {
	var out []Check
	for _, c := range s.Checks {
		if !c.Holds {
			out = append(out, c)
		}
	}
	return out
}

// JSON gives the section in its documented form, indented, ending in a newline.
func (s *Section) JSON() ([]byte, error) {
	var b strings.Builder
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(s); err != nil {
		return nil, err
	}
	return []byte(b.String()), nil
}
