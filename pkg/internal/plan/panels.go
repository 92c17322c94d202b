package plan

import (
	"cmp"
	"math"
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// Panel is what is laid in courses: panels in rows, the joints of each row moved
// by Offset from those of the row before.
type Panel struct {
	// Length of a panel runs along the course, Width across it.
	Length, Width, Offset quantity.Length
	// Shortest is how short a cut panel may be at the end of a course, where the
	// area allows it.
	Shortest quantity.Length
}

var panelSizes = calculation.Range{Name: "length", Unit: "ft", Low: 0.5, High: 50, Document: ownLimit}

// LayPanels lays panels over a shape in courses, along or across one of its sides,
// with a joint where some course begins or ends with a whole panel or the shortest
// piece; another joint may save a panel. Of these it takes the layout with the fewest
// pieces shorter than p allows; of those the fewest panels, what is cut off at one end
// of a course being used at the other end of another where it reaches; and of those
// the fewest cuts. What is cut off keeps one edge as it was made, which meets the next
// panel, so that a panel serves one left end and one right end at most.
func LayPanels(s Shape, p Panel) (Layout, error) {
	if s.IsZero() {
		return Layout{}, ErrNone
	}
	offset, shortest := panelSizes.Named("offset"), panelSizes.Named("shortest")
	offset.Low, offset.High = 0, p.Length.Feet()
	shortest.Low, shortest.High = 0, p.Length.Feet()/2
	if err := cmp.Or(
		panelSizes.CheckMeasure(p.Length), panelSizes.Named("width").CheckMeasure(p.Width),
		offset.CheckMeasure(p.Offset), shortest.CheckMeasure(p.Shortest),
	); err != nil {
		return Layout{}, err
	}
	var best *courses
	ground := s.grown(0)
	for _, axis := range s.axes() {
		f := newField(ground, axis, p.Width.Meters(), 0)
		if err := f.check(p.Width); err != nil {
			return Layout{}, err
		}
		for _, start := range f.starts() {
			runs := f.runs(start, 0)
			length := 0.0
			for _, r := range runs {
				length += r.length()
			}
			if best != nil && best.short == 0 && roundUp(length/p.Length.Meters()) > best.rolls {
				continue
			}
			for _, joint := range p.joints(runs) {
				c := p.course(runs, joint)
				if best == nil || c.rank(best) < 0 {
					best = c
					best.axis, best.runs = axis, runs
				}
			}
		}
	}
	l := &laid{product: Product{Width: p.Width, Length: p.Length}, panels: true,
		areas: []area{{shape: s, levels: 1, axis: best.axis, runs: best.runs, cuts: best.cuts}}}
	return l.place(best.packing), nil
}

// courses is one way to lay panels.
type courses struct {
	packing
	axis        point
	runs        []run
	short, ends int
}

func (c *courses) rank(than *courses) int {
	return cmp.Or(c.short-than.short, c.rolls-than.rolls, c.ends-than.ends)
}

// joints returns places of a joint of the first course: those at which some
// course begins or ends with a whole panel, or with the shortest piece.
func (p Panel) joints(runs []run) []float64 {
	length := p.Length.Meters()
	var out []float64
	for _, r := range runs {
		moved := float64(float64(r.strip) * p.Offset.Meters())
		for _, at := range []float64{r.from, r.to, r.from + p.Shortest.Meters(), r.to - p.Shortest.Meters()} {
			at = math.Mod(at-moved, length)
			if at < 0 {
				at += length
			}
			out = append(out, at)
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return abs(a-b) <= slack })
}

// course cuts the panels of all courses, with a joint of the first at a place.
func (p Panel) course(runs []run, joint float64) *courses {
	length := p.Length.Meters()
	c := &courses{}
	for i, r := range runs {
		next := joint + float64(float64(r.strip)*p.Offset.Meters())
		next += float64(length * (math.Floor((r.from+slack-next)/length) + 1)) // the first joint beyond the start
		for from := r.from; from < r.to-slack; from, next = next, next+length {
			piece := cut{item: i, length: min(next, r.to) - from}
			begins, ends := next-from >= length-slack, next <= r.to+slack // at a joint
			switch {
			case begins && ends:
				piece.length = length
			case ends:
				piece.at = length - piece.length
			}
			if !begins || !ends {
				c.ends++
				if piece.length < p.Shortest.Meters()-slack && (begins || ends) {
					c.short++
				}
			}
			c.cuts = append(c.cuts, piece)
		}
	}
	c.share(length)
	return c
}

// share gives the pieces their panels. The shortest left end of a course, cut from
// the far end of a panel, shares it with the longest right end that it leaves room
// for, and so on, which makes the most pairs.
func (c *courses) share(length float64) {
	var left, right []int
	c.rolls = 0
	for i := range c.cuts {
		switch piece := &c.cuts[i]; {
		case piece.at > 0:
			left = append(left, i)
		case piece.length < length:
			right = append(right, i)
		default:
			piece.roll = c.rolls
			c.rolls++
		}
	}
	byLength := func(a, b int) int { return cmp.Or(cmp.Compare(c.cuts[a].length, c.cuts[b].length), a-b) }
	slices.SortFunc(left, byLength)
	slices.SortFunc(right, byLength)
	for _, l := range left {
		c.cuts[l].roll = c.rolls
		for k := len(right) - 1; k >= 0; k-- {
			if r := right[k]; c.cuts[l].length+c.cuts[r].length <= length+slack {
				c.cuts[r].roll = c.rolls
				right = slices.Delete(right, k, k+1)
				break
			}
		}
		c.rolls++
	}
	for _, r := range right {
		c.cuts[r].roll = c.rolls
		c.rolls++
	}
	c.bound, c.exact = c.rolls, true
}
