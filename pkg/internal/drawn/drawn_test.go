package drawn_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/drawn"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

var update = flag.Bool("update", false, "write the drawings in testdata anew")

func standard(t testing.TB) *groundrule.Book {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return book
}

// words are what the standard hands to drawings.
var words = sync.OnceValues(func() (map[string]string, map[string]map[string]value.Value) {
	book, err := groundrule.Standard()
	if err != nil {
		panic(err)
	}
	return book.Lines(), book.Drawn()
})

// drawing draws by the lines of the standard, and fails for one that is not there.
func drawing(t testing.TB, system quantity.System) *drawn.Drawing {
	lines, rules := words()
	return &drawn.Drawing{System: system, Rules: rules, Prefix: "a", Line: func(name string, holes ...string) string {
		text, ok := lines[name]
		require.True(t, ok, "no line %s", name)
		for i := 0; i < len(holes); i += 2 {
			require.Contains(t, text, "{"+holes[i]+"}", "the line %s", name)
			text = strings.ReplaceAll(text, "{"+holes[i]+"}", holes[i+1])
		}
		require.NotContains(t, text, "{", "the line %s", name)
		return text
	}}
}

// TestDrawings draws every example and compares it with what is kept, in the system of
// units in which a person would ask for it.
func TestDrawings(t *testing.T) {
	book := standard(t)
	files, err := filepath.Glob("../../../examples/jobs/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		job, err := book.Table().Read(file, data)
		require.NoError(t, err)
		areas, err := book.Areas(job, section.Takeoff)
		require.NoError(t, err)
		for _, j := range areas.Joints {
			t.Run(j.Of+" beside "+j.Beside, func(t *testing.T) {
				p := drawing(t, quantity.US).Joint(areas, j)
				require.Empty(t, joined(areas, j, p, quantity.US))
				kept(t, "joint-"+j.Of+"-"+j.Beside+".svg", p.SVG)
			})
		}
		for _, s := range areas.Sections {
			name := strings.TrimSuffix(filepath.Base(file), ".yaml")
			if s.Job.Part != "" {
				name += "-" + s.Job.Part
			}
			t.Run(name, func(t *testing.T) {
				p := drawing(t, quantity.US).Section(s)
				if s.Status != section.Designed {
					require.Empty(t, p.SVG, "what is not to be built is not drawn")
					return
				}
				require.Empty(t, judged(s, p, quantity.US))
				kept(t, name+".svg", p.SVG)
				for _, q := range s.Quantities {
					layout, ok := q.Layout.Data().(plan.Layout)
					if !ok {
						continue
					}
					p := drawing(t, quantity.US).Layout(layout, q.Item.Text(quantity.US))
					require.Empty(t, laid(layout, p))
					kept(t, name+"-"+q.ID+".svg", p.SVG)
				}
			})
		}
	}
}

func kept(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "go test ./pkg/internal/drawn -update writes it")
	require.Empty(t, cmp.Diff(string(want), got))
}

// judged says what is wrong with the drawing of a section: that it is no picture, that
// a course is neither drawn nor named, or that a bed is not as thick as it says.
func judged(s *section.Section, p drawn.Picture, system quantity.System) []string {
	seen, faults := read(p.SVG)
	text := strings.ReplaceAll(strings.Join(seen.words, " "), "\u00a0", " ")
	const perInch = 10
	last := 0.0
	for _, c := range slices.Backward(s.Courses) {
		if !strings.Contains(text, c.Label) {
			faults = append(faults, c.Name+" is not named")
		}
		top, _ := c.Top.Length()
		bottom, _ := c.Bottom.Length()
		thick := c.Attribute("thickness").Value
		if top >= bottom || thick.IsZero() {
			continue
		}
		label := c.Label + ", " + thick.Text(system)
		at := strings.Index(text, label)
		if at < 0 {
			faults = append(faults, c.Name+" has no thickness")
			continue
		}
		// The words of a label end where the next begins: none of this rulebook has a
		// star, and a bed that is not to scale ends with one.
		star := strings.HasPrefix(text[at+len(label):], "*") || strings.HasPrefix(text[at+len(label):], ", "+c.Attribute("beyond_edge").Value.Text(system)+" beyond the edge*")
		want := (bottom - top).Inches() * perInch
		if star != (want < 7 || want > 120) {
			faults = append(faults, c.Name+" is said to be to scale, or not to be, and it is otherwise")
		}
		if star {
			continue
		}
		next := math.Inf(1)
		for _, b := range seen.shapes {
			if b.top >= last-0.1 && b.bottom < next && math.Abs(b.bottom-b.top-want) < 0.15 {
				next = b.bottom
			}
		}
		if last = next; math.IsInf(last, 1) {
			faults = append(faults, c.Name+" is not drawn as thick as it is, below what lies on it")
		}
	}
	if !strings.Contains(text, "dig "+s.Depth.Text(system)) {
		faults = append(faults, "how deep the dig is is not said")
	}
	return faults
}

// A label begins with a capital in any language, and may be empty.
func TestLabelOfAJoint(t *testing.T) {
	book := standard(t)
	data, err := os.ReadFile("../../../examples/jobs/four-areas.yaml")
	require.NoError(t, err)
	job, err := book.Table().Read("four-areas.yaml", data)
	require.NoError(t, err)
	areas, err := book.Areas(job)
	require.NoError(t, err)
	j := areas.Joints[0]
	for _, label := range []string{"épaisseur", ""} {
		j.Courses[0].Attributes[0].Label = label
		p := drawing(t, quantity.US).Joint(areas, j)
		require.Contains(t, p.SVG, page.Capital(label)+": "+j.Courses[0].Attributes[0].Value.Text(quantity.US))
	}
}

// joined says what is wrong with the drawing of a joint.
func joined(a *section.Areas, j section.Joint, p drawn.Picture, system quantity.System) []string {
	seen, faults := read(p.SVG)
	text := strings.ReplaceAll(strings.Join(seen.words, " "), "\u00a0", " ")
	for _, s := range a.Sections {
		if (s.Job.Part == j.Of || s.Job.Part == j.Beside) && !(strings.Contains(text, s.Job.Part) && strings.Contains(text, "dig "+s.Depth.Text(system))) {
			faults = append(faults, "how deep the dig of "+s.Job.Part+" is is not said")
		}
	}
	for _, c := range j.Courses {
		for _, attribute := range c.Attributes {
			if l, ok := attribute.Value.Length(); !(ok && l == 0) && !strings.Contains(text, attribute.Label[1:]+": "+attribute.Value.Text(system)) {
				faults = append(faults, attribute.Label+" is not said")
			}
		}
	}
	return faults
}

// laid says what is wrong with the drawing of a layout: each piece is drawn, as long
// and as wide as it is to one scale.
func laid(l plan.Layout, p drawn.Picture) []string {
	seen, faults := read(p.SVG)
	if p.SVG == "" {
		return []string{"it is not drawn"}
	}
	for _, level := range l.Lying() {
		scale := min((320-24-4)/(level.High.X-level.Low.X).Meters(), 300/(level.High.Y-level.Low.Y).Meters())
		for _, piece := range level.Pieces {
			wide, high := (piece.High.X-piece.Low.X).Meters()*scale, (piece.High.Y-piece.Low.Y).Meters()*scale
			if !slices.ContainsFunc(seen.shapes, func(b box) bool {
				return math.Abs(b.right-b.left-wide) < 0.15 && math.Abs(b.bottom-b.top-high) < 0.15
			}) {
				faults = append(faults, fmt.Sprintf("the piece of roll %d at %v is not drawn", piece.Unit+1, piece.Low))
			}
		}
	}
	for unit := range l.Units() {
		number := strconv.Itoa(unit + 1)
		if !slices.ContainsFunc(seen.words, func(w string) bool { return w == number || strings.HasPrefix(w, number+": ") }) && !slices.ContainsFunc(seen.words, func(w string) bool {
			return strings.HasPrefix(w, "Pieces too narrow")
		}) {
			faults = append(faults, "no piece has the number "+number)
		}
	}
	return faults
}

// TestDrawingsOfMadeUpJobs judges the drawings of generated jobs in both systems of
// units. GROUNDRULE_MANY=1 draws 320, with their layouts.
func TestDrawingsOfMadeUpJobs(t *testing.T) {
	count := 60
	var forms []section.Form
	if os.Getenv("GROUNDRULE_MANY") != "" {
		count, forms = 320, []section.Form{section.Takeoff}
	}
	book, seen := standard(t), 0
	for job := range jobs.Generate(book.Table(), count, 13) {
		areas, err := book.Areas(job, forms...)
		require.NoError(t, err)
		for _, s := range areas.Sections {
			for _, q := range s.Quantities {
				layout, ok := q.Layout.Data().(plan.Layout)
				if p := drawing(t, quantity.SI).Layout(layout, "it"); ok && p.SVG != "" {
					require.Empty(t, laid(layout, p), "%s", s.Job.Input)
				}
			}
			for _, system := range []quantity.System{quantity.US, quantity.SI} {
				p := drawing(t, system).Section(s)
				if s.Status == section.Designed {
					require.Empty(t, judged(s, p, system), "%s\n%s", s.Job.Input, p.SVG)
					seen++
				}
			}
		}
	}
	require.GreaterOrEqual(t, seen, count, "few jobs can be built")
}

// TestSymbolsAndHatches holds that what a rulebook can say is drawn, and that all that
// can be drawn is used by the standard.
func TestSymbolsAndHatches(t *testing.T) {
	book := standard(t)
	used := map[string]bool{}
	for _, c := range book.Rules().Courses {
		used[c.Drawn["symbol"]] = true
	}
	for symbol := range engine.Symbols {
		require.True(t, used[symbol], "%s is the symbol of no course", symbol)
	}
	for _, v := range book.Rules().Vocabularies {
		if v.Kind == "hatching" {
			var words []string
			for _, w := range v.Words {
				words = append(words, w.Word.Name)
			}
			require.ElementsMatch(t, words, drawn.Hatches())
			return
		}
	}
	t.Error("the rulebook has no vocabulary of hatches")
}

// TestACompanysCourse holds that a course of a company that does not say how it is drawn
// is drawn as a bed if it has a thickness.
func TestACompanysCourse(t *testing.T) {
	mat, err := os.ReadFile("../../groundrule/testdata/edits/19-drainage-mat.yaml")
	require.NoError(t, err)
	book, err := groundrule.OpenStandard(groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"mat.yaml": {Data: mat}}}))
	require.NoError(t, err)
	for job := range jobs.Generate(book.Table(), 1, 13) {
		d, err := book.Design(job)
		require.NoError(t, err)
		s, err := d.Section()
		require.NoError(t, err)
		p := drawing(t, quantity.US).Section(s)
		require.Empty(t, judged(s, p, quantity.US))
		require.Contains(t, p.SVG, "Drainage mat", "it is named beside its bed")
		require.NotContains(t, p.SVG, "Not drawn: Drainage mat")
	}
}

// TestHostileWords holds that nothing that a person wrote is read as part of the
// drawing.
func TestHostileWords(t *testing.T) {
	book := standard(t)
	const hostile = `</text><script>alert("1")</script> & <b title='x'> ]]> ` + "\x00\u2028" + ` averyverylongwordthatfitsintonolineofanylabelatall`
	for job := range jobs.Generate(book.Table(), 1, 13) {
		d, err := book.Design(job)
		require.NoError(t, err)
		s, err := d.Section()
		require.NoError(t, err)
		s.Job.Name = hostile
		for i := range s.Courses {
			s.Courses[i].Label += hostile
		}
		p := drawing(t, quantity.US).Section(s)
		_, faults := read(p.SVG)
		require.Empty(t, faults)
		require.NotContains(t, p.SVG, "<script")
	}
}
