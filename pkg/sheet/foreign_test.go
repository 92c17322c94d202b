package sheet_test

import (
	"bytes"
	"html"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"unicode"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/rules"
)

// textual are the keys under which people read texts, as the engine has them.
var textual = []string{"because", "says", "label", "about", "asks", "confirm", "who", "how", "test", "hold", "sizes", "measure", "finds", "does", "calls", "gives", "lacks", "leaves_out", "short", "passes"}

// strange writes a text in wide letters, but for what it quotes in braces: whatever is
// left in plain ones on a sheet is no text of the rulebook.
func strange(text string) string {
	depth := 0
	return strings.Map(func(r rune) rune {
		switch {
		case r == '{':
			depth++
		case r == '}':
			depth--
		case depth == 0 && r < unicode.MaxASCII && unicode.IsLetter(r):
			return r - 'A' + '\uff21'
		}
		return r
	}, text)
}

// estrange writes every text of a file strangely.
func estrange(n *yaml.Node, words bool) {
	for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
		key, under := n.Content[i].Value, n.Content[i+1]
		switch {
		case key == "sources": // names of documents
		case under.Kind == yaml.ScalarNode && (words || slices.Contains(textual, key)):
			under.Value, under.Style = strange(under.Value), yaml.DoubleQuotedStyle
		default:
			estrange(under, key == "words")
		}
	}
	for _, each := range n.Content {
		if n.Kind != yaml.MappingNode {
			estrange(each, words)
		}
	}
}

// inStrange is the standard rulebook with all its texts written so, and all names and
// units by a file of texts.
var inStrange = sync.OnceValues(func() (*groundrule.Book, error) {
	files := fstest.MapFS{}
	names, err := fs.Glob(rules.Files(), "*.yaml")
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		data, _ := fs.ReadFile(rules.Files(), name)
		var file yaml.Node
		if err := yaml.Unmarshal(data, &file); err != nil {
			return nil, err
		}
		estrange(&file, false)
		written, err := yaml.Marshal(&file)
		if err != nil {
			return nil, err
		}
		files[name] = &fstest.MapFile{Data: written}
	}
	own, err := groundrule.Open(files)
	if err != nil {
		return nil, err
	}
	named, units, values := map[string]string{}, map[string]string{}, map[string]string{}
	name := func(n string) { named[n] = strange(strings.NewReplacer("_", " ", ".", " ").Replace(n)) }
	all := own.Rules()
	for _, d := range all.Decisions {
		name(d.Name)
	}
	for _, s := range all.Settings {
		name(s.Name)
	}
	for _, each := range all.Terms {
		name(each.Name)
	}
	for _, each := range all.Inputs {
		name(each.Name)
	}
	for _, c := range all.Courses {
		for _, a := range c.Attributes {
			name(a.Name)
		}
	}
	for _, u := range quantity.Units() {
		for _, symbol := range []string{u.Symbol, u.Plural} {
			if symbol != "" {
				units[symbol] = strange(symbol)
			}
		}
	}
	for _, each := range []string{"yes", "no", "none", "nothing", "million"} {
		units[each] = strange(each)
	}
	for _, v := range all.Vocabularies {
		for _, w := range v.Words {
			texts := []string{w.Word.Label, ""}
			if v.Kind == "uscs" { // of which the rules tell what they are called
				texts[1] = w.Word.About
			}
			for _, text := range texts {
				if letters.MatchString(text) {
					values[text] = strange(text)
				}
			}
			for _, p := range w.Word.Properties() {
				if text, is := p.PlainText(); is {
					values[text] = strange(text)
				}
			}
		}
	}
	for _, d := range all.Decisions {
		for _, r := range d.Rules {
			if text, is := strings.CutPrefix(r.Answer.Text, "'"); is {
				values[strings.TrimSuffix(text, "'")] = strange(strings.TrimSuffix(text, "'"))
			}
		}
	}
	texts, err := yaml.Marshal(map[string]any{"texts": "zz", "names": named, "units": units, "values": values})
	if err != nil {
		return nil, err
	}
	return groundrule.Open(files, groundrule.Language("zz"), groundrule.WithAmendments(rulebook.Layer{Label: "z", FS: fstest.MapFS{"zz.yaml": {Data: texts}}}))
})

// Every word of a sheet is a text of the rulebook, or what people wrote in the job: of
// a rulebook in other letters nothing else is left in ours, but for names and code.
func TestNoWordsOfItsOwn(t *testing.T) {
	book, err := inStrange()
	require.NoError(t, err)
	for _, name := range []string{"patio-on-stiff-clay", "patio-on-panels", "four-areas", "refused-truck-yard", "stopped-uniaxial-grid"} {
		a := designedBy(t, book, name, section.Questions, section.Crew, section.Client, section.Takeoff)
		for _, of := range []string{"page", "crew", "client", "full", "audit"} {
			t.Run(of+"/"+name, func(t *testing.T) {
				var out bytes.Buffer
				which := sheet.Sheet{Of: of, As: "html", Lines: book.Lines(), Drawn: book.Drawn()}
				require.NoError(t, which.Write(&out, a))
				require.Empty(t, inOurs(out.String(), of == "audit", a))
			})
		}
	}
}

var (
	tags    = regexp.MustCompile(`(?s)<style>.*?</style>|<[^>]*>`)
	ids     = regexp.MustCompile(`[\w./-]*\.yaml(:\d+:\d+)?|\b[A-Z][A-Z0-9]*(-[A-Za-z0-9_]+)+|\b[A-Z]{2,}\b|\([\w.]+\)`)
	codes   = regexp.MustCompile("`[^`]*`|\\b[\\w.]+ [(=]|\\b[a-z]\\w*(\\[[\\d\\]]+\\])?([_.]\\w+)+|[\\d.]+-dev|\\b\\w+_:|[0-9a-f]{64}|(circle|rectangle|polygon) .*")
	spans   = regexp.MustCompile(`<span class="whole">([^<]*)</span>`)
	letters = regexp.MustCompile(`[A-Za-z][A-Za-z]+`)
)

// inOurs lists what a page says in plain letters, but for what people wrote in the job,
// documents, places, ids and keys, and on an audit sheet code.
func inOurs(page string, audit bool, a *section.Areas) (out []string) {
	wrote := map[string]bool{}
	var documents []string
	for _, s := range a.Sections {
		for _, w := range letters.FindAllString(string(s.Job.Input)+s.Job.Part, -1) {
			wrote[strings.ToLower(w)] = true
		}
	}
	cite := func(sources []section.Source) {
		for _, each := range sources {
			documents = append(documents, each.Document, each.Note, each.Via, each.Clause)
		}
	}
	for _, s := range a.Sections {
		cite(s.Sources)
	}
	for _, j := range a.Joints {
		cite(j.Sources)
	}
	slices.SortFunc(documents, func(a, b string) int { return len(b) - len(a) })
	for text := range strings.Lines(tags.ReplaceAllString(spans.ReplaceAllString(page, "$1"), "\n")) {
		if text = html.UnescapeString(text); !letters.MatchString(text) {
			continue
		}
		for _, each := range slices.Compact(documents) {
			text = strings.ReplaceAll(text, each, "")
		}
		if audit {
			text = codes.ReplaceAllString(text, "")
		}
		text = ids.ReplaceAllString(text, "")
		if slices.ContainsFunc(letters.FindAllString(text, -1), func(w string) bool { return !wrote[strings.ToLower(w)] }) {
			out = append(out, strings.TrimSpace(text))
		}
	}
	return out
}
