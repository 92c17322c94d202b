// Package quantity is lengths, pressures, rates and the other measures of the
// trade, each with its dimension, read and written in US and SI units.
//
// Go code uses the measured types, such as [Length], which cannot be mixed by
// mistake. Code that meets dimensions only at run time, such as the rule
// language, uses [Quantity] and the operations on it: [Compare], [Multiply],
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

// The dimensions. Ratio is a plain number.
const (
	NoDimension Dimension = iota
	DimRatio
	DimLength
	DimArea
	DimVolume
	DimMass
	DimDensity
	DimForce
	DimPressure
	DimRate
	DimFreezingIndex
	DimTime
	DimTemperature
	DimLineStrength
	DimArealMass
	DimPermittivity
	DimShare
)

// Quantity is a value with its dimension, for code that meets dimensions only
// at run time. SI is in the unit that the type of the dimension documents.
type Quantity struct {
	Dim Dimension
	SI  float64
}

// Constructors from the units of the trade. Each gives the same bits as the
// unit of the same name in [Units].
func Inches(x float64) Length                    { return Length(inchScale.si(x)) }
func Feet(x float64) Length                      { return Length(footScale.si(x)) }
func Millimeters(x float64) Length               { return Length(millimeterScale.si(x)) }
func Meters(x float64) Length                    { return Length(x) }
func SquareFeet(x float64) Area                  { return Area(squareFootScale.si(x)) }
func SquareMeters(x float64) Area                { return Area(x) }
func Pounds(x float64) Mass                      { return Mass(poundScale.si(x)) }
func Kilograms(x float64) Mass                   { return Mass(x) }
func PCF(x float64) Density                      { return Density(pcfScale.si(x)) }
func KgPerM3(x float64) Density                  { return Density(x) }
func PoundsForce(x float64) Force                { return Force(lbfScale.si(x)) }
func Kilonewtons(x float64) Force                { return Force(kiloScale.si(x)) }
func PSI(x float64) Pressure                     { return Pressure(psiScale.si(x)) }
func Kilopascals(x float64) Pressure             { return Pressure(kiloScale.si(x)) }
func Megapascals(x float64) Pressure             { return Pressure(megaScale.si(x)) }
func InchesPerHour(x float64) Rate               { return Rate(inPerHourScale.si(x)) }
func MillimetersPerHour(x float64) Rate          { return Rate(mmPerHourScale.si(x)) }
func FahrenheitDays(x float64) FreezingIndex     { return FreezingIndex(fDayScale.si(x)) }
func CelsiusDays(x float64) FreezingIndex        { return FreezingIndex(dayScale.si(x)) }
func Hours(x float64) Time                       { return Time(hourScale.si(x)) }
func Days(x float64) Time                        { return Time(dayScale.si(x)) }
func Years(x float64) Time                       { return Time(yearScale.si(x)) }
func Fahrenheit(x float64) Temperature           { return Temperature(fahrenheitScale.si(x - fahrenheitZero)) }
func Celsius(x float64) Temperature              { return Temperature(x) }
func KilonewtonsPerMeter(x float64) LineStrength { return LineStrength(kiloScale.si(x)) }

// Getters, in the units of the trade.
func (l Length) Inches() float64                { return inchScale.from(float64(l)) }
func (l Length) Feet() float64                  { return footScale.from(float64(l)) }
func (l Length) Millimeters() float64           { return millimeterScale.from(float64(l)) }
func (l Length) Meters() float64                { return float64(l) }
func (a Area) SquareFeet() float64              { return squareFootScale.from(float64(a)) }
func (a Area) SquareMeters() float64            { return float64(a) }
func (d Density) PCF() float64                  { return pcfScale.from(float64(d)) }
func (d Density) KgPerM3() float64              { return float64(d) }
func (f Force) PoundsForce() float64            { return lbfScale.from(float64(f)) }
func (f Force) Kilonewtons() float64            { return kiloScale.from(float64(f)) }
func (p Pressure) PSI() float64                 { return psiScale.from(float64(p)) }
func (p Pressure) Kilopascals() float64         { return kiloScale.from(float64(p)) }
func (p Pressure) Megapascals() float64         { return megaScale.from(float64(p)) }
func (r Rate) InchesPerHour() float64           { return inPerHourScale.from(float64(r)) }
func (r Rate) MillimetersPerHour() float64      { return mmPerHourScale.from(float64(r)) }
func (f FreezingIndex) FahrenheitDays() float64 { return fDayScale.from(float64(f)) }
func (f FreezingIndex) CelsiusDays() float64    { return dayScale.from(float64(f)) }
func (t Time) Hours() float64                   { return hourScale.from(float64(t)) }
func (t Time) Days() float64                    { return dayScale.from(float64(t)) }
func (t Time) Years() float64                   { return yearScale.from(float64(t)) }
func (t Temperature) Fahrenheit() float64       { return fahrenheitScale.from(float64(t)) + fahrenheitZero }
func (t Temperature) Celsius() float64          { return float64(t) }

// Quantity returns each measured type with its dimension.
func (l Length) Quantity() Quantity        { return Quantity{DimLength, float64(l)} }
func (a Area) Quantity() Quantity          { return Quantity{DimArea, float64(a)} }
func (v Volume) Quantity() Quantity        { return Quantity{DimVolume, float64(v)} }
func (m Mass) Quantity() Quantity          { return Quantity{DimMass, float64(m)} }
func (d Density) Quantity() Quantity       { return Quantity{DimDensity, float64(d)} }
func (f Force) Quantity() Quantity         { return Quantity{DimForce, float64(f)} }
func (p Pressure) Quantity() Quantity      { return Quantity{DimPressure, float64(p)} }
func (r Rate) Quantity() Quantity          { return Quantity{DimRate, float64(r)} }
func (f FreezingIndex) Quantity() Quantity { return Quantity{DimFreezingIndex, float64(f)} }
func (t Time) Quantity() Quantity          { return Quantity{DimTime, float64(t)} }
func (t Temperature) Quantity() Quantity   { return Quantity{DimTemperature, float64(t)} }
func (s LineStrength) Quantity() Quantity  { return Quantity{DimLineStrength, float64(s)} }
func (m ArealMass) Quantity() Quantity     { return Quantity{DimArealMass, float64(m)} }
func (p Permittivity) Quantity() Quantity  { return Quantity{DimPermittivity, float64(p)} }
func (s Share) Quantity() Quantity         { return Quantity{DimShare, float64(s)} }

// Measure is any of the measured types, and [Quantity] itself.
type Measure interface{ Quantity() Quantity }

// Quantity returns q itself.
func (q Quantity) Quantity() Quantity { return q }
