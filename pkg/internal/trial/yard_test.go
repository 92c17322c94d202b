package trial_test

import (
	"bytes"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/rulebook"
)

// yard is a rulebook small enough to see through.
const yard = `chapter: yard
about: A yard, for trying trials on.
vocabularies:
  cover_word: {about: What lies on top., words: {turf: turf, slab: slab}, because: told, source: practice}
  course_kind: {about: Sorts of course., words: {layer: layer}, because: told, source: practice}
settings:
  least: {value: 4 in, at_least: 3 in, because: The least., source: practice}
  strict: {value: false, because: Off., source: practice}
terms:
  heavy: {is: bool, about: whether vehicles come, value: use != foot, because: told, source: practice}
decisions:
  cover:
    asks: What lies on top?
    answers: cover_word
    take: first
    rules:
      - {rule: COVER-SLAB, when: heavy || strict, answer: slab, because: Vehicles come., source: practice}
      - {rule: COVER-TURF, answer: turf, because: None do., source: practice}
  depth:
    asks: How deep?
    answers: length
    take: largest
    rules:
      - {rule: DEPTH-LEAST, answer: least, because: "At least {least}.", source: practice}
      - {rule: DEPTH-WET, when: known(water.groundwater) && water.groundwater < feet(3), answer: inches(6), because: Water is near., source: practice}
    limits: [{limit: DEPTH-NOT-LESS, at_least: least, because: It slides., source: practice}]
  strength:
    asks: How strong?
    answers: number
    take: first
    when: known(soil.cbr)
    rules:
      - {rule: STRENGTH, answer: least(soil.cbr), because: The least reading., source: practice, standing: presumed, confirm: Measure again.}
courses:
  - {course: top, label: Top, is: layer, because: It is the top., source: practice, attributes: {what: cover, thickness: depth}}
  - {course: under, label: Under, is: layer, when: known(strength), because: It was measured., source: practice, attributes: {strength: strength}}
checks:
  - {check: DEEP, asks: "Deep enough?", value: depth, at_least: inches(5), failing: caution, says: Dig., because: Roots., source: practice}
  - {check: FIRM, asks: "Firm?", when: known(strength), holds: strength > 1, failing: stop, says: Firm it., because: It sinks., source: practice}
cautions:
  - {caution: SLAB, when: cover == slab, says: Heavy., source: practice}
steps:
  - {step: LAY, course: top, says: "Lay {depth}.", hold: Look at it., because: x, source: practice}
stops:
  - {stop: SOFT, finds: Soft ground., does: Stop., calls: Somebody., found: {soil.cbr: depth / inches(8)}, because: x, source: practice}
refusals:
  - {refusal: YARD, when: use == truck_yard, says: Too heavy., who: An engineer., source: practice}
`

func open(t *testing.T) *engine.Book {
	t.Helper()
	book, err := groundrule.Open(small.Rulebook("yard.yaml", yard))
	require.NoError(t, err)
	return inside.Rules(book)
}

// load reads the text of one file of trials.
func load(text string) ([]trial.Trial, error) {
	return trial.Load(rulebook.Layer{Label: "trials", FS: fstest.MapFS{"yard.yaml": {Data: []byte(text)}}})
}

func read(t *testing.T, text string) []trial.Trial {
	t.Helper()
	trials, err := load(text)
	require.NoError(t, err)
	return trials
}

// measured runs trials with their coverage.
func measured(t *testing.T, book *engine.Book, trials []trial.Trial) (*trial.Report, error) {
	return trial.Run(t.Context(), book, trials, trial.Options{Coverage: true})
}

// told is a report as text.
func told(t *testing.T, r *trial.Report) string {
	t.Helper()
	var p page.Page
	r.Tell(&p)
	var b bytes.Buffer
	require.NoError(t, p.Write(&b))
	return b.String()
}

// walk is a job in the yard, for files of trials to begin with.
const walk = `trials:
  - trial: WALK
    why: A walk in the yard.
    job: {use: foot, base: dense, area: 100 sq ft}
`
