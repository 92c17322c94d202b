package section_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// sample is a section with one of each thing that names a source.
func sample() *section.Section {
	source := func(name string) section.Source {
		return section.Source{Name: name, Text: "the text of " + name, Source: value.Source{ID: name, Known: value.Seen}}
	}
	margin := 0.5
	return &section.Section{Schema: section.Schema, Version: section.Version, Library: "1.0", Status: section.Designed,
		Job:   section.Job{Name: "A & B", Area: value.Measured(quantity.SquareFeet(400)), Input: json.RawMessage(`{"area":"400 sq ft"}`)},
		Depth: value.Measured(quantity.Inches(6)),
		Courses: []section.Course{{Name: "base", Label: "Base", Source: "course", Because: section.Plain("it is < 6"),
			Attributes: []section.Attribute{{Name: "thickness", Value: value.Measured(quantity.Inches(6)), Source: "attribute"}}}},
		Checks:   []section.Check{{ID: "C1", Holds: true, Source: "check", Margin: &margin, Clauses: []section.Clause{}}, {ID: "C2", Source: "check"}},
		Cautions: []section.Caution{{ID: "W", Source: "caution"}}, Steps: []section.Work{{ID: "DIG", Source: "step"}},
		Refusals: []section.Refusal{{ID: "R", Source: "refusal"}},
		Crossed:  []section.Crossed{{Limit: "L", Source: "limit", By: []string{}}},
		Absent:   []section.Absent{{Sort: "course", Name: "roof", Clauses: []section.Clause{}, Because: []section.Sentence{}}, {Sort: "decision", Name: "color", Clauses: []section.Clause{}, Because: []section.Sentence{}}},
		Accounts: []section.Account{{Sort: "setting", Name: "least", Source: "rule"}},
		Sources:  []section.Source{source("rule"), source("course"), source("attribute"), source("check"), source("caution"), source("step"), source("refusal"), source("limit")},
		Reasons:  []section.Reason{{Decision: "base_thickness", Answer: value.Measured(quantity.Inches(6)), Taken: []section.Rule{{ID: "A", Source: "rule"}}}},
	}
}

// A look for what is not there comes to a zero value, however long the chain.
func TestLookups(t *testing.T) {
	s := sample()
	cases := []struct{ name, why, got, want string }{
		{"course", "by its name", s.Course("base").Label, "Base"},
		{"attribute", "of a course", s.Course("base").Attribute("thickness").Value.String(), "6 in"},
		{"reason", "by its decision", s.Reason("base_thickness").Taken[0].ID, "A"},
		{"source", "by its name in the table", s.Source("rule").Text, "the text of rule"},
		{"no course", "the chain goes on", s.Course("roof").Attribute("thickness").Value.String(), "nothing"},
		{"no attribute", "of a course that is there", s.Course("base").Attribute("color").Decision, ""},
		{"no reason", "it has no decision", s.Reason("color").Decision, ""},
		{"no source", "it has no name", s.Source("").Name, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.got, c.why) })
	}
	failed := s.Failed()
	require.Len(t, failed, 1)
	require.Equal(t, "C2", failed[0].ID, "the check that does not hold")
	require.Len(t, s.Checks, 2, "the section has all its checks still")
}

func TestSentence(t *testing.T) {
	cases := []struct {
		name, why string
		s         section.Sentence
		us, si    string
	}{
		{"two", "each system has its own", section.Sentence{US: "6 in", SI: "152 mm"}, "6 in", "152 mm"},
		{"one", "one sentence serves both", section.Plain("none"), "none", "none"},
		{"none", "no sentence is no text", section.Sentence{}, "", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.us, c.s.In(quantity.US), c.why)
			require.Equal(t, c.si, c.s.In(quantity.SI), c.why)
		})
	}
}

func TestForms(t *testing.T) {
	s := sample()
	cases := []struct {
		name, why string
		forms     []section.Form
		lines     int
		reasons   bool
		crew      bool
	}{
		{"usual", "one line without reasons", nil, 1, false, false},
		{"full", "the reasons too", []section.Form{section.Full}, 1, true, false},
		{"crew", "what the crew works by, without reasons", []section.Form{section.Crew}, 1, false, true},
		{"indented", "to be read", []section.Form{section.Indented}, 0, false, false},
		{"both", "in any order", []section.Form{section.Indented, section.Full}, 0, true, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			text, err := s.JSON(c.forms...)
			require.NoError(t, err)
			lines := strings.Count(string(text), "\n")
			require.True(t, c.lines == lines || c.lines == 0 && lines > 50, "%d lines: %s", lines, c.why)
			require.True(t, strings.HasSuffix(string(text), "}\n"), "it ends with the line")
			require.Equal(t, c.reasons, strings.Contains(string(text), `"reasons"`), c.why)
			require.Equal(t, c.reasons, strings.Contains(string(text), "the text of rule"), "a source that reasons alone name goes with them")
			require.Equal(t, c.crew, strings.Contains(string(text), `"steps"`), c.why)
			require.Equal(t, c.crew || c.reasons, strings.Contains(string(text), "the text of step"), "and, but in full, a source that it alone names")
			for _, kept := range []string{"course", "attribute", "check", "caution", "refusal", "limit"} {
				require.Contains(t, string(text), "the text of "+kept, "what stays keeps its source")
			}
			require.Contains(t, string(text), "A & B", "signs are written as they are")
			require.Contains(t, string(text), "it is < 6")
			back, err := section.Read(text)
			require.NoError(t, err)
			want := *s
			if !c.reasons {
				want.Reasons, want.Accounts, want.Sources = nil, nil, s.Sources[1:]
				want.Absent = s.Absent[:1] // why a question is not asked is a reason
			}
			if !c.crew {
				want.Steps = nil
				want.Sources = slices.DeleteFunc(slices.Clone(want.Sources), func(each section.Source) bool { return !c.reasons && each.Name == "step" })
			}
			require.Empty(t, cmp.Diff(&want, back))
		})
	}
	require.Len(t, s.Reasons, 1, "the section itself keeps its reasons")
	require.Len(t, s.Sources, 8)
	require.Len(t, s.Absent, 2)
	_, err := s.JSON("short")
	require.ErrorIs(t, err, section.ErrForm)
	require.ErrorContains(t, err, `"short"; wanted one of full, crew, client, takeoff, questions, indented`)
}

// What is no section is told so, with what was wanted.
func TestReadRefuses(t *testing.T) {
	cases := []struct {
		name, why, text, want string
		form                  bool
	}{
		{"no JSON", "broken off", `{"schema":`, "unexpected end of JSON input", false},
		{"no object", "a list is no section", `[]`, "cannot unmarshal array", false},
		{"nothing", "null is no section", `null`, `its schema is ""; wanted "groundrule/section"`, true},
		{"other schema", "a reason of one course, for instance", `{"schema":"groundrule/reason","version":2}`, `its schema is "groundrule/reason"`, true},
		{"older", "fields have other meanings there", `{"schema":"groundrule/section","version":1}`, "its version is 1; wanted 2", true},
		{"newer", "nobody knows what it means", `{"schema":"groundrule/section","version":3}`, "its version is 3; wanted 2", true},
		{"broken value", "never a zero for what cannot be read", `{"schema":"groundrule/section","version":2,"depth":{"kind":"length","value":6,"unit":"in"}}`, `the unit is "in", and not "m"`, false},
		{"no day", "a day is a day", `{"schema":"groundrule/section","version":2,"as_of":"2026-13-01"}`, "2026-13-01", false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s, err := section.Read([]byte(c.text))
			require.Nil(t, s)
			require.ErrorContains(t, err, c.want, c.why)
			require.ErrorContains(t, err, "read a section: ")
			if c.form {
				require.ErrorIs(t, err, section.ErrForm)
			}
		})
	}
	s, err := section.Read([]byte(`{"schema":"groundrule/section","version":2,"later":1}`))
	require.NoError(t, err, "a field that a later library added")
	require.Equal(t, section.Version, s.Version)
}
