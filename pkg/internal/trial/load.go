package trial

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/jobnode"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// The codes of what [Load] reports, beside those of packages document and site.
const (
	CodeTwice                   = engine.CodeTwice  // an id that another trial or case has
	CodeNothing diagnostic.Code = "expects-nothing" // a trial without anything to hold
	CodeJob     diagnostic.Code = "impossible-job"  // the job of a trial cannot be
)

// Load reads the trials of some folders: every .yaml or .yml file of the folder
// named trials, or of the folder itself if it has none, in the order of their
// names. A folder that is given twice is read once.
//
// The error is a [diagnostic.List] of everything that is wrong in the files;
// names of the rulebook are looked at by [Run], which has the rulebook.
func Load(folders ...rulebook.Layer) ([]Trial, error) {
	r := &reader{ids: map[string]diagnostic.Place{}}
	seen := map[string]bool{}
	for _, f := range folders {
		fsys, label := f.FS, path.Clean(f.Label)
		if info, err := fs.Stat(fsys, rulebook.TrialsFolder); err == nil && info.IsDir() {
			label = path.Join(label, rulebook.TrialsFolder)
			if fsys, err = fs.Sub(fsys, rulebook.TrialsFolder); err != nil {
				return nil, fmt.Errorf("the trials: %w", err)
			}
		}
		if seen[label] {
			continue
		}
		seen[label] = true
		if err := r.folder(label, fsys); err != nil {
			return nil, fmt.Errorf("the trials: %w", err)
		}
	}
	return r.out, once(r.faults).Err()
}

// reader reads trial files, gathering faults as it goes.
type reader struct {
	out    []Trial
	faults diagnostic.List
	ids    map[string]diagnostic.Place
}

func (r *reader) folder(label string, fsys fs.FS) error {
	names, err := document.Files(fsys, ".yaml", ".yml")
	if err != nil {
		return err
	}
	for _, name := range names {
		data, err := document.ReadFile(fsys, name, document.DefaultBytes)
		if err != nil {
			return err
		}
		r.file(path.Join(label, name), data)
	}
	return nil
}

func (r *reader) file(name string, data []byte) {
	root, faults := document.Read(name, data, document.Limits{})
	r.faults = append(r.faults, faults...)
	if root == nil {
		return // reported
	}
	e := root.Entry("a trial file", &r.faults)
	e.Text("about")
	e.Need("trials")
	for _, n := range e.Items("trials") {
		r.trial(name, n)
	}
	e.Done()
}

func (r *reader) trial(file string, n *document.Node) {
	e := n.Entry("a trial", &r.faults)
	t := Trial{ID: r.id(e, "trial", "", r.ids), Why: e.NeedText("why"), Place: n.Place()}
	job := e.Need("job")
	t.settings = r.pairs(e.Get("settings"), "the settings")
	own, cases := e.Get("expect"), e.Items("cases")
	if own == nil && len(cases) == 0 && n.Shape() == document.Mapping {
		d := r.faults.Addf(n.Place(), CodeNothing, "the trial expects nothing")
		d.Wanted = "expect, or cases that have one"
	}
	e.Done()
	if own != nil {
		one := t
		one.expect = r.expect(own)
		r.add(file, one, job)
	}
	ids := map[string]diagnostic.Place{}
	for _, each := range cases {
		r.oneCase(file, t, job, each, ids)
	}
}

func (r *reader) oneCase(file string, of Trial, job, n *document.Node, ids map[string]diagnostic.Place) {
	e := n.Entry("a case", &r.faults)
	t := of
	t.Case, t.Why, t.Place = r.id(e, "case", of.ID+"/", ids), e.NeedText("why"), n.Place()
	change := e.Get("change")
	t.settings = over(of.settings, r.pairs(e.Get("settings"), "the settings"))
	if own := e.Need("expect"); own != nil {
		t.expect = r.expect(own)
	}
	e.Done()
	r.add(file, t, job, change)
}

// id reads an id and reports one that is taken.
func (r *reader) id(e *document.Entry, key, before string, taken map[string]diagnostic.Place) string {
	id := e.NeedText(key)
	if id == "" {
		return ""
	}
	at := e.Get(key).Place()
	if first, twice := taken[id]; twice {
		d := r.faults.Addf(at, CodeTwice, "the %s %s%s is there already", key, before, id)
		d.Found, d.Width = id, len([]rune(id))
		d.Related = append(d.Related, diagnostic.Related{Place: first, Message: "it stands here first"})
		return id
	}
	taken[id] = at
	return id
}

// add reads the job of a trial and keeps the trial.
func (r *reader) add(file string, t Trial, job *document.Node, changes ...*document.Node) {
	if job == nil {
		return // reported
	}
	read, err := jobnode.Read(file, job, changes...)
	s, _ := read.(*site.Site)
	var bad *site.Error
	switch {
	case errors.As(err, &bad):
		r.faults = append(r.faults, bad.Faults...)
		return
	case err != nil:
		r.faults.Addf(t.Place, CodeJob, "%v", err)
		return
	}
	t.Job = s
	r.out = append(r.out, t)
}

// over lays settings over others.
func over(base, more []pair) []pair {
	out := slices.Clone(base)
	for _, p := range more {
		i := slices.IndexFunc(out, func(q pair) bool { return q.key.Text() == p.key.Text() })
		if i < 0 {
			out = append(out, p)
		} else {
			out[i] = p
		}
	}
	return out
}
