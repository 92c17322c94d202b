// Package plan works in the plane of a paved area: its shape, the ground within
// and around it, and how rolls and panels are laid over it.
//
// A [Shape] is a simple polygon or a circle, a [Layout] the pieces that cover
// one or more of them and the rolls that the pieces are cut from. Both are
// values that never change. The functions are plain Go and know nothing of
// rules, files or screens; [Calculations] describes those that a rule may call.
//
// Two things that lie closer than [slack] are in one place, so that 24 ft are
// covered by two strips of 12.5 ft that lap 1 ft, in whatever unit they were
// written. Products are rounded before they are added, and angles are turned by
// this package's own series, so that every machine gives the same bytes.
package plan

import "errors"

// slack is how close two points are one, in meters: a thousandth of a
// millimeter. That is far below the sixteenth of an inch (1.6 mm) to which a
// crew measures, and far above what rounding does to any shape that is taken.
const slack = 1e-6

// ownLimit is the document of a range that no publication sets. It lies far
// outside any paving and catches a value given in the wrong unit.
const ownLimit = "limit of this library"

// What can be wrong with a shape. Every error of a constructor wraps one of them.
var (
	// ErrShape is wrapped by all of them.
	ErrShape = errors.New("not a shape")
	// ErrCrossing is for sides that cross or touch where no corner is.
	ErrCrossing = fault("sides cross")
	// ErrCornerTwice is for a corner that is given twice.
	ErrCornerTwice = fault("corner given twice")
	// ErrNoArea is for corners that lie on one line, and sizes that are not above 0.
	ErrNoArea = fault("no area")
	// ErrOpen is for sides and angles that do not lead back to where they began.
	ErrOpen = fault("sides do not close")
	// ErrPerimeter is for a perimeter that is too short to go around the area.
	ErrPerimeter = fault("perimeter too short for the area")
	// ErrCorners is for too few or too many corners, sides or angles.
	ErrCorners = fault("wrong number of corners")
)

// CornerError is an error of a shape for which one corner is to blame, or the side or
// the angle that is given with it.
type CornerError struct {
	// Corner is counted from 0, as the corners were given.
	Corner int
	Err    error
}

func (e *CornerError) Error() string { return e.Err.Error() }
func (e *CornerError) Unwrap() error { return e.Err }

type shapeFault struct{ text string }

func (f *shapeFault) Error() string { return f.text }
func (f *shapeFault) Unwrap() error { return ErrShape }

func fault(text string) error { return &shapeFault{text} }
