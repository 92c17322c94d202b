package sheet

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/section"
)

// thickness is the attribute that has a column of its own; material, or
// material_kind, is what the line under a course begins with.
const (
	thickness    = "thickness"
	material     = "material"
	materialKind = "material_kind"
)

// layers shows the courses as they lie in the ground: the surface in the first
// line, the subgrade in the last.
func (t *text) layers(title string) {
	t.heading(title)
	rows := [][]string{{"top", "bottom", "thickness", "course"}}
	courses := slices.Clone(t.s.Courses)
	slices.Reverse(courses)
	for _, c := range courses {
		row := []string{c.Top.Text(t.system), c.Bottom.Text(t.system), "", c.Label}
		if a := c.Attribute(thickness); !a.Value.IsZero() {
			row[2] = a.Value.Text(t.system)
		} else if c.Top.Equal(c.Bottom) {
			row[1] = "" // it takes no depth
		}
		rows = append(rows, row)
	}
	columns := widths(rows)
	t.row(columns, rows[0], "")
	for i := range courses {
		t.row(columns, rows[i+1], t.laying(courses[i]))
	}
	t.put(2, "", "Top and bottom are depths below finish grade.")
	if slices.ContainsFunc(courses, func(c section.Course) bool {
		return slices.ContainsFunc(c.Attributes, func(a section.Attribute) bool { return a.Presumed })
	}) {
		t.put(2, "", "What is marked (assumed) was not measured: confirm it before building.")
	}
}

// widths returns the width of each column but the last.
func widths(rows [][]string) []int {
	out := make([]int, len(rows[0])-1)
	for _, row := range rows {
		for i := range out {
			out[i] = max(out[i], utf8.RuneCountInString(row[i]))
		}
	}
	return out
}

// row writes a line of the table, and below its last column whatever else is
// to be said.
func (t *text) row(columns []int, row []string, below string) {
	var mark strings.Builder
	for i, w := range columns {
		fmt.Fprintf(&mark, "%s%s   ", row[i], strings.Repeat(" ", w-utf8.RuneCountInString(row[i])))
	}
	t.put(2, mark.String(), row[len(columns)])
	if below != "" {
		t.put(2+utf8.RuneCountInString(mark.String())+2, "", below)
	}
}

// laying says what a course is made of and how it is laid. A bound is with what
// it bounds: "lifts: 2 (at most 4 in each)".
func (t *text) laying(c section.Course) string {
	var parts []string
	for _, a := range c.Attributes {
		name, bound, isBound := boundName(a.Label)
		one, many := strings.CutSuffix(a.Label, "s")
		assumed := ""
		if a.Presumed {
			assumed = " (assumed)"
		}
		part := a.Label + ": " + t.value(a.Value)
		switch {
		case a.Name == thickness || a.Value.IsZero() || isBound && counted(c, name):
			continue
		case a.Name == material || a.Name == materialKind:
			parts = slices.Insert(parts, 0, t.value(a.Value)+assumed)
			continue
		case isBound:
			part = name + ": " + bound + " " + t.value(a.Value)
		case many && counted(c, one):
			part += t.each(c, one)
		}
		parts = append(parts, part+assumed)
	}
	return strings.Join(parts, "; ")
}

// counted reports whether a course has an attribute that says how many of these
// there are: of a lift, lifts.
func counted(c section.Course, name string) bool {
	return slices.ContainsFunc(c.Attributes, func(a section.Attribute) bool {
		_, isNumber := a.Value.Number()
		return isNumber && a.Label == name+"s"
	})
}

// each says what bounds each of these, such as lift_most of lifts.
func (t *text) each(c section.Course, name string) string {
	for _, a := range c.Attributes {
		if of, bound, ok := boundName(a.Label); ok && of == name && !a.Value.IsZero() {
			return " (" + bound + " " + t.value(a.Value) + " each)"
		}
	}
	return ""
}
