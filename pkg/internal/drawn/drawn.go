// Package drawn draws a section, the joint of two areas and the layout of rolls as SVG:
// to scale, in one color, readable at 320 pixels wide. As what a course is drawn the
// rulebook says; this package knows the symbols.
package drawn

import (
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// Drawing is by what is drawn.
type Drawing struct {
	System quantity.System
	// Line returns a line of the rulebook with its holes filled.
	Line func(name string, holes ...string) string
	// Rules says of each course as what it is drawn, and of each material how it is
	// hatched, as groundrule.Book.Drawn returns them.
	Rules map[string]map[string]value.Value
	// Prefix begins every id, so that several drawings stand on one page.
	Prefix string
}

// symbol is as what a course is drawn: what has a thickness is a bed if nothing else.
func (d *Drawing) symbol(c section.Course) string {
	as, _ := d.Rules[c.Name]["symbol"].PlainText()
	if as == "" && high(c) {
		return "bed"
	}
	return as
}

// shows returns what a course tells for a part of its symbol.
func (d *Drawing) shows(c section.Course, part string) value.Value {
	name, _ := d.Rules[c.Name][part].PlainText()
	return c.Attribute(name).Value
}

// length returns what a course tells as a length, 0 if it tells none.
func (d *Drawing) length(c section.Course, part string) quantity.Length {
	l, _ := d.shows(c, part).Length()
	return l
}

// value is a value as a sheet prints it, whose parts stay in one line.
func (d *Drawing) value(v value.Value) string {
	return strings.ReplaceAll(v.Text(d.System), " ", "\u00a0")
}

// property is one of the properties of a material.
func (d *Drawing) property(v value.Value, name string) value.Value {
	w, _ := v.Word()
	return d.Rules[w.Name][name]
}

func (d *Drawing) hatch(v value.Value) string {
	w, _ := d.property(v, "hatch").Word()
	return w.Name
}

func depth(v value.Value) quantity.Length { l, _ := v.Length(); return l }

// high reports whether a course has a thickness.
func high(c section.Course) bool { return depth(c.Bottom) > depth(c.Top) }
