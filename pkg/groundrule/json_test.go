package groundrule_test

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

// mostBytes is what the usual JSON of a section may take: a page of the web is
// larger.
const mostBytes = 60_000

// A section is read back from its JSON as it was, in each form, and written
// again it is the same bytes; and the job in it, designed again, gives the same
// bytes too.
func TestRoundTrip(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	files, err := filepath.Glob(filepath.Join(examples, "jobs", "*.yaml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			s := designed(t, exampleJob(t, filepath.Base(file)))
			roundTrip(t, book, s)
			usual, err := s.JSON()
			require.NoError(t, err)
			require.LessOrEqual(t, len(usual), mostBytes)
		})
	}
	made := trialJobs(22)
	for i := 0; i < len(made); i += max(1, len(made)/1000) {
		s, err := cameTo(book, made[i])
		require.NoError(t, err, asFile(made[i]))
		roundTrip(t, book, s)
	}
}

func roundTrip(t *testing.T, book *groundrule.Book, s *section.Section) {
	t.Helper()
	full, err := s.JSON(section.Full)
	require.NoError(t, err)
	usual, err := s.JSON()
	require.NoError(t, err)
	indented, err := s.JSON(section.Full, section.Indented)
	require.NoError(t, err)

	back, err := section.Read(full)
	require.NoError(t, err)
	if diff := cmp.Diff(s, back); diff != "" {
		t.Fatalf("(-was +read):\n%s", diff)
	}
	again, err := back.JSON(section.Full)
	require.NoError(t, err)
	require.True(t, bytes.Equal(full, again), "the same bytes")

	var plain section.Section
	require.NoError(t, json.Unmarshal(full, &plain))
	require.Empty(t, cmp.Diff(s, &plain), "by the standard library alone")
	laid, err := section.Read(indented)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(s, laid), "however it is laid out")

	short, err := section.Read(usual)
	require.NoError(t, err)
	again, err = short.JSON()
	require.NoError(t, err)
	require.True(t, bytes.Equal(usual, again), "the same bytes of the usual form")

	job, err := site.Read("job.json", short.Job.Input)
	require.NoError(t, err, string(short.Job.Input))
	anew, err := cameTo(book, job)
	require.NoError(t, err)
	again, err = anew.JSON(section.Full)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(full), string(again)), "designed again from %s", short.Job.Input)
}

// The sheet of a section that was read back is the same, but for the reasons
// that the usual form has not.
func TestSheetOfWhatWasRead(t *testing.T) {
	for _, file := range []string{"patio-on-stiff-clay.yaml", "refused-truck-yard.yaml", "stopped-uniaxial-grid.yaml"} {
		t.Run(file, func(t *testing.T) {
			s := designed(t, exampleJob(t, file))
			text := func(s *section.Section) string {
				var b bytes.Buffer
				require.NoError(t, sheet.Text(&b, s, quantity.SI))
				return b.String()
			}
			full, err := s.JSON(section.Full)
			require.NoError(t, err)
			back, err := section.Read(full)
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(text(s), text(back)))

			usual, err := s.JSON()
			require.NoError(t, err)
			short, err := section.Read(usual)
			require.NoError(t, err)
			require.NotContains(t, text(short), "Rule .")
			require.NotContains(t, text(short), "none given")
		})
	}
}
