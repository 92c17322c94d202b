package ground

import (
	"cmp"
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
// of [DesignPercentile] reach or pass, on straight lines between the readings
// plotted at the percent of readings at or above each. Readings are CBR in
// percent, 0.1 to 200; one to 10,000 of them, in any order. It is not rounded.
//
// No allowance is made for few readings: of one reading it is that reading, of
// two it lies on the line between them. Nothing is ever extrapolated.
func DesignCBR(readings []float64, esals float64) (float64, error) {
	share, err := DesignPercentile(esals)
	if err := cmp.Or(err, someOfTests.Check(float64(len(readings)))); err != nil {
		return 0, err
	}
	for _, x := range readings {
		if err := aCBR.Named("reading").Check(x); err != nil {
			return 0, err
		}
	}
	sorted := slices.Sorted(slices.Values(readings))
	n := float64(len(sorted))
	const everyTest = 100.0
	percent, value, at := share.Percent(), sorted[0], everyTest
	for i, x := range sorted {
		if x == value {
			continue
		}
		next := everyTest * (n - float64(i)) / n
		if percent >= next {
			return value + float64((x-value)*((at-percent)/(at-next))), nil
		}
		value, at = x, next
	}
	return value, nil
}
