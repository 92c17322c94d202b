package ground

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Consistency is how firm a clay is to the hand.
type Consistency string

// The bands of Terzaghi and Peck, as TM 5-818-1 Table 2-2 prints them.
const (
	VerySoft  Consistency = "very soft"
	Soft      Consistency = "soft"
	Medium    Consistency = "medium"
	Stiff     Consistency = "stiff"
	VeryStiff Consistency = "very stiff"
	Hard      Consistency = "hard"
)

const tm5_818_1 = "TM 5-818-1 Table 2-2"

// consistencyBands holds unconfined strength in tsf (TM 5-818-1 Table 2-2, seen)
// and the blow count of the standard penetration test (TxDOT Geotechnical Manual
// LRFD Table 4-2, seen). The last band is open.
var consistencyBands = []struct {
	consistency Consistency
	word, about string
	quLow, nLow float64
}{
	{VerySoft, "very_soft", "the fist goes in several inches easily", 0, 0},
	{Soft, "soft", "the thumb goes in several inches easily", 0.25, 2},
	{Medium, "medium_stiff", "the thumb goes in several inches with moderate push", 0.5, 4},
	{Stiff, "stiff", "the thumb dents it readily but goes in only with great effort", 1, 8},
	{VeryStiff, "very_stiff", "the thumbnail dents it readily", 2, 15},
	{Hard, "hard", "the thumbnail dents it with difficulty", 4, 30},
}

// Vocabulary lists the bands; "medium" is the word medium_stiff.
func (Consistency) Vocabulary() value.Vocabulary {
	v := value.Vocabulary{Name: "consistency", About: "how firm a clay is to the hand"}
	for _, each := range consistencyBands {
		v.Words = append(v.Words, value.WordEntry{Name: each.word, Label: string(each.consistency), About: each.about})
	}
	return v
}

func (c Consistency) index() int {
	for i, each := range consistencyBands {
		if each.consistency == c {
			return i
		}
	}
	return -1
}

// UnconfinedStrengthLow is the low edge of a band of consistency. Very soft clay
// has none: a [NoEntryError], because a strength of nothing is no design value.
func UnconfinedStrengthLow(c Consistency) (quantity.Pressure, error) {
	if err := calculation.CheckWord("c", c); err != nil {
		return 0, err
	}
	if c == VerySoft {
		return 0, &NoEntryError{Table: tm5_818_1, Entry: "the low edge of very soft clay",
			Because: "the band starts at nothing; undercut or stabilize"}
	}
	return tonsPerSquareFoot(consistencyBands[c.index()].quLow), nil
}

// UnconfinedStrengthHigh is the high edge of a band of consistency. Hard clay
// has none: a [NoEntryError].
func UnconfinedStrengthHigh(c Consistency) (quantity.Pressure, error) {
	if err := calculation.CheckWord("c", c); err != nil {
		return 0, err
	}
	if c == Hard {
		return 0, &NoEntryError{Table: tm5_818_1, Entry: "the high edge of hard clay", Because: "the band is open"}
	}
	return tonsPerSquareFoot(consistencyBands[c.index()+1].quLow), nil
}

// CBRLowFromConsistency is the CBR in percent at the low edge of a band, by the
// chosen divisor: the value to design with.
func CBRLowFromConsistency(c Consistency, divisor StrengthDivisor) (float64, error) {
	qu, err := UnconfinedStrengthLow(c)
	if err != nil {
		return 0, err
	}
	return CBRFromPocketPenetrometer(qu, divisor)
}

// CBRHighFromConsistency is the CBR in percent at the high edge of a band.
func CBRHighFromConsistency(c Consistency, divisor StrengthDivisor) (float64, error) {
	qu, err := UnconfinedStrengthHigh(c)
	if err != nil {
		return 0, err
	}
	return CBRFromPocketPenetrometer(qu, divisor)
}

var (
	aReading = calculation.Range{Low: 0, High: 1e4, Unit: "kPa", Document: tm5_818_1}
	aBlowsN  = calculation.Range{Low: 0, High: 500, Unit: "blows per foot", Document: "TxDOT Geotechnical Manual LRFD Table 4-2"}
)

// ConsistencyFromUnconfinedStrength is the band in which qu lies, 0 to 10 MPa. A
// value on an edge belongs to the firmer band.
func ConsistencyFromUnconfinedStrength(qu quantity.Pressure) (Consistency, error) {
	if err := aReading.Named("unconfined strength").Check(qu.Kilopascals()); err != nil {
		return "", err
	}
	band := VerySoft
	for _, each := range consistencyBands {
		if qu*(1+unitTurn) >= tonsPerSquareFoot(each.quLow) {
			band = each.consistency
		}
	}
	return band, nil
}

// ConsistencyFromBlowCount is the band of a clay by the blow count N of the
// standard penetration test, 0 to 500. A value on an edge belongs to the softer
// band, as the bands overlap there.
func ConsistencyFromBlowCount(n float64) (Consistency, error) {
	if err := aBlowsN.Named("n").Check(n); err != nil {
		return "", err
	}
	band := VerySoft
	for _, each := range consistencyBands {
		if n > each.nLow || (each.consistency == Soft && n == each.nLow) {
			band = each.consistency
		}
	}
	return band, nil
}
