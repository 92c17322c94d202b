package ground

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// FreezingSurface is what lies at the surface while the ground freezes.
type FreezingSurface string

// The surfaces.
const (
	SnowSurface       FreezingSurface = "snow"
	ConcreteSurface   FreezingSurface = "portland cement concrete"
	BituminousSurface FreezingSurface = "bituminous"
	BareSoilSurface   FreezingSurface = "bare soil"
	ShadedSurface     FreezingSurface = "shaded"
	TurfSurface       FreezingSurface = "turf"
	TreesSurface      FreezingSurface = "tree-covered"
)

// surfaces holds the freezing n-factors of TM 5-852-4/AFM 88-19 Ch. 4 Table 4-1,
// seen. It has none for pavers: concrete is the nearest, 1.0 is safe.
var surfaces = []struct {
	surface     FreezingSurface
	word, about string
	n           float64
}{
	{SnowSurface, "surface_snow", "snow left lying", 1.0},
	{ConcreteSurface, "surface_concrete", "portland cement concrete, kept clear of snow", 0.75},
	{BituminousSurface, "surface_bituminous", "bituminous pavement, kept clear of snow", 0.7},
	{BareSoilSurface, "surface_bare_soil", "bare soil", 0.7},
	{ShadedSurface, "surface_shaded", "a surface in shade", 0.9},
	{TurfSurface, "surface_turf", "turf", 0.5},
	{TreesSurface, "surface_trees", "ground under trees", 0.3},
}

// Vocabulary lists the surfaces.
func (FreezingSurface) Vocabulary() value.Vocabulary {
	v := value.Vocabulary{Name: "freezing_surface", About: "what lies at the surface while the ground freezes"}
	for _, each := range surfaces {
		v.Words = append(v.Words, value.WordEntry{Name: each.word, Label: string(each.surface), About: each.about})
	}
	return v
}

// The coldest inhabited places stay under 20,000 F days in a winter.
var aFreezingIndex = calculation.Range{Low: 0, High: 20_000, Unit: "F days", Document: "freezing index of one winter"}

// NFactor is the surface freezing index over the air freezing index.
func NFactor(s FreezingSurface) (float64, error) {
	if err := calculation.CheckWord("s", s); err != nil {
		return 0, err
	}
	var n float64
	for _, each := range surfaces {
		if each.surface == s {
			n = each.n
		}
	}
	return n, nil
}

// SurfaceFreezingIndex is the freezing index at the surface, n times that of the
// air, 0 to 20,000 F days.
func SurfaceFreezingIndex(air quantity.FreezingIndex, s FreezingSurface) (quantity.FreezingIndex, error) {
	n, err := NFactor(s)
	if err := cmp.Or(err, aFreezingIndex.Named("air freezing index").Check(air.FahrenheitDays())); err != nil {
		return 0, err
	}
	return quantity.FreezingIndex(n * float64(air)), nil
}

// Design freezing index for pavements: the mean of the 3 coldest winters of the
// latest 30; if there are not 30, the coldest of the latest 10. Army
// correspondence course EN5458, lesson 3, seen.
const (
	fullRecord    = 30
	shortRecord   = 10
	coldestOfFull = 3
	mostWinters   = 1000
	designWinters = "Army EN5458 lesson 3, design freezing index"
)

// DesignFreezingIndexOf is the design freezing index of a record of winters, the
// oldest first: the mean of the 3 coldest of the latest 30, or, with 10 to 29 on
// record, the coldest of the latest 10. Fewer than 10 are a [MissingError].
func DesignFreezingIndexOf(winters []quantity.FreezingIndex) (quantity.FreezingIndex, error) {
	n := len(winters)
	if n < shortRecord {
		return 0, &MissingError{What: []string{fmt.Sprintf("%d more winters", shortRecord-n)},
			Because: fmt.Sprintf("a record has %d at least", shortRecord), Document: designWinters}
	}
	if n >= fullRecord {
		return MeanOfColdestOf(winters[n-fullRecord:], coldestOfFull)
	}
	return MeanOfColdestOf(winters[n-shortRecord:], 1)
}

// MeanOfColdestOf is the mean freezing index of the coldest count of the
// winters: count 1 to as many as there are, each 0 to 20,000 F days.
func MeanOfColdestOf(winters []quantity.FreezingIndex, count int) (quantity.FreezingIndex, error) {
	if len(winters) > mostWinters || count < 1 || count > len(winters) {
		return 0, calculation.OutOfRange("number of coldest winters", float64(count), "",
			fmt.Sprintf("1 to the %d on record, %d at most", len(winters), mostWinters), designWinters)
	}
	for _, w := range winters {
		if err := aFreezingIndex.Named("freezing index of a winter").Check(w.FahrenheitDays()); err != nil {
			return 0, err
		}
	}
	sorted := slices.Sorted(slices.Values(winters))
	var sum quantity.FreezingIndex
	for _, w := range sorted[len(sorted)-count:] {
		sum += w
	}
	return sum / quantity.FreezingIndex(count), nil
}

// inUnit returns winters, written as multiples of a unit, their dimension.
func inUnit(unit quantity.FreezingIndex, winters []float64) ([]quantity.FreezingIndex, error) {
	if err := aFreezingIndex.Named("unit of the winters").Check(unit.FahrenheitDays()); err != nil {
		return nil, err
	}
	if len(winters) > mostWinters {
		return nil, calculation.OutOfRange("number of winters", float64(len(winters)), "", fmt.Sprintf("up to %d", mostWinters), designWinters)
	}
	out := make([]quantity.FreezingIndex, len(winters))
	for i, w := range winters {
		if !calculation.Finite(w) || w < 0 {
			return nil, calculation.OutOfRange("freezing index of a winter", w, "units", "0 and up", designWinters)
		}
		out[i] = quantity.FreezingIndex(w * float64(unit))
	}
	return out, nil
}

// DesignFreezingIndex is [DesignFreezingIndexOf] for winters written as plain
// multiples of a unit, such as of one F day, the oldest first.
func DesignFreezingIndex(unit quantity.FreezingIndex, winters []float64) (quantity.FreezingIndex, error) {
	typed, err := inUnit(unit, winters)
	if err != nil {
		return 0, err
	}
	return DesignFreezingIndexOf(typed)
}

// MeanOfColdest is [MeanOfColdestOf] for winters written as plain multiples of a
// unit; count is a whole number.
func MeanOfColdest(unit quantity.FreezingIndex, winters []float64, count float64) (quantity.FreezingIndex, error) {
	typed, err := inUnit(unit, winters)
	if err != nil {
		return 0, err
	}
	if !(count >= 1 && count <= mostWinters) || count != math.Trunc(count) {
		return 0, calculation.OutOfRange("number of coldest winters", count, "", fmt.Sprintf("a whole number, 1 to %d", mostWinters), designWinters)
	}
	return MeanOfColdestOf(typed, int(count))
}

// Any weather on record, with room.
var (
	anAir         = calculation.Range{Low: -100, High: 70, Unit: "C", Document: "air temperature"}
	mostDays      = 366
	freezingPoint = quantity.Celsius(0)
)

// SeasonFreezingIndex is the freezing index of one season of daily means: the
// difference between the highest and the lowest point that follows it of the
// cumulative degree-day curve (Army EN5458 lesson 3 and TM 5-852-1, seen). A
// season that never freezes has 0. Up to 366 days, each -100 to 70 C.
func SeasonFreezingIndex(dailyMeans []quantity.Temperature) (quantity.FreezingIndex, error) {
	if n := len(dailyMeans); n > mostDays {
		return 0, calculation.OutOfRange("number of days", float64(n), "", fmt.Sprintf("up to %d", mostDays), "TM 5-852-1")
	}
	var curve, highest, greatest float64
	for _, mean := range dailyMeans {
		if err := anAir.Named("daily mean").Check(mean.Celsius()); err != nil {
			return 0, err
		}
		curve += float64(mean - freezingPoint)
		highest = max(highest, curve)
		greatest = max(greatest, highest-curve)
	}
	return quantity.CelsiusDays(greatest), nil
}
