package quantity

import (
	"fmt"
	"slices"
)

// System is a system of units, and perhaps how a language writes numbers and units:
// see [System.Writing]. A text for a reader is written in one of them.
type System string

// The systems. The zero System is neither: a [Unit] with it belongs to both, and
// a text asked for in it is written in US units, as the trade writes.
const (
	EitherSystem System = ""
	US           System = "US"
	SI           System = "SI"
)

// String gives "US", "SI" or "either".
func (s System) String() string {
	switch base := s.Base(); base {
	case US, SI:
		return string(base)
	}
	return "either"
}

// Unit is a unit of the trade.
type Unit struct {
	// Symbol is the unit as printed behind a number, such as "in".
	Symbol string
	// Plural is the symbol behind any number but 1, if it differs: "days".
	Plural string
	// Builder is the function that makes a quantity of the unit in the rule
	// language, such as "inches".
	Builder string
	// About names the unit in words.
	About string
	// Dim is what the unit measures.
	Dim Dimension
	// System is the system to which the unit belongs.
	System System

	// spellings are further ways to write it that [Parse] reads. Superscripts,
	// "per" for "/", "^" and full stops need no spelling of their own.
	spellings []string
	scale     scale
}

// Spellings returns further ways to write the unit that [Parse] reads.
func (u Unit) Spellings() []string { return slices.Clone(u.spellings) }

// scale turns a number of units into SI as (x-zero)*mul/div; zero is the reading
// at which the SI value is 0, 32 for Fahrenheit. Keeping mul and div apart gives
// the nearest float64 wherever both are whole: 6 in is exactly the float64 that
// 0.1524 is, which x*0.0254 does not promise. No sum of a product is in it, so
// no machine can fuse one and round otherwise than the next.
type scale struct{ mul, div, zero float64 }

func (s scale) si(x float64) float64   { return (float64(x) - s.zero) * s.mul / s.div }
func (s scale) from(v float64) float64 { return float64(v*s.div/s.mul) + s.zero }

// Units lists every unit.
func Units() []Unit { return slices.Clone(table()) }

// Units lists the units of the dimension, those that a reader would think of
// first in front.
func (d Dimension) Units() []Unit {
	return slices.DeleteFunc(Units(), func(u Unit) bool { return u.Dim != d })
}

// Quantity returns x of the unit. The error is [ErrNotFinite] if x, or its SI
// value, is NaN or infinite.
func (u Unit) Quantity(x float64) (Quantity, error) {
	q := Quantity{u.Dim, u.toSI(x)}
	if err := q.check(); err != nil {
		return Quantity{}, fmt.Errorf("%s(%g): %w", u.Builder, x, err)
	}
	return q, nil
}

func (u Unit) toSI(x float64) float64 {
	if u.Dim == DimShare {
		return float64(Percent(x))
	}
	return u.scale.si(x)
}

func (u Unit) fromSI(si float64) float64 {
	if u.Dim == DimShare {
		return Share(si).Percent()
	}
	return u.scale.from(si)
}

// symbols returns the symbols of the units of a dimension, for an error to list.
func symbols(dim Dimension) []string {
	if dim == DimRatio {
		return []string{"a plain number"}
	}
	var out []string
	for _, u := range table() {
		if u.Dim == dim {
			out = append(out, u.Symbol)
		}
	}
	return out
}
