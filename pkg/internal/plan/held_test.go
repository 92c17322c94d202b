package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
)

// TestRank holds which of two layouts is the better: by rolls, then by the length that
// is cut, to a tenth of a millimeter, then by pieces.
func TestRank(t *testing.T) {
	than := &choice{packing: packing{rolls: 3}, cut: 50, pieces: 7}
	for _, c := range []struct {
		name, why     string
		rolls, pieces int
		cut           float64
		want          int
	}{
		{"fewer rolls", "whatever else", 2, 9, 90, -1},
		{"more rolls", "whatever else", 4, 1, 10, 1},
		{"less cut", "with as many rolls", 3, 9, 49.9, -1},
		{"more cut", "with as many rolls", 3, 1, 50.1, 1},
		{"less by no more than rounding", "the pieces decide", 3, 8, 50 - 100*slack, 1},
		{"more by no more than rounding", "the pieces decide", 3, 6, 50 + 100*slack, -1},
		{"alike", "neither is better", 3, 7, 50, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, order(float64(rank(c.rolls, c.pieces, c.cut, than)), 0), c.why)
		})
	}
}

// TestPlace holds how one strip is cut from rolls of 100 with laps of 3 and no piece
// shorter than 10, where so much of the last roll is used.
func TestPlace(t *testing.T) {
	s := stock{length: 100, lap: 3, shortest: 10}
	for _, c := range []struct {
		name, why  string
		fill, item float64
		join       bool
		want       []float64
		fresh, ok  bool
	}{
		{"fits", "into what is left", 40, 60, false, []float64{60}, false, true},
		{"fits to a hair", "rounding keeps nothing out", 40, 60 + slack, false, []float64{60 + slack}, false, true},
		{"does not fit", "it begins a new roll", 41, 60, false, []float64{60}, true, true},
		{"begins in the rest", "59 of it, and 1 + 3 would be too short: 53 and 10", 41, 60, true, []float64{53, 10}, false, true},
		{"begins in a small rest", "10 of it is as short as a piece may be", 90, 60, true, []float64{10, 53}, false, true},
		{"the rest is too small", "a piece of 9 is too short", 91, 60, true, nil, false, false},
		{"as long as a roll", "it is whole", 100, 100, false, []float64{100}, true, true},
		{"longer than a roll", "it is joined, in a new roll", 100, 150, false, []float64{100, 53}, true, true},
		{"longer than a roll by little", "so that the last piece is no shorter than 10: 93 and 10", 100, 100.1, false, []float64{93.1, 10}, true, true},
		{"two rolls long", "100 + 100 - 3", 100, 197, false, []float64{100, 100}, true, true},
		{"longer than two rolls", "100, then 94.5 so that the last has 10", 100, 198.5, false, []float64{100, 91.5 + 3, 10}, true, true},
		{"longer, from the rest", "40 of the last roll, then 100 and 16", 60, 150, true, []float64{40, 100, 16}, false, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fresh, ok := s.place(nil, c.fill, c.item, c.join)
			require.Equal(t, [2]bool{c.fresh, c.ok}, [2]bool{fresh, ok}, "%s: %v", c.why, got)
			require.Len(t, got, len(c.want), c.why)
			for i := range got {
				require.InDelta(t, c.want[i], got[i], 1e-9, c.why)
			}
		})
	}
	lapped := stock{length: 100, lap: 12}
	_, _, ok := lapped.place(nil, 88, 60, true)
	require.False(t, ok, "a piece that is all lap covers nothing")
	_, _, ok = lapped.place(nil, 87.9, 60, true)
	require.True(t, ok)
}

// TestLeast holds how short a piece may be, which strips can be joined, and how many joints
// one needs.
func TestLeast(t *testing.T) {
	s, whole := stock{length: 100, lap: 3, shortest: 10}, stock{length: 100, lap: 3, shortest: 100}
	require.Equal(t, []float64{10, 10, 10, 100, 100, 50}, []float64{s.least(60), s.least(100), s.least(101), whole.least(60), whole.least(100), whole.least(101)},
		"what is longer than a roll is joined, be the pieces half a roll")
	require.Equal(t, 12.0, stock{length: 100, lap: 12}.least(60), "no piece is shorter than its lap")
	require.Equal(t, []bool{false, true, true, false, true}, []bool{s.canJoin(16.9), s.canJoin(17), s.canJoin(60), whole.canJoin(100), whole.canJoin(100.1)}, "two of 10 lapped by 3 are 17")
	require.Equal(t, []int{0, 1, 1, 2, 2, 3}, []int{s.forced(100), s.forced(100.1), s.forced(197), s.forced(197.1), s.forced(294), s.forced(294.1)}, "each roll but the first adds 97")
	length, joints := s.need([]float64{60, 150, 198})
	require.Equal(t, 3, joints)
	require.InDelta(t, 60+153+204, length, 1e-9)
}

// TestBound holds the fewest rolls that strips can be cut from to sums by hand.
func TestBound(t *testing.T) {
	whole := stock{length: 100, lap: 3, shortest: 100}
	for _, c := range []struct {
		name, why string
		items     []float64
		want      int
	}{
		{"by the sum", "210 from rolls of 100", []float64{70, 70, 70}, 3},
		{"to a hair", "200 from two", []float64{100, 100 + slack/2}, 2},
		{"more than half each", "no two share a roll", []float64{51, 51, 51}, 3},
		{"half each", "two share one", []float64{50, 50, 50, 50}, 2},
		{"small beside large", "70 leaves 30, which takes none of the 40s: 3 and 2 rolls", []float64{70, 70, 70, 40, 40, 40}, 5},
		{"small that fits beside large", "3 rolls of 70 and 30", []float64{70, 70, 70, 30, 30, 30}, 3},
		{"longer than a roll", "120 takes one and 23 more", []float64{120, 70}, 2},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, whole.bound(c.items), c.why) })
	}
	joins := stock{length: 100, lap: 3, shortest: 10}
	require.Equal(t, 2, joins.bound([]float64{51, 51, 51}), "153 and a lap, where they can be joined")
}

// TestFirstFit holds that the longest are cut first, each from the first roll with room.
func TestFirstFit(t *testing.T) {
	s := stock{length: 100, lap: 3, shortest: 100}
	items := []float64{195, 70, 60, 100 - 60 + slack, 30, 20}
	p := s.firstFit(items, []int{0, 1, 2, 3, 4, 5})
	var rolls []int
	for _, c := range p.cuts {
		rolls = append(rolls, c.roll)
	}
	require.Equal(t, []int{0, 1, 2, 3, 3, 2, 4}, rolls, "195 of two rolls leave 2; 40 fits beside 60 to a hair, 30 beside 70, and 20 nowhere")
	holds(t, s, items, p)
}

// TestKinds holds that strips are of one kind where rounding tells them apart alone.
func TestKinds(t *testing.T) {
	require.Equal(t, [][]int{{0, 1}, {2}}, kinds([]float64{2 * slack, slack, slack / 2}, []int{0, 1, 2}), "from the longest of the kind on")
}

// TestInTurn holds the order in which strips are cut from one roll after the other.
func TestInTurn(t *testing.T) {
	s := stock{length: 100, lap: 3, shortest: 10}
	for _, c := range []struct {
		name, why string
		items     []float64 // the longest first
		want      []cut
	}{
		{"the longest that fits", "70, then 30 beside it, then 60", []float64{70, 60, 30}, []cut{{0, 0, 0, 70}, {2, 0, 70, 30}, {1, 1, 0, 60}}},
		{"begins in the rest", "60, and 40 of the next 60, whose other 23 lie in the next roll", []float64{60, 60}, []cut{{0, 0, 0, 60}, {1, 0, 60, 40}, {1, 1, 0, 23}}},
		{"so that the last is long enough", "nothing begins in the 5 beside 95; of the 15 beside 85, 13 are used and leave 10 of 20", []float64{95, 85, 20}, []cut{{0, 0, 0, 95}, {1, 1, 0, 85}, {2, 1, 85, 13}, {2, 2, 0, 10}}},
		{"none begins in a rest of 5", "a new roll", []float64{95, 95}, []cut{{0, 0, 0, 95}, {1, 1, 0, 95}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			order := make([]int, len(c.items))
			for i := range order {
				order[i] = i
			}
			p := s.inTurn(c.items, order)
			require.Equal(t, c.want, p.cuts, c.why)
			holds(t, s, c.items, p)
		})
	}
}

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

// TestWorse holds when a layout need not be tried: where the best so far takes 2 rolls of
// 100, 150 cut and 3 pieces.
func TestWorse(t *testing.T) {
	b := bestLayout{area: area{levels: 1}, stock: stock{length: 100, lap: 3, shortest: 100}, choice: &choice{packing: packing{rolls: 2}, cut: 150, pieces: 3}}
	of := func(lengths ...float64) (out []run) {
		for i, l := range lengths {
			out = append(out, run{i, 0, 5, 5 + l})
		}
		return out
	}
	for _, c := range []struct {
		name, why string
		least     []run
		close     bool
		want      bool
	}{
		{"less to cut", "it may be better", of(70, 70), false, false},
		{"as much, in fewer strips", "it may be better", of(75, 75), false, false},
		{"as much, in as many", "it is not", of(50, 50, 50), false, true},
		{"more to cut", "it is not", of(80, 80), false, true},
		{"one roll", "fewer rolls", of(50, 45), false, false},
		{"one roll, close by", "no fewer rolls are hoped for, and less is cut", of(50, 45), true, false},
		{"more rolls", "it is not", of(99, 99, 99), false, true},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, b.worse(c.least, c.close), c.why) })
	}
	b.choice = nil
	require.False(t, b.worse(of(1000), false), "nothing was found yet")
	two := bestLayout{area: area{levels: 2}, stock: b.stock, choice: &choice{packing: packing{rolls: 2}, cut: 150, pieces: 4}}
	require.False(t, two.worse(of(35, 35), false), "70 on each of two levels is less than 150")
	require.True(t, two.worse(of(40, 40), false), "80 on each is more")
}

// TestRangeEndsOfLayouts takes each argument at both ends of its range and just beyond.
func TestRangeEndsOfLayouts(t *testing.T) {
	feet := quantity.Feet
	s, err := Rectangle(feet(20), feet(10))
	require.NoError(t, err)
	rolls := func(change func(p *Product, up *quantity.Length, levels *float64)) error {
		p, up, levels := Product{Width: feet(12), Length: feet(100), Lap: feet(1), EndLap: feet(3), Shortest: feet(10)}, feet(1), 1.0
		change(&p, &up, &levels)
		_, err := LayRolls(s, p, up, levels)
		return err
	}
	panels := func(change func(p *Panel)) error {
		p := Panel{Length: feet(4), Width: feet(2), Offset: feet(2), Shortest: feet(1)}
		change(&p)
		_, err := LayPanels(s, p)
		return err
	}
	for _, c := range []struct {
		name, why string
		low, high float64
		below     bool // the high end itself is not taken
		call      func(x float64) error
	}{
		{"width of a roll", "6 in to 100 ft", 0.5, 100, false, func(x float64) error {
			return rolls(func(p *Product, _ *quantity.Length, _ *float64) { p.Width, p.Lap = feet(x), 0 })
		}},
		{"length of a roll", "5 to 5,000 ft", 5, 5000, false, func(x float64) error {
			return rolls(func(p *Product, _ *quantity.Length, _ *float64) { p.Length, p.EndLap, p.Shortest = feet(x), 0, 0 })
		}},
		{"lap", "less than half of the width", 0, 6, true, func(x float64) error {
			return rolls(func(p *Product, _ *quantity.Length, _ *float64) { p.Lap = feet(x) })
		}},
		{"end lap", "less than half of a roll", 0, 50, true, func(x float64) error {
			return rolls(func(p *Product, _ *quantity.Length, _ *float64) { p.EndLap = feet(x) })
		}},
		{"shortest piece", "any length of a roll", 0, 5000, false, func(x float64) error {
			return rolls(func(p *Product, _ *quantity.Length, _ *float64) { p.Shortest = feet(x) })
		}},
		{"turn-up", "to 20 ft", 0, 20, false, func(x float64) error {
			return rolls(func(_ *Product, up *quantity.Length, _ *float64) { *up = feet(x) })
		}},
		{"levels", "1 to 20", 1, 20, false, func(x float64) error {
			return rolls(func(_ *Product, _ *quantity.Length, levels *float64) { *levels = x })
		}},
		{"length of a panel", "6 in to 50 ft", 0.5, 50, false, func(x float64) error {
			return panels(func(p *Panel) { p.Length, p.Offset, p.Shortest = feet(x), 0, 0 })
		}},
		{"width of a panel", "6 in to 50 ft", 0.5, 50, false, func(x float64) error { return panels(func(p *Panel) { p.Width = feet(x) }) }},
		{"offset", "to the length of a panel", 0, 4, false, func(x float64) error { return panels(func(p *Panel) { p.Offset = feet(x) }) }},
		{"shortest end", "to half of a panel", 0, 2, false, func(x float64) error { return panels(func(p *Panel) { p.Shortest = feet(x) }) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			below := c.low * 0.999
			if c.low == 0 {
				below = -0.001
			}
			for _, x := range []float64{below, c.high * 1.001} {
				var outside *calculation.RangeError
				require.ErrorAs(t, c.call(x), &outside, "%g is beyond: %s", x, c.why)
			}
			require.NoError(t, c.call(c.low), "%g: %s", c.low, c.why)
			require.NoError(t, c.call(c.high*0.999), "just below %g: %s", c.high, c.why)
			require.Equal(t, c.below, c.call(c.high) != nil, "%g: %s", c.high, c.why)
		})
	}
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

// TestCutsAreTold holds how the pieces of rolls read.
func TestCutsAreTold(t *testing.T) {
	feet := quantity.Feet
	of := func(length quantity.Length, rolls ...[]float64) Layout {
		l := &laid{product: Product{Width: feet(12.5), Length: length}, units: len(rolls), bound: len(rolls), exact: true}
		for unit, pieces := range rolls {
			at := 0.0
			for _, p := range pieces {
				l.pieces = append(l.pieces, Piece{Unit: unit, At: feet(at), Length: feet(p)})
				at += p
			}
		}
		return Layout{l}
	}
	for _, c := range []struct {
		name, why string
		l         Layout
		want      string
	}{
		{"one", "what is left is told", of(feet(100), []float64{40}), "1 piece from 1 roll of 12 ft 6 in by 100 ft: roll 1: 40 ft; 60 ft left"},
		{"alike", "they are counted", of(feet(100), []float64{40, 40, 20}), "3 pieces from 1 roll of 12 ft 6 in by 100 ft: roll 1: 2 x 40 ft, 20 ft"},
		{"alike apart", "only those beside each other", of(feet(100), []float64{40, 20, 40}), "3 pieces from 1 roll of 12 ft 6 in by 100 ft: roll 1: 40 ft, 20 ft, 40 ft"},
		{"rolls alike", "they are told together", of(feet(100), []float64{50}, []float64{50}, []float64{60}, []float64{50}), "4 pieces from 4 rolls of 12 ft 6 in by 100 ft: rolls 1 to 2, each: 50 ft; 50 ft left; roll 3: 60 ft; 40 ft left; roll 4: 50 ft; 50 ft left"},
		{"to the next inch", "each is cut no shorter than it must be", of(feet(100), []float64{40.01, 40.04}), "2 pieces from 1 roll of 12 ft 6 in by 100 ft: roll 1: 2 x 40 ft 1 in; 19 ft 10 in left"},
		{"no room for the inch", "they are told as they are", of(feet(80.05), []float64{40.01, 40.04}), "2 pieces from 1 roll of 12 ft 6 in by 80 ft 5/8 in: roll 1: 40 ft 1/8 in, 40 ft 1/2 in"},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.l.String(), c.why) })
	}
	least := of(feet(100), []float64{40}, []float64{40})
	least.bound, least.exact = 1, false
	require.Contains(t, least.String(), "100 ft; these strips take at least 1: rolls 1 to 2")
	least.bound = 2
	require.NotContains(t, least.String(), "at least", "as many as they take is told once")
}

// TestWhichWay holds in which direction strips are said to run.
func TestWhichWay(t *testing.T) {
	feet := quantity.Feet
	box, err := Rectangle(feet(20), feet(10))
	require.NoError(t, err)
	round, err := Circle(feet(10))
	require.NoError(t, err)
	triangle, err := Polygon(Point{0, 0}, Point{4, 0}, Point{0, 3})
	require.NoError(t, err)
	for _, c := range []struct {
		name, why, want string
		shape           Shape
		axis            point
	}{
		{"length", "of a rectangle", "along its length", box, point{1, 0}},
		{"width", "of a rectangle", "along its width", box, point{0, 1}},
		{"back", "as far as forth", "along its length", box, point{-1, 0}},
		{"circle", "there are no sides", "any way, all the same", round, point{1, 0}},
		{"a side", "the first that it runs along or across", "along side 1", triangle, point{1, 0}},
		{"across the first", "before along the third", "across side 1", triangle, point{0, 1}},
		{"a slope", "the side of 5", "along side 2", triangle, point{0.8, -0.6}},
		{"across a slope", "the side of 5", "across side 2", triangle, point{0.6, 0.8}},
		{"askew", "no side has it", "one way", triangle, point{math.Sqrt2 / 2, math.Sqrt2 / 2}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, (&area{shape: c.shape, axis: c.axis}).runsBy(), c.why)
		})
	}
}

// TestAxes holds the directions in which strips are tried: the longest side first.
func TestAxes(t *testing.T) {
	box, err := Rectangle(quantity.Feet(20), quantity.Feet(10))
	require.NoError(t, err)
	require.Equal(t, []point{{1, 0}, {0, -1}}, box.axes(), "along and across; each once")
	round, err := Circle(quantity.Feet(10))
	require.NoError(t, err)
	require.Equal(t, []point{{1, 0}}, round.axes())
	triangle, err := Polygon(Point{0, 0}, Point{4, 0}, Point{0, 3})
	require.NoError(t, err)
	require.Len(t, triangle.axes(), 4, "two of the sides lie across each other")
}

// TestPlans holds where the pieces of two levels lie, turned so that the strips run right.
func TestPlans(t *testing.T) {
	feet := quantity.Feet
	s, err := Rectangle(feet(10), feet(40))
	require.NoError(t, err)
	l, err := LayRolls(s, Product{Width: feet(12), Length: feet(100), Lap: feet(1), EndLap: feet(3), Shortest: feet(10)}, 0, 2)
	require.NoError(t, err)
	lying := l.Lying()
	require.Len(t, lying, 2, "one of each level")
	for level, each := range lying {
		require.Equal(t, [2]int{0, level}, [2]int{each.Area, each.Level})
		require.Len(t, each.Pieces, 1)
		require.Len(t, each.Outline, 4)
		long, wide := each.High.X-each.Low.X, each.High.Y-each.Low.Y
		require.InDelta(t, 40, long.Feet(), 1e-9, "it runs along the side of 40 ft")
		require.InDelta(t, 12, wide.Feet(), 1e-9, "and is 12 ft wide, 2 ft more than the area")
		require.Equal(t, each.Low, each.Pieces[0].Low)
		require.Equal(t, each.High, each.Pieces[0].High)
	}
	require.InDelta(t, 1-800.0/960, l.Waste().Fraction(), 1e-9, "400 sq ft on two levels, of 12 x 40 each")
	require.InDelta(t, 1200, l.Bought().SquareFeet(), 1e-9, "80 ft of one roll")
	require.Nil(t, Layout{}.Lying())
}

func TestCalculationsAreDescribed(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Calculations() {
		t.Run(f.Name, func(t *testing.T) {
			require.False(t, seen[f.Name], "described twice")
			seen[f.Name] = true
			sig, err := signature.Of(f)
			require.NoError(t, err)
			require.Len(t, f.Params, len(sig.Params))
			for i, p := range append(f.Params, f.Result) {
				require.NotEmpty(t, p.Name, "of value %d", i)
				require.NotEmpty(t, p.About, p.Name)
			}
			require.NotEmpty(t, f.Sources)
			require.Regexp(t, "^"+f.Name+`\(`, f.Example)
			require.Equal(t, f.Moves != "", f.Positive, "what moves one way is never below zero, and a proof must know it")
		})
	}
	require.NotEmpty(t, seen)
}
