package site

import (
	"slices"

	"example.com/groundrule/pkg/quantity"
)

// Point is what was found at one of several places. Of the answers to one question
// the worst counts, and of CBR every reading.
type Point struct {
	// Place says where, and is needed.
	Place              string
	Consistency        Consistency
	PocketPenetrometer *quantity.Pressure
	CBR                *float64
	Probe              *quantity.Length
}

// What the ground was found to be at several points comes to one answer with what the
// job says of it elsewhere: the worst that was found or, of CBR, every reading.

func softest(s *Site) (any, bool) { return felt(s, 1) }

// firmest is given where it is told, or is not the softest.
func firmest(s *Site) (any, bool) {
	soft, _ := felt(s, 1)
	firm, given := felt(s, -1, s.Soil.Firmest)
	return firm, given && (firm != soft || s.Soil.Firmest != "")
}

// firmness has the answers of the hand test in their order.
var firmness = Consistency("").Vocabulary().Words

// felt returns the answer of the hand test that is first in the order of firmness, or
// last if the way is -1.
func felt(s *Site, way int, also ...Consistency) (any, bool) {
	all := append(also, s.Soil.Consistency)
	for _, p := range s.Soil.Points {
		all = append(all, p.Consistency)
	}
	for i := range firmness {
		if way < 0 {
			i = len(firmness) - 1 - i
		}
		if c := Consistency(firmness[i].GoValue()); slices.Contains(all, c) {
			return c, true
		}
	}
	// A word that is none is told as such; nothing is none.
	return s.Soil.Consistency, s.Soil.Consistency != ""
}

func lowestPocket(s *Site) (any, bool) {
	return worst(s.Soil.PocketPenetrometer, s.Soil.Points, func(p Point) *quantity.Pressure { return p.PocketPenetrometer }, -1)
}

func deepestProbe(s *Site) (any, bool) {
	return worst(s.Soil.Probe, s.Soil.Points, func(p Point) *quantity.Length { return p.Probe }, 1)
}

// worst returns the greatest of what is given, or the least if the way is -1.
func worst[T ~float64](whole *T, points []Point, of func(Point) *T, way T) (any, bool) {
	out := whole
	for _, p := range points {
		if x := of(p); x != nil && (out == nil || *x*way > *out*way) {
			out = x
		}
	}
	if out == nil {
		return nil, false
	}
	return *out, true
}

func readings(s *Site) (any, bool) {
	out := slices.Clone(s.Soil.CBR)
	for _, p := range s.Soil.Points {
		if p.CBR != nil {
			out = append(out, *p.CBR)
		}
	}
	return out, len(out) > 0
}
