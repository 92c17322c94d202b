package ground

import (
	"cmp"
	"math"
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

const asphaltInstitute = "Asphalt Institute, design percentile by traffic"

// Design percentiles of the Asphalt Institute (relayed by the Civil Engineering
// Handbook, 2nd ed., p. 62-30): the percent of tests at or above the design
// value, by equivalent single axle loads.
const (
	lightTrafficTo   = 1e4
	heavyTrafficFrom = 1e6
)

var (
	aTraffic    = calculation.Range{Name: "esals", Low: 0, High: 1e12, Document: "axle load passes"}
	someOfTests = calculation.Range{Name: "number of readings", Low: 1, High: 10_000, Document: asphaltInstitute}
)

// DesignPercentile returns the share of tests that must lie at or above the design
// value: 60 up to 10,000 equivalent single axle loads, 75 between, 87.5 from
// 1,000,000.
func DesignPercentile(esals float64) (quantity.Share, error) {
	if err := aTraffic.Check(esals); err != nil {
		return 0, err
	}
	switch {
	case esals <= lightTrafficTo:
		return quantity.Percent(60), nil
	case esals < heavyTrafficFrom:
		return quantity.Percent(75), nil
	}
	return quantity.Percent(87.5), nil
}

// DesignCBR returns the CBR in percent to design with, of several readings and
// the traffic in equivalent single axle loads, from 0: the value that the share
// of [DesignPercentile] reach or pass, on straight lines between the readings,
// each plotted at the percent of readings from it up. Readings are CBR in
// percent, 0.1 to 200; one to 10,000 of them, in any order. It is not rounded.
//
// Readings that are alike are plotted one by one. Plotted as one, at the highest
// of their percents, a reading that fell could raise the value.
//
// No allowance is made for few readings: of one reading it is that reading, of
// two it lies on the line between them; see [ReachedBy]. Nothing is ever
// extrapolated.
func DesignCBR(readings []float64, esals float64) (float64, error) {
	share, err := DesignPercentile(esals)
	sorted, wrong := sortedReadings(readings, aCBR)
	if err := cmp.Or(err, wrong); err != nil {
		return 0, err
	}
	const everyTest = 100
	below := float64(float64(len(sorted))*(everyTest-share.Percent())) / everyTest
	i := min(int(below), len(sorted)-1)
	next := sorted[min(i+1, len(sorted)-1)]
	return sorted[i] + float64((next-sorted[i])*(below-float64(i))), nil
}

// anyCBR is that of any ground, mud too.
var anyCBR = calculation.Range{High: aCBR.High, Document: aCBR.Document}

// sortedReadings returns readings that are within a range, from the least up.
func sortedReadings(readings []float64, within calculation.Range) ([]float64, error) {
	if err := someOfTests.Check(float64(len(readings))); err != nil {
		return nil, err
	}
	for _, x := range readings {
		if err := within.Named("reading").Check(x); err != nil {
			return nil, err
		}
	}
	return slices.Sorted(slices.Values(readings)), nil
}

// ReachedBy returns the greatest CBR in percent that at least count readings
// reach, and the least reading where there are fewer than count. Readings as in
// [DesignCBR], but from 0; count from 1 to 10,000, rounded up.
func ReachedBy(readings []float64, count float64) (float64, error) {
	sorted, err := sortedReadings(readings, anyCBR)
	if err := cmp.Or(err, someOfTests.Named("count").Check(count)); err != nil {
		return 0, err
	}
	return sorted[max(0, len(sorted)-int(math.Ceil(count)))], nil
}

var aShareOfMiddle = calculation.Range{Name: "ratio", Low: 0, High: 1, Document: "a soft spot is below the middle reading"}

// FirmReadings returns the readings, from the least up, that are no less than
// ratio, 0 to 1, of the middle one, of an even number the lower of the middle
// two. The others, fewer than half, are soft spots. Readings as in [ReachedBy].
func FirmReadings(readings []float64, ratio float64) ([]float64, error) {
	sorted, err := sortedReadings(readings, anyCBR)
	if err := cmp.Or(err, aShareOfMiddle.Check(ratio)); err != nil {
		return nil, err
	}
	least := float64(ratio * sorted[(len(sorted)-1)/2])
	return slices.DeleteFunc(sorted, func(x float64) bool { return x < least }), nil
}
