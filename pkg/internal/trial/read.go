package trial

import (
	"example.com/groundrule/pkg/internal/document"
)

// The keys of the lists that a trial can expect, and of those under courses.
var (
	listKeys   = []string{"held", "not_held", "unasked", "confirm", "failed", "fails", "holds", "idle", "cautions", "steps", "tolerances", "stops", "options", "remedies", "client", "without", "refusals", "crossed"}
	courseKeys = []string{"present", "absent", "from_bottom"}
)

func (r *reader) expect(n *document.Node) expect {
	e := n.Entry("what is expected", &r.faults)
	out := expect{at: n.Place(), pairs: map[string][]pair{}, lists: map[string]names{}}
	for _, each := range pairings {
		out.pairs[each.key] = r.pairs(e.Get(each.key), each.what)
	}
	if e.Text("status") != "" {
		out.status = e.Get("status")
	}
	r.lists(out.lists, e, listKeys)
	if courses := e.Get("courses"); courses != nil {
		c := courses.Entry("the courses", &r.faults)
		r.lists(out.lists, c, courseKeys)
		c.Done()
	}
	if len(n.Fields()) == 0 && n.Shape() == document.Mapping {
		d := r.faults.Addf(n.Place(), CodeNothing, "nothing is expected")
		d.Wanted = "a status, answers, rules, checks or courses"
	}
	e.Done()
	return out
}

// pairs returns the entries of a mapping of names.
func (r *reader) pairs(n *document.Node, what string) []pair {
	switch n.Shape() {
	case document.NoShape:
		return nil
	case document.Mapping:
	default:
		d := r.faults.Addf(n.Place(), document.CodeNotMapping, "%s are written as names with values", what)
		d.Found, d.Wanted = n.Shape().String(), "a mapping"
		return nil
	}
	var out []pair
	for _, f := range n.Fields() {
		out = append(out, pair{f.Key, f.Value})
	}
	return out
}

// lists reads the lists of names under some keys.
func (r *reader) lists(into map[string]names, e *document.Entry, keys []string) {
	for _, key := range keys {
		if e.Get(key) == nil {
			continue
		}
		list := names{at: e.Get(key).Place()}
		for _, item := range e.Items(key) {
			if item.Shape() != document.Scalar {
				d := r.faults.Addf(item.Place(), document.CodeNotSingle, "a name under %q is a single value", key)
				d.Found, d.Wanted = item.Shape().String(), "a name"
				continue
			}
			list.items = append(list.items, item)
		}
		into[key] = list
	}
}
