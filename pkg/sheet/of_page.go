package sheet

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// confirmMost is how many lines a page has of what to confirm; the rest is counted.
const confirmMost = 3

// page is the one page that a person reads first: what matters on this job stands
// above the section, what matters on every job below.
func (l *leaf) page() []*paper.Block {
	out := []*paper.Block{l.about(), l.outcome(), l.day(), l.face(), l.onThisJob()}
	switch l.s.Status {
	case section.Refused:
		out = append(out, l.assumptions())
	case section.Designed:
		out = append(out, l.courses(), l.confirm(), l.usual(), l.checked())
	case section.Stopped:
		out = append(out, l.courses(), l.assumptions(), l.checked())
	}
	return out
}

// rest says once where the rest is.
func (l *leaf) rest() []*paper.Block { return []*paper.Block{paper.Note(l.line("page_rest"))} }

// day says of which day the rules are, where that was given.
func (l *leaf) day() *paper.Block {
	if l.s.AsOf.IsZero() {
		return nil
	}
	return paper.Text(l.line("sheet_day", "day", l.s.AsOf.String()))
}

// outcome says whether the section can be built.
func (l *leaf) outcome() *paper.Block {
	switch {
	case l.s.Status == section.Refused:
		return paper.Warn(l.line("sheet_refused"))
	case l.s.Status == section.Stopped:
		return paper.Warn(l.line("sheet_stopped"))
	case len(l.s.Confirm) > 0:
		return paper.Text(l.line("sheet_designed_assumed", "count", strconv.Itoa(len(l.s.Confirm))))
	}
	return paper.Text(l.line("sheet_designed"))
}

// face tells all by which the section is not what the rulebook alone would give.
func (l *leaf) face() *paper.Block {
	out := l.part("page_face")
	var companies []string
	for _, a := range l.s.Amendments {
		companies = append(companies, a.Company)
	}
	if len(companies) > 0 {
		out.Add(paper.Item(l.line("page_amended", "who", strings.Join(unique(companies), ", "))))
	}
	out.Add(l.overrides()...)
	out.Add(l.variances()...)
	for _, each := range l.s.Lifted {
		out.Add(l.liftedItem(each))
	}
	for _, c := range l.s.Crossed {
		if c.Variance != "" {
			out.Add(l.crossedWarning(c))
		}
	}
	return out
}

// overrides tell what people decided in place of the rules.
func (l *leaf) overrides() (out []*paper.Block) {
	for _, o := range l.s.Overrides {
		name := "sheet_override"
		switch {
		case !o.Asked:
			name = "sheet_override_idle"
		case o.Instead.IsZero():
			name = "sheet_override_alone"
		}
		out = append(out, paper.Item(l.line(name, "what", pages.Capital(o.Label), "answer", l.value(o.Answer), "by", o.By, "instead", l.value(o.Instead), "because", fullStop(pages.Capital(o.Because)))))
	}
	return out
}

// variances tell what is permitted by whom, so that nobody takes the exception for the
// rule.
func (l *leaf) variances() (out []*paper.Block) {
	for _, v := range l.s.Variances {
		name, limit := "sheet_retired_permitted", v.Bound
		switch {
		case v.Setting != "":
			name, limit = "sheet_setting_permitted", l.value(v.Limit)
		case v.Bound != "":
			name = "sheet_bound_permitted"
		}
		out = append(out, paper.Item(l.line(name, "variance", v.Name, "setting", v.Setting, "what", v.Retires, "value", l.value(v.Value), "limit", limit, "who", v.Who, "until", v.Until.String(), "why", fullStop(v.Why))))
	}
	return out
}

// liftedItem tells what an amendment took away and would have spoken.
func (l *leaf) liftedItem(each section.Lifted) *paper.Block {
	name, says := "sheet_lifted", l.say(each.Says)
	if each.Replaced {
		name = "sheet_weakened"
	}
	if says == "" {
		says = l.line("sheet_lost", "what", each.ID)
	}
	return paper.Item(l.line(name, "company", each.Amended.By.Company, "says", says, "because", fullStop(each.Amended.Because)))
}

// onThisJob tells what stops the job or is to be heeded on it more than on others:
// what stops it first.
func (l *leaf) onThisJob() *paper.Block {
	out := l.part("page_job")
	told := map[string]bool{"": true} // whom to take it to, once for all that it is taken to them for
	for _, r := range l.s.Refusals {
		out.Add(paper.Warn(l.say(r.Says) + " (" + r.ID + ")"))
		if who := l.say(r.Who); !told[who] {
			told[who] = true
			out.Add(paper.Text(l.line("sheet_who", "who", who)))
		}
	}
	for _, c := range l.s.Crossed {
		if c.Variance == "" {
			out.Add(l.crossedWarning(c))
		}
	}
	for _, stops := range []bool{true, false} {
		for _, c := range l.s.Failed() {
			if said := l.line("sheet_failed", "asks", c.Asks, "says", l.say(c.Says), "check", c.ID); (c.Failing == rulebook.Stops) != stops {
				continue
			} else if stops {
				out.Add(paper.Warn(said))
			} else {
				out.Add(paper.Item(said))
			}
		}
	}
	for _, c := range l.s.Cautions {
		if !c.Usual {
			out.Add(paper.Item(l.short(c)))
		}
	}
	return out
}

// short is a caution in one line.
func (l *leaf) short(c section.Caution) string { return cmp.Or(l.say(c.Short), l.say(c.Says)) }

// courses show how deep to dig, which way it falls, and the courses from the top down.
func (l *leaf) courses() *paper.Block {
	heading := "page_section"
	if l.s.Status == section.Stopped {
		heading = "page_tried"
	}
	var rows [][]string
	shows := func(c section.Course) bool {
		return slices.ContainsFunc(c.Attributes, func(a section.Attribute) bool { return a.Shown })
	}
	some := slices.ContainsFunc(l.s.Courses, shows)
	for _, c := range slices.Backward(l.s.Courses) {
		if some && !shows(c) {
			continue // what the crew needs of it alone
		}
		thick, bottom := "", c.Bottom.Text(l.System)
		if a := c.Attribute(thickness); !a.Value.IsZero() {
			thick = a.Value.Text(l.System)
		}
		if depth, _ := c.Bottom.Length(); depth <= 0 {
			bottom = ""
		}
		rows = append(rows, []string{thick, bottom, l.shown(c)})
	}
	return l.part(heading, append(l.dig(), paper.Rows([]string{l.line("page_thickness"), l.line("page_bottom"), l.line("page_course")}, rows))...)
}

// shown names a course with the attributes that one must know of it. The name is left
// out where the first of them says it, and a count of one as well.
func (l *leaf) shown(c section.Course) string {
	var parts []string
	for _, a := range c.Attributes {
		said := strings.TrimSuffix(l.assumed(a.Value, a.Presumed), ".")
		_, isMeasure := a.Value.Measure()
		n, isCount := a.Value.Number()
		_, counted := l.Lines["counted_"+a.Name]
		isCount = isCount && counted
		switch {
		case !a.Shown || a.Value.IsZero() || isCount && n == 1:
		case isCount:
			parts = append(parts, l.line("counted_"+a.Name, "count", said))
		case len(parts) == 0 && !isMeasure:
			parts = append(parts, said)
		default:
			parts = append(parts, a.Label+" "+said)
		}
	}
	if len(parts) == 0 {
		return c.Label
	}
	out := strings.Join(parts, "; ")
	if !strings.Contains(strings.ToLower(parts[0]), strings.ToLower(c.Label)) {
		out = l.line("page_of", "course", c.Label, "what", out)
	}
	return out
}

// The attributes that say how thick a course is, of what, how much it falls, and which way.
const (
	thickness = "thickness"
	material  = "material"
	slope     = "slope"
	falls     = "falls"
)

// dig says how deep to dig and which way surface and bottom fall.
func (l *leaf) dig() []*paper.Block {
	if l.s.Depth.IsZero() {
		return nil
	}
	how := "page_dig"
	if l.s.Status == section.Stopped {
		how = "page_tried_depth"
	}
	out := []*paper.Block{paper.Text(l.line(how, "depth", l.s.Depth.Text(l.System)))}
	var said [][2]string // the bottom first
	for _, c := range l.s.Courses {
		if s, f := c.Attribute(slope), c.Attribute(falls); !s.Value.IsZero() && !f.Value.IsZero() {
			said = append(said, [2]string{l.assumed(s.Value, s.Presumed), l.assumed(f.Value, f.Presumed)})
		}
	}
	if len(said) == 0 {
		return out
	}
	top, bottom := said[len(said)-1], said[0]
	name := "page_falls_apart"
	if top == bottom {
		name = "page_falls"
	}
	return append(out, paper.Text(l.line(name, "slope", top[0], "falls", top[1], "bottom", bottom[0], "bottom_falls", bottom[1])))
}

// confirm tells what to confirm that would change the section, the weightiest first:
// by which there would be none, then what changes it most.
func (l *leaf) confirm() *paper.Block {
	out := l.part("page_confirm")
	var engineer, idle []string
	var items []*paper.Block
	for _, a := range l.open() {
		c := l.weightiest(a.q)
		name := "_other"
		switch {
		case strings.EqualFold(a.q.Label, a.p.Label):
			name = "_same"
		case a.p.Name != "":
			name = "_assumed"
		}
		holes := []string{"asked", a.q.Label, "answer", cmp.Or(c.Label, l.System.Write(c.Answer)), "what", a.p.Label, "value", l.value(a.p.Value)}
		if c.Status != l.s.Status {
			engineer = append(engineer, pages.Capital(l.line("page_engineer"+name, holes...)))
		} else {
			items = append(items, paper.Item(pages.Capital(l.line("page_confirm"+name, append(holes, "comes", fullStop(l.quoted(c.Differs[0])))...))))
		}
	}
	for _, p := range l.s.Confirm {
		switch {
		case slices.ContainsFunc(l.s.Questions, func(q section.Question) bool { return slices.Contains(p.Keys, q.Key) }):
		case len(p.Keys) > 0 && l.s.Questions != nil:
			idle = append(idle, p.Label)
		default:
			items = append(items, l.assumption(p))
		}
	}
	more := max(0, len(engineer)-confirmMost) + max(0, len(items)-confirmMost)
	if len(engineer) > 0 {
		out.Add(paper.Item(l.line("page_engineer", "what", strings.Join(engineer[:min(confirmMost, len(engineer))], "; "))))
	}
	out.Add(items[:min(confirmMost, len(items))]...)
	if more > 0 {
		out.Add(paper.Item(l.line("page_confirm_more", "count", strconv.Itoa(more))))
	}
	if len(idle) > 0 {
		out.Add(paper.Item(l.line("page_idle", "what", strings.Join(idle, ", "))))
	}
	return out
}

// assumptions tell in short what was assumed, of a job that has no section to build.
func (l *leaf) assumptions() *paper.Block {
	out := l.part("page_assumed")
	for _, p := range l.s.Confirm {
		out.Add(l.assumption(p))
	}
	return out
}

func (l *leaf) assumption(p section.Presumed) *paper.Block {
	return paper.Item(l.line("page_confirm_by", "what", pages.Capital(p.Label), "value", l.value(p.Value), "confirm", fullStop(p.Confirm)))
}

// asked is a question with what was presumed where it was not answered, if anything was.
type asked struct {
	q section.Question
	p section.Presumed
}

// open lists what could change the section, the weightiest first: what was presumed,
// each once, before what was not given.
func (l *leaf) open() (out []asked) {
	var others []asked
	for _, q := range l.s.Questions {
		at := slices.IndexFunc(l.s.Confirm, func(p section.Presumed) bool { return slices.Contains(p.Keys, q.Key) })
		if at < 0 {
			others = append(others, asked{q: q})
		} else if p := l.s.Confirm[at]; !slices.ContainsFunc(out, func(a asked) bool { return a.p.Name == p.Name }) {
			out = append(out, asked{q, p})
		}
	}
	return append(out, others...)
}

// weightiest is the answer of a question that changes most: by which there would be no
// section, or else the first that changes anything.
func (l *leaf) weightiest(q section.Question) section.Otherwise {
	for _, changes := range []func(section.Otherwise) bool{
		func(c section.Otherwise) bool { return c.Status != l.s.Status },
		func(c section.Otherwise) bool { return len(c.Differs) > 0 },
	} {
		if at := slices.IndexFunc(q.Choices, changes); at >= 0 {
			return q.Choices[at]
		}
	}
	return section.Otherwise{Status: l.s.Status, Differs: []section.Sentence{{}}}
}

// usual tells in short what every job is to heed, first what this one makes real.
func (l *leaf) usual() *paper.Block {
	out := l.part("page_cautions")
	for _, real := range []bool{true, false} {
		for _, c := range l.s.Cautions {
			if c.Usual && c.Real == real {
				out.Add(paper.Item(l.short(c)))
			}
		}
	}
	return out
}

// checked says what people would want to see checked, and counts the other checks
// that pass.
func (l *leaf) checked() *paper.Block {
	out := l.part("page_checks")
	more := 0
	for _, c := range l.s.Checks {
		switch passes := l.quoted(c.Passes); {
		case !c.Holds:
		case passes == "":
			more++
		default:
			out.Add(paper.Item(l.line("page_yes", "says", fullStop(passes))))
		}
	}
	if more > 0 {
		out.Add(paper.Item(l.line("page_checks_more", "count", strconv.Itoa(more))))
	}
	return out
}
