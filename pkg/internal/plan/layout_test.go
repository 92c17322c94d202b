package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/page"
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

// TestFewestRollsThenLeastCut holds layouts to the shapes of takeoff.md 5, COMPUTED.
func TestFewestRollsThenLeastCut(t *testing.T) {
	triangle := of(feet(0, 0, 40, 0, 0, 30))
	for _, c := range []struct {
		name, why     string
		make          made
		product       plan.Product
		strips, rolls int
		length        float64 // of all pieces
	}{
		{"triangle, one long roll", "the least cut: 4 strips along the side of 30 ft, 68.25 ft", triangle, product(12.5, 300, 1, 3, 10), 4, 1, 68.25},
		{"triangle, rolls of 40 ft", "the sum of 68.25 ft needs two, and 30 + 4.125, 21.375 + 12.75 fit them", triangle, product(12.5, 40, 1, 3, 40), 4, 2, 68.25},
		{"triangle, rolls of 50 ft", "the same from two, though two strips along the long side, 50 and 26.04 ft, are fewer", triangle, product(12.5, 50, 1, 3, 50), 4, 2, 68.25},
		{"L", "30 x 20 less 10 x 10 needs 50 ft either way, no more than its area; along the side of 30 ft they are two pieces", of(feet(0, 0, 30, 0, 30, 10, 20, 10, 20, 20, 0, 20)), product(10, 300, 0, 3, 10), 2, 1, 50},
		{"U", "two legs of 10 ft and the 10 ft between them: the gap between the legs is not covered, whichever way", of(feet(0, 0, 30, 0, 30, 30, 20, 30, 20, 10, 10, 10, 10, 30, 0, 30)), product(10, 300, 0, 3, 10), 3, 1, 70},
		{"circle", "one strip as wide as the circle, and as long", of(round(10)), product(12.5, 300, 1, 3, 10), 1, 1, 10},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := c.make()
			require.NoError(t, err)
			l, err := plan.LayRolls(s, c.product, 0, 1)
			require.NoError(t, err)
			require.Len(t, l.Pieces(), c.strips, "%s: %s", c.why, l)
			require.Equal(t, c.rolls, l.Units(), c.why)
			require.InEpsilon(t, c.length, l.Cut().SquareFeet()/c.product.Width.Feet(), 1e-3, "%s: %s", c.why, l)
			units, proven := l.Least()
			require.Equal(t, c.rolls, units)
			require.True(t, proven)
		})
	}
}

func TestLayoutInMillimeters(t *testing.T) {
	s, err := plan.Rectangle(quantity.Meters(12), quantity.Meters(6))
	require.NoError(t, err)
	require.Equal(t, "rectangle 12 m by 6 m", s.Text(quantity.SI))
	m := quantity.Meters
	l, err := plan.LayRolls(s, plan.Product{Width: m(4), Length: m(100), Lap: m(0.3), EndLap: m(1), Shortest: m(3)}, 0, 1)
	require.NoError(t, err)
	require.Equal(t, "2 pieces from 1 roll of 4 m by 100 m: roll 1: 2 x 12 m; 76 m left", l.Text(quantity.SI))
}

func TestMerge(t *testing.T) {
	p := product(12.5, 300, 1, 3, 300)
	lay := func(length, width, levels float64, p plan.Product) plan.Layout {
		s, err := box(length, width)
		require.NoError(t, err)
		l, err := plan.LayRolls(s, p, 0, levels)
		require.NoError(t, err)
		return l
	}
	drive, walk := lay(180, 24, 1, p), lay(100, 12, 1, p)
	require.Equal(t, [2]int{2, 1}, [2]int{drive.Units(), walk.Units()}, "180 ft twice, and 100 ft")
	both, err := drive.Merge(walk)
	require.NoError(t, err)
	require.Equal(t, 2, both.Units(), "what is left of the drive's first roll covers the walk: %s", both)
	require.InDelta(t, drive.Cut().SquareFeet()+walk.Cut().SquareFeet(), both.Cut().SquareFeet(), 1e-9, "nothing else is cut")
	var areas []int
	for _, piece := range both.Pieces() {
		areas = append(areas, piece.Area)
	}
	require.Equal(t, []int{0, 1, 0}, areas)
	_, err = drive.Merge(lay(100, 12, 1, product(15, 300, 1, 3, 300)))
	require.ErrorIs(t, err, plan.ErrProducts, "15 ft wide")
	ended, err := lay(200, 12, 1, p).Merge(lay(200, 12, 1, product(12.5, 300, 1, 5, 10)))
	require.NoError(t, err)
	require.Equal(t, 2, ended.Units(), "the greater shortest piece is kept, so that nothing is joined: %s", ended)
	_, err = plan.Layout{}.Merge(drive)
	require.ErrorIs(t, err, plan.ErrNone)
	same, err := drive.Merge()
	require.NoError(t, err)
	require.Equal(t, drive.String(), same.String(), "merged with nothing it stays as it is")
}

func TestMergePanels(t *testing.T) {
	lay := func(length float64) plan.Layout {
		s, err := box(length, 2)
		require.NoError(t, err)
		l, err := plan.LayPanels(s, plan.Panel{Length: quantity.Feet(4), Width: quantity.Feet(2), Offset: quantity.Feet(2), Shortest: quantity.Feet(1)})
		require.NoError(t, err)
		return l
	}
	one, other := lay(9.5), lay(8)
	require.Equal(t, [2]int{3, 2}, [2]int{one.Units(), other.Units()})
	both, err := one.Merge(other, one)
	require.NoError(t, err)
	require.Equal(t, 8, both.Units(), "both ends of 18 in begin at a joint, so that no panel has room for two")
	require.Len(t, both.Pieces(), 8)
	for _, piece := range both.Pieces() {
		require.LessOrEqual(t, piece.Length.Feet(), 4+1e-6, "no course is one panel")
	}
}

// TestLinesOfTheStandard holds what a layout tells without a rulebook to the lines of the
// standard.
func TestLinesOfTheStandard(t *testing.T) {
	b, err := groundrule.OpenStandard()
	require.NoError(t, err)
	want, used := map[string]bool{}, map[string]bool{}
	for name := range b.Lines() {
		if rest, is := strings.CutPrefix(name, "cut_"); is {
			want[rest] = true
		}
	}
	line := func(name string, holes ...string) string {
		used[strings.TrimPrefix(name, "cut_")] = true
		return page.Fill(b.Lines()[name], holes...)
	}
	for _, side := range []float64{3, 20, 60} {
		s, err := box(side, 2*side)
		require.NoError(t, err)
		rolls, err := plan.LayRolls(s, product(12.5, 50, 1, 3, 10), 0, 1)
		require.NoError(t, err)
		panels, err := plan.LayPanels(s, plan.Panel{Length: quantity.Feet(4), Width: quantity.Feet(2), Offset: quantity.Feet(2), Shortest: quantity.Feet(1)})
		require.NoError(t, err)
		for _, l := range []plan.Layout{rolls, panels} {
			_, told, _ := strings.Cut(l.String(), ": ")
			require.Equal(t, strings.Join(l.Cuts(quantity.US, line), "; "), told)
		}
	}
	require.Equal(t, want, used)
}

func TestNoLayout(t *testing.T) {
	var none plan.Layout
	require.Zero(t, none.Units())
	require.Zero(t, none.Cut())
	require.Zero(t, none.Bought())
	require.Empty(t, none.Pieces())
	require.Empty(t, none.Cuts(quantity.US, nil))
	require.Equal(t, "no layout", none.String())
	_, err := plan.LayRolls(plan.Shape{}, product(12.5, 300, 1, 3, 10), 0, 1)
	require.ErrorIs(t, err, plan.ErrNone)
	_, err = plan.LayPanels(plan.Shape{}, plan.Panel{})
	require.ErrorIs(t, err, plan.ErrNone)
	wide, err := box(6000, 6000)
	require.NoError(t, err)
	_, err = plan.LayRolls(wide, product(12.5, 300, 1, 3, 10), 0, 1)
	require.ErrorIs(t, err, plan.ErrStrips)
	require.EqualError(t, err, "too many strips: the area is 6,000 ft across strips of 12 ft 6 in; up to 500 are laid out")
}

func TestPanels(t *testing.T) {
	for _, c := range []struct {
		name, why      string
		make           made
		panel          [4]float64 // length, width, offset, shortest
		panels, pieces int
	}{
		{"whole panels", "no offset, nothing to cut", of(box(40, 20)), [4]float64{4, 2, 0, 1}, 100, 100},
		{"half offset", "every other course begins and ends with a half, both from one panel", of(box(40, 20)), [4]float64{4, 2, 2, 1}, 100, 105},
		{"a foot over", "each of two courses ends with 1 ft and 2 ft of a panel, from one", of(box(9, 4)), [4]float64{4, 2, 2, 1}, 5, 6},
		{"narrower than a panel", "one panel, cut at both ends", of(box(3, 2)), [4]float64{4, 2, 2, 1}, 1, 1},
		{"third offset", "12 ft in three courses: 3 whole; 1-1/3 and 2-2/3; 2-2/3 and 1-1/3", of(box(12, 6)), [4]float64{4, 2, 4.0 / 3, 1}, 9, 11},
		{"short pieces avoided", "4 ft 6 in in two courses: never 6 in where 1 ft is the shortest", of(box(4.5, 4)), [4]float64{4, 2, 2, 1}, 3, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := c.make()
			require.NoError(t, err)
			p := plan.Panel{Length: quantity.Feet(c.panel[0]), Width: quantity.Feet(c.panel[1]), Offset: quantity.Feet(c.panel[2]), Shortest: quantity.Feet(c.panel[3])}
			l, err := plan.LayPanels(s, p)
			require.NoError(t, err)
			require.Equal(t, [2]int{c.panels, c.pieces}, [2]int{l.Units(), len(l.Pieces())}, "%s: %s", c.why, l)
			require.InEpsilon(t, s.Area().SquareFeet(), l.Cut().SquareFeet(), 0.5)
			for _, piece := range l.Pieces() {
				require.GreaterOrEqual(t, piece.Length.Feet(), c.panel[3]-1e-6, "%s: %s", c.why, l)
			}
		})
	}
}

// TestDraw holds the picture that a crew lays by.
func TestDraw(t *testing.T) {
	for _, c := range []struct {
		name, why string
		lay       func() (plan.Layout, error)
		want      string
	}{
		{"turned up, with an offcut that is joined", "laps along and across the strips, and what is turned up at the far side", func() (plan.Layout, error) {
			s, err := box(60, 32)
			require.NoError(t, err)
			return plan.LayRolls(s, product(12.5, 100, 1, 3, 10), quantity.Feet(0.5), 1)
		}, `rectangle 60 ft by 32 ft; strips run along its length, left to right here
++++++++++++++++++++++++++++++++++++++++
2222222222222222222222222222222222222222
2222222222222222222222222222222222222222
2222222222222222222222222222222222222222
========================================
111111111111111111111111==22222222222222
111111111111111111111111==22222222222222
========================================
1111111111111111111111111111111111111111
1111111111111111111111111111111111111111
1111111111111111111111111111111111111111
1111111111111111111111111111111111111111
1, 2 ...: the roll; =: lap; +: turned up or trimmed
`},
		{"a recess", "what is trimmed shows the shape", func() (plan.Layout, error) {
			s, err := feet(0, 0, 40, 0, 40, 30, 28, 30, 20, 12, 8, 28, 0, 20)
			require.NoError(t, err)
			return plan.LayRolls(s, product(12.5, 100, 1, 3, 10), 0, 1)
		}, `polygon of 7 corners: (0 in, 0 in), (40 ft, 0 in), (40 ft, 30 ft), (28 ft, 30 ft), (20 ft, 12 ft), (8 ft, 28 ft), (0 in, 20 ft); strips run along side 1, left to right here
   +++++++++             +++++++++++++++
   +++++++++             +++++++++++++++
   +++++++++             +++++++++++++++
   +++++++++             ++1111111111111
   ++++22+++             +11111111111111
   ++222222+             +11111111111111
+++=========+++++++++++++===============
+111111111111+++++++++++1111111111111111
111111111111111++++++++11111111111111111
1111111111111111++++++111111111111111111
111111111111111111+++1111111111111111111
===================+====================
1111111111111111111111111111111111111111
1111111111111111111111111111111111111111
1111111111111111111111111111111111111111
1111111111111111111111111111111111111111
1111111111111111111111111111111111111111
1111111111111111111111111111111111111111
1, 2 ...: the roll; =: lap; +: turned up or trimmed
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, err := c.lay()
			require.NoError(t, err)
			require.Equal(t, c.want, l.Draw(40, quantity.US), c.why)
		})
	}
	require.Empty(t, plan.Layout{}.Draw(40, quantity.US))
}

// TestLayoutsRefuse holds every argument to its bounds: on a bound it is taken, a
// bit beyond it the error names it.
func TestLayoutsRefuse(t *testing.T) {
	s, err := box(40, 20)
	require.NoError(t, err)
	f := quantity.Feet
	rolls := func(change func(p *plan.Product, turnUp *quantity.Length, levels *float64)) func() (plan.Layout, error) {
		p, turnUp, levels := product(12, 100, 1, 3, 10), f(0), 1.0
		change(&p, &turnUp, &levels)
		return func() (plan.Layout, error) { return plan.LayRolls(s, p, turnUp, levels) }
	}
	panels := func(change func(p *plan.Panel)) func() (plan.Layout, error) {
		p := plan.Panel{Length: f(4), Width: f(2), Offset: f(2), Shortest: f(1)}
		change(&p)
		return func() (plan.Layout, error) { return plan.LayPanels(s, p) }
	}
	type (
		P = *plan.Product
		L = *quantity.Length
		F = *float64
	)
	const kept = ""
	for _, c := range []struct {
		name, why string
		lay       func() (plan.Layout, error)
		says      string
	}{
		{"narrowest roll", "6 in", rolls(func(p P, _ L, _ F) { p.Width, p.Lap = f(0.5), 0 }), kept},
		{"narrower", "a wrong unit", rolls(func(p P, _ L, _ F) { p.Width, p.Lap = f(0.495), 0 }), "width is 0.495 ft; it must be 0.5 to 100 ft (limit of this library)"},
		{"widest roll", "100 ft", rolls(func(p P, _ L, _ F) { p.Width = f(100) }), kept},
		{"wider", "a wrong unit", rolls(func(p P, _ L, _ F) { p.Width = f(101) }), "width is 101 ft; it must be 0.5 to 100 ft (limit of this library)"},
		{"shortest roll", "5 ft", rolls(func(p P, _ L, _ F) { p.Length, p.EndLap = f(5), f(1) }), kept},
		{"shorter", "it is no roll", rolls(func(p P, _ L, _ F) { p.Length, p.EndLap = f(4.9), f(1) }), "length is 4.9 ft; it must be 5 to 5,000 ft (limit of this library)"},
		{"longest roll", "5,000 ft", rolls(func(p P, _ L, _ F) { p.Length = f(5000) }), kept},
		{"longer", "a wrong unit", rolls(func(p P, _ L, _ F) { p.Length = f(5010) }), "length is 5,010 ft; it must be 5 to 5,000 ft (limit of this library)"},
		{"no lap", "edge to edge", rolls(func(p P, _ L, _ F) { p.Lap = 0 }), kept},
		{"less than no lap", "a gap", rolls(func(p P, _ L, _ F) { p.Lap = f(-0.1) }), "lap is -0.1 ft; it must be at least 0 and below 6 ft (a lap is less than half of the width)"},
		{"a lap of nearly half", "each strip still covers more", rolls(func(p P, _ L, _ F) { p.Lap = f(5.9) }), kept},
		{"a lap of half the width", "every strip but the first is laid twice", rolls(func(p P, _ L, _ F) { p.Lap = f(6) }), "lap is 6 ft; it must be at least 0 and below 6 ft (a lap is less than half of the width)"},
		{"less than no end lap", "a gap", rolls(func(p P, _ L, _ F) { p.EndLap = f(-0.1) }), "end_lap is -0.1 ft; it must be at least 0 and below 50 ft (an end lap is less than half of a roll)"},
		{"an end lap of nearly half", "each roll still covers more", rolls(func(p P, _ L, _ F) { p.EndLap = f(49.9) }), kept},
		{"an end lap of half a roll", "nothing is won", rolls(func(p P, _ L, _ F) { p.EndLap = f(50) }), "end_lap is 50 ft; it must be at least 0 and below 50 ft (an end lap is less than half of a roll)"},
		{"turned up 20 ft", "the most", rolls(func(_ P, up L, _ F) { *up = f(20) }), kept},
		{"turned up more", "a wrong unit", rolls(func(_ P, up L, _ F) { *up = f(20.5) }), "turn_up is 20.5 ft; it must be 0 to 20 ft (limit of this library)"},
		{"turned down", "it is cut at the sides", rolls(func(_ P, up L, _ F) { *up = f(-0.5) }), "turn_up is -0.5 ft; it must be 0 to 20 ft (limit of this library)"},
		{"20 levels", "the most", rolls(func(_ P, _ L, n F) { *n = 20 }), kept},
		{"21 levels", "a wrong number", rolls(func(_ P, _ L, n F) { *n = 21 }), "levels is 21; it must be 1 to 20 (limit of this library)"},
		{"no levels", "nothing is laid", rolls(func(_ P, _ L, n F) { *n = 0 }), "levels is 0; it must be 1 to 20 (limit of this library)"},
		{"pieces of any length", "none is too short", rolls(func(p P, _ L, _ F) { p.Shortest = 0 }), kept},
		{"pieces of less than nothing", "a wrong sign", rolls(func(p P, _ L, _ F) { p.Shortest = f(-1) }), "shortest is -1 ft; it must be 0 to 5,000 ft (limit of this library)"},
		{"no joints", "as long as the longest roll", rolls(func(p P, _ L, _ F) { p.Shortest = f(5000) }), kept},
		{"pieces too long", "a wrong unit", rolls(func(p P, _ L, _ F) { p.Shortest = f(5010) }), "shortest is 5,010 ft; it must be 0 to 5,000 ft (limit of this library)"},
		{"smallest panels", "6 in", panels(func(p *plan.Panel) { *p = plan.Panel{Length: f(0.5), Width: f(0.5)} }), kept},
		{"shorter panels", "a wrong unit", panels(func(p *plan.Panel) { *p = plan.Panel{Length: f(0.495), Width: f(0.5)} }), "length is 0.495 ft; it must be 0.5 to 50 ft (limit of this library)"},
		{"narrower panels", "a wrong unit", panels(func(p *plan.Panel) { p.Width = f(0.495) }), "width is 0.495 ft; it must be 0.5 to 50 ft (limit of this library)"},
		{"largest panels", "50 ft", panels(func(p *plan.Panel) { p.Length, p.Width = f(50), f(50) }), kept},
		{"longer panels", "a wrong unit", panels(func(p *plan.Panel) { p.Length = f(51) }), "length is 51 ft; it must be 0.5 to 50 ft (limit of this library)"},
		{"moved by a whole panel", "as good as not moved", panels(func(p *plan.Panel) { p.Offset = f(4) }), kept},
		{"moved farther", "a wrong unit", panels(func(p *plan.Panel) { p.Offset = f(4.1) }), "offset is 4.1 ft; it must be 0 to 4 ft (limit of this library)"},
		{"moved back", "a wrong sign", panels(func(p *plan.Panel) { p.Offset = f(-0.1) }), "offset is -0.1 ft; it must be 0 to 4 ft (limit of this library)"},
		{"half panels", "two of a panel", panels(func(p *plan.Panel) { p.Shortest = f(2) }), kept},
		{"more than half panels", "a cut panel gives one", panels(func(p *plan.Panel) { p.Shortest = f(2.1) }), "shortest is 2.1 ft; it must be 0 to 2 ft (limit of this library)"},
		{"pieces of a panel of less than nothing", "a wrong sign", panels(func(p *plan.Panel) { p.Shortest = f(-0.1) }), "shortest is -0.1 ft; it must be 0 to 2 ft (limit of this library)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, err := c.lay()
			require.Equal(t, c.says != kept, l.IsZero(), "%s: %v", c.why, err)
			if c.says != kept {
				require.EqualError(t, err, c.says, c.why)
			}
		})
	}
}

// TestTold holds what a layout tells of itself, worked out by hand.
func TestTold(t *testing.T) {
	f := quantity.Feet
	rolls := func(length, width, turnUp, levels float64, p plan.Product) func() (plan.Layout, error) {
		return func() (plan.Layout, error) {
			s, err := box(length, width)
			require.NoError(t, err)
			return plan.LayRolls(s, p, f(turnUp), levels)
		}
	}
	for _, c := range []struct {
		name, why   string
		lay         func() (plan.Layout, error)
		cut, bought float64
		text, si    string
	}{
		{"one piece", "40 of 100 ft are cut, 60 are left", rolls(40, 12, 0, 1, product(12.5, 100, 1, 3, 10)), 40 * 12.5, 1250,
			"1 piece from 1 roll of 12 ft 6 in by 100 ft: roll 1: 40 ft; 60 ft left", "1 piece from 1 roll of 3.81 m by 30.48 m: roll 1: 12.2 m; 18.28 m left"},
		{"alike", "two strips of each of two levels; 160 ft from two rolls, whole", rolls(40, 20, 0, 2, product(12.5, 80, 1, 3, 80)), 160 * 12.5, 2000,
			"4 pieces from 2 rolls of 12 ft 6 in by 80 ft: rolls 1 to 2, each: 2 x 40 ft", ""},
		{"to the next inch", "40.05 ft are 40 ft 1 in; of 60 ft 19 ft 11 in are left", rolls(40.05, 12, 0, 1, product(12.5, 60, 1, 3, 60)), 40.05 * 12.5, 750,
			"1 piece from 1 roll of 12 ft 6 in by 60 ft: roll 1: 40 ft 1 in; 19 ft 11 in left", ""},
		{"no room for the next inch", "two of 30.05 ft are 30 ft 1 in each, which a roll of 60.1 ft just does not hold: they are told to the sixteenth", rolls(30.05, 24, 0, 1, product(12.5, 60.1, 1, 3, 60)), 60.1 * 12.5, 60.1 * 12.5,
			"2 pieces from 1 roll of 12 ft 6 in by 60 ft 1-3/16 in: roll 1: 2 x 30 ft 5/8 in", ""},
		{"turned up", "42 by 14 ft: 4 strips across reach 47 ft and take 56, two along take 84", rolls(40, 12, 1, 1, product(12.5, 100, 1, 3, 10)), 56 * 12.5, 1250,
			"4 pieces from 1 roll of 12 ft 6 in by 100 ft: roll 1: 4 x 14 ft; 44 ft left", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, err := c.lay()
			require.NoError(t, err)
			require.Equal(t, c.text, l.String(), c.why)
			require.InDelta(t, c.cut, l.Cut().SquareFeet(), 1e-6, c.why)
			require.InDelta(t, c.bought, l.Bought().SquareFeet(), 1e-6, c.why)
			if c.si != "" {
				require.Equal(t, c.si, l.Text(quantity.SI))
			}
		})
	}
	p := plan.Piece{Length: quantity.Meters(3.141)}
	require.InDelta(t, 3.15, p.Reach(quantity.SI).Meters(), 1e-9, "to the next centimeter")
	require.InDelta(t, 124, p.Reach(quantity.US).Feet()*12, 1e-9, "123.66 in, to the next inch")
	p.Length = quantity.Meters(3.15 + 5e-7)
	require.InDelta(t, 3.15, p.Reach(quantity.SI).Meters(), 1e-9, "a thousandth of a millimeter is nothing")
}

// TestUnproven holds what is told where no bound proves the number of rolls: 14
// strips of different lengths, each over a third and under half of a roll.
func TestUnproven(t *testing.T) {
	var layouts []plan.Layout
	for i := range 14 {
		s, err := box(34+float64(i)/2, 12)
		require.NoError(t, err)
		l, err := plan.LayRolls(s, product(12.5, 100, 1, 3, 100), 0, 1)
		require.NoError(t, err)
		require.Equal(t, 1, l.Units())
		layouts = append(layouts, l)
	}
	l, err := layouts[0].Merge(layouts[1:]...)
	require.NoError(t, err)
	units, proven := l.Least()
	require.Equal(t, 7, l.Units(), "two of a roll, as three are at least 103.5 ft")
	require.Equal(t, 6, units, "14 strips of 37.25 ft on average are 521.5 ft")
	require.False(t, proven)
	require.Contains(t, l.String(), "14 pieces from 7 rolls of 12 ft 6 in by 100 ft; these strips take at least 6: roll 1: ")
	units, proven = plan.Layout{}.Least()
	require.Zero(t, units)
	require.False(t, proven)
}

// TestPiecesInPlace holds where each piece lies, of which area and level, and from
// which roll it is cut: a strip of 50 ft, turned up by 1 ft, from rolls of 40 ft.
func TestPiecesInPlace(t *testing.T) {
	f := quantity.Feet
	s, err := feet(0, 0, 0, 50, -10, 50, -10, 0)
	require.NoError(t, err)
	l, err := plan.LayRolls(s, product(12, 40, 1, 3, 10), f(1), 2)
	require.NoError(t, err)
	type in struct {
		level, unit           int
		at, length, from, end float64
	}
	var got []in
	for _, p := range l.Pieces() {
		low, high := p.Corners[0], p.Corners[2]
		require.InDelta(t, 12, math.Abs((high.X - low.X).Feet()), 1e-6)
		require.Equal(t, [2]int{0, 0}, [2]int{p.Area, p.Strip})
		require.InDelta(t, -11, min(low.X, high.X).Feet(), 1e-6)
		got = append(got, in{p.Level, p.Unit, math.Round(p.At.Feet()), math.Round(p.Length.Feet()), math.Round(low.Y.Feet()), math.Round(high.Y.Feet())})
	}
	require.Equal(t, []in{{0, 0, 0, 40, -1, 39}, {0, 1, 0, 15, 36, 51}, {1, 1, 15, 25, -1, 24}, {1, 2, 0, 30, 21, 51}}, got,
		"52 ft are 40 and 15, which laps by 3; the other 25 of the second roll begin the upper level, and 30 go on from it")
	require.Equal(t, 3, l.Units(), "110 ft")
	for k, lying := range l.Lying() {
		require.Equal(t, [2]int{0, k}, [2]int{lying.Area, lying.Level})
		require.Len(t, lying.Pieces, 2)
		require.Len(t, lying.Outline, 4)
		size := [2]float64{(lying.High.X - lying.Low.X).Feet(), (lying.High.Y - lying.Low.Y).Feet()}
		require.InDeltaSlice(t, []float64{52, 12}, size[:], 1e-6, "of all pieces, the strips to the right")
		for _, p := range lying.Pieces {
			require.Equal(t, k, p.Level)
			require.InDelta(t, p.Length.Feet(), (p.High.X - p.Low.X).Feet(), 1e-6)
			require.InDelta(t, 12, (p.High.Y - p.Low.Y).Feet(), 1e-6)
		}
	}
	require.Len(t, l.Lying(), 2)
	require.Empty(t, plan.Layout{}.Lying())
}

// TestMergeRefuses holds what products must have in common.
func TestMergeRefuses(t *testing.T) {
	s, err := box(20, 10)
	require.NoError(t, err)
	lay := func(width, length, lap float64) plan.Layout {
		l, err := plan.LayRolls(s, product(width, length, lap, 3, 10), 0, 1)
		require.NoError(t, err)
		return l
	}
	panels, err := plan.LayPanels(s, plan.Panel{Length: quantity.Feet(50), Width: quantity.Feet(12)})
	require.NoError(t, err)
	for _, c := range []struct {
		name  string
		other plan.Layout
		want  error
	}{
		{"another lap", lay(12, 50, 2), nil},
		{"another width", lay(11, 50, 1), plan.ErrProducts},
		{"another length", lay(12, 60, 1), plan.ErrProducts},
		{"panels of that size", panels, plan.ErrProducts},
		{"none", plan.Layout{}, plan.ErrProducts},
	} {
		_, err := lay(12, 50, 1).Merge(c.other)
		require.ErrorIs(t, err, c.want, c.name)
	}
}
