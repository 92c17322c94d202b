package plan

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// Product is what is laid: rolls, cut into strips.
type Product struct {
	// Width and Length of a roll.
	Width, Length quantity.Length
	// Lap of a strip over the one beside it, EndLap of a piece over the one before
	// it in a strip.
	Lap, EndLap quantity.Length
	// Shortest is how short a piece may be that is joined to others in a strip. One
	// as long as a roll joins none but in strips that are longer than a roll.
	Shortest quantity.Length
}

// Layout is how one or several areas are covered: which pieces lie where, and from
// which roll each is cut. The zero Layout is none.
type Layout struct{ *laid }

type laid struct {
	product Product
	panels  bool
	areas   []area
	pieces  []Piece
	units   int // rolls or panels
	bound   int
	exact   bool
}

// area is one area of a layout.
type area struct {
	shape  Shape
	turnUp float64
	levels int
	axis   point
	runs   []run
	cuts   []cut // of panels
}

// Piece is one piece as it is cut and laid.
type Piece struct {
	// Area is which of the areas it lies on, Level on which of its levels and Strip
	// in which of its strips, each from 0.
	Area, Level, Strip int
	// Unit is which roll or panel it is cut from, from 0, and At where on it.
	Unit int
	At   quantity.Length
	// Length of the piece along the roll or panel.
	Length quantity.Length
	// Corners of the piece as it lies on the plan, counterclockwise from where it
	// begins.
	Corners [4]Point
	from    float64 // where along its strip it begins
}

var (
	widths = calculation.Range{Name: "width", Unit: "ft", Low: 0.5, High: 100, Document: ownLimit}
	reels  = calculation.Range{Name: "length", Unit: "ft", Low: 5, High: 5000, Document: ownLimit}
	laps   = calculation.Range{Name: "lap", Unit: "ft", Low: 0, Document: "a lap is less than half of the width"}
	ends   = calculation.Range{Name: "end_lap", Unit: "ft", Low: 0, Document: "an end lap is less than half of a roll"}
	ups    = calculation.Range{Name: "turn_up", Unit: "ft", Low: 0, High: 20, Document: ownLimit}
	levels = calculation.Range{Name: "levels", Low: 1, High: 20, Document: ownLimit}
	shorts = calculation.Range{Name: "shortest", Unit: "ft", Low: 0, High: 5000, Document: ownLimit}
)

// mostSides is how many sides of a shape give a direction, the longest first.
const mostSides = 16

// LayRolls lays rolls over a shape, turned up by turnUp at its sides, on so many
// levels. The turned-up fabric lies flat beyond the sides, as [AreaBeyond] tells.
//
// All strips run one way, along or across one of the sides (of the 16 longest,
// where there are more), at even distances, or where its corners lie at few
// heights with wider laps too. The layout takes the fewest rolls;
// of those the least length cut, which is what laps and trimming add to the
// area; and of those the fewest pieces, and so the fewest seams. A strip is cut
// to the length that the area needs between its edges, and where the area has a
// gap there into several pieces.
func LayRolls(s Shape, p Product, turnUp quantity.Length, onLevels float64) (Layout, error) {
	if s.IsZero() {
		return Layout{}, ErrNone
	}
	laps, ends := laps, ends
	laps.High, laps.Below = p.Width.Feet()/2, true
	ends.High, ends.Below = p.Length.Feet()/2, true
	if err := cmp.Or(
		widths.CheckMeasure(p.Width), reels.CheckMeasure(p.Length), laps.CheckMeasure(p.Lap), ends.CheckMeasure(p.EndLap),
		ups.CheckMeasure(turnUp), levels.Check(onLevels), shorts.CheckMeasure(p.Shortest),
	); err != nil {
		return Layout{}, err
	}
	a := area{shape: s, turnUp: max(turnUp.Meters(), 0), levels: roundUp(onLevels)}
	b, err := p.best(a)
	if err != nil {
		return Layout{}, err
	}
	l := &laid{product: p, areas: []area{b.area}}
	return l.place(b.packing), nil
}

// place lays the pieces of a packing of all strips, area by area and level by
// level.
func (l *laid) place(packed packing) Layout {
	l.units, l.bound, l.exact = packed.rolls, packed.bound, packed.exact
	type strip struct {
		area, level int
		run
	}
	var strips []strip
	for i, a := range l.areas {
		for level := range a.levels {
			for _, r := range a.runs {
				strips = append(strips, strip{i, level, r})
			}
		}
	}
	at := make([]float64, len(strips)) // how far each strip is laid
	for _, cut := range packed.cuts {
		s := strips[cut.item]
		from := s.from + at[cut.item]
		at[cut.item] += cut.length - max(l.product.EndLap.Meters(), 0)
		piece := Piece{Area: s.area, Level: s.level, Strip: s.strip, Unit: cut.roll,
			At: quantity.Meters(cut.at), Length: quantity.Meters(cut.length), from: from}
		low, top := s.low, s.low+l.product.Width.Meters()
		for k, corner := range [4]point{{from, low}, {from + cut.length, low}, {from + cut.length, top}, {from, top}} {
			corner = corner.back(l.areas[s.area].axis)
			piece.Corners[k] = Point{quantity.Meters(corner.x), quantity.Meters(corner.y)}
		}
		l.pieces = append(l.pieces, piece)
	}
	return Layout{l}
}

// Merge lays the areas of both from rolls of one product, so that what is left
// over of one serves the other. The strips stay where they are, each area with its own
// lap; where the laps of ends differ, the greater is kept. The error is
// [ErrProducts] where the products differ.
func (l Layout) Merge(others ...Layout) (Layout, error) {
	if l.IsZero() {
		return Layout{}, ErrNone
	}
	all := &laid{product: l.product, panels: l.panels, areas: slices.Clone(l.areas)}
	for _, o := range others {
		if o.IsZero() || o.product.Width != l.product.Width || o.product.Length != l.product.Length || o.panels != l.panels {
			return Layout{}, fmt.Errorf("%w: %s; and %s", ErrProducts, l, o)
		}
		all.product.EndLap, all.product.Shortest = max(all.product.EndLap, o.product.EndLap), max(all.product.Shortest, o.product.Shortest)
		all.areas = append(all.areas, o.areas...)
	}
	return all.place(all.packed()), nil
}

// packed cuts the strips of all areas from rolls, or shares out the panels of all.
func (l *laid) packed() packing {
	var items []float64
	var panels courses
	for _, a := range l.areas {
		for _, c := range a.cuts {
			c.item += len(items)
			panels.cuts = append(panels.cuts, c)
		}
		items = append(items, lengthsOf(a.runs, a.levels)...)
	}
	if l.panels {
		panels.share(l.product.Length.Meters())
		return panels.packing
	}
	packed, _ := l.product.stock().pack(items, math.MaxInt32)
	return packed
}

// ErrProducts is for layouts of different products, which share no rolls.
var ErrProducts = errors.New("layouts of different products")

// IsZero reports whether l is no layout at all.
func (l Layout) IsZero() bool { return l.laid == nil }

// RuleTypeName returns the name of the type in the rule language.
func (Layout) RuleTypeName() string { return "layout" }

// Units returns how many rolls or panels are cut.
func (l Layout) Units() int {
	if l.IsZero() {
		return 0
	}
	return l.units
}

// Pieces returns the pieces, roll by roll and along each.
func (l Layout) Pieces() []Piece {
	if l.IsZero() {
		return nil
	}
	pieces := slices.Clone(l.pieces)
	slices.SortStableFunc(pieces, func(a, b Piece) int { return cmp.Or(a.Unit-b.Unit, cmp.Compare(a.At, b.At)) })
	return pieces
}

// Cut returns the area of all pieces, laps and trimming included.
func (l Layout) Cut() quantity.Area {
	sum := 0.0
	for _, p := range l.Pieces() {
		sum += p.Length.Meters()
	}
	return l.of(sum)
}

// Bought returns the area of all rolls or panels that are cut.
func (l Layout) Bought() quantity.Area {
	if l.IsZero() {
		return 0
	}
	return l.of(float64(l.units) * l.product.Length.Meters())
}

// of returns the area of a length of the product.
func (l Layout) of(length float64) quantity.Area {
	if l.IsZero() {
		return 0
	}
	return quantity.SquareMeters(length * l.product.Width.Meters())
}
