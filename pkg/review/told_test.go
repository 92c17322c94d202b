package review_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// rich is the rulebook of winter with a setting of each sort, a term, and a kind.
var rich = strings.Replace(winter, "vocabularies:\n", `settings:
  least: {value: 4 in, at_least: 3 in, at_most: 12 in, because: Less does not lock., source: practice}
  usual_stone: {value: gray_stone, because: It is at hand., source: practice}
kinds:
  gravel_kind:
    about: crushed stone
    properties:
      finest: {is: length, about: the finest of it}
      washed: {is: length, optional: true, about: how fine it is washed}
materials:
  gray_stone: {kind: gravel_kind, label: gray stone, because: told, source: practice, properties: {finest: 2 mm}}
terms:
  cold: {is: length, about: how far frost goes beyond 12 in, when: known(frost.depth), value: frost.depth - inches(12), because: told, source: practice}
vocabularies:
`, 1)

// TestNamesAreTold holds how names read, group by group, and in which units.
func TestNamesAreTold(t *testing.T) {
	r, err := review.Names(open(rich))
	require.NoError(t, err)
	require.Equal(t, "names of the rulebook, beside what every job says: 4", r.Summary())
	var us, si strings.Builder
	require.NoError(t, r.WriteText(&us, quantity.US))
	require.NoError(t, r.WriteText(&si, quantity.SI))
	require.Contains(t, us.String(), "INPUTS: what a job says\n")
	require.Contains(t, us.String(), "  area: area\n      area to be paved\n")
	_, declared, _ := strings.Cut(us.String(), "\nSETTINGS")
	settings, words, _ := strings.Cut(declared, "\nWORDS AND PROPERTIES of each kind; a property is read as name.property\n")
	require.Equal(t, `: values that a company may set, within their limits
  least: length, 4 in; at least 3 in; at most 12 in
      Less does not lock.
      winter.yaml:5:3
  usual_stone: gravel_kind, gray_stone
      It is at hand.
      winter.yaml:6:3

TERMS: values worked out from the job
  cold: length, may be missing
      how far frost goes beyond 12 in
      winter.yaml:16:3

DECISIONS: what rules answer
  base_depth: length
      How thick is the base?
      winter.yaml:20:3
`, settings)
	require.Contains(t, words, "  gravel_kind\n      words: gray_stone\n      .finest: length. the finest of it\n      .washed: length, may be missing. how fine it is washed\n")
	require.Contains(t, words, "  course_kind\n      words: stone\n")
	require.True(t, strings.HasSuffix(words, "\n\n"+r.Summary()+"\n"))
	require.Contains(t, si.String(), "  least: length, 101.6 mm; at least 76.2 mm; at most 304.8 mm\n")
	require.NotContains(t, us.String(), "QUESTIONS", "it asks none")

	data, err := json.Marshal(r)
	require.NoError(t, err)
	var read struct {
		Schema  string
		Version int
		Names   []struct{ Name, From string }
		Kinds   []struct {
			Kind       string
			Words      []string
			Properties []struct {
				Name         string
				MayBeMissing bool `json:"may_be_missing"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(data, &read))
	require.Equal(t, []any{"groundrule/names", 1}, []any{read.Schema, read.Version})
	from := map[string]string{}
	for _, n := range read.Names {
		from[n.Name] = n.From
	}
	require.Equal(t, []string{"input", "setting", "term", "decision"}, []string{from["frost.depth"], from["least"], from["cold"], from["base_depth"]})
	for _, k := range read.Kinds {
		if k.Kind == "gravel_kind" {
			require.Equal(t, []string{"gray_stone"}, k.Words)
			require.Equal(t, []bool{false, true}, []bool{k.Properties[0].MayBeMissing, k.Properties[1].MayBeMissing})
			return
		}
	}
	t.Error("the kind is not told")
}

// TestPrint holds which document is printed.
func TestPrint(t *testing.T) {
	before, after := open(winter), open(strings.ReplaceAll(winter, "inches(10)", "inches(12)"))
	print := func(book *groundrule.Book, o review.PrintOptions) string {
		var out strings.Builder
		require.NoError(t, review.Print(&out, book, o))
		return out.String()
	}
	proof, err := review.Prove(t.Context(), promising(t), review.SurveyOptions{Jobs: 200})
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		book      *groundrule.Book
		o         review.PrintOptions
		has, not  []string
	}{
		{"as it is", "every clause, with no change", after, review.PrintOptions{}, []string{"DEEP", "SHALLOW", "12 in"}, []string{"<html", "10 in", "inches(12)"}},
		{"with expressions", "each beside its sentence", after, review.PrintOptions{Expressions: true}, []string{"inches(12)"}, []string{"<html"}},
		{"as a page", "one file of HTML", after, review.PrintOptions{HTML: true}, []string{"<html", "DEEP"}, nil},
		{"with what was", "what differs is marked among all", after, review.PrintOptions{Before: before}, []string{"DEEP", "SHALLOW", "12 in", "10 in"}, nil},
		{"only what differs", "and no more", after, review.PrintOptions{Before: before, OnlyChanges: true}, []string{"What differs between two rulebooks", "DEEP", "12 in", "10 in"}, []string{"SHALLOW"}},
		{"beside itself", "nothing differs", after, review.PrintOptions{Before: after}, []string{"DEEP", "12 in"}, []string{"10 in"}},
		{"with a proof", "a promise has how it is settled", promising(t), review.PrintOptions{Proof: proof}, []string{"NEVER-THIN", "Proven"}, nil},
		{"without a proof", "it is only told", promising(t), review.PrintOptions{}, []string{"NEVER-THIN"}, []string{"Proven"}},
		{"with another report", "which proves nothing", promising(t), review.PrintOptions{Proof: named(t)}, []string{"NEVER-THIN"}, []string{"Proven"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := print(c.book, c.o)
			for _, want := range c.has {
				require.Contains(t, out, want, c.why)
			}
			for _, none := range c.not {
				require.NotContains(t, out, none, c.why)
			}
		})
	}
	var use *groundrule.UseError
	require.ErrorAs(t, review.Print(&strings.Builder{}, nil, review.PrintOptions{}), &use)
	require.ErrorAs(t, review.Print(&strings.Builder{}, after, review.PrintOptions{Before: &groundrule.Book{}}), &use)
}

// promising opens a rulebook that answers every job, and makes a promise.
func promising(t *testing.T) *groundrule.Book {
	t.Helper()
	return open(strings.ReplaceAll(winter, "frost.depth > inches(40)", "frost.depth >= inches(40)") +
		"promises:\n  - {promise: NEVER-THIN, always: base_depth >= inches(4), because: Less does not lock., source: practice}\n")
}

func named(t *testing.T) *review.Report {
	t.Helper()
	r, err := review.Names(open(winter))
	require.NoError(t, err)
	return r
}

// TestSurveyOfTrials holds that the jobs of trials and examples are tried, and what is
// wrong with them told.
func TestSurveyOfTrials(t *testing.T) {
	book := open(winter)
	told := func(o review.SurveyOptions) string {
		o.Names, o.Jobs = []string{"LEVEL"}, 100
		r, err := review.Survey(t.Context(), book, o)
		require.NoError(t, err)
		var out strings.Builder
		require.NoError(t, r.WriteText(&out, quantity.US))
		return strings.Join(strings.Fields(out.String()), " ")
	}
	require.Contains(t, told(review.SurveyOptions{}), "none of them from trials or examples")
	require.Contains(t, told(review.SurveyOptions{Trials: []rulebook.Layer{passes}}), ", 1 of them from trials and examples")
	jobs := func(yield func(*site.Site, error) bool) {
		_ = yield(&site.Site{Area: quantity.SquareFeet(1), Use: "foot", Base: "dense"}, nil) && yield(&site.Site{Area: quantity.SquareFeet(2), Use: "foot", Base: "dense"}, nil)
	}
	require.Contains(t, told(review.SurveyOptions{Examples: jobs}), ", 2 of them from trials and examples")
	require.Contains(t, told(review.SurveyOptions{Trials: []rulebook.Layer{passes}, Examples: jobs}), ", 3 of them from trials and examples")

	_, err := review.Survey(t.Context(), book, review.SurveyOptions{Examples: some})
	require.ErrorContains(t, err, "the examples: ")
	require.ErrorAs(t, err, new(*site.Error))
	_, err = review.Survey(t.Context(), book, review.SurveyOptions{Trials: []rulebook.Layer{trials(map[string]string{"a.yaml": "trials: 3\n"})}})
	require.ErrorContains(t, err, "ours/a.yaml:1:9")
}

// TestSchemaOfABook holds that a schema has the names of a rulebook, but that of a
// section, which no one writes.
func TestSchemaOfABook(t *testing.T) {
	for _, c := range []struct {
		kind       string
		book, none bool
	}{{"amendment", true, false}, {"trial", true, false}, {"section", false, false}} {
		with, err := review.Schema(open(winter), c.kind)
		require.NoError(t, err)
		without, err := review.Schema(nil, c.kind)
		require.NoError(t, err)
		require.Equal(t, c.book, strings.Contains(string(with), `"SHALLOW"`), c.kind)
		require.Equal(t, c.none, strings.Contains(string(without), `"SHALLOW"`), c.kind)
	}
	both, err := review.Schema(open(strings.ReplaceAll(winter, "SHALLOW", "LITTLE")), "amendment", open(winter))
	require.NoError(t, err)
	require.Contains(t, string(both), `"SHALLOW"`, "a name that an earlier rulebook had")
	require.Contains(t, string(both), `"LITTLE"`)
}
