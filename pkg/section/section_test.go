package section_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// sample is a section with one of each thing that names a source.
func sample() *section.Section {
	source := func(name string) section.Source {
		return section.Source{Name: name, Text: "the text of " + name, Source: value.Source{ID: name, Known: value.Seen}}
	}
	at := func(line int) diagnostic.Place { return diagnostic.Place{File: "rules.yaml", Line: line} }
	margin := 0.5
	return &section.Section{Schema: section.Schema, Version: section.Version, Library: "1.0", Status: section.Designed,
		Job:   section.Job{Name: "A & B", Area: value.Measured(quantity.SquareFeet(400)), Input: json.RawMessage(`{"area":"400 sq ft"}`)},
		Depth: value.Measured(quantity.Inches(6)),
		Courses: []section.Course{{Name: "base", Label: "Base", Source: "course", Because: section.Plain("it is < 6"), Place: at(1), Top: value.Measured(quantity.Inches(2)), Bottom: value.Measured(quantity.Inches(6)),
			Attributes: []section.Attribute{{Name: "thickness", Value: value.Measured(quantity.Inches(4)), Source: "attribute", RestsOn: []string{"rested on"}, Place: at(2), Shown: true,
				Amended: []section.AmendedValue{{Setting: "least", Source: "amended"}}}}}},
		Checks: []section.Check{{ID: "C1", Holds: true, Source: "check", Margin: &margin, Clauses: []section.Clause{{Text: "deep", Values: []section.Used{}}}, Says: section.Plain("Dig."), Passes: section.Plain("It is deep."), Place: at(3)},
			{ID: "C2", Source: "check", Clauses: []section.Clause{{Text: "wide", Values: []section.Used{}}}, Says: section.Plain("Widen."), Place: at(4)}},
		Cautions: []section.Caution{{ID: "W", Source: "caution", Short: section.Plain("Mind."), Usual: true, Real: true, Place: at(5)}},
		Steps:    []section.Work{{ID: "DIG", Source: "step"}}, Tolerances: []section.Work{{ID: "LEVEL", Source: "tolerance"}}, Stops: []section.Work{{ID: "PIPE", Source: "stop"}},
		Client: []section.Work{{ID: "TOLD", Source: "client"}}, Quantities: []section.Quantity{{ID: "STONE", Source: "quantity", Courses: []string{}}},
		Questions: []section.Question{{Key: "soil.word", Choices: []section.Otherwise{}}}, NotCrossed: 3,
		Refusals: []section.Refusal{{ID: "R", Source: "refusal"}},
		Crossed:  []section.Crossed{{Limit: "L", Source: "limit", By: []string{}}},
		Absent:   []section.Absent{{Sort: "course", Name: "roof", Clauses: []section.Clause{}, Because: []section.Sentence{}}, {Sort: "decision", Name: "color", Clauses: []section.Clause{}, Because: []section.Sentence{}}},
		Accounts: []section.Account{{Sort: "setting", Name: "least", Source: "rule"}},
		Sources: []section.Source{source("rule"), source("course"), source("attribute"), source("rested on"), source("amended"), source("check"), source("caution"), source("refusal"), source("limit"),
			source("step"), source("tolerance"), source("stop"), source("client"), source("quantity")},
		Reasons: []section.Reason{{Decision: "base_thickness", Answer: value.Measured(quantity.Inches(4)), Taken: []section.Rule{{ID: "A", Source: "rule"}}}},
	}
}

// A look for what is not there comes to a zero value, however long the chain.
func TestLookups(t *testing.T) {
	s := sample()
	cases := []struct{ name, why, got, want string }{
		{"course", "by its name", s.Course("base").Label, "Base"},
		{"attribute", "of a course", s.Course("base").Attribute("thickness").Value.String(), "4 in"},
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
	work := []string{"step", "tolerance", "stop"}
	cases := []struct {
		name, why string
		forms     []section.Form
		lines     int
		more      []string // the sources beside those that every form has
	}{
		{"usual", "one line without reasons", nil, 1, nil},
		{"full", "the reasons too, and every source", []section.Form{section.Full}, 1, append([]string{"rule", "client", "quantity"}, work...)},
		{"crew", "what the crew works by, without reasons", []section.Form{section.Crew}, 1, work},
		{"client", "what the client is told", []section.Form{section.Client}, 1, []string{"client"}},
		{"take-off", "what is ordered", []section.Form{section.Takeoff}, 1, []string{"quantity"}},
		{"questions", "what is worth asking", []section.Form{section.Questions}, 1, nil},
		{"indented", "to be read", []section.Form{section.Indented}, 0, nil},
		{"several", "in any order", []section.Form{section.Indented, section.Client, section.Crew}, 0, append([]string{"client"}, work...)},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			text, err := s.JSON(c.forms...)
			require.NoError(t, err)
			lines := strings.Count(string(text), "\n")
			require.True(t, c.lines == lines || c.lines == 0 && lines > 50, "%d lines: %s", lines, c.why)
			require.True(t, strings.HasSuffix(string(text), "}\n"), "it ends with the line")
			require.Contains(t, string(text), "A & B", "signs are written as they are")
			require.Contains(t, string(text), "it is < 6")
			back, err := section.Read(text)
			require.NoError(t, err)
			want, has := sample(), func(f section.Form) bool { return slices.Contains(c.forms, f) }
			named := append([]string{"course", "attribute", "rested on", "amended", "check", "caution", "refusal", "limit"}, c.more...)
			want.Sources = slices.DeleteFunc(want.Sources, func(each section.Source) bool { return !slices.Contains(named, each.Name) })
			if !has(section.Full) { // reasons and places go, and what is said of a check that holds
				want.Reasons, want.Accounts, want.NotCrossed = nil, nil, 0
				want.Absent = want.Absent[:1] // why a question is not asked is a reason
				course, holds, fails, caution := &want.Courses[0], &want.Checks[0], &want.Checks[1], &want.Cautions[0]
				course.Place, course.Attributes[0].Place, course.Attributes[0].Shown = diagnostic.Place{}, diagnostic.Place{}, false
				holds.Says, holds.Passes, holds.Clauses, holds.Place = section.Sentence{}, section.Sentence{}, []section.Clause{}, diagnostic.Place{}
				require.NotEmpty(t, fails.Says, "of one that fails it stays")
				caution.Short, caution.Usual, caution.Real, caution.Place = section.Sentence{}, false, false, diagnostic.Place{}
			}
			if !has(section.Crew) {
				want.Steps, want.Tolerances, want.Stops = nil, nil, nil
			}
			if !has(section.Client) {
				want.Client = nil
			}
			if !has(section.Takeoff) {
				want.Quantities = nil
			}
			if !has(section.Questions) {
				want.Questions = nil
			}
			require.Empty(t, cmp.Diff(want, back))
		})
	}
	require.Empty(t, cmp.Diff(sample(), s), "the section itself stays as it was")
	_, err := s.JSON("short")
	require.ErrorIs(t, err, section.ErrForm)
	require.ErrorContains(t, err, `"short"; wanted one of full, crew, client, takeoff, questions, indented`)
}

// What cannot be written is an error, and not half a section.
func TestUnwritable(t *testing.T) {
	s := sample()
	s.Depth = value.Measured(quantity.Length(math.NaN()))
	text, err := s.JSON()
	require.ErrorContains(t, err, "write a section: ")
	require.Empty(t, text)
	_, err = (&section.Areas{Sections: []*section.Section{s}}).JSON()
	require.ErrorContains(t, err, "write a section: ")
}

func TestAbove(t *testing.T) {
	s := sample()
	require.Equal(t, "4 in", s.Above(s.Courses[0]).String(), "its top is 2 in below finish grade and the dig 6 in deep")
	require.True(t, s.Above(section.Course{}).IsZero(), "of a course without a top")
	require.True(t, (&section.Section{}).Above(s.Courses[0]).IsZero(), "of a section without a depth")
}

// areas are two that join.
func areas() *section.Areas {
	s := sample()
	return &section.Areas{Schema: section.AreasSchema, Version: section.Version, Sections: []*section.Section{sample(), sample()},
		Joints: []section.Joint{{Of: "drive", Beside: "walk", Length: value.Measured(quantity.Feet(12)), Courses: s.Courses, Crossed: s.Crossed, Sources: s.Sources, Steps: s.Steps, Reasons: s.Reasons, Accounts: s.Accounts}}}
}

func TestAreas(t *testing.T) {
	a := areas()
	full, err := a.JSON(section.Full, section.Crew, section.Client, section.Takeoff, section.Questions)
	require.NoError(t, err)
	var back section.Areas
	require.NoError(t, json.Unmarshal(full, &back))
	require.Empty(t, cmp.Diff(a, &back), "read back as they were")
	short, err := a.JSON(section.Crew)
	require.NoError(t, err)
	back = section.Areas{}
	require.NoError(t, json.Unmarshal(short, &back))
	for _, s := range a.Sections {
		text, err := s.JSON(section.Crew)
		require.NoError(t, err)
		brief, err := section.Read(text)
		require.NoError(t, err)
		require.Empty(t, cmp.Diff(brief, back.Sections[0]), "each section in the form")
	}
	j := back.Joints[0]
	require.Equal(t, []int{0, 0, 1}, []int{len(j.Reasons), len(j.Accounts), len(j.Steps)}, "and each joint")
	var sources []string
	for _, s := range j.Sources {
		sources = append(sources, s.Name)
	}
	require.Equal(t, []string{"course", "attribute", "rested on", "amended", "limit", "step"}, sources)
	require.Empty(t, cmp.Diff(areas(), a), "the areas themselves stay as they were")

	own := a.Joints[0].Section()
	require.Equal(t, "drive and walk", own.Job.Name)
	require.Equal(t, section.Designed, own.Status)
	require.Equal(t, []int{1, 1, 1, 1, 1, 14}, []int{len(own.Courses), len(own.Crossed), len(own.Steps), len(own.Reasons), len(own.Accounts), len(own.Sources)})
	for _, c := range []struct{ name, why, text, want string }{
		{"no JSON", "broken off", `{"schema":`, "unexpected end of JSON input"},
		{"broken value", "never a zero for what cannot be read", `{"schema":"groundrule/areas","version":2,"joints":[{"length":{"kind":"length","value":6,"unit":"in"}}]}`, `the unit is "in", and not "m"`},
		{"one section", "it is no areas", `{"schema":"groundrule/section","version":2}`, `it is "groundrule/section" of version 2; wanted "groundrule/areas" of version 2`},
		{"newer", "nobody knows what it means", `{"schema":"groundrule/areas","version":3}`, `it is "groundrule/areas" of version 3`},
	} {
		t.Run(c.name, func(t *testing.T) {
			was := section.Areas{Schema: "kept"}
			require.ErrorContains(t, was.UnmarshalJSON([]byte(c.text)), c.want, c.why)
			require.Equal(t, "kept", was.Schema, "what was there is kept")
		})
	}
	_, err = a.JSON("short")
	require.ErrorIs(t, err, section.ErrForm)
	_, err = (&section.Areas{Joints: a.Joints}).JSON("short")
	require.ErrorIs(t, err, section.ErrForm)
}

func TestStatusOfAreas(t *testing.T) {
	permitted := section.Joint{Crossed: []section.Crossed{{Variance: "v"}}}
	crossed := section.Joint{Crossed: []section.Crossed{{Variance: "v"}, {}}}
	for _, c := range []struct {
		name, why string
		of        []section.Status
		joints    []section.Joint
		want      section.Status
	}{
		{"designed", "each is", []section.Status{section.Designed, section.Designed}, []section.Joint{{}, permitted}, section.Designed},
		{"stopped", "one is", []section.Status{section.Designed, section.Stopped}, nil, section.Stopped},
		{"refused", "that weighs more", []section.Status{section.Refused, section.Stopped}, []section.Joint{crossed}, section.Refused},
		{"a joint beyond a limit", "nobody may build it", []section.Status{section.Designed}, []section.Joint{{}, crossed}, section.Stopped},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := &section.Areas{Joints: c.joints}
			for _, status := range c.of {
				a.Sections = append(a.Sections, &section.Section{Status: status})
			}
			require.Equal(t, c.want, a.Status(), c.why)
		})
	}
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
