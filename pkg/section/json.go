package section

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
)

// Schema and Version name the JSON form. The version rises when a field changes
// its meaning or goes; a field that is added does not raise it.
const (
	Schema  = "groundrule/section"
	Version = 2
)

// Form says how a section is written as JSON.
type Form string

// The forms. Without any, a section is written on one line and without reasons.
const (
	// Full has the reasons: every rule of each decision that was asked.
	Full Form = "full"
	// Crew has the steps, the tolerances and the stops, of a section that was made with
	// them.
	Crew Form = "crew"
	// Client has what the client is told, of a section that was made with it.
	Client Form = "client"
	// Takeoff has the quantities, of a section that was made with them.
	Takeoff Form = "takeoff"
	// Questions has what the job does not say and would change the section, of a
	// section that was made with it.
	Questions Form = "questions"
	// Indented has each field on a line of its own.
	Indented Form = "indented"
)

// ErrForm is wrapped by the errors of [Read] and [Section.JSON]: what was given
// is no section of this version, or the form is unknown.
var ErrForm = errors.New("not a form of section that this library knows")

// JSON returns the section as JSON, ending in a line break. Each attribute has
// the rule, the sentence and the source of its reason; the whole reasons, and the
// places of their rules, are there in the [Full] form alone, what the crew works by
// in the form [Crew], what the client is told in the form [Client], the quantities in
// the form [Takeoff], and what is worth asking in the form [Questions].
func (s *Section) JSON(forms ...Form) ([]byte, error) {
	shown, err := s.in(forms)
	if err != nil {
		return nil, err
	}
	return encode(shown, forms)
}

// in returns what a section shows in some forms.
func (s *Section) in(forms []Form) (*Section, error) {
	for _, f := range forms {
		if !slices.Contains([]Form{Full, Crew, Client, Takeoff, Questions, Indented}, f) {
			return nil, fmt.Errorf("%w: %q; wanted one of %s, %s, %s, %s, %s, %s", ErrForm, f, Full, Crew, Client, Takeoff, Questions, Indented)
		}
	}
	shown := *s
	s = &shown
	if !slices.Contains(forms, Crew) {
		s.Steps, s.Tolerances, s.Stops = nil, nil, nil
	}
	if !slices.Contains(forms, Client) {
		s.Client = nil
	}
	if !slices.Contains(forms, Takeoff) {
		s.Quantities = nil
	}
	if !slices.Contains(forms, Questions) {
		s.Questions = nil
	}
	if !slices.Contains(forms, Full) {
		s = s.brief()
	}
	return s, nil
}

// encode writes something as JSON, indented if that is one of the forms.
func encode(x any, forms []Form) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if slices.Contains(forms, Indented) {
		enc.SetIndent("", "  ")
	}
	if err := enc.Encode(x); err != nil {
		return nil, fmt.Errorf("write a section: %w", err)
	}
	return b.Bytes(), nil
}

// brief returns the section without its reasons, the places of courses and rules, what they
// rest on, the sources that they alone name, and what would be said of a check that
// holds.
func (s *Section) brief() *Section {
	out := *s
	out.Reasons, out.Accounts, out.NotCrossed = nil, nil, 0
	out.Absent = slices.DeleteFunc(slices.Clone(s.Absent), func(a Absent) bool { return a.Sort == "decision" })
	out.Sources = out.Cited()
	out.Courses = slices.Clone(s.Courses)
	for i := range out.Courses {
		c := &out.Courses[i]
		c.Place, c.Attributes = diagnostic.Place{}, slices.Clone(c.Attributes)
		for k := range c.Attributes {
			c.Attributes[k].Place, c.Attributes[k].Shown = diagnostic.Place{}, false
		}
	}
	out.Checks = slices.Clone(s.Checks)
	for i := range out.Checks {
		if c := &out.Checks[i]; c.Holds {
			c.Says, c.Passes, c.Clauses, c.Place = Sentence{}, Sentence{}, []Clause{}, diagnostic.Place{}
		}
	}
	out.Cautions = slices.Clone(s.Cautions)
	for i := range out.Cautions {
		c := &out.Cautions[i]
		c.Short, c.Usual, c.Real, c.Place = Sentence{}, false, false, diagnostic.Place{}
	}
	return &out
}

// Cited returns those of the section's sources that something in it names.
func (s *Section) Cited() []Source {
	named := map[string]bool{}
	name := func(source string, restsOn ...string) {
		named[source] = true
		for _, on := range restsOn {
			named[on] = true
		}
	}
	for _, r := range s.Reasons {
		for _, rule := range slices.Concat(r.Taken, r.Passed) {
			name(rule.Source, rule.RestsOn...)
		}
	}
	for _, c := range s.Courses {
		name(c.Source)
		for _, a := range c.Attributes {
			name(a.Source, a.RestsOn...)
			for _, v := range a.Amended {
				name(v.Source)
			}
		}
	}
	others := slices.Concat(
		names(s.Crossed, func(c Crossed) string { return c.Source }),
		names(s.Checks, func(c Check) string { return c.Source }),
		names(s.Cautions, func(c Caution) string { return c.Source }),
		names(s.Refusals, func(r Refusal) string { return r.Source }),
		names(s.Quantities, func(q Quantity) string { return q.Source }),
		names(slices.Concat(s.Steps, s.Tolerances, s.Stops, s.Client), func(w Work) string { return w.Source }),
		names(s.Accounts, func(a Account) string { return a.Source }))
	for _, source := range others {
		named[source] = true
	}
	return slices.DeleteFunc(slices.Clone(s.Sources), func(each Source) bool { return !named[each.Name] })
}

// Read reads a section in any of its forms. The error wraps [ErrForm] if it is
// another document, or of a version that this library does not know.
func Read(data []byte) (*Section, error) {
	var head struct {
		Schema  string
		Version int
	}
	if err := decode("a section", data, &head); err != nil {
		return nil, err
	}
	if head.Schema != Schema {
		return nil, fmt.Errorf("read a section: %w: its schema is %q; wanted %q", ErrForm, head.Schema, Schema)
	}
	if head.Version != Version {
		return nil, fmt.Errorf("read a section: %w: its version is %d; wanted %d", ErrForm, head.Version, Version)
	}
	var s Section
	if err := decode("a section", data, &s); err != nil {
		return nil, err
	}
	return &s, nil
}

// decode reads JSON, the input of a job compact whether the rest is indented or not.
func decode(what string, data []byte, into any) error {
	var compact bytes.Buffer
	err := json.Compact(&compact, data)
	if err == nil {
		err = json.Unmarshal(compact.Bytes(), into)
	}
	if err != nil {
		return fmt.Errorf("read %s: %w", what, err)
	}
	return nil
}
