package groundrule_test

import (
	"bytes"
	"flag"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite testdata/api.txt")

// mostNames is how many exported package-level names all public packages
// together may have: few enough to be kept for ten years.
const mostNames = 350

// TestExportedAPI keeps every exported declaration of the public packages in
// testdata/api.txt, so that none changes without being announced, and holds what
// they may show: no type of an internal package, of package reflect, of the rule
// language's library or of the YAML reader.
func TestExportedAPI(t *testing.T) {
	var text strings.Builder
	names, hidden := 0, 0
	for _, dir := range publicPackages(t) {
		api := exportedOf(t, dir)
		names += api.names
		hidden += len(api.hidden)
		for _, each := range api.hidden {
			t.Errorf("%s shows %s", dir, each)
		}
		fmt.Fprintf(&text, "package %s\n\n%s\n", filepath.Base(dir), strings.Join(api.lines, "\n"))
		text.WriteString("\n")
	}
	text.WriteString(fmt.Sprintf("%d package-level names\n", names))
	require.LessOrEqual(t, names, mostNames)
	require.Zero(t, hidden)

	const kept = "../../testdata/api.txt"
	if *update {
		require.NoError(t, os.WriteFile(kept, []byte(text.String()), 0o644))
	}
	want, err := os.ReadFile(kept)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), text.String()),
		"the exported API has changed (-kept +now); announce it in the commit and run the test with -update")
}

// publicPackages lists the folders under pkg that are not internal.
func publicPackages(t *testing.T) []string {
	var out []string
	require.NoError(t, filepath.WalkDir("..", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "internal" || d.Name() == "testdata"):
			return filepath.SkipDir
		case !d.IsDir() && strings.HasSuffix(name, ".go") && !slices.Contains(out, filepath.Dir(name)):
			out = append(out, filepath.Dir(name))
		}
		return nil
	}))
	require.Contains(t, out, filepath.Join("..", "groundrule"))
	return out
}

// exported is what one package shows: a line or more for each declaration, how
// many package-level names these make, and what should not be seen among them.
type exported struct {
	lines  []string
	names  int
	hidden []string
}

func exportedOf(t *testing.T, dir string) exported {
	var out exported
	fset := token.NewFileSet()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	require.NoError(t, err)
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(fset, name, nil, 0)
		require.NoError(t, err)
		if ast.FileExports(file) {
			for _, d := range file.Decls {
				out.add(t, fset, d, importsOf(file))
			}
		}
	}
	slices.Sort(out.lines)
	slices.Sort(out.hidden)
	out.hidden = slices.Compact(out.hidden)
	return out
}

// add takes up one declaration, which [ast.FileExports] has cut to what is
// exported.
func (e *exported) add(t *testing.T, fset *token.FileSet, d ast.Decl, imports map[string]string) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		d.Body = nil
		switch {
		case d.Recv == nil:
			e.names++
		case !receiverExported(d.Recv.List[0].Type):
			return
		}
		e.line(t, fset, d)
		e.look(d, imports)
	case *ast.GenDecl:
		if d.Tok == token.IMPORT {
			return
		}
		for _, spec := range d.Specs {
			switch s := spec.(type) {
			case *ast.TypeSpec:
				e.names++
				e.line(t, fset, &ast.GenDecl{Tok: token.TYPE, Specs: []ast.Spec{s}})
				e.look(s, imports)
			case *ast.ValueSpec:
				e.names += len(s.Names)
				for _, name := range s.Names {
					e.lines = append(e.lines, d.Tok.String()+" "+name.Name)
				}
				if s.Type != nil {
					e.look(s.Type, imports)
				}
			}
		}
	}
}

// receiverExported reports whether a method belongs to an exported type.
func receiverExported(typ ast.Expr) bool {
	switch x := typ.(type) {
	case *ast.StarExpr:
		return receiverExported(x.X)
	case *ast.IndexExpr:
		return receiverExported(x.X)
	case *ast.Ident:
		return x.IsExported()
	}
	return false
}

func (e *exported) line(t *testing.T, fset *token.FileSet, node any) {
	var b bytes.Buffer
	require.NoError(t, format.Node(&b, fset, node))
	e.lines = append(e.lines, b.String())
}

// look finds types that do not belong in the public API.
func (e *exported) look(node ast.Node, imports map[string]string) {
	ast.Inspect(node, func(n ast.Node) bool {
		s, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		if x, ok := s.X.(*ast.Ident); ok {
			from := imports[x.Name]
			if strings.Contains(from, "/internal/") || from == "reflect" || strings.Contains(from, "cel-go") || strings.Contains(from, "yaml") {
				e.hidden = append(e.hidden, x.Name+"."+s.Sel.Name)
			}
		}
		return true
	})
}

// importsOf returns the paths of what a file imports by the name that it is
// called by there.
func importsOf(file *ast.File) map[string]string {
	out := map[string]string{}
	for _, each := range file.Imports {
		from, err := strconv.Unquote(each.Path.Value)
		if err != nil {
			continue
		}
		name := filepath.Base(from)
		if each.Name != nil {
			name = each.Name.Name
		}
		out[name] = from
	}
	return out
}
