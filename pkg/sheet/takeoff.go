package sheet

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// Takeoff writes what a job takes: its quantities by areas and courses, and the
// orders by their kinds.
//
// The only error is that of w.
func Takeoff(w io.Writer, t *takeoff.Takeoff, system quantity.System) error {
	p := &page{system: system}
	p.Put(0, "", strings.TrimSuffix("TAKE-OFF: "+t.Job, ": "))
	for at, area := range t.Areas {
		first := ""
		if len(t.Areas) > 1 {
			first = area + ", "
		}
		of := slices.DeleteFunc(slices.Clone(t.Quantities), func(q takeoff.Quantity) bool { return q.Section != at })
		grouped(of, func(q takeoff.Quantity) string { return first + cmp.Or(q.Course, "the dig and the whole job") }, p.Heading, func(q takeoff.Quantity) {
			p.Put(2, "- ", fmt.Sprintf("%s: %s (%s)", pages.Capital(p.quoted(q.About)), p.amount(q.Amount), q.ID))
		})
	}
	grouped(t.Orders, func(o takeoff.Order) string { return "in all: " + cmp.Or(o.KindLabel, o.Kind) }, p.Heading, func(o takeoff.Order) {
		p.Put(2, "- ", p.order(o))
	})
	return p.Write(w)
}

// grouped shows the items of one group after the other, in the order in which the
// groups are first met.
func grouped[T any](items []T, of func(T) string, heading func(string), show func(T)) {
	var groups []string
	for _, item := range items {
		if !slices.Contains(groups, of(item)) {
			groups = append(groups, of(item))
		}
	}
	for _, group := range groups {
		heading(strings.ToUpper(group))
		for _, item := range items {
			if of(item) == group {
				show(item)
			}
		}
	}
}

// longFrom is the length from which nobody measures parts of an inch to order it.
const longFrom = quantity.Length(3)

// amount tells how much to three figures, and a long run to the inch or the
// centimeter: nobody orders more exactly.
func (p *page) amount(v value.Value) string {
	if l, is := v.Length(); is && l >= longFrom {
		step := quantity.Inches(1)
		if p.system.Base() == quantity.SI {
			step = quantity.Meters(0.01)
		}
		if whole, err := l.Quantity().RoundUp(step.Quantity()); err == nil {
			return value.Measured(whole).Text(p.system)
		}
	}
	return p.value(v)
}

// order tells what to order, in whole units where there are any, with the amount.
func (p *page) order(o takeoff.Order) string {
	amount, ordered := p.amount(o.Amount), p.ordered(o, " of "+p.exact(o.Step))
	out := pages.Capital(p.exact(o.Item)) + ": " + ordered
	if one, counted := o.Step.Number(); ordered != amount && !(o.CountedIn != "" && counted && one == 1) {
		out += ", for " + amount
	}
	if o.Units > 0 && !o.Layout.IsZero() {
		out += ". " + pages.Capital(fullStop(p.exact(o.Layout)))
	}
	return out
}

// ordered tells in how many whole units something is ordered, behind them the size of each
// where it has one; of what has no units, the amount.
func (p *page) ordered(o takeoff.Order, size string) string {
	one, counted := o.Step.Number()
	step, measured := o.Step.Quantity()
	unit := o.CountedIn
	if several := min(o.Units-1, 1); several >= 0 && several < len(o.Counted) {
		unit = o.Counted[several]
	}
	units := strconv.Itoa(o.Units) + " " + unit
	switch {
	case o.Units == 0 || o.CountedIn == "" && !measured:
		return p.amount(o.Amount)
	case o.CountedIn == "":
		step.SI *= float64(o.Units)
		return value.Measured(step).Text(p.system)
	case o.Step.IsZero() || counted && one == 1:
		return units
	}
	return units + size
}
