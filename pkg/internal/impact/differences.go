package impact

import (
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/value"
)

func byID(all []*entry) map[string]*entry {
	out := map[string]*entry{}
	for _, e := range all {
		out[e.id()] = e
	}
	return out
}

// differences lists what was edited between the entries of two rulebooks: added,
// removed or changed, and the order of rules, courses and steps. Of each sort those
// that are in the later rulebook come first, in its order, then those that were
// removed. The names of files and the places of entries in them are not compared.
func differences(old, now []*entry) []Edit {
	was, is := byID(old), byID(now)
	var out []Edit
	for _, one := range differ.Either(now, old, func(e *entry) string { return string(e.sort) }) {
		sort := one.sort
		for _, e := range now {
			if e.sort != sort {
				continue
			}
			if first := was[e.id()]; first == nil {
				out = append(out, Edit{ID: e.id(), Entry: sort, Name: e.name, In: e.in, Done: Added, After: placed(e.place)})
			} else if edit, changed := changes(first, e); changed {
				out = append(out, edit)
			}
		}
		for _, e := range old {
			if e.sort == sort && is[e.id()] == nil {
				out = append(out, Edit{ID: e.id(), Entry: sort, Name: e.name, In: e.in, Done: Removed, Before: placed(e.place)})
			}
		}
	}
	for _, each := range []struct {
		name string
		sort Entry
	}{{"courses", "course"}, {"steps", "step"}} {
		if order, changed := orderOf("order of "+each.name, names(old, each.sort), names(now, each.sort)); changed {
			out = append(out, Edit{ID: "order of " + each.name, Entry: OrderEntry, Name: each.name, Done: Changed, Fields: []Field{order}})
		}
	}
	return out
}

// placed returns nil for an entry that has no place in a file.
func placed(p diagnostic.Place) *diagnostic.Place {
	if p.File == "" {
		return nil
	}
	return &p
}

func names(all []*entry, sort Entry) []string {
	var out []string
	for _, e := range all {
		if e.sort == sort {
			out = append(out, e.name)
		}
	}
	return out
}

// changes returns the edit of an entry that is in both.
func changes(was, is *entry) (Edit, bool) {
	out := Edit{ID: is.id(), Entry: is.sort, Name: is.name, In: is.in, Done: Changed, Before: placed(was.place), After: placed(is.place), WordsOnly: true}
	for _, p := range differ.Either(is.parts, was.parts, func(p part) string { return p.name }) {
		a, b := was.part(p.name), is.part(p.name)
		if a.same(b) {
			continue
		}
		f := Field{Name: p.name, Before: a.shown(), After: b.shown(), Bears: a.bears || b.bears}
		if f.Before == f.After {
			f.Before, f.After = precisely(a.value), precisely(b.value)
		}
		out.Fields = append(out.Fields, f)
	}
	if order, changed := orderOf("order of rules", was.rules, is.rules); changed {
		out.Fields = append(out.Fields, order)
	}
	for _, f := range out.Fields {
		out.WordsOnly = out.WordsOnly && !f.Bears
	}
	return out, len(out.Fields) > 0
}

// precisely tells apart two values that read the same.
func precisely(v value.Value) string {
	if q, ok := v.Quantity(); ok {
		if x, err := q.In(q.Dim.BaseUnit()); err == nil {
			return fmt.Sprintf("%v %s", x, q.Dim.BaseUnit())
		}
	}
	return fmt.Sprint(v.Data())
}

// orderOf compares the order of what is in both.
func orderOf(name string, was, is []string) (Field, bool) {
	common := func(of, in []string) []string {
		return slices.DeleteFunc(slices.Clone(of), func(n string) bool { return !slices.Contains(in, n) })
	}
	a, b := common(was, is), common(is, was)
	return Field{Name: name, Before: strings.Join(a, ", "), After: strings.Join(b, ", "), Bears: true}, !slices.Equal(a, b)
}
