package site

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

// report gathers what is wrong. Its nodes say where each path was written; a
// site built in Go has none.
type report struct {
	faults diagnostic.List
	nodes  map[string]*document.Node
	// failed holds the paths already reported, whose value is not to be
	// checked, or missed, a second time.
	failed map[string]bool
}

// fault is one thing wrong, by the path of what is wrong.
type fault struct {
	path  string
	code  diagnostic.Code
	says  string // follows the path in the message
	found string // what was found, where no text was written there
	want  string
	near  []string // right names, of which the nearest is offered
	also  []string // paths that have a part in it
}

// longestGuess is how long a word may be for the nearest right one to be sought.
const longestGuess = 40

func (r *report) add(f fault) *diagnostic.Diagnostic {
	if f.code != CodeContradiction {
		r.failed[f.path] = true
	}
	d := r.faults.Addf(r.place(f.path), f.code, "%s", strings.TrimSpace(f.path+" "+f.says))
	d.Path, d.Found, d.Wanted = f.path, f.found, f.want
	if text, ok := r.text(f.path); ok {
		d.Found = shown(text)
		d.Width = r.nodes[f.path].Width()
		d.Nearest = nearestOf(text, f.near)
	}
	for _, path := range f.also {
		if r.nodes == nil {
			break // the message names both already
		}
		d.Related = append(d.Related, diagnostic.Related{Place: r.place(path), Message: "see " + path})
	}
	return d
}

// nearestOf returns the nearest right name to a text short enough to be a name.
func nearestOf(text string, names []string) string {
	if utf8.RuneCountInString(text) > longestGuess {
		return ""
	}
	return diagnostic.Nearest(text, names)
}

// shown cuts a text so that it fits a message.
func shown(text string) string {
	if runes := []rune(text); len(runes) > longestGuess {
		return fmt.Sprintf("%q ...", string(runes[:longestGuess]))
	}
	return fmt.Sprintf("%q", text)
}

// text returns the scalar written at a path.
func (r *report) text(path string) (string, bool) {
	n := r.nodes[path]
	if n == nil || n.Shape() != document.Scalar {
		return "", false
	}
	return n.Text(), true
}

// place returns where the path, or what it stands in, was written.
func (r *report) place(path string) diagnostic.Place {
	for {
		if n := r.nodes[path]; n != nil {
			return n.Place()
		}
		if path == "" {
			return diagnostic.Place{}
		}
		path = parent(path)
	}
}

// parent of "soil.sieves[2].passing" is "soil.sieves[2]", and so on up to "".
func parent(path string) string {
	cut := strings.LastIndexAny(path, ".[")
	if cut < 0 {
		return ""
	}
	return path[:cut]
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

func index(path string, i int) string { return fmt.Sprintf("%s[%d]", path, i) }
