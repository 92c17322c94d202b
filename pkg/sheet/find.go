package sheet

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/section"
)

// NoCourseError says that a section has no course of a name.
type NoCourseError struct {
	Name string
	// Courses are those that there are, from the top down, each by its name and
	// by its label if that is another; Nearest is the name or label that was
	// most likely meant, or "".
	Courses []string
	Nearest string
}

// Error lists the courses, with the nearest.
func (e *NoCourseError) Error() string {
	if len(e.Courses) == 0 {
		return fmt.Sprintf("no course %q: this section has no courses", e.Name)
	}
	out := fmt.Sprintf("no course %q in this section; it has %s", e.Name, list(e.Courses))
	if e.Nearest != "" {
		out += fmt.Sprintf("; did you mean %q?", e.Nearest)
	}
	return out
}

// Find returns a course by its name or its label; case, spaces and hyphens do not
// count. The error is a [*NoCourseError].
func Find(s *section.Section, course string) (section.Course, error) {
	if c := s.Course(course); c.Name != "" {
		return c, nil
	}
	var shown, candidates []string
	for i := len(s.Courses) - 1; i >= 0; i-- {
		c := s.Courses[i]
		if sameName(c.Name, course) || sameName(c.Label, course) {
			return c, nil
		}
		candidates = append(candidates, c.Name, c.Label)
		if !sameName(c.Name, c.Label) {
			shown = append(shown, c.Name+" ("+c.Label+")")
		} else {
			shown = append(shown, c.Name)
		}
	}
	return section.Course{}, &NoCourseError{Name: course, Courses: shown, Nearest: diagnostic.Nearest(course, candidates)}
}

func sameName(a, b string) bool {
	plain := strings.NewReplacer("_", "", " ", "", "-", "").Replace
	return strings.EqualFold(plain(a), plain(b))
}
