package section

import (
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite JSON.md")

// TestJSONIsDescribed keeps JSON.md, the description of the JSON form field by
// field, true to the structs: it is made from their declarations and comments.
func TestJSONIsDescribed(t *testing.T) {
	got := describe(t)
	if *update {
		require.NoError(t, os.WriteFile("JSON.md", []byte(got), 0o644))
	}
	want, err := os.ReadFile("JSON.md")
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), got), "run go test ./pkg/section -update")
}

func describe(t *testing.T) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# The JSON form of a section\n\nMade from the declarations of this package by its test. Schema `%s`, version %d. Fields stand in this order; those marked optional are left out when empty. A list is in the order that its field tells.\n", Schema, Version)
	b.WriteString("\nA *value* is `{\"kind\", \"value\", \"unit\", \"us\", \"si\"}`: the kind is number, bool, text, a dimension, a vocabulary or list(kind); value is the number in the unit named (SI, but % for a share), the word's name, the text, or true or false; us and si are the value as text; a list has its values under items. A value that is none is null.\n")
	for _, decl := range declarations(t) {
		gen, ok := decl.(*ast.GenDecl)
		if !ok || gen.Tok != token.TYPE {
			continue
		}
		spec := gen.Specs[0].(*ast.TypeSpec)
		st, ok := spec.Type.(*ast.StructType)
		if !ok || !ast.IsExported(st.Fields.List[0].Names[0].Name) {
			continue
		}
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\n| field | type | meaning |\n|---|---|---|\n", spec.Name.Name, oneLine(gen.Doc))
		for _, f := range st.Fields.List {
			tag := reflect.StructTag(strings.Trim(f.Tag.Value, "`")).Get("json")
			name, options, _ := strings.Cut(tag, ",")
			meaning := oneLine(f.Doc)
			require.NotEmpty(t, meaning, "%s.%s is not described", spec.Name.Name, name)
			kind := typeText(f.Type)
			if options != "" {
				kind += ", optional"
			}
			fmt.Fprintf(&b, "| `%s` | %s | %s |\n", name, kind, meaning)
		}
	}
	return b.String()
}

// declarations returns those of the whole form, the section's own first.
func declarations(t *testing.T) []ast.Decl {
	var out []ast.Decl
	for _, name := range []string{"section.go", "reason.go", "verdict.go", "../rulebook/amendment.go"} {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		require.NoError(t, err)
		out = append(out, file.Decls...)
	}
	return out
}

func oneLine(doc *ast.CommentGroup) string {
	if doc == nil {
		return ""
	}
	return strings.Join(strings.Fields(doc.Text()), " ")
}

func typeText(e ast.Expr) string {
	switch x := e.(type) {
	case *ast.StarExpr:
		return typeText(x.X)
	case *ast.ArrayType:
		return "list of " + typeText(x.Elt)
	case *ast.SelectorExpr:
		if name, known := map[string]string{"Value": "value", "Place": "place", "Source": "source"}[x.Sel.Name]; known {
			return name
		}
		return typeText(x.Sel)
	case *ast.Ident:
		switch x.Name {
		case "string", "Status", "State", "Take", "Standing", "Origin", "Failing":
			return "text"
		case "Date":
			return "day"
		case "bool":
			return "true or false"
		case "float64", "int":
			return "number"
		}
		return x.Name
	}
	return "?"
}
