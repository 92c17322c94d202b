package ground

import (
	"fmt"
	"slices"

	"example.com/groundrule/pkg/calculation"
)

const asphaltInstitute = "Asphalt Institute, design percentile by traffic"

// Design percentiles of the Asphalt Institute (relayed by the Civil Engineering
// Handbook, 2nd ed., p. 62-30): the percent of tests at or above the design
// value, by equivalent single axle loads.
const (
	lightTrafficTo   = 1e4
	heavyTrafficFrom = 1e6
	lightPercentile  = 60.0
	mediumPercentile = 75.0
	heavyPercentile  = 87.5
	mostReadings     = 10_000
	everyTest        = 100.0
	fewestReadings   = 1
)

var aPercentile = calculation.Range{Low: 0, High: 100, Unit: "%", Document: asphaltInstitute}

// DesignPercentile is the percent of tests that must lie at or above the design
// value: 60 up to 10,000 equivalent single axle loads, 75 between, 87.5 from
// 1,000,000.
func DesignPercentile(esals float64) (float64, error) {
	if err := anEsal.Named("esals").Check(esals); err != nil {
		return 0, err
	}
	switch {
	case esals <= lightTrafficTo:
		return lightPercentile, nil
	case esals < heavyTrafficFrom:
		return mediumPercentile, nil
	}
	return heavyPercentile, nil
}

// ReadingAtPercentile is the value that the given percent of readings reach or
// pass, on straight lines between the readings plotted at the percent of
// readings at or above each. Readings are CBR in percent, above 0 to 200; one
// to 10,000 of them, in any order.
//
// No allowance is made for few readings: of one reading it is that reading, of
// two it lies on the line between them. A percent below that of the greatest
// reading gives the greatest reading, and nothing is ever extrapolated.
func ReadingAtPercentile(readings []float64, percent float64) (float64, error) {
	if err := aPercentile.Named("percent").Check(percent); err != nil {
		return 0, err
	}
	if n := len(readings); n < fewestReadings || n > mostReadings {
		return 0, calculation.OutOfRange("number of readings", float64(n), "", fmt.Sprintf("%d to %d", fewestReadings, mostReadings), asphaltInstitute)
	}
	for _, x := range readings {
		if err := aCBR.Named("reading").Check(x); err != nil {
			return 0, err
		}
	}
	sorted := slices.Sorted(slices.Values(readings))
	n := float64(len(sorted))
	value, at := sorted[0], everyTest
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

// DesignCBR is the CBR in percent to design with, of several readings and the
// traffic in equivalent single axle loads: [ReadingAtPercentile] at
// [DesignPercentile]. It is not rounded.
func DesignCBR(readings []float64, esals float64) (float64, error) {
	percent, err := DesignPercentile(esals)
	if err != nil {
		return 0, err
	}
	return ReadingAtPercentile(readings, percent)
}
