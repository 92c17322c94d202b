package quantity

// The constructors and getters give the same bits as the unit of the same name
// in [Units]. Each type prints itself in US units, so that no message can show a
// bare SI number by mistake.

// Inches returns x inches.
func Inches(x float64) Length { return Length(inchScale.si(x)) }

// Feet returns x feet.
func Feet(x float64) Length { return Length(footScale.si(x)) }

// Millimeters returns x millimeters.
func Millimeters(x float64) Length { return Length(millimeterScale.si(x)) }

// Meters returns x meters.
func Meters(x float64) Length { return Length(x) }

// Inches returns l in inches.
func (l Length) Inches() float64 { return inchScale.from(float64(l)) }

// Feet returns l in feet.
func (l Length) Feet() float64 { return footScale.from(float64(l)) }

// Millimeters returns l in millimeters.
func (l Length) Millimeters() float64 { return millimeterScale.from(float64(l)) }

// Meters returns l in meters.
func (l Length) Meters() float64 { return float64(l) }

// Quantity returns l with its dimension.
func (l Length) Quantity() Quantity { return Quantity{DimLength, float64(l)} }

// String returns l as [Quantity.Text] writes it in US units.
func (l Length) String() string { return l.Quantity().String() }

// SquareFeet returns x square feet.
func SquareFeet(x float64) Area { return Area(squareFootScale.si(x)) }

// SquareMeters returns x square meters.
func SquareMeters(x float64) Area { return Area(x) }

// SquareFeet returns a in square feet.
func (a Area) SquareFeet() float64 { return squareFootScale.from(float64(a)) }

// SquareMeters returns a in square meters.
func (a Area) SquareMeters() float64 { return float64(a) }

// Quantity returns a with its dimension.
func (a Area) Quantity() Quantity { return Quantity{DimArea, float64(a)} }

// String returns a as [Quantity.Text] writes it in US units.
func (a Area) String() string { return a.Quantity().String() }

// Quantity returns v with its dimension.
func (v Volume) Quantity() Quantity { return Quantity{DimVolume, float64(v)} }

// String returns v as [Quantity.Text] writes it in US units.
func (v Volume) String() string { return v.Quantity().String() }

// Quantity returns m with its dimension.
func (m Mass) Quantity() Quantity { return Quantity{DimMass, float64(m)} }

// String returns m as [Quantity.Text] writes it in US units.
func (m Mass) String() string { return m.Quantity().String() }

// PCF returns x pounds per cubic foot.
func PCF(x float64) Density { return Density(pcfScale.si(x)) }

// KgPerM3 returns x kilograms per cubic meter.
func KgPerM3(x float64) Density { return Density(x) }

// PCF returns d in pounds per cubic foot.
func (d Density) PCF() float64 { return pcfScale.from(float64(d)) }

// KgPerM3 returns d in kilograms per cubic meter.
func (d Density) KgPerM3() float64 { return float64(d) }

// Quantity returns d with its dimension.
func (d Density) Quantity() Quantity { return Quantity{DimDensity, float64(d)} }

// String returns d as [Quantity.Text] writes it in US units.
func (d Density) String() string { return d.Quantity().String() }

// PoundsForce returns x pounds-force.
func PoundsForce(x float64) Force { return Force(lbfScale.si(x)) }

// Kilonewtons returns x kilonewtons.
func Kilonewtons(x float64) Force { return Force(kiloScale.si(x)) }

// PoundsForce returns f in pounds-force.
func (f Force) PoundsForce() float64 { return lbfScale.from(float64(f)) }

// Kilonewtons returns f in kilonewtons.
func (f Force) Kilonewtons() float64 { return kiloScale.from(float64(f)) }

// Quantity returns f with its dimension.
func (f Force) Quantity() Quantity { return Quantity{DimForce, float64(f)} }

// String returns f as [Quantity.Text] writes it in US units.
func (f Force) String() string { return f.Quantity().String() }

// PSI returns x pounds per square inch.
func PSI(x float64) Pressure { return Pressure(psiScale.si(x)) }

// Kilopascals returns x kilopascals.
func Kilopascals(x float64) Pressure { return Pressure(kiloScale.si(x)) }

// Megapascals returns x megapascals.
func Megapascals(x float64) Pressure { return Pressure(megaScale.si(x)) }

// PSI returns p in pounds per square inch.
func (p Pressure) PSI() float64 { return psiScale.from(float64(p)) }

// Kilopascals returns p in kilopascals.
func (p Pressure) Kilopascals() float64 { return kiloScale.from(float64(p)) }

// Megapascals returns p in megapascals.
func (p Pressure) Megapascals() float64 { return megaScale.from(float64(p)) }

// Quantity returns p with its dimension.
func (p Pressure) Quantity() Quantity { return Quantity{DimPressure, float64(p)} }

// String returns p as [Quantity.Text] writes it in US units.
func (p Pressure) String() string { return p.Quantity().String() }

// InchesPerHour returns x inches per hour.
func InchesPerHour(x float64) Rate { return Rate(inPerHourScale.si(x)) }

// MillimetersPerHour returns x millimeters per hour.
func MillimetersPerHour(x float64) Rate { return Rate(mmPerHourScale.si(x)) }

// InchesPerHour returns r in inches per hour.
func (r Rate) InchesPerHour() float64 { return inPerHourScale.from(float64(r)) }

// MillimetersPerHour returns r in millimeters per hour.
func (r Rate) MillimetersPerHour() float64 { return mmPerHourScale.from(float64(r)) }

// Quantity returns r with its dimension.
func (r Rate) Quantity() Quantity { return Quantity{DimRate, float64(r)} }

// String returns r as [Quantity.Text] writes it in US units.
func (r Rate) String() string { return r.Quantity().String() }

// FahrenheitDays returns x degree Fahrenheit days.
func FahrenheitDays(x float64) FreezingIndex { return FreezingIndex(fDayScale.si(x)) }

// FahrenheitDays returns f in degree Fahrenheit days.
func (f FreezingIndex) FahrenheitDays() float64 { return fDayScale.from(float64(f)) }

// CelsiusDays returns f in degree Celsius days.
func (f FreezingIndex) CelsiusDays() float64 { return dayScale.from(float64(f)) }

// Quantity returns f with its dimension.
func (f FreezingIndex) Quantity() Quantity { return Quantity{DimFreezingIndex, float64(f)} }

// String returns f as [Quantity.Text] writes it in US units.
func (f FreezingIndex) String() string { return f.Quantity().String() }

// Hours returns x hours.
func Hours(x float64) Time { return Time(hourScale.si(x)) }

// Days returns x days.
func Days(x float64) Time { return Time(dayScale.si(x)) }

// Years returns x years of 365.25 days.
func Years(x float64) Time { return Time(yearScale.si(x)) }

// Hours returns t in hours.
func (t Time) Hours() float64 { return hourScale.from(float64(t)) }

// Days returns t in days.
func (t Time) Days() float64 { return dayScale.from(float64(t)) }

// Years returns t in years of 365.25 days.
func (t Time) Years() float64 { return yearScale.from(float64(t)) }

// Quantity returns t with its dimension.
func (t Time) Quantity() Quantity { return Quantity{DimTime, float64(t)} }

// String returns t as [Quantity.Text] writes it in US units.
func (t Time) String() string { return t.Quantity().String() }

// Fahrenheit returns x degrees Fahrenheit.
func Fahrenheit(x float64) Temperature { return Temperature(fahrenheitScale.si(x)) }

// Celsius returns x degrees Celsius.
func Celsius(x float64) Temperature { return Temperature(x) }

// Fahrenheit returns t in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return fahrenheitScale.from(float64(t)) }

// Celsius returns t in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) }

// Quantity returns t with its dimension.
func (t Temperature) Quantity() Quantity { return Quantity{DimTemperature, float64(t)} }

// String returns t as [Quantity.Text] writes it in US units.
func (t Temperature) String() string { return t.Quantity().String() }

// Quantity returns s with its dimension.
func (s LineStrength) Quantity() Quantity { return Quantity{DimLineStrength, float64(s)} }

// String returns s as [Quantity.Text] writes it in US units.
func (s LineStrength) String() string { return s.Quantity().String() }

// Quantity returns m with its dimension.
func (m ArealMass) Quantity() Quantity { return Quantity{DimArealMass, float64(m)} }

// String returns m as [Quantity.Text] writes it in US units.
func (m ArealMass) String() string { return m.Quantity().String() }

// Quantity returns p with its dimension.
func (p Permittivity) Quantity() Quantity { return Quantity{DimPermittivity, float64(p)} }

// String returns p as [Quantity.Text] writes it in US units.
func (p Permittivity) String() string { return p.Quantity().String() }

// Quantity returns s with its dimension.
func (s Share) Quantity() Quantity { return Quantity{DimShare, float64(s)} }

// String returns s as [Quantity.Text] writes it in US units.
func (s Share) String() string { return s.Quantity().String() }
