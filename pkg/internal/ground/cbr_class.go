package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// CBRTable is the choice of a published table of CBR by soil group. The first two
// are from memory, the third is relayed: check the print before use.
type CBRTable string

// The tables.
const (
	TableTM3357 CBRTable = "TM 3-357"
	TableNAVFAC CBRTable = "NAVFAC DM-7.02"
	TableNHI    CBRTable = "NHI-05-037"
)

// Vocabulary lists the tables.
func (CBRTable) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "cbr_table",
		About: "published tables of CBR by soil group",
		Words: []value.WordEntry{
			{Name: "table_tm_3_357", Label: string(TableTM3357), About: "USACE WES TM 3-357 App. B: field CBR, from memory"},
			{Name: "table_navfac_dm7", Label: string(TableNAVFAC), About: "NAVFAC DM-7.02 (1986) Table 1: soils compacted to standard Proctor, from memory"},
			{Name: "table_nhi_05_037", Label: string(TableNHI), About: "FHWA NHI-05-037 Table 5-28: field CBR, relayed"},
		},
	}
}

// cbrTables hold the low end, in percent, of the range that a table gives for a
// soil group: TM 3-357 and NAVFAC from memory, NHI relayed by a public
// copy of its tables. 0 is an upper end alone. GM and SM of TM 3-357 are the rows
// of the more plastic kind, (u), which are the lower; the kind (d), LL to 25 and PI
// to 5, starts at 40 and 15.
var cbrTables = map[CBRTable]map[Group]float64{
	TableTM3357: {
		GW: 40, GP: 30, GM: 20, GC: 20, SW: 20, SP: 10, SM: 10, SC: 5,
		ML: 0, CL: 0, OL: 0, MH: 0, CH: 0, OH: 0,
	},
	TableNAVFAC: {
		GW: 40, GP: 30, GM: 20, GC: 20, SW: 20, SP: 10, SM: 10, SCSM: 5, SC: 5,
		ML: 0, CL: 0, OL: 0, MH: 0, CH: 0, OH: 0,
	},
	TableNHI: {
		GW: 60, GP: 35, GM: 40, GC: 20, SW: 20, SP: 15, SM: 20, SC: 10,
		ML: 5, CL: 5, OL: 4, MH: 4, CH: 3, OH: 3,
	},
}

// lowEnd returns the entry for a group. A dual group without an entry takes the
// lower of its two parts, which is this library's own safe side.
func (t CBRTable) lowEnd(g Group) float64 {
	if low, ok := cbrTables[t][g]; ok {
		return low
	}
	first, second := g.parts()
	return min(cbrTables[t][first], cbrTables[t][second])
}

// CBRLowFromClass returns the low end, in percent, of the range that a table
// gives for a soil group. It refuses the groups for which the table gives no low
// end: peat, and in TM 3-357 and NAVFAC all fine soils. That a table gives one
// for an organic soil does not make it fit to build on.
func CBRLowFromClass(g Group, table CBRTable) (float64, error) {
	if err := cmp.Or(g.check(), calculation.CheckWord("table", table)); err != nil {
		return 0, err
	}
	document := string(table) + ", which gives no low end for the others; test the soil"
	return onlyIf(table.lowEnd(g), g.among(document, func(g Group) bool { return table.lowEnd(g) > 0 }))
}

// The correlation of NCHRP 1-37A App. CC-1, as NHI-05-037 Table 5-34 has it,
// relayed by a public copy.
const (
	plasticCBRScale  = 75
	plasticCBRFactor = 0.728
)

var (
	plasticPI    = calculation.Range{Name: "plasticity index", Low: 0, High: 1000, Above: true, Document: "NCHRP 1-37A App. CC, plastic soils"}
	plasticFines = calculation.Range{Name: "p200", Low: 0, High: 100, Above: true, Unit: "%", Document: "NCHRP 1-37A App. CC, plastic soils"}
)

// CBRFromPlasticity returns 75/(1 + 0.728 w PI) in percent for a plastic soil: w
// is p200 as a fraction; p200 and pi are above 0.
//
// The line was drawn through soils compacted near optimum moisture. It is fair
// for w PI of 20 and more, and far too high for silt and lean clay that are wet
// in the ground (computed against HD 25/94): hold it to what the soil group may
// be counted on for.
func CBRFromPlasticity(p200 quantity.Share, pi float64) (float64, error) {
	if err := cmp.Or(plasticFines.CheckMeasure(p200), plasticPI.Check(pi)); err != nil {
		return 0, err
	}
	return plasticCBRScale / (1 + float64(plasticCBRFactor*p200.Fraction()*pi)), nil
}
