package sheet_test

import (
	"bytes"
	"cmp"
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/rules"
)

// evil stands behind every text that a person writes in the tests here. It begins
// with a word that nothing else has, so that it is found again.
var evil = `EVIL <script>alert("1")</script> ]]> <!-- & 'x' onload=y "> &lt; | ** b** _c_ [x](javascript:d) <a href="https://e"> ` +
	"`c` ~~s~~ \x1b[31m\x07 \u202erl\u2066 \u200b # " + strings.Repeat("w", 400) + " END"

// start is as much of evil as must come out whole, also where a name is told without
// what it goes on with.
var start = evil[:strings.Index(evil, " <a")]

// printable is evil as a job may say it: a job with a character that acts on a
// terminal is not read at all.
var printable = strings.Map(func(r rune) rune {
	if page.Printable(r) != r {
		return -1
	}
	return r
}, evil)

// evilFile returns a file of YAML with evil behind every text for people.
func evilFile(t *testing.T, data []byte) []byte {
	t.Helper()
	var doc yaml.Node
	require.NoError(t, yaml.Unmarshal(data, &doc))
	soil(&doc)
	var out bytes.Buffer
	require.NoError(t, yaml.NewEncoder(&out).Encode(&doc))
	return out.Bytes()
}

// forPeople are the keys of rule files, amendments and price lists whose texts people
// read and the library takes for nothing but words.
var forPeople = strings.Fields("label about because asks says who why by approved confirm how document note clause gives lacks company passes short client found_out plural")

func soil(n *yaml.Node) {
	for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
		if key, v := n.Content[i].Value, n.Content[i+1]; v.Kind == yaml.ScalarNode && slices.Contains(forPeople, key) {
			v.SetString(strings.TrimRight(v.Value, ". \n") + " " + evil + ".")
			v.Style = yaml.DoubleQuotedStyle
		}
	}
	for _, each := range n.Content {
		soil(each)
	}
}

// evilFiles returns the rule files of a folder so.
func evilFiles(t *testing.T, files fs.FS) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	names, err := fs.Glob(files, "*.yaml")
	require.NoError(t, err)
	for _, name := range names {
		data, err := fs.ReadFile(files, name)
		require.NoError(t, err)
		out[name] = &fstest.MapFile{Data: evilFile(t, data)}
	}
	return out
}

func evilBook(t *testing.T) *groundrule.Book {
	t.Helper()
	day, err := rulebook.ParseDate("2026-06-01")
	require.NoError(t, err)
	book, err := groundrule.Open(evilFiles(t, rules.Files()), groundrule.WithLabel("rules "+evil), groundrule.AsOf(day),
		groundrule.WithAmendments(rulebook.Layer{Label: "ours " + evil, FS: evilFiles(t, os.DirFS("../../examples/wrenfold/amendments"))}))
	require.NoError(t, err)
	return book
}

// evilJob returns a job file with evil behind every free text that a job can say, by
// the table of the library, and keeps which it was told.
func evilJob(t *testing.T, book *groundrule.Book, data string, told map[string]bool) *site.Site {
	t.Helper()
	var doc map[string]any
	require.NoError(t, yaml.Unmarshal([]byte(data), &doc))
	fields := book.Table().Fields()
	var tell func(of map[string]any, path []string, whole string)
	tell = func(of map[string]any, path []string, whole string) {
		key, isList := strings.CutSuffix(path[0], "[]")
		switch in := of[key].(type) {
		case []any:
			for _, item := range in {
				tell(item.(map[string]any), path[1:], whole)
			}
		case map[string]any:
			tell(in, path[1:], whole)
		default:
			if !isList && len(path) == 1 && (in != nil || key != "joins") { // an edge joins or meets
				of[key] = strings.TrimSpace(fmt.Sprint(cmp.Or[any](in, ""), " ", printable))
				told[whole] = true
			}
		}
	}
	for _, f := range fields {
		if f.Form != site.TextForm || f.Day || f.Path == "overrides[].decision" || f.Path == "overrides[].answer" { // a name, and the rule language
			continue
		}
		areas, _ := doc["areas"].([]any)
		if f.Path != "part" || areas == nil { // each area is a part
			tell(doc, strings.Split(f.Path, "."), f.Path)
		}
		for _, area := range areas {
			if !f.WholeJob {
				tell(area.(map[string]any), strings.Split(f.Path, "."), f.Path)
			}
		}
	}
	text, err := yaml.Marshal(doc)
	require.NoError(t, err)
	job, err := book.Table().Read("job.yaml", text)
	require.NoError(t, err)
	return job
}

func exampleJob(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("../../examples/jobs/" + name + ".yaml")
	require.NoError(t, err)
	return string(data)
}

// evilJobs are jobs that are built, that have areas, that are refused and stopped.
func evilJobs(t *testing.T, book *groundrule.Book) map[string]*site.Site {
	t.Helper()
	told := map[string]bool{}
	out := map[string]*site.Site{}
	for name, text := range map[string]string{
		"built": exampleJob(t, "driveway-on-soft-clay") + `
overrides: [{decision: stone_depth, answer: inches(18), by: J. Orr, because: The last job settled}]
alternatives: [{name: clean stone, base: open}]
`,
		"areas": `
job: Two
base: dense
soil: {word: clay, points: [{place: by the fence, cbr: 4}]}
areas:
  - {name: walk, area: 60 sq ft, use: foot, edges: [{joins: patio, length: 4 ft}]}
  - {name: patio, area: 300 sq ft, use: foot, base: open, edges: [{joins: walk, length: 4 ft}]}
`,
		"refused": exampleJob(t, "refused-truck-yard"),
		"stopped": exampleJob(t, "stopped-uniaxial-grid"),
	} {
		out[name] = evilJob(t, book, text, told)
	}
	for _, f := range book.Table().Fields() {
		if f.Form == site.TextForm && !f.Day && f.Path != "overrides[].decision" && f.Path != "overrides[].answer" {
			require.True(t, told[f.Path], "no job here says %s", f.Path)
		}
	}
	return out
}

// TestHostile holds that what a person wrote comes out as words, whoever wrote it and
// in whatever file: in no form of any sheet is there an element, an attribute or a
// link but those that the sheets write, nor anything that acts on a terminal.
func TestHostile(t *testing.T) {
	book := evilBook(t)
	lines, drawing := book.Lines(), book.Drawn()
	var all []section.Form
	for _, which := range everySheet() {
		all = append(all, sheet.Sheet{Of: which}.Forms()...)
	}
	for name, job := range evilJobs(t, book) {
		areas, err := book.Areas(job, all...)
		require.NoError(t, err)
		for _, which := range everySheet() {
			for _, form := range []string{"text", "markdown", "html", "svg"} {
				if !hasForm(which, form) || form == "svg" && areas.Status() != section.Designed {
					continue
				}
				t.Run(name+"/"+which+"/"+form, func(t *testing.T) {
					var b strings.Builder
					require.NoError(t, sheet.Sheet{Of: which, As: form, System: quantity.US, Columns: wide, Lines: lines, Drawn: drawing}.Write(&b, areas))
					harmless(t, form, b.String())
				})
			}
		}
	}
}

// wide is a text so wide that no table breaks what a person wrote.
const wide = 1 << 16

// harmless fails for a sheet in which a text of a person became more than words.
func harmless(t *testing.T, form, out string) {
	t.Helper()
	for _, r := range out {
		if r != '\n' && page.Printable(r) != r {
			t.Fatalf("%q would act on whoever reads it", r)
		}
	}
	text, escaped := out, func(text string) string { return text }
	switch form {
	case "html", "svg":
		p := readXML(t, out)
		text = p.text
		escaped = func(text string) string { return strings.ReplaceAll(text, " ", "") } // a drawing breaks lines itself
	case "markdown":
		// Whatever is left behind the sheets' own marks has no mark of Markdown that is
		// not escaped.
		escaped = paper.Plain
		text = strings.ReplaceAll(ownLinks.ReplaceAllString(out, ""), `\|`, "|")
		rest := text
		for _, whole := range []string{page.Shown(evil), printable} { // once is enough
			rest = strings.ReplaceAll(rest, paper.Plain(whole), "") + paper.Plain(whole)
		}
		require.NotRegexp(t, unescaped, ownMarks.ReplaceAllString(rest, ""))
	}
	text = strings.Join(strings.Fields(text), " ")
	if form == "html" || form == "svg" {
		text = escaped(text)
	}
	require.Contains(t, text, "EVIL", "nothing hostile is on this sheet, and the test tries nothing")
	if form == "text" {
		return // a text is words whatever it says, and a table breaks them into columns
	}
	for _, behind := range strings.Split(text, "EVIL")[1:] {
		quoted := strings.ReplaceAll(start, `"`, `\"`) // as a rule file writes a text
		whole := strings.HasPrefix("EVIL"+behind, escaped(start)) || strings.HasPrefix("EVIL"+behind, escaped(quoted))
		require.True(t, whole, "not as it was written: %.200s", behind)
	}
}

var (
	ownLinks  = regexp.MustCompile(`(?m)^ *<a id="[\pL\pN_-]+"></a>$|\]\(#[\pL\pN_-]+\)`)
	ownMarks  = regexp.MustCompile(`(?m)\\.|^ *> |^ *- \[ \] |\*\*|(^|[^_])_{40,}|^#+ |^ *\*+|\*$|^ *- \[`)
	unescaped = regexp.MustCompile("[<>`*_#~\\[\\]&]")
)
