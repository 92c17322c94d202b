package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

var (
	aSwell     = calculation.Range{Name: "swell", Low: 0, High: 200, Unit: "%", Document: "earthwork volumes, loose = bank (1 + swell)"}
	aShrinkage = calculation.Range{Name: "shrinkage factor", Low: 0, High: 200, Above: true, Unit: "%",
		Document: "earthwork volumes, compacted = bank x shrinkage factor"}
)

// LooseFromBank returns bank (1 + swell), swell 0 to 200 %, volume 0 to 1e9 m3
// (relayed by an estimating textbook).
func LooseFromBank(bank quantity.Volume, swell quantity.Share) (quantity.Volume, error) {
	if err := cmp.Or(aVolume.Named("bank volume").CheckMeasure(bank), aSwell.CheckMeasure(swell)); err != nil {
		return 0, err
	}
	return quantity.Volume(float64(bank) * (1 + swell.Fraction())), nil
}

// BankFromCompacted returns the bank volume that makes a compacted volume, 0 to
// 1e9 m3, by the shrinkage factor, compacted over bank, above 0 to 200 %
// (relayed by an estimating textbook).
func BankFromCompacted(compacted quantity.Volume, shrinkage quantity.Share) (quantity.Volume, error) {
	if err := cmp.Or(aVolume.Named("compacted volume").CheckMeasure(compacted), aShrinkage.CheckMeasure(shrinkage)); err != nil {
		return 0, err
	}
	bank := quantity.Volume(float64(compacted) / shrinkage.Fraction())
	return onlyIf(bank, aVolume.Named("bank volume").CheckMeasure(bank))
}
