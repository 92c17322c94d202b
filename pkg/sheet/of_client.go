package sheet

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// client is what the client reads of one area first: what is built, how deep and why;
// or, of a job without a section, why there is none.
func (l *leaf) client() []*paper.Block {
	if l.s.Status != section.Designed {
		return []*paper.Block{l.about(), paper.Warn(l.line("client_" + string(l.s.Status))), paper.Text(strings.Join(l.whyNot(l.s), " ")), l.refusedAssuming()}
	}
	says := append(l.told("client_what"), l.line("client_dig", "depth", l.value(l.s.Depth)))
	if why := l.told("client_why"); len(why) > 0 {
		says = append(says, why[0]) // of two that call for as much, the first
	}
	return []*paper.Block{l.about(), paper.Text(strings.Join(says, " ")), l.drawing()}
}

// clientEnds is what the client reads of the whole job. What is the same of several areas
// is told once, and what is of some with their names.
func (l *leaf) clientEnds() []*paper.Block {
	lists, areas, of := map[string][]string{}, map[string][]string{}, 0
	places := map[string]diagnostic.Place{}
	notes, documents := map[string][]string{}, []string{}
	for _, l.s = range l.job.Sections {
		if l.s.Status != section.Designed {
			continue
		}
		of++
		for _, w := range l.s.Client {
			says := l.saying(w)
			if areas[says] == nil {
				lists[w.Part], places[says] = append(lists[w.Part], says), w.Place
			}
			if !slices.Contains(areas[says], l.s.Job.Part) {
				areas[says] = append(areas[says], l.s.Job.Part)
			}
			if source := l.s.Source(w.Source); source.Known == value.Seen {
				documents = append(documents, source.Document)
				notes[source.Document] = append(notes[source.Document], l.say(w.Because))
			}
		}
	}
	var out []*paper.Block
	for _, part := range clientParts {
		list := l.part(part)
		if of > 1 { // what some areas alone have goes to its place among the rest
			slices.SortStableFunc(lists[part], func(a, b string) int { return cmp.Compare(places[a].Line, places[b].Line) })
		}
		for _, each := range lists[part] {
			item := paper.Item(each)
			if len(areas[each]) < of {
				item.Led(pages.Capital(strings.Join(areas[each], ", ")))
			}
			list.Add(item)
		}
		if out = append(out, list); part == "client_expect" {
			out = append(out, l.comparedAreas()...)
		}
	}
	why := l.part("client_notes")
	for _, each := range unique(documents) {
		why.Add(paper.Note(l.line("client_note", "document", each, "because", strings.Join(unique(notes[each]), " "))))
	}
	return append(out, why)
}

// clientParts are those of the whole job.
var clientParts = []string{"client_course", "client_expect", "client_presumed", "client_excluded", "client_care", "client_sample"}

// unique keeps the first of each text.
func unique(texts []string) (out []string) {
	for _, each := range texts {
		if !slices.Contains(out, each) {
			out = append(out, each)
		}
	}
	return out
}

// saying is what the client is told: of what was assumed with what comes of it.
func (l *leaf) saying(w section.Work) string {
	if w.Part == "client_presumed" {
		return strings.TrimSpace(l.say(w.Says) + " " + l.depths(w))
	}
	return l.say(w.Says)
}

// told lists the sentences of one part of what the client is told.
func (l *leaf) told(part string) (out []string) {
	for _, w := range l.s.Client {
		if w.Part == part {
			out = append(out, l.saying(w))
		}
	}
	return out
}

// whyNot lists in the client's words why a section is refused or stopped.
func (l *leaf) whyNot(s *section.Section) []string {
	at := *l
	at.s = s
	if says := unique(at.told("client_refused")); len(says) > 0 {
		return says
	}
	return []string{l.line("client_" + string(s.Status) + "_other")}
}

// refusedAssuming tells what was assumed of what refuses the job.
func (l *leaf) refusedAssuming() *paper.Block {
	out := l.part("client_presumed")
	for _, w := range l.s.Client {
		assumed := func(p section.Presumed) bool { return slices.Contains(w.Tells, p.Rule) }
		if l.s.Status == section.Refused && w.Part == "client_presumed" && slices.ContainsFunc(l.s.Confirm, assumed) {
			out.Add(paper.Item(l.say(w.Says)))
		}
	}
	return out
}

// depths says how deep the dig may come out with the answers to what was assumed, where
// that changes it.
func (l *leaf) depths(w section.Work) string {
	var keys []string
	for _, p := range l.s.Confirm {
		if slices.Contains(w.Tells, p.Rule) {
			keys = append(keys, p.Keys...)
		}
	}
	least, most := l.s.Depth, l.s.Depth
	for _, q := range l.s.Questions {
		for _, c := range q.Choices {
			if !slices.Contains(keys, q.Key) || c.Depth.IsZero() {
				continue
			}
			if by, _ := c.Depth.Compare(least); by < 0 {
				least = c.Depth
			}
			if by, _ := c.Depth.Compare(most); by > 0 {
				most = c.Depth
			}
		}
	}
	if least.Equal(most) {
		return ""
	}
	return l.line("client_comes", "least", l.value(least), "most", l.value(most))
}

// comparedAreas shows the ways to build each area, of which each begins with that as it is.
func (l *leaf) comparedAreas() (out []*paper.Block) {
	options, costs := l.Options, l.Costs
	for at := 0; len(options) > 0 && at < len(l.job.Sections); at++ {
		n := 1
		for n < len(options) && options[n].Option != "" {
			n++
		}
		var own []*takeoff.Cost
		if len(costs) > 0 {
			own, costs = costs[:n], costs[n:]
		}
		block := l.compared(options[:n], own)
		if part := l.job.Sections[at].Job.Part; block != nil && part != "" {
			block.Text = pages.Capital(part) + ": " + block.Text
		}
		out, options = append(out, block), options[n:]
	}
	return out
}

// compared shows the ways to build it beside each other, the first as it is.
func (l *leaf) compared(options []section.Otherwise, costs []*takeoff.Cost) *paper.Block {
	built := func(o section.Otherwise) bool { return o.Status == section.Designed }
	if len(options) < 2 || !slices.ContainsFunc(options, built) {
		return nil
	}
	head, priced := []string{"", l.line("client_dig_head")}, len(costs) > 0
	if priced {
		head = append(head, l.line("client_price_head"))
	}
	var rows [][]string
	var about []*paper.Block
	for i, o := range options {
		cost := costOf(costs, i)
		name := pages.Capital(cmp.Or(o.Label, o.Option, l.line("client_as_is")))
		row := []string{name, l.line("client_not_here")}
		if built(o) {
			row[1] = l.value(o.Depth)
		}
		if priced {
			row = append(row, priceOf(cost))
		}
		rows = append(rows, row)
		if i == 0 {
			continue
		}
		says := strings.TrimSpace(l.say(o.Gives) + " " + l.say(o.Lacks))
		if !built(o) {
			says = l.line("client_not_because", "because", l.whyNot(o.Section)[0])
		} else if priced {
			says = strings.TrimSpace(says + " " + l.costs(costOf(costs, 0), cost))
		}
		about = append(about, paper.Item(says).Led(name))
	}
	out := l.part("client_options", paper.Rows(head, rows)).Add(about...)
	if slices.ContainsFunc(costs, incomplete) {
		out.Add(paper.Note(l.line("client_incomplete")))
	}
	return out
}

// costs says what an option costs beside the job as it is.
func (l *leaf) costs(now, then *takeoff.Cost) string {
	switch {
	case now == nil || then == nil || !now.Complete || !then.Complete || now.Price <= 0:
		return ""
	case then.Price > now.Price:
		return l.line("client_costs_more", "share", share(then.Price-now.Price, now.Price))
	case then.Price < now.Price:
		return l.line("client_costs_less", "share", share(now.Price-then.Price, now.Price))
	}
	return l.line("client_costs_same")
}
