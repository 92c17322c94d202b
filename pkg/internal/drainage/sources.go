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
		Clause: "nominal maximum size", Known: value.Memory}

	sourceHoronjeff = value.Source{ID: "horonjeff-379", Document: "Horonjeff et al., Planning and Design of Airports",
		Clause: "p. 379, Corps of Engineers drainage criteria", Known: value.Seen}
	sourceRiprap = value.Source{ID: "riprap-filter", Document: "river engineering manual",
		Clause: "sec. 6.11, requirements 6.24 to 6.26", Known: value.Seen,
		Note: "the manual is believed to be FHWA HDS-6 (NHI 01-004); its title is from memory"}
	sourceOpenGraded = value.Source{ID: "open-graded-layers", Document: "permeable paver manuals 2011-2017 and ASCE 68-18",
		Clause: "filter criteria between open-graded layers", Known: value.Memory}

	sourceOntario2010 = value.Source{ID: "trca-2010", Document: "TRCA/CVC Low Impact Development Stormwater Management Planning and Design Guide (2010)",
		Clause: "sec. 4.7", Known: value.Relayed, Via: "the earlier versions of the online guide that followed it"}
	sourceWaterBalance = value.Source{ID: "water-balance", Document: "water balance of a flat-bottomed bed",
		Known: value.Computed}
	sourceFHWA19021 = value.Source{ID: "fhwa-hif-19-021", Document: "FHWA-HIF-19-021",
		Clause: "underdrain where not infiltrated within 48 to 72 h", Known: value.Seen}
	sourceDenver = value.Source{ID: "udfcd-t10", Document: "UDFCD (Denver) Urban Storm Drainage Criteria Manual Vol. 3",
		Clause: "T-10", Known: value.Memory}
)
