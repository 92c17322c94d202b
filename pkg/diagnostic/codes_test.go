package diagnostic_test

import (
	"fmt"
	"go/ast"
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

// code is one code as its package declares it.
type code struct{ name, from, meaning string }

// TestCodesAreListed makes the page of all codes from their declarations, and
// holds that each is declared once, with its meaning, and named by its constant
// wherever it is used.
func TestCodesAreListed(t *testing.T) {
	var codes []code
	root := filepath.Join("..", "..")
	for _, under := range []string{"pkg", "cmd"} {
		err := filepath.WalkDir(filepath.Join(root, under), func(path string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments)
			if err != nil {
				return err
			}
			where, err := filepath.Rel(root, filepath.Dir(path))
			if err != nil {
				return err
			}
			codes = append(codes, declared(t, file, filepath.ToSlash(where))...)
			noBareCode(t, file, path)
			return nil
		})
		require.NoError(t, err)
	}
	require.Greater(t, len(codes), 60)
	slices.SortFunc(codes, func(a, b code) int { return strings.Compare(a.name, b.name) })
	var page strings.Builder
	page.WriteString("# Codes of faults\n\nEvery fault in a file has one of these codes, which stay as they are from version to version. The page is made by a test from the constants that declare them.\n\n| code | what is wrong | found by |\n|---|---|---|\n")
	for i, c := range codes {
		require.NotEmpty(t, c.meaning, "%s has no meaning beside it", c.name)
		require.False(t, i > 0 && codes[i-1].name == c.name, "%s is declared in %s and in %s", c.name, codes[max(i-1, 0)].from, c.from)
		fmt.Fprintf(&page, "| `%s` | %s | %s |\n", c.name, strings.ReplaceAll(c.meaning, "|", `\|`), c.from)
	}
	if *update {
		require.NoError(t, os.WriteFile("CODES.md", []byte(page.String()), 0o644))
	}
	want, err := os.ReadFile("CODES.md")
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), page.String()), "run go test ./pkg/diagnostic -update")
}

// declared lists the constants of type Code in a file.
func declared(t *testing.T, file *ast.File, from string) []code {
	var out []code
	ast.Inspect(file, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if !ok || spec.Type == nil || !isCode(spec.Type) || len(spec.Values) != 1 {
			return true
		}
		name, err := strconv.Unquote(spec.Values[0].(*ast.BasicLit).Value)
		require.NoError(t, err)
		out = append(out, code{name, from, strings.TrimSpace(spec.Comment.Text())})
		return true
	})
	return out
}

func isCode(n ast.Expr) bool {
	sel, ok := n.(*ast.SelectorExpr)
	return ok && sel.Sel.Name == "Code"
}

// noBareCode refuses a code that is written as a text where it is used.
func noBareCode(t *testing.T, file *ast.File, path string) {
	ast.Inspect(file, func(n ast.Node) bool {
		if pair, ok := n.(*ast.KeyValueExpr); ok {
			key, isName := pair.Key.(*ast.Ident)
			lit, isText := pair.Value.(*ast.BasicLit)
			require.False(t, isName && isText && key.Name == "Code", "%s: %v is written as a text", path, lit)
		}
		if call, ok := n.(*ast.CallExpr); ok && len(call.Args) > 1 {
			f, isMethod := call.Fun.(*ast.SelectorExpr)
			lit, isText := call.Args[1].(*ast.BasicLit)
			require.False(t, isMethod && isText && f.Sel.Name == "Addf", "%s: %v is written as a text", path, lit)
		}
		return true
	})
}
