package groundrule_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
)

// waysIn are the calls that take a job.
var waysIn = map[string]func(b *groundrule.Book, job *site.Site) error{
	"Design":    func(b *groundrule.Book, job *site.Site) error { _, err := b.Design(job); return err },
	"Calculate": func(b *groundrule.Book, job *site.Site) error { _, err := b.Calculate("area", job); return err },
	"Ask":       func(b *groundrule.Book, job *site.Site) error { _, err := b.Ask(job); return err },
	"AskPriced": func(b *groundrule.Book, job *site.Site) error {
		_, err := b.AskPriced(job, nil, rulebook.Date{})
		return err
	},
	"Options": func(b *groundrule.Book, job *site.Site) error { _, err := b.Options(job); return err },
	"Otherwise": func(b *groundrule.Book, job *site.Site) error {
		_, err := b.Otherwise(job, map[string]string{"area": "200 sq ft"})
		return err
	},
	"Areas": func(b *groundrule.Book, job *site.Site) error { _, err := b.Areas(job); return err },
}

// TestEveryWayIn holds which error each call gives that takes a job, by who must act.
func TestEveryWayIn(t *testing.T) {
	opened := plotBook(t, plot)
	broken := plotBook(t, replaced(t, plot, "answer: inches(4) + extra", "answer: inches(8) / (strength - 2.5)"))
	several, err := site.Read("job.yaml", []byte("{use: foot, base: dense, areas: [{name: a, area: 10 sq ft}, {name: b, area: 10 sq ft}]}"))
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		book      *groundrule.Book
		job       *site.Site
		want      any
		not       string // the calls for which it is no error
	}{
		{"no book", "whoever calls", nil, path(), new(*groundrule.UseError), ""},
		{"a book that was not opened", "whoever calls", &groundrule.Book{}, path(), new(*groundrule.UseError), ""},
		{"a job that says nothing", "whoever wrote the job", opened, &site.Site{}, new(*site.Error), ""},
		{"a job of several areas", "whoever calls: one of them at a time", opened, several, new(*groundrule.UseError), "Areas"},
		{"a rule without an answer", "whoever wrote the rule", broken, path(), new(*rulebook.RunError), "Calculate"},
	} {
		for name, call := range waysIn {
			if name == c.not {
				continue
			}
			t.Run(c.name+" "+name, func(t *testing.T) { require.ErrorAs(t, call(c.book, c.job), c.want, c.why) })
		}
	}
	require.Nil(t, (*groundrule.Book)(nil).Table())
	require.Empty(t, (&groundrule.Book{}).Rules().Courses)
}

// TestOpenWrongly holds that what is wrong in the call is told to whoever calls.
func TestOpenWrongly(t *testing.T) {
	files := small.Rulebook("plot.yaml", plot)
	nameless := faulty
	nameless.Name = ""
	for _, c := range []struct {
		name, why string
		option    groundrule.Option
		want      string
	}{
		{"no option", "a nil", nil, "an option is nil"},
		{"a function that is none", "it has no name to be called by", groundrule.WithFunctions(nameless), ""},
		{"amendments without files", "there is nothing to lay over", groundrule.WithAmendments(rulebook.Layer{Label: "ours"}), `the amendments "ours" have no files`},
		{"a language that nobody gives", "no texts are there in it", groundrule.Language("fr"), "no file of the amendments gives texts in the language"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := groundrule.Open(files, c.option)
			require.ErrorAs(t, err, new(*groundrule.UseError), c.why)
			require.ErrorContains(t, err, c.want)
		})
	}
	_, err := groundrule.Open(nil)
	require.ErrorAs(t, err, new(*groundrule.UseError))
	without := replaced(t, plot, plot[strings.Index(plot, "refusals:"):], "")
	_, err = groundrule.Open(small.Rulebook("plot.yaml", without))
	require.ErrorAs(t, err, new(*rulebook.Error), "a rulebook that refuses nothing designs nothing")
	_, err = groundrule.Open(small.Rulebook("plot.yaml", without), inside.Partial.(groundrule.Option))
	require.NoError(t, err, "but can be looked at")
}

// TestDrawnOfABook holds what a drawing is told of courses and materials.
func TestDrawnOfABook(t *testing.T) {
	drawn := plotBook(t, replaced(t, plot, "course: stone, label: Stone, is: stone,", "course: stone, label: Stone, is: stone, drawn: {symbol: bed},")).Drawn()
	require.Equal(t, "bed", drawn["stone"]["symbol"].Text(quantity.US))
	require.NotNil(t, drawn["soil"], "a course that is not drawn is there")
	require.Empty(t, drawn["soil"])
	standard := standardBook(t)
	for _, m := range standard.Rules().Materials {
		require.Len(t, standard.Drawn()[m.Word.Name], len(m.Word.Properties()), m.Word.Name)
	}
}

// TestAskOfWhatFails holds whose error it is where one of the answers that are tried
// leaves a rule without an answer, or a sentence that is told of a question.
func TestAskOfWhatFails(t *testing.T) {
	const job = "{area: 400 sq ft, use: foot, base: dense}"
	prices, err := takeoff.ReadPrices("prices.yaml", []byte(plotPrices))
	require.NoError(t, err)
	for _, c := range []struct{ name, why, old, new, asksOld, asksNew, job, want string }{
		{"as it is", "nothing fails", "", "", "", "", job, ""},
		{"an answer", "the ground of CBR 5 divides by zero", "rule: LEAST, answer: inches(4)", "rule: LEAST, answer: inches(4) * (5 - strength) / (5 - strength)", "", "", job, "division by zero"},
		{"how it is found out", "it quotes what is not there", "", "", "how: Look.", "how: 'Look {faulty(1)}.'", job, "out of range"},
		{"when it is asked", "nobody can tell", "", "", "because: It decides.", "when: faulty(1) > 0, because: It decides.", job, "out of range"},
		{"of what case an answer is", "nobody can tell", "", "", "may_be: [2, 5]", "may_be: [2, {when: faulty(1) > 0, values: [5]}]", job, "out of range"},
		{"what it takes now", "it cannot be weighed", "weighs: pcf(150)", "weighs: pcf(150) / (strength - 2.5)", "", "", job, "division by zero"},
		{"what it takes then", "it cannot be weighed", "weighs: pcf(150)", "weighs: pcf(150) / (strength - 5)", "", "", job, "division by zero"},
		{"a calculation refuses the job", "nothing can be set beside it", "answer: 2.5, because: Nobody measured it.", "answer: faulty(2.5), because: Nobody measured it.", "", "", job, "refused: GUESS"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text, asks := plotQuantities, plotAsks
			if c.old != "" {
				text = replaced(t, text, c.old, c.new)
			}
			if c.asksOld != "" {
				asks = replaced(t, asks, c.asksOld, strings.ReplaceAll(c.asksNew, ", because", "\n    because"))
			}
			book := plotBook(t, text, groundrule.AsOf(mustDay(t, "2026-06-01")), groundrule.WithAmendments(amendments("ours", asks)))
			job, err := site.Read("job.yaml", []byte(c.job))
			require.NoError(t, err)
			_, err = book.AskPriced(job, prices, mustDay(t, "2026-06-01"))
			if c.want == "" {
				require.NoError(t, err)
				return
			}
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
	book := plotBook(t, plotQuantities, groundrule.AsOf(mustDay(t, "2026-06-01")), groundrule.WithAmendments(amendments("ours", plotAsks)))
	read, err := site.Read("job.yaml", []byte(job))
	require.NoError(t, err)
	_, err = book.AskPriced(read, prices, mustDay(t, "2027-06-01"))
	require.Error(t, err, "the list is not of that day")
}

// TestDifferences holds what is said of courses that come and go, by a rulebook of
// meshes, of stone in two courses and of a sheet, which are laid by the depth of rain.
func TestDifferences(t *testing.T) {
	book := plotBook(t, meshes)
	for _, c := range []struct {
		name, why, was, is, want string
	}{
		{"the first", "one of several that may be laid", "0", "1", "a mesh"},
		{"the second", "as people count", "1", "2", "a second mesh"},
		{"the third", "as people count", "2", "3", "a third mesh"},
		{"a fourth", "counted in figures", "3", "4", "1 more: mesh"},
		{"two at once", "counted in figures", "1", "3", "2 more: mesh"},
		{"two less", "how many stay of how many", "3", "1", "1 mesh in place of 3"},
		{"none", "all that there were", "2", "0", "no mesh"},
		{"elsewhere", "as many, and not the same", "1", "7", "top mesh in place of mesh 1"},
		{"more stone", "in both courses", "10", "11", "2 in more stone"},
		{"less stone", "in both courses", "11", "10", "2 in less stone"},
		{"another course of stone", "it is the same stone", "10", "12", "3 in more stone"},
		{"the only course of its kind", "it is thicker", "20", "21", "sheet 1 in thicker"},
		{"the only course of its kind, less", "it is thinner", "21", "20", "sheet 1 in thinner"},
		{"a hair", "nobody builds to it", "20", "22", ""},
		{"a course that comes", "by its kind, where it has one", "10", "20", "smooth added"},
		{"a course that goes", "by its name", "20", "10", "no sheet"},
		{"stone where there was none", "each course by its name", "0", "10", "lower stone added; upper stone added"},
		{"of another kind", "and its material follows", "20", "23", "rough in place of smooth"},
		{"how it is laid", "the course, what and how", "20", "30", "sheet: overlap 14 in"},
		{"how it is laid, by a hair", "nobody builds to it", "20", "31", ""},
		{"how it is laid, in two ways", "what, and not how", "20", "32", "sheet: other overlap, side"},
		{"how many passes", "that follows from thickness", "20", "33", ""},
		{"what says itself what it is", "it is not said twice", "20", "34", "sheet: side to the street"},
		{"how three are laid", "two are told, and the third counted", "20", "35", "lower stone: overlap 14 in; upper stone: overlap 14 in; details of 1 more course"},
		{"most first", "what is thicker, then what comes", "20", "25", "2 in more stone; sheet 1 in thicker; a mesh"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := path()
			require.NoError(t, job.Set("rain.depth", c.was+" in"))
			o, err := book.Otherwise(job, map[string]string{"rain.depth": c.is + " in"})
			require.NoError(t, err)
			var said []string
			for _, s := range o.Differs {
				said = append(said, s.US)
			}
			require.Empty(t, cmp.Diff(c.want, strings.Join(said, "; ")), c.why)
			require.Equal(t, section.Designed, o.Status)
		})
	}
}

// meshes is a rulebook whose courses come and go with the depth of rain, in inches.
const meshes = `
chapter: meshes
vocabularies:
  course_kind: {about: what sort of course it is, words: {mesh: mesh, stone: stone, sheet: sheet}, because: told, source: practice}
  face: {about: what face it has, words: {smooth: smooth, rough: rough}, because: told, source: practice}
decisions:
  n: {asks: "Which case?", answers: number, take: first, rules: [{rule: READ, when: known(rain.depth), answer: rain.depth / inches(1), because: told, source: practice}, {rule: NO-CASE, answer: 0, because: told, source: practice}]}
  rained: {asks: "How much?", answers: length, take: first, rules: [{rule: RAINED, when: known(rain.depth), answer: rain.depth, because: told, source: practice, standing: measured}, {rule: DRY, answer: inches(0), because: told, source: practice, standing: presumed, confirm: look}]}
  rain_shown: {asks: "How much?", answers: length, take: first, rules: [{rule: SHOWN, answer: rained, because: told, source: practice}]}
  stone_lap: {asks: "How far?", answers: length, take: first, rules: [{rule: LAP-MORE, when: n == 35, answer: inches(14), because: told, source: practice}, {rule: LAP, answer: inches(12), because: told, source: practice}]}
  lap: {asks: "How far?", answers: length, take: first, rules: [{rule: SHEET-MORE, when: n == 30 || n == 32 || n == 35, answer: inches(14), because: told, source: practice}, {rule: SHEET-HAIR, when: n == 31, answer: inches(12.02), because: told, source: practice}, {rule: SHEET-LAP, answer: inches(12), because: told, source: practice}]}
  passes: {asks: "How often?", answers: number, take: first, rules: [{rule: TWICE, when: n == 33, answer: 2, because: told, source: practice}, {rule: ONCE, answer: 1, because: told, source: practice}]}
  laid_to: {asks: "Where to?", answers: text, take: first, rules: [{rule: STREET, when: n == 32 || n == 34, answer: "'side to the street'", because: told, source: practice}, {rule: HOUSE, answer: "'to the house'", because: told, source: practice}]}
  other_stone: {asks: "How thick?", answers: length, take: first, rules: [{rule: OTHER, answer: inches(6), because: told, source: practice}]}
  mesh_made_of: {asks: "Of what?", answers: text, take: first, rules: [{rule: MADE, answer: "'wire'", because: told, source: practice}]}
  low: {asks: "How thick?", answers: length, take: first, rules: [{rule: LOW-MORE, when: n == 11 || n == 25, answer: inches(5), because: told, source: practice}, {rule: LOW, answer: inches(4), because: told, source: practice}]}
  high: {asks: "How thick?", answers: length, take: first, rules: [{rule: HIGH-MORE, when: n == 11 || n == 25, answer: inches(4), because: told, source: practice}, {rule: HIGH, answer: inches(3), because: told, source: practice}]}
  thin: {asks: "How thick?", answers: length, take: first, rules: [{rule: THIN-MORE, when: n == 21 || n == 25, answer: inches(2), because: told, source: practice}, {rule: THIN-HAIR, when: n == 22, answer: inches(1.02), because: told, source: practice}, {rule: THIN, answer: inches(1), because: told, source: practice}]}
  face_up: {asks: "Which face?", answers: face, take: first, rules: [{rule: ROUGH, when: n == 23, answer: rough, because: told, source: practice}, {rule: SMOOTH, answer: smooth, because: told, source: practice}]}
courses:
  - {course: mesh_1, label: Mesh 1, is: mesh, when: n >= 1 && n <= 4 || n == 25, because: told, source: practice, attributes: {material: mesh_made_of}}
  - {course: low, label: Lower stone, is: stone, when: n >= 10, because: told, source: practice, attributes: {thickness: low, overlap: stone_lap, rain: rain_shown}}
  - {course: mesh_2, label: Mesh 2, is: mesh, when: n >= 2 && n <= 4, because: told, source: practice, attributes: {material: mesh_made_of}}
  - {course: high, label: Upper stone, is: stone, when: n >= 10 && n != 12, because: told, source: practice, attributes: {thickness: high, overlap: stone_lap}}
  - {course: other, label: Other stone, is: stone, when: n == 12, because: told, source: practice, attributes: {thickness: other_stone}}
  - {course: mesh_3, label: Mesh 3, is: mesh, when: n >= 3 && n <= 4, because: told, source: practice, attributes: {material: mesh_made_of}}
  - {course: mesh_4, label: Top mesh, is: mesh, when: n == 4 || n == 7, because: told, source: practice, attributes: {material: mesh_made_of}}
  - {course: sheet, label: Sheet, is: sheet, when: n >= 20, because: told, source: practice, attributes: {thickness: thin, kind: face_up, material: face_up, overlap: lap, passes: passes, side: laid_to, rain: rain_shown}}
cautions:
  - {caution: ALWAYS, says: Mind it., source: practice}
refusals:
  - {refusal: NEVER, when: n > 1000, says: Too much., who: An engineer., source: practice}
`
