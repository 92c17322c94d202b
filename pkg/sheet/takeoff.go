package sheet

import (
	"fmt"
	"io"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// Takeoff writes what a job takes: its quantities by courses, and the orders.
//
// The only error is that of w.
func Takeoff(w io.Writer, t *takeoff.Takeoff, system quantity.System) error {
	p := &page{system: system}
	p.put(0, "", strings.TrimSuffix("TAKE-OFF: "+t.Job, ": "))
	course := "-"
	for i := range t.Quantities {
		q := &t.Quantities[i]
		if q.Course != course {
			course = q.Course
			heading := course
			if heading == "" {
				heading = "The whole job"
			}
			p.heading(strings.ToUpper(heading))
		}
		p.put(2, "- ", fmt.Sprintf("%s: %s (%s)", capital(p.quoted(q.About)), p.amount(q.Amount), q.ID))
	}
	p.heading("ORDERS")
	for i := range t.Orders {
		p.put(2, "- ", p.order(&t.Orders[i]))
	}
	return p.writeTo(w)
}

// amount tells how much to three figures: nobody orders the fourth.
func (p *page) amount(v value.Value) string { return v.Brief(p.system) }

// order tells what to order, in whole units where there are any, with the amount.
func (p *page) order(o *takeoff.Order) string {
	item := capital(p.value(o.Item)) + ": "
	if o.CountedIn == "" {
		return item + p.amount(o.Amount)
	}
	units := fmt.Sprintf("%d %s", o.Units, plural(o.CountedIn, o.Units))
	if one, is := o.Step.Number(); !o.Step.IsZero() && !(is && one == 1) && p.value(o.Step) != "1 "+o.CountedIn {
		units += " of " + p.value(o.Step)
	}
	return item + units + ", for " + p.amount(o.Amount)
}

// plural returns the name of so many units.
func plural(unit string, n int) string {
	switch {
	case n == 1:
		return unit
	case strings.HasSuffix(unit, "x"), strings.HasSuffix(unit, "s"), strings.HasSuffix(unit, "ch"):
		return unit + "es"
	}
	return unit + "s"
}
