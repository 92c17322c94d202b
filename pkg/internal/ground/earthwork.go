package ground

import (
	"cmp"
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Earth is a kind of earth for its change of volume.
type Earth string

// The kinds.
const (
	EarthSand  Earth = "sand"
	EarthLoam  Earth = "common earth"
	EarthClay  Earth = "clay"
	EarthRock  Earth = "blasted rock"
	EarthCoral Earth = "coral"
)

// earths holds loose and compacted volume over bank volume. FM 5-434 (2000)
// Table 1-1, from memory; the row of sand relayed from a Navy training manual.
var earths = []struct {
	earth            Earth
	word, about      string
	loose, compacted float64
}{
	{EarthSand, "earth_sand", "sand", 1.11, 0.95},
	{EarthLoam, "earth_loam", "common earth, loam", 1.25, 0.90},
	{EarthClay, "earth_clay", "clay", 1.43, 0.90},
	{EarthRock, "earth_blasted_rock", "blasted rock", 1.50, 1.30},
	{EarthCoral, "earth_coral", "coral, as blasted rock", 1.50, 1.30},
}

// Vocabulary lists the kinds.
func (Earth) Vocabulary() value.Vocabulary {
	v := value.Vocabulary{Name: "earth", About: "kinds of earth, for the change of volume when it is dug and compacted"}
	for _, each := range earths {
		v.Words = append(v.Words, value.WordEntry{Name: each.word, Label: string(each.earth), About: each.about})
	}
	return v
}

// EarthState is how earth lies.
type EarthState string

// The states.
const (
	InBank    EarthState = "bank"
	Loose     EarthState = "loose"
	Compacted EarthState = "compacted"
)

// Vocabulary lists the states.
func (EarthState) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "earth_state",
		About: "how earth lies",
		Words: []value.WordEntry{
			{Name: "in_bank", Label: string(InBank), About: "in place, before it is dug"},
			{Name: "dug_loose", Label: string(Loose), About: "dug, in the heap or on the truck"},
			{Name: "earth_compacted", Label: string(Compacted), About: "placed and compacted"},
		},
	}
}

// overBank is the volume in a state over the volume in the bank.
func (e Earth) overBank(s EarthState) float64 {
	for _, each := range earths {
		if each.earth == e {
			switch s {
			case Loose:
				return each.loose
			case Compacted:
				return each.compacted
			}
		}
	}
	return 1
}

// EarthVolume is the volume that earth takes in one state, from its volume in
// another, 0 to 1e9 m3. FM 5-434 Table 1-1, from memory.
func EarthVolume(v quantity.Volume, from, to EarthState, of Earth) (quantity.Volume, error) {
	if err := cmp.Or(calculation.CheckWord("from", from), calculation.CheckWord("to", to), calculation.CheckWord("of", of), aVolume.Named("volume").Check(float64(v))); err != nil {
		return 0, err
	}
	if from == to {
		return v, nil
	}
	return quantity.Volume(float64(v) * of.overBank(to) / of.overBank(from)), nil
}

const bankAndLoose = "earthwork volumes, loose = bank (1 + swell)"

var (
	aSwell     = calculation.Range{Low: 0, High: 200, Unit: "%", Document: bankAndLoose}
	aShrinkage = calculation.Range{Low: 0, High: 200, Above: true, Unit: "%", Document: "earthwork volumes, compacted = bank x shrinkage factor"}
	aUnit      = calculation.Range{Low: 0, High: 400, Above: true, Unit: "pcf", Document: "unit weight of earth"}
)

// LooseFromBank is bank (1 + swell), swell 0 to 200 %, volume 0 to 1e9 m3 (seen
// in estimating texts).
func LooseFromBank(bank quantity.Volume, swell float64) (quantity.Volume, error) {
	if err := cmp.Or(aVolume.Named("bank volume").Check(float64(bank)), aSwell.Named("swell").Check(swell)); err != nil {
		return 0, err
	}
	return quantity.Volume(float64(bank) * (1 + swell/100)), nil
}

// BankFromCompacted is the bank volume that makes a compacted volume, 0 to 1e9
// m3, by the shrinkage factor, compacted over bank in percent, above 0 to 200
// (seen in estimating texts).
func BankFromCompacted(compacted quantity.Volume, shrinkage float64) (quantity.Volume, error) {
	if err := cmp.Or(aVolume.Named("compacted volume").Check(float64(compacted)), aShrinkage.Named("shrinkage factor").Check(shrinkage)); err != nil {
		return 0, err
	}
	bank := quantity.Volume(float64(compacted) / (shrinkage / 100))
	return onlyIf(bank, aVolume.Named("bank volume").Check(float64(bank)))
}

// SwellPercent is how much more room earth takes loose than in the bank, in
// percent, from its unit weights, above 0 to 400 pcf, loose no more than bank.
func SwellPercent(bank, loose quantity.Density) (float64, error) {
	if err := cmp.Or(aUnit.Named("bank unit weight").Check(bank.PCF()), aUnit.Named("loose unit weight").Check(loose.PCF())); err != nil {
		return 0, err
	}
	if loose > bank {
		return 0, calculation.OutOfRange("loose unit weight", loose.PCF(), "pcf", fmt.Sprintf("at most that in the bank, %.4g pcf", bank.PCF()), bankAndLoose)
	}
	swell := 100 * (float64(bank/loose) - 1)
	return onlyIf(swell, aSwell.Named("swell").Check(swell))
}
