package groundrule_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

// edit is one way in which a company's standards keeper may want to change the
// rulebook, and what must come of it.
type edit struct {
	name, why string
	files     []string        // amendments, of testdata/edits or of a folder
	day       string          // as of which; 2026-06-01 if it is not told
	job       string          // a file of testdata/edits/jobs or of a folder; the walk if it is not told
	overrides []site.Override // that the job has too
	facts     []string        // lines of [factsOf], each whole
	sheet     []string        // what the sheet says, whatever its lines
	silent    []string        // what the sheet does not say
	asked     string          // course or decision of which the reason is asked
	reason    []string        // what the reason says
	says      []string        // the faults, each up to the places of the standard
}

// editFile reads a file of testdata/edits, or of a folder beside it.
func editFile(t *testing.T, name string) []byte {
	t.Helper()
	if !strings.Contains(name, "/") {
		name = "testdata/edits/" + name
	}
	text, err := os.ReadFile(name + ".yaml")
	require.NoError(t, err)
	return text
}

// bookOf opens the standard rulebook with the amendments of an edit.
func (e *edit) book(t *testing.T) (*groundrule.Book, error) {
	t.Helper()
	files := fstest.MapFS{}
	for _, name := range e.files {
		files[filepath.Base(name)+".yaml"] = &fstest.MapFile{Data: editFile(t, name)}
	}
	day := e.day
	if day == "" {
		day = "2026-06-01"
	}
	asOf, err := rulebook.ParseDate(day)
	require.NoError(t, err)
	return groundrule.OpenStandard(groundrule.WithAmendments(rulebook.Layer{FS: fs.FS(files)}), groundrule.AsOf(asOf))
}

// section designs the job of an edit.
func (e *edit) section(t *testing.T, book *groundrule.Book) *section.Section {
	t.Helper()
	name := e.job
	switch {
	case name == "":
		name = "testdata/edits/jobs/walk"
	case !strings.Contains(name, "/"):
		name = "testdata/edits/jobs/" + name
	default:
		name = "../../examples/jobs/" + strings.TrimPrefix(name, "examples/")
	}
	job, err := site.Read(name+".yaml", editFile(t, name))
	require.NoError(t, err)
	job.Overrides = append(job.Overrides, e.overrides...)
	s, err := cameTo(book, job)
	require.NoError(t, err)
	return s
}

// factsOf tells what a section came to, a fact to a line.
func factsOf(s *section.Section) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	say("%s, %s", s.Status, s.Depth)
	var courses []string
	for _, c := range s.Courses {
		courses = append(courses, c.Name)
		for _, a := range c.Attributes {
			say("%s.%s: %s by %s (%s)", c.Name, a.Name, a.Value, a.Rule, a.Source)
		}
	}
	say("courses: %s", strings.Join(courses, " "))
	for _, r := range s.Reasons {
		for _, rule := range r.Taken {
			say("%s: %s by %s (%s)%s%s", r.Decision, r.Answer, rule.ID, rule.Source, trail(rule.Amended), trail(r.Amended))
		}
		for _, rule := range r.Passed {
			say("%s passes over %s: %s", r.Decision, rule.ID, rule.State)
		}
	}
	for _, a := range s.Accounts {
		if a.Amended != nil {
			say("%s %s: %s (%s)%s", a.Sort, a.Name, a.Value, a.Source, trail(a.Amended))
		}
	}
	for _, c := range s.Checks {
		say("check %s holds: %v, else %s%s", c.ID, c.Holds, c.Failing, trail(c.Amended))
	}
	for _, c := range s.Cautions {
		say("caution %s: %s%s", c.ID, c.Says.US, trail(c.Amended))
	}
	for _, r := range s.Refusals {
		say("refusal %s: %s%s", r.ID, r.Says.US, trail(r.Amended))
	}
	for _, l := range s.Lifted {
		say("lifted %s %s: %s", l.Sort, l.ID, l.Says.US)
	}
	for _, c := range s.Crossed {
		say("crossed %s: %s, wanted %s, by %s, permitted by %q", c.Limit, c.Answer, c.Wanted.US, strings.Join(c.By, "; "), c.Variance)
	}
	for _, o := range s.Overrides {
		say("override %s: %s by %s, asked %v", o.Decision, o.Answer, o.By, o.Asked)
	}
	for _, a := range s.Absent {
		var because []string
		for _, b := range a.Because {
			because = append(because, b.US)
		}
		for _, set := range a.Set {
			because = append(because, set.Name+trail(set.Amended))
		}
		say("absent %s: %s", a.Name, strings.Join(because, " "))
	}
	for _, v := range s.Variances {
		say("variance %s by %s", v.Name, v.Who)
	}
	for _, i := range s.Idle {
		say("idle: %s, %s to %s", i.What, i.From, i.Until)
	}
	return out
}

// about keeps the facts that begin so.
func about(facts []string, subject string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(facts), func(fact string) bool { return !strings.HasPrefix(fact, subject) }), "\n")
}

// trail tells by whom something was amended, where and why, and what it was.
func trail(a *rulebook.Amended) string {
	if a == nil {
		return ""
	}
	out := fmt.Sprintf(", amended by %s of %s at %s: %s", a.By.Name, a.By.Company, a.Place, a.Because)
	for _, was := range a.Replaced {
		out += fmt.Sprintf(" Was at %s", was.Place.File)
		if was.By != nil {
			out += " by " + was.By.Name
		}
		for _, key := range was.Was {
			if key.Key != "because" && key.Key != "source" {
				out += fmt.Sprintf(", %s %s", key.Key, key.Text)
			}
		}
		out += "."
	}
	return out
}

// TestEdits makes the changes that a standards keeper may want to make.
func TestEdits(t *testing.T) {
	for _, e := range edits {
		t.Run(e.name, func(t *testing.T) {
			t.Parallel()
			require.NotEmpty(t, e.why)
			book, err := e.book(t)
			require.NoError(t, err, e.why)
			s := e.section(t, book)
			facts := factsOf(s)
			for _, fact := range e.facts {
				if !slices.Contains(facts, fact) {
					subject := strings.FieldsFunc(fact, func(r rune) bool { return r == ':' || r == ',' })[0]
					t.Errorf("%s\nwanted: %s\nfound:\n%s", e.why, fact, about(facts, subject))
				}
			}
			var shown, told bytes.Buffer
			for _, of := range []string{"page", "audit"} {
				require.NoError(t, sheet.Sheet{Of: of, Lines: book.Lines()}.Write(&shown, &section.Areas{Sections: []*section.Section{s}}))
			}
			says := strings.Join(strings.Fields(shown.String()), " ")
			for _, line := range e.sheet {
				require.Contains(t, says, line, e.why)
			}
			for _, line := range e.silent {
				require.NotContains(t, says, line, e.why)
			}
			if e.asked != "" {
				require.NoError(t, sheet.Sheet{System: quantity.US, Lines: book.Lines()}.Why(&told, s, e.asked))
			}
			says = strings.Join(strings.Fields(told.String()), " ")
			for _, line := range e.reason {
				require.Contains(t, says, line, e.why)
			}
			require.NotZero(t, len(e.facts)+len(e.sheet)+len(e.reason), "a case that wants nothing")
		})
	}
}

// inStandard is a place in the standard rulebook, whose lines move.
var inStandard = regexp.MustCompile(`^(rules/[^:]+):\d+:\d+`)

// TestEditsRefused tries the changes that must not be made, and what is written so
// that it cannot be meant.
func TestEditsRefused(t *testing.T) {
	for _, e := range refusedEdits {
		t.Run(e.name, func(t *testing.T) {
			t.Parallel()
			require.NotEmpty(t, e.why)
			_, err := e.book(t)
			var bad *rulebook.Error
			require.ErrorAs(t, err, &bad, e.why)
			var found []string
			for _, fault := range bad.Faults {
				text, _, _ := strings.Cut(fault.Error(), "; rules/")
				found = append(found, inStandard.ReplaceAllString(text, "$1"))
			}
			require.Empty(t, cmp.Diff(e.says, found), e.why)
		})
	}
}

// TestBrokenJobs designs jobs that were once built though nobody could stand for
// them: each is stopped, a fault, or told.
func TestBrokenJobs(t *testing.T) {
	const walk = "area: 400 sq ft\nuse: foot\nbase: dense\nsoil: {uscs: SP, cbr: 25}\nfrost: {frost_free: yes}\n"
	const drive = "area: 400 sq ft\nuse: car_driveway\nbase: dense\nsoil: {uscs: SP, cbr: 25}\nfrost: {frost_free: yes}\nwater: {wet_ground: no}\n"
	takes := func(decisions ...string) string {
		out := "overrides:\n"
		for _, d := range decisions {
			decision, answer, _ := strings.Cut(d, "=")
			out += fmt.Sprintf("- {decision: %s, answer: %s, by: A. Person, because: It will do.}\n", decision, answer)
		}
		return out
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, c := range []struct {
		name, why, job string
		fault          string // of the job
		facts          []string
	}{
		{"bedding below nothing", "a thickness is not less than nothing", walk + takes("bedding_thickness=inches(-3)"), "",
			[]string{"stopped, 5-3/8 in", `crossed BEDDING-NOT-THINNER: -3 in, wanted at least 1 in, by A. Person, who decided the bedding thickness in place of the rules, permitted by ""`}},
		{"an inch over the grid", "what is laid is what is checked", walk + takes("stone_top_thickness=inches(1)"), "",
			[]string{"stopped, 4-3/8 in", `crossed TOP-ADDS-UP: 1 in, wanted at least 6 in, by A. Person, who decided the stone top thickness in place of the rules, permitted by ""`}},
		{"an inch under cars", "a person is held to the least too", drive + takes("stone_depth=inches(1)", "grid_kind=no_grid"), "",
			[]string{"stopped, 4-3/8 in", `crossed DEPTH-LEAST-DRIVEWAY: 1 in, wanted at least 6 in, by A. Person, who decided the stone depth in place of the rules; A. Person, who decided the grid kind in place of the rules, permitted by ""`}},
		{"a paver of a kilometer", "a number of the job has limits", walk + "paver: {thickness: 1000 m}\n", "paver.thickness is out of range; found \"1000 m\"; wanted 0.375 to 6 in", nil},
		{"a tamper in other words", "a word that is not known is not taken for the usual one, and the right one is offered", "area: 400 sq ft\nuse: foot\nbase: dense\nsoil: {uscs: CL}\ncompactor: by hand\n",
			`compactor is not a known word for the compactor at hand; found "by hand"; wanted compactor: hand_tamper (a steel plate on a pole, worked by hand), or one of hand_tamper, plate_compactor, reversible_plate, trench_roller, ride_on_roller; did you mean "hand_tamper"?`, nil},
		{"an answer to what is not asked", "it is told, not dropped", walk + takes("panel_thickness=inches(9)"), "", []string{"override panel_thickness: inches(9) by A. Person, asked false"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, err := site.Read("job.yaml", []byte(c.job))
			var s *section.Section
			if err == nil {
				s, err = cameTo(book, job)
			}
			if c.fault != "" {
				require.ErrorContains(t, err, c.fault, c.why)
				return
			}
			require.NoError(t, err, c.why)
			facts := factsOf(s)
			for _, fact := range c.facts {
				if !slices.Contains(facts, fact) {
					t.Errorf("%s\nwanted: %s\nfound:\n%s", c.why, fact, strings.Join(facts, "\n"))
				}
			}
		})
	}
}
