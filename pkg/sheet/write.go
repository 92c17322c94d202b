// Package sheet shows a section to people: the crew that builds it, the client who pays
// for it, and whoever asks later why it was built so.
//
// A sheet shows only what is in the [section.Section]; it decides and calculates
// nothing. What a [Sheet] says stands in files named of_page.go, of_crew.go and so on,
// as blocks of paper before they have a form; its headings and fixed sentences are lines
// of the rulebook. Reasons, prices, options and what differs are pages of text of their
// own.
package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
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
	// Drawn says as what drawings show a course, as groundrule.Book.Drawn returns it.
	// Without it there are none.
	Drawn map[string]map[string]value.Value
	// Options are other ways to build each area of a job, area by area, each as it is first,
	// for the client's sheet; the sections of those that are refused must have been made with
	// [section.Client]. Costs are theirs by a price list, one for each, nil for one that has
	// none; without a list there are none.
	Options []section.Otherwise
	Costs   []*takeoff.Cost
}

// ErrSheet is wrapped by the error of a sheet or a form that there is none of.
var ErrSheet = errors.New("not a sheet of this library")

// sheets are the sheets of one section: what each says of it, and the forms that the
// section must have been made with.
var sheets = map[string]struct {
	says  func(*leaf) []*paper.Block
	forms []section.Form
	// joints is set for a sheet that ends with how areas join that meet.
	joints bool
	// ends is what the sheet says after all areas, nil if nothing.
	ends func(*leaf) []*paper.Block
}{
	"page":   {says: (*leaf).page, forms: []section.Form{section.Questions}, joints: true, ends: (*leaf).rest},
	"client": {says: (*leaf).client, forms: []section.Form{section.Client, section.Questions}, ends: (*leaf).clientEnds},
	"audit":  {says: (*leaf).audit, forms: []section.Form{section.Questions}, joints: true},
	"full":   {says: (*leaf).full, forms: []section.Form{section.Questions}, joints: true, ends: (*leaf).rest},
	"crew":   {says: (*leaf).crew, forms: []section.Form{section.Crew, section.Takeoff}},
}

// forms write a sheet.
var forms = map[string]func(io.Writer, *paper.Block, int) error{
	"text":     paper.WriteText,
	"markdown": paper.WriteMarkdown,
	"html":     paper.WriteHTML,
}

// all is the sheet that binds others into one, in the order of bound.
const all = "all"

var bound = []string{"client", "crew", "audit"}

// Forms lists the forms in which the sections of the sheet must have been made.
func (s Sheet) Forms() []section.Form {
	var out []section.Form
	for _, name := range s.names() {
		out = append(out, sheets[name].forms...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// names lists the sheets that are written.
func (s Sheet) names() []string {
	if s.of() == all {
		return bound
	}
	return []string{s.of()}
}

func (s Sheet) of() string { return cmp.Or(s.Of, "page") }
func (s Sheet) as() string { return cmp.Or(s.As, "text") }

// Check returns an error that wraps [ErrSheet] and says what there is, where there is
// no such sheet or form, or where the costs are not those of the options.
func (s Sheet) Check() error {
	for _, name := range s.names() {
		if sheets[name].says == nil {
			return fmt.Errorf("%w: %q; wanted %s or %s", ErrSheet, name, strings.Join(slices.Sorted(maps.Keys(sheets)), ", "), all)
		}
	}
	if forms[s.as()] == nil && s.as() != svg {
		return fmt.Errorf("%w: the form %q; wanted %s or %s", ErrSheet, s.As, strings.Join(slices.Sorted(maps.Keys(forms)), ", "), svg)
	}
	if len(s.Costs) > 0 && len(s.Costs) != len(s.Options) {
		return fmt.Errorf("%w: %d costs of %d options; wanted one for each, or none", ErrSheet, len(s.Costs), len(s.Options))
	}
	return nil
}

// Write writes the sheet of a job. The error is that of w or of [Sheet.Check], or it wraps
// [ErrSheet] if there is no line for something that it says.
func (s Sheet) Write(w io.Writer, job *section.Areas) error {
	if err := s.Check(); err != nil {
		return err
	}
	if s.as() == svg {
		return s.drawings(w, job)
	}
	whole, err := s.tree(job)
	if err != nil {
		return err
	}
	return forms[s.as()](w, whole, s.Columns)
}

// tree returns the sheet of a job before it has a form.
func (s Sheet) tree(job *section.Areas) (*paper.Block, error) {
	whole, contents := paper.Part("", ""), paper.Part("contents", "")
	l := &leaf{Sheet: s, job: job, missing: map[string]bool{}}
	for _, name := range s.names() {
		says, areas := l.areas(name)
		if s.of() == all {
			part := paper.Part(name, l.line("all_"+name), says...)
			part.Breaks = true
			contents.Text = l.line("all_contents")
			contents.Add(paper.Item(part.Text, areas...).Leads(name))
			says = []*paper.Block{part}
		}
		whole.Add(says...)
	}
	whole.ID, whole.Text, whole.Language = s.of(), l.title(), l.s.Language
	whole.Under = append([]*paper.Block{contents}, whole.Under...)
	if err := l.lacks(); err != nil {
		return nil, err
	}
	return whole, nil
}

// lacks reports the lines that were wanted and are not there.
func (l *leaf) lacks() error {
	if len(l.missing) == 0 {
		return nil
	}
	return fmt.Errorf("%w: there are no lines %s; give Lines as Book.Lines returns them", ErrSheet, strings.Join(slices.Sorted(maps.Keys(l.missing)), ", "))
}

// areas returns what a sheet says of each area, and items that lead to them where
// there are several. In a sheet of several areas, or bound with others, an ID begins
// with theirs; but one of the audit sheet of one area is as it is.
func (l *leaf) areas(name string) (says, contents []*paper.Block) {
	taken := map[string]bool{}
	for at, each := range l.job.Sections {
		l.s = each
		l.System = l.System.Writing(each.Numbers)
		under, id := sheets[name].says(l), ""
		if l.of() == all && (name != "audit" || each.Job.Part != "") {
			id = name
		}
		if each.Job.Part != "" {
			id = strings.TrimPrefix(id+"-"+cmp.Or(paper.Anchor(each.Job.Part), "area"), "-")
			for taken[id] {
				id += "-2"
			}
			taken[id] = true
		}
		if id != "" {
			under = paper.Within(id+"-", under...)
		}
		if each.Job.Part != "" {
			under = []*paper.Block{paper.Part(id, each.Job.Part, under...)}
			under[0].Breaks = name == "crew" && at > 0
			contents = append(contents, paper.Item(each.Job.Part).Leads(id))
		}
		says = append(says, under...)
	}
	if sheets[name].joints && len(l.job.Joints) > 0 {
		joints := []*paper.Block{l.joints(name == "audit")}
		if l.of() == all && name != "audit" {
			paper.Within(name+"-", joints...)
		}
		says = append(says, joints...)
	}
	if ends := sheets[name].ends; ends != nil {
		says = append(says, ends(l)...)
	}
	return says, contents
}
