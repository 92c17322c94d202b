package site

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/jobnode"
)

// MostBytes is how large a job file may be.
const MostBytes = document.DefaultBytes

// Limits bound a job file, and what is said of it. A zero field takes the
// default, which is far above what a person writes.
type Limits struct {
	Bytes  int // of the file; 1 MiB
	Nodes  int // values, keys counted; 100,000
	Text   int // bytes of one text; 64 KiB
	Items  int // of one list; 1,000
	Faults int // that an [Error] lists; 50
}

const (
	mostItems  = 1000
	mostFaults = 50
)

func (l Limits) filled() Limits {
	if l.Items <= 0 {
		l.Items = mostItems
	}
	if l.Faults <= 0 {
		l.Faults = mostFaults
	}
	return l
}

// Read reads a job file, in YAML or JSON. It is strict: an unknown key, a value
// without its unit, an impossible value and values that contradict each other
// are all faults, and all are reported in one run, each at its place. The error
// is an [*Error]. What a file may hold is bounded by [Limits].
//
// file is only the name by which messages call it.
func Read(file string, data []byte) (*Site, error) { return Limits{}.Read(file, data) }

// Read is the function [Read] within these limits.
func (l Limits) Read(file string, data []byte) (*Site, error) { return l.read(nil, file, data) }

func (l Limits) read(t *Table, file string, data []byte) (*Site, error) {
	root, faults := document.Read(file, data, document.Limits{Bytes: l.Bytes, Nodes: l.Nodes, Text: l.Text})
	r := newReport(l)
	r.faults = faults
	if root == nil {
		return nil, r.err()
	}
	return r.job(t, root)
}

func init() {
	jobnode.Read = func(file string, job *document.Node, changes ...*document.Node) (any, error) {
		return readNode(file, job, changes...)
	}
	jobnode.Move = func(job any, to func(diagnostic.Place) diagnostic.Place) {
		s := job.(*Site)
		s.moved = to
		for _, part := range slices.Concat([]Site{*s}, s.Areas, s.Alternatives) {
			for i := range part.Overrides {
				part.Overrides[i].Place = to(part.Overrides[i].Place)
			}
		}
	}
}

// readNode is [Read] for a job that stands inside another file. Each change is
// laid over the job and the changes before it, entry by entry: what it gives
// replaces what was there, a list as a whole, and what it leaves empty (null)
// takes away. Places are those in the file that the nodes came from.
//
// file is the name by which a missing job is reported. The error is an [*Error].
func readNode(file string, job *document.Node, changes ...*document.Node) (*Site, error) {
	r := newReport(Limits{})
	if job == nil {
		r.faults.Addf(diagnostic.Place{File: file}, document.CodeMissingKey, "the job is empty")
		return nil, r.err()
	}
	layers := slices.DeleteFunc(changes, func(n *document.Node) bool { return n == nil })
	return r.job(nil, append([]*document.Node{job}, layers...)...)
}

// job reads and checks a job of layers that lie over each other, by a table, nil
// where words are open.
func (r *report) job(t *Table, layers ...*document.Node) (*Site, error) {
	s := &Site{table: t, nodes: r.nodes}
	r.table = s.fields()
	r.nodes[""] = layers[len(layers)-1]
	r.read("", "a job", r.table.fields, layers, s)
	s.place(r, "")
	for _, key := range partKeys {
		for i := range s.under(key) {
			s.under(key)[i].place(r, index(key, i))
		}
	}
	if !r.failed[""] {
		r.check(s)
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return s, nil
}

// place says where the overrides of a job, or of an area within it, were written.
func (s *Site) place(r *report, within string) {
	for i := range s.Overrides {
		s.Overrides[i].Place = r.place(join(within, index("overrides", i)))
	}
}

// read reads mappings that lie over each other into the struct that holds what
// their keys give.
func (r *report) read(path, what string, fields []*Field, layers []*document.Node, holder any) {
	for _, layer := range layers {
		r.keys(path, what, fields, layer)
	}
	if r.failed[path] {
		return
	}
	for _, f := range fields {
		at := join(path, f.key)
		values := under(layers, f.key)
		if len(values) == 0 {
			if f.Required && !slices.ContainsFunc(f.Unless, func(key string) bool { return len(under(layers, key)) > 0 }) {
				d := r.add(at, f.missing())
				if key := keyOf(layers, f.key); key != nil {
					d.Place = key.Place()
				}
			}
			continue
		}
		n := values[len(values)-1]
		r.nodes[at] = n
		if f.Form == GroupForm {
			r.read(at, f.key, f.kids, values, holder)
			continue
		}
		if f.Form == AnswersForm {
			r.answers(f, at, values, holder)
			continue
		}
		r.value(f, at, n, holder)
	}
}

// answers reads the answers to questions of a company, whichever these are.
func (r *report) answers(f *Field, path string, layers []*document.Node, holder any) {
	out := map[string]string{}
	for _, layer := range layers {
		if layer.Shape() != document.Mapping {
			r.nodes[path] = layer
			r.add(path, &fault{code: document.CodeNotMapping, says: "needs indented lines under it", found: layer.Shape().String(), want: f.Wanted()})
			return
		}
		for _, each := range layer.Fields() {
			at, name := join(path, each.Key.Text()), each.Key.Text()
			r.nodes[at] = each.Value
			if each.Value.Null() {
				delete(out, name)
				continue
			}
			if x, ok := r.scalar(&Field{Form: TextForm}, at, each.Value); ok {
				out[name] = x.(string)
			}
		}
	}
	f.set(holder, out)
}

func (f *Field) missing() *fault {
	return &fault{code: document.CodeMissingKey, says: "is missing", want: f.Wanted()}
}

// keys reports whatever is not a mapping, and every key that is not a field's.
func (r *report) keys(path, what string, fields []*Field, n *document.Node) {
	switch n.Shape() {
	case document.Mapping:
	case document.NoShape: // refused, and reported, when the file was read
		r.failed[path] = true
		return
	default:
		f := &fault{code: document.CodeNotMapping, says: "needs indented lines under it, such as " + suchAs(fields, n), found: n.Shape().String(), want: "keys with values"}
		if path == "" {
			f.says = what + " " + f.says
		}
		r.add(path, f).Place = n.Place()
		return
	}
	var known []string
	for _, f := range fields {
		known = append(known, f.key)
	}
	for _, field := range n.Fields() {
		key := field.Key.Text()
		if slices.Contains(known, key) {
			continue
		}
		d := r.faults.Addf(field.Key.Place(), document.CodeUnknownKey, "unknown key %s in %s", shown(key), what)
		d.Path, d.Width = join(path, key), field.Key.Width()
		d.Wanted = strings.Join(known[:len(known)-1], ", ") + " or " + known[len(known)-1]
		d.Nearest = r.nearestKey(key, known, fields)
	}
}

// nearestKey returns the key that was meant: one that this is another word for,
// one that is spelled nearly so, or the path of one that stands elsewhere.
func (r *report) nearestKey(key string, known []string, fields []*Field) string {
	if i := slices.IndexFunc(fields, func(f *Field) bool { return slices.Contains(f.keys, key) }); i >= 0 {
		return fields[i].key
	}
	if near := r.nearest(key, known); near != "" || len(r.faults) > mostSought {
		return near
	}
	return r.table.elsewhere(key)
}

// elsewhere returns the path of the first value whose key this is, or is another
// word for.
func (t *Table) elsewhere(key string) (path string) {
	walk(t.fields, func(f *Field) {
		if path == "" && (f.key == key || slices.Contains(f.keys, key)) {
			path = f.Path
		}
	})
	return path
}

var startsAsWord = regexp.MustCompile(`^\pL`)

// suchAs shows a line of a group: with the value that was written in the place
// of the group, if some key of it takes that.
func suchAs(fields []*Field, n *document.Node) string {
	first := fields[max(0, slices.IndexFunc(fields, func(f *Field) bool { return f.Required }))]
	line := "`" + first.key + ": " + first.Example + "`"
	if n.Shape() != document.Scalar {
		return line
	}
	for _, f := range fields {
		open := f.Form == WordForm && len(f.Vocabulary.Words) == 0 && !startsAsWord.MatchString(n.Text())
		if f.Form == GroupForm || f.Form == ListForm || f.Form == TextForm || f.Form == AnswersForm || open {
			continue
		}
		if _, wrong := f.parse(n.Text()); wrong == nil {
			return fmt.Sprintf("`%s: %s`", f.key, n.Text())
		}
	}
	return line
}

// value reads what stands under the key of a field.
func (r *report) value(f *Field, path string, n *document.Node, holder any) {
	items := n.Items()
	switch {
	case n.Shape() == document.NoShape:
		r.failed[path] = true
		return
	case (f.Form == ListForm || f.Form == NumbersForm) && !r.fits(path, len(items)):
		return
	case f.Form == ListForm && n.Shape() == document.Sequence:
		for i, each := range items {
			at := index(path, i)
			r.nodes[at] = each
			r.read(at, f.Item, f.kids, []*document.Node{each}, f.grow(holder))
		}
		return
	case f.Form == ListForm:
		r.add(path, &fault{code: document.CodeNotList, says: "takes a list", found: n.Shape().String(), want: f.Wanted()})
		return
	case f.Form == NumbersForm && n.Shape() == document.Sequence:
		r.numbers(f, path, items, holder)
		return
	}
	if x, ok := r.scalar(f, path, n); ok {
		if f.Form == NumbersForm {
			x = []float64{x.(float64)}
		}
		f.set(holder, x)
		if f.told != nil {
			f.told(holder.(*Site), n.Text())
		}
	}
}

// numbers reads a list of plain numbers.
func (r *report) numbers(f *Field, path string, items []*document.Node, holder any) {
	var out []float64
	for i, each := range items {
		at := index(path, i)
		r.nodes[at] = each
		x, ok := r.scalar(f, at, each)
		if ok {
			ok = r.verify(f, at, x)
			out = append(out, x.(float64))
		}
		r.failed[path] = r.failed[path] || !ok
	}
	if !r.failed[path] {
		f.set(holder, out)
	}
}

// scalar reads one value, and reports one that cannot be read.
func (r *report) scalar(f *Field, path string, n *document.Node) (any, bool) {
	if n.Shape() != document.Scalar {
		if n.Shape() != document.NoShape {
			r.add(path, &fault{code: document.CodeNotSingle, says: "takes a single value", found: n.Shape().String(), want: f.Wanted()})
		}
		r.failed[path] = true
		return nil, false
	}
	x, wrong := f.parse(n.Text())
	if wrong == nil && f.Whole {
		wrong = f.verify(x) // a fraction would be lost
	}
	if wrong != nil {
		r.add(path, wrong)
		return nil, false
	}
	return x, true
}

// under returns the values that the layers have under a key, from the lowest that
// still counts: one left empty takes away what was there.
func under(layers []*document.Node, key string) []*document.Node {
	var values []*document.Node
	for _, layer := range layers {
		for _, f := range layer.Fields() {
			switch {
			case f.Key.Text() != key:
			case f.Value.Null():
				values = nil
			default:
				values = append(values, f.Value)
			}
		}
	}
	return values
}

// keyOf returns the topmost node of a key itself, nil if no layer has it.
func keyOf(layers []*document.Node, key string) *document.Node {
	for _, layer := range slices.Backward(layers) {
		for _, f := range layer.Fields() {
			if f.Key.Text() == key {
				return f.Key
			}
		}
	}
	return nil
}

// PlaceOf returns where in the job file a value was written, by its path, such as
// "soil.sieves[2].passing", or that of the whole job with "". It is false for
// what was not written, and for a site that was built in Go.
func (s *Site) PlaceOf(path string) (diagnostic.Place, bool) {
	if s == nil || s.nodes[path] == nil {
		return diagnostic.Place{}, false
	}
	return s.at(s.nodes[path].Place()), true
}

// at is where a place of the file is for people.
func (s *Site) at(p diagnostic.Place) diagnostic.Place {
	if s.moved == nil {
		return p
	}
	return s.moved(p)
}

// PlaceWithin is [Site.PlaceOf] of one character of what was written, counted
// from 0.
func (s *Site) PlaceWithin(path string, offset int) (diagnostic.Place, bool) {
	if _, written := s.PlaceOf(path); !written {
		return diagnostic.Place{}, false
	}
	return s.at(s.nodes[path].At(offset)), true
}
