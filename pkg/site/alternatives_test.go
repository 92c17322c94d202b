package site_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/site"
)

// Each alternative is a whole job, made and checked as an area is.
func TestAlternatives(t *testing.T) {
	job := read(t, least+"soil: {cbr: 4}\nalternatives:\n  - {name: clean stone, base: open}\n  - {name: on rock, soil: {word: rock, cbr: [9]}}\n")
	roundTrip(t, job)
	others := job.Otherwise()
	require.Len(t, others, 2)
	sameSite(t, read(t, "job: clean stone\narea: 400 sq ft\nuse: foot\nbase: open\nsoil: {cbr: 4}\n"), others[0])
	require.Equal(t, "rock", others[1].Soil.Word)
	require.Equal(t, []float64{9}, others[1].Soil.CBR)
	require.Empty(t, others[0].Alternatives, "an alternative has none of its own")
	require.Empty(t, read(t, least).Otherwise())
	for _, c := range []struct{ name, why, text, want string }{
		{"no name", "nobody could tell them apart", "alternatives: [{base: open}]", "alternatives[0].name is missing"},
		{"one name twice", "nor these", "alternatives: [{name: a, base: open}, {name: a, base: panel}]", "alternatives[1].name is the name of another alternative"},
		{"whose it is", "it stays one job", "alternatives: [{name: a, client: B}]", `"client"`},
		{"what contradicts the job", "each is checked as a job", "soil: {liquid_limit: 20}\nalternatives: [{name: a, soil: {plastic_limit: 30}}]", "soil.liquid_limit is below"},
		{"one within another", "an alternative is a job's", "alternatives: [{name: a, alternatives: [{name: b}]}]", `"alternatives"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := site.Read("job.yaml", []byte(least+c.text+"\n"))
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}
