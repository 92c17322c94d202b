package groundrule_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

// inFrench is the standard rulebook with the texts of examples/texts-fr.
var inFrench = sync.OnceValues(func() (*groundrule.Book, error) {
	return groundrule.OpenStandard(groundrule.Language("fr"), groundrule.WithAmendments(rulebook.Layer{Label: "examples/texts-fr", FS: os.DirFS("../../examples/texts-fr")}))
})

// TestFrenchPage holds the page of a patio in French, in both systems of units, that it
// shares no three words with the page in English but what people wrote in the job, and
// that a section that was kept is written alike.
func TestFrenchPage(t *testing.T) {
	book, err := inFrench()
	require.NoError(t, err)
	job := readJob(t, "patio-on-stiff-clay.yaml")
	own, err := groundrule.Standard()
	require.NoError(t, err)
	inEnglish, err := own.Areas(job, sheet.Sheet{}.Forms()...)
	require.NoError(t, err)
	page := sheet.Sheet{Lines: book.Lines()}
	for _, system := range []quantity.System{quantity.US, quantity.SI} {
		page.System = system
		a, err := book.Areas(job, page.Forms()...)
		require.NoError(t, err)
		written := pageOf(t, page, a)
		golden := filepath.Join("testdata", "page-fr-"+strings.ToLower(system.String())+".txt")
		if *update {
			require.NoError(t, os.WriteFile(golden, []byte(written), 0o600))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		require.Empty(t, cmp.Diff(string(want), written))
		english := " " + strings.Join(strings.Fields(pageOf(t, sheet.Sheet{System: system, Lines: own.Lines()}, inEnglish)), " ") + " "
		said, _, _ := strings.Cut(written, "groundrule why") // a command is no language
		for words := strings.Fields(said); len(words) >= 3; words = words[1:] {
			if three := strings.Join(words[:3], " "); regexp.MustCompile("^[A-Za-z(]+ [A-Za-z]+ [A-Za-z.:;,]+$").MatchString(three) && three != job.Job {
				require.NotContains(t, english, " "+three+" ")
			}
		}

		kept, err := a.JSON(append(page.Forms(), section.Full)...)
		require.NoError(t, err)
		read := new(section.Areas)
		require.NoError(t, json.Unmarshal(kept, read))
		require.Empty(t, cmp.Diff(written, pageOf(t, page, read)), "what is read back carries its language and its numbers")
	}
	standard := own.Lines()
	for name, says := range book.Lines() {
		if words := regexp.MustCompile(`\{[a-z_]+\}`).ReplaceAllString(says, ""); regexp.MustCompile("^(page|differs|limit)_").MatchString(name) && regexp.MustCompile("[a-z]").MatchString(words) {
			require.NotEqual(t, standard[name], says, "line %s is not given in examples/texts-fr/fr.yaml, which gives every line of the page and of what differs", name)
		}
	}
}

func pageOf(t *testing.T, page sheet.Sheet, a *section.Areas) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, page.Write(&out, a))
	return out.String()
}

// TestLanguageChangesNothing designs jobs in both languages: texts differ, and nothing
// else does. A caution or a refusal that has no translation is told all the same.
func TestLanguageChangesNothing(t *testing.T) {
	french, err := inFrench()
	require.NoError(t, err)
	own, err := groundrule.Standard()
	require.NoError(t, err)
	all := []*site.Site{readJob(t, "driveway-on-soft-clay.yaml"), readJob(t, "refused-truck-yard.yaml"), readJob(t, "stopped-uniaxial-grid.yaml"), readJob(t, "driveway-storing-rain.yaml")}
	for job := range jobs.Generate(standardWords, 20, 7) {
		all = append(all, job)
	}
	given := map[string]bool{"LOCAL-CODE": true, "UTILITIES": true, "TRENCH": true, "SILICA": true, "LIFTING": true, "FROST-MOVES": true}
	kept := 0
	for i, job := range all {
		was, is := sectionOf(t, own, job), sectionOf(t, french, job)
		require.Empty(t, cmp.Diff(withoutTexts(t, was), withoutTexts(t, is)), "job %d, %s", i, job.Job)
		for k, c := range is.Cautions {
			ownWords := strings.HasPrefix(c.Says.US, was.Cautions[k].Says.US[:8]) // numbers are written as in French in either
			require.Equal(t, given[c.ID], !ownWords, "caution %s is told in French where that is given, else in the rulebook's own: %s", c.ID, c.Says.US)
			kept++
		}
		for k, r := range is.Refusals {
			require.Equal(t, was.Refusals[k].Says.US[:8], r.Says.US[:8], "refusal %s has no translation, and is told all the same", r.ID)
			kept++
		}
	}
	require.Greater(t, kept, 100, "most jobs must tell something")
}

// withoutTexts is a section without what people read.
func withoutTexts(t *testing.T, s *section.Section) any {
	t.Helper()
	data, err := s.JSON(section.Full)
	require.NoError(t, err)
	var out any
	require.NoError(t, json.Unmarshal(data, &out))
	return erased(out)
}

func erased(x any) any {
	switch x := x.(type) {
	case map[string]any:
		for key, under := range x {
			_, isText := under.(string)
			switch {
			case isText && slices.Contains([]string{"us", "si", "label", "asks", "confirm", "because_template", "language"}, key), key == "numbers", key == "files", key == "course" && x["makes"] != nil: // of an effect it is the label
				delete(x, key)
			default:
				x[key] = erased(under)
			}
		}
	case []any:
		for i := range x {
			x[i] = erased(x[i])
		}
	}
	return x
}
