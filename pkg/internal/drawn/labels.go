package drawn

import (
	"cmp"
	"slices"
)

// label is a text beside the picture, with a leader to what it names.
type label struct {
	says  string
	lines []string
	// from is where its leader begins; path is how it goes on to the picture's side.
	x, y float64
	path []float64
	top  float64 // where its text begins
}

// leaves is how high its leader leaves the picture.
func (l *label) leaves() float64 {
	if n := len(l.path); n > 0 {
		return l.path[n-1]
	}
	return l.y
}

func (l *label) high() float64 { return row*float64(len(l.lines)) + 2 }

// placed puts labels below each other, each as near its leader as may be, none above
// top; they come in the order of their leaders, so that no two leaders cross.
func placed(labels []*label, top float64) (bottom float64) {
	slices.SortStableFunc(labels, func(a, b *label) int { return cmp.Compare(a.leaves(), b.leaves()) })
	// Labels that would overlap stand together, as a block around the mean of where
	// they belong.
	type block struct {
		first, n        int
		wants, at, high float64 // wants is the sum of where its labels would have it begin
	}
	var blocks []block
	for i, l := range labels {
		b := block{first: i, n: 1, wants: l.leaves() - row/2 - 1, high: l.high()}
		b.at = max(b.wants, top)
		for len(blocks) > 0 && blocks[len(blocks)-1].at+blocks[len(blocks)-1].high > b.at {
			before := blocks[len(blocks)-1]
			blocks = blocks[:len(blocks)-1]
			b = block{before.first, before.n + b.n, before.wants + b.wants - float64(b.n)*before.high, 0, before.high + b.high}
			b.at = max(b.wants/float64(b.n), top)
		}
		blocks = append(blocks, b)
	}
	for _, b := range blocks {
		y := b.at
		for _, l := range labels[b.first : b.first+b.n] {
			l.top = y
			y += l.high()
		}
		bottom = y
	}
	return bottom
}

// labels draws labels with their texts from x on, and their leaders past side.
func (c *canvas) labels(labels []*label, side, x, top float64) (bottom float64) {
	bottom = placed(labels, top)
	for _, l := range labels {
		foot := l.top + row/2 + 1
		at := slices.Concat([]float64{l.x, l.y}, l.path)
		c.dot(l.x, l.y)
		c.line(thin, slices.Concat(at, []float64{side, l.leaves(), x - 3, foot})...)
		c.written(x, l.top, l.lines)
	}
	return bottom
}
