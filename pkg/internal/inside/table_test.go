package inside_test

import (
	"math"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// amended opens the standard rulebook with an amendment that adds something.
func amended(t *testing.T, adds string) *groundrule.Book {
	t.Helper()
	day, err := rulebook.ParseDate("2026-06-01")
	require.NoError(t, err)
	text := "amendment: more\ncompany: Ours\nwho: A\nwhen: 2026-03-01\nwhy: we ask more\nadd:\n" + adds
	book, err := groundrule.OpenStandard(groundrule.AsOf(day), groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"more.yaml": {Data: []byte(text)}}}))
	require.NoError(t, err)
	return book
}

// A question of a company is a field of the job, of its kind and within its bounds.
func TestQuestionsAreFields(t *testing.T) {
	none, most := math.Inf(-1), math.Inf(1)
	cases := []struct {
		name, why, question string
		form                site.Form
		dim                 quantity.Dimension
		unit                string
		low, high           float64
		example             string
	}{
		{"far_pool", "both bounds in the unit of its own", "answers: length, at_least: 2 ft, at_most: 1000 ft", site.MeasuredForm, quantity.DimLength, "ft", 2, 1000, "2 ft"},
		{"far_tree", "without a most it has none", "answers: length, at_least: 3 m", site.MeasuredForm, quantity.DimLength, "m", 3, most, "3 m"},
		{"far_well", "nor without a least", "answers: length, at_most: 50 ft", site.MeasuredForm, quantity.DimLength, "ft", none, 50, "50 ft"},
		{"far_pond", "in the base unit where nothing names one", "answers: length", site.MeasuredForm, quantity.DimLength, "m", none, most, "1 m"},
		{"far_wall", "what is presumed is the example", "answers: length, at_least: 1 ft, presumed: {value: 7 ft, because: told, confirm: Measure.}", site.MeasuredForm, quantity.DimLength, "ft", 1, most, "7 ft"},
		{"guests", "a number has no unit", "answers: number, at_least: 5, at_most: 500", site.NumberForm, quantity.DimRatio, "", 5, 500, "5"},
		{"chairs", "nor bounds, if none are told", "answers: number", site.NumberForm, quantity.DimRatio, "", none, most, "1"},
		{"permit", "a yes or no", "answers: bool", site.FlagForm, quantity.NoDimension, "", none, most, "yes"},
		{"lies_beside", "a word of a vocabulary of jobs", "answers: load_case", site.WordForm, quantity.NoDimension, "", none, most, "foot"},
	}
	adds := ""
	for _, c := range cases {
		adds += "  - {question: " + c.name + ", asks: \"What of it?\", " + c.question + ", because: told, source: company}\n"
	}
	table := inside.Table(inside.Rules(amended(t, adds)))
	fields := map[string]site.Field{}
	for _, f := range table.Inputs() {
		fields[f.Path] = f
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			f, there := fields["company."+c.name]
			require.True(t, there)
			require.Equal(t, []any{c.form, c.dim, c.unit, c.low, c.high, c.example}, []any{f.Form, f.Dim, f.Range.Unit, f.Range.Low, f.Range.High, f.Example}, c.why)
			require.Equal(t, "What of it?", f.About)
			require.Equal(t, c.form == site.WordForm, f.Vocabulary.Name == "load_case")
		})
	}
	require.Equal(t, []string{"Far pool", "Guests"}, []string{fields["company.far_pool"].Label, fields["company.guests"].Label})
}

// TestRunOtherwise holds that a job beside one that ran comes to what it comes to alone,
// also where the first came to nothing.
func TestRunOtherwise(t *testing.T) {
	standard, err := groundrule.Standard()
	require.NoError(t, err)
	rules := inside.Rules(standard)
	job := func(change func(*site.Site)) *site.Site {
		s := &site.Site{Area: quantity.SquareFeet(100), Use: "foot", Base: "dense"}
		change(s)
		return s
	}
	plain := job(func(*site.Site) {})
	truck := job(func(s *site.Site) { s.Use = "truck_yard" })
	wrong := job(func(s *site.Site) { s.Overrides = []site.Override{{Decision: "nosuch", Answer: "1"}} })
	for _, first := range []*site.Site{plain, truck, wrong} {
		ran := inside.Run(rules, first)
		for _, second := range []*site.Site{plain, truck, wrong} {
			want, got := inside.Run(rules, second), ran.Otherwise(rules, second)
			require.Equal(t, want.Status, got.Status)
			require.Equal(t, want.Why, got.Why)
			require.Equal(t, want.Err == nil, got.Err == nil)
			require.Equal(t, want.Outcome == nil, got.Outcome == nil)
		}
	}
}

// TestNotCalculatedBesideARefusal holds that a refusal that holds is what a job is refused
// by, wherever it stands among those that a calculation does not reach.
func TestNotCalculatedBesideARefusal(t *testing.T) {
	job := &site.Site{Area: quantity.SquareFeet(100), Use: "foot", Base: "dense"}
	const beyond = "  - {refusal: DEEP, when: \"wheel_cover(lbf(9000), psi(80), 99) > feet(1)\", says: Deep., who: Someone., source: company}\n"
	const told = "  - {refusal: SMALL, when: area < sq_ft(200), says: Small., who: Someone., source: company}\n"
	for _, c := range []struct{ name, adds, id string }{
		{"behind it", beyond + told, "SMALL"},
		{"before it", told + beyond, "SMALL"},
		{"alone", beyond, "DEEP"},
		{"which quotes it", "  - {term: cover_tried, is: length, about: cover, value: \"wheel_cover(lbf(9000), psi(80), 99)\", because: tried, source: company}\n" +
			"  - {refusal: QUOTES, when: area < sq_ft(200) || cover_tried > feet(1), says: \"It is {cover_tried}.\", who: Someone., source: company}\n" + beyond, "DEEP"},
	} {
		t.Run(c.name, func(t *testing.T) {
			ran := inside.Run(inside.Rules(amended(t, c.adds)), job)
			require.Equal(t, section.Refused, ran.Status, "%v", ran.Err)
			require.Equal(t, []string{c.id}, ran.Why)
			require.Equal(t, c.id == "DEEP", ran.Err != nil)
		})
	}
}

// TestNotCalculated holds that a calculation that does not reach a job refuses it, under
// the rule that called it, or where no rule did under an id of its own.
func TestNotCalculated(t *testing.T) {
	job := &site.Site{Area: quantity.SquareFeet(100), Use: "foot", Base: "dense"}
	for _, c := range []struct{ name, why, adds, id string }{
		{"by a rule", "the rule is named", "  - {decision: cover_tried, asks: \"How much?\", answers: length, take: first, rules: [{rule: COVER-TRIED, answer: \"wheel_cover(lbf(9000), psi(80), 99)\", because: tried, source: company}]}\n" +
			"  - {caution: THICK, when: cover_tried > feet(1), says: Thick., source: company}\n", "COVER-TRIED"},
		{"by a caution", "its id is", "  - {caution: THICK, when: \"wheel_cover(lbf(9000), psi(80), 99) > feet(1)\", says: Thick., source: company}\n", "THICK"},
		{"by a term", "no rule asked for it", "  - {term: cover_tried, is: length, about: cover, value: \"wheel_cover(lbf(9000), psi(80), 99)\", because: tried, source: company}\n" +
			"  - {caution: THICK, when: cover_tried > feet(1), says: Thick., source: company}\n", inside.NotCalculated},
	} {
		t.Run(c.name, func(t *testing.T) {
			ran := inside.Run(inside.Rules(amended(t, c.adds)), job)
			require.Equal(t, section.Refused, ran.Status, "%s: %v", c.why, ran.Err)
			require.Equal(t, []string{c.id}, ran.Why, c.why)
			require.Error(t, ran.Err)
			require.Nil(t, ran.Outcome)
		})
	}
}
