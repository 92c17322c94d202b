package sheet

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// audit is everything, in an order in which one can check it: what was known, presumed
// and decided, what was crossed, permitted and changed, what was checked, and what all
// of that rests on.
func (l *leaf) audit() []*paper.Block {
	return []*paper.Block{
		l.about(), l.outcome(), l.drawing(), l.known(), l.presumed(), l.notGiven(), l.choices(), l.absent(), l.limits(), l.amendments(), l.checks(), l.cautions(),
		l.refusals(), l.rests(l.s.Accounts), l.sources(l.s.Sources, paper.Text(l.counts())), l.absorbed(), l.files(),
	}
}

// known is the job as it was given.
func (l *leaf) known() *paper.Block {
	return l.part("audit_known", paper.Rows([]string{l.line("audit_key"), l.line("audit_given")}, flatten("", l.s.Job.Input)), l.day())
}

// flatten lists the values of a JSON document, each with its path, in their order.
func flatten(path string, data json.RawMessage) (rows [][]string) {
	d := json.NewDecoder(bytes.NewReader(data))
	first, err := d.Token()
	if err != nil {
		return nil
	}
	switch first {
	case json.Delim('{'), json.Delim('['):
		for i := 0; d.More(); i++ {
			under := path + "[" + strconv.Itoa(i) + "]"
			if first == json.Delim('{') {
				key, _ := d.Token()
				under = strings.TrimPrefix(path+"."+key.(string), ".")
			}
			var value json.RawMessage
			if d.Decode(&value) != nil {
				return rows
			}
			rows = append(rows, flatten(under, value)...)
		}
		return rows
	}
	if text, is := first.(string); is {
		return [][]string{{path, text}}
	}
	return [][]string{{path, string(data)}}
}

// choices tell every decision that was asked, in the order of use.
func (l *leaf) choices() *paper.Block {
	out := l.part("audit_choices")
	for _, r := range l.s.Reasons {
		out.Add(l.choice(r))
	}
	return out
}

// limits tell what was crossed, and what is permitted.
func (l *leaf) limits() *paper.Block {
	out := l.part("audit_limits")
	for _, c := range l.s.Crossed {
		crossed := l.crossedWarning(c)
		if len(c.By) > 0 {
			crossed.Add(paper.Text(l.line("audit_done_by", "by", strings.Join(c.By, "; "))))
		}
		out.Add(crossed.Add(l.named(c.Limit, c.Place.String(), c.Source)))
	}
	return out.Add(l.variances()...)
}

// amendments tell what was laid over the rules, what people decided in their place, and
// what came of that.
func (l *leaf) amendments() *paper.Block {
	out := l.inForce()
	for i, told := range l.overrides() {
		for _, e := range l.s.Overrides[i].Effects {
			told.Add(paper.Item(l.effect(e)))
		}
		out.Add(told)
	}
	for _, each := range l.s.Lifted {
		out.Add(l.liftedBy(each))
	}
	return out
}

// inForce tells what was laid over the rules, and what is not in force.
func (l *leaf) inForce() *paper.Block {
	out := l.part("audit_amendments")
	for _, a := range l.s.Amendments {
		out.Add(paper.Item(l.line("audit_amendment", "by", l.by(a), "why", fullStop(a.Why))))
	}
	for _, i := range l.s.Idle {
		name := "audit_idle"
		switch {
		case i.Until.IsZero():
			name = "audit_idle_from"
		case i.From.IsZero():
			name = "audit_idle_until"
		}
		out.Add(paper.Item(l.line(name, "what", i.What, "from", i.From.String(), "until", i.Until.String())))
	}
	return out
}

// liftedBy tells what an amendment took away, with its entry and by whom.
func (l *leaf) liftedBy(each section.Lifted) *paper.Block {
	return l.liftedItem(each).Add(paper.Note(l.line("audit_lifted", "sort", l.called("sort_", each.Sort), "id", each.ID, "place", each.Place.String(), "by", l.by(each.Amended.By))))
}

// effect tells one difference that a person's decision makes.
func (l *leaf) effect(e section.Effect) string {
	or := func(v value.Value) string {
		if v.IsZero() {
			return l.line("sheet_none")
		}
		return l.value(v)
	}
	what := e.What
	if e.Quantity == "" && (what == "laid" || what == "dig") {
		what = l.line("sheet_" + what)
	}
	if e.Course != "" {
		what = e.Course + ", " + what
	}
	return fullStop(l.line("sheet_effect", "what", what, "with", or(e.With), "without", or(e.Without)))
}

// refusals tell the limits of the rulebook that the job crossed, and how many it did not.
func (l *leaf) refusals() *paper.Block {
	out := l.part("audit_refusals")
	for _, r := range l.s.Refusals {
		out.Add(l.refusal(r))
	}
	if l.s.NotCrossed > 0 {
		out.Add(paper.Text(l.line("audit_not_crossed", "count", strconv.Itoa(l.s.NotCrossed))))
	}
	return out
}

// refusal tells a limit that the job crossed, and what made it so.
func (l *leaf) refusal(r section.Refusal) *paper.Block {
	told := paper.Warn(l.say(r.Says))
	if who := l.say(r.Who); who != "" {
		told.Add(paper.Text(l.line("sheet_who", "who", who)))
	}
	return told.Add(l.seen(r.Clauses), l.named(r.ID, r.Place.String(), r.Source)).Add(l.changed(r.Amended)...)
}

// rests tells what the values rest on that the choices read.
func (l *leaf) rests(accounts []section.Account) *paper.Block {
	out := l.part("audit_rests")
	out.Folds = true
	for _, a := range accounts {
		name := "audit_account"
		if !a.Value.IsZero() {
			name = "audit_account_value"
		}
		out.Add(paper.Item(l.line(name, "name", a.Name, "sort", l.called("sort_", strings.ReplaceAll(a.Sort, " ", "_")), "value", l.exact(a.Value), "place", a.Place.String(), "because", l.say(a.Because))).
			Add(l.source(a.Source)).Add(l.changed(a.Amended)...))
	}
	return out
}

// sources lists what all rests on, with how each is known.
func (l *leaf) sources(sources []section.Source, first *paper.Block) *paper.Block {
	out := l.part("audit_sources", first)
	for _, s := range sources {
		told := paper.Item(l.line("audit_known_as", "text", l.document(s), "known", l.called("known_", string(s.Known))))
		if s.Note != "" {
			told.Add(paper.Note(l.line("sheet_note", "note", fullStop(s.Note))))
		}
		out.Add(told)
	}
	return out
}

// counts says how many of the values of the section rest on no document that was read,
// and how many on none at all.
func (l *leaf) counts() string {
	var all, memory, unpublished int
	for _, c := range l.s.Courses {
		for _, a := range c.Attributes {
			if a.Source == "" {
				continue // a person's
			}
			on := a.RestsOn
			if len(on) == 0 {
				on = []string{a.Source}
			}
			all++
			recalled, none := false, false
			for _, name := range on {
				s := l.s.Source(name)
				none = none || !s.Published()
				recalled = recalled || s.Known == value.Memory
			}
			switch {
			case none:
				unpublished++
			case recalled:
				memory++
			}
		}
	}
	if all == 0 {
		return ""
	}
	return l.line("audit_counts", "all", strconv.Itoa(all), "none", strconv.Itoa(unpublished), "memory", strconv.Itoa(memory))
}

// absorbed lists errors in rules that changed nothing.
func (l *leaf) absorbed() *paper.Block {
	out := l.part("audit_absorbed")
	for _, each := range l.s.Absorbed {
		out.Add(paper.Item(fullStop(each)))
	}
	return out
}

// files are the rule files with their hashes, and the library.
func (l *leaf) files() *paper.Block {
	out := l.part("audit_files")
	for _, f := range l.s.Files {
		out.Add(paper.Item(l.line("audit_file", "name", f.Name)).Add(paper.Note(f.SHA256)))
	}
	if l.s.Library != "" {
		out.Add(paper.Text(l.line("audit_library", "version", l.s.Library)))
	}
	return out
}
