package quantity

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func relative(a, b float64) float64 {
	return math.Abs(a-b) / math.Max(math.Abs(a), math.Abs(b))
}

func TestText(t *testing.T) {
	cases := []struct {
		why    string
		q      Measure
		us, si string
	}{
		{"whole inches", Inches(6), "6 in", "152.4 mm"},
		{"eighths", Inches(3.125), "3-1/8 in", "79.4 mm"},
		{"sixteenths", Inches(5.0 / 16), "5/16 in", "7.9 mm"},
		{"metric depth near no sixteenth", Millimeters(150), "5.91 in", "150 mm"},
		{"metric depth at a sixteenth", Millimeters(100), "3-15/16 in", "100 mm"},
		{"just over a limit stays over it", Inches(6.01), "6.01 in", "152.7 mm"},
		{"hundredths of an eighth", Inches(3.13), "3-1/8 in", "79.5 mm"},
		{"noise of sums", Inches(2) + Inches(4), "6 in", "152.4 mm"},
		{"small opening", Millimeters(0.212), "0.008346 in", "0.212 mm"},
		{"sieve No. 200", Millimeters(0.075), "0.002953 in", "0.075 mm"},
		{"depth in inches up to 48", Inches(48), "48 in", "1.219 m"},
		{"runs in feet", Inches(54), "4 ft 6 in", "1.372 m"},
		{"whole feet", Feet(12), "12 ft", "3.658 m"},
		{"feet with a fraction", Feet(12) + Inches(3.125), "12 ft 3-1/8 in", "3.737 m"},
		{"many feet", Feet(1250), "1,250 ft", "381 m"},
		{"metric run to a sixteenth", Meters(1000), "3,280 ft 10-1/16 in", "1,000 m"},
		{"rounds up to a meter", Millimeters(999.97), "39-3/8 in", "1 m"},
		{"below zero", Inches(-3.125), "-3-1/8 in", "-79.4 mm"},
		{"below zero, feet", Feet(-4.5), "-4 ft 6 in", "-1.372 m"},
		{"zero", Length(0), "0 in", "0 mm"},
		{"negative zero", Length(math.Copysign(0, -1)), "0 in", "0 mm"},
		{"area", SquareFeet(1250), "1,250 sq ft", "116.1 m2"},
		{"small volume", Volume(0.5), "17.66 cu ft", "0.5 m3"},
		{"ordered volume", Volume(10), "13.08 cu yd", "10 m3"},
		{"cubic yard", Volume(cubicYard), "1 cu yd", "0.7646 m3"},
		{"pounds", Mass(80 * pound), "80 lb", "36.29 kg"},
		{"a ton", Mass(2000 * pound), "1 ton", "907.2 kg"},
		{"tons", Mass(20000), "22.05 tons", "20 t"},
		{"density", PCF(145), "145 pcf", "2,323 kg/m3"},
		{"force", PoundsForce(9000), "9,000 lbf", "40.03 kN"},
		{"strength of concrete", PSI(8000), "8,000 psi", "55.16 MPa"},
		{"tire pressure", PSI(80), "80 psi", "551.6 kPa"},
		{"modulus", PSI(30000), "30,000 psi", "206.8 MPa"},
		{"rate", InchesPerHour(0.5), "0.5 in/h", "12.7 mm/h"},
		{"clay", Rate(1e-9), "0.0001417 in/h", "0.0036 mm/h"},
		{"freezing index", FahrenheitDays(1000), "1,000 F-days", "555.6 C-days"},
		{"one degree day", FahrenheitDays(1), "1 F-day", "0.5556 C-days"},
		{"temperature", Fahrenheit(40), "40 F", "4.4 C"},
		{"cold", Celsius(-40), "-40 F", "-40 C"},
		{"years", Years(20), "20 years", "20 years"},
		{"one year", Years(1), "1 year", "1 year"},
		{"curing", Days(28), "28 days", "28 days"},
		{"drain time", Hours(72), "72 h", "72 h"},
		{"just below a cubic yard", Volume(0.98 * cubicYard), "26.46 cu ft", "0.7493 m3"},
		{"just above a cubic yard", Volume(1.02 * cubicYard), "1.02 cu yd", "0.7798 m3"},
		{"just below a ton", Mass(1960 * pound), "1,960 lb", "889 kg"},
		{"just above a ton", Mass(2040 * pound), "1.02 tons", "925.3 kg"},
		{"just below a tonne", Mass(980), "1.08 tons", "980 kg"},
		{"just above a tonne", Mass(1010), "1.113 tons", "1.01 t"},
		{"just below a megapascal", Pressure(0.98e6), "142.1 psi", "980 kPa"},
		{"just above a megapascal", Pressure(1.02e6), "147.9 psi", "1.02 MPa"},
		{"a heavy fabric", ArealMass(9.8), "289 oz/sq yd", "9,800 g/m2"},
		{"a light cover", ArealMass(10.2), "300.8 oz/sq yd", "10.2 kg/m2"},
		{"just below a year", Days(360), "360 days", "360 days"},
		{"just above a year", Days(370), "1.013 years", "1.013 years"},
		{"just below a minute", Time(59), "59 s", "59 s"},
		{"just above a minute", Time(61), "1.017 min", "1.017 min"},
		{"just below an hour", Time(3550), "59.17 min", "59.17 min"},
		{"just above an hour", Time(3650), "1.014 h", "1.014 h"},
		{"just above 48 inches", Inches(48.25), "4 ft 1/4 in", "1.226 m"},
		{"just below a meter", Millimeters(999), "39.33 in", "999 mm"},
		{"the longest run in sixteenths", Inches(1e9 / 16), "5,208,333 ft 4 in", "1,587,500 m"},
		{"a run beyond sixteenths", Inches(1.01e9 / 16), "5,260,416.67 ft", "1,603,375 m"},
		{"the least that is rounded", Length(1.01e-90), "3.976e-89 in", "1.01e-87 mm"},
		{"the most that is rounded", Length(0.99e90), "3.248e90 ft", "9.9e89 m"},
		{"hours up to 4 days", Hours(95.9), "95.9 h", "95.9 h"},
		{"days from 4 on", Days(4.5), "4.5 days", "4.5 days"},
		{"beyond all print", Length(1e95), "1e+95 m", "1e+95 m"},
		{"below all print", Length(1e-95), "1e-95 m", "1e-95 m"},
		{"a ratio beyond all print", Quantity{DimRatio, 1e95}, "1e+95", "1e+95"},
		{"a temperature near zero", Celsius(1e-95), "32 F", "0 C"},
		{"minutes", Hours(0.5), "30 min", "30 min"},
		{"rounds up to a minute", Time(59.9955), "1 min", "1 min"},
		{"rounds up to an hour", Time(3599.76), "1 h", "1 h"},
		{"seconds", Time(12), "12 s", "12 s"},
		{"strength of a grid", LineStrength(20000), "1,370 lb/ft", "20 kN/m"},
		{"fabric", ArealMass(0.2), "5.899 oz/sq yd", "200 g/m2"},
		{"pavers", ArealMass(140), "4,129 oz/sq yd", "140 kg/m2"},
		{"permittivity", Permittivity(0.5), "0.5 1/s", "0.5 1/s"},
		{"ratio", Quantity{DimRatio, 0.02}, "0.02", "0.02"},
		{"share", Percent(12.5), "12.5 %", "12.5 %"},
		{"ratio to four figures", Quantity{DimRatio, 1.23456}, "1.235", "1.235"},
		{"rounding that adds a digit", Quantity{DimRatio, 9.99996}, "10", "10"},
		{"tiny", Quantity{DimRatio, 1.5e-7}, "1.5e-7", "1.5e-7"},
		{"huge", Quantity{DimRatio, 1.5e20}, "1.5e20", "1.5e20"},
	}
	for _, c := range cases {
		t.Run(c.why, func(t *testing.T) {
			q := c.q.Quantity()
			require.Equal(t, c.us, q.Text(US))
			require.Equal(t, c.si, q.Text(SI))
			require.Equal(t, c.us, q.Text(EitherSystem), "no system is read as US")
			require.Equal(t, c.us, fmt.Sprint(c.q))
		})
	}
}

func TestTextOfWhatIsNoValueDoesNotParse(t *testing.T) {
	for _, q := range []Quantity{{}, {DimLength, math.NaN()}, {DimPressure, math.Inf(1)}, {Dimension(99), 1}} {
		for _, s := range []System{EitherSystem, US, SI, System("other")} {
			_, err := Parse(q.Text(s))
			require.Error(t, err, q.Text(s))
		}
	}
}

// roundsTo is how far a print may be from its value, in SI.
func roundsTo(q Quantity, system System) float64 {
	size := math.Abs(q.SI)
	slack := 1e-9 * size
	figures := size * 0.5e-3
	switch {
	case q.Dim == DimTemperature && system == US:
		return 0.05/1.8 + 1e-9*(size+300)
	case q.Dim == DimTemperature:
		return 0.05 + slack
	case q.Dim == DimLength && system == US && size > 48*0.0254:
		return 0.0254/32 + slack
	case q.Dim == DimLength && system == US && size >= 0.0254:
		return 0.01*0.0254 + slack // a half for the hundredths, a half for the fraction
	case q.Dim == DimLength && system == SI && size >= 0.99995:
		return 0.0005 + slack
	case q.Dim == DimLength && system == SI && size >= 0.001:
		return 0.00005 + slack
	}
	return figures + slack
}

func requireReadsBack(t *testing.T, q Quantity) {
	t.Helper()
	for _, system := range []System{US, SI} {
		text := q.Text(system)
		back, err := ParseAs(q.Dim, text)
		require.NoError(t, err, "%#v", q)
		limit := roundsTo(q, system)
		if strings.Contains(text, "e") && q.Dim == DimLength {
			limit = math.Max(limit, 0.5e-3*math.Abs(q.SI)) // lengths too large for decimals
		}
		require.InDelta(t, q.SI, back.SI, limit, "%#v printed %s", q, text)
		if q.SI != 0 && q.Dim != DimTemperature {
			require.NotZero(t, back.SI, "%#v printed %s", q, text)
		}
		// A second print must be the first: the text is a fixed point.
		require.Equal(t, text, back.Text(system), "%#v", q)
		any, err := Parse(text)
		require.NoError(t, err, "without a wanted dimension")
		require.Equal(t, back, any)
	}
}

// Property: what is printed is read back to within the rounding of the print.
func TestTextReadsBack(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, d := range Dimensions() {
		for _, u := range d.Units() {
			for range 400 {
				x := math.Pow(10, r.Float64()*10-4)
				if r.IntN(2) == 0 {
					x = math.Round(x*16) / 16
				}
				if r.IntN(4) == 0 {
					x = -x
				}
				q, err := u.Quantity(x)
				require.NoError(t, err)
				requireReadsBack(t, q)
			}
		}
	}
}

// Where the unit or the form of the print changes, rounding could make a text
// that prints otherwise when read back.
func TestTextReadsBackAtTheTurns(t *testing.T) {
	turns := map[string]Quantity{
		"1 in": Inches(1).Quantity(), "48 in": Inches(48).Quantity(), "1 mm": Millimeters(1).Quantity(), "1 m": Meters(1).Quantity(),
		"all that counts in sixteenths": Inches(mostSixteenths / sixteenths).Quantity(),
		"yd3":                           {DimVolume, cubicYardFrom}, "ton": {DimMass, tonFrom}, "tonne": {DimMass, tonneFrom},
		"MPa": {DimPressure, megapascal}, "kg/m2": {DimArealMass, heavyCover}, "minute": {DimTime, 60}, "hour": {DimTime, secondsHour},
		"days": {DimTime, daysFrom}, "year": {DimTime, yearsFrom}, "no power of ten": {DimRatio, plainFrom},
		"power of ten": {DimRatio, plainTo}, "largest": {DimPressure, 0.99e100}, "smallest": {DimPressure, 1.01e-100},
	}
	r := rand.New(rand.NewPCG(5, 6))
	for name, at := range turns {
		t.Run(name, func(t *testing.T) {
			for range 300 {
				off := math.Pow(10, -2-r.Float64()*14)
				if r.IntN(2) == 0 {
					off = -off
				}
				q := Quantity{at.Dim, at.SI * (1 + off)}
				if size := math.Abs(q.SI); size <= largestRead && size >= smallestRead {
					requireReadsBack(t, q)
				}
			}
			requireReadsBack(t, at)
		})
	}
}

func TestSystemsNameThemselves(t *testing.T) {
	require.Equal(t, []string{"either", "US", "SI"}, []string{EitherSystem.String(), US.String(), SI.String()})
}

func TestIn(t *testing.T) {
	x, err := Inches(6).Quantity().In("mm")
	require.NoError(t, err)
	require.InDelta(t, 152.4, x, 1e-12)
	x, err = Percent(28.5).Quantity().In("%")
	require.NoError(t, err)
	require.Equal(t, 28.5, x, "turned without rounding")
	x, err = Quantity{DimRatio, 0.25}.In("")
	require.NoError(t, err)
	require.Equal(t, 0.25, x)
	x, err = Quantity{DimPressure, 1}.In("lb/ft2")
	require.NoError(t, err, "the dimension settles what lb/ft2 means")
	require.InEpsilon(t, 1/47.880258980335846, x, 1e-14)
}

func TestInRefuses(t *testing.T) {
	var fault *ParseError
	_, err := Inches(6).Quantity().In("psi")
	require.ErrorIs(t, err, ErrDimension)
	require.ErrorAs(t, err, &fault)
	require.Contains(t, fault.Problem, "measures a pressure, and a length is wanted")
	_, err = Inches(6).Quantity().In("inchs")
	require.ErrorAs(t, err, &fault)
	require.Equal(t, "inch", fault.Nearest)
	_, err = Inches(6).Quantity().In("")
	require.ErrorAs(t, err, &fault)
	_, err = Quantity{DimPressure, 1}.In("mPa")
	require.ErrorAs(t, err, &fault)
	require.Contains(t, fault.Problem, "millipascal")
	_, err = Quantity{DimLength, math.NaN()}.In("in")
	require.ErrorIs(t, err, ErrNotFinite)
	_, err = Quantity{DimLength, -math.MaxFloat64}.In("um")
	require.ErrorIs(t, err, ErrNotFinite, "below all numbers")
	_, err = Quantity{DimLength, 1}.In(".in")
	require.ErrorContains(t, err, "unknown unit")
	_, err = Quantity{DimLength, math.MaxFloat64}.In("um")
	require.ErrorIs(t, err, ErrNotFinite)
	_, err = Quantity{}.In("in")
	require.ErrorIs(t, err, ErrDimension)
}
