package sheet

import (
	"io"
	"strings"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// page gathers lines of text in one system of units.
type page struct {
	lines  pages.Page
	system quantity.System
}

func (p *page) writeTo(w io.Writer) error         { return p.lines.Write(w) }
func (p *page) heading(text string)               { p.lines.Heading(text) }
func (p *page) blank()                            { p.lines.Blank() }
func (p *page) put(indent int, mark, text string) { p.lines.Put(indent, mark, text) }

// value and sentence return the text in the page's system of units.
func (p *page) value(v value.Value) string         { return v.Text(p.system) }
func (p *page) sentence(s section.Sentence) string { return capital(fullStop(s.In(p.system))) }
func (p *page) quoted(s section.Sentence) string   { return strings.TrimSpace(s.In(p.system)) }

// text is a page whose values are told as one person says them to another; the reasons
// of a course have them in full.
type text struct{ page }

func (t *text) value(v value.Value) string { return v.Brief(t.system) }

func (t *text) orNone(e section.Effect) string {
	if e.With.IsZero() {
		return "none"
	}
	return t.value(e.With)
}

// comesMost is how many differences of an answer are told.
const comesMost = 3

// comes tells what comes of an answer: the weightiest alone.
func (t *text) comes(o section.Otherwise) string {
	var parts []string
	for _, d := range o.Differs {
		parts = append(parts, d.In(t.system))
	}
	if rest := len(parts) - comesMost; rest > 0 {
		parts = append(parts[:comesMost], "and more")
	}
	return strings.Join(parts, "; ")
}
