package sheet

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/takeoff"
)

// crew is what a crew builds one area from: what to settle first, how deep to dig,
// the steps in their order, what to order and to keep to, and what to stop for. Of a
// job that is not to be built it is the page that says why.
func (l *leaf) crew() []*paper.Block {
	if l.s.Status != section.Designed {
		return append([]*paper.Block{paper.Warn(l.line("crew_none"))}, l.page()...)
	}
	return []*paper.Block{
		l.about(l.s.Job.Use), l.day(), l.face(), l.toConfirm(), l.toHeed(), l.toDig(), l.part("crew_steps", l.steps(l.s.Steps)...), l.besides(), l.toOrder(),
		l.part("crew_tolerances", l.works(l.s.Tolerances, "crew_course", "crew_within", "crew_measured")),
		l.part("crew_stops", l.works(l.s.Stops, "crew_finds", "crew_does", "crew_calls")),
		l.part("crew_found", paper.Write(l.line("crew_readings")), paper.Write(l.line("crew_depths")), paper.Write(l.line("crew_who"))),
	}
}

// toConfirm tells what is assumed.
func (l *leaf) toConfirm() *paper.Block {
	var out []string
	for _, p := range l.s.Confirm {
		out = append(out, p.Label+" ("+l.value(p.Value)+")")
	}
	return paper.Warn(pages.Capital(fullStop(strings.Join(out, "; ")))).Led(l.line("crew_confirm"))
}

// toHeed tells every caution in short, first what this dig makes real.
func (l *leaf) toHeed() *paper.Block {
	var out []string
	for _, c := range l.s.Failed() {
		out = append(out, l.say(c.Says))
	}
	for _, usual := range []bool{false, true} {
		for _, c := range l.s.Cautions {
			if (c.Usual && !c.Real) == usual {
				out = append(out, l.short(c))
			}
		}
	}
	return paper.Text(strings.Join(out, " ")).Led(l.line("crew_heed"))
}

// toDig says how deep to dig, and shows what is laid from the bottom up: how far the top
// of each course is from finish grade and from the bottom, and its sizes.
func (l *leaf) toDig() *paper.Block {
	var dig []string
	sizes := map[string]string{}
	for _, w := range l.s.Steps {
		if len(w.Courses) == 0 && w.Sizes.US != "" {
			dig = append(dig, l.say(w.Sizes))
		}
		for _, c := range w.Courses {
			sizes[c] = strings.TrimSpace(sizes[c] + " " + l.quoted(w.Sizes))
		}
	}
	var rows [][]string
	for _, c := range l.s.Courses {
		thick := c.Attribute(thickness).Value
		if sizes[c.Name] == "" && !thick.IsZero() {
			sizes[c.Name] = thick.Text(l.System)
		}
		if sizes[c.Name] != "" {
			rows = append(rows, []string{c.Label, c.Top.Text(l.System), l.s.Above(c).Text(l.System), sizes[c.Name]})
		}
	}
	return l.part("crew_dig", paper.Text(strings.Join(dig, " ")),
		paper.Rows([]string{l.line("crew_course"), l.line("crew_down"), l.line("crew_up"), l.line("crew_sizes")}, rows))
}

// steps are boxes to tick, with the places at which work holds.
func (l *leaf) steps(steps []section.Work) (out []*paper.Block) {
	for i, w := range steps {
		box := paper.Box(strconv.Itoa(i+1), l.say(w.Says))
		if hold := l.say(w.Hold); hold != "" {
			box.Add(paper.Text(l.line("crew_seen", "hold", hold)).Led(l.line("crew_hold")))
		}
		out = append(out, box)
	}
	return out
}

// besides tells how the area joins those beside it, and what else is laid that no
// step speaks of.
func (l *leaf) besides() *paper.Block {
	out := l.part("crew_joints")
	for _, j := range l.job.Joints {
		if j.Of == l.s.Job.Part || j.Beside == l.s.Job.Part {
			out.Add(paper.Text(l.line("crew_joint", "of", j.Of, "beside", j.Beside, "length", l.value(j.Length))))
			out.Add(l.steps(j.Steps)...)
		}
	}
	var rows [][]string
	for _, c := range l.s.Courses {
		if slices.ContainsFunc(l.s.Steps, func(w section.Work) bool { return slices.Contains(w.Courses, c.Name) }) {
			continue
		}
		for _, a := range c.Attributes { // but for what measures nothing
			if m, measured := a.Value.Measure(); !measured || m.SI != 0 {
				rows = append(rows, []string{pages.Capital(a.Label), l.assumed(a.Value, a.Presumed)})
			}
		}
	}
	return out.Add(paper.Rows(nil, rows))
}

// toOrder lists what is bought for this area alone, what is cut from which roll, and
// what comes, goes or is rented.
func (l *leaf) toOrder() *paper.Block {
	all, err := takeoff.Of(l.s)
	if err != nil {
		return nil
	}
	out, rest := l.part("crew_order"), map[string][]string{}
	p := &page{system: l.System}
	var kinds []string
	for _, o := range all.Orders {
		switch item := l.value(o.Item); {
		case o.Kind == material:
			said := fullStop(item)
			if layout, laid := o.Layout.Data().(plan.Layout); laid {
				said += " " + pages.Capital(fullStop(strings.Join(layout.Cuts(l.System, l.line), "; ")))
			}
			out.Add(paper.Item(pages.Capital(said)).Led(p.ordered(o, " ("+l.value(o.Step)+")")))
		case o.Units > 0:
			kind := cmp.Or(o.KindLabel, o.Kind)
			if rest[kind] == nil {
				kinds = append(kinds, kind)
			}
			rest[kind] = append(rest[kind], item+", "+p.ordered(o, " ("+l.value(o.Step)+")"))
		}
	}
	for _, kind := range kinds {
		out.Add(paper.Item(pages.Capital(fullStop(strings.Join(rest[kind], "; ")))).Led(pages.Capital(kind)))
	}
	return out
}

// works are tolerances or stops in a table.
func (l *leaf) works(works []section.Work, head ...string) *paper.Block {
	for i, name := range head {
		head[i] = l.line(name)
	}
	var rows [][]string
	for _, w := range works {
		row := []string{l.say(w.Finds), l.say(w.Does), l.say(w.Calls)}
		if w.Finds.US == "" {
			row = []string{"", l.say(w.Says), l.say(w.Measure)}
			if len(w.Courses) > 0 {
				row[0] = l.s.Course(w.Courses[0]).Label
			}
		}
		rows = append(rows, row)
	}
	return paper.Rows(head, rows)
}
