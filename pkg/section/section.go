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

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
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
	Files []rulebook.File `json:"files"`
	// AsOf is the day by whose rules the section was made; "" if none was told.
	AsOf rulebook.Date `json:"as_of,omitzero"`
	// Amendments that were laid over the rulebook, in their order.
	Amendments []rulebook.Amendment `json:"amendments,omitempty"`
	// Variances by which a setting crosses its limit.
	Variances []rulebook.Variance `json:"variances,omitempty"`
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

// Sentence is a sentence in both systems of units.
type Sentence struct {
	// US writes quantities in feet, inches and pounds.
	US string `json:"us"`
	// SI writes them in meters and kilograms.
	SI string `json:"si"`
}

// In returns the sentence in one system.
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

// JSON returns the section in its documented form, indented, ending in a newline.
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
