// Package section is the result of a design: the courses from the bottom up,
// each attribute with its reason, the checks, the cautions, and what was
// presumed. It is data, ready to be shown, kept, sent and read back.
//
// # The JSON form
//
// [Section.JSON] writes a section and [Read] reads it back. JSON.md describes
// every field, and "groundrule book schema section" prints its JSON Schema. The
// order of fields is the order of the structs here, and the order of every list
// is documented at its field; nothing depends on the order of a map. A quantity
// is written as
//
//	{"kind": "length", "value": 0.1524, "unit": "m", "us": "6 in", "si": "152.4 mm"}
//
// and a sentence as {"us": "...", "si": "..."}, each without "si" where both are the
// same, so that a screen in either system of units needs no arithmetic. A source
// is written once, in the table of sources; whatever rests on it names it.
package section

import (
	"encoding/json"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Status is what a design came to.
type Status string

// What a design can come to.
const (
	// Designed: the section can be built, once what was presumed is confirmed.
	Designed Status = "designed"
	// Refused: the job is outside what the rulebook covers. There is no section.
	Refused Status = "refused"
	// Stopped: a check that stops the design failed, or an answer is beyond a limit
	// and nothing permits it. The courses show what was
	// tried; they are not to be built.
	Stopped Status = "stopped"
)

// Section is the whole result of one design.
type Section struct {
	// Schema names the form.
	Schema string `json:"schema"`
	// Version of the form.
	Version int `json:"version"`
	// Library is the version of the library that made the section. Calculations
	// belong to the library, so that the files alone do not pin the result.
	Library string `json:"library"`
	// Language in which the texts are, where it is not the rulebook's own; what it lacks is
	// in that.
	Language string `json:"language,omitempty"`
	// Numbers says how the language writes numbers and units, for a sheet to write them
	// alike: what stands for "decimal", for "thousands", and for units by their symbols.
	// The us and si of values are without it.
	Numbers map[string]string `json:"numbers,omitempty"`
	// Status is designed, refused or stopped.
	Status Status `json:"status"`
	// Job says whose section it is, and from what it was designed.
	Job Job `json:"job"`
	// Files are the rule files that the section was made from, by name, with the
	// hash of their bytes.
	Files []rulebook.File `json:"files"`
	// AsOf is the day whose rules were followed; left out if none was given.
	AsOf rulebook.Date `json:"as_of,omitzero"`
	// Amendments in force, in the order in which they lie over the rulebook.
	Amendments []rulebook.Amendment `json:"amendments"`
	// Variances in force, by which anything is permitted.
	Variances []rulebook.Variance `json:"variances"`
	// Idle is what amendments say and is not in force on that day.
	Idle []rulebook.Idle `json:"idle"`
	// Lifted is what amendments took away and would have spoken on this job, in the
	// order of the rulebook.
	Lifted []Lifted `json:"lifted"`
	// Crossed are answers beyond a limit, in the order of use.
	Crossed []Crossed `json:"crossed"`
	// Refusals are the limits that the job crossed, in the order of the
	// rulebook; only for a refused job.
	Refusals []Refusal `json:"refusals"`
	// NotCrossed is how many limits were looked at and not crossed, in the full form
	// alone.
	NotCrossed int `json:"not_crossed,omitempty"`
	// Depth is from finish grade to the bottom of the excavation; null for a
	// refused job.
	Depth value.Value `json:"depth"`
	// Courses from the bottom up.
	Courses []Course `json:"courses"`
	// Checks in the order of the rulebook.
	Checks []Check `json:"checks"`
	// Cautions in the order of the rulebook.
	Cautions []Caution `json:"cautions"`
	// Quantities that the job takes, in the order of the rulebook. They are in the form
	// takeoff alone.
	Quantities []Quantity `json:"quantities,omitzero"`
	// Steps of the crew, in the order in which they are done. They, the tolerances and
	// the stops are in the form crew alone.
	Steps []Work `json:"steps,omitzero"`
	// Tolerances that the crew keeps, in the order of the rulebook.
	Tolerances []Work `json:"tolerances,omitzero"`
	// Stops are what the crew may find and then stops for, in the order of the
	// rulebook.
	Stops []Work `json:"stops,omitzero"`
	// Client is what the client is told, in the order of the rulebook; of a refused or
	// stopped job, why. Only the form client has it.
	Client []Work `json:"client,omitzero"`
	// Confirm lists what was presumed and not measured, in the order in which
	// it was needed; of a refused job, what its refusals rest on.
	Confirm []Presumed `json:"confirm"`
	// Questions are what the job does not say and would change the section, the
	// weightiest first. Only the form questions has them, an empty list if there are
	// none.
	Questions []Question `json:"questions,omitzero"`
	// Overrides are the decisions that a person took over, in the order of use;
	// those that are not asked come last.
	Overrides []Override `json:"overrides"`
	// Absent are the courses of the rulebook that are not laid, from the bottom up,
	// the values of the job without which the section is the same, in the order of
	// the job file, and, in the full form, the questions that are not asked. A refused
	// job has none.
	Absent []Absent `json:"absent"`
	// Absorbed are errors in part of a condition whose other part settled it.
	Absorbed []string `json:"absorbed"`
	// Sources that anything here rests on, in the order in which they are first
	// named.
	Sources []Source `json:"sources"`
	// Reasons has one reason for each decision that was asked and for the
	// presence of each course, in the order of use; of a refused job, for each
	// decision on which its refusals rest. Only the full form has them.
	Reasons []Reason `json:"reasons,omitzero"`
	// Accounts has what each setting, term, word and material that the reasons and the
	// refusals name rests on, in the order of their names. Only the full form has them.
	Accounts []Account `json:"accounts,omitzero"`
}

// Job says whose section it is, and from what it was designed.
type Job struct {
	// Name of the job.
	Name string `json:"name,omitempty"`
	// Part is the name of the area, in a job of several.
	Part string `json:"part,omitempty"`
	// Client for whom it is built.
	Client string `json:"client,omitempty"`
	// Place where it is built.
	Place string `json:"place,omitempty"`
	// Area that is paved.
	Area value.Value `json:"area"`
	// Use is what the area is used for, to show a person; in the form crew alone.
	Use string `json:"use,omitempty"`
	// Input is the job as it was read, written as a job file, so that it can be
	// designed again.
	Input json.RawMessage `json:"input,omitempty"`
}

// Course is one layer or element.
type Course struct {
	// Name of the course in the rulebook.
	Name string `json:"name"`
	// Label to show a person.
	Label string `json:"label"`
	// Is says what sort of course it is: a word of course_kind.
	Is string `json:"is"`
	// Top is the depth of its top below finish grade; as Bottom for what has no
	// thickness. Of a pipe both are the depth of its invert.
	Top value.Value `json:"top"`
	// Bottom is the depth of its underside below finish grade.
	Bottom value.Value `json:"bottom"`
	// Presence names the reason for which the course is there; the short form of
	// that reason is here.
	Presence string `json:"presence"`
	// Rule is the id of that reason.
	Rule string `json:"rule"`
	// Because is why the course is there.
	Because Sentence `json:"because"`
	// Source names the source of that.
	Source string `json:"source"`
	// Place where the course is declared, in the full form alone.
	Place diagnostic.Place `json:"place,omitzero"`
	// Attributes in the order of the rulebook.
	Attributes []Attribute `json:"attributes"`
}

// Attribute is one property of a course, with the short form of its reason.
type Attribute struct {
	// Name of the attribute.
	Name string `json:"name"`
	// Label to show a person.
	Label string `json:"label"`
	// Value of the attribute.
	Value value.Value `json:"value"`
	// Presumed is set for a value that nobody measured, or that passes on one: see
	// Confirm.
	Presumed bool `json:"presumed,omitempty"`
	// Shown is set for one that a page shows beside the course, in the full form alone.
	Shown bool `json:"shown,omitempty"`
	// Decision that it is taken from; its whole reason has that name.
	Decision string `json:"decision"`
	// Rule that was taken; "override" if a person decided.
	Rule string `json:"rule"`
	// Because is why, in a sentence.
	Because Sentence `json:"because"`
	// Source names the source of the rule; left out if a person decided.
	Source string `json:"source,omitempty"`
	// RestsOn names the sources of the answers that the rule passes on.
	RestsOn []string `json:"rests_on,omitempty"`
	// Place where the rule is written, in the full form alone; left out if a person
	// decided.
	Place diagnostic.Place `json:"place,omitzero"`
	// Amended are the settings that the rule read and an amendment set: their values
	// are the amendment's, and not of the rule's source. Left out if there are none.
	Amended []AmendedValue `json:"amended,omitempty"`
}

// AmendedValue is a value of an amendment that an attribute rests on.
type AmendedValue struct {
	// Setting by its name.
	Setting string `json:"setting"`
	// Value that the amendment gave it.
	Value value.Value `json:"value"`
	// By which amendment.
	By string `json:"by"`
	// Source names the source of the value.
	Source string `json:"source"`
}

// Sentence is a sentence in both systems of units.
type Sentence struct {
	// US writes quantities in feet, inches and pounds.
	US string `json:"us"`
	// SI writes them in meters and kilograms; left out if that is the same.
	SI string `json:"si,omitempty"`
}

// In returns the sentence in one system.
func (s Sentence) In(system quantity.System) string {
	if system.Base() == quantity.SI && s.SI != "" {
		return s.SI
	}
	return s.US
}

// Plain is a sentence that is the same in both systems.
func Plain(text string) Sentence { return Sentence{US: text} }

// Source is an entry of the table of sources.
type Source struct {
	// Name by which the section refers to it, as rule files do: the id, with the
	// clause after a comma.
	Name string `json:"name"`
	// Text is the source in words, with how well it is known.
	Text string `json:"text"`
	value.Source
}

// Source returns a source by its name, the zero Source if there is none.
func (s *Section) Source(name string) Source {
	return find(s.Sources, func(each *Source) bool { return each.Name == name })
}

// Reason returns the reason for a decision, or that with the name of a course's
// presence; the zero Reason if there is none.
func (s *Section) Reason(decision string) Reason {
	return find(s.Reasons, func(r *Reason) bool { return r.Decision == decision })
}

// Course returns a course by its name, the zero Course if there is none.
func (s *Section) Course(name string) Course {
	return find(s.Courses, func(c *Course) bool { return c.Name == name })
}

// Attribute returns an attribute of the course by its name, the zero Attribute
// if there is none.
func (c Course) Attribute(name string) Attribute {
	return find(c.Attributes, func(a *Attribute) bool { return a.Name == name })
}

// Above is how high the top of a course is above the bottom of the dig; the zero Value
// where that is not known, as of a job that was refused.
func (s *Section) Above(c Course) value.Value {
	depth, known := s.Depth.Length()
	top, has := c.Top.Length()
	if !known || !has {
		return value.Value{}
	}
	return value.Measured(depth - top)
}

// find returns the first that is wanted, or a zero one.
func find[T any](list []T, wanted func(*T) bool) (found T) {
	for i := range list {
		if wanted(&list[i]) {
			return list[i]
		}
	}
	return found
}

// Failed returns the checks that do not hold.
func (s *Section) Failed() []Check {
	return slices.DeleteFunc(slices.Clone(s.Checks), func(c Check) bool { return c.Holds })
}
