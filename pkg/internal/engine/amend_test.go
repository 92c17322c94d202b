package engine_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// amended is the small rulebook that amendments are laid over here.
const amended = `chapter: small
about: A small rulebook.
vocabularies:
  grid:
    about: Kinds of grid.
    words: {no_grid: no grid, biaxial: biaxial grid}
  course_kind:
    about: Sorts of course.
    words: {stone: stone}
settings:
  cover:
    value: 6 in
    at_least: 4 in
    at_most: 24 in
    because: Six inches.
    source: practice
decisions:
  which_grid:
    asks: Which grid?
    answers: grid
    take: first
    rules:
      - {rule: GRID-WEAK, when: known(cbr) && cbr < 3, answer: biaxial, because: Weak., source: practice}
      - {rule: GRID-NONE, answer: no_grid, because: None., source: practice}
  depth:
    asks: How deep?
    answers: length
    take: largest
    rules:
      - {rule: DEPTH-COVER, answer: cover, because: "{cover} over it.", source: practice}
      - {rule: DEPTH-LEAST, answer: inches(4), because: Least., source: practice}
checks:
  - {check: DEEP, asks: Is it deep enough, value: depth, at_least: inches(4), failing: stop, says: Dig., because: Must., source: practice}
courses:
  - {course: base, label: Base, is: stone, because: It bears., source: practice, attributes: {thickness: depth}}
`

type given map[string]any

func (g given) Input(name string) (any, bool) { v, ok := g[name]; return v, ok }

// amendedBook lays amendments, one a file, over the small rulebook.
func amendedBook(day string, amendments ...string) (*engine.Book, error) {
	files := fstest.MapFS{}
	for i, text := range amendments {
		files[string(rune('a'+i))+".yaml"] = &fstest.MapFile{Data: []byte(text)}
	}
	setup := engine.Setup{Label: "rules", Inputs: []rulebook.Input{{Name: "cbr", Kind: value.NumberKind, About: "CBR"}}}
	if day != "" {
		asOf, err := rulebook.ParseDate(day)
		if err != nil {
			return nil, err
		}
		setup.AsOf = asOf
	}
	if len(files) > 0 {
		setup.Amendments = []rulebook.Layer{{Label: "ours", FS: files}}
	}
	return engine.Open(fstest.MapFS{"small.yaml": {Data: []byte(amended)}}, setup)
}

const head = `amendment: first
who: A. Keeper
when: 2026-01-05
why: To try it.
`

const second = `amendment: second
who: B. Keeper
when: 2026-02-05
why: To try it again.
`

func TestAmendments(t *testing.T) {
	cases := []struct {
		name, why string
		day       string
		texts     []string
		cbr       float64
		depth     string
		grid      string
		rule      string // that decided which_grid
	}{
		{"none", "the rulebook itself", "", nil, 5, "6 in", "no grid", "GRID-NONE"},
		{"setting", "a setting is set", "", []string{head + "settings:\n  cover: {value: 8 in, because: Deeper.}\n"}, 5, "8 in", "no grid", "GRID-NONE"},
		{"replaced", "a rule is replaced and keeps its id", "", []string{head + "rules:\n  - {replace: GRID-NONE, with: {answer: biaxial, because: Always., source: company}}\n"}, 5, "6 in", "biaxial grid", "GRID-NONE"},
		{"replaced by another id", "or takes one of its own", "", []string{head + "rules:\n  - {replace: GRID-NONE, with: {rule: OURS, answer: biaxial, because: Always., source: company}}\n"}, 5, "6 in", "biaxial grid", "OURS"},
		{"retired", "a rule is retired", "", []string{head + "rules:\n  - {retire: GRID-WEAK}\n"}, 1, "6 in", "no grid", "GRID-NONE"},
		{"added before", "the order of first is kept", "", []string{head + "rules:\n  - {add: {rule: OURS, when: known(cbr) && cbr < 2, answer: no_grid, because: Too weak., source: company}, before: GRID-WEAK}\n"}, 1, "6 in", "no grid", "OURS"},
		{"added after", "behind one that holds it is not reached", "", []string{head + "rules:\n  - {add: {rule: OURS, when: known(cbr) && cbr < 2, answer: no_grid, because: Too weak., source: company}, after: GRID-WEAK}\n"}, 1, "6 in", "biaxial grid", "GRID-WEAK"},
		{"added to", "at the end of a decision", "", []string{head + "rules:\n  - {add: {rule: OURS, answer: inches(9), because: More., source: company}, to: depth}\n"}, 5, "9 in", "no grid", "GRID-NONE"},
		{"word", "an answer is added", "", []string{head + "words:\n  grid: {multiaxial: multiaxial grid}\nrules:\n  - {replace: GRID-NONE, with: {answer: multiaxial, because: Always., source: company}}\n"}, 5, "6 in", "multiaxial grid", "GRID-NONE"},
		{"new setting", "for the rules that come with it", "", []string{head + "new_settings:\n  ours: {value: 10 in, because: More., source: company}\nrules:\n  - {add: {rule: OURS, answer: ours, because: More., source: company}, to: depth}\n"}, 5, "10 in", "no grid", "GRID-NONE"},
		{"over", "one that builds on another may amend it again", "", []string{head + "settings:\n  cover: {value: 8 in, because: Deeper.}\n", second + "over: [first]\nsettings:\n  cover: {value: 9 in, because: Deeper still.}\n"}, 5, "9 in", "no grid", "GRID-NONE"},
		{"over, whatever the files' order", "the order is told, not found", "", []string{second + "over: [first]\nsettings:\n  cover: {value: 9 in, because: Deeper still.}\n", head + "settings:\n  cover: {value: 8 in, because: Deeper.}\n"}, 5, "9 in", "no grid", "GRID-NONE"},
		{"before its day", "an amendment that does not hold yet", "2026-02-28", []string{head + "from: 2026-03-01\nsettings:\n  cover: {value: 8 in, because: Deeper.}\n"}, 5, "6 in", "no grid", "GRID-NONE"},
		{"on its first day", "the day itself counts", "2026-03-01", []string{head + "from: 2026-03-01\nuntil: 2026-03-31\nsettings:\n  cover: {value: 8 in, because: Deeper.}\n"}, 5, "8 in", "no grid", "GRID-NONE"},
		{"on its last day", "the day itself counts", "2026-03-31", []string{head + "from: 2026-03-01\nuntil: 2026-03-31\nsettings:\n  cover: {value: 8 in, because: Deeper.}\n"}, 5, "8 in", "no grid", "GRID-NONE"},
		{"after its last day", "a job of then is designed by the rules of then", "2026-04-01", []string{head + "from: 2026-03-01\nuntil: 2026-03-31\nsettings:\n  cover: {value: 8 in, because: Deeper.}\n"}, 5, "6 in", "no grid", "GRID-NONE"},
		{"a setting's own day", "only the setting waits", "2026-02-01", []string{head + "settings:\n  cover: {value: 8 in, because: Deeper., from: 2026-03-01}\n"}, 5, "6 in", "no grid", "GRID-NONE"},
		{"variance", "leave to cross a limit", "2026-03-01", []string{head + "settings:\n  cover: {value: 3 in, because: Thin.}\nvariances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested., until: 2026-12-31}\n"}, 5, "4 in", "no grid", "GRID-NONE"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			book, err := amendedBook(c.day, c.texts...)
			require.NoError(t, err, c.why)
			out, err := book.Run(given{"cbr": c.cbr}, nil)
			require.NoError(t, err, c.why)
			depth, err := out.Value("depth")
			require.NoError(t, err)
			require.Equal(t, c.depth, depth.Text(quantity.US), c.why)
			grid, err := out.Value("which_grid")
			require.NoError(t, err)
			require.Equal(t, c.grid, grid.Text(quantity.US), c.why)
			d, _ := book.Decision("which_grid")
			decided, err := out.DecidedBy(d.Name)
			require.NoError(t, err)
			require.Equal(t, c.rule, decided.Rule.ID, c.why)
		})
	}
}

// TestAmendmentFaults holds the diagnostics verbatim: a keeper must learn from
// them alone what to mend.
func TestAmendmentFaults(t *testing.T) {
	cases := []struct {
		name  string
		day   string
		texts []string
		want  string
	}{
		{"limit", "", []string{head + "settings:\n  cover: {value: 3 in, because: Thin.}\n"},
			"ours/a.yaml:6:18: cover crosses its limit; found 3 in; wanted at least 4 in; rules/small.yaml:13:15: the limit is set here"},
		{"bare number for a length", "", []string{head + "settings:\n  cover: {value: 8, because: Deeper.}\n"},
			`ours/a.yaml:6:18: a unit is missing, and a length is wanted; found 8; wanted one of the units in, ft, yd, mm, cm, m, um`},
		{"limit above", "", []string{head + "settings:\n  cover: {value: 30 in, because: Thick.}\n"},
			"ours/a.yaml:6:18: cover crosses its limit; found 30 in; wanted at most 24 in; rules/small.yaml:14:14: the limit is set here"},
		{"variance that does not reach", "2026-03-01", []string{head + "settings:\n  cover: {value: 2 in, because: Thin.}\nvariances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested., until: 2026-12-31}\n"},
			"ours/a.yaml:6:18: cover crosses its limit; found 2 in; wanted at least 4 in; rules/small.yaml:13:15: the limit is set here"},
		{"variance expired", "2027-01-01", []string{head + "settings:\n  cover: {value: 6 in, because: As it was.}\nvariances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested., until: 2026-12-31}\n"},
			"ours/a.yaml:8:5: the variance thin has expired; found until 2026-12-31, as of 2027-01-01; wanted a new variance, or a setting within its limit"},
		{"variance without an end", "2026-03-01", []string{head + "variances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested.}\n"},
			`ours/a.yaml:6:5: a variance needs the key "until"; wanted until`},
		{"no day told", "", []string{head + "from: 2026-03-01\nsettings:\n  cover: {value: 8 in, because: Deeper.}\n"},
			"ours/a.yaml:1:12: the amendment first holds on some days only, and no day was told; wanted the day as of which the design is made; it is never taken from the clock"},
		{"no such rule", "", []string{head + "rules:\n  - {retire: GRID-NONNE}\n"},
			`ours/a.yaml:6:14: no rule is called GRID-NONNE; found GRID-NONNE; wanted the id of a rule of the rulebook; did you mean "GRID-NONE"?`},
		{"no such setting", "", []string{head + "settings:\n  covers: {value: 8 in, because: Deeper.}\n"},
			`ours/a.yaml:6:3: no setting is called covers; found covers; wanted the name of a setting of the rulebook; did you mean "cover"?`},
		{"no such decision", "", []string{head + "rules:\n  - {add: {rule: OURS, answer: inches(9), because: More., source: company}, to: depht}\n"},
			`ours/a.yaml:6:81: no decision is called depht; found depht; wanted to: the name of a decision, or before: or after: a rule; did you mean "depth"?`},
		{"setting amended twice", "", []string{head + "settings:\n  cover: {value: 8 in, because: Deeper.}\n", second + "settings:\n  cover: {value: 9 in, because: Deeper still.}\n"},
			"ours/b.yaml:6:3: setting cover is amended twice; wanted one amendment of it, or over: first where this one is meant to build on that; ours/a.yaml:6:3: it is amended here"},
		{"rule amended twice", "", []string{head + "rules:\n  - {retire: GRID-WEAK}\n", second + "rules:\n  - {replace: GRID-WEAK, with: {answer: biaxial, because: Ours., source: company}}\n"},
			"ours/b.yaml:6:15: rule GRID-WEAK is amended twice; found GRID-WEAK; wanted a rule that is still there; first retired or renamed this one; ours/a.yaml:6:5: it is amended here"},
		{"circle", "", []string{head + "over: [second]\n", second + "over: [first]\n"},
			"ours/b.yaml:5:8: amendments build on each other in a circle; found first over second over first; wanted an order; ours/a.yaml:1:12: first stands here"},
		{"no such amendment", "", []string{head + "over: [frist]\n"},
			`ours/a.yaml:5:8: no amendment is called frist; found frist; wanted the name of an amendment that this one builds on; did you mean "first"?`},
		{"name taken", "", []string{head, head}, "ours/b.yaml:1:12: an amendment of this name is there already; found first; ours/a.yaml:1:12: it stands here first"},
		{"does two things", "", []string{head + "rules:\n  - {retire: GRID-WEAK, replace: GRID-NONE}\n"},
			"ours/a.yaml:6:5: a change does one thing; wanted replace: ID and with: a rule; or retire: ID; or add: a rule and to: a decision, with before: ID or after: ID if its place matters"},
		{"not a date", "", []string{"amendment: first\nwho: A\nwhen: 5 January\nwhy: B\n"},
			"ours/a.yaml:3:7: this is not a date; found 5 January; wanted a day such as 2026-03-01"},
		{"rule that is wrong", "", []string{head + "rules:\n  - {replace: GRID-NONE, with: {answer: biaxal, because: Always., source: company}}\n"},
			`ours/a.yaml:6:41: no value or word is called biaxal; found biaxal; did you mean "biaxial"?`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := amendedBook(c.day, c.texts...)
			var faults *rulebook.Error
			require.ErrorAs(t, err, &faults)
			require.Contains(t, err.Error(), c.want)
		})
	}
}

// TestAmendedIsTold proves that a rule tells which amendment it came by, what it
// replaced, and the reason of the change.
func TestAmendedIsTold(t *testing.T) {
	book, err := amendedBook("2026-03-01",
		head+"rules:\n  - {replace: GRID-NONE, because: Ours is better., with: {answer: biaxial, because: Always., source: company}}\n",
		second+"over: [first]\nrules:\n  - {replace: GRID-NONE, with: {answer: no_grid, because: Never., source: company}}\nsettings:\n  cover: {value: 3 in, because: Thin.}\nvariances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested., until: 2026-12-31}\n")
	require.NoError(t, err)
	d, _ := book.Decision("which_grid")
	told := d.Rules[1].Amended
	require.Equal(t, "second", told.By.Name)
	require.Equal(t, "To try it again.", told.Because, "the amendment's own reason, where the change gives none")
	require.Equal(t, "biaxial", told.Replaced.Answer)
	require.Equal(t, "first", told.Replaced.By.Name, "what it replaced had come by an amendment too")
	s, _ := book.Setting("cover")
	require.Equal(t, "Thin.", s.Amended.Because)
	require.Equal(t, "6 in", s.Amended.Replaced.Answer)
	require.Len(t, book.Variances(), 1)
	require.Equal(t, "4 in", book.Variances()[0].Limit.Text(quantity.US))
	require.Len(t, book.Amendments(), 2)
}

// TestAmendmentsAdd proves that an amendment adds whatever a chapter declares:
// sources, kinds and materials, terms, decisions, courses, checks, cautions and
// refusals.
func TestAmendmentsAdd(t *testing.T) {
	book, err := amendedBook("", head+`
sources:
  our_report: {document: Our report, known: company}
kinds:
  gravel: {about: Our gravels., properties: {density: {is: density, about: In place.}}}
materials:
  pit_gravel: {kind: gravel, label: pit gravel, source: our_report, properties: {density: 130 pcf}}
terms:
  strong: {is: bool, about: Strong ground., value: known(cbr) && cbr > 10}
decisions:
  fill:
    asks: Which gravel fills?
    answers: gravel
    take: first
    rules:
      - {rule: FILL, answer: pit_gravel, because: "Ours, of {pit_gravel.density}.", source: our_report}
courses:
  - {course: fill, label: Fill, is: stone, when: strong, because: Ours., source: our_report, attributes: {material: fill}}
checks:
  - {check: OURS, asks: "Is it so?", holds: strong, failing: caution, says: Mind., because: Ours., source: our_report}
cautions:
  - {caution: MIND, when: strong, says: "Mind {cbr_words}.", source: our_report}
refusals:
  - {refusal: TOO-STRONG, when: known(cbr) && cbr > 90, says: Rock., who: A geologist., source: our_report}
new_settings:
  cbr_words: {value: "'the strong ground'", because: A text., source: company}
`)
	require.NoError(t, err)
	out, err := book.Run(given{"cbr": 20.0}, nil)
	require.NoError(t, err)
	require.Len(t, out.Courses, 2)
	require.Equal(t, "fill", out.Courses[1].Name, "an added course lies over those of the rulebook")
	require.Len(t, out.Checks, 2)
	require.Len(t, out.Cautions, 1)
	said, err := out.Say(out.Cautions[0].Says())
	require.NoError(t, err)
	require.Equal(t, "Mind 'the strong ground'.", said.Text(quantity.US))
	d, _ := book.Decision("fill")
	require.Equal(t, "first", d.Rules[0].Amended.By.Name)
	require.Equal(t, "Our report", d.Rules[0].Source.Document)
	refused, err := book.Run(given{"cbr": 95.0}, nil)
	require.NoError(t, err)
	require.Len(t, refused.Refusals, 1)
}
