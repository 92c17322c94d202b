package geosynthetic_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/quantity"
)

func TestFabricApplicationFor(t *testing.T) {
	for _, tc := range []struct {
		name string
		cbr  float64
		want geosynthetic.FabricApplication // "" is refused
	}{
		{"very soft ground is not covered", 0.5, ""},
		{"CBR 1 itself is not covered", 1, ""},
		{"just above 1", 1.01, geosynthetic.Stabilization},
		{"just under 3", 2.99, geosynthetic.Stabilization},
		{"3 itself is separation", 3, geosynthetic.Separation},
		{"firm ground", 20, geosynthetic.Separation},
		{"no CBR", 0, ""},
		{"above any CBR", 101, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.FabricApplicationFor(tc.cbr)
			require.Equal(t, tc.want == "", err != nil, "%v", err)
			require.Equal(t, tc.want, got)
		})
	}
}

func TestFabricClasses(t *testing.T) {
	for application, want := range map[geosynthetic.FabricApplication]geosynthetic.FabricClass{
		geosynthetic.Separation: geosynthetic.Class2, geosynthetic.Drainage: geosynthetic.Class2, geosynthetic.Stabilization: geosynthetic.Class1,
	} {
		got, err := geosynthetic.DefaultFabricClass(application)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	for _, tc := range []struct {
		name                  string
		lift, stone, pressure float64 // mm, mm, kPa
		want                  geosynthetic.FabricClass
	}{
		{"a thick lift of middling stone", 301, 49, 900, geosynthetic.Class3},
		{"300 mm is not above 300 mm", 300, 49, 900, geosynthetic.Class2},
		{"50 mm is not below 50 mm", 301, 50, 500, geosynthetic.Class2},
		{"a thin lift of small stone under light plant", 151, 29, 549, geosynthetic.Class3},
		{"the same under heavy plant", 151, 29, 550, geosynthetic.Class2},
		{"a thinner lift", 150, 29, 549, geosynthetic.Class2},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.SeparationFabricClass(quantity.Millimeters(tc.lift), quantity.Millimeters(tc.stone), quantity.Kilopascals(tc.pressure))
			require.NoError(t, err)
			require.Equal(t, tc.want, got)
		})
	}
}

// A sewn seam is asked to hold 90 percent of the grab strength throughout the
// table, puncture and tear fall with the class, and low elongation asks more.
func TestFabricStrengthsHangTogether(t *testing.T) {
	bands := []geosynthetic.FabricElongation{geosynthetic.LowElongation, geosynthetic.HighElongation}
	classes := []geosynthetic.FabricClass{geosynthetic.Class1, geosynthetic.Class2, geosynthetic.Class3}
	strengths := func(class geosynthetic.FabricClass, band geosynthetic.FabricElongation) [4]quantity.Force {
		var s [4]quantity.Force
		var err error
		for i, f := range []func() (quantity.Force, error){
			func() (quantity.Force, error) { return geosynthetic.FabricGrabStrength(class, band) },
			func() (quantity.Force, error) { return geosynthetic.FabricSeamStrength(class, band) },
			func() (quantity.Force, error) {
				return geosynthetic.FabricTearStrength(class, band, geosynthetic.Nonwoven)
			},
			func() (quantity.Force, error) { return geosynthetic.FabricPunctureStrength(class, band) },
		} {
			s[i], err = f()
			require.NoError(t, err)
		}
		return s
	}
	for i, class := range classes {
		low, high := strengths(class, bands[0]), strengths(class, bands[1])
		for j := range low {
			require.Greater(t, low[j], high[j], "%s %d", class, j)
		}
		for _, s := range [][4]quantity.Force{low, high} {
			require.InDelta(t, 0.9*float64(s[0]), float64(s[1]), 1e-9, "seam of %s", class)
		}
		if i > 0 {
			stronger := strengths(classes[i-1], bands[0])
			for j := range low {
				require.Greater(t, stronger[j], low[j], "%s %d", class, j)
			}
		}
	}
}

func TestMonofilamentTear(t *testing.T) {
	for _, tc := range []struct {
		name   string
		class  geosynthetic.FabricClass
		band   geosynthetic.FabricElongation
		making geosynthetic.FabricMaking
		want   quantity.Force
	}{
		{"the exception", geosynthetic.Class2, geosynthetic.LowElongation, geosynthetic.WovenMonofilament, 250},
		{"not for other wovens", geosynthetic.Class2, geosynthetic.LowElongation, geosynthetic.Woven, 400},
		{"not in class 1", geosynthetic.Class1, geosynthetic.LowElongation, geosynthetic.WovenMonofilament, 500},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.FabricTearStrength(tc.class, tc.band, tc.making)
			require.NoError(t, err)
			require.Equal(t, tc.want, got)
		})
	}
}

func TestFabricWordsThatAreNone(t *testing.T) {
	_, err := geosynthetic.FabricGrabStrength("class 4", geosynthetic.LowElongation)
	require.ErrorContains(t, err, `class is "class 4"; it must be class 1, class 2 or class 3`)
	_, err = geosynthetic.FabricGrabStrength(geosynthetic.Class1, "some")
	require.ErrorContains(t, err, `elongation is "some"`)
	_, err = geosynthetic.FabricTearStrength(geosynthetic.Class1, geosynthetic.LowElongation, "knitted")
	require.ErrorContains(t, err, `making is "knitted"`)
	_, err = geosynthetic.FabricOpening(geosynthetic.Drainage)
	require.ErrorContains(t, err, "for drainage the fines decide")
	_, err = geosynthetic.FabricPermittivity("rest")
	require.ErrorContains(t, err, `application is "rest"`)
}

// The finer the soil, the smaller the opening and the less water a drainage
// fabric must pass; the bounds themselves belong to the middle row.
func TestDrainFabricBounds(t *testing.T) {
	for _, tc := range []struct {
		name                  string
		fines                 float64
		permittivity, opening float64
	}{
		{"clean", 0, 0.5, 0.43}, {"just under 15", 14.99, 0.5, 0.43},
		{"15", 15, 0.2, 0.25}, {"50", 50, 0.2, 0.25},
		{"just over 50", 50.01, 0.1, 0.22}, {"all fines", 100, 0.1, 0.22},
	} {
		t.Run(tc.name, func(t *testing.T) {
			p, err := geosynthetic.DrainFabricPermittivity(tc.fines)
			require.NoError(t, err)
			require.Equal(t, quantity.Permittivity(tc.permittivity), p)
			o, err := geosynthetic.DrainFabricOpening(tc.fines)
			require.NoError(t, err)
			require.InDelta(t, tc.opening, o.Millimeters(), 1e-12)
		})
	}
	_, err := geosynthetic.DrainFabricOpening(100.1)
	require.Error(t, err)
}
