package takeoff

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

var updatePrices = flag.Bool("update-prices", false, "write the golden file of faults of price lists")

func sampleList(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("testdata/prices.yaml")
	require.NoError(t, err)
	return string(data)
}

func onDay(t testing.TB, day string) rulebook.Date {
	t.Helper()
	d, err := rulebook.ParseDate(day)
	require.NoError(t, err)
	return d
}

// TestFaultsOfLists holds what is said of each fault of a price list, whether it is
// found when the list is read or when a take-off meets it. The golden file shows
// all of it.
func TestFaultsOfLists(t *testing.T) {
	var golden strings.Builder
	for _, c := range []struct {
		name, why, was, is string
		day                string
	}{
		{"price of minus one", "nobody is paid for taking stone", "24.50 per ton", "-1 per ton", ""},
		{"fee below zero", "any amount of money is held to it", "fee: 90.00", "fee: -90.00", ""},
		{"no currency", "a number without one is no price", "currency: USD\n", "", ""},
		{"currency without a value", "an empty one is none", "currency: USD", "currency:", ""},
		{"currency as a sign", "$ is of many countries", "currency: USD", "currency: $", ""},
		{"two prices for one thing", "nobody knows which holds", "  spikes: {price: 0.85 each}\n", "  spikes: {price: 0.85 each}\n  spikes: {price: 0.95 each}\n", ""},
		{"price with a sign", "the currency is told once", "24.50 per ton", "$24.50 per ton", ""},
		{"price without a unit", "25 of what?", "24.50 per ton", "24.50", ""},
		{"comma as a decimal point", "1,5 may be 1.5 or a slip for 1,500", "24.50 per ton", "24,50 per ton", ""},
		{"unit misspelled", "the nearest is named", "24.50 per ton", "24.50 per Ton2", ""},
		{"bag of nothing", "what a bag holds is a quantity", "per bag of 94 lb", "per bag of some", ""},
		{"unknown key", "the nearest is named", "least: 5 ton", "lest: 5 ton", ""},
		{"unknown key of a short load", "nor here", "fee: 90.00}", "fee: 90.00, over: 1 ton}", ""},
		{"unknown key of an item", "nor of what is priced in one line", "{price: 0.85 each}", "{price: 0.85 each, prise: 1.00 each}", ""},
		{"unknown key of the list", "nothing is passed over", "markup: 18 %", "markup: 18 %\nmark: 18 %", ""},
		{"unknown crew", "the nearest is named", "crew: saw", "crew: sew", ""},
		{"hours without a crew", "hours have no rate then", "0.25 per ft, crew: saw", "0.25 per ft", ""},
		{"crew by the day", "hours meet a rate per hour", "41.50 per hour", "330.00 per day", ""},
		{"order of another dimension", "a least order is in the unit of the price", "least: 5 ton", "least: 5 ft", ""},
		{"markup and margin", "they are never confused, so never both", "markup: 18 %", "markup: 18 %\nmargin: 15 %", ""},
		{"neither markup nor margin", "no profit is told as markup 0 %, not by silence", "markup: 18 %\n", "", ""},
		{"margin of all of it", "cost would be nothing of the price", "markup: 18 %", "margin: 100 %", ""},
		{"markup as a bare number", "18 is never a share", "markup: 18 %", "markup: 18", ""},
		{"overhead of neither form", "it is a share of direct cost or an amount per hour", "overhead: 12 %", "overhead: 12 per ton", ""},
		{"item without a price", "an entry that says nothing is a slip", "{price: 0.85 each}", "{}", ""},
		{"date in another order", "the day that was meant is offered", "2026-12-31", "2026/12/31", ""},
		{"until before from", "such a list never holds", "until: 2026-12-31", "until: 2026-01-31", ""},
		{"not yet valid", "the day before the first", "", "", "2026-02-28"},
		{"lapsed", "the day after the last", "", "", "2027-01-01"},
		{"no day", "the day is never taken from the clock", "", "", "none"},
		{"per ton of a volume without a density", "a unit is a dimension", "11.00 per cu yd", "11.00 per ton", "2026-06-01"},
		{"per yard of an area", "no thickness is guessed", "4.35 per sq ft", "4.35 per cu yd", "2026-06-01"},
		{"per bag of what comes in rolls", "a thing that is counted has one name", "310.00 per roll", "310.00 per bag", "2026-06-01"},
		{"per rol", "a slip in what is counted", "310.00 per roll", "310.00 per rol", "2026-06-01"},
		{"per area of what is counted", "it is measured by the piece", "0.85 each", "0.85 per sq ft", "2026-06-01"},
		{"a crew of unknown size", "days come of how many they are", "people: 3, ", "", ""},
		{"hours for another dimension", "labor is held to it too", "0.25 per ft", "0.25 per sq ft", "2026-06-01"},
	} {
		t.Run(c.name, func(t *testing.T) {
			sample := sampleList(t)
			list := strings.Replace(sample, c.was, c.is, 1)
			require.True(t, c.day != "" || list != sample)
			p, err := ReadPrices("prices.yaml", []byte(list))
			if c.day != "" {
				require.NoError(t, err)
				day, _ := rulebook.ParseDate(c.day)
				_, err = p.Cost(takeoffOf(t, needs()), day)
			}
			var faults diagnostic.List
			require.ErrorAs(t, err, &faults, c.why)
			golden.WriteString("# " + c.name + ": " + c.why + "\n")
			require.NoError(t, faults.Render(&golden, func(string) ([]byte, bool) { return []byte(list), true }))
			golden.WriteString("\n")
		})
	}
	file := filepath.Join("testdata", "faults.txt")
	if *updatePrices {
		require.NoError(t, os.WriteFile(file, []byte(golden.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), golden.String()), "run go test ./pkg/takeoff -update-prices, and read the diff")
}

// TestCheck holds that an item is one which some quantity of the rulebook is bought as:
// a word, or a text of either quotes.
func TestCheck(t *testing.T) {
	book := rulebook.Contents{
		Work:         []rulebook.Work{{Sort: "quantity", Item: rulebook.Text{Text: "wet ? 'joint sand' : \"cement\""}}, {Sort: "step", Item: rulebook.Text{Text: "'spikes'"}}},
		Vocabularies: []rulebook.Vocabulary{{Words: []rulebook.Word{{Word: value.Word{Name: "base_stone"}}, {Word: value.Word{Name: "separation_fabric"}}}}},
	}
	whole := sampleList(t)
	head, _, _ := strings.Cut(whole, "items:\n")
	_, foot, _ := strings.Cut(whole, "\noverhead:")
	of := func(items ...string) *Prices {
		text := head + "items:\n"
		for _, i := range items {
			text += "  " + i + ": {price: 1.00 each}\n"
		}
		p, err := ReadPrices("prices.yaml", []byte(text+"\noverhead:"+foot))
		require.NoError(t, err)
		return p
	}
	require.NoError(t, of("base_stone", "joint sand", "cement", "separation_fabric").Check(book))
	var faults diagnostic.List
	require.ErrorAs(t, of("base_stone", "base_stonee", "spikes").Check(book), &faults)
	require.Len(t, faults, 2, "a step buys nothing")
	require.Equal(t, []string{"base_stonee", "base_stone", "an item as groundrule takeoff --json names it"}, []string{faults[0].Found, faults[0].Nearest, faults[0].Wanted})
	require.Equal(t, "no quantity of the rulebook is bought as spikes", faults[1].Message)
}
