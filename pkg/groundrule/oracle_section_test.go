package groundrule_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// look is a job and what was designed for it, as the oracle sees them: it knows
// the kinds of the courses and the names of their attributes, and no rule.
type look struct {
	job    *site.Site
	ground evidence
	*section.Section
}

// judged designs a job. The error is one of a kind that no job may cause.
func judged(book *groundrule.Book, job *site.Site) (*look, error) {
	x := &look{job: job, ground: read(job)}
	d, err := book.Design(job)
	var refused *groundrule.Refused
	switch {
	case errors.As(err, &refused):
		x.Section = refused.Section
		return x, nil
	case err != nil:
		return nil, err
	}
	x.Section, err = d.Section()
	return x, err
}

func (x *look) built() bool { return x.Status == section.Designed }

// of returns the courses of a kind from the bottom up.
func (x *look) of(kind string) []section.Course {
	var out []section.Course
	for _, c := range x.Courses {
		if c.Is == kind {
			out = append(out, c)
		}
	}
	return out
}

// inches returns a length in inches, 0 if there is none.
func inches(v value.Value) float64 {
	l, _ := v.Length()
	return l.Inches()
}

// word is the word of an attribute in the rulebook's own spelling, or its text.
func word(v value.Value) string {
	if w, ok := v.Data().(value.Word); ok {
		return w.Name
	}
	if v.IsZero() {
		return ""
	}
	return v.String()
}

func (x *look) stone() float64 {
	var sum float64
	for _, c := range x.of("stone_course") {
		sum += inches(c.Bottom) - inches(c.Top)
	}
	return sum
}

func (x *look) dig() float64 { return inches(x.Depth) }

// onFill reports whether fill stays under the section: the job does not say that it is dug
// out, and the dig does not reach its bottom.
func (x *look) onFill() bool {
	depth := x.job.Soil.FillDepth
	return x.ground.fill && !yes(x.job.Soil.FillRemoved) && (depth == nil || x.dig() < depth.Inches()-0.01)
}

// heights returns how high each grid lies over the bottom of the stone, in inches; a
// refill in place of topsoil or fill is ground, not stone of the section.
func (x *look) heights() []float64 {
	var out []float64
	bottom := x.dig()
	if stone := x.of("stone_course"); len(stone) > 0 {
		bottom = 0
		for _, c := range stone {
			bottom = max(bottom, inches(c.Bottom))
		}
	}
	for _, c := range x.of("grid_course") {
		out = append(out, bottom-inches(c.Bottom))
	}
	slices.Sort(out)
	return out
}

// fabric returns the fabric over the soil: its making and its class, 9 for none.
func (x *look) fabric() (kind string, class int, lap float64) {
	fabrics := x.of("fabric_course")
	if len(fabrics) == 0 {
		return "", 9, 0
	}
	c := fabrics[0]
	material := c.Attribute("material").Value.String()
	class = 9
	for n := 1; n <= 3; n++ {
		if strings.Contains(material, fmt.Sprintf("class %d", n)) {
			class = n
		}
	}
	return c.Attribute("kind").Value.String(), class, inches(c.Attribute("overlap").Value)
}

func (x *look) paver() float64 {
	for _, c := range x.of("paver_course") {
		return inches(c.Attribute("thickness").Value)
	}
	return 0
}

// permeable reports whether rain runs into the joints: an open base whose joints
// are not of sand.
func (x *look) permeable() bool {
	if x.job.Base != "open" {
		return false
	}
	for _, c := range x.of("joint_course") {
		return !strings.Contains(strings.ToLower(c.Attribute("material").Value.String()), "sand")
	}
	return true
}

// says reports whether a word stands anywhere in the courses, the cautions or the
// checks that failed.
func (x *look) says(words ...string) bool {
	var texts []string
	for _, c := range x.Courses {
		texts = append(texts, c.Label, c.Because.US)
		for _, a := range c.Attributes {
			texts = append(texts, a.Label, a.Value.String(), a.Because.US)
		}
	}
	for _, c := range x.Cautions {
		texts = append(texts, c.Says.US)
	}
	for _, c := range x.Failed() {
		texts = append(texts, c.Says.US)
	}
	for _, text := range texts {
		for _, w := range words {
			if strings.Contains(strings.ToLower(text), w) {
				return true
			}
		}
	}
	return false
}

// lined reports whether a liner keeps the water of the base out of the ground.
func (x *look) lined() bool {
	for _, c := range x.Courses {
		if strings.Contains(c.Name, "liner") || strings.Contains(strings.ToLower(c.Label), "liner") {
			return true
		}
	}
	return false
}

// pipes returns the drain courses that hold a pipe.
func (x *look) pipes() []section.Course {
	var out []section.Course
	for _, c := range x.of("drain_course") {
		if c.Attribute("pipe").Name != "" {
			out = append(out, c)
		}
	}
	return out
}

// attribute reports whether any course has an attribute with a word in its name.
func (x *look) attribute(words ...string) bool {
	for _, c := range x.Courses {
		for _, a := range c.Attributes {
			for _, w := range words {
				if strings.Contains(a.Name, w) && !a.Value.IsZero() {
					return true
				}
			}
		}
	}
	return false
}

// invert returns how high the invert of a pipe lies over the floor, in inches,
// below 0 in a trench; false where no attribute says it.
func (x *look) invert(attributes []section.Attribute) (float64, bool) {
	for _, a := range attributes {
		if l, isLength := a.Value.Length(); isLength && strings.Contains(a.Name, "invert") {
			if strings.Contains(a.Name, "below") {
				return -l.Inches(), true
			}
			return l.Inches(), true
		}
	}
	return 0, false
}
