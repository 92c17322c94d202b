package structure

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// DrainageQuality says how soon water leaves a layer.
type DrainageQuality string

// The qualities of AASHTO 1993, II-2.4.1 (relayed), by the time in which water leaves.
const (
	ExcellentDrainage DrainageQuality = "excellent" // 2 hours
	GoodDrainage      DrainageQuality = "good"      // 1 day
	FairDrainage      DrainageQuality = "fair"      // 1 week
	PoorDrainage      DrainageQuality = "poor"      // 1 month
	VeryPoorDrainage  DrainageQuality = "very poor" // does not drain
)

// Vocabulary lists the qualities, best first.
func (DrainageQuality) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "drainage_quality",
		About: "how soon water leaves a layer",
		Words: []value.WordEntry{
			{Name: "excellent_drainage", Label: string(ExcellentDrainage), About: "water leaves within 2 hours"},
			{Name: "good_drainage", Label: string(GoodDrainage), About: "water leaves within a day"},
			{Name: "fair_drainage", Label: string(FairDrainage), About: "water leaves within a week"},
			{Name: "poor_drainage", Label: string(PoorDrainage), About: "water leaves within a month"},
			{Name: "very_poor_drainage", Label: string(VeryPoorDrainage), About: "water does not leave"},
		},
	}
}

// CoefficientRange is a printed range of drainage coefficients.
type CoefficientRange struct{ Low, High float64 }

// drainageTable is AASHTO 1993 Table 2.4, p. II-25 (memory; the end points 1.40
// and 0.40 relayed). Columns: near saturation less than 1, 1 to 5, 5 to 25 and
// more than 25 % of the time.
//
// The cell of fair drainage at 5 to 25 % circulates as 1.00-0.80 and as
// 1.05-0.80. The lower of the two upper ends, fairWetHigh, is the safe one and
// stands here; fairWetHighOther is kept beside it and not used.
var drainageTable = map[DrainageQuality][4]CoefficientRange{
	ExcellentDrainage: {{1.35, 1.40}, {1.30, 1.35}, {1.20, 1.30}, {1.20, 1.20}},
	GoodDrainage:      {{1.25, 1.35}, {1.15, 1.25}, {1.00, 1.15}, {1.00, 1.00}},
	FairDrainage:      {{1.15, 1.25}, {1.05, 1.15}, {0.80, fairWetHigh}, {0.80, 0.80}},
	PoorDrainage:      {{1.05, 1.15}, {0.80, 1.05}, {0.60, 0.80}, {0.60, 0.60}},
	VeryPoorDrainage:  {{0.95, 1.05}, {0.75, 0.95}, {0.40, 0.75}, {0.40, 0.40}},
}

const (
	fairWetHigh      = 1.00
	fairWetHighOther = 1.05
)

var saturationBound = bound{"saturation", "%", 0, 100, false, aashto1993 + ", Table 2.4"}

// DrainageCoefficients returns the printed range of the drainage coefficient for
// a layer that is near saturation for the given share of the time, in percent,
// 0 to 100. A share on the edge of two columns is read in the wetter one,
// except that 25 is still in the column 5 to 25.
//
// AASHTO 1993, Table 2.4 (memory). The print disagrees with itself in
// circulation at fair drainage and 5 to 25 %: the upper end is 1.00 or 1.05,
// and 1.00, the safe one, is given.
func DrainageCoefficients(quality DrainageQuality, saturation float64) (CoefficientRange, error) {
	row, ok := drainageTable[quality]
	if !ok {
		return CoefficientRange{}, wordError("drainage quality", string(quality), quality.Vocabulary(), aashto1993+", Table 2.4")
	}
	if err := saturationBound.check(saturation); err != nil {
		return CoefficientRange{}, err
	}
	switch {
	case saturation < 1:
		return row[0], nil
	case saturation < 5:
		return row[1], nil
	case saturation <= 25:
		return row[2], nil
	}
	return row[3], nil
}

// DrainageCoefficient returns the lower, safe end of the printed range; see
// [DrainageCoefficients]. In the cell on which the prints disagree both give
// the same lower end, 0.80.
func DrainageCoefficient(quality DrainageQuality, saturation float64) (float64, error) {
	r, err := DrainageCoefficients(quality, saturation)
	return r.Low, err
}

// UpperDrainageCoefficient returns the upper end of the printed range; see
// [DrainageCoefficients].
func UpperDrainageCoefficient(quality DrainageQuality, saturation float64) (float64, error) {
	r, err := DrainageCoefficients(quality, saturation)
	return r.High, err
}

func drainageCalculations() []calculation.Function {
	params := []calculation.Param{
		{Name: "quality", About: "how soon water leaves the layer"},
		{Name: "saturation", About: "share of the time that the layer is near saturation, in percent, 0 to 100"},
	}
	return []calculation.Function{
		{
			Name:    "drainage_coefficient",
			About:   "The drainage coefficient of a granular layer, the lower end of the printed range.",
			Params:  params,
			Result:  calculation.Param{Name: "drainage", About: "drainage coefficient, 0.40 to 1.35"},
			Range:   "saturation 0 to 100 %",
			Sources: []value.Source{sourceDrainage},
			Example: "drainage_coefficient(good_drainage, 10.0)",
			Go:      DrainageCoefficient,
		},
		{
			Name:    "upper_drainage_coefficient",
			About:   "The drainage coefficient of a granular layer, the upper end of the printed range.",
			Params:  params,
			Result:  calculation.Param{Name: "drainage", About: "drainage coefficient, 0.40 to 1.40"},
			Range:   "saturation 0 to 100 %",
			Sources: []value.Source{sourceDrainage},
			Example: "upper_drainage_coefficient(good_drainage, 10.0)",
			Go:      UpperDrainageCoefficient,
		},
	}
}
