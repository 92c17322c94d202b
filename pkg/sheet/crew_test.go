package sheet

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
)

// crews are the crew sheets of the examples, as a text and before it has a form.
type crews struct {
	rules rulebook.Contents
	lines map[string]string
	names []string
	areas map[string]*section.Areas
}

// crewsOf designs the examples, once for all tests.
func crewsOf(t *testing.T) *crews {
	t.Helper()
	crewsOnce.Do(func() { crewsMade = makeCrews(t) })
	require.NotNil(t, crewsMade, "the examples were not designed")
	return crewsMade
}

var (
	crewsOnce sync.Once
	crewsMade *crews
)

func makeCrews(t *testing.T) *crews {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	c := &crews{rules: book.Rules(), lines: book.Lines(), areas: map[string]*section.Areas{}}
	paths, err := filepath.Glob(filepath.Join("..", "..", "examples", "jobs", "*.yaml"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, path := range paths {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		job, err := site.Read(path, data)
		require.NoError(t, err)
		name := strings.TrimSuffix(filepath.Base(path), ".yaml")
		c.names = append(c.names, name)
		c.areas[name], err = book.Areas(job, append(c.sheet().Forms(), section.Full)...)
		require.NoError(t, err)
	}
	return c
}

func (c *crews) sheet() Sheet { return Sheet{Of: "crew", Lines: c.lines} }

// said is a piece of a sheet and the heading of the part that it stands in.
type said struct{ in, text string }

// says lists what the sheet of one area says, a row of a table as one piece.
func (c *crews) says(name string, s *section.Section) (all []said) {
	l := &leaf{Sheet: c.sheet(), job: c.areas[name], s: s, missing: map[string]bool{}}
	var walk func(in string, blocks []*paper.Block)
	walk = func(in string, blocks []*paper.Block) {
		for _, b := range blocks {
			switch {
			case b == nil:
			case b.Is == paper.IsPart:
				walk(b.Text, b.Under)
			default:
				if b.Text != "" {
					all = append(all, said{in, strings.TrimPrefix(b.Lead+": "+b.Text, ": ")})
				}
				for _, row := range b.Rows {
					all = append(all, said{in, strings.Join(row, " | ")})
				}
				walk(in, b.Under)
			}
		}
	}
	walk("", l.crew())
	return all
}

func kept(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", "crew", name)
	if flag.Lookup("update").Value.String() == "true" {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), got), path)
}

// TestCrewSheets keeps the crew sheets of the examples as text. In print, in two columns, a
// page holds some 160 such lines (.ci/look counts the pages): a patio has one, any area two.
func TestCrewSheets(t *testing.T) {
	c := crewsOf(t)
	for _, name := range c.names {
		t.Run(name, func(t *testing.T) {
			var b bytes.Buffer
			require.NoError(t, c.sheet().Write(&b, c.areas[name]))
			for line := range strings.Lines(b.String()) {
				require.LessOrEqual(t, utf8.RuneCountInString(line), 81, line)
			}
			most := 300 * len(c.areas[name].Sections)
			if strings.HasPrefix(name, "patio") {
				most = 160
			}
			require.LessOrEqual(t, strings.Count(b.String(), "\n"), most)
			kept(t, name+".txt", b.String())
		})
	}
}

// TestCrewSheetAnswers reads each crew sheet as one who has never seen the tool: what
// he asks of it stands in a list, and each answer is the value of the section, and on
// the sheet in one place. Where it stands is kept.
func TestCrewSheetAnswers(t *testing.T) {
	c := crewsOf(t)
	data, err := os.ReadFile(filepath.Join("testdata", "crew", "questions.yaml"))
	require.NoError(t, err)
	var questions []struct{ Asks, Of, In, Says string }
	require.NoError(t, yaml.Unmarshal(data, &questions))
	var kepts strings.Builder
	asked := map[string]bool{}
	for _, name := range c.names {
		for _, s := range c.areas[name].Sections {
			all := c.says(name, s)
			answer := func(asks, in, text, row string) {
				var places []said
				for _, each := range all {
					if strings.Contains(strings.ToLower(each.text), strings.ToLower(text)) && strings.HasPrefix(each.text, row) {
						places = append(places, each)
					}
				}
				require.Len(t, places, 1, "%s %s: %s %q", name, s.Job.Part, asks, text)
				require.Equal(t, c.lines[in], places[0].in, asks)
				fmt.Fprintf(&kepts, "%s\n  %s: %s\n", asks, places[0].in, places[0].text)
			}
			if s.Status != section.Designed {
				require.Equal(t, c.lines["crew_none"], all[0].text, "it says so first")
				continue
			}
			fmt.Fprintf(&kepts, "\n%s\n", strings.ToUpper(strings.TrimSpace(name+" "+s.Job.Part)))
			for _, q := range questions {
				at := slices.IndexFunc(slices.Concat(s.Steps, s.Tolerances), func(w section.Work) bool { return w.ID == q.Of })
				if at < 0 {
					continue
				}
				asked[q.Of] = true
				row := ""
				if w := slices.Concat(s.Steps, s.Tolerances)[at]; q.In == "crew_dig" && len(w.Courses) > 0 {
					row = s.Course(w.Courses[0]).Label + " |"
				}
				answer(q.Asks, q.In, c.filled(t, s, q.Says), row)
			}
			for _, course := range s.Courses {
				if thick := course.Attribute(thickness).Value; !thick.IsZero() {
					where := course.Top.Text(quantity.US) + " | " + s.Above(course).Text(quantity.US) + " | "
					answer("Where is the top of the "+strings.ToLower(course.Label)+", and how thick is it?", "crew_dig", where+thick.Brief(quantity.US), course.Label+" |")
				}
			}
			orders, err := takeoff.Of(s)
			require.NoError(t, err)
			for _, o := range orders.Orders {
				if o.Kind == material {
					answer("How much is ordered of "+o.Item.Brief(quantity.US)+"?", "crew_order", ": "+o.Item.Brief(quantity.US)+".", (&page{system: c.sheet().System}).ordered(o, " ("+o.Step.Brief(quantity.US)+")")+":")
				}
			}
		}
	}
	kept(t, "answers.txt", kepts.String())
	require.Greater(t, len(asked), 40, "the examples ask most of the questions")
}

var quoted = regexp.MustCompile(`\{([a-z_.]+)( \* in_measure)?\}`)

// filled fills the holes of an answer with what the section has, and with settings.
func (c *crews) filled(t *testing.T, s *section.Section, text string) string {
	return quoted.ReplaceAllStringFunc(text, func(hole string) string {
		told, known := c.valueOf(s, strings.Trim(hole, "{}"))
		require.True(t, known, "%s of %q", hole, text)
		return told
	})
}

// valueOf is a decision's answer or a setting.
func (c *crews) valueOf(s *section.Section, name string) (told string, known bool) {
	if r := s.Reason(name); !r.Answer.IsZero() {
		return r.Answer.Brief(quantity.US), true
	}
	for _, each := range c.rules.Settings {
		if each.Name == name {
			return each.Value.Brief(quantity.US), true
		}
	}
	return "", false
}

// TestCrewSheetSaysEachNumberOnce holds the sentences on a crew sheet to quoting each
// decision and setting with a measure once. The rows of the courses count as one place,
// and a tool may be named with each measurement that it makes.
func TestCrewSheetSaysEachNumberOnce(t *testing.T) {
	c := crewsOf(t)
	tools := []string{"straightedge"}
	entries := map[string]rulebook.Work{}
	for _, w := range c.rules.Work {
		entries[w.ID] = w
	}
	checked := 0
	for _, name := range c.names {
		for _, s := range c.areas[name].Sections {
			sentences := map[string][]string{}
			for _, w := range slices.Concat(s.Steps, s.Tolerances, s.Stops) {
				for _, key := range []string{"says", "sizes", "hold", "measure", "finds", "does", "calls"} {
					text := entries[w.ID].Says[key].Text
					found := quoted.FindAllStringSubmatch(text, -1)
					if key == "sizes" && len(w.Courses) > 0 {
						text = "a row of the courses"
					}
					for _, m := range found {
						if !slices.Contains(sentences[m[1]], text) {
							sentences[m[1]] = append(sentences[m[1]], text)
						}
					}
				}
			}
			for quotes, in := range sentences {
				if told, known := c.valueOf(s, quotes); known && strings.ContainsAny(told, "0123456789") && measured(c, s, quotes) && !slices.Contains(tools, quotes) {
					checked++
					require.Len(t, in, 1, "%s %s: {%s}, %s", name, s.Job.Part, quotes, told)
				}
			}
		}
	}
	require.Greater(t, checked, 100)
}

// measured reports whether a decision or a setting has a measure and no word.
func measured(c *crews, s *section.Section, name string) bool {
	if r := s.Reason(name); !r.Answer.IsZero() {
		_, is := r.Answer.Measure()
		return is
	}
	return slices.ContainsFunc(c.rules.Settings, func(x rulebook.Setting) bool {
		_, is := x.Value.Measure()
		return x.Name == name && is
	})
}
