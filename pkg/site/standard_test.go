package site_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// standard is the table with the words of the standard rulebook.
func standard(t testing.TB) *site.Table {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return book.Table()
}

// standardWords lists the words that may stand at a path.
func standardWords(t testing.TB, path string) []value.WordEntry {
	t.Helper()
	for _, f := range standard(t).Fields() {
		if f.Path == path {
			return f.Vocabulary.Words
		}
	}
	require.Fail(t, "no field "+path)
	return nil
}

// TestConstants holds the constants of this package equal to the words of the
// standard rulebook, in the same order.
func TestConstants(t *testing.T) {
	for path, constants := range map[string][]string{
		"use": {string(site.Foot), string(site.CarDriveway), string(site.HeavyDriveway), string(site.LightParking), string(site.FireLane),
			string(site.ResidentialStreet), string(site.CollectorStreet), string(site.TruckYard)},
		"base": {string(site.Dense), string(site.Open), string(site.Panel)},
		"soil.word": {string(site.Rock), string(site.Gravel), string(site.Sand), string(site.SiltySand), string(site.ClayeySand), string(site.Silt),
			string(site.Loam), string(site.SandyClay), string(site.Clay), string(site.Topsoil), string(site.Peat), string(site.Fill), string(site.UnknownSoil)},
	} {
		t.Run(path, func(t *testing.T) {
			var words []string
			for _, w := range standardWords(t, path) {
				words = append(words, w.GoValue())
			}
			require.Equal(t, words, constants, "whoever writes Go and whoever writes a job use the same words")
		})
	}
}
