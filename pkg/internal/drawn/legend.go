package drawn

import (
	"strings"
)

// legend says what is drawn how, in the order from the top down, each once.
type legend struct{ keys []key }

type key struct{ symbol, hatch, text string }

func (l *legend) add(symbol, hatch, text string) {
	k := key{symbol, hatch, text}
	for _, each := range l.keys {
		if each == k {
			return
		}
	}
	l.keys = append(l.keys, k)
}

// told writes the legend and what is to be said below the picture.
func (c *cut) told() {
	const left, right, words = margin, 32, 40
	y := c.height + 6
	for _, k := range c.legend.keys {
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
		case "pipe":
			c.circle(thick, (left+right)/2, middleY, 5.5)
			c.circle(thin, (left+right)/2, middleY, 3.5)
		default: // an edge
			c.line(thick, right-4, y+1, right-4, y+12, left+4, y+12)
		}
		y = c.written(words, y, wrapped(k.text, wide-words-margin)) + 4
	}
	var also []string
	for _, each := range c.courses {
		if c.symbol(each) == "" {
			also = append(also, each.Label)
		}
	}
	notes := []string{c.Line("drawn_one_scale")}
	if c.notes["across"] {
		notes[0] = c.Line("drawn_heights")
	}
	for _, bed := range c.is("bed") {
		if c.notes[bed.Name] {
			notes = append(notes, c.Line("drawn_not_to_scale"))
			break
		}
	}
	if len(also) > 0 {
		notes = append(notes, c.Line("drawn_also", "courses", strings.Join(also, "; ")))
	}
	for _, note := range notes {
		y = c.written(margin, y, wrapped(note, wide-2*margin)) + 2
	}
	c.height = y + margin
}

// inWords says what the picture shows.
func (c *cut) inWords() string {
	var out []string
	for _, l := range c.labelled {
		out = append(out, strings.Join(l.lines, " "))
	}
	return c.Line("drawn_in_words", "depth", c.s.Depth.Text(c.System), "courses", strings.ReplaceAll(strings.Join(out, "; "), "\u00a0", " "))
}
