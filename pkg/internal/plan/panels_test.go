package plan

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// pairs returns how many of some left ends share a panel with a right end at most,
// by trying every way.
func pairs(left, right []float64, length float64) int {
	if len(left) == 0 {
		return 0
	}
	most := pairs(left[1:], right, length)
	for k, r := range right {
		if left[0]+r <= length+1e-6 {
			most = max(most, 1+pairs(left[1:], slices.Delete(slices.Clone(right), k, k+1), length))
		}
	}
	return most
}

// TestCoursesAgainstCells lays the panels of courses cell by cell, all in quarters
// of a meter, and shares out what is cut off in every way.
func TestCoursesAgainstCells(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	short, shared := 0, 0
	for range many(1000, 10000) {
		length := float64(2+r.IntN(8)) / 4
		p := Panel{Length: quantity.Meters(length), Offset: quantity.Meters(float64(r.IntN(5)) / 4 * length), Shortest: quantity.Meters(float64(r.IntN(3)) / 4)}
		var runs []run
		for strip := range 1 + r.IntN(4) {
			from := float64(r.IntN(20)-10) / 4
			runs = append(runs, run{strip: strip, from: from, to: from + float64(1+r.IntN(16))/4})
		}
		joint := float64(r.IntN(8)) / 4
		got := p.course(runs, joint)
		var want []cut
		var left, right []float64
		shorts, whole, alone := 0, 0, 0
		for i, r := range runs {
			for k := -60.0; k < 60; k++ {
				begin := joint + float64(r.strip)*p.Offset.Meters() + k*length
				from, to := max(begin, r.from), min(begin+length, r.to)
				l := to - from
				if l < 1e-6 {
					continue
				}
				c := cut{item: i, length: l}
				atBegin, atEnd := from == begin, to == begin+length
				switch {
				case atBegin && atEnd:
					whole++
				case atEnd:
					c.at = length - l
					left = append(left, l)
				case atBegin:
					right = append(right, l)
				default:
					alone++
				}
				if atBegin != atEnd && l < p.Shortest.Meters()-1e-6 {
					shorts++
				}
				want = append(want, c)
			}
		}
		require.Len(t, got.cuts, len(want))
		on := map[int][]cut{}
		for i, c := range got.cuts {
			require.InDeltaSlice(t, []float64{float64(want[i].item), want[i].at, want[i].length}, []float64{float64(c.item), c.at, c.length}, 1e-9)
			on[c.roll] = append(on[c.roll], c)
		}
		require.Equal(t, [2]int{shorts, len(left) + len(right) + alone}, [2]int{got.short, got.ends})
		if alone == 0 {
			most := pairs(left, right, length)
			require.Equal(t, whole+len(left)+len(right)-most, got.rolls, "%v", got.cuts)
			shared += most
		}
		require.Len(t, on, got.rolls, "a piece is cut from every panel, from 0 on")
		for roll, cuts := range on {
			require.Less(t, roll, got.rolls)
			slices.SortFunc(cuts, func(a, b cut) int { return cmp.Compare(a.at, b.at) })
			require.LessOrEqual(t, len(cuts), 2)
			if len(cuts) == 2 {
				require.LessOrEqual(t, cuts[0].at+cuts[0].length, cuts[1].at+1e-6, "no piece lies on another")
			}
		}
		require.Equal(t, [2]any{got.rolls, true}, [2]any{got.bound, got.exact})
		short += shorts
	}
	require.Greater(t, short, 100, "few pieces are too short")
	require.Greater(t, shared, 100, "few panels serve two ends")
}

// TestJointsOfCourses holds where the joints of the first course are tried.
func TestJointsOfCourses(t *testing.T) {
	for _, c := range []struct {
		name, why                string
		length, offset, shortest quantity.Length
		runs                     []run
		want                     []float64
	}{
		{"one course", "it begins at 1 or 1.5 and ends at 8.25 or 7.75, in steps of 3", 3, 1, 0.5, []run{{from: 1, to: 8.25}}, []float64{1, 1.5, 1.75, 2.25}},
		{"two courses", "the second is 1 farther, and begins at 2: as good as 1 in the first", 3, 1, 0, []run{{from: 1, to: 7}, {strip: 1, from: 2, to: 8}}, []float64{1}},
		{"the third", "moved by 2: 0 is as good as -2, which is 1", 3, 1, 0, []run{{strip: 2, from: 0, to: 2}}, []float64{0, 1}},
		{"alike but for rounding", "a thousandth of a millimeter is nothing", 3, 0, 0, []run{{from: 1, to: 4 + 5e-7}}, []float64{1}},
	} {
		got := Panel{Length: c.length, Offset: c.offset, Shortest: c.shortest}.joints(c.runs)
		require.InDeltaSlice(t, c.want, got, 1e-9, "%s: %s", c.name, c.why)
	}
	none := &courses{short: 1, ends: 3, packing: packing{rolls: 4}}
	for _, c := range []struct {
		name               string
		short, rolls, ends int
		want               int
	}{
		{"fewer short pieces", 0, 9, 9, -1}, {"fewer panels", 1, 3, 9, -1}, {"fewer cuts", 1, 4, 2, -1}, {"alike", 1, 4, 3, 0}, {"more short pieces", 2, 1, 1, 1},
	} {
		require.Equal(t, c.want, (&courses{short: c.short, ends: c.ends, packing: packing{rolls: c.rolls}}).rank(none), c.name)
	}
}

// TestPanelsAgainstEveryPlace holds a layout to all courses that are tried; and how
// many of its pieces are too short to courses that begin, and have their joints, in
// steps of a quarter of a foot.
func TestPanelsAgainstEveryPlace(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 28))
	quarter := func(n int) float64 { return quantity.Feet(float64(n) / 4).Meters() }
	for range many(60, 1000) {
		x, y := 4+r.IntN(30), 4+r.IntN(30)
		a, b := 1+r.IntN(x-1), 1+r.IntN(y-1)
		corners := [][2]int{{0, 0}, {x, 0}, {x, b}, {a, b}, {a, y}, {0, y}} // an L
		if r.IntN(2) == 0 {
			corners = [][2]int{{0, 0}, {x, 0}, {x, y}, {0, y}}
		}
		var told []Point
		for _, c := range corners {
			told = append(told, Point{quantity.Meters(quarter(c[0])), quantity.Meters(quarter(c[1]))})
		}
		s, err := Polygon(told...)
		require.NoError(t, err)
		length, width := 4+r.IntN(8), 4+r.IntN(6)
		p := Panel{Length: quantity.Meters(quarter(length)), Width: quantity.Meters(quarter(width)), Offset: quantity.Meters(quarter(r.IntN(length + 1))), Shortest: quantity.Meters(quarter(r.IntN(length/2 + 1)))}
		l, err := LayPanels(s, p)
		require.NoError(t, err)
		mine := &courses{packing: packing{rolls: l.Units()}}
		for _, piece := range l.Pieces() {
			if piece.Length < p.Length-1e-6 {
				mine.ends++
				if ends := piece.At > 0 || l.joins(piece); piece.Length < p.Shortest-1e-6 && ends {
					mine.short++
				}
			}
		}
		for _, axis := range s.axes() {
			f := newField([][]point{s.corners}, axis, p.Width.Meters(), 0)
			for _, start := range f.starts() {
				runs := f.runs(start, 0)
				for _, joint := range p.joints(runs) {
					require.GreaterOrEqual(t, p.course(runs, joint).rank(mine), 0, "%s: %v: courses along %v from %g, joint at %g: %s", s, p, axis, start, joint, l)
				}
			}
			for start := range width {
				runs := f.runs(f.low-quarter(start), 0)
				for joint := range length {
					require.GreaterOrEqual(t, p.course(runs, quarter(joint)).short, mine.short, "%s: %v: courses along %v from %d quarters, joint at %d: %s", s, p, axis, start, joint, l)
				}
			}
		}
		covered(t, r, s, Product{}, l, 1)
	}
}

// joins reports whether another piece goes on where a piece ends or begins.
func (l Layout) joins(p Piece) bool {
	return slices.ContainsFunc(l.pieces, func(o Piece) bool {
		return o.Strip == p.Strip && (math.Abs(o.from-p.from-p.Length.Meters()) < 1e-6 || math.Abs(o.from+o.Length.Meters()-p.from) < 1e-6)
	})
}
