package sheet

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// Sheet says for whom the section of a job is written, and in which form.
type Sheet struct {
	// Of is page, crew, client, audit, full or all; "" is page.
	Of string
	// As is text, markdown, html or svg; "" is text.
	As string
	// System of units.
	System quantity.System
	// Columns of a text; 0 is 80.
	Columns int
	// Lines are the words of the sheets, as groundrule.Book.Lines returns them.
	Lines map[string]string
}

// ErrSheet is wrapped by the error of a sheet or a form that there is none of.
var ErrSheet = errors.New("not a sheet of this library")

// sheets are the sheets of one section: what each says of it, and the forms that the
// section must have been made with.
var sheets = map[string]struct {
	says  func(*leaf) []*paper.Block
	forms []section.Form
}{
	"page": {(*leaf).page, []section.Form{section.Questions}},
}

// forms write a sheet.
var forms = map[string]func(io.Writer, *paper.Block, int) error{
	"text": paper.WriteText,
}

// Forms lists the forms in which the sections of the sheet must have been made.
func (s Sheet) Forms() []section.Form { return slices.Clone(sheets[s.of()].forms) }

func (s Sheet) of() string {
	if s.Of == "" {
		return "page"
	}
	return s.Of
}

func (s Sheet) as() string {
	if s.As == "" {
		return "text"
	}
	return s.As
}

// Write writes the sheet of a job. The error is that of w, or it wraps [ErrSheet] if
// there is no such sheet or form, or no line for something that it says.
func (s Sheet) Write(w io.Writer, job *section.Areas) error {
	sheet, form := sheets[s.of()], forms[s.as()]
	if sheet.says == nil {
		return fmt.Errorf("%w: %q; wanted %s", ErrSheet, s.Of, strings.Join(slices.Sorted(maps.Keys(sheets)), ", "))
	}
	if form == nil {
		return fmt.Errorf("%w: the form %q; wanted %s", ErrSheet, s.As, strings.Join(slices.Sorted(maps.Keys(forms)), ", "))
	}
	whole := paper.Part("", "")
	missing := map[string]bool{}
	for _, each := range job.Sections {
		l := &leaf{Sheet: s, job: job, s: each, missing: missing}
		whole.Text = l.title()
		says := sheet.says(l)
		if each.Job.Part != "" {
			says = []*paper.Block{paper.Part(each.Job.Part, each.Job.Part, says...)}
		}
		whole.Add(says...)
	}
	if len(missing) > 0 {
		return fmt.Errorf("%w: there are no lines %s; give Lines as Book.Lines returns them", ErrSheet, strings.Join(slices.Sorted(maps.Keys(missing)), ", "))
	}
	return form(w, whole, s.Columns)
}

// leaf is a sheet of one section while it is made.
type leaf struct {
	Sheet
	job     *section.Areas
	s       *section.Section
	missing map[string]bool // lines that were wanted and are not there
}

// line returns a line of the rulebook with its holes filled: line("dig", "depth", x)
// fills {depth}.
func (l *leaf) line(name string, holes ...string) string {
	text, ok := l.Lines[name]
	if !ok {
		l.missing[name] = true
	}
	var fill []string
	for i := 0; i < len(holes); i += 2 {
		fill = append(fill, "{"+holes[i]+"}", holes[i+1])
	}
	return strings.NewReplacer(fill...).Replace(text)
}

// title is that of the whole sheet.
func (l *leaf) title() string { return l.s.Job.Name }
