package quantity

// The measured types. Each holds its value in one SI unit, so that a formula
// reads it without a factor; the constructors and getters below do the turning.
type (
	// Length is in metres.
	Length float64
	// Area is in square metres.
	Area float64
	// Volume is in cubic metres.
	Volume float64
	// Mass is in kilograms.
	Mass float64
	// Density is in kilograms per cubic metre. A unit weight in pcf is taken
	// as the density of that many pounds mass per cubic foot.
	Density float64
	// Force is in newtons.
	Force float64
	// Pressure is in pascals; it serves for stress, strength and modulus too.
	Pressure float64
	// Rate is in metres per second: infiltration, permeability, rainfall intensity.
	Rate float64
	// FreezingIndex is in kelvin seconds (1 °F·day is 48,000 K·s).
	FreezingIndex float64
	// Time is in seconds.
	Time float64
	// Temperature is in degrees Celsius on the Celsius scale, not a difference.
	Temperature float64
	// LineStrength is in newtons per metre of width: tensile strength of a grid or fabric.
	LineStrength float64
	// ArealMass is in kilograms per square metre.
	ArealMass float64
	// Permittivity is in 1/s.
	Permittivity float64
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
)

// Quantity is a value with its dimension, for code that meets dimensions only
// at run time. SI is in the unit that the type of the dimension documents.
type Quantity struct {
	Dim Dimension
	SI  float64
}

// Constructors from the units of the trade.
func Inches(x float64) Length      { return Length(x * 0.0254) }
func Feet(x float64) Length        { return Length(x * 0.3048) }
func Millimetres(x float64) Length { return Length(x / 1000) }
func Metres(x float64) Length      { return Length(x) }
func SquareFeet(x float64) Area    { return Area(x * 0.3048 * 0.3048) }
func SquareMetres(x float64) Area  { return Area(x) }
func Pounds(x float64) Mass        { return Mass(x * 0.45359237) }
func Kilograms(x float64) Mass     { return Mass(x) }
func PCF(x float64) Density {
	return Density(x * 0.45359237 / (0.3048 * 0.3048 * 0.3048))
}
func KgPerM3(x float64) Density                  { return Density(x) }
func PoundsForce(x float64) Force                { return Force(x * 0.45359237 * 9.80665) }
func Kilonewtons(x float64) Force                { return Force(x * 1000) }
func PSI(x float64) Pressure                     { return Pressure(x * 0.45359237 * 9.80665 / (0.0254 * 0.0254)) }
func Kilopascals(x float64) Pressure             { return Pressure(x * 1000) }
func Megapascals(x float64) Pressure             { return Pressure(x * 1e6) }
func InchesPerHour(x float64) Rate               { return Rate(x * 0.0254 / 3600) }
func MillimetresPerHour(x float64) Rate          { return Rate(x / 1000 / 3600) }
func FahrenheitDays(x float64) FreezingIndex     { return FreezingIndex(x * 48000) }
func CelsiusDays(x float64) FreezingIndex        { return FreezingIndex(x * 86400) }
func Hours(x float64) Time                       { return Time(x * 3600) }
func Days(x float64) Time                        { return Time(x * 86400) }
func Years(x float64) Time                       { return Time(x * 365.25 * 86400) }
func Fahrenheit(x float64) Temperature           { return Temperature((x - 32) / 1.8) }
func Celsius(x float64) Temperature              { return Temperature(x) }
func KilonewtonsPerMetre(x float64) LineStrength { return LineStrength(x * 1000) }

// Getters, in the units of the trade.
func (l Length) Inches() float64                { return float64(l) / 0.0254 }
func (l Length) Feet() float64                  { return float64(l) / 0.3048 }
func (l Length) Millimetres() float64           { return float64(l) * 1000 }
func (l Length) Metres() float64                { return float64(l) }
func (a Area) SquareFeet() float64              { return float64(a) / (0.3048 * 0.3048) }
func (a Area) SquareMetres() float64            { return float64(a) }
func (d Density) PCF() float64                  { return float64(d) / float64(PCF(1)) }
func (d Density) KgPerM3() float64              { return float64(d) }
func (f Force) PoundsForce() float64            { return float64(f) / (0.45359237 * 9.80665) }
func (f Force) Kilonewtons() float64            { return float64(f) / 1000 }
func (p Pressure) PSI() float64                 { return float64(p) / float64(PSI(1)) }
func (p Pressure) Kilopascals() float64         { return float64(p) / 1000 }
func (p Pressure) Megapascals() float64         { return float64(p) / 1e6 }
func (r Rate) InchesPerHour() float64           { return float64(r) * 3600 / 0.0254 }
func (r Rate) MillimetresPerHour() float64      { return float64(r) * 3600 * 1000 }
func (f FreezingIndex) FahrenheitDays() float64 { return float64(f) / 48000 }
func (f FreezingIndex) CelsiusDays() float64    { return float64(f) / 86400 }
func (t Time) Hours() float64                   { return float64(t) / 3600 }
func (t Time) Days() float64                    { return float64(t) / 86400 }
func (t Time) Years() float64                   { return float64(t) / (365.25 * 86400) }
func (t Temperature) Fahrenheit() float64       { return float64(t)*1.8 + 32 }
func (t Temperature) Celsius() float64          { return float64(t) }

// Quantity gives each measured type with its dimension.
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

// Measure is any of the measured types, and [Quantity] itself.
type Measure interface{ Quantity() Quantity }

// Quantity gives q itself.
func (q Quantity) Quantity() Quantity { return q }
