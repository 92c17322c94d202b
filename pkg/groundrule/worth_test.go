package groundrule_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
)

// plotPrices is a price list for the small rulebook: 48 a ton, and nothing else.
const plotPrices = `
prices: plot
company: Nobody
dated: 2026-01-01
from: 2026-01-01
until: 2026-12-31
currency: USD
crews: {us: {people: 1, rate: 0 per hour}}
items:
  gravel: {price: 48 per ton, hours: 1 per ton, crew: us}
overhead: 0 %
markup: 0 %
`

// plotQuantities make the small rulebook's stone something that is bought: an inch of
// it on 400 sq ft is 33.3 cu ft, which at 150 pcf weigh 2.5 tons.
var plotQuantities = strings.NewReplacer("course_kind:", "quantity_kind: {about: quantities, words: {material: material, labor: labor}, because: told, source: practice}\n  course_kind:",
	"\nchecks:", "\nquantities:\n  - {quantity: GRAVEL, about: stone, kind: material, course: stone, item: \"'gravel'\", amount: area * depth, weighs: pcf(150), because: told, source: practice}\nchecks:").Replace(plot)

// TestWorth holds what is said of an answer: what it may save, what it may add and what
// it cannot do, by weight and by a price list.
func TestWorth(t *testing.T) {
	prices, err := takeoff.ReadPrices("prices.yaml", []byte(plotPrices))
	require.NoError(t, err)
	other, err := takeoff.ReadPrices("prices.yaml", []byte(strings.NewReplacer("USD", "CAD", "price: 48 per ton, ", "").Replace(plotPrices)))
	require.NoError(t, err)
	for _, c := range []struct {
		name, why, job, change string
		prices                 *takeoff.Prices
		want                   map[string]string
	}{
		{"saves", "the ground is assumed weak, and a test may show that it is not", "{area: 400 sq ft, use: foot, base: dense}", "", prices,
			map[string]string{"soil.cbr": "A cone test may save 2 in of stone, 5 tons, $240; it cannot make it thicker."}},
		{"no price list", "then weight alone", "{area: 400 sq ft, use: foot, base: dense}", "", nil,
			map[string]string{"soil.cbr": "A cone test may save 2 in of stone, 5 tons; it cannot make it thicker."}},
		{"nothing named", "the answer itself is what finds it out", "{area: 400 sq ft, use: foot, base: dense}", "replace:\n  - {question: soil.cbr, set: {test: }, because: Ours.}\n", nil,
			map[string]string{"soil.cbr": "The answer may save 2 in of stone, 5 tons; it cannot make it thicker."}},
		{"adds", "the ground is assumed firm", "{area: 400 sq ft, use: foot, base: dense}", "replace:\n  - {rule: GUESS, set: {answer: \"4.0\", source: company}, because: Ours.}\n", prices,
			map[string]string{"soil.cbr": "A cone test may add 2 in of stone, 5 tons, $240; it cannot save any."}},
		{"both", "weak ground takes a third more, firm ground a third less", "{area: 400 sq ft, use: foot, base: dense}", "add:\n  - {rule: WEAKER, to: depth, when: strength < 2.1, answer: inches(7), because: So., source: company}\n", prices,
			map[string]string{"soil.cbr": "A cone test may save 2 in of stone, 5 tons, $240, or add 1 in of stone, 2.5 tons, $120."}},
		{"one area", "of several, it is named", "{base: dense, areas: [{name: driveway, area: 400 sq ft, use: foot}, {name: walk, area: 40 sq ft, use: foot}]}", "", prices,
			map[string]string{"soil.cbr": "A cone test on the driveway may save 2 in of stone, 5 tons, $240; it cannot make it thicker."}},
		{"no section then", "that nobody builds is no amount", "{area: 400 sq ft, use: foot, base: dense}", "", prices,
			map[string]string{"company.slope_steep": "The answer may rule this section out; otherwise it changes no quantity that is weighed."}},
		{"other money, nothing priced", "what has no price is not money, and is said", "{area: 400 sq ft, use: foot, base: dense}", "", other,
			map[string]string{"soil.cbr": "A cone test may save 2 in of stone, 5 tons; it cannot make it thicker (money: of what has a price)."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := fstest.MapFS{"a.yaml": {Data: []byte(strings.Replace(plotAsks, "asks: How strong is the ground?", "asks: How strong is the ground?\n    test: A cone test", 1))}}
			if c.change != "" {
				files["b.yaml"] = &fstest.MapFile{Data: []byte("amendment: more\ncompany: Our Paving\nwho: A. Keeper\nwhen: 2026-03-02\nwhy: More.\nover: [asks]\n" + c.change)}
			}
			book, err := groundrule.Open(small.Rulebook("plot.yaml", plotQuantities), groundrule.WithFunctions(faulty), groundrule.AsOf(mustDay(t, "2026-06-01")), groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: files}))
			require.NoError(t, err)
			job, err := site.Read("job.yaml", []byte(c.job))
			require.NoError(t, err)
			questions, err := book.AskPriced(job.Parts()[0], c.prices, mustDay(t, "2026-06-01"))
			require.NoError(t, err)
			said := map[string]string{}
			for _, q := range questions {
				said[q.Key] = q.Worth.US
			}
			for key, want := range c.want {
				require.Equal(t, want, said[key], c.why)
			}
		})
	}
}

// TestWorthOfTheStandard holds, on a job of the standard rulebook, that the questions
// that cannot rule the section out stand by what they may change, and that no sentence
// denies what a choice does.
func TestWorthOfTheStandard(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	job, err := site.Read("job.yaml", []byte("{area: 600 sq ft, use: car_driveway, base: dense, soil: {word: clay}, frost: {depth: 36 in}}"))
	require.NoError(t, err)
	questions, err := book.Ask(job)
	require.NoError(t, err)
	last, weighed := 1e18, 0
	for _, q := range questions {
		most, least, out := 0.0, 0.0, false
		for _, c := range q.Choices {
			mass, _ := c.Mass.Measure()
			most, least = max(most, mass.SI), min(least, mass.SI)
			out = out || c.Status != section.Designed
		}
		require.False(t, strings.Contains(q.Worth.US, "cannot save") && least < -1, "%s: %s", q.Key, q.Worth.US)
		require.True(t, least >= -1 || strings.Contains(q.Worth.US, "may save"), "%s: %s", q.Key, q.Worth.US)
		require.True(t, most <= 1 || strings.Contains(q.Worth.US, " add "), "%s: %s", q.Key, q.Worth.US)
		require.Equal(t, strings.Contains(q.Worth.US, "rule"), out, "%s: %s", q.Key, q.Worth.US)
		stake := max(most, -least)
		if stake > 1 {
			weighed++
		}
		if !out {
			require.LessOrEqual(t, stake, last+1e-6, q.Key)
			last = stake
		}
	}
	require.Positive(t, weighed)
	at := slices.IndexFunc(questions, func(q section.Question) bool { return q.Key == "soil.boot" })
	labels := map[string]string{}
	for _, c := range questions[at].Choices {
		labels[c.Answer] = c.Label
	}
	require.Equal(t, "no mark", labels["no_mark"], "an answer as people say it")
	require.Contains(t, labels, "sinks")
	require.Empty(t, labels["sinks"], "where that is another word than the answer")
}
