package site

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

// ReadNode is [Read] for a job that stands inside another file. Each change is
// laid over the job and the changes before it, entry by entry: what it gives
// replaces what was there, a list as a whole, and what it leaves empty (null)
// takes away. Places are those in the file that the nodes came from.
//
// file is the name by which a missing job is reported. The error is an [*Error].
func ReadNode(file string, job *document.Node, changes ...*document.Node) (*Site, error) {
	r := &report{nodes: map[string]*document.Node{}, failed: map[string]bool{}}
	if job == nil {
		r.faults.Addf(diagnostic.Place{File: file}, document.CodeMissingKey, "the job is empty")
		return nil, r.err()
	}
	layers := []*document.Node{job}
	for _, each := range changes {
		if each != nil {
			layers = append(layers, each)
		}
	}
	r.nodes[""] = layers[len(layers)-1]
	s := &Site{nodes: r.nodes}
	readLayers(r, layers, "a job", "", table, s)
	for i := range s.Overrides {
		s.Overrides[i].Place = r.place(index("overrides", i))
	}
	check(r, s)
	if err := r.err(); err != nil {
		return nil, err
	}
	return s, nil
}

// readLayers is readFields for mappings that lie over each other.
func readLayers[S any](r *report, layers []*document.Node, what, path string, fields []field[S], s *S) {
	entries := make([]*document.Entry, len(layers))
	for i, layer := range layers {
		entries[i] = layer.Entry(what, &r.faults)
		if layer.Shape() != document.Mapping {
			r.failed[path] = true
		}
	}
	if r.failed[path] {
		return
	}
	for _, f := range fields {
		at := join(path, f.key)
		key, values := under(entries, f.key)
		switch {
		case len(values) == 0 && f.required:
			d := r.add(fault{path: at, code: document.CodeMissingKey, says: "is missing", want: f.reads})
			if key != nil {
				d.Place = key.Place()
			}
		case len(values) == 0:
		case f.kids != nil:
			r.nodes[at] = values[len(values)-1]
			readLayers(r, values, f.key, at, f.kids, s)
		default:
			v := values[len(values)-1]
			r.nodes[at] = v
			f.read(r, v, at, s)
		}
	}
	for _, e := range entries {
		e.Done()
	}
}

// under returns the values that the layers have under a key, from the lowest that
// still counts, and the topmost key.
func under(entries []*document.Entry, key string) (top *document.Node, values []*document.Node) {
	for _, e := range entries {
		v, k := e.Get(key), e.Key(key)
		switch {
		case v != nil:
			values = append(values, v)
		case k != nil:
			values = nil
		}
		if k != nil {
			top = k
		}
	}
	return top, values
}
