package sheet

import (
	"strings"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// page gathers lines of text in one system of units.
type page struct {
	pages.Page
	system quantity.System
}

// value returns a value as one person says it to another, exact in full.
func (p *page) value(v value.Value) string { return v.Brief(p.system) }
func (p *page) exact(v value.Value) string { return v.Text(p.system) }

// sentence returns a sentence, and quoted a clause or a noun.
func (p *page) sentence(s section.Sentence) string { return pages.Capital(fullStop(s.In(p.system))) }
func (p *page) quoted(s section.Sentence) string   { return strings.TrimSpace(s.In(p.system)) }

// comesMost is how many differences of an answer are told.
const comesMost = 3

// comes tells what comes of an answer: the weightiest alone.
func (p *page) comes(o section.Otherwise) string {
	var parts []string
	for _, d := range o.Differs {
		parts = append(parts, d.In(p.system))
	}
	if rest := len(parts) - comesMost; rest > 0 {
		parts = append(parts[:comesMost], "and more")
	}
	return strings.Join(parts, "; ")
}
