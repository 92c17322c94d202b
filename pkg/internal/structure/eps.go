package structure

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// EPS is a type of expanded polystirene geofoam by ASTM D6817.
type EPS string

// The types of ASTM D6817 (relayed), by their density in kg/m3, rounded.
const (
	EPS12 EPS = "EPS12"
	EPS15 EPS = "EPS15"
	EPS19 EPS = "EPS19"
	EPS22 EPS = "EPS22"
	EPS29 EPS = "EPS29"
	EPS39 EPS = "EPS39"
	EPS46 EPS = "EPS46"
)

// Vocabulary lists the types, lightest first.
func (EPS) Vocabulary() value.Vocabulary {
	v := value.Vocabulary{Name: "eps_type", About: "type of expanded polystirene geofoam"}
	for _, row := range epsTable {
		v.Words = append(v.Words, value.WordEntry{
			Name: string(row.eps), Label: string(row.eps), About: "expanded polystirene geofoam type " + string(row.eps),
		})
	}
	return v
}

// EPSStrain is a strain at which geofoam is tested.
type EPSStrain string

// The strains of the table. Sustained stress is kept under the resistance at
// 1 %, the end of the elastic range (memory).
const (
	EPSAt1Percent  EPSStrain = "1 %"
	EPSAt5Percent  EPSStrain = "5 %"
	EPSAt10Percent EPSStrain = "10 %"
)

// Vocabulary lists the strains.
func (EPSStrain) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "eps_strain",
		About: "strain at which geofoam is tested",
		Words: []value.WordEntry{
			{Name: "strain_1_percent", Label: string(EPSAt1Percent), About: "1 %, the end of the elastic range"},
			{Name: "strain_5_percent", Label: string(EPSAt5Percent), About: "5 %"},
			{Name: "strain_10_percent", Label: string(EPSAt10Percent), About: "10 %"},
		},
	}
}

// both is a resistance as printed, in psi and in kPa.
type both struct{ psi, kPa float64 }

// epsTable is the minimum compressive resistance of ASTM D6817 (relayed, three
// independent pages that agree), at 1, 5 and 10 % strain.
var epsTable = []struct {
	eps EPS
	at  [3]both
}{
	{EPS12, [3]both{{2.2, 15}, {5.1, 35}, {5.8, 40}}},
	{EPS15, [3]both{{3.6, 25}, {8.0, 55}, {10.2, 70}}},
	{EPS19, [3]both{{5.8, 40}, {13.1, 90}, {16.0, 110}}},
	{EPS22, [3]both{{7.3, 50}, {16.7, 115}, {19.6, 135}}},
	{EPS29, [3]both{{10.9, 75}, {24.7, 170}, {29.0, 200}}},
	{EPS39, [3]both{{15.0, 103}, {35.0, 241}, {40.0, 276}}},
	{EPS46, [3]both{{18.6, 128}, {43.5, 300}, {50.0, 345}}},
}

// EPSResistance returns the minimum compressive resistance of expanded
// polystirene geofoam at 1, 5 or 10 % strain. The standard prints it in psi and
// in kPa, each rounded; the lower of the two is given. It says nothing of any
// other foam.
//
// ASTM D6817 (relayed).
func EPSResistance(eps EPS, strain EPSStrain) (quantity.Pressure, error) {
	const document = "ASTM D6817"
	column := 0
	switch strain {
	case EPSAt1Percent:
	case EPSAt5Percent:
		column = 1
	case EPSAt10Percent:
		column = 2
	default:
		return 0, wordError("strain", string(strain), strain.Vocabulary(), document)
	}
	for _, row := range epsTable {
		if row.eps == eps {
			cell := row.at[column]
			return min(quantity.PSI(cell.psi), quantity.Kilopascals(cell.kPa)), nil
		}
	}
	return 0, wordError("eps type", string(eps), eps.Vocabulary(), document)
}

func epsCalculations() []calculation.Function {
	return []calculation.Function{{
		Name:  "eps_resistance",
		About: "The minimum compressive resistance of expanded polystirene geofoam.",
		Params: []calculation.Param{
			{Name: "type", About: "type of geofoam"},
			{Name: "strain", About: "strain at which it is tested; sustained stress is held against 1 %"},
		},
		Result:  calculation.Param{Name: "resistance", About: "minimum compressive resistance"},
		Sources: []value.Source{sourceEPS},
		Example: "eps_resistance(EPS29, strain_1_percent)",
		Go:      EPSResistance,
	}}
}
