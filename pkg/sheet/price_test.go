package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// TestPrice holds how a price reads, one that is whole and one that lacks something.
func TestPrice(t *testing.T) {
	tons, err := quantity.ParseAs(quantity.DimMass, "2.5 tons")
	require.NoError(t, err)
	cost := func() *takeoff.Cost {
		return &takeoff.Cost{Job: "Yard", Complete: true, List: takeoff.PriceList{Name: "spring", Company: "The Mill", Dated: day("2026-02-01"), From: day("2026-03-01"), Until: day("2026-12-31"), Currency: "USD"},
			Lines: []takeoff.CostLine{{Label: "stone", Kind: "material", Bought: "12", Rate: "24.50 per ton", Notes: []string{"minimum order 12"}, Amount: 294_00},
				{Label: "a very long name of what is laid beneath the stone", Kind: "material", Bought: "1", Rate: "310.00 per roll", Amount: 310_00},
				{Label: "stone", Kind: "labor", Bought: "3", Rate: "40.00 per hour", Amount: 120_00}},
			Kinds: []takeoff.CostSum{{Kind: "material", Amount: 604_00}, {Kind: "labor", Amount: 120_00}}, Courses: []takeoff.CostSum{{Course: "base", Amount: 700_00}, {Amount: 24_00}},
			Areas: []takeoff.CostSum{{Area: "walk", Amount: 724_00}}, Hours: "3.00", Days: "0.13", Direct: 724_00, Overhead: 76_00, Overheads: "10.5 % of direct cost", Profit: 200_00, Price: 1000_00,
			Markup: "25.00", Margin: "20.00", Cautions: []string{"Taxes are not in it."}}
	}
	const lines = `
MATERIAL
  stone: 12 x 24.50 per ton                                               294.00
    minimum order 12
  a very long name of what is laid beneath the stone: 1 x 310.00 per roll
                                                                          310.00
  all material                                                            604.00

LABOR
  stone: 3 x 40.00 per hour                                               120.00
  all labor                                                               120.00

TOTAL
  direct cost                                                             724.00
  overhead: 10.5 % of direct cost                                          76.00
  cost                                                                    800.00
  profit: 25 % of cost, 20 % of the price                                 200.00
`
	const rest = `
DIRECT COST BY COURSE
  base                                                                    700.00
  the dig and the whole job                                                24.00

NOTES
  - Labor: 3 hours, 0.13 days of the crews one after the other.
  - Taxes are not in it.
`
	const head = "By the price list spring of The Mill, dated 2026-02-01, valid from 2026-03-01\nuntil 2026-12-31. Amounts are in USD.\n"
	lacks := cost()
	lacks.Job, lacks.Complete = "", false
	lacks.Missing = []takeoff.Unpriced{{Item: "sand", Label: "bedding sand", Amount: value.Measured(tons), Wants: "price"}, {Item: "laying", Label: "laying", Wants: "hours"}}
	for _, c := range []struct {
		name, why string
		cost      *takeoff.Cost
		want      string
	}{
		{"whole", "each line under its kind", cost(), "PRICE: Yard\n" + head + lines + "  price                                                                 1,000.00\n" + rest},
		{"not whole", "what it lacks stands first, and the price says so", lacks, "PRICE\n" + head + "\nNOT COMPLETE: the price list lacks\n  - a price of sand, bedding sand: 2.5 tons\n  - hours of laying\n" + lines +
			"  INCOMPLETE price                                                      1,000.00\n" + rest},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out strings.Builder
			require.NoError(t, sheet.Price(&out, c.cost, quantity.US))
			require.Equal(t, c.want, out.String(), c.why)
		})
	}
}

// TestOptionsOfAClient holds how the client is told of other ways to build it, and of what
// each costs.
func TestOptionsOfAClient(t *testing.T) {
	s := patio()
	built := func(option, label string, deep float64) section.Otherwise {
		return section.Otherwise{Status: section.Designed, Option: option, Label: label, Depth: inches(deep), Gives: section.Plain("It " + label + "."), Section: s}
	}
	options := []section.Otherwise{{Status: section.Designed, Depth: inches(9), Section: s}, built("DEAR", "costs more", 10), built("CHEAP", "costs less", 8), built("SAME", "is as dear", 9),
		{Status: section.Refused, Option: "NONE", Label: "cannot be", Section: refused()}, built("OPEN", "lacks a price", 9)}
	whole := func(price takeoff.Money) *takeoff.Cost { return &takeoff.Cost{Complete: true, Price: price} }
	costs := []*takeoff.Cost{whole(1000_00), whole(1200_00), whole(900_00), whole(1000_00), nil, {Price: 700_00}}
	out := func(options []section.Otherwise, costs []*takeoff.Cost) string {
		_, told, found := strings.Cut(written(t, sheet.Sheet{Of: "client", Lines: lines(t), Options: options, Costs: costs}, &section.Areas{Sections: []*section.Section{s}}), "WHAT WAS COMPARED\n")
		if !found {
			return ""
		}
		told, _, _ = strings.Cut(told, "\n\n")
		return strings.TrimRight(told, "\n")
	}
	require.Equal(t, `                  Dig                  Price
As drawn up here  9 in                 1,000.00
Costs more        10 in                1,200.00
Costs less        8 in                 900.00
Is as dear        9 in                 1,000.00
Cannot be         not for this ground
Lacks a price     9 in                 700.00*
- Costs more: It costs more. It costs 20 % more.
- Costs less: It costs less. It costs 10 % less.
- Is as dear: It is as dear. It costs the same.
- Cannot be: Not for this ground or this use. An engineer has to look at this
  job and design it.
- Lacks a price: It lacks a price.
* Part of the work has no price in the list yet, so this price is not whole.`, out(options, costs))
	require.Empty(t, out(options[:1], nil), "one way is not compared")
	require.Empty(t, out([]section.Otherwise{{Status: section.Refused, Section: refused()}, {Status: section.Refused, Section: refused()}}, nil), "nor is what cannot be built")
}

// TestLongRuns holds from which length on nobody orders a part of an inch: 3 m, which is
// 9 ft 10.1 in.
func TestLongRuns(t *testing.T) {
	for _, c := range []struct {
		name, why string
		length    quantity.Length
		want      string
	}{
		{"short", "to a sixteenth of an inch", quantity.Meters(2.99), "9 ft 9-11/16 in"},
		{"long", "to the next inch", quantity.Meters(3), "9 ft 11 in"},
	} {
		t.Run(c.name, func(t *testing.T) {
			pipe := section.Quantity{ID: "PIPE", About: section.Plain("pipe"), Kind: "material", Item: value.Text("pipe"), Amount: value.Measured(c.length)}
			off, err := takeoff.Of(&section.Section{Status: section.Designed, Quantities: []section.Quantity{pipe}})
			require.NoError(t, err)
			var out strings.Builder
			require.NoError(t, sheet.Takeoff(&out, off, quantity.US))
			require.Contains(t, out.String(), "- Pipe: "+c.want+" (PIPE)\n", c.why)
		})
	}
}
