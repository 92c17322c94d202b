package quantity

import "fmt"

// byPowers finds the dimension that has given powers. A temperature has none:
// it is a reading on a scale, not a difference, so it takes no part. A share has
// none either, and has rules of its own.
func byPowers(p exponents) (Dimension, bool) {
	for i := range dimensions {
		if d := Dimension(i); d.Valid() && d != DimTemperature && d != DimShare && d.entry().powers == p {
			return d, true
		}
	}
	return NoDimension, false
}

func multiplies(d Dimension) bool { return d.Valid() && d != DimTemperature }

// Product returns the dimension of a product, and false if it is none of the
// known dimensions: length by length is an area, rate by time a length, volume
// by density a mass, a ratio by anything is that thing. A share of a quantity is
// that quantity, and a share times a ratio a share. Temperatures do not
// multiply. A density is mass by volume, so no product of it is ever a force.
func (a Dimension) Product(b Dimension) (Dimension, bool) {
	switch {
	case !multiplies(a) || !multiplies(b):
		return NoDimension, false
	case a == DimShare && b != DimRatio:
		return b, true
	case b == DimShare && a != DimRatio:
		return a, true
	case a == DimShare || b == DimShare:
		return DimShare, true
	}
	p, q := a.entry().powers, b.entry().powers
	return byPowers(exponents{p.length + q.length, p.mass + q.mass, p.time + q.time, p.temperature + q.temperature})
}

// Quotient returns the dimension of a quotient, and false if it is none of the
// known dimensions: length by time is a rate, force by area a pressure, and
// anything by its like a ratio. A quantity by a share is that quantity, a share
// by a ratio a share. Temperatures do not divide.
func (a Dimension) Quotient(b Dimension) (Dimension, bool) {
	switch {
	case !multiplies(a) || !multiplies(b):
		return NoDimension, false
	case a == b:
		return DimRatio, true
	case b == DimShare && a != DimRatio:
		return a, true
	case a == DimShare && b == DimRatio:
		return DimShare, true
	case a == DimShare || b == DimShare:
		return NoDimension, false
	}
	p, q := a.entry().powers, b.entry().powers
	return byPowers(exponents{p.length - q.length, p.mass - q.mass, p.time - q.time, p.temperature - q.temperature})
}

// Multiply returns a*b. The error wraps [ErrDimension] if [Dimension.Product] knows no such
// dimension, and [ErrNotFinite] for a value or a result that is not finite.
func (a Quantity) Multiply(b Quantity) (Quantity, error) {
	if err := checkBoth(a, b); err != nil {
		return Quantity{}, err
	}
	d, ok := a.Dim.Product(b.Dim)
	if !ok {
		return Quantity{}, fmt.Errorf("%w: %s times %s is not a quantity known here", ErrDimension, article(a.Dim), article(b.Dim))
	}
	q := Quantity{d, a.SI * b.SI}
	return q, q.check()
}

// Divide returns a/b, with the errors of [Quantity.Multiply]; dividing by 0 wraps
// [ErrNotFinite].
func (a Quantity) Divide(b Quantity) (Quantity, error) {
	if err := checkBoth(a, b); err != nil {
		return Quantity{}, err
	}
	d, ok := a.Dim.Quotient(b.Dim)
	if !ok {
		return Quantity{}, fmt.Errorf("%w: %s over %s is not a quantity known here", ErrDimension, article(a.Dim), article(b.Dim))
	}
	if b.SI == 0 {
		return Quantity{}, fmt.Errorf("%s over %s of 0: %w", article(a.Dim), article(b.Dim), ErrNotFinite)
	}
	q := Quantity{d, a.SI / b.SI}
	return q, q.check()
}
