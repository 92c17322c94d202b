package geosynthetic

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// OverlapSet names a table of fabric overlaps by CBR. The two disagree on
// where the first row ends, at CBR 2 or 3, so a design must say which it used.
type OverlapSet string

// The tables.
const (
	FHWAOverlap OverlapSet = "FHWA overlaps"
	M288Overlap OverlapSet = "M 288 overlaps"
)

// Vocabulary lists the tables.
func (OverlapSet) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "overlap_set",
		About: "A table of fabric overlaps by CBR.",
		Words: []value.WordEntry{
			{Name: "fhwa_overlaps", Label: string(FHWAOverlap), About: "FHWA HI-95-038 and NHI-07-092."},
			{Name: "m288_overlaps", Label: string(M288Overlap), About: "AASHTO M 288, appendix."},
		},
	}
}

// Seam is how one roll of fabric joins the next.
type Seam string

// The seams.
const (
	Lapped       Seam = "lapped"
	LappedOrSewn Seam = "lapped or sewn"
	Sewn         Seam = "sewn"
)

// Vocabulary lists the seams.
func (Seam) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "seam",
		About: "How one roll of fabric joins the next.",
		Words: []value.WordEntry{
			{Name: "lapped", Label: string(Lapped), About: "Laid over the next roll by the overlap."},
			{Name: "lapped_or_sewn", Label: string(LappedOrSewn), About: "Lapped by the overlap, or sewn."},
			{Name: "sewn", Label: string(Sewn), About: "Sewn; no lap will do."},
		},
	}
}

// overlapRow is a row of an overlap table, in meters. It holds for a CBR above
// its bound, and at the bound where that is said. A CBR that two rows share
// goes to the softer one.
type overlapRow struct {
	bound       float64
	atBound     bool
	least, most float64
	seam        Seam
}

type overlapTable struct {
	document string
	rows     []overlapRow
	end      float64 // overlap at roll ends, m
}

// fabricSewnBelow is the CBR below which both tables have only sewn seams.
const fabricSewnBelow = 0.5

var overlapTables = map[OverlapSet]overlapTable{
	// From memory; the rows of 0.9 m are corroborated by a secondary page.
	FHWAOverlap: {
		document: "FHWA HI-95-038 and NHI-07-092",
		rows: []overlapRow{
			{bound: 2, least: 0.30, most: 0.45, seam: Lapped},
			{bound: 1, least: 0.60, most: 0.90, seam: Lapped},
			{bound: fabricSewnBelow, atBound: true, least: 0.90, most: 0.90, seam: LappedOrSewn},
		},
		end: 0.90,
	},
	// Rows by CBR relayed by a secondary page; the attribution to the appendix
	// and the roll ends from memory.
	M288Overlap: {
		document: "AASHTO M 288-06, App. X1",
		rows: []overlapRow{
			{bound: 3, least: 0.30, most: 0.45, seam: Lapped},
			{bound: 1, least: 0.60, most: 1.00, seam: Lapped},
			{bound: fabricSewnBelow, atBound: true, least: 1.00, most: 1.00, seam: LappedOrSewn},
		},
		end: 1.00,
	},
}

func tableOf(set OverlapSet) (overlapTable, error) {
	table, known := overlapTables[set]
	if !known {
		return table, calculation.UnknownWord("set", set)
	}
	return table, nil
}

// rowOf finds the row of a CBR; ok is false where the seam must be sewn.
func (t overlapTable) rowOf(cbr float64) (row overlapRow, ok bool) {
	for _, row := range t.rows {
		if cbr > row.bound || (row.atBound && cbr == row.bound) {
			return row, true
		}
	}
	return overlapRow{}, false
}

// lapOf finds the row of a CBR, and refuses where no lap is published.
func lapOf(cbr float64, set OverlapSet) (overlapRow, error) {
	table, err := tableOf(set)
	if err = cmp.Or(err, checkCBR("cbr", cbr)); err != nil {
		return overlapRow{}, err
	}
	row, ok := table.rowOf(cbr)
	if !ok {
		return overlapRow{}, sewnOnly(cbr, table)
	}
	return row, nil
}

func sewnOnly(cbr float64, table overlapTable) error {
	return calculation.OutOfRange("cbr", cbr, "percent", "0.5 percent and more; below it the seam is sewn and has no lap", table.document)
}

// FabricOverlapLeast is the least overlap of fabric rolls on ground of the
// given CBR (percent, above 0 to 100). Below CBR 0.5 seams are sewn: there is
// no overlap and the error is a [calculation.RangeError]; ask [FabricSeam]
// first. FHWA: above 2, 0.30 m; above 1, 0.60 m; from 0.5, 0.90 m. M 288: above
// 3, 0.30 m; above 1, 0.60 m; from 0.5, 1.0 m. FHWA from memory, M 288 relayed.
func FabricOverlapLeast(cbr float64, set OverlapSet) (quantity.Length, error) {
	row, err := lapOf(cbr, set)
	return quantity.Meters(row.least), err
}

// FabricOverlapMost is the upper end of the published range of overlaps, for
// the softer ground of each row: 0.45 m, then 0.90 m (FHWA) or 1.0 m (M 288).
// It refuses as [FabricOverlapLeast].
func FabricOverlapMost(cbr float64, set OverlapSet) (quantity.Length, error) {
	row, err := lapOf(cbr, set)
	return quantity.Meters(row.most), err
}

// FabricSeam is how rolls join side by side on ground of the given CBR
// (percent, above 0 to 100): lapped above 1, lapped or sewn from 0.5, sewn
// below. FHWA from memory, M 288 relayed; they agree.
func FabricSeam(cbr float64, set OverlapSet) (Seam, error) {
	table, err := tableOf(set)
	if err = cmp.Or(err, checkCBR("cbr", cbr)); err != nil {
		return "", err
	}
	row, ok := table.rowOf(cbr)
	if !ok {
		return Sewn, nil
	}
	return row.seam, nil
}

// FabricEndOverlap is the overlap at roll ends, 0.90 m (FHWA) or 1.0 m (M
// 288), where they are not sewn. Below CBR 0.5 it refuses as
// [FabricOverlapLeast]. From memory; the FHWA value is relayed as well.
func FabricEndOverlap(cbr float64, set OverlapSet) (quantity.Length, error) {
	if _, err := lapOf(cbr, set); err != nil {
		return 0, err
	}
	return quantity.Meters(overlapTables[set].end), nil
}

// FabricEndSeam is how rolls join end to end: lapped or sewn, and sewn below
// CBR 0.5. From memory; the FHWA value is relayed as well.
func FabricEndSeam(cbr float64, set OverlapSet) (Seam, error) {
	side, err := FabricSeam(cbr, set)
	if err != nil || side == Sewn {
		return side, err
	}
	return LappedOrSewn, nil
}

// Overlaps of a grid, Indiana DOT recurring special provision 617-R-188b (rev.
// 7-1-95), sec. 617.04, seen.
const (
	agencyGridOverlap     = 0.6 // m
	agencyGridOverlapSoft = 0.9
)

// AgencyGridOverlap is the least side and end overlap of a geogrid by a road
// agency: 0.6 m, and 0.9 m where the ground does not carry people on foot.
// The provision asks for 0.9 m too where 0.6 m proves too little. Indiana DOT
// 617-R-188b sec. 617.04, seen.
func AgencyGridOverlap(carriesFootTraffic bool) quantity.Length {
	if carriesFootTraffic {
		return agencyGridOverlap
	}
	return agencyGridOverlapSoft
}
