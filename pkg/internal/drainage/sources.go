package drainage

import "example.com/groundrule/pkg/value"

// The documents that the package stands on, each with how it is known.
var (
	sourceE11 = value.Source{ID: "astm-e11", Document: "ASTM E11",
		Clause: "nominal openings of No. 4 to No. 200", Known: value.Relayed,
		Via: "GNU units 2.22, function sieve"}
	sourceInchSieves = value.Source{ID: "cdot-703", Document: "Colorado DOT Standard Specifications, Section 703",
		Clause: "Table 703-1, paired inch and millimeter sieves", Known: value.Seen}
	sourceE11Memory = value.Source{ID: "astm-e11-memory", Document: "ASTM E11",
		Clause: "nominal openings of the sieves beside those seen or relayed", Known: value.Memory}
	sourceLogLinear = value.Source{ID: "log-linear", Document: "log-linear interpolation between tabulated sieves",
		Known: value.Computed}
	sourceC125 = value.Source{ID: "astm-c125", Document: "ASTM C125",
		Clause: "maximum size, nominal maximum size, fineness modulus", Known: value.Memory}
	sourceC33FM = value.Source{ID: "astm-c33", Document: "ASTM C33",
		Clause: "fineness modulus of fine aggregate", Known: value.Relayed}
	sourceD2487 = value.Source{ID: "astm-d2487", Document: "ASTM D2487",
		Clause: "coefficients of uniformity and curvature", Known: value.Memory}

	sourceHoronjeff = value.Source{ID: "horonjeff-379", Document: "Horonjeff et al., Planning and Design of Airports",
		Clause: "p. 379, Corps of Engineers drainage criteria", Known: value.Seen}
	sourceRiprap = value.Source{ID: "riprap-filter", Document: "river engineering manual",
		Clause: "sec. 6.11, requirements 6.24 to 6.26", Known: value.Seen,
		Note: "the manual is believed to be FHWA HDS-6 (NHI 01-004); its title is from memory"}
	sourceOpenGraded = value.Source{ID: "open-graded-layers", Document: "permeable paver manuals 2011-2017 and ASCE 68-18",
		Clause: "filter criteria between open-graded layers", Known: value.Memory}
	sourceOlderChoke = value.Source{ID: "ferguson-2005", Document: "Ferguson, Porous Pavements (2005)",
		Clause: "choke course", Known: value.Memory}
	sourceTerzaghi = value.Source{ID: "terzaghi-filter", Document: "Terzaghi, classical filter criteria",
		Known: value.Memory}
	sourceNRCS = value.Source{ID: "neh-633-26", Document: "NRCS NEH 633 Chapter 26",
		Clause: "Table 26-2, categories 2 and 3, dispersive soils", Known: value.Memory}
	sourceNRCSRelayed = value.Source{ID: "neh-633-26-relayed", Document: "NRCS NEH 633 Chapter 26",
		Clause: "Table 26-2, categories 1 and 4", Known: value.Relayed}

	sourceOntario2010 = value.Source{ID: "trca-2010", Document: "TRCA/CVC Low Impact Development Stormwater Management Planning and Design Guide (2010)",
		Clause: "sec. 4.7", Known: value.Seen}
	sourceOntarioLater = value.Source{ID: "trca-lid-guide", Document: "TRCA/STEP Low Impact Development Guide",
		Clause: "permeable pavement sizing, later form", Known: value.Seen}
	sourceVirginia = value.Source{ID: "va-deq-7", Document: "Virginia DEQ Stormwater Design Specification No. 7 (v1.8 2011, v2.0 2013)",
		Clause: "eq. 7.1 to 7.3", Known: value.Memory}
	sourceNorthCarolina = value.Source{ID: "ncdenr-18", Document: "NCDENR Stormwater BMP Manual",
		Clause: "Ch. 18 (2012)", Known: value.Memory}
	sourceMinnesotaCredit = value.Source{ID: "mn-credit", Document: "Minnesota Stormwater Manual",
		Clause: "calculating credits for permeable pavement", Known: value.Seen}
	sourceTrench = value.Source{ID: "trench-area", Document: "Center for Watershed Protection / Maryland 1984 infiltration trench sizing",
		Clause: "variables and fill time seen, algebra from memory", Known: value.Memory}
	sourceWaterBalance = value.Source{ID: "water-balance", Document: "water balance of a flat-bottomed bed",
		Known: value.Computed}
	sourceBucks = value.Source{ID: "bucks-county", Document: "Bucks County, Pennsylvania, municipal code, infiltration bed example",
		Clause: "stone volume is water volume over voids", Known: value.Seen}
	sourceCoastal = value.Source{ID: "coastal-4.3", Document: "Coastal South Carolina / Georgia stormwater guide",
		Clause: "sec. 4.3", Known: value.Seen, Note: "underdrain where the native rate is below 0.3 in/h; drain within 48 h"}
	sourceFHWA19021 = value.Source{ID: "fhwa-hif-19-021", Document: "FHWA-HIF-19-021",
		Clause: "underdrain where not infiltrated within 48 to 72 h", Known: value.Seen}
	sourceTerrace = value.Source{ID: "terrace-geometry", Document: "geometry of level water behind barriers on a sloped subgrade",
		Known: value.Computed}
	sourceDenver = value.Source{ID: "udfcd-t10", Document: "UDFCD (Denver) Urban Storm Drainage Criteria Manual Vol. 3",
		Clause: "T-10", Known: value.Memory}
	sourceSolids = value.Source{ID: "phase-relation", Document: "phase relation of solids and voids",
		Known: value.Computed}

	sourceMinnesotaRates = value.Source{ID: "mn-rates", Document: "Minnesota Stormwater Manual",
		Clause: "design infiltration rates", Known: value.Seen}
	sourceTR55 = value.Source{ID: "tr-55", Document: "NRCS TR-55",
		Clause: "minimum infiltration by hydrologic soil group, older set", Known: value.Relayed,
		Via: "a hydrologic soil group page and the code of Clark County, Indiana"}
	sourceRawls = value.Source{ID: "rawls-1982", Document: "Rawls, Brakensiek and Saxton (1982)",
		Clause: "saturated conductivity by texture", Known: value.Memory}
	sourceDualGroups = value.Source{ID: "nrcs-dual", Document: "NRCS soil report",
		Clause: "dual hydrologic groups: first letter drained, second undrained", Known: value.Seen}
)
