package groundrule_test

import (
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
