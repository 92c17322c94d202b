package geosynthetic

import "example.com/groundrule/pkg/value"

const (
	giroudHanTitle = "Giroud & Han (2004), Design method for geogrid-reinforced unpaved roads, J. Geotech. Geoenviron. Eng. 130(8), 775-797"
	fhwaTitle      = "FHWA NHI-07-092 (2008)"
	armyTitle      = "TM 5-818-8 (1995)"
)

var (
	giroudHanForm = value.Source{
		ID: "giroud-han-2004", Document: giroudHanTitle, Clause: "design equation",
		Known: value.Relayed, Via: "lecture slides on the development and calibration of the method by its second author (J. Han, undated)",
	}
	giroudHanFactors = value.Source{
		ID: "giroud-han-2004-limits", Document: giroudHanTitle, Clause: "bearing factors, strength by CBR, limits of use",
		Known: value.Memory, Note: "calibrated on punched and drawn biaxial grids, aperture stability modulus 0.32 and 0.65 N·m/degree",
	}
	giroudHanRanges = value.Source{
		ID: "giroud-han-judged-ranges", Clause: "ranges of wheel load, pressure, stone and least CBR",
		Known: value.Computed, Note: "judged within one half of the calibration at 40 kN and 550 kPa; not in the publication",
	}
	laboratoryFit = value.Source{
		ID: "giroud-han-laboratory", Clause: "laboratory constants of the platform equation",
		Known: value.Computed, Note: "recovered by fitting, not read in a publication; makes the thicker platform",
	}
	armyManualBearing = value.Source{
		ID: "tm-5-818-8-bearing", Document: armyTitle, Clause: "para. 2-7", Known: value.Seen,
		Note: "after Steward, Williamson & Mohney (1977)",
	}
	fieldManualLoads = value.Source{
		ID: "fm-5-430-app-h", Document: "FM 5-430-00-1", Clause: "App. H", Known: value.Seen,
	}
	deepRutFactors = value.Source{
		ID: "tm-5-818-8-deep-rut", Document: armyTitle, Clause: "factors for few passes and deep ruts", Known: value.Memory,
	}
	boussinesqUse = value.Source{
		ID: "crrel-tr-01-8", Document: "CRREL TR-01-8", Known: value.Seen,
		Note: "says that the Army method assumes Boussinesq's spread of stress, and doubts it in rounded, sandy or dirty stone",
	}
	boussinesqFormula = value.Source{
		ID: "boussinesq", Document: "Boussinesq's stress under a circular load, on its axis", Known: value.Memory,
	}
	m288Drainage = value.Source{
		ID: "m288-table-2", Document: "AASHTO M 288", Clause: "Table 2", Known: value.Relayed, Via: "UFGS 02373, note to the designer",
		Note: "the note prints the last row as greater than 15 percent; read as 50",
	}
	m288OverlapRows = value.Source{
		ID: "m288-overlap", Document: "AASHTO M 288-06", Clause: "App. X1", Known: value.Relayed, Via: "a secondary page",
		Note: "attribution to the appendix and the roll ends from memory",
	}
	fhwaOverlapRows = value.Source{
		ID: "fhwa-overlap", Document: "FHWA HI-95-038 and NHI-07-092", Clause: "overlap table", Known: value.Memory,
		Note: "0.90 m at CBR 0.5 to 1 and at roll ends is relayed as well",
	}
	indianaGrid = value.Source{
		ID: "indiana-617-r-188b", Document: "Indiana DOT recurring special provision 617-R-188b (rev. 7-1-95)", Clause: "sec. 617.04", Known: value.Seen,
	}
	fhwaFilterDesign = value.Source{
		ID: "fhwa-filter", Document: fhwaTitle, Clause: "ch. 2", Known: value.Memory,
	}
	fhwaGrids = value.Source{
		ID: "fhwa-grids", Document: fhwaTitle, Clause: "ch. 5", Known: value.Memory,
	}
)
