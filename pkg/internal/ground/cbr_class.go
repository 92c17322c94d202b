package ground

import (
	"cmp"
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// CBRTable is the choice of a published table of CBR by soil group. All three
// are from memory: check the print before use.
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
		About: "published tables of CBR by soil group, from memory",
		Words: []value.WordEntry{
			{Name: "table_tm_3_357", Label: string(TableTM3357), About: "USACE WES TM 3-357 App. B: field CBR"},
			{Name: "table_navfac_dm7", Label: string(TableNAVFAC), About: "NAVFAC DM-7.02 (1986) Table 1: soils compacted to standard Proctor"},
			{Name: "table_nhi_05_037", Label: string(TableNHI), About: "FHWA NHI-05-037: typical CBR"},
		},
	}
}

// cbrBand is a range of CBR in percent; low 0 means that the table gives only
// an upper value.
type cbrBand struct{ low, high float64 }

// cbrTables are from memory (TM 3-357 and NAVFAC surely, NHI fairly surely). GM
// and SM of TM 3-357 are the rows of the more plastic kind, (u), which are the
// lower; the kind (d), LL to 25 and PI to 5, runs 40 to 60 and 15 to 40.
var cbrTables = map[CBRTable]map[Group]cbrBand{
	TableTM3357: {
		GW: {40, 80}, GP: {30, 60}, GM: {20, 30}, GC: {20, 40},
		SW: {20, 40}, SP: {10, 40}, SM: {10, 20}, SC: {5, 20},
		ML: {0, 15}, CL: {0, 15}, OL: {0, 5}, MH: {0, 10}, CH: {0, 15}, OH: {0, 5},
	},
	TableNAVFAC: {
		GW: {40, 80}, GP: {30, 60}, GM: {20, 60}, GC: {20, 40},
		SW: {20, 40}, SP: {10, 40}, SM: {10, 40}, SCSM: {5, 30}, SC: {5, 20},
		ML: {0, 15}, CL: {0, 15}, OL: {0, 5}, MH: {0, 10}, CH: {0, 15}, OH: {0, 5},
	},
	TableNHI: {
		GW: {60, 80}, GP: {35, 60}, GM: {40, 80}, GC: {20, 40},
		SW: {20, 40}, SP: {15, 30}, SM: {20, 40}, SC: {10, 20},
		ML: {5, 15}, CL: {5, 15}, OL: {0, 5}, MH: {2, 8}, CH: {1, 5}, OH: {1, 3},
	},
}

// band is the entry for a group. A dual group without an entry takes the lower
// of its two parts at either end, which is this library's own safe side.
func (t CBRTable) band(g Group) (cbrBand, error) {
	if err := cmp.Or(calculation.CheckWord("t", t), calculation.CheckWord("g", g)); err != nil {
		return cbrBand{}, err
	}
	if b, ok := cbrTables[t][g]; ok {
		return b, nil
	}
	a, ok := cbrTables[t][g.First()]
	b, too := cbrTables[t][g.Second()]
	if !ok || !too {
		return cbrBand{}, &NoEntryError{Table: string(t), Entry: string(g), Because: "it is not suitable to build on"}
	}
	return cbrBand{low: min(a.low, b.low), high: min(a.high, b.high)}, nil
}

// CBRLowFromClass is the low end, in percent, of the range that a table gives
// for a soil group. TM 3-357 and NAVFAC give fine soils an upper value only: a
// [NoEntryError], and one for peat.
func CBRLowFromClass(g Group, table CBRTable) (float64, error) {
	b, err := table.band(g)
	if err != nil {
		return 0, err
	}
	if b.low == 0 {
		return 0, &NoEntryError{Table: string(table), Entry: "the low end of " + string(g),
			Because: fmt.Sprintf("it gives only %g or less; test the soil", b.high)}
	}
	return b.low, nil
}

// CBRHighFromClass is the high end, in percent, of the range that a table gives
// for a soil group.
func CBRHighFromClass(g Group, table CBRTable) (float64, error) {
	b, err := table.band(g)
	return b.high, err
}

// Correlations of NCHRP 1-37A App. CC and NHI-05-037 Table 5-34, from memory.
const (
	plasticCBRScale   = 75
	plasticCBRFactor  = 0.728
	grainCBRScale     = 28.09
	grainCBRExponent  = 0.358
	percentInFraction = 100
)

var (
	aPlasticPI = calculation.Range{Low: 0, High: 1000, Above: true, Unit: "%", Document: "NCHRP 1-37A App. CC, plastic soils"}
	aFinesPart = calculation.Range{Low: 0, High: 100, Above: true, Unit: "%", Document: "NCHRP 1-37A App. CC, plastic soils"}
	// The correlation is used between these sizes (from memory).
	aGrainD60 = calculation.Range{Low: 0.01, High: 30, Unit: "mm", Document: "NCHRP 1-37A App. CC, clean coarse soils"}
)

// CBRFromPlasticity is 75/(1 + 0.728 w PI) in percent for a plastic soil: w is
// p200 as a fraction, p200 and pi in percent, both above 0. From memory.
func CBRFromPlasticity(p200, pi float64) (float64, error) {
	if err := cmp.Or(aFinesPart.Named("p200").Check(p200), aPlasticPI.Named("pi").Check(pi)); err != nil {
		return 0, err
	}
	return plasticCBRScale / (1 + float64(plasticCBRFactor*float64(p200/percentInFraction)*pi)), nil
}

// CBRFromGrainSize is 28.09 D60^0.358 in percent for a clean coarse soil, D60
// from 0.01 to 30 mm. From memory.
func CBRFromGrainSize(d60 quantity.Length) (float64, error) {
	mm := d60.Millimeters()
	if err := aGrainD60.Named("D60").Check(mm); err != nil {
		return 0, err
	}
	return float64(grainCBRScale * portable.Pow(mm, grainCBRExponent)), nil
}
