package sheet

import (
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/section"
)

// NoCourseError says that a section has no course of a name.
type NoCourseError struct {
	Name string
	// Courses are the names that there are, from the top down; Nearest is the
	// one that was most likely meant, or "".
	Courses []string
	Nearest string
}

// Error lists the courses, with the nearest name.
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

// Find gives a course by its name or its label; case, spaces and hyphens do not
// count. The error is a [*NoCourseError].
func Find(s *section.Section, course string) (*section.Course, error) {
	if c := s.Course(course); c != nil {
		return c, nil
	}
	names := make([]string, 0, len(s.Courses))
	for i := range s.Courses {
		c := &s.Courses[i]
		if sameName(c.Name, course) || sameName(c.Label, course) {
			return c, nil
		}
		names = append(names, c.Name)
	}
	slices.Reverse(names)
	return nil, &NoCourseError{Name: course, Courses: names, Nearest: diagnostic.Nearest(course, names)}
}

func sameName(a, b string) bool {
	plain := strings.NewReplacer("_", "", " ", "", "-", "").Replace
	return strings.EqualFold(plain(a), plain(b))
}
