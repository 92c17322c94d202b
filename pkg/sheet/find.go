package sheet

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// NoCourseError says that a section has neither a course nor a decision of a
// name.
type NoCourseError struct {
	Name string
	// Courses are those that there are, from the top down, each by its name and
	// by its label if that is another; Nearest is the name or label of a course,
	// or the name of a decision, that was most likely meant, or "".
	Courses []string
	Nearest string
}

// Error lists the courses, with the nearest.
func (e *NoCourseError) Error() string {
	out := fmt.Sprintf("this section has no layer and no decision %q", e.Name)
	if e.Nearest != "" {
		out += fmt.Sprintf("; did you mean %q?", e.Nearest)
	}
	if len(e.Courses) > 0 {
		out += "; the layers are " + list(e.Courses)
	}
	return out
}

// find finds a course, a refusal, a decision, or what is not there, by its name or its label; case,
// spaces and hyphens do not count. The error is a [*NoCourseError].
func find(s *section.Section, name string) (*behind, error) {
	var candidates []string
	for _, c := range s.Courses {
		if sameName(c.Name, name) || sameName(c.Label, name) {
			return behindCourse(s, c), nil
		}
		candidates = append(candidates, c.Name, c.Label)
	}
	for _, r := range s.Refusals {
		if sameName(r.ID, name) {
			return &behind{s: s, refusals: []section.Refusal{r}}, nil
		}
		candidates = append(candidates, r.ID)
	}
	for _, r := range decisions(s) {
		if sameName(r.Decision, name) || sameName(r.Label, name) {
			return &behind{s: s, reasons: []section.Reason{r}}, nil
		}
		candidates = append(candidates, r.Decision)
	}
	for i, a := range s.Absent {
		if sameName(a.Name, name) || sameName(a.Label, name) {
			return &behind{s: s, absent: &s.Absent[i]}, nil
		}
		candidates = append(candidates, a.Name)
	}
	return nil, &NoCourseError{Name: name, Courses: courseNames(s), Nearest: diagnostic.Nearest(name, candidates)}
}

// courseNames lists the courses from the top down, by name and label.
func courseNames(s *section.Section) []string {
	var out []string
	for _, c := range slices.Backward(s.Courses) {
		if sameName(c.Name, c.Label) {
			out = append(out, c.Name)
		} else {
			out = append(out, c.Name+" ("+c.Label+")")
		}
	}
	return out
}

// decisions are the reasons of a section but for the presence of a course, which
// is told with the course.
func decisions(s *section.Section) []section.Reason {
	var presences []string
	for _, c := range s.Courses {
		presences = append(presences, c.Presence)
	}
	return slices.DeleteFunc(slices.Clone(s.Reasons), func(r section.Reason) bool { return slices.Contains(presences, r.Decision) })
}

// Asked lists what [Sheet.Why] can be asked about a section: its courses, from the
// top down, what refuses it, and its decisions with their answers. The only error is that of w.
func Asked(w io.Writer, s *section.Section, system quantity.System) error {
	p := &page{system: system}
	if len(s.Courses) > 0 {
		p.Heading("LAYERS, from the top down")
	}
	for _, name := range courseNames(s) {
		p.Put(2, "", name)
	}
	if len(s.Refusals) > 0 {
		p.Heading("REFUSALS")
	}
	for _, r := range s.Refusals {
		p.Put(2, "", r.ID+" ("+r.Says.In(system)+")")
	}
	asked := decisions(s)
	if len(asked) > 0 {
		p.Heading("DECISIONS")
	}
	for _, r := range asked {
		p.Put(2, "", r.Decision+" = "+p.exact(r.Answer)+" ("+r.Asks+")")
	}
	return p.Write(w)
}

func sameName(a, b string) bool {
	plain := strings.NewReplacer("_", "", " ", "", "-", "").Replace
	return strings.EqualFold(plain(a), plain(b))
}
