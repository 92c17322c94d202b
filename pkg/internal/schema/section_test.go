package schema_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/schema"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// TestSectionIsDescribed keeps the JSON Schema of a section, and JSON.md, which
// says the same to a person, true to the structs: both are made from their
// declarations and comments in one walk.
func TestSectionIsDescribed(t *testing.T) {
	text, s := describeSection(t)
	var b bytes.Buffer
	require.NoError(t, s.Write(&b))
	for path, got := range map[string]string{"../../section/JSON.md": text, "section.schema.json": b.String()} {
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Empty(t, cmp.Diff(string(want), got), "%s: run go test ./pkg/internal/schema -update", path)
	}
	var parsed map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &parsed))
	sound(t, parsed, parsed, "#")
}

// Every section of an example, in both forms, is one that the schema takes, with
// every required key; and the job in it is one that the schema of a job takes.
func TestSectionsOfExamples(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	_, s := describeSection(t)
	files, err := filepath.Glob("../../../examples/jobs/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			job, err := site.Read(file, data)
			require.NoError(t, err)
			for _, part := range job.Parts() {
				made := sectionOf(t, book, part)
				for _, forms := range [][]section.Form{nil, {section.Full}} {
					text, err := made.JSON(forms...)
					require.NoError(t, err)
					var x any
					require.NoError(t, json.Unmarshal(text, &x))
					require.Empty(t, validate(s, x).faults)
				}
				require.Empty(t, validate(schema.Job(words(t)), instance(t, made.Job.Input)).faults)
			}
		})
	}
}

func sectionOf(t *testing.T, book *groundrule.Book, job *site.Site) *section.Section {
	t.Helper()
	d, err := book.Design(job)
	var refused *groundrule.Refused
	if errors.As(err, &refused) {
		return refused.Section
	}
	require.NoError(t, err)
	made, err := d.Section()
	require.NoError(t, err)
	return made
}

// What a section must not be.
func TestSectionsRefused(t *testing.T) {
	_, s := describeSection(t)
	book, err := groundrule.Standard()
	require.NoError(t, err)
	data, err := os.ReadFile("../../../examples/jobs/patio-on-panels.yaml")
	require.NoError(t, err)
	job, err := site.Read("job.yaml", data)
	require.NoError(t, err)
	text, err := sectionOf(t, book, job).JSON(section.Full)
	require.NoError(t, err)
	cases := []struct {
		name, why string
		change    func(x map[string]any)
	}{
		{"unknown key", "a key that the structs have not", func(x map[string]any) { x["depht"] = 1.0 }},
		{"missing key", "every list is there, if empty", func(x map[string]any) { delete(x, "checks") }},
		{"null list", "an empty list is not null", func(x map[string]any) { x["cautions"] = nil }},
		{"wrong word", "a word of a closed list", func(x map[string]any) { x["status"] = "fine" }},
		{"no value", "a depth is a value or null", func(x map[string]any) { x["depth"] = 9.36 }},
		{"within a list", "each of a list is looked at", func(x map[string]any) { x["courses"].([]any)[0].(map[string]any)["top"] = "0 in" }},
		{"no day", "a day is written as a day", func(x map[string]any) { x["as_of"] = "2026-13-01" }},
		{"another version", "the schema is of one version", func(x map[string]any) { x["version"] = 1.0 }},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var x map[string]any
			require.NoError(t, json.Unmarshal(text, &x))
			require.Empty(t, validate(s, x).faults)
			c.change(x)
			require.NotEmpty(t, validate(s, x).faults, c.why)
		})
	}
}

// walk follows the declarations of the section's structs, wherever they are.
type walk struct {
	t     *testing.T
	specs map[string]*ast.TypeSpec // by "package.Name"
	docs  map[string]string
	words map[string][]any // the constants of a type
	queue []string
}

func describeSection(t *testing.T) (string, *schema.Schema) {
	w := &walk{t: t, specs: map[string]*ast.TypeSpec{}, docs: map[string]string{}, words: map[string][]any{}}
	for _, name := range []string{"section", "rulebook", "diagnostic", "value"} {
		files, err := filepath.Glob("../../" + name + "/*.go")
		require.NoError(t, err)
		for _, path := range files {
			if strings.HasSuffix(path, "_test.go") {
				continue
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments)
			require.NoError(t, err)
			for _, d := range file.Decls {
				w.declare(name, d)
			}
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, `# The JSON form of a section

Made from the declarations of the structs by a test. Schema %q, version %d. Fields are in this order; those marked optional are left out when they are empty. A list is in the order that its field names, and an empty one is there as []. The JSON Schema says the same: groundrule book schema section.

A *value* is {"kind", "value", "unit", "us", "si"}: the kind is number, bool, text, a dimension, a vocabulary or list(kind); value is the number in the unit named (SI, but %% for a share, to 12 figures), the word's name, the text, or true or false; us and si are the value as text, without si where both are the same. A list has its values under items, and an object such as a gradation its text alone; value is then null. A value that is none is null.
`, section.Schema, section.Version)
	var root *schema.Schema
	var definitions schema.Properties
	w.queue = []string{"section.Section"}
	for i := 0; i < len(w.queue); i++ {
		s := w.structure(w.queue[i], &b)
		if root == nil {
			root = s
			continue
		}
		require.Nil(t, definitions.Get(bare(w.queue[i])), "two types have one name")
		definitions = append(definitions, schema.Property{Name: bare(w.queue[i]), Schema: s})
	}
	text := func() *schema.Schema { return &schema.Schema{Type: []string{"string"}} }
	definitions = append(definitions, schema.Property{Name: "value", Schema: &schema.Schema{
		Description: "A value: its kind, the value itself, and its text in both systems of units.", Type: []string{"object"}, Required: []string{"kind", "value", "us"},
		Properties: schema.Properties{{Name: "kind", Schema: text()}, {Name: "value", Schema: &schema.Schema{}}, {Name: "unit", Schema: text()}, {Name: "us", Schema: text()}, {Name: "si", Schema: text()},
			{Name: "items", Schema: &schema.Schema{Type: []string{"array"}, Items: &schema.Schema{Ref: "#/$defs/value"}}}}, Others: schema.Never()}})
	root.Dialect, root.Definitions = schema.Dialect, definitions
	root.Properties.Get("schema").Enum = []any{section.Schema}
	root.Properties.Get("version").Enum = []any{float64(section.Version)}
	return b.String(), root
}

func (w *walk) declare(pkg string, d ast.Decl) {
	gen, ok := d.(*ast.GenDecl)
	if !ok {
		return
	}
	for _, spec := range gen.Specs {
		switch x := spec.(type) {
		case *ast.TypeSpec:
			name := pkg + "." + x.Name.Name
			w.specs[name], w.docs[name] = x, oneLine(gen.Doc)
		case *ast.ValueSpec:
			if of, ok := x.Type.(*ast.Ident); ok && gen.Tok == token.CONST && len(x.Values) == 1 {
				if text, ok := x.Values[0].(*ast.BasicLit); ok && text.Kind == token.STRING {
					word, err := strconv.Unquote(text.Value)
					require.NoError(w.t, err)
					if word != "" {
						w.words[pkg+"."+of.Name] = append(w.words[pkg+"."+of.Name], word)
					}
				}
			}
		}
	}
}

// structure describes one struct: its fields in a table, and its schema.
func (w *walk) structure(name string, b *strings.Builder) *schema.Schema {
	s := &schema.Schema{Description: w.docs[name], Type: []string{"object"}, Others: schema.Never()}
	fmt.Fprintf(b, "\n## %s\n\n%s\n\n| field | type | meaning |\n|---|---|---|\n", bare(name), w.docs[name])
	w.fields(name, b, s)
	return s
}

func (w *walk) fields(name string, b *strings.Builder, s *schema.Schema) {
	pkg, _, _ := strings.Cut(name, ".")
	st, ok := w.specs[name].Type.(*ast.StructType)
	require.True(w.t, ok, name)
	for _, f := range st.Fields.List {
		if len(f.Names) == 0 {
			w.fields(qualified(pkg, f.Type), b, s)
			continue
		}
		key, options, _ := strings.Cut(reflect.StructTag(strings.Trim(f.Tag.Value, "`")).Get("json"), ",")
		if key == "-" {
			continue // not written
		}
		meaning := oneLine(f.Doc)
		require.NotEmpty(w.t, meaning, "%s.%s is not described", name, key)
		require.Regexp(w.t, `^[a-z][a-z0-9_]*$`, key)
		kind, is := w.kind(pkg, f.Type)
		if options == "" {
			s.Required = append(s.Required, key)
			if kind == "value" {
				is = &schema.Schema{AnyOf: []*schema.Schema{is, {Type: []string{"null"}}}}
			}
		} else {
			kind += ", optional"
		}
		is.Description = meaning
		s.Properties = append(s.Properties, schema.Property{Name: key, Schema: is})
		fmt.Fprintf(b, "| `%s` | %s | %s |\n", key, kind, meaning)
	}
}

// kind returns the type of a field in words and as a schema.
func (w *walk) kind(pkg string, e ast.Expr) (string, *schema.Schema) {
	switch x := e.(type) {
	case *ast.StarExpr:
		return w.kind(pkg, x.X)
	case *ast.MapType:
		words, each := w.kind(pkg, x.Value)
		return words + " by name", &schema.Schema{Type: []string{"object"}, Others: each}
	case *ast.ArrayType:
		words, each := w.kind(pkg, x.Elt)
		return "list of " + words, &schema.Schema{Type: []string{"array"}, Items: each}
	}
	switch name := qualified(pkg, e); name {
	case pkg + ".string":
		return "text", &schema.Schema{Type: []string{"string"}}
	case pkg + ".bool":
		return "true or false", &schema.Schema{Type: []string{"boolean"}}
	case pkg + ".int", pkg + ".float64":
		return "number", &schema.Schema{Type: []string{"number"}}
	case "json.RawMessage":
		return "a job file", &schema.Schema{Type: []string{"object"}}
	case "value.Value":
		return "value", &schema.Schema{Ref: "#/$defs/value"}
	case "rulebook.Date":
		return "day", schema.Day()
	default:
		if words := w.words[name]; len(words) > 0 {
			return "text", &schema.Schema{Type: []string{"string"}, Enum: words}
		}
		if !slices.Contains(w.queue, name) {
			w.queue = append(w.queue, name)
		}
		return bare(name), &schema.Schema{Ref: "#/$defs/" + bare(name)}
	}
}

// qualified names a type with its package.
func qualified(pkg string, e ast.Expr) string {
	if x, ok := e.(*ast.SelectorExpr); ok {
		return x.X.(*ast.Ident).Name + "." + x.Sel.Name
	}
	return pkg + "." + e.(*ast.Ident).Name
}

// bare is the name of a type as it is shown.
func bare(name string) string { return name[strings.Index(name, ".")+1:] }

func oneLine(doc *ast.CommentGroup) string {
	return strings.Join(strings.Fields(doc.Text()), " ")
}
