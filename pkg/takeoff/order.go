package takeoff

import (
	"math/big"

	"example.com/groundrule/pkg/quantity"
)

// order is what is bought of one item, as a price meets it.
type order struct {
	item, label, kind string
	// amount is what is needed, bought what is ordered of it in whole steps, and count
	// how many of these there are, called countedIn.
	amount, bought quantity.Quantity
	count          float64
	countedIn      string
	// weighs is its density or areal mass; no quantity if nothing says so.
	weighs quantity.Quantity
	parts  []part
}

// part is what an area and a course have in an order.
type part struct {
	area, course string
	amount       float64
}

// in is how much is bought in the units of a price, and false if these do not
// measure it.
func (o *order) in(u unit, q quantity.Quantity) (*big.Rat, bool) {
	if u.one.Dim == quantity.NoDimension {
		counted := u.word == o.countedIn || u.word == piece && o.countedIn == ""
		return decimal(o.count), counted
	}
	if q.Dim != u.one.Dim && o.weighs.Dim != quantity.NoDimension {
		q = o.weighed(q, u.one.Dim)
	}
	x, err := exactly(q, u.one)
	if err != nil || q.Dim != u.one.Dim {
		return nil, false
	}
	if u.whole {
		x = ceiling(x)
	}
	return x, true
}

// weighed is a quantity as the mass of it, or as what has that mass; the quantity
// itself if it comes to neither.
func (o *order) weighed(q quantity.Quantity, wanted quantity.Dimension) quantity.Quantity {
	if x, err := q.Multiply(o.weighs); err == nil && x.Dim == wanted {
		return x
	}
	if x, err := q.Divide(o.weighs); err == nil && x.Dim == wanted {
		return x
	}
	return q
}
