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
