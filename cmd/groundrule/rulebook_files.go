package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/rules"
)

// rulebookFiles name the folders of a rulebook: one of rules, "" for the
// standard rulebook, and those of the amendments laid over it, as of a day.
type rulebookFiles struct {
	rules string
	amend []string
	asOf  rulebook.Date
	// language of the texts, "" for that of the rulebook.
	language string
	// prefix goes before the names of the flags in messages.
	prefix string
}

func (f *rulebookFiles) setDay(text string) error {
	day, err := rulebook.ParseDate(text)
	if err != nil {
		return errors.New("a date such as 2026-03-01")
	}
	f.asOf = day
	return nil
}

// open opens the rulebook.
func (f *rulebookFiles) open() (*groundrule.Book, error) {
	layers, err := f.layers()
	if err != nil {
		return nil, err
	}
	var b *groundrule.Book
	if f.rules == "" && len(f.amend) == 0 && f.asOf.IsZero() && f.language == "" {
		b, err = groundrule.Standard()
	} else {
		b, err = groundrule.Open(layers[0].FS, groundrule.WithLabel(layers[0].Label), groundrule.WithAmendments(layers[1:]...), groundrule.AsOf(f.asOf), groundrule.Language(f.language))
	}
	if err != nil {
		return nil, &located{err: err, files: f}
	}
	return b, nil
}

// layers returns the folder of the rules and then those of the amendments.
func (f *rulebookFiles) layers() ([]rulebook.Layer, error) {
	out := []rulebook.Layer{{Label: rules.Label, FS: rules.Files()}}
	if f.rules != "" {
		if err := isFolder(f.rules); err != nil {
			return nil, fmt.Errorf("--%srules: %w", f.prefix, err)
		}
		out[0] = rulebook.Layer{Label: f.label(f.rules), FS: os.DirFS(f.rules)}
	}
	for _, dir := range f.amend {
		if err := isFolder(dir); err != nil {
			return nil, fmt.Errorf("--%samend: %w", f.prefix, err)
		}
		out = append(out, rulebook.Layer{Label: f.label(dir), FS: os.DirFS(dir)})
	}
	return out, nil
}

func isFolder(dir string) error {
	info, err := os.Stat(dir)
	switch {
	case err != nil:
		return cannot("folder", dir, err)
	case !info.IsDir():
		return fmt.Errorf("%s is a file, and a folder is needed", dir)
	}
	return nil
}

// label is how places call a folder: as the user wrote it, so that an editor
// finds the file. One whose files could be taken for those of the standard
// rulebook is called by its whole path.
func (f *rulebookFiles) label(dir string) string {
	clean := filepath.ToSlash(filepath.Clean(dir))
	if f.rules == "" && (clean == "." || clean == rules.Label || strings.HasPrefix(clean, rules.Label+"/")) {
		if whole, err := filepath.Abs(dir); err == nil {
			return filepath.ToSlash(whole)
		}
	}
	return clean
}

// text returns the text of a rule file by the name that places have for it.
func (f *rulebookFiles) text(name string) ([]byte, bool) {
	if f == nil {
		return nil, false
	}
	layers, err := f.layers()
	if err != nil {
		return nil, false
	}
	return textIn(layers, name)
}

// textIn returns the text of a file of some folders by the name that places have
// for it.
func textIn(layers []rulebook.Layer, name string) ([]byte, bool) {
	for _, l := range layers {
		below := name
		if l.Label != "." {
			var under bool
			if below, under = strings.CutPrefix(name, strings.TrimSuffix(l.Label, "/")+"/"); !under {
				continue
			}
		}
		// What was refused unread, as a pipe or too large, is not read to be quoted.
		if info, err := fs.Stat(l.FS, below); err != nil || !info.Mode().IsRegular() || info.Size() > site.MostBytes {
			continue
		}
		if data, err := fs.ReadFile(l.FS, below); err == nil {
			return data, true
		}
	}
	return nil, false
}
