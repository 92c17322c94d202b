package drawn

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// TestDepths holds where depths lie: 10 to an inch below 50, but for what is too thin or
// too thick, and 4 for each sheet.
func TestDepths(t *testing.T) {
	d := start(50)
	for _, c := range []struct {
		why    string
		inches float64
		sheets int
		scaled bool
	}{
		{"5 in: 50 to 100", 5, 0, true},
		{"half an inch more is too thin: 7 high, to 107, and 111 below its sheet", 5.5, 1, false},
		{"12 in more, the thickest to scale: to 231, and 239 below two sheets", 17.5, 2, true},
		{"12.1 in more are too thick: 100 high, to 339", 29.6, 0, false},
		{"0.71 in more, which is not too thin: to 346.1", 30.31, 0, true},
	} {
		require.Equal(t, c.scaled, d.add(quantity.Inches(c.inches), c.sheets), c.why)
	}
	for _, c := range []struct {
		why               string
		inches, of, below float64
	}{
		{"finish grade", 0, 50, 50},
		{"within a bed", 2.5, 75, 75},
		{"a bed without a sheet below", 5, 100, 100},
		{"half of the thin bed", 5.25, 103.5, 103.5},
		{"on and below a sheet", 5.5, 107, 111},
		{"half of a bed below a sheet", 11.5, 171, 171},
		{"on and below two sheets", 17.5, 231, 239},
		{"half of the thick bed", 23.55, 289, 289},
		{"the lowest", 30.31, 346.1, 346.1},
		{"an inch below it", 31.31, 356.1, 356.1},
	} {
		require.InDelta(t, c.of, d.of(quantity.Inches(c.inches)), 1e-6, c.why)
		require.InDelta(t, c.below, d.below(quantity.Inches(c.inches)), 1e-6, c.why)
	}
}

// TestPlaced holds where labels stand: a line is 14 high, a label 2 more, and it would
// begin 8 above its leader.
func TestPlaced(t *testing.T) {
	one := func(y float64, path ...float64) *label { return &label{lines: []string{"a"}, y: y, path: path} }
	for _, c := range []struct {
		name, why string
		labels    []*label
		top       float64
		want      []float64
		bottom    float64
	}{
		{"none", "nothing is placed", nil, 10, nil, 0},
		{"one", "100 - 8", []*label{one(100)}, 0, []float64{92}, 108},
		{"too high", "it begins at the top", []*label{one(10)}, 20, []float64{20}, 36},
		{"two apart", "each at its own", []*label{one(200), one(100)}, 0, []float64{92, 192}, 208},
		{"two that touch", "92 + 16 = 108", []*label{one(100), one(116)}, 0, []float64{92, 108}, 124},
		{"two in one place", "the mean of 92 and 96 - 16", []*label{one(100), one(104)}, 0, []float64{86, 102}, 118},
		{"two below the top", "as high as may be", []*label{one(100), one(104)}, 90, []float64{90, 106}, 122},
		{"three", "the mean of 92, 96 - 16 and 112 - 32", []*label{one(100), one(104), one(120)}, 0, []float64{84, 100, 116}, 132},
		{"two lines", "30 high", []*label{{lines: []string{"a", "b"}, y: 100}, one(130)}, 0, []float64{92, 122}, 138},
		{"a leader that goes on", "it leaves at 60", []*label{one(70), one(100, 1, 60)}, 0, []float64{49, 65}, 81},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.InDelta(t, c.bottom, placed(c.labels, c.top), 1e-9, c.why)
			var got []float64
			for _, l := range c.labels {
				got = append(got, l.top)
			}
			require.Equal(t, c.want, got, c.why)
		})
	}
}

func TestLegend(t *testing.T) {
	var l legend
	l.add(30, "bed", "a", "base", "stone")
	l.add(10, "bed", "b", "bedding", "sand")
	l.add(20, "grid", "", "grid", "net")
	l.add(5, "bed", "a", "subbase", "gravel")
	l.add(5, "bed", "a", "more", "stone")
	l.add(10, "liner", "", "liner", "foil")
	var got []string
	for _, k := range l {
		got = append(got, k.says())
	}
	require.Equal(t, []string{"sand", "foil", "net", "base: stone; subbase: gravel"}, got, "from the top down, each way and each material once")
}

func TestWritten(t *testing.T) {
	for x, want := range map[float64]string{1.04: "1", 1.06: "1.1", -0.04: "0", -1.26: "-1.3", 12: "12", 0: "0"} {
		require.Equal(t, want, num(x))
	}
	require.Equal(t, "1,2 3,4.5", points(1, 2, 3, 4.5))
	require.Equal(t, "M1,2 1,4 3,4 3,2z", hole{1, 2, 3, 4, false}.path())
	require.Equal(t, "M0 14a4 4 0 1 0 8 0a4 4 0 1 0 -8 0z", hole{0, 10, 8, 18, true}.path(), "two half circles")
	require.Equal(t, ` stroke="none"`, pen{}.String())
	require.Equal(t, ` stroke-width="0.7"`, thin.String())
	require.Equal(t, ` stroke-width="1.8" stroke-dasharray="9 2.5 2 2.5"`, sheetPens["grid"].String())
	c := canvas{prefix: "p"}
	require.Equal(t, "pha phb pha", c.fill("x")+" "+c.fill("y")+" "+c.fill("x"))
	for _, c := range []struct {
		name, text string
		width      float64
		want       []string
	}{
		{"five letters of 7.2", "ab cd ef", 36, []string{"ab cd", "ef"}},
		{"a little narrower", "ab cd ef", 35.9, []string{"ab", "cd", "ef"}},
		{"a word that fits", "abcde", 36, []string{"abcde"}},
		{"a word that no line takes", "ab cdéfghijklmn o", 36, []string{"ab", "cdéfg", "hijkl", "mn o"}},
		{"nothing", "", 36, []string{""}},
	} {
		require.Equal(t, c.want, wrapped(c.text, c.width), c.name)
	}
	require.Equal(t, 36.0, textWidth("abcdé"))
}

func TestStack(t *testing.T) {
	one, two := Picture{"<svg viewBox/>", "A", 10}, Picture{"<svg role/>", "B", 20}
	require.Equal(t, one.SVG, Stack([]Picture{one}))
	require.Equal(t, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 122" font-family="sans-serif" font-size="12">
<text x="4" y="25" fill="currentColor" stroke="none">A</text>
<svg y="32" width="320" height="10" viewBox/><text x="4" y="81" fill="currentColor" stroke="none">B</text>
<svg y="88" width="320" height="20" role/></svg>
`, Stack([]Picture{one, two}), "a title begins 14 below, ends 14 further and stands 4 above its picture")
}

// TestLinesOfACut holds what is drawn around holes: one from 10 to 20 all the way down,
// one from 30 to 40 between 50 and 60, and a round one.
func TestLinesOfACut(t *testing.T) {
	holes := []hole{{10, 0, 20, 100, false}, {30, 50, 40, 60, false}, {42, 0, 48, 100, true}}
	drawn := func(draw func(c *cut)) (got []string) {
		c := &cut{holes: holes}
		draw(c)
		for _, l := range strings.Split(strings.TrimSpace(c.b.String()), "\n") {
			_, l, _ = strings.Cut(l, `="`)
			l, _, _ = strings.Cut(l, `"`)
			got = append(got, l)
		}
		return got
	}
	for _, c := range []struct {
		name           string
		left, right, y float64
		want           []string
	}{
		{"through both", 0, 50, 55, []string{"0,55 10,55", "20,55 30,55", "40,55 50,55"}},
		{"above the second", 0, 50, 45, []string{"0,45 10,45", "20,45 50,45"}},
		{"at its upper edge", 0, 50, 50, []string{"0,50 10,50", "20,50 50,50"}},
		{"at its lower edge", 0, 50, 60, []string{"0,60 10,60", "20,60 50,60"}},
		{"from within the first", 15, 25, 45, []string{"20,45 25,45"}},
		{"from its edge", 10, 25, 45, []string{"20,45 25,45"}},
		{"to within it", 0, 15, 45, []string{"0,45 10,45"}},
		{"to its edge", 0, 10, 45, []string{"0,45 10,45"}},
		{"behind it", 20, 28, 45, []string{"20,45 28,45"}},
		{"all within it", 12, 18, 45, []string{""}},
	} {
		require.Equal(t, c.want, drawn(func(cut *cut) { cut.level(thin, c.left, c.right, c.y) }), c.name)
	}
	c := &cut{holes: holes}
	require.Equal(t, []hole{{15, 20, 20, 55, false}, {30, 50, 35, 55, false}}, c.within(15, 20, 35, 55), "clipped, without what lies beside")
	require.Empty(t, c.within(20, 0, 30, 100), "edges that touch")
	require.Empty(t, c.within(25, 0, 35, 50), "nor above one")

	require.Equal(t, []string{"0,45 10,45", "20,45 25,45", "0,49 10,49", "20,49 25,49", "0,45 0,49", "25,45 25,49"},
		drawn(func(c *cut) { c.filled("", 0, 45, 25, 49) })[1:], "a box: its top, its bottom and its sides")
	require.Equal(t, []string{"5,7 1,12", "9,7 3,14.5", "13,7 7,14.5"}, drawn(func(c *cut) { c.ticks(0, 13, 7) }), "one group of strokes")
	require.Len(t, drawn(func(c *cut) { c.ticks(0, 30.9, 7) }), 3, "no room for the next")
	require.Len(t, drawn(func(c *cut) { c.ticks(0, 31, 7) }), 6, "19 + 12")

	teeth := func(y string, z string) (out string) {
		for i, x := range strings.Fields("38 48 58 68 78 88 98 108 118 128 138 148 158") {
			out += " " + x + "," + []string{y, z}[i%2]
		}
		return out
	}
	holes = nil
	require.Equal(t, []string{
		"M158,0 38,0" + teeth("44", "47") + "z", "38,0 158,0", "38,0" + teeth("44", "47") + " 158,0",
		"M158,100 38,100" + teeth("53", "56") + "z", "38,100 158,100", "38,100" + teeth("53", "56") + " 158,100",
	}, drawn(func(c *cut) { c.broken("", 38, 0, 100) }), "two parts with twelve teeth of 10 by 3, 6 between them")
}
