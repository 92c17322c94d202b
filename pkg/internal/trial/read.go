package trial

import (
	"example.com/groundrule/pkg/internal/document"
)

func (r *reader) expect(n *document.Node) expect {
	e := n.Entry("what is expected", &r.faults)
	out := expect{at: n.Place(), status: r.single(e, "status"),
		answers: r.pairs(e.Get("answers"), "the answers"),
		between: r.pairs(e.Get("between"), "the answers between limits"),
		rules:   r.pairs(e.Get("rules"), "the rules"),
		held:    r.names(e, "held"), unasked: r.names(e, "unasked"), confirm: r.names(e, "confirm"),
		failed: r.names(e, "failed"), fails: r.names(e, "fails"), holds: r.names(e, "holds"), idle: r.names(e, "idle"),
		cautions: r.names(e, "cautions"), without: r.names(e, "without"), refusals: r.names(e, "refusals")}
	if courses := e.Get("courses"); courses != nil {
		c := courses.Entry("the courses", &r.faults)
		out.present, out.absent, out.ordered = r.names(c, "present"), r.names(c, "absent"), r.names(c, "from_bottom")
		c.Done()
	}
	if len(n.Fields()) == 0 && n.Shape() == document.Mapping {
		d := r.faults.Addf(n.Place(), CodeNothing, "nothing is expected")
		d.Wanted = "a status, answers, rules, checks or courses"
	}
	e.Done()
	return out
}

// single returns the scalar under a key, nil if absent.
func (r *reader) single(e *document.Entry, key string) *document.Node {
	if e.Text(key) == "" {
		return nil
	}
	return e.Get(key)
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

// names returns a list of names.
func (r *reader) names(e *document.Entry, key string) names {
	n := e.Get(key)
	if n == nil {
		return names{}
	}
	out := names{given: true, at: n}
	for _, item := range e.Items(key) {
		if item.Shape() != document.Scalar {
			d := r.faults.Addf(item.Place(), document.CodeNotSingle, "a name under %q is a single value", key)
			d.Found, d.Wanted = item.Shape().String(), "a name"
			continue
		}
		out.items = append(out.items, item)
	}
	return out
}
