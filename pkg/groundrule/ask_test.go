package groundrule_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// keysOf lists what is asked, in order.
func keysOf(questions []section.Question) []string {
	out := []string{}
	for _, q := range questions {
		out = append(out, q.Key)
	}
	return out
}

// plotAsks are questions of a company for the small rulebook of the tests.
const plotAsks = `amendment: asks
company: Our Paving
who: A. Keeper
when: 2026-03-01
why: We ask.
add:
  - question: soil.cbr
    asks: How strong is the ground?
    how: Look.
    may_be: [2, 5]
    because: It decides.
    source: company
  - question: paver.herringbone
    asks: Which pattern?
    because: It decides nothing here.
    source: company
  - question: slope_steep
    asks: Is it steep?
    answers: bool
    presumed: {value: "false", because: Mostly., confirm: Look.}
    because: Water runs.
    source: company
  - refusal: STEEP
    when: slope_steep
    says: It is steep. Nobody builds there.
    who: An engineer.
    source: company
`

// TestAsk holds what is asked, of whom and in which order, by amendments of the
// questions.
func TestAsk(t *testing.T) {
	const first = "{area: 400 sq ft, use: foot, base: dense}"
	for _, c := range []struct {
		name, why, change, job string
		unknown                []string
		want                   []string
	}{
		{"weightiest first", "what may refuse the job comes before stone, and what nothing reads is not asked", "", first, nil, []string{"company.slope_steep", "soil.cbr"}},
		{"answered", "what the job says is not asked", "", "{area: 400 sq ft, use: foot, base: dense, company: {slope_steep: no}}", nil, []string{"soil.cbr"}},
		{"refused", "an answer does not bring back what another rules out", "", "{area: 400 sq ft, use: foot, base: dense, company: {slope_steep: yes}}", nil, []string{}},
		{"unknown", "asked once", "", first, []string{"company.slope_steep"}, []string{"soil.cbr"}},
		{"retired", "a company that does not ask", "retire:\n  - {question: soil.cbr, because: Ours look.}\n", first, nil, []string{"company.slope_steep"}},
		{"never asked", "by its condition", "replace:\n  - {question: soil.cbr, set: {when: use != foot}, because: No need.}\n", first, nil, []string{"company.slope_steep"}},
		{"of values that are alike", "no answer changes anything", "replace:\n  - {question: soil.cbr, set: {may_be: [1, 2]}, because: Ours.}\n", first, nil, []string{"company.slope_steep"}},
		{"of a case", "that does not hold", "replace:\n  - {question: soil.cbr, set: {may_be: [2, {when: use != foot, values: [5]}]}, because: Ours.}\n", first, nil, []string{"company.slope_steep"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := fstest.MapFS{"a.yaml": {Data: []byte(plotAsks)}}
			if c.change != "" {
				files["b.yaml"] = &fstest.MapFile{Data: []byte("amendment: more\ncompany: Our Paving\nwho: A. Keeper\nwhen: 2026-03-02\nwhy: More.\nover: [asks]\n" + c.change)}
			}
			book, err := groundrule.Open(small.Rulebook("plot.yaml", plot), groundrule.WithFunctions(faulty), groundrule.AsOf(mustDay(t, "2026-06-01")), groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: files}))
			require.NoError(t, err)
			job, err := site.Read("job.yaml", []byte(c.job))
			require.NoError(t, err)
			questions, err := book.Ask(job, c.unknown...)
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(c.want, keysOf(questions)), c.why)
		})
	}
	_, err := (*groundrule.Book)(nil).Ask(nil)
	require.ErrorAs(t, err, new(*groundrule.UseError))
	book, err := groundrule.Standard()
	require.NoError(t, err)
	_, err = book.Ask(&site.Site{})
	require.ErrorAs(t, err, new(*site.Error), "a job that says too little is told what it must say")
}

// TestAskOfTwo holds what is asked where no answer alone changes anything and two or
// three do together, and that the answers that it takes are told.
func TestAskOfTwo(t *testing.T) {
	const questions = `amendment: asks
company: Our Paving
who: A. Keeper
when: 2026-03-01
why: We ask.
add:
  - {question: rain.depth, asks: "How much rain?", how: Look., may_be: [1 in, 2 in], because: It rains., source: company}
  - {question: soil.topsoil_depth, asks: "How deep?", how: Dig., may_be: [3 in, 6 in], because: It is soft., source: company}
  - {question: nearby.window_wells, asks: "Any?", how: Look., because: They leak., source: company}
`
	const (
		alone = "rule: CARS, when: use == car_driveway,"
		two   = "rule: CARS, when: known(rain.depth) && known(soil.topsoil_depth) && rain.depth > inches(1) && soil.topsoil_depth > inches(3),"
	)
	shut := strings.Replace(questions, "asks: \"How deep?\",", "asks: \"How deep?\", when: known(rain.depth),", 1)
	third := strings.Replace(shut, "asks: \"Any?\",", "asks: \"Any?\", when: known(soil.topsoil_depth),", 1)
	three := strings.Replace(two, "inches(3),", "inches(3) && known(nearby.window_wells) && nearby.window_wells,", 1)
	shutFirst := strings.Replace(two, "when: ", "when: known(nearby.window_wells) && nearby.window_wells && ", 1)
	for _, c := range []struct {
		name, why, text, asks, job string
		unknown                    []string
		want                       []string
	}{
		{"alone", "what changes nothing is not asked", alone, questions, "{area: 400 sq ft, use: foot, base: dense}", nil, nil},
		{"two", "the first of both, with the answer of the other", two, questions, "{area: 400 sq ft, use: foot, base: dense}", nil,
			[]string{"rain.depth 2 in: with soil.topsoil_depth 6 in: stone 3 in thicker"}},
		{"one given", "the other alone", two, questions, "{area: 400 sq ft, use: foot, base: dense, rain: {depth: 2 in}}", nil,
			[]string{"soil.topsoil_depth 6 in: stone 3 in thicker"}},
		{"one given that leaves it alone", "then the other changes nothing", two, questions, "{area: 400 sq ft, use: foot, base: dense, rain: {depth: 1 in}}", nil, nil},
		{"one that nobody knows", "then nothing is asked", two, questions, "{area: 400 sq ft, use: foot, base: dense}", []string{"soil.topsoil_depth"}, nil},
		{"one that the other opens", "it is asked for the sake of that", two, shut, "{area: 400 sq ft, use: foot, base: dense}", nil,
			[]string{"rain.depth 2 in: with soil.topsoil_depth 6 in: stone 3 in thicker"}},
		{"three, each opened by the one before, of which the rule reads the last first", "what opens it is read for its sake", shutFirst, third, "{area: 400 sq ft, use: foot, base: dense}", nil,
			[]string{"rain.depth 2 in: with soil.topsoil_depth 6 in, nearby.window_wells yes: stone 3 in thicker"}},
		{"three, each opened by the one before", "all answers that it takes", three, third, "{area: 400 sq ft, use: foot, base: dense}", nil,
			[]string{"rain.depth 2 in: with soil.topsoil_depth 6 in, nearby.window_wells yes: stone 3 in thicker"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			book := plotBook(t, replaced(t, plot, alone, c.text), groundrule.AsOf(mustDay(t, "2026-06-01")), groundrule.WithAmendments(amendments("ours", c.asks)))
			job, err := site.Read("job.yaml", []byte(c.job))
			require.NoError(t, err)
			asked, err := book.Ask(job, c.unknown...)
			require.NoError(t, err)
			var got []string
			for _, q := range asked {
				for _, choice := range q.Choices {
					for _, d := range choice.Differs {
						got = append(got, q.Key+" "+choice.Answer+": "+d.US)
					}
				}
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

// TestQuestionsOfASection holds which questions a section lists, and by which of them
// what is assumed would be known.
func TestQuestionsOfASection(t *testing.T) {
	changed := strings.Replace(plotAsks, "may_be: [2, 5]", "may_be: [2, 5]\n    test: A probe", 1)
	book := plotBook(t, plot, groundrule.AsOf(mustDay(t, "2026-06-01")), groundrule.WithAmendments(amendments("ours", changed)))
	for _, c := range []struct {
		name, why, job string
		asked, keys    []string
	}{
		{"nothing known", "the number tells how strong the ground is", "{area: 400 sq ft, use: foot, base: dense}", []string{"company.slope_steep", "soil.cbr"}, []string{"strength soil.cbr", "slope_steep company.slope_steep"}},
		{"the slope known", "one is left", "{area: 400 sq ft, use: foot, base: dense, company: {slope_steep: no}}", []string{"soil.cbr"}, []string{"strength soil.cbr"}},
		{"all known", "nothing is assumed", "{area: 400 sq ft, use: foot, base: dense, soil: {cbr: 4}, company: {slope_steep: no}}", []string{}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, err := site.Read("job.yaml", []byte(c.job))
			require.NoError(t, err)
			design, err := book.Design(job)
			require.NoError(t, err)
			s, err := design.Section(section.Questions)
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(c.asked, keysOf(s.Questions)), c.why)
			var keys []string
			for _, p := range s.Confirm {
				keys = append(keys, strings.Join(append([]string{p.Name}, p.Keys...), " "))
			}
			require.Empty(t, cmp.Diff(c.keys, keys), c.why)
			for _, q := range s.Questions {
				require.NotEmpty(t, q.Asks)
				require.Equal(t, q.Key == "soil.cbr", q.How.US == "Look.", "how it is found out, where that is said")
				for _, choice := range q.Choices {
					require.NotEmpty(t, choice.Status)
				}
			}
			plain, err := design.Section()
			require.NoError(t, err)
			require.Nil(t, plain.Questions, "nobody asked for them")
		})
	}
}
