// Package quantity is lengths, pressures, rates and the other measures of the
// trade, each with its dimension, read and written in US and SI units.
//
// Go code uses the measured types, such as [Length], which cannot be mixed by
// mistake. Code that meets dimensions only at run time, such as the rule
// language, uses [Quantity] and the operations on it: [Quantity.Compare], [Multiply],
// [Divide]. [Parse] and [ParseAs] read what the trade writes, [Quantity.Text]
// writes it, and [Units] is the one table of units behind both.
//
// A Temperature is a reading on a scale and not a difference: it is compared,
// and takes no part in arithmetic.
package quantity

// The measured types. Each holds its value in one SI unit, so that a formula
// reads it without a factor; the constructors and getters below do the turning.
type (
	// Length is in meters.
	Length float64
	// Area is in square meters.
	Area float64
	// Volume is in cubic meters.
	Volume float64
	// Mass is in kilograms.
	Mass float64
	// Density is in kilograms per cubic meter. A unit weight in pcf is taken
	// as the density of that many pounds mass per cubic foot.
	Density float64
	// Force is in newtons.
	Force float64
	// Pressure is in pascals; it serves for stress, strength and modulus too.
	Pressure float64
	// Rate is in meters per second: infiltration, permeability, rainfall intensity.
	Rate float64
	// FreezingIndex is in kelvin seconds (1 °F·day is 48,000 K·s).
	FreezingIndex float64
	// Time is in seconds.
	Time float64
	// Temperature is in degrees Celsius on the Celsius scale, not a difference.
	Temperature float64
	// LineStrength is in newtons per meter of width: tensile strength of a grid or fabric.
	LineStrength float64
	// ArealMass is in kilograms per square meter.
	ArealMass float64
	// Permittivity is in 1/s.
	Permittivity float64
	// Share is a part of a whole as a fraction: 0.12 is 12 %. It is never a bare
	// number, so that 12 and 0.12 cannot be taken for one another.
	Share float64
)

// Dimension says what a quantity measures. The zero Dimension is none and
// belongs to no value.
type Dimension uint8

// The dimensions, each that of the measured type of its name.
const (
	NoDimension      Dimension = iota // of no value
	DimRatio                          // a plain number
	DimLength                         // [Length]
	DimArea                           // [Area]
	DimVolume                         // [Volume]
	DimMass                           // [Mass]
	DimDensity                        // [Density]
	DimForce                          // [Force]
	DimPressure                       // [Pressure]
	DimRate                           // [Rate]
	DimFreezingIndex                  // [FreezingIndex]
	DimTime                           // [Time]
	DimTemperature                    // [Temperature]
	DimLineStrength                   // [LineStrength]
	DimArealMass                      // [ArealMass]
	DimPermittivity                   // [Permittivity]
	DimShare                          // [Share]
)

// Quantity is a value with its dimension, for code that meets dimensions only
// at run time. SI is in the unit that the type of the dimension documents.
type Quantity struct {
	Dim Dimension
	SI  float64
}

// Measure is any of the measured types, and [Quantity] itself.
type Measure interface{ Quantity() Quantity }

// Quantity returns q itself.
func (q Quantity) Quantity() Quantity { return q }
