package structure

import "example.com/groundrule/pkg/value"

const aashto1993 = "AASHTO Guide for Design of Pavement Structures, 1993"

// The sources of this package's formulas and tables.
var (
	sourceFlexible = value.Source{
		ID: "aashto-1993-flexible", Document: aashto1993,
		Clause: "Part II chapter 3, Figure 3.1", Known: value.Relayed,
		Via: "Mannering et al., Principles of Highway Engineering, Eq. 4.1",
	}
	sourceNomographRange = value.Source{
		ID: "aashto-1993-nomograph", Document: aashto1993,
		Clause: "Figure 3.1, ends of the scales", Known: value.Memory,
	}
	sourceDeviate = value.Source{
		ID: "aashto-1993-deviate", Document: aashto1993, Clause: "Table 4.1, p. I-62", Known: value.Memory,
		Note: "the deviates of 70, 75, 90 and 95 % were also read in relaying texts",
	}
	sourceLayered = value.Source{
		ID: "aashto-1993-layered", Document: aashto1993, Clause: "II-3.1.5, Figure 3.2", Known: value.Memory,
	}
	sourceDrainage = value.Source{
		ID: "aashto-1993-drainage", Document: aashto1993, Clause: "Table 2.4, p. II-25", Known: value.Memory,
		Note: "the end points 1.40 and 0.40 were also read in a relaying text",
	}
	sourceAxle = value.Source{
		ID: "aashto-1993-axle", Document: aashto1993, Clause: "Appendix MM", Known: value.Memory,
		Note: "form from memory; agrees with two relayed equivalence factors, 1.51 and 2.08",
	}
	sourceTraffic = value.Source{
		ID: "huang-traffic", Document: "Huang, Pavement Analysis and Design, 2nd ed.",
		Clause: "chapter 6", Known: value.Relayed, Via: "lecture notes",
	}
	sourceCover = value.Source{
		ID: "wes-3-441", Document: "USACE Waterways Experiment Station, Technical Report 3-441, Nov 1956",
		Clause: "CBR equation", Known: value.Memory,
		Note: "symbols, units and range were read; the constant 8.1 is from memory",
	}
	sourceCoverage = value.Source{
		ID: "wes-coverage", Document: "USACE Waterways Experiment Station, CBR method",
		Clause: "thickness against coverages", Known: value.Memory,
	}
	sourcePair = value.Source{
		ID: "boyd-foster", Document: "Boyd and Foster, equivalent single wheel load, 1950",
		Clause: "as Huang, Pavement Analysis and Design, prints it", Known: value.Memory,
	}
	sourceBoussinesq = value.Source{
		ID: "boussinesq-circle", Document: "Spangler, Soil Engineering, 1951", Clause: "influence table",
		Known: value.Relayed, Via: "Venkatramaiah, Geotechnical Engineering, Table 10.5",
	}
	sourceSpread = value.Source{
		ID: "load-spread", Clause: "load over the widened patch", Known: value.Practice,
		Note: "the spread is an assumption, and the verdict often turns on it",
	}
)
