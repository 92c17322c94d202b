package structure

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
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

const drainageDocument = aashto1993 + ", Table 2.4"

// drainageTable is the lower, safe end of each range of AASHTO 1993 Table 2.4, p.
// II-25 (memory; the end points of the table relayed). Columns: near saturation
// less than 1, 1 to 5, and 5 % of the time or more. The Guide's fourth column, more
// than 25 %, has the lower ends of its third.
var drainageTable = map[DrainageQuality][3]float64{
	ExcellentDrainage: {1.35, 1.30, 1.20},
	GoodDrainage:      {1.25, 1.15, 1.00},
	FairDrainage:      {1.15, 1.05, 0.80},
	PoorDrainage:      {1.05, 0.80, 0.60},
	VeryPoorDrainage:  {0.95, 0.75, 0.40},
}

var saturations = calculation.Range{Name: "saturation", Unit: "%", Low: 0, High: 100, Document: drainageDocument}

// DrainageCoefficient returns the lower, safe end of the printed range of the
// drainage coefficient, for a layer that is near saturation for the given share
// of the time, 0 to 100 %. A share on the edge of two columns is read in the
// wetter one.
//
// AASHTO 1993, Table 2.4 (memory).
func DrainageCoefficient(quality DrainageQuality, saturation quantity.Share) (float64, error) {
	if err := cmp.Or(calculation.CheckWord("drainage quality", quality), saturations.CheckMeasure(saturation)); err != nil {
		return 0, err
	}
	row := drainageTable[quality]
	switch percent := saturation.Percent(); {
	case percent < 1:
		return row[0], nil
	case percent < 5:
		return row[1], nil
	}
	return row[2], nil
}

func drainageCalculations() []calculation.Function {
	return []calculation.Function{{
		Name:  "drainage_coefficient",
		About: "The drainage coefficient of a granular layer, the lower end of the printed range.",
		Params: []calculation.Param{
			param("quality", "how soon water leaves the layer"),
			param("saturation", "share of the time that the layer is near saturation, 0 to 100 %"),
		},
		Result:  param("drainage", "drainage coefficient, 0.40 to 1.35"),
		Range:   "saturation 0 to 100 %",
		Sources: []value.Source{sourceDrainage},
		Example: "drainage_coefficient(good_drainage, percent(10))",
		Go:      DrainageCoefficient,
	}}
}
