package quantity

import (
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

// Each measured type has a dimension of its own, and every dimension but the
// ratio a measured type.
func TestDimensionsOfTypes(t *testing.T) {
	seen := map[Dimension]bool{}
	for _, m := range []Measure{
		Length(1), Area(1), Volume(1), Mass(1), Density(1), Force(1), Pressure(1), Rate(1), FreezingIndex(1),
		Time(1), Temperature(1), LineStrength(1), ArealMass(1), Permittivity(1), Share(1),
	} {
		seen[m.Quantity().Dim] = true
		require.Equal(t, 1.0, m.Quantity().SI)
	}
	require.Len(t, seen, len(Dimensions())-1)
}

// What is no dimension has a name all the same.
func TestNoSuchDimension(t *testing.T) {
	for _, d := range []Dimension{NoDimension, Dimension(len(dimensions)), 255} {
		require.False(t, d.Valid())
		require.Equal(t, "none", d.String())
		require.Equal(t, "none", d.Name())
		require.Empty(t, d.BaseUnit())
	}
	_, found := DimensionNamed("none")
	require.False(t, found)
}
