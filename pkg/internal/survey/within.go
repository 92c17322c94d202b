package survey

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/cells"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/value"
)

// Within narrows a survey. The zero Within narrows to nothing.
type Within struct {
	// Decisions names decisions, checks, cautions, courses and refusals;
	// Chapters names chapters. With both empty everything is asked about, else
	// what either names.
	Decisions, Chapters []string
	// Fixed holds inputs at a value, written as in a job file: base at "open",
	// frost.depth at "40 in". The value [NotTold] leaves an input untold.
	Fixed map[string]string
}

// NotTold fixes an input at not being told.
const NotTold = "not told"

// String says in words to what the survey is narrowed.
func (w Within) String() string {
	var parts []string
	if len(w.Decisions) > 0 {
		parts = append(parts, strings.Join(w.Decisions, ", "))
	}
	if len(w.Chapters) > 0 {
		parts = append(parts, "chapter "+strings.Join(w.Chapters, ", "))
	}
	for _, name := range slices.Sorted(maps.Keys(w.Fixed)) {
		parts = append(parts, name+" = "+w.Fixed[name])
	}
	return strings.Join(parts, "; ")
}

// scope is what a survey asks about.
type scope struct {
	subjects []*subject
	met      []*subject // whose conditions are met before, for the order of variables
	fixed    []fixedInput
}

type fixedInput struct {
	input string
	value value.Value // zero for not told
}

// narrow narrows some subjects, which are of a sort.
func narrow(b *engine.Book, w Within, all []*subject, sort string) (*scope, error) {
	out := &scope{}
	var names, chapters []string
	for _, s := range all {
		names = append(names, s.name)
	}
	for _, c := range b.Chapters() {
		chapters = append(chapters, c.Name)
	}
	if err := allThere(sort, w.Decisions, names); err != nil {
		return nil, err
	}
	if err := allThere("a chapter", w.Chapters, chapters); err != nil {
		return nil, err
	}
	for _, s := range all {
		everything := len(w.Decisions) == 0 && len(w.Chapters) == 0
		if everything || slices.Contains(w.Decisions, s.name) || slices.Contains(w.Chapters, s.chapter) {
			out.subjects = append(out.subjects, s)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(w.Fixed)) {
		f, err := fixedAt(b, name, w.Fixed[name])
		if err != nil {
			return nil, err
		}
		out.fixed = append(out.fixed, f)
	}
	return out, nil
}

func allThere(what string, wanted, names []string) error {
	for _, w := range wanted {
		if !slices.Contains(names, w) {
			return withinError("%q is not the name of %s%s", w, what, nearest(w, names))
		}
	}
	return nil
}

func nearest(name string, names []string) string {
	if near := diagnostic.Nearest(name, names); near != "" {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}

func withinError(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrWithin, fmt.Sprintf(format, args...))
}

func fixedAt(b *engine.Book, name, text string) (fixedInput, error) {
	var names []string
	for _, in := range b.Inputs() {
		names = append(names, in.Name)
		if in.Name != name {
			continue
		}
		if text == NotTold {
			if in.Required {
				return fixedInput{}, withinError("every job tells %s", name)
			}
			return fixedInput{input: name}, nil
		}
		v, fault := b.Literal(text, in.Kind)
		if fault != nil {
			return fixedInput{}, withinError("%s = %q: %v", name, text, fault)
		}
		return fixedInput{name, v}, nil
	}
	return fixedInput{}, withinError("%q is not an input%s", name, nearest(name, names))
}

// pinned finds the cell in which an input is held.
func (m *model) pinned(f fixedInput) (pin, error) {
	if f.value.IsZero() {
		return pin{input: f.input, cell: m.notTold(f.input)}, nil
	}
	cell, ok := m.cells[f.input].Of(f.value)
	if !ok {
		return pin{}, withinError("%s cannot be held at %s", f.input, cells.Text(f.value))
	}
	return pin{input: f.input, cell: cell, value: f.value}, nil
}
