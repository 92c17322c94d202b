package site

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/quantity"
)

// report gathers what is wrong. Its nodes say where each path was written; a
// site built in Go has none.
type report struct {
	limits Limits
	table  *Table // by which a job is read
	faults diagnostic.List
	nodes  map[string]*document.Node
	// failed holds the paths already reported, whose value is not to be
	// checked, or missed, a second time.
	failed map[string]bool
	// as is how a path is told.
	as func(path string) string
}

func newReport(l Limits) *report {
	return &report{limits: l.filled(), nodes: map[string]*document.Node{}, failed: map[string]bool{}, as: func(path string) string { return path }}
}

// fault is one thing wrong with a value.
type fault struct {
	code    diagnostic.Code
	says    string // follows the path in the message
	text    string // what was written, where no file holds it
	found   string // what was found, where no text was written there
	want    string
	nearest string
	near    []string // right names, of which the nearest is offered
	offset  int      // of the character at fault
	also    []string // paths that have a part in it
	// fits lists what the text could have meant, nil if nobody asks.
	fits func(text string) string
}

// longestShown is how many characters of a text a message shows, and how long a
// word may be for the nearest right one to be sought. mostSought is for how many
// faults it is sought, since that takes time.
const (
	longestShown = 40
	mostSought   = 200
)

// add reports a fault of the value at a path.
func (r *report) add(path string, f *fault) *diagnostic.Diagnostic {
	if f.code != CodeContradiction {
		r.failed[path] = true
	}
	told := r.as(path)
	d := r.faults.Addf(r.place(path), f.code, "%s", strings.TrimSpace(told+" "+f.says))
	d.Path, d.Found, d.Wanted, d.Nearest = told, f.found, f.want, f.nearest
	text := f.text
	if n := r.nodes[path]; n.Shape() == document.Scalar {
		text = n.Text()
		d.Found, d.Width = shown(text), n.Width()
		if f.offset > 0 {
			d.Place, d.Width = n.At(f.offset), 1
		}
	}
	if f.fits != nil && f.fits(text) != "" {
		d.Wanted += "; in this range would be " + f.fits(text)
	}
	if d.Nearest == "" {
		d.Nearest = r.nearest(text, f.near)
	}
	for _, other := range f.also {
		d.Related = append(d.Related, diagnostic.Related{Place: r.place(other), Path: r.as(other), Message: "see " + r.as(other)})
	}
	return d
}

// text reads and checks a value that no file holds, and reports what is wrong with it.
func (r *report) text(f *Field, path, text string) (any, bool) {
	x, wrong := f.parse(text)
	if wrong == nil {
		wrong = f.verify(x)
	}
	if wrong != nil {
		wrong.found, wrong.text = shown(text), text
		r.add(path, wrong)
	}
	return x, wrong == nil
}

// verify reports an impossible value.
func (r *report) verify(f *Field, path string, x any) bool {
	wrong := f.verify(x)
	if wrong != nil {
		r.add(path, wrong)
	}
	return wrong == nil
}

// fitting lists what a text could have meant whose number is out of range in the unit
// that it has, and not in others.
func (f *Field) fitting(text string) string {
	var out []string
	number := strings.TrimSpace(text[:len(text)-len(strings.TrimLeft(text, "0123456789., "))])
	for _, unit := range f.confused {
		if q, err := quantity.ParseAs(f.Dim, number+" "+unit); err == nil && f.holds(q.SI) {
			out = append(out, number+" "+unit)
		}
	}
	return strings.Join(out, " or ")
}

// nearest returns the nearest right name to a text short enough to be a name.
func (r *report) nearest(text string, names []string) string {
	if len(r.faults) > mostSought || utf8.RuneCountInString(text) > longestShown {
		return ""
	}
	return diagnostic.Nearest(text, names)
}

// shown cuts a text so that it fits a message.
func shown(text string) string {
	if runes := []rune(text); len(runes) > longestShown {
		return fmt.Sprintf("%q ...", string(runes[:longestShown]))
	}
	return fmt.Sprintf("%q", text)
}

// sound reports whether none of the paths has been reported.
func (r *report) sound(paths ...string) bool {
	for _, p := range paths {
		if r.failed[p] {
			return false
		}
	}
	return true
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

// err returns what is wrong as an [*Error], or nil.
func (r *report) err() error {
	if len(r.faults) == 0 {
		return nil
	}
	r.faults.Sort()
	e := &Error{Faults: r.faults}
	if most := r.limits.Faults; len(e.Faults) > most {
		e.Faults, e.More = e.Faults[:most:most], len(e.Faults)-most
	}
	return e
}

// parent of "soil.sieves[2].passing" is "soil.sieves[2]", and so on up to "".
func parent(path string) string { return path[:max(0, strings.LastIndexAny(path, ".["))] }

func join(path, key string) string { return strings.TrimPrefix(path+"."+key, ".") }

func index(path string, i int) string { return fmt.Sprintf("%s[%d]", path, i) }
