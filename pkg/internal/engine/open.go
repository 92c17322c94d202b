package engine

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"path"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/rulebook"
)

// Limits of a rulebook's files. No rule file can name another, so what is read
// is what lies in the folder, and no more.
const MaxFiles = 500

// Open reads every .yaml file below the root of fsys, in the order of their
// paths, then those of the setup's amendments, and compiles them. Everything
// wrong is reported in one [*Error].
func Open(fsys fs.FS, setup Setup) (*Book, error) {
	r := &reader{out: &written{}}
	var files []rulebook.File
	for _, layer := range append([]rulebook.Layer{{Label: setup.Label, FS: fsys}}, setup.Amendments...) {
		more, err := r.layer(layer)
		if err != nil {
			return nil, err
		}
		files = append(files, more...)
	}
	if r.unread {
		r.faults.Sort()
		return nil, &rulebook.Error{Faults: r.faults}
	}
	applied, faults := amend(r.out, r.amendments, setup.AsOf)
	faults = append(r.faults, faults...)
	book, more, err := compile(r.out, setup, files)
	if err != nil {
		return nil, err
	}
	faults = append(faults, more...)
	if len(faults) > 0 {
		faults.Sort()
		return nil, &rulebook.Error{Faults: faults}
	}
	for _, a := range applied {
		book.amendments = append(book.amendments, a.Amendment)
	}
	book.asOf = setup.AsOf
	if setup.Whole {
		return book, book.whole(setup.Label)
	}
	return book, nil
}

// whole reports a rulebook that could not be told from a wrong folder: one that
// lays no course, or refuses no job, or cautions of nothing.
func (b *Book) whole(label string) error {
	var faults diagnostic.List
	for _, each := range []struct {
		n            int
		code         diagnostic.Code
		what, wanted string
	}{
		{len(b.courses), codeNoCourse, "the rulebook has no course", "courses, or another folder: a section of nothing would be a depth of 0"},
		{len(b.refusals), codeNoRefusal, "the rulebook has no refusal", "refusals: no rulebook covers every job"},
		{len(b.cautions), codeNoCaution, "the rulebook has no caution", "cautions: what whoever builds the section must be told"},
	} {
		if each.n == 0 {
			faults.Addf(diagnostic.Place{File: path.Join(label, ".")}, each.code, "%s", each.what).Wanted = each.wanted
		}
	}
	if len(faults) > 0 {
		return &rulebook.Error{Faults: faults}
	}
	return nil
}

// layer reads the files of one folder.
func (r *reader) layer(l rulebook.Layer) ([]rulebook.File, error) {
	var names []string
	err := fs.WalkDir(l.FS, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && entry.Name() == rulebook.TrialsFolder {
			return fs.SkipDir // trials are kept beside the rules and are not rules
		}
		if !entry.IsDir() && path.Ext(name) == ".yaml" {
			names = append(names, name)
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("rulebook: %w", err)
	}
	slices.Sort(names)
	if len(names) == 0 {
		r.faults.Addf(diagnostic.Place{File: path.Join(l.Label, ".")}, codeNoFiles, "no rule file (.yaml) lies here")
	}
	if len(names) > MaxFiles {
		r.faults.Addf(diagnostic.Place{File: path.Join(l.Label, names[MaxFiles])}, codeManyFiles, "a folder of rules has at most %d files", MaxFiles)
		names = names[:0]
	}
	var files []rulebook.File
	for _, name := range names {
		data, err := fs.ReadFile(l.FS, name)
		if err != nil {
			return nil, fmt.Errorf("rulebook: %w", err)
		}
		sum := sha256.Sum256(data)
		shown := path.Join(l.Label, name)
		files = append(files, rulebook.File{Name: shown, SHA256: hex.EncodeToString(sum[:])})
		r.file(shown, data)
	}
	return files, nil
}
