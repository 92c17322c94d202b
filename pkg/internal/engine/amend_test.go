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
    because: told
    source: practice
  course_kind:
    about: Sorts of course.
    words: {stone: stone}
    because: told
    source: practice
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
company: Ours
who: A. Keeper
when: 2026-01-05
why: To try it.
`

const second = `amendment: second
company: Seconds
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
		{"setting", "a setting is set", "", []string{head + "replace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n"}, 5, "8 in", "no grid", "GRID-NONE"},
		{"replaced", "a rule is replaced and keeps its id", "", []string{head + "replace:\n  - {rule: GRID-NONE, with: {answer: biaxial, because: Always., source: company}}\n"}, 5, "6 in", "biaxial grid", "GRID-NONE"},
		{"replaced by another id", "or takes one of its own", "", []string{head + "replace:\n  - {rule: GRID-NONE, with: {rule: OURS, answer: biaxial, because: Always., source: company}}\n"}, 5, "6 in", "biaxial grid", "OURS"},
		{"retired", "a rule is retired", "", []string{head + "retire:\n  - {rule: GRID-WEAK, because: Gone.}\n"}, 1, "6 in", "no grid", "GRID-NONE"},
		{"added before", "the order of first is kept", "", []string{head + "add:\n  - {rule: OURS, when: known(cbr) && cbr < 2, answer: no_grid, because: Too weak., source: company, before: GRID-WEAK}\n"}, 1, "6 in", "no grid", "OURS"},
		{"added after", "behind one that holds it is not reached", "", []string{head + "add:\n  - {rule: OURS, when: known(cbr) && cbr < 2, answer: no_grid, because: Too weak., source: company, after: GRID-WEAK}\n"}, 1, "6 in", "biaxial grid", "GRID-WEAK"},
		{"added to", "at the end of a decision", "", []string{head + "add:\n  - {rule: OURS, answer: inches(9), because: More., source: company, to: depth}\n"}, 5, "9 in", "no grid", "GRID-NONE"},
		{"word", "an answer is added", "", []string{head + "add:\n  - {word: multiaxial, to: grid, label: multiaxial grid, because: Ours., source: company}\nreplace:\n  - {rule: GRID-NONE, with: {answer: multiaxial, because: Always., source: company}}\n"}, 5, "6 in", "multiaxial grid", "GRID-NONE"},
		{"new setting", "for the rules that come with it", "", []string{head + "add:\n  - {setting: ours, value: 10 in, because: More., source: company}\n  - {rule: OURS, answer: ours, because: More., source: company, to: depth}\n"}, 5, "10 in", "no grid", "GRID-NONE"},
		{"over", "one that builds on another may amend it again", "", []string{head + "replace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n", second + "over: [first]\nreplace:\n  - {setting: cover, set: {value: 9 in, because: Deeper still., source: company}}\n"}, 5, "9 in", "no grid", "GRID-NONE"},
		{"over, whatever the files' order", "the order is told, not found", "", []string{second + "over: [first]\nreplace:\n  - {setting: cover, set: {value: 9 in, because: Deeper still., source: company}}\n", head + "replace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n"}, 5, "9 in", "no grid", "GRID-NONE"},
		{"before its day", "an amendment that does not hold yet", "2026-02-28", []string{head + "from: 2026-03-01\nreplace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n"}, 5, "6 in", "no grid", "GRID-NONE"},
		{"on its first day", "the day itself counts", "2026-03-01", []string{head + "from: 2026-03-01\nuntil: 2026-03-31\nreplace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n"}, 5, "8 in", "no grid", "GRID-NONE"},
		{"on its last day", "the day itself counts", "2026-03-31", []string{head + "from: 2026-03-01\nuntil: 2026-03-31\nreplace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n"}, 5, "8 in", "no grid", "GRID-NONE"},
		{"after its last day", "a job of then is designed by the rules of then", "2026-04-01", []string{head + "from: 2026-03-01\nuntil: 2026-03-31\nreplace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n"}, 5, "6 in", "no grid", "GRID-NONE"},
		{"a setting's own day", "only the setting waits", "2026-02-01", []string{head + "replace:\n  - {setting: cover, from: 2026-03-01, set: {value: 8 in, because: Deeper., source: company}}\n"}, 5, "6 in", "no grid", "GRID-NONE"},
		{"variance", "leave to cross a limit", "2026-03-01", []string{head + "replace:\n  - {setting: cover, set: {value: 3 in, because: Thin., source: company}}\nvariances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested., until: 2026-12-31}\n"}, 5, "4 in", "no grid", "GRID-NONE"},
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
		name, why string
		day       string
		texts     []string
		want      string
	}{
		{"limit", "what is set too low is shown beside the limit", "", []string{head + "replace:\n  - {setting: cover, set: {value: 3 in, because: Thin., source: company}}\n"},
			"ours/a.yaml:7:35: cover crosses its limit; found 3 in; wanted at least 4 in; rules/small.yaml:17:15: the limit is set here"},
		{"bare number for a length", "8 could be feet or inches", "", []string{head + "replace:\n  - {setting: cover, set: {value: 8, because: Deeper., source: company}}\n"},
			`ours/a.yaml:7:35: a unit is missing, and a length is wanted; found 8; wanted one of the units in, ft, yd, mm, cm, m, um`},
		{"limit above", "a limit on the other side holds as well", "", []string{head + "replace:\n  - {setting: cover, set: {value: 30 in, because: Thick., source: company}}\n"},
			"ours/a.yaml:7:35: cover crosses its limit; found 30 in; wanted at most 24 in; rules/small.yaml:18:14: the limit is set here"},
		{"variance that does not reach", "permission for 3 in is not permission for 2", "2026-03-01", []string{head + "replace:\n  - {setting: cover, set: {value: 2 in, because: Thin., source: company}}\nvariances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested., until: 2026-12-31}\n"},
			"ours/a.yaml:7:35: cover crosses its limit; found 2 in; wanted at least 4 in; rules/small.yaml:17:15: the limit is set here"},
		{"variance expired", "it is told even where nothing needs it any more", "2027-01-01", []string{head + "replace:\n  - {setting: cover, set: {value: 6 in, because: As it was., source: company}}\nvariances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested., until: 2026-12-31}\n"},
			"ours/a.yaml:9:5: the variance thin has expired; found until 2026-12-31, as of 2027-01-01; wanted a new variance, or a rulebook within its limits"},
		{"variance without an end", "permission is given for a time", "2026-03-01", []string{head + "variances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested.}\n"},
			`ours/a.yaml:7:5: a variance needs the key "until"; wanted until`},
		{"no day told", "whether the amendment holds cannot be known", "", []string{head + "from: 2026-03-01\nreplace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n"},
			"ours/a.yaml:1:12: the amendment first holds on some days only, and no day was told; wanted the day as of which the design is made; it is never taken from the clock"},
		{"no such rule", "nothing would be retired, and nobody would notice", "", []string{head + "retire:\n  - {rule: GRID-NONNE, because: Gone.}\n"},
			`ours/a.yaml:7:12: no rule is called GRID-NONNE; found GRID-NONNE; wanted the name of a rule of the rulebook; did you mean "GRID-NONE"?`},
		{"blank place", "said once, and not that no rule is called so", "", []string{head + "move:\n  - {rule: GRID-WEAK, after: '', because: Late.}\n"},
			`ours/a.yaml:7:23: "after" of a change has no value; wanted a value`},
		{"no such setting", "a setting of a new name is added, not replaced", "", []string{head + "replace:\n  - {setting: covers, set: {value: 8 in, because: Deeper., source: company}}\n"},
			`ours/a.yaml:7:15: no setting is called covers; found covers; wanted the name of a setting of the rulebook; did you mean "cover"?`},
		{"no such decision", "a rule must answer some question", "", []string{head + "add:\n  - {rule: OURS, answer: inches(9), because: More., source: company, to: depht}\n"},
			`ours/a.yaml:7:74: no decision is called depht; found depht; wanted the name of a decision of the rulebook; did you mean "depth"?`},
		{"setting amended twice", "which of the two holds would hang on the names of files", "", []string{head + "replace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n", second + "replace:\n  - {setting: cover, set: {value: 9 in, because: Deeper still., source: company}}\n"},
			"ours/b.yaml:7:15: setting cover is amended twice; wanted one amendment of it, or over: [first] where this one is meant to build on that; ours/a.yaml:7:15: it is amended here"},
		{"rule amended twice", "what one takes away the other cannot change", "", []string{head + "retire:\n  - {rule: GRID-WEAK, because: Gone.}\n", second + "replace:\n  - {rule: GRID-WEAK, with: {answer: biaxial, because: Ours., source: company}}\n"},
			"ours/b.yaml:7:12: rule GRID-WEAK is not there any more; found GRID-WEAK; wanted a rule that is still there; ours/a.yaml:7:5: first retires it"},
		{"circle", "neither could be laid first", "", []string{head + "over: [second]\n", second + "over: [first]\n"},
			"ours/b.yaml:6:8: amendments build on each other in a circle; found first over second over first; wanted an order; ours/a.yaml:1:12: first stands here; ours/b.yaml:1:12: second stands here"},
		{"no such amendment", "an order that hangs on a slip is none", "", []string{head + "over: [frist]\n"},
			`ours/a.yaml:6:8: no amendment is called frist; found frist; wanted the name of an amendment that this one builds on`},
		{"name taken", "over: would mean either of them", "", []string{head, head}, "ours/b.yaml:1:12: an amendment of this name is there already; found first; ours/a.yaml:1:12: it stands here first"},
		{"does neither thing", "with neither set: nor with: it changes nothing", "", []string{head + "replace:\n  - {rule: GRID-WEAK, because: Ours.}\n"},
			"ours/a.yaml:7:5: a replacement says what changes, or what takes the whole entry's place; wanted set: with the keys that change, or with: a whole rule"},
		{"not a date", "a day without its year is no day", "", []string{"amendment: first\ncompany: Ours\nwho: A\nwhen: 5 January\nwhy: B\n"},
			"ours/a.yaml:4:7: this is not a date; found 5 January; wanted a day such as 2026-03-01"},
		{"changed twice in one", "it could be said once", "", []string{head + "replace:\n  - {setting: cover, set: {value: 8 in, because: b, source: company}}\n  - {setting: cover, set: {value: 9 in, because: b, source: company}}\n"},
			"ours/a.yaml:8:15: setting cover is amended twice; wanted one change of it in this amendment; ours/a.yaml:7:15: it is amended here"},
		{"of another sort", "a name is looked for among all sorts", "", []string{head + "retire:\n  - {check: GRID-WEAK, because: b}\n"},
			"ours/a.yaml:7:13: GRID-WEAK is a rule, not a check; found check: GRID-WEAK; wanted rule: GRID-WEAK"},
		{"beside a rule of another decision", "the two places contradict each other", "", []string{head + "add:\n  - {rule: OURS, to: depth, after: GRID-WEAK, answer: inches(9), because: b, source: company}\n"},
			"ours/a.yaml:7:36: GRID-WEAK belongs to which_grid; found GRID-WEAK; wanted a rule of depth"},
		{"before and after", "it can lie at one place", "", []string{head + "add:\n  - {rule: OURS, before: GRID-NONE, after: GRID-WEAK, answer: biaxial, because: b, source: company}\n"},
			"ours/a.yaml:7:44: an entry goes before another or after one, not both"},
		{"added again after it was retired", "a reason that names it could mean either", "", []string{head + "retire:\n  - {rule: GRID-WEAK, because: b}\n", second + "over: [first]\nadd:\n  - {rule: GRID-WEAK, to: which_grid, answer: biaxial, because: b, source: company}\n"},
			"ours/b.yaml:8:12: the rule GRID-WEAK is there already; found GRID-WEAK; wanted another name: what was retired stays told under its own; rules/small.yaml:27:16: it was declared here first"},
		{"list for a whole entry", "an entry has keys", "", []string{head + "replace:\n  - {rule: GRID-NONE, because: b, with: [biaxial]}\n"},
			"ours/a.yaml:7:41: a rule must be keys with values; found a list"},
		{"limit of a setting changed", "a company cannot widen what holds it", "", []string{head + "replace:\n  - {setting: cover, set: {at_least: 2 in, because: b, source: company}}\n"},
			"ours/a.yaml:7:38: an amendment does not change at_least of a setting; wanted under variances: {variance: NAME, setting: cover, to: VALUE, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}"},
		{"limit of a setting left out", "nor by writing the setting anew", "", []string{head + "replace:\n  - {setting: cover, with: {value: 8 in, at_most: 24 in, because: b, source: company}}\n"},
			"ours/a.yaml:7:5: an amendment does not change at_least of a setting"},
		{"value without a source", "the old source says nothing of the new value", "", []string{head + "replace:\n  - {setting: cover, set: {value: 8 in, because: b}}\n"},
			"ours/a.yaml:7:35: a changed value needs a source of its own; wanted source: company, or the name of a source, under set"},
		{"presumption dropped", "what was not measured does not become measured by being said", "", []string{head + "add:\n  - {rule: OURS, to: depth, answer: inches(5), standing: presumed, because: b, source: company}\n", second + "over: [first]\nreplace:\n  - {rule: OURS, set: {standing: measured, because: b, source: company}}\n"},
			"ours/b.yaml:8:5: the replacement drops standing of OURS; wanted standing: presumed"},
		{"confirmation dropped", "a crew would no longer be asked to look", "", []string{head + "add:\n  - {rule: OURS, to: depth, answer: inches(5), confirm: Dig and see., because: b, source: company}\n", second + "over: [first]\nreplace:\n  - {rule: OURS, with: {answer: inches(5), because: b, source: company}}\n"},
			"ours/b.yaml:8:5: the replacement drops confirm of OURS; wanted confirm: Dig and see."},
		{"no day for a variance", "permission is for a time", "", []string{head + "variances:\n  - {variance: v, setting: cover, to: 3 in, who: O, why: W., until: 2027-01-01}\n"},
			"ours/a.yaml:7:5: the variance v holds on some days only, and no day was told"},
		{"two variances for one thing", "one could permit more than the other", "2026-03-01", []string{head + "variances:\n  - {variance: v, setting: cover, to: 3 in, who: O, why: W., until: 2027-01-01}\n  - {variance: w, setting: cover, to: 2 in, who: O, why: W., until: 2027-01-01}\n"},
			"ours/a.yaml:8:5: two variances for one thing; found cover; ours/a.yaml:7:5: the other stands here"},
		{"variance for nothing", "nobody could tell what is permitted", "2026-03-01", []string{head + "variances:\n  - {variance: v, to: 3 in, who: O, why: W., until: 2027-01-01}\n"},
			"ours/a.yaml:7:5: a variance is for one thing"},
		{"of no sort", "the first key is shown", "", []string{head + "retire:\n  - {rul: GRID-WEAK, because: b}\n"},
			"ours/a.yaml:7:5: the change does not say what it is of; found rul; wanted a line such as setting: NAME"},
		{"move to nowhere", "a move is from one place to another", "", []string{head + "move:\n  - {rule: GRID-NONE, because: b}\n"},
			"ours/a.yaml:7:5: the change does not say where the rule goes; wanted before: or after: another rule"},
		{"rule that is wrong", "an amendment's rule is checked as the rulebook's own, at its own place", "", []string{head + "replace:\n  - {rule: GRID-NONE, with: {answer: biaxal, because: Always., source: company}}\n"},
			`ours/a.yaml:7:38: no value or word is called biaxal; found biaxal; did you mean "biaxial"?`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := amendedBook(c.day, c.texts...)
			var faults *rulebook.Error
			require.ErrorAs(t, err, &faults, c.why)
			require.Contains(t, err.Error(), c.want, c.why)
			require.Len(t, faults.Faults, 1, c.why)
		})
	}
}

// TestAmendedIsTold proves that a rule tells which amendment it came by, what it
// replaced, and the reason of the change.
func TestAmendedIsTold(t *testing.T) {
	book, err := amendedBook("2026-03-01",
		head+"replace:\n  - {rule: GRID-NONE, because: Ours is better., with: {answer: biaxial, because: Always., source: company}}\n",
		second+"over: [first]\nreplace:\n  - {rule: GRID-NONE, with: {answer: no_grid, because: Never., source: company}}\n  - {setting: cover, set: {value: 3 in, because: Thin., source: company}}\nvariances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested., until: 2026-12-31}\n")
	require.NoError(t, err)
	d, _ := book.Decision("which_grid")
	told := d.Rules[1].Amended
	require.Equal(t, "second", told.By.Name)
	require.Equal(t, "Never.", told.Because, "the reason of the entry, where the change gives none")
	was := func(r rulebook.Replaced, key string) string {
		for _, w := range r.Was {
			if w.Key == key {
				return w.Text
			}
		}
		return ""
	}
	require.Len(t, told.Replaced, 2, "what it replaced had come by an amendment too")
	require.Equal(t, "biaxial", was(told.Replaced[0], "answer"))
	require.Equal(t, "first", told.Replaced[0].By.Name)
	require.Equal(t, "ours/a.yaml", told.Replaced[0].Place.File)
	require.Equal(t, "no_grid", was(told.Replaced[1], "answer"))
	require.Nil(t, told.Replaced[1].By, "the first was the rulebook's own")
	require.Equal(t, "rules/small.yaml", told.Replaced[1].Place.File)
	s, _ := book.Setting("cover")
	require.Equal(t, "Thin.", s.Amended.Because)
	require.Equal(t, "6 in", was(s.Amended.Replaced[0], "value"))
	require.Len(t, book.Variances(), 1)
	require.Equal(t, "4 in", book.Variances()[0].Limit.Text(quantity.US))
	require.Len(t, book.Amendments(), 2)
}

// TestAmendmentsAdd proves that an amendment adds whatever a chapter declares:
// sources, kinds and materials, terms, decisions, courses, checks, cautions and
// refusals.
func TestAmendmentsAdd(t *testing.T) {
	book, err := amendedBook("", head+`
add:
  - {source: our_report, document: Our report, known: company}
  - {kind: gravel, about: Our gravels., properties: {density: {is: density, about: In place.}}}
  - {material: pit_gravel, kind: gravel, label: pit gravel, because: Weighed., source: our_report, properties: {density: 130 pcf}}
  - {term: strong, is: bool, about: Strong ground., value: known(cbr) && cbr > 10, because: Ours., source: practice}
  - decision: fill
    asks: Which gravel fills?
    answers: gravel
    take: first
    rules:
      - {rule: FILL, answer: pit_gravel, because: "Ours, of {pit_gravel.density}.", source: our_report}
  - {course: fill, after: base, label: Fill, is: stone, when: strong, because: Ours., source: our_report, attributes: {material: fill}}
  - {check: OURS, asks: "Is it so?", holds: strong, failing: caution, says: Mind., because: Ours., source: our_report}
  - {caution: MIND, when: strong, says: "Mind {cbr_words}.", source: our_report}
  - {refusal: TOO-STRONG, when: known(cbr) && cbr > 90, says: Rock., who: A geologist., source: our_report}
  - {setting: cbr_words, value: "'the strong ground'", because: A text., source: company}
`)
	require.NoError(t, err)
	out, err := book.Run(given{"cbr": 20.0}, nil)
	require.NoError(t, err)
	require.Len(t, out.Courses, 2)
	require.Equal(t, "fill", out.Courses[1].Name, "an added course lies over those of the rulebook")
	require.Len(t, out.Checks, 2)
	require.Len(t, out.Cautions, 1)
	said, err := out.Say(out.Cautions[0].Says)
	require.NoError(t, err)
	require.Equal(t, "Mind 'the strong ground'.", said.Text(quantity.US))
	d, _ := book.Decision("fill")
	require.Equal(t, "first", d.Rules[0].Amended.By.Name)
	require.Equal(t, "Our report", d.Rules[0].Source.Document)
	refused, err := book.Run(given{"cbr": 95.0}, nil)
	require.NoError(t, err)
	require.Len(t, refused.Refusals, 1)
}
