package groundrule_test

import (
	"encoding/json"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

const asks = `amendment: questions
company: Our Paving
who: A. Keeper
when: 2026-03-01
why: We ask more.
add:
  - question: pool_distance
    asks: How far is the nearest pool wall?
    answers: length
    at_least: 0 ft
    at_most: 1000 ft
    presumed: {value: 100 ft, because: Nobody spoke of a pool., confirm: Ask where the pool is.}
    because: Fill beside it settles.
    source: company
  - question: permit
    asks: Is there a permit?
    answers: bool
    because: The county wants one.
    source: company
  - question: beside
    asks: What lies beside it?
    answers: load_case
    presumed: {value: foot, because: Mostly a walk., confirm: Look.}
    because: Edges differ.
    source: company
  - caution: NEAR-POOL
    when: pool_distance < feet(10) || beside.carries_trucks
    says: The pool is {pool_distance} away.
    source: company
  - caution: PERMIT
    when: known(permit) && permit
    says: There is a permit.
    source: company
  - load_case: golf_cart_path
    label: golf cart path
    about: carts and a mower
    also: [cart_path]
    loosely: [golf]
    properties: {carries_vehicles: true, esals: 500, wheel: 3000 lbf, tire: 35 psi, ask: Ask the club.}
    because: Our clubs.
    source: company
`

func asking(t *testing.T) *groundrule.Book {
	t.Helper()
	book, err := groundrule.OpenStandard(groundrule.AsOf(mustDay(t, "2026-06-01")),
		groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(asks)}}}))
	require.NoError(t, err)
	return book
}

func mustDay(t *testing.T, day string) rulebook.Date {
	t.Helper()
	d, err := rulebook.ParseDate(day)
	require.NoError(t, err)
	return d
}

// TestWordsAndQuestionsOfAJob reads jobs whose words are open, and holds them to the
// book that designs them.
func TestWordsAndQuestionsOfAJob(t *testing.T) {
	const least = "area: 400 sq ft\nbase: dense\n"
	for _, c := range []struct {
		name, why, job string
		fault          string // by the company's rulebook; "" for none
		standard       string // by the standard
	}{
		{"a load case of its own", "an amendment adds it", least + "use: golf_cart_path\n", "",
			`job.yaml:3:6: use is not a known word for what the paving will carry; found "golf_cart_path"; wanted one of foot, `},
		{"its other name", "in any spelling", least + "use: Cart Path\n", "", `job.yaml:3:6: use is not a known word for what the paving will carry; found "Cart Path"`},
		{"what people say", "it leads to the word", least + "use: golf\n", `use: golf_cart_path (carts and a mower), or one of foot, `, `found "golf"`},
		{"misspelt", "with the nearest", least + "use: golf_cart_pat\n", `did you mean "golf_cart_path"?`, `found "golf_cart_pat"`},
		{"an answer", "the company asks", least + "use: foot\ncompany: {pool_distance: 6 ft, permit: no, beside: fire lane}\n", "",
			`job.yaml:4:26: company.pool_distance is not a question of this rulebook; found "pool_distance"; wanted no answers: it asks none`},
		{"beyond its bounds", "no pool is so far", least + "use: foot\ncompany: {pool_distance: 1001 ft}\n",
			`job.yaml:4:26: company.pool_distance is out of range; found "1001 ft"; wanted 0 to 1,000 ft (0 to 304.8 m)`, "asks none"},
		{"at the bound", "it is possible", least + "use: foot\ncompany: {pool_distance: 1000 ft}\n", "", "asks none"},
		{"without its unit", "six of what?", least + "use: foot\ncompany: {pool_distance: 6}\n", "a unit is missing, and a length is wanted", "asks none"},
		{"neither yes nor no", "a flag is one of both", least + "use: foot\ncompany: {permit: soon}\n", "company.permit is neither yes nor no", "asks none"},
		{"no word", "of the vocabulary", least + "use: foot\ncompany: {beside: ocean}\n", "company.beside is not a known word", "asks none"},
		{"misspelt question", "with the nearest", least + "use: foot\ncompany: {pool_distnce: 6 ft}\n", `did you mean "pool_distance"?`, "asks none"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, err := site.Read("job.yaml", []byte(c.job))
			require.NoError(t, err, "without a rulebook words are open")
			check := func(book *groundrule.Book, want string) {
				t.Helper()
				_, closed := book.Table().Read("job.yaml", []byte(c.job))
				_, err := book.Design(job)
				if want == "" {
					require.NoError(t, err, c.why)
					require.NoError(t, closed)
					return
				}
				require.ErrorContains(t, err, want, c.why)
				require.Error(t, closed)
				var d *diagnostic.Diagnostic
				require.ErrorAs(t, err, &d)
				require.Equal(t, "job.yaml", d.Place.File)
			}
			check(asking(t), c.fault)
			standard, err := groundrule.Standard()
			require.NoError(t, err)
			check(standard, c.standard)
		})
	}
}

// TestQuestionsInASection holds what is told, presumed and read back.
func TestQuestionsInASection(t *testing.T) {
	book := asking(t)
	design := func(text string) *section.Section {
		t.Helper()
		job, err := book.Table().Read("job.yaml", []byte("area: 400 sq ft\nuse: cart path\nbase: dense\nsoil: {word: sand}\n"+text))
		require.NoError(t, err)
		s, err := cameTo(book, job)
		require.NoError(t, err)
		return s
	}
	cautions := func(s *section.Section) (out []string) {
		for _, c := range s.Cautions {
			if c.ID == "NEAR-POOL" || c.ID == "PERMIT" {
				out = append(out, c.ID+": "+c.Says.US)
			}
		}
		return out
	}
	told := design("company: {pool_distance: 6 ft, permit: yes}\n")
	require.Equal(t, []string{"NEAR-POOL: The pool is 6 ft away.", "PERMIT: There is a permit."}, cautions(told))
	require.Equal(t, "POOL-DISTANCE-TOLD", told.Reason("pool_distance").Taken[0].ID)
	require.Contains(t, string(told.Job.Input), `"use":"golf_cart_path"`, "a word is written as the rulebook spells it")
	require.Contains(t, string(told.Job.Input), `"company":{"pool_distance":"6 ft","permit":"yes"}`)
	var back site.Site
	require.NoError(t, json.Unmarshal(told.Job.Input, &back))
	again, err := cameTo(book, &back)
	require.NoError(t, err)
	require.JSONEq(t, string(told.Job.Input), string(again.Job.Input), "what is read back is the same job")
	require.Equal(t, cautions(told), cautions(again))

	presumed := design("")
	require.Empty(t, cautions(presumed))
	require.Equal(t, "100 ft", presumed.Reason("pool_distance").Answer.String())
	confirm := map[string]string{}
	for _, p := range presumed.Confirm {
		confirm[p.Name] = p.Confirm
	}
	require.Equal(t, "Ask where the pool is.", confirm["pool_distance"])
	require.Equal(t, "Ask the club.", confirm["esal"], "what is to be confirmed may depend on the load case")
	require.NotContains(t, confirm, "permit", "nothing is presumed of it")
	require.Equal(t, []string{"NEAR-POOL: The pool is 100 ft away."}, cautions(design("company: {beside: fire_lane}\n")), "an answer that is a word has its properties")
}

// TestQuestionsRefused holds what a question cannot be.
func TestQuestionsRefused(t *testing.T) {
	for _, c := range []struct{ name, why, question, says string }{
		{"of no kind", "nothing could be answered", "asks: x, answers: lenth, because: x, source: company", "a question is of a kind that does not exist; found lenth"},
		{"of an object", "no job can write one", "asks: x, answers: gradation, because: x, source: company", "a job cannot answer with this"},
		{"presumed beyond its bound", "no job may say so", "asks: x, answers: length, at_most: 5 ft, presumed: {value: 6 ft, because: x, confirm: x}, because: x, source: company", "no job may say what is presumed here; found 6 ft; wanted at most 5 ft"},
		{"presumed without confirm", "whoever builds must be told", "asks: x, answers: length, presumed: {value: 6 ft, because: x}, because: x, source: company", `what is presumed needs the key "confirm"`},
		{"bounds of a yes or no", "it has no order", "asks: x, answers: bool, at_least: true, because: x, source: company", "answers of this kind have no order"},
		{"without a source", "somebody asks it", "asks: x, answers: bool, because: x", `a question needs the key "source"`},
		{"read unguarded", "a job may not say", "asks: x, answers: length, because: x, source: company}\n  - caution: C\n    when: q < feet(1)\n    says: x\n    source: company\n  - {source: s, document: d, known: company", "q may be missing here"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := "amendment: a\ncompany: Ours\nwho: A\nwhen: 2026-03-01\nwhy: x\nadd:\n  - {question: q, " + c.question + "}\n"
			_, err := groundrule.OpenStandard(groundrule.AsOf(mustDay(t, "2026-06-01")),
				groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(text)}}}))
			require.ErrorContains(t, err, c.says, c.why)
		})
	}
}
