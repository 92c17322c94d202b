package survey

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/page"
)

// promisesOfEachEnd are promises that are proven in each way, refuted by a job and by
// a pair of jobs, and only searched.
const promisesOfEachEnd = `
promises:
  - {promise: GUARDED, never: x > inches(5), because: told, source: practice}
  - {promise: BROKEN, when: base == open, never: x == inches(0), because: told, source: practice}
  - {promise: RISES, when: known(frost.depth), as: frost.depth rises, then: wall never falls, because: told, source: practice}
  - {promise: FALLS, when: known(frost.depth), as: frost.depth rises, then: rest never falls, because: told, source: practice}
  - {promise: LEFT, when: known(soil.cbr), as: soil.cbr rises, then: firm never falls, because: told, source: practice}
refusals:
  - {refusal: DEEP, when: known(frost.depth) && frost.depth > inches(60), says: Too deep., who: Another., source: practice}
`

// TestProofs holds what is written of proofs to the letter, and what they come to.
func TestProofs(t *testing.T) {
	const frost = "when: known(frost.depth), answer: "
	book := opened(t, "decisions:\n"+measuredAs("x", "length", "first", "when: known(frost.depth) && frost.depth > inches(60), answer: inches(9)", "answer: inches(0)")+
		measuredAs("wall", "length", "first", frost+"barrier_height_denver(frost.depth)", "answer: inches(0)")+
		measuredAs("rest", "length", "first", frost+"inches(60) - frost.depth", "answer: inches(0)")+
		measuredAs("firm", "number", "first", "when: known(soil.cbr), answer: 'count(firm_readings(soil.cbr, 0.5))'", "answer: 1")+promisesOfEachEnd)
	p, err := Prove(t.Context(), book, Options{Budget: 600, Seed: 3})
	require.NoError(t, err)
	require.False(t, p.OK())
	require.Equal(t, "5 promises: 2 proven, 2 refuted, 1 searched without a counterexample.", p.Summary())
	settled := p.Settled()
	require.Equal(t, []string{"Proven for every job.", "Refuted: a job breaks it.", "Proven for every job.", "Refuted: a job breaks it."},
		[]string{settled["GUARDED"], settled["BROKEN"], settled["RISES"], settled["FALLS"]})
	require.Regexp(t, `^Searched among \d+ jobs without a counterexample, not proven\.$`, settled["LEFT"])
	var text page.Page
	p.Tell(&text)
	var b strings.Builder
	require.NoError(t, text.Write(&b))
	keptIn(t, "proofs", b.String())
}
