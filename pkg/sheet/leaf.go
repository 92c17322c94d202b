package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// leaf is a sheet of one section while it is made.
type leaf struct {
	Sheet
	job     *section.Areas
	s       *section.Section
	missing map[string]bool // lines that were wanted and are not there
	figures int             // how many drawings there are
}

// line returns a line of the rulebook with its holes filled: line("dig", "depth", x)
// fills {depth}.
func (l *leaf) line(name string, holes ...string) string {
	text, ok := l.Lines[name]
	if !ok {
		l.missing[name] = true
	}
	return pages.Fill(text, holes...)
}

// called returns what the rulebook calls one of the library's own words, such as the sort
// of an entry; the word itself where it has no line for it.
func (l *leaf) called(of, word string) string { return cmp.Or(l.Lines[of+word], word) }

// part returns a part under a line of the rulebook.
func (l *leaf) part(name string, under ...*paper.Block) *paper.Block {
	return paper.Part("", l.line(name), under...)
}

// value returns a value as one person says it to another.
func (l *leaf) value(v value.Value) string { return v.Brief(l.System) }

// exact returns a value in full, for whoever checks it.
func (l *leaf) exact(v value.Value) string { return v.Text(l.System) }

// say returns a sentence of the section, and quoted a clause or a noun of it.
func (l *leaf) say(s section.Sentence) string    { return pages.Capital(fullStop(s.In(l.System))) }
func (l *leaf) quoted(s section.Sentence) string { return strings.TrimSpace(s.In(l.System)) }

// assumed returns a value, marked where nobody measured it.
func (l *leaf) assumed(v value.Value, presumed bool) string {
	if presumed {
		return l.value(v) + " " + l.line("sheet_assumed")
	}
	return l.value(v)
}

// title is that of the whole sheet.
func (l *leaf) title() string {
	if l.s.Job.Name == "" {
		return l.line("sheet_no_name")
	}
	return strings.TrimSuffix(l.s.Job.Name, ", "+l.s.Job.Part)
}

// about says for whom and where the job is, how large this area is, and more of it.
func (l *leaf) about(more ...string) *paper.Block {
	client, area := "", ""
	if l.s.Job.Client != "" {
		client = l.line("sheet_about", "client", l.s.Job.Client)
	}
	if !l.s.Job.Area.IsZero() {
		area = l.value(l.s.Job.Area)
	}
	parts := append([]string{client, l.s.Job.Place, area}, more...)
	return paper.Text(strings.Join(slices.DeleteFunc(parts, func(part string) bool { return part == "" }), "; "))
}

// joints tell how the areas join that meet.
func (l *leaf) joints(full bool) *paper.Block {
	out := l.part("sheet_joints")
	for i, j := range l.job.Joints {
		joint := paper.Item(fullStop(l.line("sheet_joint", "of", j.Of, "beside", j.Beside, "length", l.value(j.Length))))
		for _, c := range j.Crossed {
			joint.Add(l.crossedWarning(c))
		}
		for _, c := range j.Courses {
			for _, a := range c.Attributes {
				joint.Add(paper.Text(fullStop(pages.Capital(a.Label) + ": " + l.assumed(a.Value, a.Presumed))))
			}
		}
		if full {
			joint.Add(figure(l.draws().Joint(l.job, j)))
			own := *l // the sources of a joint are its own
			own.s = &section.Section{Sources: j.Sources}
			for _, r := range j.Reasons {
				joint.Add(own.choice(r))
			}
		}
		out.Add(paper.Within(fmt.Sprintf("joint-%d-", i+1), joint)...)
	}
	return out
}

// crossedWarning tells of an answer beyond a limit.
func (l *leaf) crossedWarning(c section.Crossed) *paper.Block {
	holes := []string{"what", pages.Capital(c.Label), "answer", l.value(c.Answer), "wanted", strings.TrimSuffix(l.quoted(c.Wanted), "."), "because", l.say(c.Because), "limit", c.Limit, "variance", c.Variance}
	if c.Variance != "" {
		return paper.Item(l.line("sheet_crossed_by", holes...))
	}
	return paper.Warn(l.line("sheet_crossed", holes...))
}
