package site

import (
	"reflect"
	"slices"
	"strings"
	"sync"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/jobnode"
	"example.com/groundrule/pkg/value"
)

// Table is the table of a job's fields with the words that may stand in them.
// [Read], [Check] and what else this package does without a table leave the words
// of rulebooks open: any text will do. A rulebook has a table of its own, closed by
// its words. A Table is immutable and safe for use from many goroutines at once; a nil
// one is open.
type Table struct {
	fields []*Field
	byPath map[string]*Field // those that are no groups
	meets  *Field            // what an edge meets
	// inputs are what rules read, and order lists them.
	inputs map[string]*Field
	order  []*Field
}

// NewTable closes the table of fields by the words of some vocabularies, and by the
// questions of a company: fields whose paths are company.NAME, of words, flags,
// numbers and quantities.
func NewTable(words []value.Vocabulary, questions []Field) *Table {
	return newTable(words, questions, false)
}

// asked are the fields of questions.
func asked(questions []Field) (out []*Field) {
	for _, q := range questions {
		q.key, q.question, q.Rules = strings.TrimPrefix(q.Path, jobnode.Company+"."), true, true
		if q.Form == WordForm {
			q.words = q.Vocabulary.Name
		}
		out = append(out, &q)
	}
	return out
}

// newTable makes a table; in an open one any answers to a company may stand.
func newTable(words []value.Vocabulary, questions []Field, isOpen bool) *Table {
	t := &Table{fields: cloned(rows), byPath: map[string]*Field{}, inputs: map[string]*Field{}}
	for _, f := range t.fields {
		if slices.Contains(partKeys, f.key) {
			f.kids = ofPart(t.fields, partNames[f.key])
		}
	}
	complete(t.fields, "", &Site{})
	at := slices.IndexFunc(t.fields, func(f *Field) bool { return f.key == jobnode.Company })
	switch row := t.fields[at]; {
	case len(questions) > 0:
		t.fields[at] = &Field{key: row.key, Path: row.Path, Label: row.Label, About: row.About, Form: GroupForm, kids: asked(questions)}
	case !isOpen:
		t.fields = slices.Delete(t.fields, at, at+1)
	}
	every(t.fields, func(f *Field) {
		for _, v := range words {
			if v.Name == f.words {
				f.Vocabulary = v
			}
		}
		if f.words == edgeKinds {
			t.meets = f
		}
	})
	walk(t.fields, func(f *Field) {
		t.byPath[f.Path] = f
		if f.Rules {
			t.order = append(t.order, f)
		}
	})
	t.order = append(t.order, derived...)
	for _, f := range t.order {
		t.inputs[f.Path] = f
	}
	return t
}

func cloned(fields []*Field) []*Field {
	out := make([]*Field, len(fields))
	for i, f := range fields {
		one := *f
		one.kids = cloned(f.kids)
		out[i] = &one
	}
	return out
}

// open is the table whose words are open.
var open = sync.OnceValue(func() *Table { return newTable(nil, nil, true) })

// fields is the table by which a site is read, checked and written.
func (s *Site) fields() *Table {
	if s == nil {
		return open()
	}
	return s.table.orOpen()
}

// orOpen is the table, and the open one in place of none.
func (t *Table) orOpen() *Table {
	if t == nil {
		return open()
	}
	return t
}

// Fields lists every field of a job file in the order of the file, from the
// table that reading, checking and writing follow. Groups and lists come before
// what stands in them. Of what stands in an area its name alone is listed: the
// other keys are those of the job.
func (t *Table) Fields() []Field { return listed(nil, t.orOpen().fields) }

func listed(out []Field, fields []*Field) []Field {
	for _, f := range fields {
		out = append(out, f.copied())
		if slices.Contains(partKeys, f.key) {
			out = append(out, f.kids[0].copied()) // the others are those of the job
			continue
		}
		out = listed(out, f.kids)
	}
	return out
}

// Inputs lists all that rules may read of a site: the fields that a job gives,
// and then those worked out from them.
func (t *Table) Inputs() []Field {
	var out []Field
	for _, f := range t.orOpen().order {
		out = append(out, f.copied())
	}
	return out
}

// Read is the function [Read] with the words of the table.
func (t *Table) Read(file string, data []byte) (*Site, error) { return Limits{}.read(t, file, data) }

// Check is the function [Check] with the words of the table.
func (t *Table) Check(path, text string) error { return (&Site{table: t}).Set(path, text) }

// Close returns a copy of a site that keeps to the table from here on, each word
// in its own spelling. The error is an [*Error] with what [Site.Validate] finds in
// it, at its place where the site was read from a file.
func (t *Table) Close(s *Site) (*Site, error) {
	if s == nil {
		return nil, s.Validate()
	}
	out := deep.Copy(s)
	out.table = t
	out.spell(out.fields().fields)
	for _, key := range partKeys {
		for i := range out.under(key) {
			out.under(key)[i].spell(out.fields().byPath[key].kids)
		}
	}
	r := newReport(Limits{})
	r.check(out)
	r.locate(s)
	return out, r.err()
}

// spell gives each word its own spelling.
func (s *Site) spell(fields []*Field) {
	walk(fields, func(f *Field) {
		if x, given := f.get(s); given && f.Form == WordForm {
			if word, wrong := f.parseWord(reflect.ValueOf(x).String()); wrong == nil {
				f.set(s, word)
			}
		}
	})
}

// locate gives faults the places at which their values were written.
func (r *report) locate(s *Site) {
	r.nodes = s.nodes
	for _, d := range r.faults {
		d.Place = s.at(r.place(d.Path))
		if n := s.nodes[d.Path]; n.Shape() == document.Scalar {
			d.Width = n.Width()
		}
		for i, other := range d.Related {
			d.Related[i].Place = s.at(r.place(other.Path))
		}
	}
}

// paths lists the paths of values that stand in no list of items.
func (t *Table) paths() []string {
	var out []string
	walk(t.fields, func(f *Field) {
		if f.Form != ListForm {
			out = append(out, f.Path)
		}
	})
	return slices.Clip(out)
}
