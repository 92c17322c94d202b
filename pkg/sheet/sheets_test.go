package sheet_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// lines are those of the standard rulebook.
func lines(t *testing.T) map[string]string {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return book.Lines()
}

// sheetOf writes a sheet of one section as text in US units.
func sheetOf(t *testing.T, of string, s *section.Section) string {
	t.Helper()
	return written(t, sheet.Sheet{Of: of, Lines: lines(t)}, &section.Areas{Sections: []*section.Section{s}})
}

func written(t *testing.T, which sheet.Sheet, a *section.Areas) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, which.Write(&b, a))
	return b.String()
}

// examples are the jobs of the examples, by their names.
func examples(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("../../examples/jobs/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for i, f := range files {
		files[i] = strings.TrimSuffix(filepath.Base(f), ".yaml")
	}
	return files
}

// designs keeps the examples, each of which is designed once for all tests.
var designs = map[string]*section.Areas{}

// example designs one of them, with its questions. Nobody changes it.
func example(t *testing.T, name string) *section.Areas {
	t.Helper()
	if a := designs[name]; a != nil {
		return a
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	designs[name] = designedBy(t, book, name, section.Questions)
	return designs[name]
}

// designedBy designs an example by a rulebook.
func designedBy(t *testing.T, book *groundrule.Book, name string, forms ...section.Form) *section.Areas {
	t.Helper()
	path := filepath.Join("../../examples/jobs", name+".yaml")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	job, err := book.Table().Read(path, data)
	require.NoError(t, err)
	a, err := book.Areas(job, forms...)
	require.NoError(t, err)
	return a
}

// moves are what changes with every edit of a rule file: the places of entries, the
// hashes of files, and how much was looked at.
var moves = regexp.MustCompile(`:\d+:\d+\b|[0-9a-f]{64}`)

// The page, the audit and the full sheet of every example, as text. A page has at most
// 60 lines for an area, and no line has more than 80 columns but for one long word.
func TestSheetsOfExamples(t *testing.T) {
	const pageMost, columns = 60, 80
	for _, of := range []string{"page", "audit", "full"} {
		which := sheet.Sheet{Of: of, Lines: lines(t)}
		for _, name := range examples(t) {
			t.Run(of+"/"+name, func(t *testing.T) {
				a := example(t, name)
				out := written(t, which, a)
				require.NotContains(t, out, "{", "a hole that nothing fills")
				for _, line := range strings.Split(out, "\n") {
					if words := strings.Fields(line); len(words) > 2 {
						require.LessOrEqual(t, utf8.RuneCountInString(line), columns, line)
					}
				}
				if of == "page" {
					whole, _, _ := strings.Cut(out, "\nWHERE AREAS MEET\n")
					require.LessOrEqual(t, strings.Count(whole, "\n"), pageMost*len(a.Sections))
				}
				golden(t, filepath.Join(of, name+".txt"), moves.ReplaceAllString(out, ""))
			})
		}
	}
}

// told is a made-up section with everything that a sheet can say of one, and that no
// example has.
func told() []*section.Section {
	s := faced()
	s.NotCrossed = 3
	s.Checks[1].Passes = section.Plain("it never passes")
	s.Checks[0].Passes = section.Plain("the base is 8 in")
	s.Checks = append(s.Checks,
		section.Check{ID: "HIGH", Asks: "Is it low?", Failing: "caution", Value: inches(6.0001), Limit: inches(6), Bound: section.AtMost, Clauses: []section.Clause{{Text: "x", Values: []section.Used{groundIs3}}}},
		section.Check{ID: "LOW", Asks: "Is it high?", Failing: "stop", Value: inches(5.9999), Limit: inches(6), Bound: section.AtLeast},
		section.Check{ID: "UNDER", Asks: "Is it under?", Holds: true, Value: inches(5), Limit: inches(6), Bound: section.AtMost},
		section.Check{ID: "SO", Asks: "Is it so?", Holds: true}, section.Check{ID: "NOT", Asks: "Is it not?", Failing: "caution"})
	s.Cautions = append(s.Cautions, section.Caution{ID: "USUAL", Says: section.Plain("Always this."), Usual: true})
	s.Confirm = append(s.Confirm, section.Presumed{Name: "frost", Label: "frost", Asks: "How deep?", Value: inches(30), Keys: []string{"frost.deep"}},
		section.Presumed{Name: "load", Label: "wheel load", Asks: "How heavy?", Value: value.Number(2), Keys: []string{"load"}},
		section.Presumed{Name: "fall", Label: "fall", Asks: "Which way?", Value: value.Text("away"), Keys: []string{"ground"}},
		section.Presumed{Name: "wet", Label: "wet", Asks: "Is it wet?", Value: value.Bool(true), Keys: []string{"wet"}},
		section.Presumed{Name: "traffic", Label: "traffic", Asks: "How many?", Value: value.Number(5), Keys: []string{"trucks"}})
	other := func(key, label, answer string, status section.Status, differs string) section.Question {
		return section.Question{Key: key, Label: label, Asks: label + "?", Choices: []section.Otherwise{{Answer: answer, Status: status, Differs: []section.Sentence{section.Plain(differs)}}}}
	}
	s.Questions = []section.Question{other("load", "Wheel load", "9", section.Refused, "refused"), other("trucks", "Trucks a day", "1", section.Stopped, "stopped"),
		other("ground", "The ground falls", "toward house", section.Designed, "a swale"), other("wet", "Wet", "no", section.Designed, "no drain"),
		other("fill", "Fill", "yes", section.Refused, "refused"), other("boot", "Boot", "sinks", section.Designed, "1 in more stone"),
		other("rod", "Rod", "18 in", section.Designed, "1 in more stone"), other("roots", "Roots", "yes", section.Designed, "a word with the arborist")}
	step := s.Reason("base_lifts").Taken[0].Used[0].Amended
	step.Replaced[0].By = &millFrost
	for i := range s.Reasons {
		if r := &s.Reasons[i]; r.Decision == "base_lifts" {
			r.Amended = step
			r.Take, r.Passed = rulebook.Smallest, []section.Rule{{ID: "MORE", State: rulebook.Held, Answer: value.Number(3)}}
		} else if r.Decision == "base_material" {
			r.Take, r.Passed = rulebook.All, []section.Rule{{ID: "OTHER", State: rulebook.Held, Answer: value.Text("sand")}}
		} else if r.Decision == "bedding_thickness" {
			r.Take, r.Passed = rulebook.Only, []section.Rule{{ID: "NONE", State: rulebook.NotHeld, Clauses: []section.Clause{{Text: "a", Column: "cbr"}}}}
			r.Taken[0].RestsOn = []string{"handbook"}
		}
	}
	s.Accounts = []section.Account{{Sort: "setting", Name: "base_step", Value: inches(1)}, {Sort: "word", Name: "dense"}}
	compare := func(sign string) section.Absent {
		return section.Absent{Sort: "course", Name: sign, Label: sign, Clauses: []section.Clause{{Text: "a " + sign + " b", Values: []section.Used{{Label: "a", Value: inches(1)}, {Label: "b", Value: inches(2)}}}}}
	}
	s.Absent = append(s.Absent, compare(">"), compare(">="), compare("<"), compare("<="), section.Absent{Sort: "input", Name: "x", Label: "x"})
	slope := func(fall string) []section.Attribute {
		return []section.Attribute{{Name: "slope", Label: "slope", Value: value.Text(fall), Presumed: true}, {Name: "falls", Label: "falls", Value: value.Text("away")}}
	}
	alike := patio()
	s.Courses[0].Attributes, s.Courses[3].Attributes = append(s.Courses[0].Attributes, slope("1 %")...), append(s.Courses[3].Attributes, slope("2 %")...)
	alike.Courses[0].Attributes, alike.Courses[3].Attributes = append(alike.Courses[0].Attributes, slope("2 %")...), append(alike.Courses[3].Attributes, slope("2 %")...)
	plain := patio()
	plain.Confirm, plain.Job.Name = nil, ""
	return []*section.Section{s, alike, plain, stopped(), refused()}
}

// Every line of the standard that these sheets have is said by one of them, and every
// hole is filled.
func TestEveryLineIsSaid(t *testing.T) {
	words := lines(t)
	marked := map[string]string{}
	for name, text := range words {
		marked[name] = "<" + name + ">" + text
	}
	said := ""
	for _, of := range []string{"page", "audit", "full"} {
		which := sheet.Sheet{Of: of, Lines: marked}
		for _, s := range told() {
			said += written(t, which, &section.Areas{Sections: []*section.Section{s}})
		}
		said += written(t, which, example(t, "four-areas"))
		said += written(t, which, example(t, "walk-on-sand"))
	}
	require.NotContains(t, said, "{")
	said = strings.ToLower(said)
	var silent []string
	for name := range words {
		prefix, _, _ := strings.Cut(name, "_")
		if slices.Contains([]string{"page", "audit", "full", "sheet"}, prefix) && name != "sheet_language" && !strings.Contains(said, "<"+name+">") {
			silent = append(silent, name)
		}
	}
	slices.Sort(silent)
	require.Empty(t, silent)
}

// The whole of what is said of what no example has.
func TestSheetsOfTold(t *testing.T) {
	for _, of := range []string{"page", "audit", "full"} {
		t.Run(of, func(t *testing.T) {
			golden(t, filepath.Join(of, "told.txt"), written(t, sheet.Sheet{Of: of, Lines: lines(t)}, &section.Areas{Sections: []*section.Section{told()[0], refused()}}))
		})
	}
}

// What matters on a job stands above its section, whatever came of it.
func TestWhatMattersStandsFirst(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	job := func() *site.Site {
		return &site.Site{Job: "back walk", Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
	}
	overridden := job()
	overridden.Overrides = []site.Override{{Decision: "grid_kind", Answer: "no_grid", By: "J. Orr", Because: "It is at hand."}}
	areas, err := book.Areas(overridden)
	require.NoError(t, err)
	real := areas.Sections[0]
	noted := patio()
	noted.Cautions = append(noted.Cautions, section.Caution{ID: "USUAL", Says: section.Plain("Always this."), Usual: true})
	for _, c := range []struct {
		name, why string
		s         *section.Section
		above     []string
		below     []string
	}{
		{"refused", "there is no section to read past it", refused(), []string{"! Not covered by these rules.", "! Trucks stand here, with wheels of 9,000 lbf. (TRUCKS)", "Take it to: A licensed civil engineer."}, nil},
		{"stopped", "nobody may build it", stopped(), []string{"! Do not build.", "! Is the base at least the published minimum? Thicken the base. (CHECK-BASE)"}, []string{"(DO NOT BUILD)"}},
		{"caution", "what is usual stands below, what is not above", noted, []string{"Does the surface shed water? Lay the surface to a fall of 1 % at least. (CHECK-FALL)", "- Have buried lines marked before digging."}, []string{"- Always this."}},
		{"overridden", "whose word it is, and why", real, []string{"decided by J. Orr", "It is at hand."}, nil},
		{"amended", "whose rules, what went and who permitted what", faced(), []string{"By the rulebook as amended by The Mill.", "Taken away by The Mill, and would apply here: Have lines within 3 ft marked.", "Approved through 2026-06-30 by R. Tansy: The doors sit low.", "By permission (thin_base)"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := sheetOf(t, "page", c.s)
			at := strings.Index(out, "THE SECTION\n")
			if stop := strings.Index(out, "WHAT WAS TRIED"); stop >= 0 {
				at = stop
			}
			if at < 0 {
				at = len(out)
			}
			for _, part := range c.above {
				require.Contains(t, flat(out[:at]), part, c.why)
			}
			for _, part := range c.below {
				require.Contains(t, flat(out[at:]), part, c.why)
			}
		})
	}
}

// Of what every job is to heed, what the dig makes real stands first.
func TestRealCautionsFirst(t *testing.T) {
	const unexamined, codes = "- A competent person examines each dig", "- Local codes"
	for _, c := range []struct {
		name, why string
		real      bool
	}{
		{"driveway-on-soft-clay", "a drain lies in a trench below the dig", true},
		{"walk-on-sand", "the dig is shallow and has no trench", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := written(t, sheet.Sheet{Lines: lines(t)}, example(t, c.name))
			require.Contains(t, out, unexamined)
			require.Equal(t, c.real, strings.Index(out, unexamined) < strings.Index(out, codes), c.why)
		})
	}
}

// A check says on which side of its limit the value is, in figures as a person says
// them, and in more where fewer would not tell why it fails.
func TestLimitSide(t *testing.T) {
	tests := []struct {
		name, why, want string
		value, limit    value.Value
		bound           section.Bound
		holds           bool
	}{
		{"floor held", "larger and holding", "Yes: 8 in, at least 6 in needed.", inches(8), inches(6), section.AtLeast, true},
		{"floor crossed", "smaller and failing", "No: 4 in, at least 6 in needed.", inches(4), inches(6), section.AtLeast, false},
		{"ceiling held", "smaller and holding", "Yes: 4 in, at most 6 in allowed.", inches(4), inches(6), section.AtMost, true},
		{"ceiling crossed", "larger and failing", "No: 8 in, at most 6 in allowed.", inches(8), inches(6), section.AtMost, false},
		{"at the limit", "the side is known even so", "Yes: 6 in, at most 6 in allowed.", inches(6), inches(6), section.AtMost, true},
		{"figures", "nobody counts axles to the unit", "Yes: 1.75 million, at least 5,000 needed.", value.Number(1749931.7), value.Number(5000), section.AtLeast, true},
		{"close by", "more figures, where fewer would not tell why it fails", "No: 2.961, at least 3 needed.", value.Number(2.961), value.Number(3), section.AtLeast, false},
		{"a hair under", "never the limit itself as what fails it", "No: just under 6 in, at least 6 in needed.", inches(5.9999), inches(6), section.AtLeast, false},
		{"a hair over", "on the other side too", "No: just over 6 in, at most 6 in allowed.", inches(6.0001), inches(6), section.AtMost, false},
		{"side not told", "nothing is made up", "Is it so? No.", inches(8), inches(6), "", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := patio()
			s.Checks = []section.Check{{ID: "C", Asks: "Is it so?", Failing: "caution", Holds: tt.holds, Value: tt.value, Limit: tt.limit, Bound: tt.bound}}
			require.Contains(t, flat(sheetOf(t, "audit", s)), tt.want, tt.why)
		})
	}
}

// Long texts stay within the page, and control characters cannot act on the terminal.
func TestPage(t *testing.T) {
	s := patio()
	s.Job.Name = "Alder\x1b[31m Row\a \u202ereversed " + strings.Repeat("long name ", 30)
	s.Courses[0].Label = "Ground\x07"
	s.Checks[0].ID = "ID\x1b[2J"
	s.Files[0].Name = "a\x00b.yaml"
	for _, of := range []string{"page", "audit", "full"} {
		for _, line := range strings.Split(sheetOf(t, of, s), "\n") {
			require.LessOrEqual(t, utf8.RuneCountInString(line), 100, line)
			for _, r := range line {
				require.True(t, unicode.IsPrint(r), "%q", line)
			}
		}
	}
}

// A section with nothing in it, as an embedder may make, is still a sheet; without the
// lines there is none, and nor is there one of another name or form.
func TestEmpty(t *testing.T) {
	for _, status := range []section.Status{section.Designed, section.Stopped, section.Refused, ""} {
		for _, of := range []string{"page", "audit", "full"} {
			require.NotEmpty(t, sheetOf(t, of, &section.Section{Status: status}))
		}
	}
	bare := &section.Section{Courses: []section.Course{{Name: "base", Attributes: []section.Attribute{{Name: "thickness", Value: inches(4), Decision: "gone", Rule: "R", Because: section.Plain("So it is"), Source: "a book"}}}}}
	require.Contains(t, sheetOf(t, "full", bare), "So it is.", "the short form of the reason serves")
	require.NotEmpty(t, reasonOf(t, bare, "base"))
	a := &section.Areas{Sections: []*section.Section{patio()}}
	for name, which := range map[string]sheet.Sheet{"page_": {}, "wanted": {Of: "poster", Lines: lines(t)}, "or svg": {As: "pdf", Lines: lines(t)},
		"1 costs of 2 options; wanted one for each, or none": {Of: "client", Lines: lines(t), Options: make([]section.Otherwise, 2), Costs: make([]*takeoff.Cost, 1)}} {
		err := which.Write(&bytes.Buffer{}, a)
		require.ErrorIs(t, err, sheet.ErrSheet)
		require.ErrorContains(t, err, name)
	}
}

// The columns of a text are those that are asked for.
func TestColumns(t *testing.T) {
	a := &section.Areas{Sections: []*section.Section{amended()}}
	wide := func(columns int) (most int) {
		for _, line := range strings.Split(written(t, sheet.Sheet{Columns: columns, Lines: lines(t)}, a), "\n") {
			most = max(most, utf8.RuneCountInString(line))
		}
		return most
	}
	require.Equal(t, []bool{true, true, true}, []bool{wide(40) <= 46, wide(0) <= 80, wide(100) > 80})
	require.Empty(t, cmp.Diff(wide(0), wide(80)))
	require.Empty(t, cmp.Diff(wide(0), wide(-5)))
}
