package takeoff

import (
	"encoding/json"
	"math/big"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

func q(dim quantity.Dimension, text string) quantity.Quantity {
	out, err := quantity.ParseAs(dim, text)
	if err != nil {
		panic(err)
	}
	return out
}

// need is a quantity of a section; amounts are written as a job file writes them.
func need(course, kind, item string, amount quantity.Quantity, more ...func(*section.Quantity)) section.Quantity {
	out := section.Quantity{ID: strings.ToUpper(item), About: section.Plain(item), Kind: kind, Item: value.Text(item), Amount: value.Measured(amount)}
	if amount.Dim == quantity.DimRatio {
		out.Amount = value.Number(amount.SI)
	}
	if course != "" {
		out.Courses = []string{course}
	}
	for _, say := range more {
		say(&out)
	}
	return out
}

func weighs(dim quantity.Dimension, text string) func(*section.Quantity) {
	return func(n *section.Quantity) { n.Weighs = value.Measured(q(dim, text)) }
}

func by(step quantity.Quantity, unit string) func(*section.Quantity) {
	return func(n *section.Quantity) { n.Step, n.CountedIn = value.Measured(step), unit }
}

// takeoffOf is the take-off of areas, each with its quantities.
func takeoffOf(t testing.TB, areas ...[]section.Quantity) *Takeoff {
	t.Helper()
	var sections []*section.Section
	for i, needs := range areas {
		sections = append(sections, &section.Section{Status: section.Designed, Job: section.Job{Name: []string{"walk", "patio", "drive"}[i]}, Quantities: needs,
			Courses: []section.Course{{Name: "base", Label: "base"}, {Name: "bedding", Label: "bedding"}}})
	}
	out, err := Of(sections...)
	require.NoError(t, err)
	return out
}

func count(n float64) quantity.Quantity { return quantity.Quantity{Dim: quantity.DimRatio, SI: n} }

// needs are quantities of every kind of unit.
func needs() []section.Quantity {
	return []section.Quantity{
		need("base", "material", "base_stone", q(quantity.DimVolume, "10 yd3"), weighs(quantity.DimDensity, "140 pcf")),
		need("bedding", "material", "joint sand", q(quantity.DimMass, "180 lb"), by(q(quantity.DimMass, "50 lb"), "bag")),
		need("", "material", "cement", q(quantity.DimMass, "200 lb"), by(q(quantity.DimMass, "50 lb"), "sack")),
		need("base", "material", "separation_fabric", q(quantity.DimArea, "900 sq ft"), by(q(quantity.DimArea, "500 sq ft"), "roll")),
		need("", "material", "spikes", count(60)),
		need("bedding", "material", "pavers", q(quantity.DimArea, "333 sq ft")),
		need("", "haulage", "haul-off", q(quantity.DimVolume, "17.3 yd3")),
		need("", "dumping", "dump fee", q(quantity.DimVolume, "17.3 yd3"), by(q(quantity.DimVolume, "10 yd3"), "load")),
		need("", "equipment", "plate compactor", q(quantity.DimTime, "2 days")),
		need("", "labor", "cutting", q(quantity.DimLength, "31 ft")),
	}
}

func list(t testing.TB, changes ...string) *Prices {
	t.Helper()
	text := strings.NewReplacer(changes...).Replace(sampleList(t))
	p, err := ReadPrices("prices.yaml", []byte(text))
	require.NoError(t, err)
	return p
}

func costOf(t testing.TB, p *Prices, areas ...[]section.Quantity) *Cost {
	t.Helper()
	c, err := p.Cost(takeoffOf(t, areas...), onDay(t, "2026-06-01"))
	require.NoError(t, err)
	return c
}

// TestLines holds each line of the sample to arithmetic by hand.
func TestLines(t *testing.T) {
	want := map[string]string{
		"base_stone material":        "18.9 463.05",  // 10 x 27 x 140 / 2,000 = 18.9 t x 24.50
		"base_stone labor":           "2.835 110.57", // 18.9 x 0.15 = 2.835 h x 30 x 1.30 = 110.565
		"joint sand material":        "4 32.80",      // 4 bags x 8.20
		"cement material":            "3 33.90",      // 200 / 94 = 2.13, so 3 of the list's own bags x 11.30
		"separation_fabric material": "2 620.00",     // 2 rolls x 310
		"spikes material":            "60 51.00",     // 60 x 0.85
		"pavers material":            "333 1,448.55", // 333 x 4.35
		"haul-off haulage":           "17.3 190.30",  // 17.3 x 11
		"dump fee dumping":           "2 130.00",     // 2 x 65
		"plate compactor equipment":  "2 170.00",     // 2 x 85
		"cutting labor":              "7.75 321.62",  // 31 x 0.25 = 7.75 h x 41.50 = 321.625: the half cent goes to the line before
	}
	c := costOf(t, list(t), needs())
	got := map[string]string{}
	for _, l := range c.Lines {
		got[l.Item+" "+l.Kind] = l.Bought + " " + l.Amount.String()
	}
	require.Empty(t, cmp.Diff(want, got))
	require.Equal(t, []string{"24.50 per ton", "39.00 per hour"}, []string{c.Lines[0].Rate, c.Lines[1].Rate}, "30.00 x 1.30, as crews are paid with their burden")
	require.Equal(t, []CostSum{{Kind: "material", Amount: 463_05 + 32_80 + 33_90 + 620_00 + 51_00 + 1448_55}, {Kind: "labor", Amount: 110_57 + 321_62}, {Kind: "haulage", Amount: 190_30}, {Kind: "dumping", Amount: 130_00}, {Kind: "equipment", Amount: 170_00}}, c.Kinds)
	data, err := json.Marshal(c.Lines[0])
	require.NoError(t, err)
	require.Equal(t, `{"item":"base_stone","label":"base_stone","kind":"material","bought":"18.9","rate":"24.50 per ton","amount":"463.05","parts":[{"area":"walk","course":"base","amount":"463.05"}]}`, string(data))
	require.True(t, c.Complete)
	require.Equal(t, "10.59", c.Hours) // 2.835 + 7.75 = 10.585
	require.Equal(t, "1.09", c.Days)   // 2.835 / 24 + 7.75 / 8 = 1.0869
}

// TestLeastOrders holds what is bought below a least order, and short loads: 1 t is
// 24.50, the fee 90.00, so from 11.33 t on the full 15 t cost no more.
func TestLeastOrders(t *testing.T) {
	const fee, up = "with a short-load fee of 90.00", "ordered up to 15, which costs no more than the short-load fee"
	for _, c := range []struct{ name, why, ton, bought, amount, notes string }{
		{"far below", "the least order, with the fee", "1 ton", "5", "212.50", "minimum order 5; " + fee},
		{"at the least", "no more is bought", "5 ton", "5", "212.50", fee},
		{"between", "as needed, with the fee", "8 ton", "8", "286.00", fee},
		{"just under what the fee buys", "11.3 x 24.50 + 90 = 366.85", "11.3 ton", "11.3", "366.85", fee},
		{"where the fee buys the rest", "15 x 24.50 is less than 11.4 x 24.50 + 90 = 369.30", "11.4 ton", "15", "367.50", up},
		{"full", "no fee", "15 ton", "15", "367.50", ""},
		{"more", "as needed", "15.1 ton", "15.1", "369.95", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			ton := q(quantity.DimMass, c.ton)
			l := costOf(t, list(t), []section.Quantity{need("", "material", "base_stone", ton)}).Lines[0]
			require.Equal(t, c.bought+" "+c.amount, l.Bought+" "+l.Amount.String(), c.why)
			require.Equal(t, c.notes, strings.Join(l.Notes, "; "), c.why)
		})
	}
}

// TestPartsOfALine holds that a line is shared out by how much each course takes: 18.9 t
// and 8.1 t of 27 at 24.50, told as 10 yd3 of 140 pcf and as its own mass.
func TestPartsOfALine(t *testing.T) {
	all := []section.Quantity{needs()[0], need("bedding", "material", "base_stone", q(quantity.DimVolume, "4.285714285714 yd3"), weighs(quantity.DimDensity, "140 pcf"))}
	l := costOf(t, list(t), all).Lines[0]
	require.Equal(t, "27 661.50", l.Bought+" "+l.Amount.String())
	require.Equal(t, []CostSum{{Area: "walk", Course: "base", Amount: 463_05}, {Area: "walk", Course: "bedding", Amount: 198_45}}, l.Parts)
}

// TestByVolume holds a mass that is priced by the volume, which its density tells: 18.9 t
// of 140 pcf are 10 yd3.
func TestByVolume(t *testing.T) {
	p := list(t, "24.50 per ton\n    least: 5 ton\n    short_load: {below: 15 ton, fee: 90.00}\n    hours: 0.15 per ton\n    crew: base", "30.00 per cu yd")
	l := costOf(t, p, []section.Quantity{need("base", "material", "base_stone", q(quantity.DimMass, "18.9 ton"), weighs(quantity.DimDensity, "140 pcf"))}).Lines[0]
	require.Equal(t, "10 300.00", l.Bought+" "+l.Amount.String())
}

// TestNothingToPrice holds that a take-off of nothing lacks nothing.
func TestNothingToPrice(t *testing.T) {
	c := costOf(t, list(t), []section.Quantity{})
	require.True(t, c.Complete)
	require.Zero(t, c.Price)
}

// TestShortLoadThatCostsAsMuch: 10 t at 20.00 with a fee of 100.00 is what 15 t cost.
func TestShortLoadThatCostsAsMuch(t *testing.T) {
	p := list(t, "24.50 per ton", "20.00 per ton", "fee: 90.00", "fee: 100.00")
	l := costOf(t, p, []section.Quantity{need("", "material", "base_stone", q(quantity.DimMass, "10 ton"))}).Lines[0]
	require.Equal(t, "15 300.00", l.Bought+" "+l.Amount.String(), "more for as much")
	require.Equal(t, []string{"ordered up to 15, which costs no more than the short-load fee"}, l.Notes)
}

// TestPaidAsSold holds how much of what is bought is paid, by how it is sold: of two rolls
// of 500 sq ft for 900, and of loads of 10 yd3 for 17.3.
func TestPaidAsSold(t *testing.T) {
	const roll, load = "{price: 310.00 per roll}", "65.00 per load"
	for _, c := range []struct {
		name, why, of, price, want string
		need                       int
	}{
		{"by the roll", "rolls are whole", roll, roll, "2 620.00", 3},
		{"by the area", "the rolls are bought whole all the same", roll, "{price: 0.50 per sq ft}", "1000 500.00", 3},
		{"cut", "the seller keeps the rest", roll, "{price: 0.50 per sq ft, cut: true}", "900 450.00", 3},
		{"by the load", "two come", load, load, "2 130.00", 7},
		{"by the volume", "nobody pays for the room that is left in a truck", load, "10.00 per cu yd", "17.3 173.00", 7},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := costOf(t, list(t, c.of, c.price), needs()[c.need:c.need+1]).Lines[0]
			require.Equal(t, c.want, l.Bought+" "+l.Amount.String(), c.why)
		})
	}
}

// TestRollsOfAPrice holds that a layout is paid by the roll from which it is cut: 55 ft of
// a roll of 12 ft 6 in by 100 ft.
func TestRollsOfAPrice(t *testing.T) {
	for _, c := range []struct{ name, why, price, want string }{
		{"the roll", "one is bought", "310.00 per roll", "1 310.00"},
		{"a roll of its size", "it holds what was laid out", "310.00 per roll of 1250 sq ft", "1 310.00"},
		{"a roll of another size", "other rolls are laid out otherwise", "310.00 per roll of 1000 sq ft", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := list(t, "  separation_fabric: {price: 310.00 per roll}", "  fabric: {price: "+c.price+"}")
			cost, err := p.Cost(takeoffOf(t, []section.Quantity{laid(t, quantity.Feet(55), 3)}), onDay(t, "2026-06-01"))
			if c.want == "" {
				require.ErrorContains(t, err, "per roll of what is measured as area", c.why)
				return
			}
			require.NoError(t, err)
			require.Equal(t, c.want, cost.Lines[0].Bought+" "+cost.Lines[0].Amount.String(), c.why)
		})
	}
}

// jobRow is the worked job of takeoff.md, section 10 (COMPUTED there): 96 h at
// 28.00 x 1.30, materials 6,500, equipment 1,400, overhead 20 per hour of labor.
func jobRow(t *testing.T, profit string) *Cost {
	hours := q(quantity.DimTime, "96 h")
	p, err := ReadPrices("row.yaml", []byte(`
prices: row
company: nobody
dated: 2026-01-01
from: 2026-01-01
until: 2026-12-31
currency: USD
crews: {all: {people: 4, rate: 28.00 per hour, burden: 30 %}}
items:
  materials: {price: "6,500 each"}
  equipment: {price: 1400.00 each}
  work: {hours: 1 per hour, crew: all}
overhead: 20.00 per hour
`+profit))
	require.NoError(t, err)
	return costOf(t, p, []section.Quantity{need("", "material", "materials", count(1)), need("", "equipment", "equipment", count(1)), need("", "labor", "work", hours)})
}

// TestJobRow holds the worked job to the cent (takeoff.md, section 10, COMPUTED).
func TestJobRow(t *testing.T) {
	for _, c := range []struct{ name, why, profit, gain, price, markup, margin string }{
		{"margin", "15 % of the price", "margin: 15 %", "2,349.60", "15,664.00", "17.65", "15.00"},
		{"markup", "15 % on cost is less", "markup: 15 %", "1,997.16", "15,311.56", "15.00", "13.04"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := jobRow(t, c.profit)
			require.Equal(t, "11,394.40", got.Direct.String())
			require.Equal(t, "1,920.00", got.Overhead.String())
			require.Equal(t, "13,314.40", (got.Direct + got.Overhead).String(), "what the job costs")
			require.Equal(t, []string{c.gain, c.price, c.markup, c.margin}, []string{got.Profit.String(), got.Price.String(), got.Markup, got.Margin}, c.why)
			require.Equal(t, []CostSum{{Kind: "material", Amount: 650000}, {Kind: "equipment", Amount: 140000}, {Kind: "labor", Amount: 349440}}, got.Kinds)
			require.Equal(t, "3.00", got.Days, "96 h of 4 people at 8 h")
		})
	}
}

// TestMarkupAndMargin holds the two to each other (takeoff.md, section 10: the rows
// are COMPUTED; 30 % markup on a cost of 1,000 is a price of 1,300 and a margin of
// 23 %, SEEN in a trade article).
func TestMarkupAndMargin(t *testing.T) {
	for _, c := range []struct{ told, margin, markup string }{
		{"10", "9.09", "11.11"}, {"15", "13.04", "17.65"}, {"20", "16.67", "25.00"}, {"25", "20.00", "33.33"},
		{"30", "23.08", "42.86"}, {"40", "28.57", "66.67"}, {"50", "33.33", "100.00"},
	} {
		require.Equal(t, c.margin, jobRow(t, "markup: "+c.told+" %").Margin, "margin of a markup of %s %%", c.told)
		require.Equal(t, c.markup, jobRow(t, "margin: "+c.told+" %").Markup, "markup of a margin of %s %%", c.told)
	}
	ton := q(quantity.DimMass, "1000 ton")
	c := costOf(t, list(t, "24.50 per ton", "1 per ton", "hours: 0.15 per ton", "hours: 0 per ton", "12 %", "0 %", "18 %", "30 %"), []section.Quantity{need("", "material", "base_stone", ton)})
	require.Equal(t, "1,300.00", c.Price.String())
}

// TestWithoutAPrice holds that what has no price is listed, and in no sum.
func TestWithoutAPrice(t *testing.T) {
	for _, c := range []struct{ name, why, item, kind, wants string }{
		{"unknown to the list", "nothing is guessed", "edging", "material", "price"},
		{"hours alone", "what a crew does with stone does not buy it", "cutting", "material", "price"},
		{"price alone", "labor may be bought for a price, as from another company", "sawing", "labor", ""},
		{"labor unknown", "it wants hours", "laying", "labor", "hours"},
	} {
		t.Run(c.name, func(t *testing.T) {
			ten := q(quantity.DimLength, "10 ft")
			cost := costOf(t, list(t, "  cutting:", "  sawing: {price: 1 per ft}\n  cutting:"), append(needs(), need("", c.kind, c.item, ten)))
			var wants []string
			for _, m := range cost.Missing {
				wants = append(wants, m.Wants)
			}
			require.Equal(t, c.wants, strings.Join(wants, " "), c.why)
			require.Equal(t, c.wants == "", cost.Complete)
		})
	}
	require.Equal(t, "labor", costOf(t, list(t), needs()[1:2]).Missing[0].Item, "a job without any labor is not priced to the end")
}

// generated are quantities of up to three areas, of random amounts.
func generated(r *rand.Rand) (out [][]section.Quantity) {
	for range 1 + r.IntN(3) {
		var area []section.Quantity
		for _, n := range needs() {
			if r.IntN(4) > 0 {
				grow(&n, r.ExpFloat64()*3)
				area = append(area, n)
			}
			if n.Kind != "labor" && r.IntN(4) == 0 { // in another course as well
				n.ID, n.Courses = n.ID+"-2", []string{"base"}
				area = append(area, n)
			}
		}
		out = append(out, area)
	}
	return out
}

func grow(n *section.Quantity, by float64) {
	amount, _ := n.Amount.Measure()
	amount.SI *= by
	if n.Amount = value.Measured(amount); amount.Dim == quantity.DimRatio {
		n.Amount = value.Number(float64(int(amount.SI) + 1))
	}
}

func many() int {
	if os.Getenv("GROUNDRULE_MANY") != "" {
		return 20_000
	}
	return 300
}

// TestSumsAddUp holds, on generated jobs, that every way of adding up comes to the
// cent, that no line is off by a cent or more, and that more never costs less.
func TestSumsAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := range many() {
		p := list(t, "24.50 per ton", []string{"24.50 per ton", "24.503 per ton", "0 per ton"}[r.IntN(3)], "markup: 18 %", []string{"markup: 18 %", "margin: 17.3 %", "markup: 0 %"}[r.IntN(3)],
			"overhead: 12 %", []string{"overhead: 12 %", "overhead: 19.99 per hour"}[r.IntN(2)])
		areas := generated(r)
		c := costOf(t, p, areas...)
		require.Equal(t, c.Price, c.Direct+c.Overhead+c.Profit, "job %d", n)
		added := func(sums []CostSum) (all Money) {
			for _, s := range sums {
				all += s.Amount
			}
			return all
		}
		var lines Money
		for _, l := range c.Lines {
			require.Equal(t, l.Amount, added(l.Parts), "job %d, %s", n, l.Item)
			lines += l.Amount
		}
		for name, sums := range map[string][]CostSum{"kinds": c.Kinds, "courses": c.Courses, "areas": c.Areas} {
			require.Equal(t, c.Direct, added(sums), "job %d, by %s", n, name)
		}
		require.Equal(t, c.Direct, lines, "job %d", n)
		if len(areas[0]) == 0 {
			continue
		}
		more := &areas[0][r.IntN(len(areas[0]))]
		grow(more, 1+r.Float64())
		require.GreaterOrEqual(t, costOf(t, p, areas...).Price, c.Price, "job %d with more of %s", n, more.ID)
	}
}

// TestRemovingAPrice holds that what is missing only grows with each price that is
// taken away.
func TestRemovingAPrice(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range many() / 10 {
		p, areas := list(t), generated(r)
		before := costOf(t, p, areas...)
		for len(p.items) > 0 {
			at := r.IntN(len(p.items))
			p.items = slices.Delete(p.items, at, at+1)
			after := costOf(t, p, areas...)
			for _, m := range before.Missing {
				require.Contains(t, after.Missing, m)
			}
			require.LessOrEqual(t, after.Price, before.Price)
			before = after
		}
		require.False(t, before.Complete && len(areas[0]) > 0)
	}
}

// TestSplit holds how the last cents are shared.
func TestSplit(t *testing.T) {
	for _, c := range []struct {
		name, why string
		total     Money
		parts     []string
		want      []Money
	}{
		{"thirds", "the first of equals has the cent", 100, []string{"1/3", "1/3", "1/3"}, []Money{34, 33, 33}},
		{"whole cents stay", "what lost nothing is given nothing", 101, []string{"0.50", "0.254", "0.256"}, []Money{50, 25, 26}},
		{"half a cent up", "the sum is rounded, not its parts", 1, []string{"0.0025", "0.0025"}, []Money{1, 0}},
		{"below half a cent", "nothing is left over", 0, []string{"0.002", "0.002"}, []Money{0, 0}},
		{"nothing", "no parts, nothing to share", 0, nil, []Money{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var parts []*big.Rat
			for _, text := range c.parts {
				x, ok := new(big.Rat).SetString(text)
				require.True(t, ok)
				parts = append(parts, x)
			}
			all, err := cents(sum(parts))
			require.NoError(t, err)
			require.Equal(t, c.total, all)
			require.Equal(t, c.want, split(all, parts), c.why)
		})
	}
}

func TestMoney(t *testing.T) {
	for m, want := range map[Money]string{0: "0.00", 5: "0.05", 99999: "999.99", 100000: "1,000.00", 123456789: "1,234,567.89", -150: "-1.50", -100000: "-1,000.00"} {
		require.Equal(t, want, m.String())
	}
	_, err := cents(new(big.Rat).SetInt64(1e16))
	require.ErrorIs(t, err, errTooMuch)
}

// TestSay holds how a person says an amount.
func TestSay(t *testing.T) {
	for _, c := range []struct {
		name, why, currency, want string
		amount                    Money
	}{
		{"little", "to the cent below 10", "USD", "$9.99", 9_99},
		{"ten", "whole from here on", "USD", "$10", 10_00},
		{"under a half", "down", "USD", "$10", 10_49},
		{"a half", "up", "USD", "$11", 10_50},
		{"thousands", "set apart", "USD", "$1,235", 1_234_56},
		{"another currency", "by its letters", "CAD", "1,235 CAD", 1_234_56},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, (&Cost{List: PriceList{Currency: c.currency}}).Say(c.amount), c.why)
		})
	}
}
