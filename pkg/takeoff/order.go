package takeoff

import (
	"math/big"
	"slices"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// order is what is bought of one item, or the labor that a quantity takes, as a
// price list meets it.
type order struct {
	// item is its name in the list. What is found by its id and is bought as another
	// item has that one under as, and only hours in the list.
	item, label, kind, as string
	amount                value.Value
	// units are how many whole units are bought, called countedIn, and bought how much
	// that is for each of what is needed.
	units     int
	countedIn string
	bought    float64
	parts     []part
}

// part is what an area and a course have in an order.
type part struct {
	area, course string
	amount       quantity.Quantity
	// weighs is its density or areal mass; no quantity if nothing says so.
	weighs quantity.Quantity
}

// priced are the orders of a take-off as the list meets them, and behind them the
// quantities that it meets by their ids: labor, and what else it names.
func (p *Prices) priced(t *Takeoff) []*order {
	var out []*order
	for i := range t.Orders {
		o := &t.Orders[i]
		of := &order{item: nameOf(o.Item), label: o.Item.Text(quantity.US), kind: o.Kind, amount: o.Amount, units: o.Units, countedIn: o.CountedIn, bought: 1}
		amount, _ := o.Amount.Measure()
		if step, ok := o.Step.Measure(); ok && o.Units > 0 && amount.SI > 0 {
			of.bought = step.SI * float64(o.Units) / amount.SI
		}
		out = append(out, of)
	}
	for i := range t.Quantities {
		q := &t.Quantities[i]
		amount, _ := q.Amount.Measure()
		weighs, _ := q.Weighs.Measure()
		has := part{area: t.Areas[q.Section], course: q.Course, amount: amount, weighs: weighs}
		if q.Order >= 0 {
			out[q.Order].parts = append(out[q.Order].parts, has)
		}
		if p.item(q.ID) == nil && (q.Order >= 0 || q.Kind != labor) {
			continue
		}
		at := slices.IndexFunc(out[len(t.Orders):], func(o *order) bool { return o.item == q.ID })
		if at >= 0 {
			of := out[len(t.Orders)+at]
			sum, _ := of.amount.Measure()
			sum.SI += amount.SI
			of.amount, of.parts = value.Measured(sum), append(of.parts, has)
			continue
		}
		of := &order{item: q.ID, label: strings.TrimSpace(q.About.US), kind: q.Kind, amount: q.Amount, bought: 1, parts: []part{has}}
		if q.Order >= 0 {
			of.as, of.kind = out[q.Order].item, labor
		}
		out = append(out, of)
	}
	return out
}

// nameOf is the name of an item in a price list.
func nameOf(item value.Value) string {
	if w, isWord := item.Word(); isWord {
		return w.Name
	}
	return item.Text(quantity.US)
}

// in is how much of an order there is in the units of a price, as needed or as
// bought, and false if these do not measure it.
func (o *order) in(u unit, needed bool) (*big.Rat, bool) {
	if u.one.Dim == quantity.NoDimension {
		count, is := o.amount.Number()
		switch {
		case o.countedIn != "":
			return decimal(float64(o.units)), u.word == o.countedIn
		case !is || u.word != piece:
			return nil, false
		}
		return decimal(count), true
	}
	all := quantity.Quantity{Dim: u.one.Dim}
	for _, p := range o.parts {
		q := p.in(u.one.Dim)
		if q.Dim != u.one.Dim {
			return nil, false
		}
		all.SI += q.SI
	}
	if !needed {
		all.SI *= o.bought
	}
	x, err := exactly(all, u.one)
	if err != nil || len(o.parts) == 0 {
		return nil, false
	}
	if u.whole {
		x = ceiling(x)
	}
	return x, true
}

// in is a part in another dimension, by what it weighs; as it is if it comes to none.
func (p *part) in(wanted quantity.Dimension) quantity.Quantity {
	if p.amount.Dim == wanted || p.weighs.Dim == quantity.NoDimension {
		return p.amount
	}
	if x, err := p.amount.Multiply(p.weighs); err == nil && x.Dim == wanted {
		return x
	}
	if x, err := p.amount.Divide(p.weighs); err == nil && x.Dim == wanted {
		return x
	}
	return p.amount
}
