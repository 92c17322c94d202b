package ground

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// modulusBand is a range of modulus with its typical value, ksi.
type modulusBand struct{ low, high, typical float64 }

const nchrpDefaults = "NCHRP 1-37A Table 2.2.50, default modulus"

// Default modulus at optimum moisture and maximum density, ksi. NCHRP 1-37A
// (2004) Part 2 ch. 2 Table 2.2.50, from memory.
var (
	defaultModulus = map[Group]modulusBand{
		CH: {5, 13.5, 8}, MH: {8, 17.5, 11.5}, CL: {13.5, 24, 17}, ML: {17, 25.5, 20},
		SW: {28, 37.5, 32}, SP: {24, 33, 28}, SWSC: {21.5, 31, 25.5}, SWSM: {24, 33, 28},
		SPSC: {21.5, 31, 25.5}, SPSM: {24, 33, 28}, SC: {21.5, 28, 24}, SM: {28, 37.5, 32},
		GW: {39.5, 42, 41}, GP: {35.5, 40, 38}, GWGC: {28, 40, 34.5}, GWGM: {35.5, 40.5, 38.5},
		GPGC: {28, 39, 34}, GPGM: {31, 40, 36}, GC: {24, 37.5, 31}, GM: {33, 42, 38.5},
	}
	defaultModulusAASHTO = map[AASHTOGroup]modulusBand{
		A1a: {38.5, 42, 40}, A1b: {35.5, 40, 38}, A24: {28, 37.5, 32}, A25: {24, 33, 28},
		A26: {21.5, 31, 26}, A27: {21.5, 28, 24}, A3: {24.5, 35.5, 29}, A4: {21.5, 29, 24},
		A5: {17, 25.5, 20}, A6: {13.5, 24, 17}, A75: {8, 17.5, 12}, A76: {5, 13.5, 8},
	}
)

func ksi(x float64) quantity.Pressure { return quantity.PSI(x * 1000) }

// defaultModulusBand is the entry for a group; CL-ML, GC-GM and SC-SM, which have none, take
// the lower of their two parts, which is this library's own safe side.
func defaultModulusBand(g Group) (modulusBand, error) {
	if err := calculation.CheckWord("g", g); err != nil {
		return modulusBand{}, err
	}
	if b, ok := defaultModulus[g]; ok {
		return b, nil
	}
	a, ok := defaultModulus[g.First()]
	b, too := defaultModulus[g.Second()]
	if !ok || !too {
		return modulusBand{}, &NoEntryError{Table: nchrpDefaults, Entry: string(g), Because: "it is not suitable to build on"}
	}
	return modulusBand{low: min(a.low, b.low), high: min(a.high, b.high), typical: min(a.typical, b.typical)}, nil
}

// DefaultModulusLow is the low end of the default modulus of a soil group at
// optimum moisture and maximum density: not soaked and not in spring thaw, so it
// is unsafe as a design value of a wet subgrade. From memory. A [NoEntryError]
// for OL, OH and PT.
func DefaultModulusLow(g Group) (quantity.Pressure, error) {
	b, err := defaultModulusBand(g)
	return ksi(b.low), err
}

// DefaultModulusTypical is the typical value beside [DefaultModulusLow], with
// the same warning.
func DefaultModulusTypical(g Group) (quantity.Pressure, error) {
	b, err := defaultModulusBand(g)
	return ksi(b.typical), err
}

// DefaultModulusLowAASHTO is [DefaultModulusLow] for an AASHTO group. A
// [NoEntryError] for A-8.
func DefaultModulusLowAASHTO(g AASHTOGroup) (quantity.Pressure, error) {
	b, err := defaultModulusBandAASHTO(g)
	return ksi(b.low), err
}

// DefaultModulusTypicalAASHTO is [DefaultModulusTypical] for an AASHTO group.
func DefaultModulusTypicalAASHTO(g AASHTOGroup) (quantity.Pressure, error) {
	b, err := defaultModulusBandAASHTO(g)
	return ksi(b.typical), err
}

func defaultModulusBandAASHTO(g AASHTOGroup) (modulusBand, error) {
	if err := calculation.CheckWord("g", g); err != nil {
		return modulusBand{}, err
	}
	b, ok := defaultModulusAASHTO[g]
	if !ok {
		return modulusBand{}, &NoEntryError{Table: nchrpDefaults, Entry: string(g), Because: "it is not suitable to build on"}
	}
	return b, nil
}
