package engine

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

// builtIn is where names stand that no rule file declares.
var builtIn = diagnostic.Place{File: "the library"}

// placeOf returns where a node stands; a nil node stands in no rule file.
func placeOf(n *document.Node) diagnostic.Place {
	if n == nil {
		return builtIn
	}
	return n.Place()
}

// fault adds what is wrong with a node, marked under all of it. Of the names the
// one nearest to what was found is offered.
func fault(list *diagnostic.List, n *document.Node, code diagnostic.Code, message, found, wanted string, names ...string) *diagnostic.Diagnostic {
	d := &diagnostic.Diagnostic{Place: placeOf(n), Width: n.Width(), Code: code, Message: message, Found: found, Wanted: wanted,
		Nearest: diagnostic.Nearest(found, names)}
	list.Add(d)
	return d
}

// twice adds that something is there already, with where it stands first.
func twice(list *diagnostic.List, n, first *document.Node, message, found, wanted, there string) {
	d := fault(list, n, CodeTwice, message, found, wanted)
	d.Related = []diagnostic.Related{{Place: placeOf(first), Message: there}}
}

func namesIn[T any](list []T, name func(T) string) []string {
	out := make([]string, len(list))
	for i, each := range list {
		out[i] = name(each)
	}
	return out
}
