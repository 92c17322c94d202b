package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// TestRunsOfStrips holds where the strips of a rectangle of 10 by 7 and of an L may begin,
// and what each covers: strips 3 wide with laps of 1.
func TestRunsOfStrips(t *testing.T) {
	rectangle := newField([][]point{{{0, 0}, {10, 0}, {10, 7}, {0, 7}}}, point{1, 0}, 3, 1)
	require.Equal(t, []float64{0, -1}, rectangle.starts(), "flush with the lower edge, and so that the last is flush with the upper")
	require.Equal(t, []run{{0, 0, 0, 10}, {1, 2, 0, 10}, {2, 4, 0, 10}}, rectangle.runs(0, 0), "the third ends at 7")
	require.Equal(t, []run{{0, -1, 0, 10}, {1, 1, 0, 10}, {2, 3, 0, 10}, {3, 5, 0, 10}}, rectangle.runs(-1, 0))
	across := newField([][]point{{{0, 0}, {10, 0}, {10, 7}, {0, 7}}}, point{0, 1}, 3, 1)
	require.Len(t, across.runs(across.starts()[0], 0), 5, "9 + 1 over 2")

	// An L of 10 by 4, of which the upper 2 are 6 long.
	l := newField([][]point{{{0, 0}, {10, 0}, {10, 2}, {6, 2}, {6, 4}, {0, 4}}}, point{1, 0}, 2, 0)
	require.Equal(t, []float64{0}, l.starts(), "each corner is at a multiple of 2")
	require.Equal(t, []run{{0, 0, 0, 10}, {1, 2, 0, 6}}, l.runs(0, 0))
	require.Equal(t, []run{{0, -1, 0, 10}, {1, 1, 0, 10}, {2, 3, 0, 6}}, l.runs(-1, 0), "a strip that covers both heights is as long as the longer")
	require.Equal(t, 3, strips(l.runs(-1, 0)))

	// A U whose legs are 2 wide and 6 apart: a strip over the gap is two pieces.
	u := newField([][]point{{{0, 0}, {10, 0}, {10, 5}, {8, 5}, {8, 2}, {2, 2}, {2, 5}, {0, 5}}}, point{1, 0}, 2, 0)
	require.Equal(t, []run{{0, 0, 0, 10}, {1, 2, 0, 2}, {1, 2, 8, 10}, {2, 4, 0, 2}, {2, 4, 8, 10}}, u.runs(0, 0))
	require.Equal(t, 3, strips(u.runs(0, 0)), "two pieces of one strip are one strip")
	require.Equal(t, []float64{0, -1}, u.starts())

	// A lap that alone holds ground is covered by the strip before it.
	lapped := newField([][]point{{{0, 0}, {10, 0}, {10, 2}, {3, 2}, {3, 5}, {0, 5}}}, point{1, 0}, 3, 1)
	require.Equal(t, []run{{0, 0, 0, 10}, {1, 2, 0, 3}}, lapped.runs(0, 0))
	require.Equal(t, []run{{0, -1, 0, 10}, {1, 1, 0, 10}, {2, 3, 0, 3}}, lapped.runs(-1, 0), "the second strip begins within the foot of the L")
}

// TestBetweenCorners holds that strips of which no edge lies at a corner are tried too: on
// this ground they save a roll.
func TestBetweenCorners(t *testing.T) {
	feet := quantity.Feet
	s, err := Polygon(Point{0, 0}, Point{feet(59), 0}, Point{feet(58), feet(70)}, Point{feet(12), feet(60)})
	require.NoError(t, err)
	p := Product{Width: feet(12.5), Length: feet(100), Lap: feet(1), EndLap: feet(3), Shortest: feet(100)}
	fewest := math.MaxInt
	for _, axis := range s.axes() {
		f := newField(s.grown(0), axis, p.Width.Meters(), p.Lap.Meters())
		for _, runs := range append([][]run{f.uneven()}, f.runs(f.starts()[0], 0)) {
			packed, _ := p.stock().pack(lengthsOf(runs, 1), math.MaxInt32)
			fewest = min(fewest, packed.rolls)
		}
		for _, start := range f.starts() {
			packed, _ := p.stock().pack(lengthsOf(f.runs(start, 0), 1), math.MaxInt32)
			fewest = min(fewest, packed.rolls)
		}
	}
	require.Equal(t, 5, fewest, "at the corners")
	l, err := LayRolls(s, p, 0, 1)
	require.NoError(t, err)
	require.Equal(t, 4, l.Units())
}

// TestCoursesOfPanels holds how courses are cut: panels of 4, each course moved by 2.
func TestCoursesOfPanels(t *testing.T) {
	feet := quantity.Feet
	p := Panel{Length: feet(4), Width: feet(2), Offset: feet(2), Shortest: feet(1)}
	ft := feet(1).Meters()
	runs := []run{{0, 0, 0, 9 * ft}, {1, 2 * ft, 0, 9 * ft}}
	var joints []float64
	for _, j := range p.joints(runs) {
		joints = append(joints, math.Round(j/ft*1000)/1000)
	}
	require.Equal(t, []float64{0, 1, 2, 3}, joints, "at 0, at 9 less two panels, a foot within each, and all moved by 2")

	lengths := func(c *courses) (out [][3]float64) {
		for _, piece := range c.cuts {
			out = append(out, [3]float64{float64(piece.item), math.Round(piece.at/ft*1000) / 1000, math.Round(piece.length/ft*1000) / 1000})
		}
		return out
	}
	whole := p.course(runs, 0)
	require.Equal(t, [][3]float64{{0, 0, 4}, {0, 0, 4}, {0, 0, 1}, {1, 2, 2}, {1, 0, 4}, {1, 0, 3}}, lengths(whole), "4 + 4 + 1, and 2 + 4 + 3, of which the first is the far end of a panel")
	require.Equal(t, [3]int{0, 3, 5}, [3]int{whole.short, whole.ends, whole.rolls}, "the 2 and the 1 are of one panel; the 3 has room for neither")
	short := p.course(runs, 0.5*ft)
	require.Equal(t, 2, short.short, "0.5 at both ends of the first course; the second has 2.5")
	one := p.course([]run{{0, 0, 0, 3 * ft}}, 3.5*ft)
	require.Equal(t, [3]int{0, 1, 1}, [3]int{one.short, one.ends, one.rolls}, "a panel cut at both ends is no short piece")
	require.Less(t, whole.rank(short), 0, "short pieces weigh most")
	require.Less(t, (&courses{packing: packing{rolls: 4}, ends: 9}).rank(&courses{packing: packing{rolls: 5}}), 0, "then panels")
	require.Less(t, (&courses{ends: 2}).rank(&courses{ends: 3}), 0, "then cuts")
}

// TestSharedPanels holds which ends of courses share a panel: the shortest left end with
// the longest right end beside which it has room.
func TestSharedPanels(t *testing.T) {
	left := func(l float64) cut { return cut{at: 4 - l, length: l} }
	right := func(l float64) cut { return cut{length: l} }
	c := &courses{packing: packing{cuts: []cut{right(4), left(3), right(2), left(1), right(3), right(1.5), left(2)}}}
	c.share(4)
	var rolls []int
	for _, each := range c.cuts {
		rolls = append(rolls, each.roll)
	}
	require.Equal(t, []int{0, 3, 2, 1, 1, 4, 2}, rolls, "1 with 3, 2 with 2, and 3 alone, since 1.5 is too long for it")
	require.Equal(t, [2]int{5, 5}, [2]int{c.rolls, c.bound})
	require.True(t, c.exact)
}

// TestReach holds to what a piece is cut, however a language writes the units.
func TestReach(t *testing.T) {
	french := map[string]string{"decimal": ","}
	for _, c := range []struct {
		name, why string
		system    quantity.System
		length    quantity.Length
		want      float64 // mm
	}{
		{"inches", "the next whole inch", quantity.US, quantity.Inches(10.2), 11 * 25.4},
		{"whole inches", "no more than that", quantity.US, quantity.Inches(10), 10 * 25.4},
		{"centimeters", "the next whole centimeter", quantity.SI, quantity.Meters(1.234), 1240},
		{"whole centimeters", "no more than that", quantity.SI, quantity.Meters(1.23), 1230},
		{"centimeters in another language", "as anywhere else", quantity.SI.Writing(french), quantity.Meters(1.234), 1240},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.InDelta(t, c.want, Piece{Length: c.length}.Reach(c.system).Millimeters(), 1e-6, c.why)
		})
	}
}
