package printed

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/rules"
)

var update = flag.Bool("update", false, "write the golden files anew")

func day(t *testing.T, text string) rulebook.Date {
	t.Helper()
	d, err := rulebook.ParseDate(text)
	require.NoError(t, err)
	return d
}

// open opens a rulebook of the folder testdata, or the standard one, amended.
func open(t *testing.T, base rulebook.Layer, amendments ...rulebook.Layer) *engine.Book {
	t.Helper()
	b, err := groundrule.Open(base.FS, groundrule.WithLabel(base.Label), groundrule.WithAmendments(amendments...), groundrule.AsOf(day(t, "2026-06-01")), inside.Partial.(groundrule.Option))
	require.NoError(t, err)
	return inside.Rules(b)
}

func folder(path string) rulebook.Layer {
	return rulebook.Layer{Label: filepath.Base(path), FS: os.DirFS(path)}
}

// documents are those that the tests read.
func documents(t *testing.T) map[string]*Document {
	yard, ours := folder("testdata/yard"), folder("testdata/ours")
	whole := rulebook.Layer{Label: rules.Label, FS: rules.Files()}
	wrenfold := folder("../../../examples/wrenfold/amendments")
	return map[string]*Document{
		"yard":     Of(open(t, yard), Options{Proof: map[string]string{"NEVER-THIN": "Proven for every job."}}),
		"ours":     Merge(open(t, yard), open(t, yard, ours), Options{}),
		"diff":     Diff(open(t, yard), open(t, yard, ours), Options{}),
		"same":     Diff(open(t, yard), open(t, yard), Options{}),
		"standard": Of(open(t, whole), Options{}),
		"wrenfold": Merge(open(t, whole), open(t, whole, wrenfold), Options{}),
		"changes":  Diff(open(t, whole), open(t, whole, wrenfold), Options{}),
	}
}

// TestGolden holds a small rulebook, what a company makes of it, and what differs,
// to the letter; of the standard only what the example company changes.
func TestGolden(t *testing.T) {
	all := documents(t)
	for name, expressions := range map[string]bool{"yard": true, "ours": false, "diff": false, "same": false, "changes": false} {
		t.Run(name, func(t *testing.T) {
			d := all[name]
			d.Files = nil // their hashes change with every remark
			var got bytes.Buffer
			require.NoError(t, d.Markdown(&got, Options{Expressions: expressions}))
			path := filepath.Join("testdata", name+".md")
			if *update {
				require.NoError(t, os.WriteFile(path, got.Bytes(), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(string(want), got.String()))
		})
	}
}

// TestNothingDiffers holds that the standard differs in nothing from itself, though
// courses and decisions have the same names.
func TestNothingDiffers(t *testing.T) {
	require.Empty(t, Diff(standard(t), standard(t), Options{}).Chapters)
}

// seen is what a reader of the HTML meets.
type seen struct {
	ids, links     []string
	levels         []int
	headings       []string
	elements, text string
}

// read reads a page as strict XML, and fails on one that is not well formed.
func read(t *testing.T, d *Document, o Options) seen {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, d.HTML(&out, o))
	var p seen
	in := xml.NewDecoder(bytes.NewReader(out.Bytes()))
	heading := -1
	var text strings.Builder
	for {
		token, err := in.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			name := token.Name.Local
			p.elements += "<" + name + ">"
			if len(name) == 2 && name[0] == 'h' && name[1] >= '1' && name[1] <= '6' {
				heading, p.levels, p.headings = len(p.headings), append(p.levels, int(name[1]-'0')), append(p.headings, "")
			}
			for _, a := range token.Attr {
				switch a.Name.Local {
				case "id":
					p.ids = append(p.ids, a.Value)
				case "href", "aria-labelledby":
					p.links = append(p.links, strings.TrimPrefix(a.Value, "#"))
				case "src", "style", "onclick", "onload":
					t.Errorf("<%s> has the attribute %s", name, a.Name.Local)
				}
			}
			if name == "th" {
				require.Contains(t, []string{"col", "row"}, attribute(token, "scope"))
			}
		case xml.EndElement:
			if name := token.Name.Local; len(name) == 2 && name[0] == 'h' && name != "hr" {
				heading = -1
			}
		case xml.CharData:
			text.Write(token)
			if heading >= 0 {
				p.headings[heading] += string(token)
			}
		}
	}
	p.text = text.String()
	return p
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// TestPages holds that every page is well formed, that its headings say something
// and skip no level, that every link leads somewhere, and that it runs and asks
// for nothing.
func TestPages(t *testing.T) {
	for name, d := range documents(t) {
		t.Run(name, func(t *testing.T) {
			p := read(t, d, Options{Expressions: true})
			for i, h := range p.headings {
				require.NotEmpty(t, strings.Trim(h, "0123456789. \n"), "heading %d", i)
				if i > 0 {
					require.LessOrEqual(t, p.levels[i], p.levels[i-1]+1, h)
				}
			}
			have := map[string]bool{}
			for _, id := range p.ids {
				require.False(t, have[id], "the id %s stands twice", id)
				have[id] = true
			}
			for _, to := range p.links {
				require.True(t, have[to], "a link leads to %s", to)
			}
			for _, element := range []string{"script", "link", "img", "iframe", "form", "object"} {
				require.NotContains(t, p.elements, "<"+element+">")
			}
			for _, landmark := range []string{"header", "nav", "main", "h1"} {
				require.Equal(t, 1, strings.Count(p.elements, "<"+landmark+">"), landmark)
			}
		})
	}
}

// hostile is a text that would act on whoever takes it for anything but text.
const hostile = `<script>alert("1")</script> & 'x' | **b** [a](javascript:b) ` + "`c` \x1b[31m\u202e"

// TestHostile holds that a text in any place is no more than text.
func TestHostile(t *testing.T) {
	d := &Document{}
	fill(reflect.ValueOf(d).Elem(), 0)
	p := read(t, d, Options{Expressions: true})
	require.NotContains(t, p.elements, "<script>")
	require.NotContains(t, p.elements, "<a><a>")
	require.Greater(t, strings.Count(p.text, strings.NewReplacer("\x1b", "?", "\u202e", "?").Replace(hostile)), 30)
	require.NotContains(t, p.text, "\x1b")
	var out bytes.Buffer
	require.NoError(t, d.Markdown(&out, Options{}))
	require.NotContains(t, out.String(), "\x1b")
	for _, bad := range []string{"<script", "**b**", "[a](", " | **"} {
		for _, line := range strings.Split(out.String(), "\n") {
			require.NotContains(t, outside(line), bad)
		}
	}
}

var escaped = regexp.MustCompile(`\\.`)

// outside is a line of Markdown without what is escaped, and without what is between
// backquotes, which is shown as it is.
func outside(line string) string {
	parts := strings.Split(escaped.ReplaceAllString(line, ""), "`")
	var out string
	for i := 0; i < len(parts); i += 2 {
		out += parts[i]
	}
	return out
}

// fill puts the hostile text into every field of a document, two levels of
// sections and of parts deep.
func fill(v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(hostile)
	case reflect.Struct:
		for i := range v.NumField() {
			if name := v.Type().Field(i).Name; v.Field(i).CanSet() && name != "ID" && name != "Number" && name != "Change" && name != "Done" && !(v.Type() == reflect.TypeFor[Line]() && name == "Label" && depth%2 == 0) {
				fill(v.Field(i), depth+1)
			}
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), depth)
	case reflect.Slice:
		if depth < 9 {
			one := reflect.New(v.Type().Elem()).Elem()
			fill(one, depth+1)
			v.Set(reflect.Append(v, one))
		}
	}
}
