package takeoff

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// TestOrders holds what quantities of one and of several areas add up to.
func TestOrders(t *testing.T) {
	stone := func(amount, step string) section.Quantity {
		return need("base", "material", "stone", q(quantity.DimMass, amount), by(q(quantity.DimMass, step), ""))
	}
	type row struct {
		Amount, Step string
		Units        int
	}
	cases := []struct {
		name, why string
		areas     [][]section.Quantity
		want      []row
	}{
		{"a part of a step", "is a step", [][]section.Quantity{{stone("2.1 tons", "1 ton")}}, []row{{"2.1 tons", "1 ton", 3}}},
		{"whole steps", "are no more", [][]section.Quantity{{stone("3 tons", "1 ton")}}, []row{{"3 tons", "1 ton", 3}}},
		{"one and a half each", "the step is applied once, to the sum", [][]section.Quantity{{stone("1.5 tons", "1 ton")}, {stone("1.5 tons", "1 ton")}}, []row{{"3 tons", "1 ton", 3}}},
		{"twice in one area", "both are one order", [][]section.Quantity{{stone("1.2 tons", "1 ton"), stone("1.2 tons", "1 ton")}}, []row{{"2.4 tons", "1 ton", 3}}},
		{"steps that differ", "heavier soil fills a truck sooner: the loads add up as parts of loads", [][]section.Quantity{{stone("5 tons", "10 tons")}, {stone("4 tons", "8 tons")}}, []row{{"9 tons", "nothing", 1}}},
		{"no step", "it is ordered to the amount", [][]section.Quantity{{need("base", "haulage", "digging", q(quantity.DimVolume, "3 yd3"))}}, []row{{"3 cu yd", "nothing", 0}}},
		{"of another unit", "bags and tons are two orders", [][]section.Quantity{{stone("2 tons", "1 ton"), need("base", "material", "stone", q(quantity.DimMass, "80 lb"), by(q(quantity.DimMass, "50 lb"), "bag"))}},
			[]row{{"2 tons", "1 ton", 2}, {"80 lb", "50 lb", 2}}},
		{"of nothing", "nothing is ordered", [][]section.Quantity{{stone("0 tons", "1 ton")}}, []row{{"0 lb", "1 ton", 0}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var got []row
			for _, o := range takeoffOf(t, c.areas...).Orders {
				got = append(got, row{o.Amount.String(), o.Step.String(), o.Units})
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

// TestWeighed holds what an order weighs.
func TestWeighed(t *testing.T) {
	volume := need("base", "material", "stone", q(quantity.DimVolume, "2 yd3"), weighs(quantity.DimDensity, "100 pcf"))
	bare := volume
	bare.Weighs = value.Value{}
	for _, c := range []struct {
		name, why, want string
		of              []section.Quantity
	}{
		{"by its density", "54 cu ft at 100 pcf", "2.7 tons", []section.Quantity{volume}},
		{"not all of it", "a part that nothing weighs leaves the whole unweighed", "nothing", []section.Quantity{volume, bare}},
		{"a mass", "is what it weighs, whatever its density", "3 tons", []section.Quantity{need("base", "material", "stone", q(quantity.DimMass, "3 tons"), weighs(quantity.DimDensity, "110 pcf"))}},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, takeoffOf(t, c.of).Orders[0].Mass.String(), c.why) })
	}
}

// TestMassAndLoads holds what comes to the site, and how many loads come and go: the
// stone in 3 of 7 tons, the soil in 2.
func TestMassAndLoads(t *testing.T) {
	out := takeoffOf(t, []section.Quantity{
		need("base", "material", "stone", q(quantity.DimMass, "18 tons"), by(q(quantity.DimMass, "7 tons"), "load")),
		need("bedding", "material", "sand", q(quantity.DimMass, "2 tons"), by(q(quantity.DimMass, "50 lb"), "bag")),
		need("", "haulage", "soil", q(quantity.DimMass, "12 tons"), by(q(quantity.DimMass, "8 tons"), "load")),
		need("", "material", "pipe", q(quantity.DimLength, "20 ft"))})
	require.Equal(t, 5, out.Loads(), "bags are no loads")
	require.InDelta(t, 40_000*0.45359237, float64(out.Mass()), 1e-6, "in kg: soil that goes is no material, and nothing weighs the pipe")
}

// TestToldAlone holds that what has no item is told and not ordered.
func TestToldAlone(t *testing.T) {
	told := need("base", "material", "", q(quantity.DimVolume, "2 yd3"))
	told.Item = value.Value{}
	out := takeoffOf(t, []section.Quantity{told, need("", "haulage", "digging", q(quantity.DimVolume, "3 yd3"))})
	require.Len(t, out.Orders, 1)
	require.Equal(t, []int{-1, 0}, []int{out.Quantities[0].Order, out.Quantities[1].Order})
	require.Equal(t, []string{"base", ""}, []string{out.Quantities[0].Course, out.Quantities[1].Course})
}

// laid is a quantity of fabric over a strip of ground, of 12 ft 6 in by 100 ft.
func laid(t *testing.T, length quantity.Length, endLap float64) section.Quantity {
	t.Helper()
	return laidOf(t, quantity.Feet(12.5), length, endLap)
}

// laidOf is one of a roll of another width.
func laidOf(t *testing.T, wide, length quantity.Length, endLap float64) section.Quantity {
	t.Helper()
	ground, err := plan.Rectangle(length, quantity.Feet(12))
	require.NoError(t, err)
	layout, err := plan.LayRolls(ground, plan.Product{Width: wide, Length: quantity.Feet(100), Lap: quantity.Feet(1), EndLap: quantity.Feet(endLap)}, 0, 1)
	require.NoError(t, err)
	out := need("base", "material", "fabric", q(quantity.DimArea, "1 sq ft"))
	out.Amount, out.Units, out.Layout = value.Measured(layout.Cut()), layout.Units(), value.Object("layout", layout)
	out.Step, out.CountedIn = value.Measured(layout.Bought()/quantity.Area(layout.Units())), "roll"
	return out
}

// TestLayouts holds that what is left over of a roll serves another area, and that
// sections that were read back are summed roll by roll.
func TestLayouts(t *testing.T) {
	areas := [][]section.Quantity{{laid(t, quantity.Feet(55), 3)}, {laid(t, quantity.Feet(45), 2)}}
	together := takeoffOf(t, areas...).Orders[0]
	require.Equal(t, 1, together.Units, "55 and 45 ft are cut from one roll of 100 ft")
	require.Equal(t, "1,250 sq ft", together.Amount.String())
	require.Contains(t, together.Layout.String(), "2 pieces from 1 roll")

	for _, area := range areas {
		data, err := json.Marshal(area)
		require.NoError(t, err)
		var read []section.Quantity
		require.NoError(t, json.Unmarshal(data, &read))
		copy(area, read)
	}
	apart := takeoffOf(t, areas...).Orders[0]
	require.Equal(t, 2, apart.Units, "a layout is read back as its text, and two texts share no roll")
	require.True(t, apart.Layout.IsZero())
}

// TestLayoutsOfTwoRolls holds that rolls of two widths are not one order.
func TestLayoutsOfTwoRolls(t *testing.T) {
	s := &section.Section{Status: section.Designed, Quantities: []section.Quantity{laid(t, quantity.Feet(20), 3), laidOf(t, quantity.Feet(15), quantity.Feet(20), 3)}}
	_, err := Of(s)
	require.ErrorIs(t, err, plan.ErrProducts)
	require.ErrorContains(t, err, "the quantity FABRIC: ")
}

// TestNoTakeoff holds what has none, and says so.
func TestNoTakeoff(t *testing.T) {
	minus := need("", "material", "stone", q(quantity.DimMass, "1 ton"))
	minus.Amount = value.Measured(quantity.Mass(-1))
	word := minus
	word.Amount = value.Text("much")
	step := need("", "material", "stone", q(quantity.DimMass, "1 ton"), by(q(quantity.DimVolume, "1 yd3"), "load"))
	grains := need("", "material", "stone", quantity.Mass(1e200).Quantity(), by(quantity.Mass(1e-200).Quantity(), "grain"))
	for _, c := range []struct {
		name, why, want string
		s               section.Section
		none            bool
	}{
		{"refused", "there is no section", "there is no take-off: the job was refused", section.Section{Status: section.Refused}, true},
		{"stopped", "it is not to be built", "there is no take-off: the job Yard was stopped", section.Section{Status: section.Stopped, Job: section.Job{Name: "Yard"}}, true},
		{"without the form", "it was never asked for", `was made without the form "takeoff"`, section.Section{Status: section.Designed}, true},
		{"less than nothing", "a rule is wrong", "the quantity STONE comes to -2.205 lb; wanted an amount that is not below nothing", section.Section{Status: section.Designed, Quantities: []section.Quantity{minus}}, false},
		{"not measured", "nor can it be summed", "the quantity STONE comes to much", section.Section{Status: section.Designed, Quantities: []section.Quantity{word}}, false},
		{"a step of another dimension", "it divides nothing", "it is ordered by 1 cu yd; wanted a step above nothing, of its own dimension", section.Section{Status: section.Designed, Quantities: []section.Quantity{step}}, false},
		{"more than can be counted", "a step that was mistaken", "count the units of stone: ", section.Section{Status: section.Designed, Quantities: []section.Quantity{grains}}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Of(&c.s)
			require.ErrorContains(t, err, c.want, c.why)
			if c.none {
				require.ErrorIs(t, err, ErrNone)
			}
		})
	}
}
