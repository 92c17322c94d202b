package engine

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Open reads every rule file (.yaml or .yml) below the root of fsys, in the order of their
// paths, then those of the setup's amendments, and compiles them. Everything
// wrong is reported in one [*rulebook.Error].
func Open(fsys fs.FS, setup Setup) (*Book, error) {
	setup.Limits = filled(setup.Limits)
	r := &reader{limits: setup.Limits}
	for i, layer := range append([]rulebook.Layer{{Label: setup.Label, FS: fsys}}, setup.Amendments...) {
		if err := r.layer(layer, i > 0); err != nil {
			return nil, err
		}
	}
	if r.unread {
		return nil, wrong(r.faults, setup.Limits.Faults)
	}
	r.builtIn = namesIn(setup.Vocabularies, func(v value.Vocabulary) string { return v.Name })
	amended := r.amend(setup.AsOf)
	texts, err := r.translate(amended.entries, setup)
	if err != nil {
		return nil, err
	}
	in := r.written(amended)
	book, more, err := compile(r, in, setup)
	if err != nil {
		return nil, err
	}
	book.texts = texts
	faults := slices.Concat(r.faults, amended.faults, more)
	if len(faults) == 0 {
		faults = book.unprinted()
	}
	if len(faults) == 0 {
		faults = unneeded(in)
	}
	if len(faults) > 0 {
		return nil, wrong(faults, setup.Limits.Faults)
	}
	for _, a := range amended.applied {
		book.amendments = append(book.amendments, a.Amendment)
	}
	for _, v := range amended.variances {
		if v.Retires != "" && v.used {
			book.variances = append(book.variances, v.Variance)
		}
	}
	book.asOf, book.idle = setup.AsOf, amended.idle
	if setup.Whole {
		if err := book.whole(setup.Label); err != nil {
			return nil, err
		}
	}
	return book, nil
}

// The usual limits.
const (
	mostFiles  = 500
	mostFaults = 50
)

func filled(l rulebook.Limits) rulebook.Limits {
	return rulebook.Limits{Files: cmp.Or(max(l.Files, 0), mostFiles), Bytes: cmp.Or(max(l.Bytes, 0), document.DefaultBytes), Faults: cmp.Or(max(l.Faults, 0), mostFaults)}
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
	return wrong(faults, len(faults))
}

// pricesFolder is the name of a folder of price lists.
const pricesFolder = "prices"

// layer reads the files of one folder. A folder of amendments may be empty.
func (r *reader) layer(l rulebook.Layer, amendments bool) error {
	names, err := document.Files(l.FS, ".yaml", ".yml")
	if err != nil {
		return r.unreadable(l, err)
	}
	names = slices.DeleteFunc(names, func(name string) bool { // trials and price lists are kept beside the rules and are not rules
		dirs := strings.Split(path.Dir(name), "/")
		return slices.Contains(dirs, rulebook.TrialsFolder) || slices.Contains(dirs, pricesFolder)
	})
	switch {
	case len(names) == 0 && !amendments:
		r.faults.Addf(diagnostic.Place{File: path.Join(l.Label, ".")}, codeNoFiles, "no rule file (.yaml) lies here")
	case len(names) > r.limits.Files:
		r.faults.Addf(diagnostic.Place{File: path.Join(l.Label, names[r.limits.Files])}, codeManyFiles, "a folder of rules has at most %d files", r.limits.Files)
		return nil
	}
	for _, name := range names {
		data, err := document.ReadFile(l.FS, name, r.limits.Bytes)
		if err != nil {
			if err = r.unreadable(l, err); err != nil {
				return err
			}
			continue
		}
		sum := sha256.Sum256(data)
		shown := path.Join(l.Label, name)
		r.files = append(r.files, rulebook.File{Name: shown, SHA256: hex.EncodeToString(sum[:])})
		r.file(shown, data, amendments)
	}
	return nil
}

// unreadable reports a file that cannot be read, at its place. What is wrong with
// the whole folder is an error.
func (r *reader) unreadable(l rulebook.Layer, err error) error {
	var at *fs.PathError
	if !errors.As(err, &at) {
		return fmt.Errorf("rulebook: %w", err)
	}
	shown := path.Join(l.Label, at.Path)
	if at.Path == "." {
		return fmt.Errorf("rulebook: %w", &fs.PathError{Op: at.Op, Path: shown, Err: at.Err})
	}
	r.faults.Addf(diagnostic.Place{File: shown}, codeUnreadable, "%v", at.Err)
	r.unread = true
	return nil
}

// wrong is the error of everything that is wrong, as much of it as is listed.
func wrong(faults diagnostic.List, most int) error {
	if len(faults) == 0 {
		return nil
	}
	faults.Sort()
	listed := faults[:min(most, len(faults))]
	return &rulebook.Error{Faults: slices.Clip(listed), More: len(faults) - len(listed)}
}
