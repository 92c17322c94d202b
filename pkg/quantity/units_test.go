package quantity

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const definitionsFile = "../../testdata/units/definitions.tsv"

// tsv reads the rows of a table, without its comments.
func tsv(t *testing.T, file string, columns int) [][]string {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	var rows [][]string
	for line := range strings.Lines(string(data)) {
		line = strings.TrimRight(line, "\n")
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		row := strings.Split(line, "\t")
		require.Len(t, row, columns, line)
		rows = append(rows, row)
	}
	return rows
}

// bases are the expressions of the outside table for the SI unit of each
// dimension, so that a row cannot be checked against the wrong one.
var bases = map[Dimension]string{
	DimRatio: "1", DimLength: "m", DimArea: "m^2", DimVolume: "m^3", DimMass: "kg", DimDensity: "kg/m^3",
	DimForce: "N", DimPressure: "Pa", DimRate: "m/s", DimFreezingIndex: "K s", DimTime: "s",
	DimTemperature: "tempC", DimLineStrength: "N/m", DimArealMass: "kg/m^2", DimPermittivity: "1/s",
	DimShare: "1",
}

// Every unit against the definitions of an outside program, to 1e-14.
func TestUnitsAgreeWithDefinitions(t *testing.T) {
	known := map[string]Unit{}
	for _, u := range Units() {
		known[u.Builder] = u
	}
	checked := map[string]bool{}
	for _, row := range tsv(t, definitionsFile, 5) {
		builder, expression, base := row[0], row[2], row[3]
		t.Run(builder+" "+row[1], func(t *testing.T) {
			u, ok := known[builder]
			require.True(t, ok, "no unit has this builder")
			require.Equal(t, bases[u.Dim], base)
			reading, err := strconv.ParseFloat(row[1], 64)
			require.NoError(t, err)
			want, err := strconv.ParseFloat(row[4], 64)
			require.NoError(t, err)
			q, err := u.Quantity(reading)
			require.NoError(t, err)
			limit := 1e-14 * math.Abs(want)
			if u.Dim == DimTemperature {
				limit = 1e-12 // the outside program works through kelvin
			}
			require.InDelta(t, want, q.SI, limit, expression)
			back, err := q.In(u.Symbol)
			require.NoError(t, err)
			require.InDelta(t, reading, back, 1e-12*(1+math.Abs(reading)))
			checked[builder] = true
		})
	}
	for builder := range known {
		require.True(t, checked[builder], "the outside table has no row for %s", builder)
	}
}

// The sieve table is read by other packages: it must stay complete and fall.
func TestSieveTableFalls(t *testing.T) {
	rows := tsv(t, "../../testdata/units/sieves.tsv", 2)
	require.Len(t, rows, 25)
	last := math.Inf(1)
	for _, row := range rows {
		mm, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		require.Less(t, mm, last, "sieve %s", row[0])
		last = mm
	}
	require.Equal(t, []string{"4", "4.75"}, rows[0])
}

func TestUnitsAreWellFormed(t *testing.T) {
	identifier := regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
	builders := map[string]bool{}
	covered := map[Dimension]map[System]bool{}
	for _, u := range Units() {
		require.Regexp(t, identifier, u.Builder)
		require.False(t, builders[u.Builder], "builder %s twice", u.Builder)
		builders[u.Builder] = true
		require.True(t, u.Dim.Valid(), u.Builder)
		require.NotEmpty(t, u.About, u.Builder)
		if covered[u.Dim] == nil {
			covered[u.Dim] = map[System]bool{}
		}
		covered[u.Dim][u.System] = true
		for _, name := range append([]string{u.Symbol, u.Builder}, u.Spellings()...) {
			got, ok := UnitNamed(name, u.Dim)
			require.True(t, ok, "%s: %q is not found", u.Builder, name)
			require.Equal(t, u.Builder, got.Builder, name)
		}
	}
	for _, d := range Dimensions() {
		both := covered[d][US] && covered[d][SI] || covered[d][EitherSystem] || d == DimRatio
		require.True(t, both, "%s has no unit in one of the systems", d)
	}
}

// A spelling may serve several dimensions, never two units of one.
func TestNoSpellingMeansTwoUnitsOfADimension(t *testing.T) {
	for _, index := range []map[string][]Unit{byText().spelled, byText().folded} {
		for key, hits := range index {
			seen := map[Dimension]bool{}
			for _, u := range hits {
				require.False(t, seen[u.Dim], "%q", key)
				seen[u.Dim] = true
			}
		}
	}
}

func TestUnitsIsTheCallersOwn(t *testing.T) {
	units := Units()
	units[0].Builder = "changed"
	units[1].Spellings()[0] = "changed"
	require.NotEqual(t, "changed", Units()[0].Builder)
	require.NotEqual(t, "changed", Units()[1].Spellings()[0])
}

// A value built in Go and one read from text must be the same bits.
func TestConstructorsAgreeWithParse(t *testing.T) {
	cases := map[string]func(float64) Measure{
		"in":     func(x float64) Measure { return Inches(x) },
		"ft":     func(x float64) Measure { return Feet(x) },
		"mm":     func(x float64) Measure { return Millimeters(x) },
		"m":      func(x float64) Measure { return Meters(x) },
		"ft2":    func(x float64) Measure { return SquareFeet(x) },
		"m2":     func(x float64) Measure { return SquareMeters(x) },
		"pcf":    func(x float64) Measure { return PCF(x) },
		"kg/m3":  func(x float64) Measure { return KgPerM3(x) },
		"lbf":    func(x float64) Measure { return PoundsForce(x) },
		"kN":     func(x float64) Measure { return Kilonewtons(x) },
		"psi":    func(x float64) Measure { return PSI(x) },
		"kPa":    func(x float64) Measure { return Kilopascals(x) },
		"MPa":    func(x float64) Measure { return Megapascals(x) },
		"in/h":   func(x float64) Measure { return InchesPerHour(x) },
		"mm/h":   func(x float64) Measure { return MillimetersPerHour(x) },
		"F-days": func(x float64) Measure { return FahrenheitDays(x) },
		"C-days": func(x float64) Measure { return FreezingIndex(dayScale.si(x)) },
		"h":      func(x float64) Measure { return Hours(x) },
		"days":   func(x float64) Measure { return Days(x) },
		"years":  func(x float64) Measure { return Years(x) },
		"F":      func(x float64) Measure { return Fahrenheit(x) },
		"C":      func(x float64) Measure { return Celsius(x) },
		"kN/m":   func(x float64) Measure { return LineStrength(kiloScale.si(x)) },
		"N/mm":   func(x float64) Measure { return LineStrength(kiloScale.si(x)) },
	}
	for unit, build := range cases {
		for _, x := range []float64{1, 3, 6, 7.3, 150, 8000} {
			q, err := Parse(strconv.FormatFloat(x, 'f', -1, 64) + " " + unit)
			require.NoError(t, err)
			require.Equal(t, build(x).Quantity(), q, "%g %s", x, unit)
		}
	}
}

// The getters turn back what the constructors turned.
func TestGettersTurnBack(t *testing.T) {
	const x = 7.3
	for name, got := range map[string]float64{
		"inches": Inches(x).Inches(), "feet": Feet(x).Feet(), "mm": Millimeters(x).Millimeters(), "m": Meters(x).Meters(),
		"ft2": SquareFeet(x).SquareFeet(), "m2": SquareMeters(x).SquareMeters(), "pcf": PCF(x).PCF(), "kg/m3": KgPerM3(x).KgPerM3(),
		"lbf": PoundsForce(x).PoundsForce(), "kN": Kilonewtons(x).Kilonewtons(), "psi": PSI(x).PSI(), "kPa": Kilopascals(x).Kilopascals(),
		"MPa": Megapascals(x).Megapascals(), "in/h": InchesPerHour(x).InchesPerHour(), "mm/h": MillimetersPerHour(x).MillimetersPerHour(),
		"F-days": FahrenheitDays(x).FahrenheitDays(), "C-days": FreezingIndex(dayScale.si(x)).CelsiusDays(), "h": Hours(x).Hours(), "days": Days(x).Days(),
		"years": Years(x).Years(), "F": Fahrenheit(x).Fahrenheit(), "C": Celsius(x).Celsius(),
	} {
		require.InEpsilon(t, x, got, 1e-13, name)
	}
}

// The shared scale makes a converted depth the very float64 that was written.
func TestInchesAreTheNearestFloat(t *testing.T) {
	require.Equal(t, Meters(0.1524), Inches(6))
	require.Equal(t, Meters(0.079375), Inches(3.125))
	require.Equal(t, Millimeters(9), Meters(0.009))
}

func TestUnitQuantityRefusesWhatIsNoNumber(t *testing.T) {
	u, ok := UnitNamed("kips", NoDimension)
	require.True(t, ok)
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64} {
		_, err := u.Quantity(x)
		require.ErrorIs(t, err, ErrNotFinite)
	}
	_, err := Unit{}.Quantity(1)
	require.ErrorIs(t, err, ErrDimension)
}
