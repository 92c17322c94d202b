package quantity

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

func TestParseReadsTheTrade(t *testing.T) {
	in := func(x float64) Quantity { return Inches(x).Quantity() }
	q := func(d Dimension, si float64) Quantity { return Quantity{d, si} }
	cases := []struct {
		why, text string
		want      Quantity
	}{
		{"plain", "6 in", in(6)},
		{"inch mark", `6"`, in(6)},
		{"word", "6 inches", in(6)},
		{"full stop of the abbreviation", "6 in.", in(6)},
		{"capitals", "6 IN", in(6)},
		{"hyphened mixed number", "3-1/8 in", in(3.125)},
		{"spaced mixed number", `3 1/8"`, in(3.125)},
		{"fraction alone", "1/2 in", in(0.5)},
		{"improper fraction alone", "9/8 in", in(1.125)},
		{"fraction character", "½ in", in(0.5)},
		{"fraction character behind a number", "3⅜″", in(3.375)},
		{"spaced fraction character", "3 ¼ in", in(3.25)},
		{"fraction slash", "3 1⁄8 in", in(3.125)},
		{"en dash in a mixed number", "3–1/8 in", in(3.125)},
		{"feet and inches", `1' 6"`, in(18)},
		{"feet and inches, hyphened", `1'-6"`, in(18)},
		{"feet and inches, close", `1'6"`, in(18)},
		{"feet and inches in words", "1 ft 6 in", in(18)},
		{"feet and inches, abbreviated", "1 ft. 6 in.", in(18)},
		{"feet and inches with a fraction", `5'-11 1/2"`, in(71.5)},
		{"typographic marks", "1’ 6”", in(18)},
		{"prime marks", "1′ 6″", in(18)},
		{"two apostrophes for inches", "6''", in(6)},
		{"negative feet and inches count as one", `-1' 6"`, in(-18)},
		{"thousands of feet before inches", `1,000' 6"`, in(12006)},
		{"millimeters", "150 mm", q(DimLength, 0.15)},
		{"a dash behind the unit", "150 mm-", q(DimLength, 0.15)},
		{"no space", "150mm", q(DimLength, 0.15)},
		{"no-break space", "150\u00a0mm", q(DimLength, 0.15)},
		{"space about", "  150 mm \n", q(DimLength, 0.15)},
		{"thousands", "8,000 psi", PSI(8000).Quantity()},
		{"millions", "1,250,000 psi", PSI(1250000).Quantity()},
		{"thousands and decimals", "1,250.5 ft", Feet(1250.5).Quantity()},
		{"no leading zero", ".5 in", in(0.5)},
		{"trailing point", "6. in", in(6)},
		{"plus sign", "+6 in", in(6)},
		{"minus", "-6 in", in(-6)},
		{"typographic minus", "−6 in", in(-6)},
		{"power of ten", "1e-5 cm/s", q(DimRate, 1e-5/100)},
		{"written power of ten", "1 x 10^-5 cm/s", q(DimRate, 1e-5/100)},
		{"raised power of ten", "3×10⁻⁵ cm/s", q(DimRate, 3e-5/100)},
		{"power of ten with a capital X", "3 X 10^2 m", q(DimLength, 300)},
		{"power of ten with a star", "3*10^2 m", q(DimLength, 300)},
		{"power of ten with a dot", "3·10^2 m", q(DimLength, 300)},
		{"power of ten with a plus", "3e+2 m", q(DimLength, 300)},
		{"raised power of ten with a plus", "3 x 10⁺² m", q(DimLength, 300)},
		{"the least that is read", "1e-100 m", q(DimLength, 1e-100)},
		{"the most that is read", "1e100 m", q(DimLength, 1e100)},
		{"rate", "0.5 in/h", InchesPerHour(0.5).Quantity()},
		{"rate, other abbreviation", "0.5 in/hr", InchesPerHour(0.5).Quantity()},
		{"rate in words", "2 inches per hour", InchesPerHour(2).Quantity()},
		{"rate with stops", "2 in./hr.", InchesPerHour(2).Quantity()},
		{"builder as unit", "2 in_per_hour", InchesPerHour(2).Quantity()},
		{"unit weight", "145 pcf", PCF(145).Quantity()},
		{"unit weight spelled", "145 lb/ft3", PCF(145).Quantity()},
		{"unit weight raised", "145 lb/ft³", PCF(145).Quantity()},
		{"unit weight in words", "145 lbs per cubic foot", PCF(145).Quantity()},
		{"short tons", "2 tons", q(DimMass, 2*907.18474)},
		{"tonnes", "2 t", q(DimMass, 2000)},
		{"short tons by cubic yard", "1.9 ton/yd3", q(DimDensity, 1.9*1186.552842515566)},
		{"t by the cubic yard", "1.9 t/yd3", q(DimDensity, 1.9*1186.552842515566)},
		{"force", "20 kN", q(DimForce, 20000)},
		{"pound-force", "9,000 lbf", PoundsForce(9000).Quantity()},
		{"kip", "9 kip", PoundsForce(9000).Quantity()},
		{"pounds by square inch are a pressure", "60 lb/in2", PSI(60).Quantity()},
		{"sloppy capitals", "30 Mpa", Megapascals(30).Quantity()},
		{"freezing index", "1,000 F-days", FahrenheitDays(1000).Quantity()},
		{"freezing index with degrees", "1,000 °F·days", FahrenheitDays(1000).Quantity()},
		{"freezing index in words", "500 degree-days C", FahrenheitDays(900).Quantity()},
		{"freezing index, metric", "500 C-days", FahrenheitDays(900).Quantity()},
		{"percent", "2 %", q(DimShare, 0.02)},
		{"percent without a space", "12%", q(DimShare, 0.12)},
		{"percent in one word", "28.5 percent", q(DimShare, 0.285)},
		{"percent with a fraction", "1/2 %", q(DimShare, 0.005)},
		{"percent with a power", "-1e1 %", q(DimShare, -0.1)},
		{"percent in words", "2 per cent", q(DimShare, 0.02)},
		{"plain number", "0.35", q(DimRatio, 0.35)},
		{"plain fraction", "1 1/2", q(DimRatio, 1.5)},
		{"zero", "0 in", in(0)},
		{"temperature", "40 F", Fahrenheit(40).Quantity()},
		{"temperature with degrees", "40 °F", Fahrenheit(40).Quantity()},
		{"temperature in words", "40 degrees Fahrenheit", Fahrenheit(40).Quantity()},
		{"cold", "-40 F", q(DimTemperature, -40)},
		{"time", "20 years", Years(20).Quantity()},
		{"drain time", "72 hrs", Hours(72).Quantity()},
		{"fabric weight", "4 oz/yd2", q(DimArealMass, 4*0.033905747474882293)},
		{"strength of a grid", "20 kN/m", LineStrength(20000).Quantity()},
		{"strength in US units", "1,370 lb/ft", q(DimLineStrength, 1370*14.593902937206366)},
		{"permittivity", "0.5 1/s", q(DimPermittivity, 0.5)},
		{"whole permittivity is no mixed number", "5 1/s", q(DimPermittivity, 5)},
		{"raised permittivity", "0.5 s⁻¹", q(DimPermittivity, 0.5)},
		{"area", "20 sq. ft.", SquareFeet(20).Quantity()},
		{"area, close", "20 sq.ft", SquareFeet(20).Quantity()},
		{"opening of a fabric", "212 µm", q(DimLength, 212e-6)},
	}
	near := cmp.Comparer(func(a, b Quantity) bool { return a.Dim == b.Dim && (a.SI == b.SI || relative(a.SI, b.SI) < 1e-14) })
	for _, c := range cases {
		t.Run(c.why, func(t *testing.T) {
			got, err := Parse(c.text)
			require.NoError(t, err)
			if diff := cmp.Diff(c.want, got, near); diff != "" {
				t.Errorf("%q (-want +got):\n%s", c.text, diff)
			}
			as, err := ParseAs(c.want.Dim, c.text)
			require.NoError(t, err)
			require.Equal(t, got, as)
		})
	}
}

func TestParseRefuses(t *testing.T) {
	const number, comma, second = "no number", "does not part thousands", "second number"
	cases := []struct {
		why, text string
		as        Dimension // NoDimension for Parse
		offset    int
		problem   string
		nearest   string
	}{
		{"nothing", "", NoDimension, 0, number, ""},
		{"only spaces", "   ", NoDimension, 0, number, ""},
		{"no number", "inches", NoDimension, 0, number, ""},
		{"sign alone", "-", NoDimension, 1, number, ""},
		{"decimal comma", "1,5 m", NoDimension, 0, comma, ""},
		{"decimal comma that looks like thousands", "0,500 m", NoDimension, 0, comma, ""},
		{"long head before a comma", "1234,567 m", NoDimension, 0, comma, ""},
		{"short last group", "1,234,5 m", NoDimension, 0, comma, ""},
		{"comma at the end", "1, m", NoDimension, 0, comma, ""},
		{"comma after decimals", "1.250,5 m", NoDimension, 5, "after the decimals", ""},
		{"points between thousands", "1.250.000 m", NoDimension, 5, "after the decimals", ""},
		{"space between thousands", "8 000 psi", NoDimension, 2, second, ""},
		{"range", "4-6 in", NoDimension, 1, "range", ""},
		{"range with a dash", "4 – 6 in", NoDimension, 2, "range", ""},
		{"two sizes", "4 in x 8 in", NoDimension, 4, `after the unit "in"`, ""},
		{"words after the unit", "4 in compacted", NoDimension, 4, `after the unit "in"`, ""},
		{"a number after the unit", "4 in 8", NoDimension, 4, `after the unit "in"`, ""},
		{"infinite", "1e999 m", NoDimension, 0, "too large", ""},
		{"past all reason", "1e99999 m", NoDimension, 1, "out of all reason", ""},
		{"larger than what is read", "1e101 m", NoDimension, 0, "too large", ""},
		{"would be 0", "1e-999 m", NoDimension, 0, "too small", ""},
		{"not a number", "NaN m", NoDimension, 0, number, ""},
		{"infinity", "inf m", NoDimension, 0, number, ""},
		{"division by 0", "1/0 in", NoDimension, 0, "divides by 0", ""},
		{"division by 0 in a mixed number", "2 1/0 in", NoDimension, 2, "divides by 0", ""},
		{"improper mixed number", "2 9/8 in", NoDimension, 2, "under 1", ""},
		{"a fraction of one whole in a mixed number", "2 8/8 in", NoDimension, 2, "under 1", ""},
		{"a fraction behind a power of ten", "1e3 1/2 in", NoDimension, 4, second, ""},
		{"decimal mixed number", "2.5 1/8 in", NoDimension, 4, second, ""},
		{"broken feet before inches", `1.5' 6"`, NoDimension, 0, "whole number", ""},
		{"too many inches after feet", `1' 12"`, NoDimension, 3, "under 12", ""},
		{"inches without a mark after feet", "1' 6", NoDimension, 4, "unit is missing", ""},
		{"feet after feet", "1' 6 mm", NoDimension, 5, "not inches", ""},
		{"feet and inches where a pressure is wanted", `1' 6"`, DimPressure, 1, "a pressure is wanted", ""},
		{"misspelt", "6 inn", NoDimension, 2, "unknown unit", "in"},
		{"misspelt where a density is wanted", "145 pfc", DimDensity, 4, "unknown unit", "pcf"},
		{"no such unit", "6 furlongs", NoDimension, 2, "unknown unit", ""},
		{"no unit", "6", DimLength, 1, "a length is wanted", ""},
		{"no unit, zero", "0", DimLength, 1, "a length is wanted", ""},
		{"no unit, after space", " 6 ", DimTime, 2, "a time is wanted", ""},
		{"wrong dimension", "6 psi", DimLength, 2, `"psi" measures a pressure, and a length is wanted`, ""},
		{"wrong dimension, ratio", "6 in", DimRatio, 2, `"in" measures a length, and a ratio is wanted`, ""},
		{"a pressure for a force has no spelling that was meant", "9 kPa", DimForce, 2, `"kPa" measures a pressure, and a force is wanted`, ""},
		{"one letter is near to half of all units", "6 q", NoDimension, 2, "unknown unit", ""},
		{"two letters are near to few", "6 fr", DimLength, 2, "unknown unit", "ft"},
		{"mass for a force", "9,000 lb", DimForce, 6, `"lb" measures a mass, and a force is wanted`, "lbf"},
		{"force for a mass", "9 kN", DimMass, 2, `"kN" measures a force, and a mass is wanted`, ""},
		{"temperature for a freezing index", "900 F", DimFreezingIndex, 4, "measures a temperature, and a freezing index is wanted", ""},
		{"degree days of no scale", "900 degree-days", NoDimension, 4, "unknown unit", "degree day F"},
		{"fraction finer than any measure", "1/1234567 in", NoDimension, 0, "too many digits", ""},
		{"comma before the number", ",5 in", NoDimension, 0, number, ""},
		{"broken fraction in inches after feet", `1' 1/0"`, NoDimension, 3, "divides by 0", ""},
		{"times what is no power of ten", "6 x 10 in", NoDimension, 2, "unknown unit", ""},
		{"times what is no ten", "6x5", NoDimension, 1, "unknown unit", ""},
		{"a unit that begins with e", "6ell", NoDimension, 1, "unknown unit", ""},
		{"a power of ten before inches", `1e1' 6"`, NoDimension, 0, "whole number", ""},
		{"a fraction before inches", `1/2' 6"`, NoDimension, 0, "whole number", ""},
		{"a little less than is read", "0.9e-100 m", NoDimension, 0, "too small", ""},
		{"a stop before the unit", "6 .in", NoDimension, 2, "second number", ""},
		{"a number after the unit, near to another", "6 m 2", NoDimension, 3, `after the unit "m"`, ""},
		{"a dash and a number behind the unit", "6 in-8", NoDimension, 2, "unknown unit", ""},
		{"two meanings", "60 lb/ft2", NoDimension, 3, "may be a pressure or an areal mass", ""},
		{"two meanings, neither wanted", "60 lb/ft2", DimLength, 3, "a pressure or an areal mass, and a length is wanted", ""},
		{"tonne by cubic yard", "1.9 tonnes/yd3", NoDimension, 4, "mixes the metric tonne and the cubic yard", ""},
		{"tonne by cubic yard in words", "1.9 tonnes per cubic yard", DimDensity, 4, "mixes the metric tonne", ""},
		{"ton or tonne", "20 T", NoDimension, 3, "short ton or a metric tonne", ""},
		{"millipascal", "30 mPa", NoDimension, 3, "millipascal", ""},
		{"unit weight as a force", "20 kN/m3", DimDensity, 3, "no density", ""},
		{"unit weight as a force, capitals", "20 KN/M3", DimDensity, 3, "no density", ""},
		{"unit weight as a force, US", "145 lbf/ft3", NoDimension, 4, "no density", ""},
		{"offset counts characters, not bytes", "½ ½", NoDimension, 2, second, ""},
		{"broken text", "6 \xff", NoDimension, 2, "unknown unit", ""},
		{"too long", strings.Repeat("1", 300) + " in", NoDimension, 200, "longer than", ""},
	}
	for _, c := range cases {
		t.Run(c.why, func(t *testing.T) {
			var err error
			if c.as == NoDimension {
				_, err = Parse(c.text)
			} else {
				_, err = ParseAs(c.as, c.text)
			}
			var fault *ParseError
			require.ErrorAs(t, err, &fault)
			require.Contains(t, fault.Problem, c.problem)
			require.Equal(t, c.offset, fault.Offset, "offset; %v", err)
			require.Equal(t, c.nearest, fault.Nearest, "nearest")
			require.True(t, strings.HasPrefix(c.text, fault.Text))
		})
	}
}

// Each fraction with a character of its own is the fraction that it shows.
func TestParseReadsFractionCharacters(t *testing.T) {
	for character, written := range map[string]string{
		"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
		"⅙": "1/6", "⅚": "5/6", "⅐": "1/7", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅑": "1/9", "⅒": "1/10",
	} {
		t.Run(written, func(t *testing.T) {
			want, err := Parse(written + " m")
			require.NoError(t, err)
			got, err := Parse(character + " m")
			require.NoError(t, err)
			require.Equal(t, want, got)
			got, err = Parse("2" + character + " m")
			require.NoError(t, err)
			require.Equal(t, 2+want.SI, got.SI)
		})
	}
}

// What would do must itself do.
func TestWantedUnitsWouldDo(t *testing.T) {
	for _, d := range Dimensions() {
		for _, text := range []string{"6", "6 zzzz"} {
			if d == DimRatio && text == "6" {
				continue
			}
			_, err := ParseAs(d, text)
			var fault *ParseError
			require.ErrorAs(t, err, &fault)
			require.NotEmpty(t, fault.Wanted, d)
			for _, unit := range fault.Wanted {
				unit = strings.TrimPrefix(unit, "a plain number")
				q, err := ParseAs(d, "6 "+unit)
				require.NoError(t, err)
				require.Equal(t, d, q.Dim)
			}
		}
	}
	_, err := Parse("60 lb/ft2")
	var fault *ParseError
	require.ErrorAs(t, err, &fault)
	for _, unit := range fault.Wanted {
		_, err := Parse("60 " + unit)
		require.NoError(t, err)
	}
}

func TestTwoMeaningsAreSettledByTheWantedDimension(t *testing.T) {
	p, err := ParseAs(DimPressure, "144 lb/ft2")
	require.NoError(t, err)
	require.InEpsilon(t, float64(PSI(1)), p.SI, 1e-14)
	m, err := ParseAs(DimArealMass, "9 lb/ft2")
	require.NoError(t, err)
	require.InEpsilon(t, 81*0.54249195959811669, m.SI, 1e-14)
}

func TestParseErrorsWrap(t *testing.T) {
	_, err := ParseAs(DimLength, "6 psi")
	require.ErrorIs(t, err, ErrDimension)
	_, err = Parse("1e999 m")
	require.ErrorIs(t, err, ErrNotFinite)
	_, err = ParseAs(NoDimension, "6 in")
	require.ErrorIs(t, err, ErrDimension)
	_, err = ParseAs(Dimension(200), "6 in")
	require.ErrorIs(t, err, ErrDimension)
	_, err = ParseAs(DimLength, "6 inn")
	require.EqualError(t, err, `"6 inn" at character 3: unknown unit "inn"; did you mean "in"?; wanted one of: in, ft, yd, mm, cm, m, um`)
	_, err = Parse("6 furlongs")
	require.EqualError(t, err, `"6 furlongs" at character 3: unknown unit "furlongs"; wanted one of: a plain number, in, sq ft, cu yd, lb, pcf, lbf, psi, in/h, F-day, h, F, lb/ft, oz/sq yd, 1/s, %`, "nothing is near, so one unit of each dimension")
	_, err = Parse("6 inn")
	require.EqualError(t, err, `"6 inn" at character 3: unknown unit "inn"; did you mean "in"?`, "the nearest is enough")
	_, err = Parse("1/0 in")
	require.EqualError(t, err, `"1/0 in" at character 1: the fraction divides by 0`, "nothing is wanted in its place")
}
