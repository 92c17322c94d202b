package engine

import (
	"errors"
	"os"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/rulebook"
)

// amendmentFile is an amendment of the whole book.
const amendmentFile = `amendment: thicker
who: the standards keeper
why: cold winters
when: 2026-01-15
settings:
  cover_least: {value: 5 in, because: frost, source: company, from: 2026-01-01, until: 2026-12-31}
words:
  grid: {multiaxial: multiaxial grid}
rules:
  - {replace: G2, with: {when: "!soft", answer: multiaxial, because: stiff, source: company}, because: tried}
  - {retire: G3}
  - {add: {rule: N3, answer: light_net, because: more, source: company}, to: nets, before: N2}
  - {retire: W1}
variances:
  - {variance: thin, setting: cover_least, to: 3 in, who: an engineer, why: rock, from: 2026-01-01, until: 2026-06-30}
new_settings:
  spare: {value: 3, because: spare, source: company}
terms:
  dry: {is: bool, about: dry, source: company, value: "!wet"}
`

var aValue = regexp.MustCompile(`(?m): [^\s{\[][^,}\n]*|: \{|: \[|^ *- |^ *[a-z_]+:$`)

// TestBentChapters bends every value of a whole rulebook and of an amendment
// into every other shape: whatever is written, it is told and never a panic.
func TestBentChapters(t *testing.T) {
	shapes := []string{": []", ": {x: y}"}
	if os.Getenv("RULEBOOK_BEND_ALL") != "" {
		shapes = append(shapes, ": {}", ": [x]", ": ~", ":", ": ''", ": 3", ": x", ": cbr", ": true", ": '{'", ": 4 in", ": G1", ": depth", ": list(list(x))", ": 'a b'")
	}
	setup := testSetup()
	setup.AsOf, _ = rulebook.ParseDate("2026-03-01")
	open := func(book, amendment string) error {
		all := setup
		all.Amendments = []rulebook.Layer{{Label: "company", FS: filesOf(map[string]string{"z.yaml": amendment})}}
		_, err := Open(filesOf(map[string]string{"a.yaml": book, "words.yaml": wordsFile}), all)
		return err
	}
	require.NoError(t, open(wholeBook, amendmentFile))
	told := 0
	check := func(err error) {
		var faults *rulebook.Error
		if err == nil {
			return
		}
		require.True(t, errors.As(err, &faults), "%v", err)
		told++
		for _, d := range faults.Faults {
			require.NotEmpty(t, d.Message)
			require.NotEmpty(t, d.Place.File, "%v", d)
			_ = d.Error()
		}
	}
	for _, shape := range shapes {
		for _, at := range aValue.FindAllStringIndex(wholeBook, -1) {
			check(open(wholeBook[:at[0]]+shape+wholeBook[at[1]:], amendmentFile))
		}
		for _, at := range aValue.FindAllStringIndex(amendmentFile, -1) {
			check(open(wholeBook, amendmentFile[:at[0]]+shape+amendmentFile[at[1]:]))
		}
	}
	require.Greater(t, told, 200)
}
