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
		row := []string{t.crew.depth(c.Top), t.crew.depth(c.Bottom), "", c.Label}
		if a := c.Attribute(thickness); !a.Value.IsZero() {
			row[2] = t.crew.depth(a.Value)
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
	if t.crew.rounded {
		t.put(2, "", t.crew.note())
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
	of := bounds(c)
	for _, a := range c.Attributes {
		if a.Name == thickness || a.Value.IsZero() || of[a.Name] == besideIts {
			continue
		}
		if a.Name == material || a.Name == materialKind {
			parts = slices.Insert(parts, 0, t.value(a.Value))
			continue
		}
		part := a.Label + ": " + t.value(a.Value)
		if name, bound, ok := boundName(a.Label); ok {
			part = name + ": " + bound + " " + t.value(a.Value)
		}
		if other := c.Attribute(of[a.Name]); other.Name != "" {
			_, bound, _ := boundName(other.Label)
			part += " (" + bound + " " + t.value(other.Value) + " each)"
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, "; ")
}

// besideIts marks a bound that is shown beside what it bounds.
const besideIts = " "

// bounds pairs each attribute that says how many, such as lifts, with the
// attribute that bounds each of them, such as lift_most.
func bounds(c section.Course) map[string]string {
	out := map[string]string{}
	for _, bound := range c.Attributes {
		name, _, ok := boundName(bound.Label)
		if !ok || bound.Value.IsZero() {
			continue
		}
		for _, many := range c.Attributes {
			if _, counts := many.Value.Number(); counts && many.Label == name+"s" && out[many.Name] == "" {
				out[many.Name], out[bound.Name] = bound.Name, besideIts
				break
			}
		}
	}
	return out
}
