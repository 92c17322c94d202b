package engine

import (
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/value"
)

// word reads a word with its label alone, or with its label and all else.
func (r *reader) word(n *entry) *wordEntry {
	w := &wordEntry{entry: n}
	if n.node.Shape() == document.Scalar {
		w.label = n.node.Text()
	} else {
		e := r.open(n, "a word")
		e.Text("because")
		w.label, w.about, w.because, w.source, w.kind = e.NeedText("label"), e.Text("about"), e.Get("because"), e.Get("source"), e.Get("kind_of")
		r.calls(w, e)
		e.Done()
	}
	if w.label == "" {
		w.label = n.id()
	}
	return w
}

// calls reads what else a word is called: by rules and jobs, by jobs alone, and by
// people whom that leaves asking.
func (r *reader) calls(w *wordEntry, e *document.Entry) {
	w.inJobs, w.also = e.Text("in_jobs"), e.Items("also")
	w.loosely = namesIn(e.Items("loosely"), (*document.Node).Text)
	for _, n := range w.also {
		r.named(n)
	}
	for _, n := range e.Items("loosely") {
		if strings.TrimSpace(n.Text()) == "" {
			fault(&r.faults, n, codeSentence, "nothing is written here", "", "what people say")
		}
	}
}

func (r *reader) material(n *entry) *wordEntry {
	e := r.open(n, "a "+strings.ReplaceAll(string(n.sort), "_", " "))
	m := &wordEntry{entry: n, in: ofJobs[n.sort]}
	if n.sort == materialSort {
		m.kind, m.in = e.Get("kind"), value.Kind(e.NeedText("kind"))
	} else {
		r.calls(m, e)
	}
	e.NeedText("because")
	m.label, m.about, m.because, m.source = e.NeedText("label"), e.Text("about"), e.Get("because"), e.Need("source")
	m.properties = r.fields(e.Get("properties"), "the properties")
	e.Done()
	return m
}
