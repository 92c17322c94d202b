package site

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

// MostBytes is how large a job file may be.
const MostBytes = document.DefaultBytes

// Read reads a job file, in YAML or JSON. It is strict: an unknown key, a value
// without its unit, an impossible value and values that contradict each other
// are all faults, and all are reported in one run, each at its place. The error
// is an [*Error]; the size of the file is bounded by [document.Limits].
//
// file is only the name by which messages call it.
func Read(file string, data []byte) (*Site, error) {
	root, faults := document.Read(file, data, document.Limits{})
	r := &report{faults: faults, nodes: map[string]*document.Node{}, failed: map[string]bool{}}
	if root == nil {
		if len(r.faults) == 0 {
			r.faults.Addf(diagnostic.Place{File: file}, document.CodeMissingKey, "the job file is empty")
		}
		return nil, r.err()
	}
	r.nodes[""] = root
	s := &Site{nodes: r.nodes}
	readFields(r, root, "a job", "", table, s)
	for i := range s.Overrides {
		s.Overrides[i].Place = r.place(index("overrides", i))
	}
	check(r, s)
	if err := r.err(); err != nil {
		return nil, err
	}
	return s, nil
}

// err returns what is wrong as an [*Error], or nil.
func (r *report) err() error {
	if len(r.faults) == 0 {
		return nil
	}
	r.faults.Sort()
	return &Error{Faults: r.faults}
}

// PlaceOf returns where in the job file a value was written. The name is that of
// an input, or the path of a field, such as "soil.sieves[2].passing"; for an
// input that is worked out, the place is that of what it is worked out from. It
// is false for what was not written, and for a site that was built in Go.
func (s *Site) PlaceOf(name string) (diagnostic.Place, bool) {
	n := s.node(name)
	if n == nil {
		return diagnostic.Place{}, false
	}
	return n.Place(), true
}

// PlaceWithin is [Site.PlaceOf] for one character of what was written: that at
// runeOffset of the text, whatever quotes it stands in. It is for reporting a
// fault inside an answer such as "overrides[0].answer".
func (s *Site) PlaceWithin(name string, runeOffset int) (diagnostic.Place, bool) {
	n := s.node(name)
	if n == nil || n.Shape() != document.Scalar || runeOffset < 0 {
		return diagnostic.Place{}, false
	}
	return n.At(runeOffset), true
}

// node finds the node of an input or a path.
func (s *Site) node(name string) *document.Node {
	if s == nil || s.nodes == nil || name == "" {
		return nil
	}
	if in, ok := inputs().byName[name]; ok {
		for _, path := range in.from {
			if n := s.nodes[path]; n != nil {
				return n
			}
		}
		return nil
	}
	return s.nodes[name]
}
