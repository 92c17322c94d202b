package drawn

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/internal/page"
)

// Sizes in units of the picture, which is [wide] of them wide: shown at 320 pixels, one
// is a pixel. A text is then 12 high, and 11 where a page has margins.
const (
	wide   = 320
	letter = 12  // of a text
	row    = 14  // from one line of a text to the next
	em     = 0.6 // how wide a letter is at most on the average, as a share of its height
	margin = 4
)

// textWidth is how wide a text is at most in a usual font without serifs.
func textWidth(text string) float64 { return em * letter * float64(utf8.RuneCountInString(text)) }

// canvas is a picture while it is drawn. Strokes and texts have the color of the text
// around the picture, so that it is read on light and on dark.
type canvas struct {
	b      strings.Builder
	prefix string
	height float64
	fills  []string // hatches that are used, in the order of use
}

// num writes a coordinate to a tenth.
func num(x float64) string {
	x = math.Round(x*10) / 10
	if x == 0 {
		x = 0 // not -0
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

func escaped(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(page.Shown(text))) // a builder takes all
	return b.String()
}

// points are places in the picture: x, y, x, y ...
func points(at ...float64) string {
	var b strings.Builder
	for i, x := range at {
		if i > 0 {
			b.WriteByte(" ,"[i%2])
		}
		b.WriteString(num(x))
	}
	return b.String()
}

// pen is how a line is drawn: its width, and its dashes if it has any.
type pen struct {
	width  float64
	dashes string
}

var (
	thin   = pen{width: 0.7}
	middle = pen{width: 1}
	thick  = pen{width: 1.6}
)

func (p pen) String() string {
	if p.width == 0 {
		return ` stroke="none"`
	}
	out := fmt.Sprintf(` stroke-width="%s"`, num(p.width))
	if p.dashes != "" {
		out += fmt.Sprintf(` stroke-dasharray="%s"`, p.dashes)
	}
	return out
}

// line draws a line through places.
func (c *canvas) line(p pen, at ...float64) {
	fmt.Fprintf(&c.b, "<polyline points=\"%s\"%s/>\n", points(at...), p)
}

// hole is what a hatch leaves out: a box, or what is round and fits in it.
type hole struct {
	left, top, right, bottom float64
	round                    bool
}

func (h hole) path() string {
	if !h.round {
		return "M" + points(h.left, h.top, h.left, h.bottom, h.right, h.bottom, h.right, h.top) + "z"
	}
	across, radius := num(h.right-h.left), num((h.right-h.left)/2)
	return fmt.Sprintf("M%s %sa%s %s 0 1 0 %s 0a%s %s 0 1 0 -%s 0z", num(h.left), num((h.top+h.bottom)/2), radius, radius, across, radius, radius, across)
}

// shape draws an area, filled with a hatch if it has one, but for its holes.
func (c *canvas) shape(p pen, hatch string, at []float64, holes ...hole) {
	fill := ""
	if hatches[hatch] != "" {
		fill = fmt.Sprintf(` fill="url(#%s)" fill-rule="evenodd"`, c.fill(hatch))
	}
	path := "M" + points(at...) + "z"
	for _, h := range holes {
		path += h.path()
	}
	fmt.Fprintf(&c.b, "<path d=\"%s\"%s%s/>\n", path, fill, p)
}

func (c *canvas) box(p pen, hatch string, left, top, right, bottom float64, holes ...hole) {
	c.shape(p, hatch, []float64{left, top, right, top, right, bottom, left, bottom}, holes...)
}

func (c *canvas) circle(p pen, x, y, radius float64) {
	fmt.Fprintf(&c.b, "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"%s/>\n", num(x), num(y), num(radius), p)
}

// dot is what a leader begins with.
func (c *canvas) dot(x, y float64) {
	fmt.Fprintf(&c.b, "<circle cx=\"%s\" cy=\"%s\" r=\"1.5\" fill=\"currentColor\" stroke=\"none\"/>\n", num(x), num(y))
}

// text writes a text with its foot at y; anchor is start, middle or end.
func (c *canvas) text(x, y float64, anchor, text string) { c.turned(x, y, anchor, text, "") }

func (c *canvas) turned(x, y float64, anchor, text, turn string) {
	if anchor != "start" {
		turn += fmt.Sprintf(` text-anchor="%s"`, anchor)
	}
	fmt.Fprintf(&c.b, "<text x=\"%s\" y=\"%s\" fill=\"currentColor\" stroke=\"none\"%s>%s</text>\n", num(x), num(y), turn, escaped(text))
}

// upward writes a text from the bottom up, its middle at y.
func (c *canvas) upward(x, y float64, text string) {
	c.turned(x, y, "middle", text, fmt.Sprintf(` transform="rotate(-90 %s %s)"`, num(x), num(y)))
}

// written writes lines of a text below each other from top down, and returns where they
// end.
func (c *canvas) written(x, top float64, lines []string) float64 {
	for _, l := range lines {
		c.text(x, top+letter-1, "start", l)
		top += row
	}
	return top
}

// Picture is a drawing as one SVG element.
type Picture struct {
	SVG string
	// Title says what is drawn.
	Title  string
	height float64
}

// Stack returns pictures one under the other as one SVG, each below its title.
func Stack(pictures []Picture) string {
	if len(pictures) == 1 {
		return pictures[0].SVG
	}
	c := &canvas{}
	y := 0.0
	for _, p := range pictures {
		y = c.written(margin, y+row, wrapped(p.Title, wide-2*margin)) + 4
		c.b.WriteString(strings.Replace(p.SVG, "<svg ", fmt.Sprintf(`<svg y="%s" width="%d" height="%s" `, num(y), wide, num(p.height)), 1))
		y += p.height + row
	}
	return fmt.Sprintf("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %s\" font-family=\"sans-serif\" font-size=\"%d\">\n%s</svg>\n", wide, num(y), letter, c.b.String())
}

// picture closes the drawing.
func (c *canvas) picture(title, shows string) Picture {
	c.height = math.Ceil(c.height)
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %s" role="img" aria-labelledby="%st %sd" font-family="sans-serif" font-size="%d" fill="none" stroke="currentColor" stroke-linejoin="round">`,
		wide, num(c.height), c.prefix, c.prefix, letter)
	fmt.Fprintf(&b, "\n<title id=\"%st\">%s</title>\n<desc id=\"%sd\">%s</desc>\n", c.prefix, escaped(title), c.prefix, escaped(shows))
	if len(c.fills) > 0 {
		b.WriteString("<defs>\n")
		for _, name := range c.fills {
			h := hatches[name]
			fmt.Fprintf(&b, "<pattern id=\"%s\" patternUnits=\"userSpaceOnUse\" %s</pattern>\n", c.fill(name), h)
		}
		b.WriteString("</defs>\n")
	}
	b.WriteString(c.b.String() + "</svg>\n")
	return Picture{b.String(), title, c.height}
}

// wrapped breaks a text into lines that are at most so wide.
func wrapped(text string, width float64) (lines []string) {
	for _, word := range strings.Split(text, " ") {
		if last := len(lines) - 1; last >= 0 && textWidth(lines[last]+" "+word) <= width {
			lines[last] += " " + word
			continue
		}
		for textWidth(word) > width { // a word that no line takes
			most := int(width / (em * letter))
			runes := []rune(word)
			lines, word = append(lines, string(runes[:most])), string(runes[most:])
		}
		lines = append(lines, word)
	}
	return lines
}
