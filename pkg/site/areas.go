package site

import (
	"reflect"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/document"
)

// The keys under which the areas and the alternatives of a job stand.
const (
	areasKey        = "areas"
	alternativesKey = "alternatives"
)

// partKeys are the keys of lists of what is a job with something otherwise, and
// partNames what each of them is called.
var (
	partKeys  = []string{areasKey, alternativesKey}
	partNames = map[string]string{areasKey: "area", alternativesKey: "alternative"}
)

// under returns what stands under one of these.
func (s *Site) under(key string) []Site {
	if key == areasKey {
		return s.Areas
	}
	return s.Alternatives
}

// ofPart returns the fields of an area or an alternative: its name, and every field of
// the job that may differ in it.
func ofPart(job []*Field, what string) []*Field {
	out := []*Field{{key: "name", at: of(func(s *Site) any { return &s.Job }), Required: true, Example: "front walk", Label: "Name", About: "name of the " + what}}
	for _, f := range cloned(job) {
		if !f.WholeJob {
			f.Required, f.Unless = false, nil
			out = append(out, f)
		}
	}
	return out
}

// Parts returns the areas of a job, each as a whole job of its own: what the area
// says, and for the rest what the job says. The name of the area stands behind that
// of the job. A list that an area gives takes the place of the job's, and so does a
// value that cannot stand beside one of the job's. Of a job without areas it returns
// the job.
func (s *Site) Parts() []*Site {
	if s == nil || len(s.Areas) == 0 {
		return []*Site{s}
	}
	return s.parts(areasKey)
}

// Otherwise returns the alternatives of a job of one area, each as a whole job of its
// own, as [Site.Parts] does the areas.
func (s *Site) Otherwise() []*Site { return s.parts(alternativesKey) }

func (s *Site) parts(key string) []*Site {
	out := make([]*Site, len(s.under(key)))
	for i := range out {
		out[i] = s.part(key, i)
	}
	return out
}

func (s *Site) part(key string, at int) *Site {
	whole := *s
	if whole.Areas = nil; key == alternativesKey {
		whole.Alternatives = nil
	}
	out, area := deep.Copy(&whole), deep.Copy(&s.under(key)[at])
	if out.Job != "" {
		out.Job += ", "
	}
	out.Job += area.Job
	out.nodes = nodesOf(s.nodes, key, at)
	table := s.fields()
	tells := func(path string) bool { return !table.byPath[path].WholeJob && area.tells(table.byPath[path]) }
	walk(table.fields, func(f *Field) {
		if !tells(f.Path) {
			if slices.ContainsFunc(f.Contradictions, func(c Contradiction) bool { return c.Is == "" && tells(c.With) }) {
				f.clear(out)
			}
			return
		}
		reflect.ValueOf(f.at(out)).Elem().Set(reflect.ValueOf(f.at(area)).Elem())
		for _, c := range f.Contradictions {
			if c.Is == "" && !tells(c.With) {
				table.byPath[c.With].clear(out)
			}
		}
	})
	if key == areasKey {
		out.Part = area.Job
		for other, area := range s.Areas {
			if length := s.along(other, at); length > 0 && s.along(at, other) == 0 { // that one alone says that they meet
				out.Edges = append(out.Edges, Edge{Joins: area.Job, Length: &length})
			}
		}
	}
	return out
}

// tells reports whether a job, or an area, gives the value of a field itself.
func (s *Site) tells(f *Field) bool {
	_, given := f.get(s)
	return given
}

// nodesOf returns the nodes of one area as those of a job of its own, over those of
// the rest of the job.
func nodesOf(nodes map[string]*document.Node, key string, at int) map[string]*document.Node {
	out := map[string]*document.Node{}
	for path, n := range nodes {
		if !inPart(path) {
			out[path] = n
		}
	}
	within := index(key, at)
	out[""] = nodes[within]
	for path, n := range nodes {
		if own, in := strings.CutPrefix(path, within+"."); in {
			out[own] = n
		}
	}
	return out
}

// inPart reports whether a path lies within an area or an alternative.
func inPart(path string) bool {
	return slices.ContainsFunc(partKeys, func(key string) bool { return strings.HasPrefix(path, key) })
}

// parts checks each area and each alternative as a job of its own, and reports names
// that are given twice and what can be said of the whole job alone. Alternatives of a
// job of several areas are looked at in each area.
func (r *report) parts(s *Site) {
	r.partsOf(s, areasKey)
	r.joins(s)
	if len(s.Areas) == 0 {
		r.partsOf(s, alternativesKey)
	}
}

func (r *report) partsOf(s *Site, key string) {
	names := map[string]string{}
	for i := range s.under(key) {
		area, within := &s.under(key)[i], index(key, i)
		for _, f := range s.fields().fields {
			if f.WholeJob && f.at != nil && f.key != "job" && area.tells(f) {
				r.add(join(within, f.key), &fault{code: document.CodeUnknownKey, says: "is said of the whole job, not of one " + partNames[key]})
			}
		}
		name := join(within, "name")
		if first, again := names[plain(area.Job)]; again && r.sound(name) {
			r.add(name, &fault{code: CodeRepeated, says: "is the name of another " + partNames[key], found: shown(area.Job), want: "a name for each " + partNames[key], also: []string{first}})
		}
		names[plain(area.Job)] = name
		r.part(s, key, i)
	}
}

// part checks one area as a job of its own. What is wrong with it is told of the area,
// or of the job where that alone says it.
func (r *report) part(s *Site, key string, at int) {
	within, area, byPath := index(key, at), &s.under(key)[at], s.fields().byPath
	one := newReport(r.limits)
	one.nodes = nodesOf(r.nodes, key, at)
	one.as = func(path string) string {
		top, _, _ := strings.Cut(path, "[")
		if f := byPath[top]; f != nil && !area.tells(f) && s.tells(f) {
			return path
		}
		return join(within, path)
	}
	for path := range r.failed {
		if own, in := strings.CutPrefix(path, within+"."); in || !inPart(path) {
			one.failed[own] = true
		}
	}
	one.check(s.part(key, at))
	for _, d := range one.faults {
		if !slices.ContainsFunc(r.faults, func(e *diagnostic.Diagnostic) bool { return e.Path == d.Path && e.Message == d.Message }) {
			r.faults.Add(d)
		}
	}
}
