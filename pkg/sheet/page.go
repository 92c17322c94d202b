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
