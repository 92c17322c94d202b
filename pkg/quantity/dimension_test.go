package quantity

import (
	"reflect"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestDimensionsNameThemselves(t *testing.T) {
	require.Len(t, Dimensions(), int(DimShare))
	identifier := regexp.MustCompile(`^[a-z]+(_[a-z]+)*$`)
	for _, d := range Dimensions() {
		require.Regexp(t, identifier, d.Name())
		require.NotEmpty(t, d.BaseUnit())
		back, ok := DimensionNamed(d.Name())
		require.True(t, ok)
		require.Equal(t, d, back)
	}
	require.Equal(t, "freezing index", DimFreezingIndex.String())
	require.Equal(t, "freezing_index", DimFreezingIndex.Name())
}

func TestWhatIsNoDimension(t *testing.T) {
	for _, name := range []string{"", "none", "no dimension", "weight", "Length"} {
		_, ok := DimensionNamed(name)
		require.False(t, ok, name)
	}
	require.False(t, NoDimension.Valid())
	require.False(t, Dimension(200).Valid())
	require.Equal(t, NoDimension.String(), Dimension(200).String(), "an unknown dimension must not panic")
}

// The algebra finds a dimension by its powers, so no two may share them.
func TestPowersAreDistinct(t *testing.T) {
	seen := map[exponents]Dimension{}
	for _, d := range Dimensions() {
		if d == DimTemperature || d == DimShare {
			continue
		}
		other, twice := seen[d.entry().powers]
		require.False(t, twice, "%s and %s", d, other)
		seen[d.entry().powers] = d
	}
}

func TestDimensionOfTypes(t *testing.T) {
	for _, m := range []Measure{
		Length(0), Area(0), Volume(0), Mass(0), Density(0), Force(0), Pressure(0), Rate(0), FreezingIndex(0),
		Time(0), Temperature(0), LineStrength(0), ArealMass(0), Permittivity(0), Share(0),
	} {
		d, ok := DimensionOf(reflect.TypeOf(m))
		require.True(t, ok)
		require.Equal(t, m.Quantity().Dim, d)
	}
	d, ok := DimensionOf(reflect.TypeFor[float64]())
	require.True(t, ok)
	require.Equal(t, DimRatio, d)
	for _, none := range []reflect.Type{reflect.TypeFor[Quantity](), reflect.TypeFor[string](), reflect.TypeFor[float32](), nil} {
		_, ok := DimensionOf(none)
		require.False(t, ok)
	}
}

// What is no dimension has a name all the same.
func TestNoSuchDimension(t *testing.T) {
	for _, d := range []Dimension{NoDimension, Dimension(len(dimensions)), 255} {
		require.False(t, d.Valid())
		require.Equal(t, "no dimension", d.String())
		require.Equal(t, "none", d.Name())
		require.Empty(t, d.BaseUnit())
	}
	_, found := DimensionNamed("none")
	require.False(t, found)
}
