package rulebook

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"path"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
)

// Limits of a rulebook's files. No rule file can name another, so what is read
// is what lies in the folder, and no more.
const (
	MaxFiles = 500
)

// Open reads every .yaml file below the root of fsys, in the order of their
// paths, and compiles them. Everything wrong is reported in one [*Error].
func Open(fsys fs.FS, setup Setup) (*Book, error) {
	in, files, faults, err := readAll(fsys)
	if err != nil {
		return nil, err
	}
	book, more := compile(in, setup, files)
	faults = append(faults, more...)
	if len(faults) > 0 {
		faults.Sort()
		return nil, &Error{Faults: faults}
	}
	return book, nil
}

func readAll(fsys fs.FS) (*written, []File, diagnostic.List, error) {
	var names []string
	err := fs.WalkDir(fsys, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if !entry.IsDir() && path.Ext(name) == ".yaml" {
			names = append(names, name)
		}
		return nil
	})
	if err != nil {
		return nil, nil, nil, fmt.Errorf("rulebook: %w", err)
	}
	slices.Sort(names)
	r := &reader{out: &written{}}
	if len(names) == 0 {
		r.faults.Addf(diagnostic.Place{File: "."}, "no-files", "no rule file (.yaml) lies here")
	}
	if len(names) > MaxFiles {
		r.faults.Addf(diagnostic.Place{File: names[MaxFiles]}, "too-many-files", "a rulebook has at most %d files", MaxFiles)
		names = names[:0]
	}
	var files []File
	for _, name := range names {
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, nil, nil, fmt.Errorf("rulebook: %w", err)
		}
		sum := sha256.Sum256(data)
		files = append(files, File{Name: name, SHA256: hex.EncodeToString(sum[:])})
		r.file(name, data)
	}
	return r.out, files, r.faults, nil
}
