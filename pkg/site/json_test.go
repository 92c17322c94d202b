package site_test

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// jsonRoundTrip writes a site as JSON and reads it back.
func jsonRoundTrip(t testing.TB, s *site.Site) {
	t.Helper()
	text, err := json.Marshal(s)
	require.NoError(t, err)
	var back site.Site
	require.NoError(t, json.Unmarshal(text, &back), "%s", text)
	require.Empty(t, cmp.Diff(s, &back, alike))
	again, err := json.Marshal(back)
	require.NoError(t, err)
	require.Equal(t, string(text), string(again))
	yaml, err := site.Write(s)
	require.NoError(t, err)
	fromJSON, err := site.Write(&back)
	require.NoError(t, err)
	require.Equal(t, string(yaml), string(fromJSON))
}

func TestJSONOfExamples(t *testing.T) {
	files, err := filepath.Glob("../../examples/jobs/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			s, err := site.Read(name, data)
			require.NoError(t, err)
			jsonRoundTrip(t, s)
		})
	}
	for _, text := range []string{patio, other, least} {
		jsonRoundTrip(t, read(t, text))
	}
}

func TestJSONOfAnyJob(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 7))
	for range 500 {
		jsonRoundTrip(t, jobs.Any(rng, standard(t)))
	}
	for job := range jobs.Generate(nil, 500, 11) {
		jsonRoundTrip(t, job)
	}
}

// The JSON of a site is a job file, in the units that people write.
func TestJSONIsAJobFile(t *testing.T) {
	text, err := json.Marshal(read(t, `{area: 37.5 sq m, use: foot, base: open, job: "<a> & \"b\"", surface_slope: 1/4 in/ft, rain: {storage: yes},
  soil: {cbr: [3, 4.5], organic: no, liquid_limit: 1e-9, dcp: {readings: [{blows: 5, penetration: 2 in}]}, sieves: [{sieve: "#200", passing: 62}]}}`))
	require.NoError(t, err)
	require.JSONEq(t, `{"job": "<a> & \"b\"", "area": "37.5 m2", "use": "foot", "base": "open",
  "soil": {"cbr": [3, 4.5], "dcp": {"readings": [{"blows": 5, "penetration": "2 in"}]}, "sieves": [{"sieve": "No. 200", "passing": 62}], "liquid_limit": 1e-9, "organic": false},
  "rain": {"storage": true}, "surface_slope": "0.25 in per ft"}`, string(text))
	s, err := site.Read("job.json", text)
	require.NoError(t, err)
	require.Equal(t, quantity.SquareMeters(37.5), s.Area)

	inAStruct, err := json.Marshal(struct{ Job *site.Site }{})
	require.NoError(t, err)
	require.Equal(t, `{"Job":null}`, string(inAStruct))
}

func TestJSONFaults(t *testing.T) {
	_, err := json.Marshal(&site.Site{})
	var bad *site.Error
	require.ErrorAs(t, err, &bad, "what does not validate is not written")
	s := site.Site{Job: "as before"}
	err = json.Unmarshal([]byte(`{"area": 400, "use": "foot", "base": "dense"}`), &s)
	var one *diagnostic.Diagnostic
	require.ErrorAs(t, err, &one)
	require.Equal(t, "area", one.Path)
	require.Equal(t, site.Site{Job: "as before"}, s)
}
