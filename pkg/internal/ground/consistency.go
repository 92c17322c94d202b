package ground

import (
	"slices"

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

// consistencyBands holds the low edges of the bands: unconfined strength in tsf
// (TM 5-818-1 Table 2-2, seen) and the blow count of the standard penetration
// test (TxDOT Geotechnical Manual LRFD Table 4-2, seen). The last band is open.
// middle is the undrained strength in kPa at the middle of the same bands as they
// are written in SI, with edges at 12.5, 25, 50, 100 and 200 kPa (relayed).
var consistencyBands = []struct {
	consistency Consistency
	word, about string
	qu, blows   float64
	middle      float64
}{
	{VerySoft, "very_soft", "the fist goes in several inches easily", 0, 0, 6.25},
	{Soft, "soft", "the thumb goes in several inches easily", 0.25, 2, 18.75},
	{Medium, "medium_stiff", "the thumb goes in several inches with moderate push", 0.5, 4, 37.5},
	{Stiff, "stiff", "the thumb dents it readily but goes in only with great effort", 1, 8, 75},
	{VeryStiff, "very_stiff", "the thumbnail dents it readily", 2, 15, 150},
	{Hard, "hard", "the thumbnail dents it with difficulty", 4, 30, 0},
}

// Vocabulary lists the bands; "medium" is the word medium_stiff.
func (Consistency) Vocabulary() value.Vocabulary {
	v := value.Vocabulary{Name: "consistency", About: "how firm a clay is to the hand"}
	for _, each := range consistencyBands {
		v.Words = append(v.Words, value.WordEntry{Name: each.word, Label: string(each.consistency), About: each.about})
	}
	return v
}

// band returns the index of a consistency, if it is one of the allowed.
func (c Consistency) band(because string, allowed ...Consistency) (int, error) {
	for i, each := range consistencyBands {
		if each.consistency == c && slices.Contains(allowed, c) {
			return i, nil
		}
	}
	e := &calculation.WordError{Name: "consistency", Got: string(c), Document: tm5_818_1 + "; " + because}
	for _, each := range allowed {
		e.Want = append(e.Want, string(each))
	}
	return 0, e
}

// UnconfinedStrengthLow returns the low edge of a band of consistency. Very soft
// clay has none, because nobody can design on a strength of 0.
func UnconfinedStrengthLow(c Consistency) (quantity.Pressure, error) {
	i, err := c.band("very soft clay starts at nothing: undercut or stabilize it", Soft, Medium, Stiff, VeryStiff, Hard)
	return onlyIf(tonsPerSquareFoot(consistencyBands[i].qu), err)
}

// UnconfinedStrengthHigh returns the high edge of a band of consistency. Hard clay
// has none.
func UnconfinedStrengthHigh(c Consistency) (quantity.Pressure, error) {
	i, err := c.band("the band of hard clay has no end", VerySoft, Soft, Medium, Stiff, VeryStiff)
	return onlyIf(tonsPerSquareFoot(consistencyBands[i+1].qu), err)
}

// tonsPerSquareFoot is a pressure in short tons-force per square foot.
func tonsPerSquareFoot(x float64) quantity.Pressure {
	const poundsPerTon, squareInchesPerSquareFoot = 2000, 144
	return quantity.PSI(x * poundsPerTon / squareInchesPerSquareFoot)
}

// CBRFromConsistency returns the CBR in percent at the middle of a band, by the
// chosen divisor: the value to design with. Hard clay, whose band has no end, has
// that of its low edge.
func CBRFromConsistency(c Consistency, divisor StrengthDivisor) (float64, error) {
	if c == Hard {
		return CBRLowFromConsistency(c, divisor)
	}
	i, err := c.band("a band of the hand test", VerySoft, Soft, Medium, Stiff, VeryStiff, Hard)
	if err != nil {
		return 0, err
	}
	return CBRFromUndrainedStrength(quantity.Kilopascals(consistencyBands[i].middle), divisor)
}

// CBRLowFromConsistency returns the CBR in percent at the low edge of a band, by
// the chosen divisor.
func CBRLowFromConsistency(c Consistency, divisor StrengthDivisor) (float64, error) {
	qu, err := UnconfinedStrengthLow(c)
	if err != nil {
		return 0, err
	}
	return CBRFromPocketPenetrometer(qu, divisor)
}

// CBRHighFromConsistency returns the CBR in percent at the high edge of a band.
func CBRHighFromConsistency(c Consistency, divisor StrengthDivisor) (float64, error) {
	qu, err := UnconfinedStrengthHigh(c)
	if err != nil {
		return 0, err
	}
	return CBRFromPocketPenetrometer(qu, divisor)
}

var blowCount = calculation.Range{Name: "blow count", Low: 0, High: 500, Unit: "blows per foot", Document: "TxDOT Geotechnical Manual LRFD Table 4-2"}

// ConsistencyFromBlowCount returns the band of a clay by the blow count N of the
// standard penetration test, 0 to 500. A value on an edge belongs to the softer
// band, as the bands overlap there.
func ConsistencyFromBlowCount(n float64) (Consistency, error) {
	if err := blowCount.Check(n); err != nil {
		return "", err
	}
	band := VerySoft
	for _, each := range consistencyBands {
		if n > each.blows || (each.consistency == Soft && n == each.blows) {
			band = each.consistency
		}
	}
	return band, nil
}
