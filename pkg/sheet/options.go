package sheet

import (
	"cmp"
	"fmt"
	"io"
	"math/big"
	"slices"
	"strings"
	"unicode/utf8"

	pages "example.com/groundrule/pkg/internal/page"
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
// all. Of no options it writes nothing. The only error is that of w.
func Options(w io.Writer, options []section.Otherwise, costs []*takeoff.Cost, system quantity.System) error {
	if len(options) == 0 {
		return nil
	}
	p := &page{system: system}
	name := ""
	if s := options[0].Section; s != nil {
		name = s.Job.Name
	}
	p.Put(0, "", strings.TrimSuffix("OPTIONS: "+name, ": "))
	p.Blank()
	days, money := "", ""
	if len(costs) > 0 {
		days, money = "days", "price"
	}
	p.columns("", fmt.Sprintf(cellFormat, "dig", "weight", "loads", days, money))
	for i, o := range options {
		p.columns(p.named(o), p.cells(o, costOf(costs, i)))
	}
	for i, o := range options[1:] {
		p.Heading(strings.ToUpper(p.named(o)))
		p.about(o, costOf(costs, 0), costOf(costs, i+1))
	}
	if slices.ContainsFunc(costs, incomplete) {
		p.Heading("NOT COMPLETE")
		p.Put(0, "", "A price with * is not whole: the price list lacks prices. groundrule price JOB says which.")
	}
	return p.Write(w)
}

func costOf(costs []*takeoff.Cost, i int) *takeoff.Cost {
	if i < len(costs) {
		return costs[i]
	}
	return nil
}

// incomplete reports whether the list lacks prices for part of an option.
func incomplete(cost *takeoff.Cost) bool { return cost != nil && !cost.Complete }

// priceOf is the price of an option, marked where it is incomplete.
func priceOf(cost *takeoff.Cost) string {
	switch {
	case cost == nil:
		return ""
	case incomplete(cost):
		return cost.Price.String() + "*"
	}
	return cost.Price.String()
}

// named is how an option is headed.
func (p *page) named(o section.Otherwise) string {
	return pages.Capital(cmp.Or(o.Label, o.Option, "the job as it is"))
}

// columns writes a name and what stands in the columns; a long name goes above it.
func (p *page) columns(name, cells string) {
	if utf8.RuneCountInString(name) > nameWidth {
		p.Verbatim(2, name)
		name = ""
	}
	p.Verbatim(2, name+strings.Repeat(" ", nameWidth-utf8.RuneCountInString(name))+cells)
}

// cells says how deep, how heavy, how many loads and how dear an option is, or what
// refuses or stops it.
func (p *page) cells(o section.Otherwise, cost *takeoff.Cost) string {
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
	weight, loads, days := "", "", ""
	if off, err := takeoff.Of(o.Section); err == nil {
		if mass := off.Mass(); mass > 0 {
			weight = p.amount(value.Measured(mass))
		}
		if n := off.Loads(); n > 0 {
			loads = fmt.Sprint(n)
		}
	}
	if cost != nil {
		days = cost.Days
	}
	return fmt.Sprintf(cellFormat, p.value(o.Depth), weight, loads, days, priceOf(cost))
}

// about tells what an option gives and lacks, what differs, and what it costs.
func (p *page) about(o section.Otherwise, now, then *takeoff.Cost) {
	if gives := p.sentence(o.Gives); gives != "" {
		p.Put(2, "Gives: ", gives)
	}
	if lacks := p.sentence(o.Lacks); lacks != "" {
		p.Put(2, "Lacks: ", lacks)
	}
	p.Put(2, "Differs: ", fullStop(cmp.Or(p.comes(o), "Nothing")))
	switch {
	case now == nil || then == nil:
	case now.Complete && then.Complete:
		p.Put(2, "", p.adds(o, now.Price, then.Price))
	default:
		p.Put(2, "", "The price list lacks prices, so that what it adds to the price is not known.")
	}
	if o.Option != "" {
		because := p.sentence(o.Because)
		if o.Source != "" {
			because += " Source: " + fullStop(o.Source)
		}
		p.Put(2, "", strings.TrimSpace(because+" ("+o.Option+")"))
	}
}

// adds says in a sentence what an option adds to the price, or for one that leaves
// something out what that adds.
func (p *page) adds(o section.Otherwise, now, then takeoff.Money) string {
	what, from, to := p.named(o), now, then
	if left := p.quoted(o.LeavesOut); left != "" {
		what, from, to = pages.Capital(left), then, now
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
	p := &page{system: system}
	titles := [2]string{"First", "Second"}
	if found != nil {
		titles = [2]string{"Before", "Now"}
	}
	p.Put(0, "", "WHAT DIFFERS")
	for i, s := range []*section.Section{was, is} {
		p.Put(2, titles[i]+": ", strings.TrimPrefix(s.Job.Name+": ", ": ")+p.came(s))
	}
	effects := was.Effects(is)
	if was.Status == section.Refused || is.Status == section.Refused {
		effects = nil
	} else if len(effects) == 0 {
		p.Put(2, "", "Nothing differs.")
	}
	course := "-"
	for _, e := range effects {
		heading := cmp.Or(e.Course, "The dig")
		if e.Quantity != "" {
			heading = "Quantities"
		}
		if heading != course {
			p.Heading(strings.ToUpper(heading))
			course = heading
		}
		p.Put(2, "- ", p.change(e))
		for _, m := range e.Makes {
			now, before := "by "+m.RuleWith, m.RuleWithout
			if m.RuleWith == "" {
				now, before = p.exact(m.With), p.exact(m.Without)
			}
			p.Put(4, "By: ", m.What+" "+now+" in place of "+before)
		}
	}
	if found != nil && len(found.Remedies) > 0 {
		p.Heading("WHAT IS IN THE GROUND ALREADY")
		for _, r := range found.Remedies {
			p.Put(2, "- ", p.sentence(r.Says))
			p.Put(4, "", p.sentence(r.Because)+" Source: "+fullStop(r.Source)+" ("+r.ID+")")
		}
	}
	return p.Write(w)
}

// came says what a section came to.
func (p *page) came(s *section.Section) string {
	switch s.Status {
	case section.Designed:
		return "a dig " + p.value(s.Depth) + " deep."
	case section.Stopped:
		return "stopped; what was tried is " + p.value(s.Depth) + " deep."
	}
	var says []string
	for _, r := range s.Refusals {
		says = append(says, p.sentence(r.Says)+" ("+r.ID+") Take it to: "+p.sentence(r.Who))
	}
	return "refused. " + strings.Join(says, " ")
}

// change tells one difference, with the rules where these are others.
func (p *page) change(e section.Effect) string {
	laid, yes := e.With.Bool()
	switch {
	case e.What == "laid" && yes && laid:
		return "Laid now (" + e.RuleWith + ")"
	case e.What == "laid" && yes:
		return "Not laid any more (" + e.RuleWithout + ")"
	case e.Without.Equal(e.With):
		return fmt.Sprintf("%s: %s in both, by %s in place of %s", pages.Capital(e.What), p.value(e.With), e.RuleWith, e.RuleWithout)
	}
	orNone := func(v value.Value) string {
		if v.IsZero() {
			return "none"
		}
		return p.value(v)
	}
	out := pages.Capital(e.What) + ": " + orNone(e.Without) + " -> " + orNone(e.With)
	if e.Quantity != "" {
		out += " (" + e.Quantity + ")"
	} else if e.RuleWith != e.RuleWithout && len(e.Makes) == 0 {
		out += " (" + strings.Trim(e.RuleWithout+" -> "+e.RuleWith, "-> ") + ")"
	}
	return out
}
