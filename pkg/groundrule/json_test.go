package groundrule_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
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
			job := exampleJob(t, filepath.Base(file))
			if len(job.Areas) > 0 {
				return // TestAreasOfTheExample
			}
			s := designed(t, job)
			require.NoError(t, roundTrip(book, s))
			usual, err := s.JSON()
			require.NoError(t, err)
			require.LessOrEqual(t, len(usual), mostBytes)
			indented, err := s.JSON(section.Indented)
			require.NoError(t, err)
			short, err := section.Read(usual)
			require.NoError(t, err)
			laid, err := section.Read(indented)
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(short, laid), "however it is laid out")
		})
	}
	all := trialJobs(22)
	made := make([]*site.Site, fewer(1000, 60))
	for i := range made {
		made[i] = all[i*len(all)/len(made)]
	}
	faults := make([]error, len(made))
	inParallel(4, len(made), func(i int) {
		s, err := cameTo(book, made[i])
		if err == nil {
			err = roundTrip(book, s)
		}
		faults[i] = err
	})
	for i, fault := range faults {
		require.NoError(t, fault, asFile(made[i]))
	}
}

// roundTrip returns what is wrong with a section that was read back.
func roundTrip(book *groundrule.Book, s *section.Section) error {
	for _, forms := range [][]section.Form{nil, {section.Full}, {section.Crew}} {
		written, err := s.JSON(forms...)
		if err != nil {
			return err
		}
		back, err := section.Read(written)
		if err != nil {
			return err
		}
		if again, err := back.JSON(forms...); err != nil || !bytes.Equal(written, again) {
			return fmt.Errorf("written again as %v, %v: %s", forms, err, cmp.Diff(string(written), string(again)))
		}
	}
	written, err := s.JSON(section.Full)
	if err != nil {
		return err
	}
	var back section.Section
	if err := json.Unmarshal(written, &back); err != nil {
		return err
	}
	if !cmp.Equal(s, &back) {
		return fmt.Errorf("read back: %s", cmp.Diff(s, &back))
	}

	job, err := site.Read("job.json", back.Job.Input)
	if err != nil {
		return fmt.Errorf("%w in %s", err, back.Job.Input)
	}
	anew, err := cameTo(book, job)
	if err != nil {
		return err
	}
	again, err := anew.JSON(section.Full)
	if err != nil || !bytes.Equal(written, again) {
		return fmt.Errorf("designed again from %s, %v: %s", back.Job.Input, err, cmp.Diff(string(written), string(again)))
	}
	return nil
}

// Whatever a section, a joint or a reason names as a source is in its own list, in every
// form.
func TestEverySourceIsListed(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	files, err := filepath.Glob(filepath.Join(examples, "jobs", "*.yaml"))
	require.NoError(t, err)
	if testing.Short() {
		files = everyNth(files, 4)
	}
	every := []section.Form{section.Crew, section.Client, section.Takeoff, section.Questions}
	for _, file := range files {
		made, err := book.Areas(exampleJob(t, filepath.Base(file)), every...)
		require.NoError(t, err)
		for _, forms := range [][]section.Form{nil, {section.Full}, {section.Crew}, {section.Client}, {section.Takeoff}, every, append(every, section.Full)} {
			t.Run(fmt.Sprint(filepath.Base(file), forms), func(t *testing.T) {
				written, err := made.JSON(forms...)
				require.NoError(t, err)
				var read struct{ Sections, Joints []map[string]any }
				require.NoError(t, json.Unmarshal(written, &read))
				for _, each := range append(read.Sections, read.Joints...) {
					requireListed(t, each)
				}
			})
		}
		t.Run(filepath.Base(file)+" reasons", func(t *testing.T) {
			for _, s := range made.Sections {
				var asked []string
				for _, c := range s.Courses {
					asked = append(asked, c.Name)
				}
				for _, r := range s.Reasons {
					if !strings.HasPrefix(r.Decision, "course.") { // asked for by the name of the course
						asked = append(asked, r.Decision)
					}
				}
				for _, name := range asked {
					var written bytes.Buffer
					require.NoError(t, sheet.ReasonJSON(&written, s, name))
					var read map[string]any
					require.NoError(t, json.Unmarshal(written.Bytes(), &read))
					requireListed(t, read)
				}
			}
		})
	}
}

// requireListed holds that a piece of JSON lists the sources that it names.
func requireListed(t *testing.T, of map[string]any) {
	t.Helper()
	listed := map[any]bool{}
	for _, s := range of["sources"].([]any) {
		listed[s.(map[string]any)["name"]] = true
	}
	named := sourcesNamed("", of)
	require.NotEmpty(t, named)
	for _, name := range named {
		require.True(t, listed[name], "%s is not listed", name)
	}
}

// sourcesNamed lists what a piece of JSON, which stands behind a key, names as sources. A
// rule rests on the names of sources, a reason on whole reasons.
func sourcesNamed(key string, x any) (out []any) {
	switch x := x.(type) {
	case string:
		if (key == "source" || key == "rests_on") && x != "" {
			out = append(out, x)
		}
	case []any:
		for _, each := range x {
			out = append(out, sourcesNamed(key, each)...)
		}
	case map[string]any:
		for key, each := range x {
			out = append(out, sourcesNamed(key, each)...)
		}
	}
	return out
}

// The sheet of a section that was read back is the same, but for the reasons
// that the usual form has not.
func TestSheetOfWhatWasRead(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, file := range []string{"patio-on-stiff-clay.yaml", "refused-truck-yard.yaml", "stopped-uniaxial-grid.yaml"} {
		t.Run(file, func(t *testing.T) {
			s := designed(t, exampleJob(t, file))
			text := func(of string, s *section.Section) string {
				var b bytes.Buffer
				require.NoError(t, sheet.Sheet{Of: of, System: quantity.SI, Lines: book.Lines()}.Write(&b, &section.Areas{Sections: []*section.Section{s}}))
				return b.String()
			}
			full, err := s.JSON(section.Full)
			require.NoError(t, err)
			back, err := section.Read(full)
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(text("audit", s), text("audit", back)))

			usual, err := s.JSON()
			require.NoError(t, err)
			short, err := section.Read(usual)
			require.NoError(t, err)
			require.NotContains(t, text("full", short), "Rule .")
			require.NotContains(t, text("page", short), "{")
		})
	}
}
