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
company: Ours
who: the standards keeper
why: cold winters
when: 2026-01-15
replace:
  - {setting: cover_least, from: 2026-01-01, until: 2026-12-31, set: {value: 3 in, because: frost, source: company}}
  - {rule: G2, with: {when: "!soft", answer: multiaxial, because: stiff, source: company}, because: tried}
retire:
  - {rule: G3, because: worn}
  - {caution: W1, because: known}
add:
  - {word: multiaxial, to: grid, label: multiaxial grid, because: bought, source: company}
  - {rule: N3, answer: light_net, because: more, source: company, to: nets, before: N2}
  - {limit: L9, to: depth, at_least: cm(1), because: less is none, source: company}
  - {setting: spare, value: 3, because: spare, source: company}
  - {term: dry, is: bool, about: dry, because: so, source: company, value: "!wet"}
move:
  - {rule: N2, before: N1, because: first}
variances:
  - {variance: thin, setting: cover_least, to: 3 in, who: an engineer, why: rock, from: 2026-01-01, until: 2026-06-30}
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
