package site

import (
	"reflect"

	"example.com/groundrule/pkg/internal/document"
)

// field declares one entry of a job file that fills a part of S: how it is read,
// checked, written back and given to the rule language.
type field[S any] struct {
	key   string
	about string
	// reads says what may be written there, such as "length, such as 6 in".
	reads    string
	required bool
	// input is the name in the rule language, "" for what rules do not read.
	input string

	// kids makes the field a group of others; all but key and about is then
	// empty.
	kids []field[S]
	// items documents the entries of each item of a list.
	items []Field

	// read reads the node into s, or reports why not.
	read func(r *report, n *document.Node, path string, s *S)
	// check reports what is wrong with the value that s holds. It is not called
	// for what is missing; a zero that was written is checked like any value.
	check func(r *report, path string, s *S)
	// write gives what is to be written, false if nothing is known.
	write func(s *S) (item, bool)
	// value gives the value that s holds, of the Go type kind, false if none.
	value func(s *S) (any, bool)
	kind  reflect.Type
}

// in returns the field a name in the rule language.
func (f field[S]) in(input string) field[S] {
	f.input = input
	return f
}

// need makes the field one that may not be missing.
func (f field[S]) need() field[S] {
	f.required = true
	return f
}

// group is a field of fields.
func group[S any](key, about string, kids ...field[S]) field[S] {
	return field[S]{key: key, about: about, reads: "entries of its own", kids: kids}
}

// slot is where in S a value is kept.
type slot[S, V any] struct {
	get func(*S) (V, bool)
	set func(*S, V)
}

// optional is a slot that a nil pointer leaves empty.
func optional[S, V any](at func(*S) **V) slot[S, V] {
	return slot[S, V]{
		get: func(s *S) (v V, given bool) {
			if p := *at(s); p != nil {
				return *p, true
			}
			return v, false
		},
		set: func(s *S, v V) { *at(s) = &v },
	}
}

// filled is a slot that the zero value leaves empty.
func filled[S any, V comparable](at func(*S) *V) slot[S, V] {
	return slot[S, V]{
		get: func(s *S) (V, bool) { var zero V; return *at(s), *at(s) != zero },
		set: func(s *S, v V) { *at(s) = v },
	}
}

// always is a slot that is never empty.
func always[S, V any](at func(*S) *V) slot[S, V] {
	return slot[S, V]{
		get: func(s *S) (V, bool) { return *at(s), true },
		set: func(s *S, v V) { *at(s) = v },
	}
}

// keep fills in what every field with a slot has alike: reading by parse,
// checking by verify, writing by text.
func keep[S, V any](f field[S], in slot[S, V],
	parse func(r *report, n *document.Node, path string) (V, bool),
	verify func(r *report, path string, v V),
	text func(V) string,
) field[S] {
	f.kind = reflect.TypeFor[V]()
	f.read = func(r *report, n *document.Node, path string, s *S) {
		if v, ok := parse(r, n, path); ok {
			in.set(s, v)
		} else {
			r.failed[path] = true
		}
	}
	f.check = func(r *report, path string, s *S) {
		v, _ := in.get(s)
		verify(r, path, v)
	}
	f.write = func(s *S) (item, bool) {
		v, given := in.get(s)
		if !given {
			return item{}, false
		}
		return item{text: text(v)}, true
	}
	f.value = func(s *S) (any, bool) {
		v, given := in.get(s)
		return v, given
	}
	return f
}

// readFields reads a mapping strictly into s.
func readFields[S any](r *report, n *document.Node, what, path string, fields []field[S], s *S) {
	e := n.Entry(what, &r.faults)
	if n.Shape() != document.Mapping {
		r.failed[path] = true
		return
	}
	for _, f := range fields {
		at := join(path, f.key)
		v := e.Get(f.key)
		switch {
		case v == nil && f.required:
			d := r.add(fault{path: at, code: document.CodeMissingKey, says: "is missing", want: f.reads})
			if key := e.Key(f.key); key != nil {
				d.Place = key.Place()
			}
		case v == nil:
		case f.kids != nil:
			r.nodes[at] = v
			readFields(r, v, f.key, at, f.kids, s)
		default:
			r.nodes[at] = v
			f.read(r, v, at, s)
		}
	}
	e.Done()
}

// checkFields checks every value of s that has not been reported already.
func checkFields[S any](r *report, path string, fields []field[S], s *S) {
	for _, f := range fields {
		at := join(path, f.key)
		switch {
		case f.kids != nil:
			checkFields(r, at, f.kids, s)
		case r.failed[at]:
		default:
			_, given := f.value(s)
			if given || r.nodes[at] != nil {
				f.check(r, at, s)
			}
			if !given && f.required && !r.failed[at] {
				r.add(fault{path: at, code: document.CodeMissingKey, says: "is missing", want: f.reads})
			}
		}
	}
}

// writeFields returns the items to write, in the order of the table.
func writeFields[S any](fields []field[S], s *S) []item {
	var out []item
	for _, f := range fields {
		if f.kids != nil {
			if kids := writeFields(f.kids, s); len(kids) > 0 {
				out = append(out, item{key: f.key, kids: kids})
			}
			continue
		}
		if it, given := f.write(s); given {
			it.key = f.key
			out = append(out, it)
		}
	}
	return out
}

// walk visits every field that is not a group, with its path.
func walk[S any](path string, fields []field[S], visit func(path string, f field[S])) {
	for _, f := range fields {
		if f.kids != nil {
			walk(join(path, f.key), f.kids, visit)
			continue
		}
		visit(join(path, f.key), f)
	}
}
