package gochange

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
)

// module is a Go module with its packages, as the go command lists them.
type module struct {
	root     string
	packages []*listed
	exports  map[string]string // by import path, the file of a package's types
}

// listed is a package of the module.
type listed struct {
	ImportPath, Dir, Export            string
	GoFiles, TestGoFiles, XTestGoFiles []string
	Imports, TestImports, XTestImports []string
	Module                             *struct{ Main bool }
}

// openModule lists the module that holds the folder.
func openModule(dir string) (*module, error) {
	root, err := goCommand(dir, "list", "-m", "-f", "{{.Dir}}")
	if err != nil {
		return nil, err
	}
	m := &module{root: string(bytes.TrimSpace(root)), exports: map[string]string{}}
	out, err := goCommand(m.root, "list", "-json", "-export", "-deps", "./...")
	if err != nil {
		return nil, err
	}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		p := &listed{}
		if err := dec.Decode(p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, err
		}
		m.exports[p.ImportPath] = p.Export
		if p.Module != nil && p.Module.Main {
			m.packages = append(m.packages, p)
		}
	}
	return m, nil
}

func goCommand(dir string, args ...string) ([]byte, error) {
	cmd := exec.Command("go", args...)
	cmd.Dir = dir
	out, err := cmd.Output()
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		err = fmt.Errorf("go %v: %w: %s", args, err, failed.Stderr)
	}
	return out, err
}

// named returns the package in a folder below the root, such as "pkg/site".
func (m *module) named(folder string) (*listed, error) {
	for _, p := range m.packages {
		if rel, err := filepath.Rel(m.root, p.Dir); err == nil && filepath.ToSlash(rel) == folder {
			return p, nil
		}
	}
	return nil, fmt.Errorf("the module has no package in the folder %s", folder)
}

func (p *listed) hasTests() bool { return len(p.TestGoFiles)+len(p.XTestGoFiles) > 0 }

// importers returns the packages with tests that import p, or, if further is
// set, anything that does.
func (m *module) importers(p *listed, further bool) []string {
	reached := map[string]bool{p.ImportPath: true}
	var out []string
	for grew := true; grew; {
		grew = false
		for _, q := range m.packages {
			isImporter := slices.ContainsFunc(slices.Concat(q.Imports, q.TestImports, q.XTestImports), func(path string) bool {
				return path == p.ImportPath || further && reached[path]
			})
			if isImporter && !reached[q.ImportPath] {
				reached[q.ImportPath], grew = true, true
				if q.hasTests() {
					out = append(out, q.ImportPath)
				}
			}
		}
	}
	return out
}

// loaded is a package whose files have been read and whose types are known.
type loaded struct {
	*listed
	m       *module
	fset    *token.FileSet
	files   []*ast.File
	sources map[string][]byte
	imports types.Importer
}

func (m *module) load(p *listed) (*loaded, []change, error) {
	l := &loaded{listed: p, m: m, fset: token.NewFileSet(), sources: map[string][]byte{}}
	l.imports = importer.ForCompiler(l.fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(m.exports[path]) })
	for _, name := range p.GoFiles {
		path := filepath.Join(p.Dir, name)
		src, err := os.ReadFile(path)
		if err != nil {
			return nil, nil, err
		}
		file, err := parser.ParseFile(l.fset, path, src, 0)
		if err != nil {
			return nil, nil, err
		}
		l.sources[path], l.files = src, append(l.files, file)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
	if err := l.check(l.files, info); err != nil {
		return nil, nil, err
	}
	var all []change
	for _, file := range l.files {
		path := l.fset.File(file.Pos()).Name()
		all = append(all, changesOf(l.fset, info, file, l.sources[path])...)
	}
	return l, all, nil
}

func (l *loaded) check(files []*ast.File, info *types.Info) error {
	conf := types.Config{Importer: l.imports}
	_, err := conf.Check(l.ImportPath, l.fset, files, info)
	return err
}

// compiles reports whether the package compiles with the change.
func (l *loaded) compiles(c change) bool {
	changed, err := parser.ParseFile(l.fset, c.file, c.apply(l.sources[c.file]), 0)
	if err != nil {
		return false
	}
	files := slices.Clone(l.files)
	for i, name := range l.GoFiles {
		if filepath.Join(l.Dir, name) == c.file {
			files[i] = changed
		}
	}
	return l.check(files, nil) == nil
}
