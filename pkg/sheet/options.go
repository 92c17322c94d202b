package sheet

import (
	"fmt"
	"io"
	"math/big"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// The columns in which options stand beside each other.
const (
	nameWidth  = 28
	cellFormat = "%10s %12s %5s %5s %14s"
)

// Options writes the options of a job side by side, the job as it is first, then what
// each gives and lacks, and what it adds to the price. Costs are those of the options
// by a price list, nil for one that has none; without a price list there are none at
// all. The only error is that of w.
func Options(w io.Writer, options []section.Otherwise, costs []*takeoff.Cost, system quantity.System) error {
	t := &text{page: page{system: system}}
	name := ""
	if s := options[0].Section; s != nil {
		name = s.Job.Name
	}
	t.put(0, "", strings.TrimSuffix("OPTIONS: "+name, ": "))
	t.blank()
	money := ""
	if len(costs) > 0 {
		money = "price"
	}
	days := money
	if days != "" {
		days = "days"
	}
	t.columns("", fmt.Sprintf(cellFormat, "dig", "weight", "loads", days, money))
	for i, o := range options {
		t.columns(t.named(o), t.cells(o, costOf(costs, i)))
	}
	incomplete := false
	for i, o := range options {
		cost := costOf(costs, i)
		incomplete = incomplete || cost != nil && !cost.Complete
		if i == 0 {
			continue
		}
		t.heading(strings.ToUpper(t.named(o)))
		t.about(o, costOf(costs, 0), cost)
	}
	if incomplete {
		t.heading("NOT COMPLETE")
		t.put(0, "", "A price with * is not whole: the price list lacks prices. groundrule price JOB says which.")
	}
	return t.writeTo(w)
}

func costOf(costs []*takeoff.Cost, i int) *takeoff.Cost {
	if i < len(costs) {
		return costs[i]
	}
	return nil
}

// named is how an option is headed.
func (t *text) named(o section.Otherwise) string {
	switch {
	case o.Label != "":
		return capital(o.Label)
	case o.Option != "":
		return capital(o.Option)
	}
	return "The job as it is"
}

// columns writes a name and what stands in the columns; a long name goes above it.
func (t *text) columns(name, cells string) {
	if utf8.RuneCountInString(name) > nameWidth {
		t.lines.Verbatim(2, name)
		name = ""
	}
	t.lines.Verbatim(2, name+strings.Repeat(" ", nameWidth-utf8.RuneCountInString(name))+cells)
}

// cells says how deep, how heavy, how many loads and how dear an option is, or what
// refuses or stops it.
func (t *text) cells(o section.Otherwise, cost *takeoff.Cost) string {
	if o.Status != section.Designed {
		by := ""
		if len(o.Why) > 0 {
			by = " by " + o.Why[0]
		}
		if more := len(o.Why) - 1; more > 0 {
			by += fmt.Sprintf(" and %d more", more)
		}
		return "  " + string(o.Status) + by
	}
	weight, loads, days, price := "", "", "", ""
	if off, err := takeoff.Of(o.Section); err == nil {
		if mass := off.Mass(); mass > 0 {
			weight = t.amountOf(mass)
		}
		if n := off.Loads(); n > 0 {
			loads = fmt.Sprint(n)
		}
	}
	if cost != nil {
		days, price = cost.Days, cost.Price.String()
		if !cost.Complete {
			price += "*"
		}
	}
	return fmt.Sprintf(cellFormat, t.value(o.Depth), weight, loads, days, price)
}

// amountOf writes a mass to three figures.
func (t *text) amountOf(m quantity.Mass) string { return t.amount(value.Measured(m)) }

// about tells what an option gives and lacks, what differs, and what it costs.
func (t *text) about(o section.Otherwise, now, then *takeoff.Cost) {
	for _, s := range []struct {
		mark string
		says section.Sentence
	}{{"Gives: ", o.Gives}, {"Lacks: ", o.Lacks}} {
		if said := t.sentence(s.says); said != "" {
			t.put(2, s.mark, said)
		}
	}
	if differs := t.comes(o); differs != "" {
		t.put(2, "Differs: ", fullStop(differs))
	} else {
		t.put(2, "Differs: ", "Nothing.")
	}
	switch {
	case now == nil || then == nil:
	case now.Complete && then.Complete:
		t.put(2, "", t.adds(o, now.Price, then.Price))
	default:
		t.put(2, "", "The price list lacks prices, so that what it adds to the price is not known.")
	}
	if o.Option != "" {
		because := t.sentence(o.Because)
		if o.Source != "" {
			because += " Source: " + fullStop(o.Source)
		}
		t.put(2, "", strings.TrimSpace(because+" ("+o.Option+")"))
	}
}

// adds says in a sentence what an option adds to the price, or for one that leaves
// something out what that adds.
func (t *text) adds(o section.Otherwise, now, then takeoff.Money) string {
	what, from, to := t.named(o), now, then
	if left := t.quoted(o.LeavesOut); left != "" {
		what, from, to = capital(left), then, now
	}
	const of = " the price of this job"
	switch {
	case from == to:
		return what + " adds nothing to" + of + "."
	case from <= 0:
		return what + " costs " + (to - from).String() + "."
	case to > from:
		return what + " adds " + share(to-from, from) + " to" + of + "."
	}
	return what + " takes " + share(from-to, from) + " off" + of + "."
}

// share writes a part of a hundred in whole parts, halves up.
func share(part, of takeoff.Money) string {
	percent := new(big.Rat).SetFrac64(int64(part)*100, int64(of))
	if text := percent.FloatString(0); text != "0" {
		return text + " %"
	}
	return "less than 1 %"
}

// Changes writes what differs between two sections, and by which rules; where the
// second is what comes of something that was found, also what to do with what is in
// the ground already. The only error is that of w.
func Changes(w io.Writer, was, is *section.Section, found *section.Otherwise, system quantity.System) error {
	t := &text{page: page{system: system}}
	titles := [2]string{"First", "Second"}
	if found != nil {
		titles = [2]string{"Before", "Now"}
	}
	t.put(0, "", "WHAT DIFFERS")
	for i, s := range []*section.Section{was, is} {
		t.put(2, titles[i]+": ", strings.TrimPrefix(s.Job.Name+": ", ": ")+t.came(s))
	}
	effects := was.Effects(is)
	if was.Status == section.Refused || is.Status == section.Refused {
		effects = nil
	} else if len(effects) == 0 {
		t.put(2, "", "Nothing differs.")
	}
	course := "-"
	for _, e := range effects {
		heading := e.Course
		if e.Quantity != "" {
			heading = "Quantities"
		} else if heading == "" {
			heading = "The dig"
		}
		if heading != course {
			t.heading(strings.ToUpper(heading))
			course = heading
		}
		t.put(2, "- ", t.change(e))
		for _, m := range e.Makes {
			now, before := m.RuleWith, m.RuleWithout
			if now == "" {
				now, before = m.With.Text(t.system), m.Without.Text(t.system)
			} else {
				now = "by " + now
			}
			t.put(4, "By: ", m.What+" "+now+" in place of "+before)
		}
	}
	if found != nil && len(found.Remedies) > 0 {
		t.heading("WHAT IS IN THE GROUND ALREADY")
		for _, r := range found.Remedies {
			t.put(2, "- ", t.sentence(r.Says))
			t.put(4, "", t.sentence(r.Because)+" Source: "+fullStop(r.Source)+" ("+r.ID+")")
		}
	}
	return t.writeTo(w)
}

// came says what a section came to.
func (t *text) came(s *section.Section) string {
	switch s.Status {
	case section.Designed:
		return "a dig " + t.value(s.Depth) + " deep."
	case section.Stopped:
		return "stopped; what was tried is " + t.value(s.Depth) + " deep."
	}
	var says []string
	for _, r := range s.Refusals {
		says = append(says, t.sentence(r.Says)+" ("+r.ID+") Take it to: "+t.sentence(r.Who))
	}
	return "refused. " + strings.Join(says, " ")
}

// change tells one difference, with the rules where these are others.
func (t *text) change(e section.Effect) string {
	laid, yes := e.With.Bool()
	switch {
	case e.What == "laid" && yes && laid:
		return "Laid now (" + e.RuleWith + ")"
	case e.What == "laid" && yes:
		return "Not laid any more (" + e.RuleWithout + ")"
	case e.Without.Equal(e.With):
		return fmt.Sprintf("%s: %s in both, by %s in place of %s", capital(e.What), t.value(e.With), e.RuleWith, e.RuleWithout)
	}
	out := capital(e.What) + ": " + t.orNone(section.Effect{With: e.Without}) + " -> " + t.orNone(e)
	if e.Quantity != "" {
		out += " (" + e.Quantity + ")"
	} else if e.RuleWith != e.RuleWithout && len(e.Makes) == 0 {
		out += " (" + strings.Trim(e.RuleWithout+" -> "+e.RuleWith, "-> ") + ")"
	}
	return out
}
