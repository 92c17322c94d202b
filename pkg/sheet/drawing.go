package sheet

import (
	"fmt"
	"io"
	"slices"
	"strconv"

	"example.com/groundrule/pkg/internal/drawn"
	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/section"
)

// svg is the form that has the drawings alone.
const svg = "svg"

// drawing is the drawn section of the area, nil of one that is not to be built.
func (l *leaf) drawing() *paper.Block { return figure(l.draws().Section(l.s)) }

// draws is by what the next drawing is made.
func (l *leaf) draws() *drawn.Drawing {
	l.figures++
	return &drawn.Drawing{System: l.System, Line: l.line, Rules: l.Drawn, Prefix: "d" + strconv.Itoa(l.figures)}
}

// figure is a drawing with its title, nil where there is none.
func figure(p drawn.Picture) *paper.Block {
	if p.SVG == "" {
		return nil
	}
	return paper.Figure(p.SVG, p.Title)
}

// drawings writes the drawings of each area that can be built, with how what is laid out
// lies, and of the joints, one under the other.
func (s Sheet) drawings(w io.Writer, job *section.Areas) error {
	l := &leaf{Sheet: s, job: job, missing: map[string]bool{}}
	var all []drawn.Picture
	for _, each := range job.Sections {
		l.s, l.System = each, l.System.Writing(each.Numbers)
		all = append(all, l.draws().Section(each))
		for _, q := range each.Quantities {
			if layout, ok := q.Layout.Data().(plan.Layout); ok && each.Status == section.Designed {
				all = append(all, l.draws().Layout(layout, pages.Capital(l.value(q.Item))))
			}
		}
	}
	for _, j := range job.Joints {
		all = append(all, l.draws().Joint(job, j))
	}
	all = slices.DeleteFunc(all, func(p drawn.Picture) bool { return p.SVG == "" })
	if err := l.lacks(); err != nil {
		return err
	}
	if len(all) == 0 {
		return fmt.Errorf("%w: there is nothing to draw; wanted a section that can be built, and Drawn as Book.Drawn returns it", ErrSheet)
	}
	_, err := io.WriteString(w, drawn.Stack(all))
	return err
}
