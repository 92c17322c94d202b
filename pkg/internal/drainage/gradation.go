package drainage

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/internal/sieve"
	"example.com/groundrule/pkg/quantity"
)

// Gradation is how an aggregate or a soil is graded: on each sieve, the least
// and the most percent passing that are allowed or were found. A single curve
// is an envelope whose edges are equal.
//
// A Gradation is a value: it never changes, may be compared with ==, used as a
// key of a map, and shared between goroutines. The zero Gradation is none; every
// question about it is answered with [ErrCannotTell].
type Gradation struct {
	count uint8
	// rows run from coarse to fine; those past count are zero, so that ==
	// compares content.
	rows [mostSieves]row
}

// row is one sieve of a gradation, with the percent passing on each edge.
type row struct{ mm, low, high float64 }

// mostSieves is how many sieves a gradation can hold.
const mostSieves = 32

// sameSieve is how close two openings are taken as one sieve, as a share; half
// the step between neighboring sieves of any series is many times larger.
const sameSieve = 0.001

// Band is one sieve of an envelope.
type Band struct {
	// Opening of the sieve.
	Opening quantity.Length
	// Low and High percent passing, 0 to 100.
	Low, High float64
}

// Edge tells the three curves of an envelope apart.
type Edge uint8

// The edges: Coarse passes least and has the largest sizes, Fine passes most,
// Mid lies halfway between in percent passing.
const (
	Mid Edge = iota
	Coarse
	Fine
)

// String names the edge.
func (e Edge) String() string {
	switch e {
	case Coarse:
		return "coarse edge"
	case Fine:
		return "fine edge"
	}
	return "mid"
}

// NewGradation makes a gradation from its sieves, in any order. It refuses a
// percent outside 0 to 100, a low above its high, an edge that rises as the
// sieves get finer, a sieve given twice, fewer than two sieves and more than 32.
// Each error wraps [ErrGradation] and names the sieve.
func NewGradation(bands ...Band) (Gradation, error) {
	if len(bands) < 2 || len(bands) > mostSieves {
		return Gradation{}, fmt.Errorf("%w: number of sieves is %d; it must be 2 to %d", ErrGradation, len(bands), mostSieves)
	}
	rows := make([]row, 0, len(bands))
	for _, b := range bands {
		if err := sieve.Openings.CheckMeasure(b.Opening); err != nil {
			return Gradation{}, fmt.Errorf("%w: %w", ErrGradation, err)
		}
		// Adding zero turns a negative zero into zero.
		rows = append(rows, row{sieve.Millimeters(b.Opening), b.Low + 0, b.High + 0})
	}
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(b.mm, a.mm) })
	if err := checkRows(rows); err != nil {
		return Gradation{}, err
	}
	g := Gradation{count: uint8(len(rows))}
	copy(g.rows[:], rows)
	return g, nil
}

// checkRows checks rows that run from coarse to fine.
func checkRows(rows []row) error {
	for i, r := range rows {
		name := nameOf(r.mm)
		switch {
		case !(0 <= min(r.low, r.high) && max(r.low, r.high) <= 100): // NaN too
			return fmt.Errorf("%w: sieve %s: percent passing is %g to %g; it must be 0 to 100", ErrGradation, name, r.low, r.high)
		case r.low > r.high:
			return fmt.Errorf("%w: sieve %s: the low percent passing %g is above the high %g", ErrGradation, name, r.low, r.high)
		}
		if i == 0 {
			continue
		}
		up := rows[i-1]
		switch {
		case up.mm/r.mm < 1+sameSieve:
			return fmt.Errorf("%w: sieve %s is given twice", ErrGradation, name)
		case r.low > up.low:
			return fmt.Errorf("%w: sieve %s: the low percent passing rises from %g on %s to %g, though the sieve is finer",
				ErrGradation, name, up.low, nameOf(up.mm), r.low)
		case r.high > up.high:
			return fmt.Errorf("%w: sieve %s: the high percent passing rises from %g on %s to %g, though the sieve is finer",
				ErrGradation, name, up.high, nameOf(up.mm), r.high)
		}
	}
	return nil
}

// GradationFromSizes makes a single curve from the three characteristic sizes
// that a filter rule needs: those that 15, 50 and 85 percent pass. The sizes
// must rise; else the error wraps [ErrGradation].
func GradationFromSizes(d15, d50, d85 quantity.Length) (Gradation, error) {
	g, err := NewGradation(
		Band{Opening: d15, Low: 15, High: 15},
		Band{Opening: d50, Low: 50, High: 50},
		Band{Opening: d85, Low: 85, High: 85})
	if err != nil {
		return Gradation{}, fmt.Errorf("from sizes D15, D50 and D85: %w", err)
	}
	return g, nil
}

// IsZero reports whether g is no gradation at all.
func (g Gradation) IsZero() bool { return g.count == 0 }

// Bands lists the sieves from coarse to fine.
func (g Gradation) Bands() []Band {
	bands := make([]Band, 0, g.count)
	for _, r := range g.table() {
		bands = append(bands, Band{quantity.Millimeters(r.mm), r.low, r.high})
	}
	return bands
}

// RuleTypeName returns the name of the type in the rule language.
func (Gradation) RuleTypeName() string { return "gradation" }

func (g *Gradation) table() []row { return g.rows[:g.count] }

// passing returns the percent passing on an edge.
func (r row) passing(e Edge) float64 {
	switch e {
	case Coarse:
		return r.low
	case Fine:
		return r.high
	}
	return (r.low + r.high) / 2
}

func nameOf(mm float64) string { return sieve.Name(quantity.Millimeters(mm)) }
