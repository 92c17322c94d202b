package sheet

import (
	"slices"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/section"
)

// full is the page, and then in full what it says in short: every value of every course
// with its reason, what to confirm, the cautions and checks, and what is not there.
func (l *leaf) full() []*paper.Block {
	return append(l.page(), l.attributes(), l.presumed(), l.notGiven(), l.cautions(), l.checks(), l.absent(), l.absorbed())
}

// attributes tell the courses from the top down with every value and why it is so.
func (l *leaf) attributes() *paper.Block {
	out := l.part("full_courses")
	for _, c := range slices.Backward(l.s.Courses) {
		course := paper.Part("", c.Label, l.where(c), paper.Text(l.say(c.Because)))
		for _, a := range c.Attributes {
			if !a.Value.IsZero() {
				course.Add(l.attribute(a))
			}
		}
		out.Add(course)
	}
	return out
}

// where says how deep a course lies.
func (l *leaf) where(c section.Course) *paper.Block {
	line := "full_from"
	if c.Top.Equal(c.Bottom) {
		line = "full_at"
	}
	if depth, _ := c.Top.Length(); depth == 0 {
		line += "_grade"
	}
	return paper.Text(l.line(line, "top", l.exact(c.Top), "bottom", l.exact(c.Bottom)))
}

func (l *leaf) attribute(a section.Attribute) *paper.Block {
	out := paper.Item(l.line("full_attribute", "what", pages.Capital(a.Label), "value", l.assumed(a.Value, a.Presumed), "because", l.say(a.Because)))
	if a.Source == "" {
		return out.Add(paper.Note(l.line("full_person")))
	}
	return out.Add(paper.Note(l.line("full_rule", "rule", a.Rule, "source", l.cited(a.Source))))
}
