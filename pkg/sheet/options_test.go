package sheet_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// TestWhatAnOptionAdds holds the sentence of what a choice costs.
func TestWhatAnOptionAdds(t *testing.T) {
	whole := func(price takeoff.Money) *takeoff.Cost { return &takeoff.Cost{Complete: true, Price: price} }
	for _, c := range []struct {
		name, why string
		leaves    string
		now, then *takeoff.Cost
		want      string
	}{
		{"adds", "what is built otherwise adds to the price", "", whole(100_000), whole(103_000), "  Clean stone adds 3 % to the price of this job.\n"},
		{"saves", "or takes off it", "", whole(100_000), whole(96_600), "  Clean stone takes 3 % off the price of this job.\n"},
		{"halves", "half a part of a hundred is one", "", whole(100_000), whole(102_500), "  Clean stone adds 3 % to the price of this job.\n"},
		{"leaves out", "what is left out is what adds", "the geogrid", whole(103_000), whole(100_000), "  The geogrid adds 3 % to the price of this job.\n"},
		{"nothing", "it may come to the same", "", whole(100_000), whole(100_000), "  Clean stone adds nothing to the price of this job.\n"},
		{"little", "a part of a hundred is never shown as none", "", whole(100_000), whole(100_001), "  Clean stone adds less than 1 % to the price of this job.\n"},
		{"for nothing", "there is no share of nothing", "", whole(0), whole(5_00), "  Clean stone costs 5.00.\n"},
		{"not whole", "nothing is said of a price that lacks something", "", whole(100_000), &takeoff.Cost{Price: 90_000}, "  The price list lacks prices, so that what it adds to the price is not known.\n"},
		{"no price", "an option that is refused has none", "", whole(100_000), nil, "  Differs: Nothing.\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			one := &section.Section{Status: section.Designed, Job: section.Job{Name: "Yard"}}
			options := []section.Otherwise{
				{Status: section.Designed, Depth: value.Measured(quantity.Inches(9)), Section: one},
				{Status: section.Designed, Depth: value.Measured(quantity.Inches(10)), Label: "clean stone", LeavesOut: section.Plain(c.leaves), Section: one},
			}
			var out strings.Builder
			require.NoError(t, sheet.Options(&out, options, []*takeoff.Cost{c.now, c.then}, quantity.US))
			require.Contains(t, out.String(), c.want, c.why)
			require.Equal(t, c.then != nil && !c.then.Complete, strings.Contains(out.String(), "NOT COMPLETE"), c.why)
		})
	}
}

// TestOptions holds the table in which options stand beside each other, and what is said
// of each.
func TestOptions(t *testing.T) {
	at := func(inches float64) value.Value { return value.Measured(quantity.Inches(inches)) }
	stone := func(tons, load string) *section.Section {
		mass := func(text string) value.Value {
			q, err := quantity.ParseAs(quantity.DimMass, text)
			require.NoError(t, err)
			return value.Measured(q)
		}
		q := section.Quantity{ID: "STONE", Kind: "material", Item: value.Text("stone"), Amount: mass(tons)}
		if load != "" {
			q.Step, q.CountedIn = mass(load), "load"
		}
		return &section.Section{Status: section.Designed, Job: section.Job{Name: "Yard"}, Quantities: []section.Quantity{q}}
	}
	var none strings.Builder
	require.NoError(t, sheet.Options(&none, nil, nil, quantity.US))
	require.Empty(t, none.String(), "of no options there is nothing to say")
	options := []section.Otherwise{
		{Status: section.Designed, Depth: at(9), Section: stone("12 tons", "7 tons")},
		{Status: section.Designed, Option: "CLEAN", Label: "clean stone", Depth: at(10.5), Section: stone("14.2 tons", ""), Gives: section.Plain("it stores rain"), Lacks: section.Plain("it does not lock"),
			Differs: []section.Sentence{section.Plain("2 in more stone")}, Because: section.Plain("rain is paid for here"), Source: "the town"},
		{Status: section.Refused, Option: "PANEL", Why: []string{"PANEL-BOG", "PANEL-FROST", "PANEL-WHEEL"}, Section: &section.Section{Status: section.Refused}},
		{Status: section.Stopped, Label: "thin stone under a very long name", Why: []string{"BASE-LEAST"}, Section: &section.Section{Status: section.Stopped}},
		{Status: section.Stopped, Label: "twenty-eight letters in name", Section: &section.Section{Status: section.Stopped}},
	}
	whole := &takeoff.Cost{Complete: true, Price: 100_000, Days: "2.5"}
	for _, c := range []struct {
		name, why string
		costs     []*takeoff.Cost
		want      string
	}{
		{"by weight alone", "without a price list nothing is said of money", nil, `OPTIONS: Yard

                                     dig       weight loads
  The job as it is                  9 in      12 tons     2
  Clean stone                  10-1/2 in    14.2 tons
  PANEL                         refused by PANEL-BOG and 2 more
  Thin stone under a very long name
                                stopped by BASE-LEAST
  Twenty-eight letters in name  stopped

CLEAN STONE
  Gives: It stores rain.
  Lacks: It does not lock.
  Differs: 2 in more stone.
  Rain is paid for here. Source: the town. (CLEAN)

PANEL
  Differs: Nothing.
  (PANEL)

THIN STONE UNDER A VERY LONG NAME
  Differs: Nothing.

TWENTY-EIGHT LETTERS IN NAME
  Differs: Nothing.
`},
		{"with prices", "one that is not whole is marked", []*takeoff.Cost{whole, {Price: 90_000, Days: "3"}}, `OPTIONS: Yard

                                     dig       weight loads  days          price
  The job as it is                  9 in      12 tons     2   2.5       1,000.00
  Clean stone                  10-1/2 in    14.2 tons           3        900.00*
  PANEL                         refused by PANEL-BOG and 2 more
  Thin stone under a very long name
                                stopped by BASE-LEAST
  Twenty-eight letters in name  stopped

CLEAN STONE
  Gives: It stores rain.
  Lacks: It does not lock.
  Differs: 2 in more stone.
  The price list lacks prices, so that what it adds to the price is not known.
  Rain is paid for here. Source: the town. (CLEAN)

PANEL
  Differs: Nothing.
  (PANEL)

THIN STONE UNDER A VERY LONG NAME
  Differs: Nothing.

TWENTY-EIGHT LETTERS IN NAME
  Differs: Nothing.

NOT COMPLETE
A price with * is not whole: the price list lacks prices. groundrule price JOB
says which.
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out strings.Builder
			require.NoError(t, sheet.Options(&out, options, c.costs, quantity.US))
			require.Equal(t, c.want, regexp.MustCompile(`(?m) +$`).ReplaceAllString(out.String(), ""), c.why)
		})
	}
}

// TestChanges holds what is said of the difference of two sections, and of one that was
// found while it was built.
func TestChanges(t *testing.T) {
	of := func(amount quantity.Measure) []section.Quantity {
		return []section.Quantity{{ID: "STONE", About: section.Plain("stone for the base"), Amount: value.Measured(amount)}}
	}
	was, is := patio(), patio()
	was.Quantities, is.Quantities = of(quantity.Feet(10)), of(quantity.Feet(12.5))
	base := &is.Courses[1]
	base.Attributes[0].Value, base.Attributes[0].Rule = inches(10), "BASE-CAR"
	base.Attributes[1].Rule = "STONE-OTHER"
	is.Courses[0].Attributes[0].Value = value.Text("98 %") // by the same rule
	for i := range is.Reasons {
		if is.Reasons[i].Decision == "base_thickness" {
			is.Reasons[i].Label, is.Reasons[i].Taken[0].ID = "base thickness", "BASE-CAR"
		}
	}
	grid := section.Course{Name: "grid", Label: "Geogrid", Rule: "COURSE-GRID"}
	is.Courses = append(slices.Insert(is.Courses[:3:3], 1, grid), is.Courses[3])
	is.Courses = slices.DeleteFunc(is.Courses, func(c section.Course) bool { return c.Name == "bedding" })
	was.Courses[2].Rule = "COURSE-BED"
	is.Depth = inches(12.375)
	const differs = `
SUBGRADE
  - Compaction: 95 % -> 98 %

GEOGRID
  - Laid now (COURSE-GRID)

BASE
  - Thickness: 8 in -> 10 in
    By: base thickness by BASE-CAR in place of BASE-FROST
  - Material kind: dense-graded crushed stone in both, by STONE-OTHER in place
    of STONE

BEDDING
  - Not laid any more (COURSE-BED)

THE DIG
  - Dig: 11-3/8 in -> 12-3/8 in

QUANTITIES
  - Stone for the base: 10 ft -> 12 ft 6 in (STONE)
`
	for _, c := range []struct {
		name, why string
		was, is   *section.Section
		found     *section.Otherwise
		want      string
	}{
		{"two jobs", "each difference with its rules", was, is, nil, "WHAT DIFFERS\n  First: Alder Row patio: a dig 11-3/8 in deep.\n  Second: Alder Row patio: a dig 12-3/8 in deep.\n" + differs},
		{"the same", "it is said so", was, was, nil, "WHAT DIFFERS\n  First: Alder Row patio: a dig 11-3/8 in deep.\n  Second: Alder Row patio: a dig 11-3/8 in deep.\n  Nothing differs.\n"},
		{"stopped", "what was tried is no dig", was, stopped(), &section.Otherwise{}, "WHAT DIFFERS\n  Before: Alder Row patio: a dig 11-3/8 in deep.\n  Now: Alder Row patio: stopped; what was tried is 11-3/8 in deep.\n  Nothing differs.\n"},
		{"refused", "nothing can be compared", was, refused(), &section.Otherwise{Remedies: []section.Work{{ID: "DIG-OUT", Says: section.Plain("take the stone out again"), Because: section.Plain("it is lost"), Source: "practice"}}},
			"WHAT DIFFERS\n  Before: Alder Row patio: a dig 11-3/8 in deep.\n  Now: Mill Yard: refused. Trucks stand here, with wheels of 9,000 lbf. (TRUCKS)\n       Take it to: A licensed civil engineer.\n\n" +
				"WHAT IS IN THE GROUND ALREADY\n  - Take the stone out again.\n    It is lost. Source: practice. (DIG-OUT)\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out strings.Builder
			require.NoError(t, sheet.Changes(&out, c.was, c.is, c.found, quantity.US))
			require.Equal(t, c.want, out.String(), c.why)
		})
	}
}
