package takeoff

import (
	"math/big"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// order is an order as a price list meets it.
type order struct {
	*Order
	item string // its name in the list
	// bought is how much is ordered for each of what is needed.
	bought float64
	parts  []part
}

// part is what an area and a course have in an order.
type part struct {
	area, course string
	amount       quantity.Quantity
	// weighs is its density or areal mass; no quantity if nothing says so.
	weighs quantity.Quantity
}

// priced are the orders of a take-off as a list meets them.
func (t *Takeoff) priced() []*order {
	out := make([]*order, len(t.Orders))
	for i := range out {
		o := &t.Orders[i]
		out[i] = &order{Order: o, item: nameOf(o.Item), bought: 1}
		amount, _ := o.Amount.Measure()
		if step, ok := o.Step.Measure(); ok && o.Units > 0 && amount.SI > 0 {
			out[i].bought = step.SI * float64(o.Units) / amount.SI
		}
	}
	for i := range t.Quantities {
		if q := &t.Quantities[i]; q.Order >= 0 {
			amount, _ := q.Amount.Measure()
			weighs, _ := q.Weighs.Measure()
			o := out[q.Order]
			o.parts = append(o.parts, part{t.Areas[q.Section], q.Course, amount, weighs})
		}
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
	switch number, isNumber := o.Amount.Number(); {
	case u.word == o.CountedIn && o.holds(u):
		return decimal(float64(o.Units)), true
	case u.word == o.CountedIn && !o.Layout.IsZero():
		return nil, false // other rolls are laid out otherwise
	case u.word == piece && isNumber && o.CountedIn == "":
		return decimal(number * o.bought), true
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

// holds reports whether what a price is for holds as much as what is ordered: bags of
// another size are counted anew.
func (o *order) holds(u unit) bool {
	step, _ := o.Step.Measure()
	same, err := step.Compare(u.one)
	return !u.whole || u.one.Dim == quantity.NoDimension || err == nil && same == 0
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
