package plan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/quantity"
)

func product(width, length, lap, end, shortest float64) plan.Product {
	f := quantity.Feet
	return plan.Product{Width: f(width), Length: f(length), Lap: f(lap), EndLap: f(end), Shortest: f(shortest)}
}

// TestRectangles holds layouts to the rows of takeoff.md 4.3, all COMPUTED: the
// area cut is that of the better of both directions.
func TestRectangles(t *testing.T) {
	for _, c := range []struct {
		across, along, width, lap, turnUp float64
		strips                            int
		cut                               float64
		why                               string
	}{
		{12, 40, 12.5, 1, 0, 1, 500, "one strip is wider than the area"},
		{20, 40, 12.5, 1, 0, 2, 1000, "2 strips along or 4 across cut as much; 2 have fewer seams"},
		{24, 40, 12.5, 1, 0, 2, 1000, "exact boundary: two strips and their lap are 24 ft"},
		{24.5, 40, 12.5, 1, 0, 4, 1225, "across wins"},
		{20, 40, 12.5, 3, 0, 2, 1000, "a wide lap"},
		{20, 40, 12.5, 1, 1, 2, 1050, "turned up 1 ft on each side"},
		{30, 50, 15, 2, 0, 4, 1800, "across wins"},
		{28, 50, 15, 2, 0, 2, 1500, "exact boundary: two strips and their lap are 28 ft"},
		{28.5, 50, 15, 2, 0, 4, 1710, "across wins"},
		{40, 60, 6.5, 1.5, 0, 8, 3120, "both directions cut as much; 8 strips have fewer seams than 12"},
	} {
		t.Run(fmt.Sprintf("%g x %g, %g lapping %g", c.across, c.along, c.width, c.lap), func(t *testing.T) {
			s, err := box(c.along, c.across)
			require.NoError(t, err)
			l, err := plan.LayRolls(s, product(c.width, 600, c.lap, 3, 10), quantity.Feet(c.turnUp), 1)
			require.NoError(t, err)
			require.Len(t, l.Pieces(), c.strips, c.why)
			require.InEpsilon(t, c.cut, l.Cut().SquareFeet(), 1e-9, c.why)
			require.Equal(t, 1, l.Units(), "600 ft are enough for each")
			t.Log(l)
		})
	}
}
