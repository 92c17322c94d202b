// Package amounts works out how much of something there is: soil in the ground,
// in the truck and compacted, what fills joints, what cutting wastes, what is
// spaced along an edge.
//
// Soil is measured in three states: in bank as it lies, loose as it is dug and
// hauled, compacted as it is placed and rolled. Swell and shrink are shares of the
// bank volume; rock, which stays above it, has a shrink below nothing.
package amounts

import (
	"cmp"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

const ownLimit = "limit of this library"

var (
	volumes   = calculation.Range{Name: "volume", Unit: "cu yd", Low: 0, High: 1e8, Document: ownLimit}
	swells    = calculation.Range{Name: "swell", Unit: "%", Low: 0, High: 100, Document: ownLimit}
	shrinks   = calculation.Range{Name: "shrink", Unit: "%", Low: -50, High: 50, Document: ownLimit}
	densities = calculation.Range{Name: "density", Unit: "pcf", Low: 30, High: 250, Document: ownLimit}
	sizes     = calculation.Range{Name: "size", Unit: "in", Low: 1, High: 120, Document: ownLimit}
	joints    = calculation.Range{Name: "joint", Unit: "in", Low: 0, High: 6, Document: ownLimit}
	depths    = calculation.Range{Name: "depth", Unit: "in", Low: 0, High: 24, Document: ownLimit}
	areas     = calculation.Range{Name: "area", Unit: "sq ft", Low: 0, High: 1e9, Above: true, Document: ownLimit}
	lengths   = calculation.Range{Name: "length", Unit: "ft", Low: 0, High: 1e6, Document: ownLimit}
	spacings  = calculation.Range{Name: "spacing", Unit: "in", Low: 1, High: 1200, Document: ownLimit}
	ratios    = calculation.Range{Name: "proportion", Low: 1, High: 100, Document: ownLimit}
)

// LooseVolume returns what soil measures once it is dug: bank (1 + swell).
func LooseVolume(bank quantity.Volume, swell quantity.Share) (quantity.Volume, error) {
	if err := cmp.Or(volumes.CheckMeasure(bank), swells.CheckMeasure(swell)); err != nil {
		return 0, err
	}
	return quantity.Volume(float64(bank) * (1 + swell.Fraction())), nil
}

// CompactedVolume returns what soil measures once it is placed and rolled: bank
// (1 - shrink).
func CompactedVolume(bank quantity.Volume, shrink quantity.Share) (quantity.Volume, error) {
	if err := cmp.Or(volumes.CheckMeasure(bank), shrinks.CheckMeasure(shrink)); err != nil {
		return 0, err
	}
	return quantity.Volume(float64(bank) * (1 - shrink.Fraction())), nil
}

// BankVolume returns how much is dug for a compacted volume: compacted / (1 -
// shrink).
func BankVolume(compacted quantity.Volume, shrink quantity.Share) (quantity.Volume, error) {
	if err := cmp.Or(volumes.CheckMeasure(compacted), shrinks.CheckMeasure(shrink)); err != nil {
		return 0, err
	}
	return quantity.Volume(float64(compacted) / (1 - shrink.Fraction())), nil
}

// SwellByDensity returns bank density over loose density, less one.
func SwellByDensity(bank, loose quantity.Density) (quantity.Share, error) {
	if err := cmp.Or(densities.CheckMeasure(bank), densities.CheckMeasure(loose)); err != nil {
		return 0, err
	}
	return quantity.Percent(100 * (float64(bank)/float64(loose) - 1)), nil
}

// ShrinkByDensity returns one less bank density over compacted density.
func ShrinkByDensity(bank, compacted quantity.Density) (quantity.Share, error) {
	if err := cmp.Or(densities.CheckMeasure(bank), densities.CheckMeasure(compacted)); err != nil {
		return 0, err
	}
	return quantity.Percent(100 * (1 - float64(bank)/float64(compacted))), nil
}

// JointFiller returns the volume of the joints between pavers of length by width,
// on each unit of area, as a depth: h (1 - L W / ((L + j) (W + j))), filled to the
// depth h.
func JointFiller(length, width, joint, depth quantity.Length) (quantity.Length, error) {
	err := cmp.Or(sizes.CheckMeasure(length), sizes.CheckMeasure(width), joints.CheckMeasure(joint), depths.CheckMeasure(depth))
	if err != nil {
		return 0, err
	}
	// As a sum and not as a difference, so that narrow joints lose no figures.
	joints := float64(joint*(length+width+joint)) / float64((length+joint)*(width+joint))
	return quantity.Length(float64(depth) * joints), nil
}

// CutWaste returns how much of an area is wasted where the pavers along its
// perimeter are cut: a strip as wide as what is lost of each. That is half a paver
// where what is cut off is thrown away, and a quarter where all of it is laid
// elsewhere.
func CutWaste(area quantity.Area, perimeter, strip quantity.Length) (quantity.Share, error) {
	if err := cmp.Or(areas.CheckMeasure(area), lengths.CheckMeasure(perimeter), depths.CheckMeasure(strip)); err != nil {
		return 0, err
	}
	return quantity.Percent(100 * (float64(perimeter*strip) / float64(area))), nil
}

// PiecesAlong returns how many pieces stand along a length at most a spacing
// apart: one at each end, or around a closed loop one less.
func PiecesAlong(length, spacing quantity.Length, closed bool) (float64, error) {
	if err := cmp.Or(lengths.CheckMeasure(length), spacings.CheckMeasure(spacing)); err != nil {
		return 0, err
	}
	whole, err := length.Quantity().RoundUp(spacing.Quantity())
	if err != nil {
		return 0, err
	}
	n := math.Round(whole.SI / float64(spacing))
	if closed {
		return n, nil
	}
	return n + 1, nil
}

// PerimeterOf returns the perimeter of the rectangle of an area that is so many
// times as long as it is wide.
func PerimeterOf(area quantity.Area, proportion float64) (quantity.Length, error) {
	if err := cmp.Or(areas.CheckMeasure(area), ratios.Check(proportion)); err != nil {
		return 0, err
	}
	return quantity.Length(2 * (proportion + 1) * math.Sqrt(float64(area)/proportion)), nil
}
