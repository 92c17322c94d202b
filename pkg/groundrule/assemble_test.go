package groundrule_test

import (
	"errors"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// plot is an invented rulebook with one of each thing that a section tells; its
// numbers advise nothing.
const plot = `
chapter: plot
sources:
  book: {document: Invented Book, known: memory, note: One page of it.}
vocabularies:
  course_kind: {about: what sort of course it is, words: {ground: ground, stone: stone}, because: told, source: practice}
settings:
  extra: {value: 2 in, because: So it is., source: practice}
terms:
  weak: {is: bool, about: ground that yields, value: strength < 3, source: practice, because: told}
decisions:
  strength:
    asks: How strong is the ground?
    answers: number
    take: first
    rules:
      - {rule: READ, when: known(soil.cbr), answer: least(soil.cbr), because: "It was measured: {least(soil.cbr)}.", source: practice, standing: measured}
      - {rule: GUESS, answer: 2.5, because: Nobody measured it., source: practice, standing: presumed, confirm: measure it}
  depth:
    asks: How thick is the stone?
    answers: length
    take: largest
    rules:
      - {rule: LEAST, answer: inches(4), because: "Never less than {inches(4)}.", source: "book, page 1"}
      - {rule: WEAK, when: weak, answer: inches(4) + extra, because: "The ground, at {strength}, is weak.", source: "book, page 2"}
      - {rule: CARS, when: use == car_driveway, answer: inches(9), because: "Cars want {inches(9)}.", source: "book, page 1"}
  word:
    asks: What is it called?
    answers: text
    take: first
    rules:
      - {rule: WORD, when: use == foot, answer: "'path'", because: People walk here., source: practice}
      - {rule: AGAIN, when: use == foot, answer: "'way'", because: It is the same., source: practice}
      - {rule: OTHER, answer: "'drive'", because: They do not., source: practice}
courses:
  - {course: soil, label: Soil, is: ground, because: It carries all., source: practice, attributes: {cbr_least: strength}}
  - {course: stone, label: Stone, is: stone, when: "weak || use == foot", because: "Stone, {depth} of it.", source: "book, page 1", attributes: {thickness: depth, name: word}}
checks:
  - {check: DEEP, asks: "Is it deep enough?", value: depth, at_least: inches(5), failing: caution, says: Dig deeper., because: It is soft., source: "book, page 1"}
  - {check: SHALLOW, asks: "Is it shallow enough?", value: depth, at_most: inches(8), failing: caution, says: Dig less., because: It is hard., source: practice}
  - {check: ZERO, asks: "Is there any?", value: depth, at_least: inches(0), failing: caution, says: Dig., because: It is nothing., source: practice}
  - {check: WALKED, asks: "Is it walked on?", holds: use == foot, failing: caution, says: Walk., because: It is a path., source: practice}
cautions:
  - {caution: SOFT, when: weak, says: "Mind the ground, at {strength}.", source: practice}
refusals:
  - {refusal: TRUCKS, when: use == truck_yard, says: Trucks., who: An engineer., source: practice}
`

// faulty refuses whatever it is given.
var faulty = calculation.Function{Name: "faulty", About: "Refuses.", Params: []calculation.Param{{Name: "x", About: "anything"}},
	Result: calculation.Param{Name: "y", About: "nothing"}, Sources: []value.Source{{Document: "Invented Book", Clause: "page 9", Known: value.Computed}},
	Example: "faulty(1)", Go: func(x float64) (float64, error) { return 0, errors.New("out of range") }}

func plotSection(t *testing.T, text string, job *site.Site) (*section.Section, error) {
	t.Helper()
	return cameTo(plotBook(t, text), job)
}

// amendments is a layer of one file.
func amendments(label, text string) rulebook.Layer {
	return rulebook.Layer{Label: label, FS: fstest.MapFS{"a.yaml": {Data: []byte(text)}}}
}

// plotBook opens the small rulebook of the tests.
func plotBook(t *testing.T, text string, options ...groundrule.Option) *groundrule.Book {
	t.Helper()
	book, err := groundrule.Open(small.Rulebook("plot.yaml", text), append(options, groundrule.WithFunctions(faulty))...)
	require.NoError(t, err)
	return book
}

func path() *site.Site {
	return &site.Site{Area: quantity.SquareFeet(100), Use: "foot", Base: "dense"}
}

// A section tells what the rulebook says, and nothing else.
func TestAssembled(t *testing.T) {
	s, err := plotSection(t, plot, path())
	require.NoError(t, err)
	require.Equal(t, section.Schema, s.Schema)
	require.Equal(t, section.Version, s.Version)
	require.Equal(t, groundrule.Version, s.Library)
	require.Equal(t, section.Designed, s.Status)
	require.Equal(t, "plot.yaml", s.Files[len(s.Files)-1].Name)

	var names []string
	for _, each := range s.Sources {
		names = append(names, each.Name+": "+each.Text)
	}
	want := []string{"book, page 1: Invented Book, page 1; from memory, not verified against the document",
		"book, page 2: Invented Book, page 2; from memory, not verified against the document", "practice: common practice, no published source", "own: this rulebook's own choice"}
	require.ElementsMatch(t, want, names, "each source once")
	require.Equal(t, "One page of it.", s.Source("book, page 1").Note)

	stone, soil := s.Course("stone"), s.Course("soil")
	require.Equal(t, "course.stone", stone.Presence)
	require.Equal(t, "COURSE-stone", stone.Rule)
	require.Equal(t, 1, s.NotCrossed, "trucks refuse a job, and this has none")
	require.Equal(t, section.Plain("Stone, 6 in of it.").US, stone.Because.US)
	require.Equal(t, "Stone, 152 mm of it.", stone.Because.SI)
	require.Equal(t, "book, page 1", stone.Source)
	require.Equal(t, "stone", stone.Is)
	require.Equal(t, [4]string{"0 in", "6 in", "6 in", "6 in"}, [4]string{stone.Top.String(), stone.Bottom.String(), soil.Top.String(), soil.Bottom.String()})
	require.Equal(t, "6 in", s.Depth.String())

	thickness := stone.Attribute("thickness")
	require.Equal(t, section.Attribute{Name: "thickness", Label: "thickness", Value: thickness.Value, Decision: "depth", Rule: "WEAK",
		Because: section.Plain("The ground, at 2.5, is weak."), Source: "book, page 2", Place: thickness.Place}, thickness)
	require.Equal(t, "CBR at least", soil.Attribute("cbr_least").Label, "a bound says so, and the trade's letters are capitals")

	presence := s.Reason("course.stone")
	require.True(t, presence.Answer.Equal(value.Bool(true)), "it is there")
	require.True(t, presence.Taken[0].Answer.Equal(value.Bool(true)))
	require.NotEmpty(t, presence.Taken[0].Clauses, "what made it be there")
	require.Empty(t, s.Reason("course.soil").Taken[0].Clauses, "it is there always")

	require.Equal(t, "SOFT", s.Cautions[0].ID)
	require.Equal(t, "Mind the ground, at 2.5.", s.Cautions[0].Says.US)
	require.Equal(t, "practice", s.Cautions[0].Source)
	require.Len(t, s.Confirm, 1)
	require.Empty(t, cmp.Diff(section.Presumed{Name: "strength", Label: "strength", Asks: "How strong is the ground?", Value: value.Number(2.5),
		How: section.Plain("Nobody measured it."), Confirm: "measure it", Rule: "GUESS"}, s.Confirm[0]))
}

// The depth is down to the underside of the lowest course, if that has a
// thickness too.
func TestAssembledDepth(t *testing.T) {
	s, err := plotSection(t, replaced(t, plot, "attributes: {cbr_least: strength}", "attributes: {thickness: depth}"), path())
	require.NoError(t, err)
	require.Equal(t, "12 in", s.Depth.String())
	require.Equal(t, "12 in", s.Course("soil").Bottom.String())
}

// An error in part of a condition that its other part settles is told.
func TestAssembledAbsorbed(t *testing.T) {
	s, err := plotSection(t, replaced(t, plot, `"weak || use == foot"`, `"faulty(1) > 0 || weak"`), path())
	require.NoError(t, err)
	require.Equal(t, "Stone", s.Course("stone").Label, "it is there all the same")
	require.Len(t, s.Absorbed, 1)
	require.Contains(t, s.Absorbed[0], "out of range")
}

// Every rule of a decision is told with what it came to, and with no more than
// is true of it.
func TestAssembledRules(t *testing.T) {
	s, err := plotSection(t, plot, path())
	require.NoError(t, err)
	depth, strength, word := s.Reason("depth"), s.Reason("strength"), s.Reason("word")
	cases := []struct {
		name, why string
		rule      section.Rule
		state     rulebook.State
		answer    string
		written   string
		because   string
		template  string
		clauses   int
	}{
		{"chosen", "the largest", depth.Taken[0], rulebook.Chosen, "6 in", "", "The ground, at 2.5, is weak.", "", 1},
		{"held", "it holds, and is smaller", depth.Passed[0], rulebook.Held, "4 in", "", "Never less than 4 in.", "", 0},
		{"not held", "as it is written, since it has no value here", depth.Passed[1], rulebook.NotHeld, "nothing", "inches(9)", "", "Cars want {inches(9)}.", 1},
		{"not known", "what it would read is not there", strength.Passed[0], rulebook.NotHeld, "nothing", "least(soil.cbr)", "", "It was measured: {least(soil.cbr)}.", 1},
		{"not reached, of a clause that was asked", "an earlier rule answered by the same clause", word.Passed[0], rulebook.NotReached, "nothing", "'way'", "", "It is the same.", 0},
		{"not reached", "an earlier rule answered, so no clause was asked", word.Passed[1], rulebook.NotReached, "nothing", "'drive'", "", "They do not.", 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.state, c.rule.State, c.why)
			require.Equal(t, c.answer, c.rule.Answer.String(), c.why)
			require.Equal(t, c.written, c.rule.AnswerText)
			require.Equal(t, c.because, c.rule.Because.US)
			require.Equal(t, c.template, c.rule.BecauseTemplate)
			require.Len(t, c.rule.Clauses, c.clauses)
			require.NotNil(t, c.rule.Used)
			require.NotZero(t, c.rule.Place.Line)
			require.Equal(t, "plot", c.rule.Chapter)
		})
	}
	job := path()
	job.Soil.CBR = []float64{4}
	measured, err := plotSection(t, plot, job)
	require.NoError(t, err)
	read := measured.Reason("strength").Taken[0].Used[0]
	require.Equal(t, [3]string{"soil.cbr", "CBR", "site"}, [3]string{read.Name, read.Label, string(read.Origin)}, "what the site gives has the label of a form")
	require.Equal(t, rulebook.Presumed, strength.Taken[0].Standing)
	clause := depth.Taken[0].Clauses[0]
	require.Equal(t, "weak", clause.Text)
	require.True(t, clause.Holds)
	require.Empty(t, cmp.Diff([]section.Used{{Name: "weak", Label: "weak", Value: value.Bool(true), Origin: rulebook.FromTerm, Presumed: true}}, clause.Values),
		"a term that reads a presumed value rests on one")
	known := strength.Passed[0].Clauses[0]
	require.Equal(t, "known(soil.cbr)", known.Text)
	var extra section.Used
	for _, u := range depth.Taken[0].Used {
		if u.Name == "extra" {
			extra = u
		}
	}
	require.Equal(t, rulebook.FromSetting, extra.Origin)
	require.False(t, extra.Presumed)
}

// What a person decides is told as theirs, beside the answer that the rules give.
func TestAssembledOverrides(t *testing.T) {
	cases := []struct {
		name, why         string
		decision, answer  string
		instead, attribut string
	}{
		{"one of several", "the largest of those that hold, as the rules take it", "depth", "inches(7)", "6 in", "thickness"},
		{"the first", "the rule that would have answered", "word", "'lane'", "path", "name"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			job := path()
			job.Overrides = []site.Override{{Decision: c.decision, Answer: c.answer, By: "J. Orr", Because: "I say so"}}
			s, err := plotSection(t, plot, job)
			require.NoError(t, err)
			require.Len(t, s.Overrides, 1)
			o := s.Overrides[0]
			require.Equal(t, [4]string{c.decision, c.decision, "J. Orr", "I say so"}, [4]string{o.Decision, o.Label, o.By, o.Because})
			require.Equal(t, c.instead, o.Instead.String(), c.why)
			taken := s.Reason(c.decision).Taken
			require.Len(t, taken, 1)
			require.Empty(t, cmp.Diff(section.Rule{ID: "override", State: rulebook.Chosen, Answer: o.Answer, Because: section.Plain("I say so"), By: "J. Orr",
				Clauses: []section.Clause{}, Used: []section.Used{}}, taken[0]), "no rule, no place and no source of the rulebook's")
			a := s.Course("stone").Attribute(c.attribut)
			require.Equal(t, "override", a.Rule)
			require.Empty(t, a.Source)
			require.True(t, a.Value.Equal(o.Answer))
		})
	}
}

func TestAssembledChecks(t *testing.T) {
	s, err := plotSection(t, plot, path())
	require.NoError(t, err)
	margin := func(x float64) *float64 { return &x }
	cases := []struct {
		name, why string
		bound     section.Bound
		margin    *float64
		clauses   int
	}{
		{"DEEP", "6 in is a fifth above 5 in, on the right side", section.AtLeast, margin(0.2), 0},
		{"SHALLOW", "6 in is a quarter below 8 in, on the right side", section.AtMost, margin(0.25), 0},
		{"ZERO", "no share of nothing", section.AtLeast, nil, 0},
		{"WALKED", "a condition has no limit", "", nil, 1},
	}
	for i, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			check := s.Checks[i]
			require.Equal(t, c.name, check.ID)
			require.True(t, check.Holds)
			require.Equal(t, c.bound, check.Bound, c.why)
			require.Equal(t, c.margin, check.Margin, c.why)
			require.Len(t, check.Clauses, c.clauses)
			require.Equal(t, c.bound == "", check.Value.IsZero())
			require.NotEmpty(t, s.Source(check.Source).Text)
		})
	}
	job := path()
	job.Overrides = []site.Override{{Decision: "depth", Answer: "inches(10)", By: "J. Orr", Because: "I say so"}}
	s, err = plotSection(t, plot, job)
	require.NoError(t, err)
	require.Equal(t, margin(-0.25), s.Checks[1].Margin, "10 in is a quarter above 8 in, on the wrong side")
}

// A refused job has neither courses nor a depth, however it was refused, and
// every list is there.
func TestAssembledRefusals(t *testing.T) {
	yard, soft := path(), path()
	yard.Use = "truck_yard"
	const without = "answer: 2.5, because: Nobody measured it.,"
	calculated := replaced(t, plot, without, "answer: faulty(2.5), because: Nobody measured it.,")
	cases := []struct {
		name, why, text string
		job             *site.Site
		id, source      string
	}{
		{"by a rule", "the rulebook ends here", plot, yard, "TRUCKS", "practice"},
		{"by a calculation", "it does not reach this job", calculated, soft, "GUESS", "Invented Book, page 9"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s, err := plotSection(t, c.text, c.job)
			require.NoError(t, err)
			require.Equal(t, section.Refused, s.Status)
			require.True(t, s.Depth.IsZero(), c.why)
			require.Len(t, s.Refusals, 1)
			r := s.Refusals[0]
			require.Equal(t, c.id, r.ID)
			require.Equal(t, c.source, r.Source)
			require.NotEmpty(t, s.Source(r.Source).Text)
			require.NotEmpty(t, r.Says.US)
			require.NotEmpty(t, r.Who.US)
			require.NotZero(t, r.Place.Line)
			require.NotEmpty(t, r.Clauses)
			require.NotNil(t, r.Clauses[0].Values)
			require.Zero(t, s.NotCrossed, "the only limit is crossed, or was not looked at")
			for name, list := range map[string]bool{"courses": s.Courses != nil, "checks": s.Checks != nil, "cautions": s.Cautions != nil, "confirm": s.Confirm != nil,
				"overrides": s.Overrides != nil, "absorbed": s.Absorbed != nil, "amendments": s.Amendments != nil, "variances": s.Variances != nil, "reasons": s.Reasons != nil} {
				require.True(t, list, name)
			}
		})
	}
}

// A sentence that cannot be written is an error, wherever it is; never a section
// with a gap.
func TestAssembledSentences(t *testing.T) {
	cases := []struct{ name, why, old, new string }{
		{"because of a rule", "of the one taken", "because: Nobody measured it.", "because: 'Nobody, {faulty(1)}.'"},
		{"because of a rule that was passed over", "it holds", "Never less than {inches(4)}.", "Never less than {faulty(1)}."},
		{"because of a course", "of one that is there", "because: It carries all.", "because: 'It carries {faulty(1)}.'"},
		{"says of a check", "whether or not it holds", "says: Dig deeper.", "says: 'Dig {faulty(1)}.'"},
		{"because of a check", "beside what it says", "because: It is soft.", "because: 'It is {faulty(1)}.'"},
		{"says of a caution", "of one that is given", "Mind the ground, at {strength}.", "Mind {faulty(1)}."},
		{"whether a caution is real", "no sentence, and not to be guessed either", `says: "Mind the ground, at {strength}."`, `says: Mind., real_when: faulty(1) > 0`},
		{"what a check that passes says", "it passes", "says: Dig deeper.", "says: Dig., passes: 'It is {faulty(1)} deep.'"},
		{"what is short of a caution", "as a page says it", `says: "Mind the ground, at {strength}."`, `says: Mind., short: "Mind {faulty(1)}."`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s, err := plotSection(t, replaced(t, plot, c.old, c.new), path())
			require.Nil(t, s)
			var run *rulebook.RunError
			require.ErrorAs(t, err, &run, c.why)
			require.ErrorContains(t, err, "out of range")
		})
	}
}

// A section that is told to be of another depth than its courses is no section.
func TestAnotherDepthIsNoSection(t *testing.T) {
	told := func(depth string) error {
		_, err := plotSection(t, replaced(t, plot, "  word:\n", `  section_depth:
    asks: How deep is it?
    answers: length
    take: first
    rules: [{rule: TOLD, answer: `+depth+`, because: told, source: practice}]
  word:
`), path())
		return err
	}
	require.NoError(t, told("depth"))
	require.ErrorIs(t, told("inches(1)"), groundrule.ErrUnsound)
	require.EqualError(t, told("inches(1)"), "groundrule: this section cannot be right; please report it with the job: section_depth is 1 in, and the courses go 6 in deep")
}
