package geosynthetic

import "example.com/groundrule/pkg/value"

const (
	giroudHanTitle = "Giroud & Han (2004), Design method for geogrid-reinforced unpaved roads, J. Geotech. Geoenviron. Eng. 130(8), 775-797"
	fhwaTitle      = "FHWA NHI-07-092 (2008)"
	armyTitle      = "TM 5-818-8 (1995)"
	etlTitle       = "USACE ETL 1110-1-189 (2003)"
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
		Known: value.Computed, Note: "recovered by fitting, not read in a publication; gives the thicker platform",
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
	aggregateRoads = value.Source{
		ID: "etl-1110-1-189-aggregate", Document: etlTitle, Clause: "aggregate-surfaced roads, after Tingle & Webster (2003)", Known: value.Memory,
	}
	m288Strength = value.Source{
		ID: "m288-table-1", Document: m288, Clause: "Table 1", Known: value.Memory,
	}
	m288Drainage = value.Source{
		ID: "m288-table-2", Document: "AASHTO M 288", Clause: "Table 2", Known: value.Relayed, Via: "UFGS 02373, note to the designer",
		Note: "the note prints the last row as greater than 15 percent; read as 50",
	}
	m288Under = value.Source{
		ID: "m288-tables-3-4", Document: m288, Clause: "Tables 3 and 4", Known: value.Memory,
	}
	m288OverlapRows = value.Source{
		ID: "m288-overlap", Document: m288, Clause: "App. X1", Known: value.Relayed, Via: "a secondary page",
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
	armyFilterLimits = value.Source{
		ID: "ufc-3-270-04", Document: "UFC 3-270-04", Clause: "p. 83", Known: value.Seen,
	}
	corpsFilter = value.Source{
		ID: "corps-1977-filter", Document: "Corps of Engineers criteria (1977)", Known: value.Relayed, Via: "a coastal engineering manual",
	}
	sieve70 = value.Source{
		ID: "astm-e11-no-70", Document: "ASTM E11", Clause: "No. 70 sieve, 0.212 mm", Known: value.Memory,
	}
	fhwaGrids = value.Source{
		ID: "fhwa-grids", Document: fhwaTitle, Clause: "ch. 5", Known: value.Memory,
	}
	airports = value.Source{
		ID: "planning-and-design-of-airports", Document: "Horonjeff, McKelvey, Sproule & Young, Planning and Design of Airports",
		Clause: "subsurface drainage, p. 379", Known: value.Seen, Note: "edition not shown; use under grids from memory",
	}
	gridPlaceRule = value.Source{
		ID: "etl-1110-1-189-place", Document: etlTitle, Clause: "position of the grid", Known: value.Memory,
	}
	collin = value.Source{
		ID: "collin-1996", Document: "Collin, Kinney & Fu (1996), Geosynthetics International 3(4)", Clause: "abstract", Known: value.Seen,
	}
	reductionRule = value.Source{
		ID: "aashto-r-50", Document: "AASHTO R 50 and GMA White Paper II (2000)", Known: value.Memory,
	}
	fhwaWhere = value.Source{
		ID: "fhwa-where", Document: fhwaTitle, Clause: "ch. 5, subgrades where geosynthetics help", Known: value.Relayed, Via: "a reprint of FHWA text",
	}
	fhwaFunctions = value.Source{
		ID: "fhwa-functions", Document: "FHWA HI-95-038, Table 5-1, and NHI-07-092, ch. 5", Known: value.Memory,
	}
	etlAt4 = value.Source{
		ID: "etl-1110-1-189-cbr-4", Document: etlTitle, Clause: "sec. 3.1, Table 6, at CBR 4", Known: value.Seen,
	}
	etlBounds = value.Source{
		ID: "etl-1110-1-189-bounds", Document: etlTitle, Clause: "Table 6, other bounds", Known: value.Memory,
	}
	armyFabricLimit = value.Source{
		ID: "tm-5-818-8-cbr-4", Document: armyTitle, Clause: "reinforcement of surfaced roads", Known: value.Seen,
	}
	gmaWhere = value.Source{
		ID: "gma-wp2-where", Document: "GMA White Paper II (2000) and FHWA NHI-07-092", Clause: "where base reinforcement is usually applied", Known: value.Memory,
	}
)
