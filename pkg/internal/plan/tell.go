package plan

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
)

// usual are the lines of a layout where no rulebook words them otherwise.
var usual = map[string]string{"cut_roll": "roll {first}: {pieces}", "cut_rolls": "rolls {first} to {last}, each: {pieces}", "cut_panel": "panel {first}: {pieces}",
	"cut_panels": "panels {first} to {last}, each: {pieces}", "cut_alike": "{count} x {length}", "cut_left": "{pieces}; {length} left"}

// usually says one of them with its holes filled.
func usually(name string, holes ...string) string { return page.Fill(usual[name], holes...) }

// unit names what is cut.
func (l *laid) unit(n int) string {
	name := "roll"
	if l.panels {
		name = "panel"
	}
	return page.Noun(n, name)
}

// String returns the layout in one line and US units, or "no layout".
func (l Layout) String() string { return l.Text(quantity.US) }

// Text is [Layout.String] in one system of units.
func (l Layout) Text(system quantity.System) string {
	if l.IsZero() {
		return "no layout"
	}
	least := ""
	if !l.exact && l.bound < l.units {
		least = fmt.Sprintf("; these strips take at least %d", l.bound)
	}
	n := len(l.pieces)
	return fmt.Sprintf("%d %s from %d %s of %s by %s%s", n, page.Noun(n, "piece"), l.units, l.unit(l.units), text(l.product.Width, system), text(l.product.Length, system), least) +
		": " + strings.Join(l.Cuts(system, usually), "; ")
}

// Cuts tells what is cut from each roll or panel, those that are cut alike
// together, in lines of a rulebook.
func (l Layout) Cuts(system quantity.System, line func(name string, holes ...string) string) []string {
	if l.IsZero() {
		return nil
	}
	var out, alike []string
	var counts []int
	pieces := l.Pieces()
	for len(pieces) > 0 {
		n := 1
		for n < len(pieces) && pieces[n].Unit == pieces[0].Unit {
			n++
		}
		cuts := l.cutsOf(pieces[:n], system, line)
		if k := len(alike); k > 0 && alike[k-1] == cuts {
			counts[k-1]++
		} else {
			alike, counts = append(alike, cuts), append(counts, 1)
		}
		pieces = pieces[n:]
	}
	first := 1
	for k, pieces := range alike {
		last := first + counts[k] - 1
		out = append(out, line("cut_"+l.unit(counts[k]), "first", strconv.Itoa(first), "last", strconv.Itoa(last), "pieces", pieces))
		first = last + 1
	}
	return out
}

// cutsOf tells what is cut from one roll, such as "3 x 40 ft, 26 ft; 154 ft left":
// each piece to the next inch or centimeter, where the roll is long enough for that.
func (l *laid) cutsOf(pieces []Piece, system quantity.System, line func(name string, holes ...string) string) string {
	step := cutStep(system)
	whole, last := make([]quantity.Length, len(pieces)), pieces[len(pieces)-1]
	left := l.product.Length
	for i, p := range pieces {
		whole[i] = p.Reach(system)
		left -= whole[i]
	}
	if left.Meters() < -slack {
		for i, p := range pieces {
			whole[i] = p.Length
		}
		left = l.product.Length - last.At - last.Length
	}
	var parts []string
	for i := 0; i < len(pieces); {
		n, piece := 1, text(whole[i], system)
		for i+n < len(pieces) && text(whole[i+n], system) == piece {
			n++
		}
		i += n
		if n > 1 {
			piece = line("cut_alike", "count", strconv.Itoa(n), "length", piece)
		}
		parts = append(parts, piece)
	}
	told := strings.Join(parts, ", ")
	if left = step * quantity.Length(math.Floor(float64((left+slack)/step))); left.Meters() > slack {
		told = line("cut_left", "pieces", told, "length", text(left, system))
	}
	return told
}

// runsBy tells which way the strips of an area run.
func (a *area) runsBy() string {
	if a.shape.kind == circle {
		return "any way, all the same"
	}
	told := a.shape.told
	for i, c := range told {
		u := told[(i+1)%len(told)].minus(c).unit()
		name := fmt.Sprintf("side %d", i+1)
		if a.shape.kind == rectangle {
			name = "its " + [2]string{"length", "width"}[i%2]
		}
		switch {
		case abs(u.cross(a.axis)) < slack:
			return "along " + name
		case abs(u.dot(a.axis)) < slack && a.shape.kind != rectangle:
			return "across " + name
		}
	}
	return "one way"
}

// marks are what a picture shows of a roll or panel, over and over.
const marks = "123456789abcdefghijkmnpqrstuvwxyz"

// mostRows is how high a picture is at most.
const mostRows = 30

// Draw returns a picture of the lowest level of each area in plain text, up to so
// many columns wide and 30 rows high, turned so that the strips run from left to right. Each mark
// is the roll or panel that covers the place; "=" is a lap, and "+" what is turned
// up or trimmed.
func (l Layout) Draw(columns int, system quantity.System) string {
	if l.IsZero() {
		return ""
	}
	var b strings.Builder
	for _, lying := range l.Lying() {
		if lying.Level == 0 {
			a := &l.areas[lying.Area]
			fmt.Fprintf(&b, "%s; strips run %s, left to right here\n", a.shape.Text(system), a.runsBy())
			l.draw(&b, lying, max(columns, 10))
		}
	}
	b.WriteString("1, 2 ...: the " + l.unit(1) + "; =: lap; +: turned up or trimmed\n")
	return b.String()
}

// Lying is one level of one area of a layout, on a plan turned so that its strips run
// from left to right.
type Lying struct {
	Area, Level int
	Outline     []Point
	Pieces      []Lain
	Low, High   Point // of all pieces
}

// Lain is a piece with where it lies.
type Lain struct {
	Piece
	Low, High Point
}

// Lying returns the levels of the areas, each with its pieces, from the first area and
// the lowest level on.
func (l Layout) Lying() (out []Lying) {
	if l.IsZero() {
		return nil
	}
	for i, a := range l.areas {
		turned := func(p point) Point {
			return Point{quantity.Meters(p.along(a.axis).x), quantity.Meters(p.along(a.axis).y)}
		}
		for level := range a.levels {
			far := quantity.Length(math.Inf(1))
			lying := Lying{Area: i, Level: level, Low: Point{far, far}, High: Point{-far, -far}}
			for _, c := range a.shape.corners {
				lying.Outline = append(lying.Outline, turned(c))
			}
			for _, p := range l.pieces {
				if p.Area != i || p.Level != level {
					continue
				}
				at := func(c Point) Point { return turned(point{c.X.Meters(), c.Y.Meters()}) }
				d := Lain{p, at(p.Corners[0]), at(p.Corners[2])}
				lying.Pieces = append(lying.Pieces, d)
				lying.Low = Point{min(lying.Low.X, d.Low.X), min(lying.Low.Y, d.Low.Y)}
				lying.High = Point{max(lying.High.X, d.High.X), max(lying.High.Y, d.High.Y)}
			}
			out = append(out, lying)
		}
	}
	return out
}

// Reach is how long a piece is as it is cut: to the next inch or centimeter.
func (p Piece) Reach(system quantity.System) quantity.Length {
	step := cutStep(system)
	return quantity.Length(step * quantity.Length(math.Ceil(float64((p.Length-slack)/step))))
}

// cutStep is to what a piece is cut.
func cutStep(system quantity.System) quantity.Length {
	if system.Base() == quantity.SI {
		return quantity.Meters(0.01)
	}
	return quantity.Inches(1)
}

func (l *laid) draw(b *strings.Builder, of Lying, columns int) {
	a := &l.areas[of.Area]
	low, high := point{of.Low.X.Meters(), of.Low.Y.Meters()}, point{of.High.X.Meters(), of.High.Y.Meters()}
	ground := trapezoids([][]point{a.shape.corners}, a.axis)
	wide := max((high.x-low.x)/float64(columns), (high.y-low.y)/(2*mostRows))
	columns = max(int(math.Round((high.x-low.x)/wide)), 1)
	rows := max(int(math.Round((high.y-low.y)/(2*wide))), 1) // a letter is twice as high as it is wide
	tall := (high.y - low.y) / float64(rows)
	wide = (high.x - low.x) / float64(columns)
	for row := range rows {
		line := make([]byte, columns)
		for column := range columns {
			line[column] = markAt(of.Pieces, ground, point{low.x + float64((float64(column)+0.5)*wide), high.y - float64((float64(row)+0.5)*tall)}, tall)
		}
		b.WriteString(strings.TrimRight(string(line), " ") + "\n")
	}
}

// markAt returns what a picture shows of a place in a row that is so tall, which
// shows a lap if the place or the middle of the lap is in it.
func markAt(pieces []Lain, ground []trapezoid, p point, tall float64) byte {
	mark := byte(' ')
	var over []Lain
	for _, d := range pieces {
		if d.Low.X.Meters() > p.x || d.High.X.Meters() < p.x {
			continue
		}
		for _, o := range over {
			low, high := max(d.Low.Y, o.Low.Y).Meters(), min(d.High.Y, o.High.Y).Meters()
			if low < high && (low <= p.y && p.y <= high || abs(float64((low+high)/2)-p.y) <= tall/2) {
				mark = '='
			}
		}
		over = append(over, d)
		if mark != '=' && d.Low.Y.Meters() <= p.y && p.y <= d.High.Y.Meters() {
			mark = marks[d.Unit%len(marks)]
		}
	}
	for _, t := range ground {
		if from, to := t.within(p.y, p.y); t.low <= p.y && p.y <= t.high && from <= p.x && p.x <= to {
			return mark
		}
	}
	if mark != ' ' {
		return '+'
	}
	return mark
}
