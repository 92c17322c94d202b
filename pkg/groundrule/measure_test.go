package groundrule_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// TestAddsUpAsPrinted holds that every course of a section is in whole sixteenths
// of an inch, or in whole 5 mm, and that the printed thicknesses add up to the
// printed depths.
func TestAddsUpAsPrinted(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		system    quantity.System
		part      quantity.Length
	}{
		{"inches", "a tape in inches is read to the sixteenth", quantity.US, quantity.Inches(1) / 16},
		{"millimeters", "a crew with a metric tape works to 5 mm", quantity.SI, quantity.Millimeters(5)},
	} {
		t.Run(c.name, func(t *testing.T) {
			printed := func(v value.Value) float64 {
				q, err := quantity.ParseAs(quantity.DimLength, v.Text(c.system))
				require.NoError(t, err)
				return q.SI / float64(c.part)
			}
			designed, tried := 0, fewer(400, 80)
			for job := range jobs.Generate(nil, tried, 11) {
				job.Overrides, job.BuiltIn = nil, "inches"
				if c.system == quantity.SI {
					job.BuiltIn = "millimeters"
				}
				s, err := cameTo(book, job)
				require.NoError(t, err)
				if s.Status != section.Designed {
					continue
				}
				designed++
				depth := 0.0
				for i := len(s.Courses) - 1; i >= 0; i-- {
					course := s.Courses[i]
					if a := course.Attribute("thickness"); !a.Value.IsZero() { // a pipe in a trench lies at a depth of its own
						require.InDelta(t, depth, printed(course.Top), 1e-6, "%s: %s begins where the one over it ends", job.Job, course.Name)
						parts := printed(a.Value)
						require.InDelta(t, math.Round(parts), parts, 1e-6, "%s: %s is %s thick", job.Job, course.Name, a.Value.Text(c.system))
						depth += parts
					}
				}
				require.InDelta(t, depth, printed(s.Depth), 1e-6, "%s: the dig is what the courses add up to", job.Job)
			}
			require.Greater(t, designed, tried/4, c.why)
		})
	}
}
