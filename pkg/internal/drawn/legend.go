package drawn

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/section"
)

// legend says what is drawn how, each way once.
type legend []*key

type key struct {
	y             float64 // where it is first drawn
	symbol, hatch string
	of, texts     []string // courses, and what each is made of
}

// add keeps the keys from the top down.
func (l *legend) add(y float64, symbol, hatch, of, text string) {
	at := len(*l)
	for i, each := range *l {
		if each.symbol == symbol && each.hatch == hatch {
			if !slices.Contains(each.texts, text) {
				each.of, each.texts = append(each.of, of), append(each.texts, text)
			}
			return
		}
		if each.y > y {
			at = min(at, i)
		}
	}
	*l = slices.Insert(*l, at, &key{y, symbol, hatch, []string{of}, []string{text}})
}

// says tells what is drawn so; of several things, where each is.
func (k *key) says() string {
	if len(k.texts) == 1 {
		return k.texts[0]
	}
	var out []string
	for i, text := range k.texts {
		out = append(out, k.of[i]+": "+text)
	}
	return strings.Join(out, "; ")
}

// keys writes the legend from top down, and returns where it ends.
func (c *cut) keys(y float64) float64 {
	const left, right, words = margin, 32, 40
	for _, k := range c.legend {
		middleY := y + row/2
		switch k.symbol {
		case "bed":
			c.box(middle, k.hatch, left, y+1, right, y+12)
		case "joints":
			c.box(thin, "", left, y+1, left+12, y+12)
			c.box(thin, "", right-12, y+1, right, y+12)
			c.dot((left+right)/2, middleY)
		case "grid", "fabric", "liner":
			c.line(sheetPens[k.symbol], left, middleY, right, middleY)
		case "ground":
			c.line(middle, left, y+3, right, y+3)
			c.ticks(left-1, right+3, y+3)
		case "standpipe":
			c.line(thick, 15, y+1, 15, y+12, 21, y+12, 21, y+1, 15, y+1)
		case "pipe":
			c.circle(thick, (left+right)/2, middleY, 5.5)
			c.circle(thin, (left+right)/2, middleY, 3.5)
		default: // an edge
			c.line(thick, right-4, y+1, right-4, y+12, left+4, y+12)
		}
		y = c.written(words, y, wrapped(k.says(), wide-words-margin)) + 4
	}
	return y
}

// told writes the legend and what is to be said below the picture.
func (c *cut) told() {
	y := c.keys(c.height + 6)
	var also []string
	for _, each := range slices.Backward(c.s.Courses) {
		if symbol := c.symbol(each); symbol == "" || symbol == "meeting" {
			also = append(also, each.Label)
		}
	}
	notes := []string{c.toScale()}
	if slices.ContainsFunc(c.layers(), func(bed section.Course) bool { return c.unscaled[bed.Name] }) {
		notes = append(notes, c.Line("drawn_not_to_scale"))
	}
	if len(also) > 0 {
		notes = append(notes, c.Line("drawn_also", "courses", strings.Join(also, "; ")))
	}
	c.notes(y, notes)
}

// toScale says what is to scale.
func (c *cut) toScale() string {
	if c.narrowed {
		return c.Line("drawn_heights")
	}
	return c.Line("drawn_one_scale")
}

// notes writes what stands last in the picture, from top down.
func (c *cut) notes(y float64, notes []string) {
	for _, note := range notes {
		y = c.written(margin, y, wrapped(note, wide-2*margin)) + 2
	}
	c.height = y + margin
}
