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
	sourceCoefficients = value.Source{
		ID: "aashto-1993-coefficients", Document: aashto1993, Clause: "II-2.3.5, Figures 2.6 and 2.7", Known: value.Memory,
	}
	sourceDrainage = value.Source{
		ID: "aashto-1993-drainage", Document: aashto1993, Clause: "Table 2.4, p. II-25", Known: value.Memory,
		Note: "the end points 1.40 and 0.40 were also read in a relaying text",
	}
	sourceMinimum = value.Source{
		ID: "aashto-1993-minimum", Document: aashto1993, Clause: "II-3.1.4, p. II-35", Known: value.Memory,
	}
	sourceAxle = value.Source{
		ID: "aashto-1993-axle", Document: aashto1993, Clause: "Appendix MM", Known: value.Memory,
		Note: "form from memory; agrees with two relayed equivalence factors, 1.51 and 2.08",
	}
	sourceFourthPower = value.Source{
		ID: "fourth-power", Clause: "fourth-power rule", Known: value.Practice,
		Note: "good near 18,000 lbf, low for light axles",
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
	sourceCubic = value.Source{
		ID: "wes-s-77-1", Document: "USACE Waterways Experiment Station, TR S-71-17 and IR S-77-1",
		Clause: "cubic CBR equation", Known: value.Memory,
	}
	sourceBoussinesq = value.Source{
		ID: "boussinesq-circle", Document: "Spangler, Soil Engineering, 1951", Clause: "influence table",
		Known: value.Relayed, Via: "Venkatramaiah, Geotechnical Engineering, Table 10.5",
	}
	sourcePoint = value.Source{
		ID: "boussinesq-point", Document: "Boussinesq, 1885", Clause: "point load on a half-space", Known: value.Memory,
	}
	sourceCorner = value.Source{
		ID: "newmark-corner", Document: "Newmark, University of Illinois Engineering Experiment Station, Circular 24, 1935",
		Clause: "stress under the corner of a rectangle", Known: value.Memory,
	}
	sourceContact = value.Source{
		ID: "contact-area", Clause: "contact area is load over tire pressure", Known: value.Practice,
	}
	sourceSpread = value.Source{
		ID: "load-spread", Clause: "load over the widened patch", Known: value.Practice,
		Note: "the spread is an assumption, and the verdict often turns on it",
	}
	sourceOdemark = value.Source{
		ID: "odemark", Document: "El-Badawy and Kamel, IJAEST 6(1), 2011, pp. 105-110", Clause: "Eqs 2 and 3", Known: value.Seen,
		Note: "the same paper finds that the factor is not constant",
	}
	sourceBurmister = value.Source{
		ID: "burmister-two-layer", Document: "Burmister, two-layer elastic theory, 1943",
		Clause: "solved here from the Love stress function", Known: value.Computed,
	}
	sourceStrain = value.Source{
		ID: "tm-5-822-13", Document: "TM 5-822-13 / AFJMAN 32-1018, Oct 1994", Clause: "Eq. 5-4", Known: value.Seen,
	}
	sourceStrainInverse = value.Source{
		ID: "tm-5-822-13-inverse", Clause: "TM 5-822-13 Eq. 5-4 turned round by algebra", Known: value.Computed,
	}
	sourceRutting = value.Source{
		ID: "asphalt-institute-rutting", Document: "Asphalt Institute, MS-1", Clause: "subgrade strain criterion", Known: value.Memory,
	}
	sourceEPS = value.Source{
		ID: "astm-d6817", Document: "ASTM D6817/D6817M", Clause: "minimum compressive resistance",
		Known: value.Relayed, Via: "three independent pages that agree",
	}
	sourcePanel = value.Source{
		ID: "panel-utilisation", Clause: "stress over tested resistance", Known: value.Practice,
		Note: "the resistance must come from a test of the panel",
	}
)
