package groundrule_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// ineffective lists the keys that a section says to be without effect.
func ineffective(s *section.Section) []string {
	out := []string{}
	for _, a := range s.Absent {
		if a.Sort == "input" {
			out = append(out, a.Name)
		}
	}
	return out
}

// TestWithoutEffect holds what is said of a value that makes no difference.
func TestWithoutEffect(t *testing.T) {
	for _, c := range []struct {
		name, why string
		change    func(*site.Site)
		want      []string
		clause    string // the first that is told, "" for none
	}{
		{"nothing more", "what is told has an effect", func(*site.Site) {}, []string{}, ""},
		{"rain without storage", "no rain is stored unless the job asks for it", func(s *site.Site) { s.Rain.Depth = new(quantity.Inches(3)) },
			[]string{"rain.depth"}, "stores_rain"},
		{"perimeter", "the section is the same, and the edging that is ordered is not", func(s *site.Site) { s.Perimeter = new(quantity.Feet(80)) }, []string{}, ""},
		{"a word beside a symbol", "the symbol tells the class", func(s *site.Site) { s.Soil.Word = "clayey_sand" }, []string{"soil.word"}, "known(soil.uscs)"},
		{"an assumption confirmed", "it need not be confirmed any more", func(s *site.Site) { s.SurfaceSlope = new(quantity.Percent(2)) }, []string{}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := designed(t, job("foot", "dense", 9, c.change))
			require.Equal(t, c.want, ineffective(s), c.why)
			for _, a := range s.Absent {
				if a.Sort == "input" && c.clause != "" {
					require.NotEmpty(t, a.Clauses)
					require.Equal(t, c.clause, a.Clauses[0].Text)
				}
			}
		})
	}
}

// shown is all of a section that anybody acts upon.
type shown struct {
	Status   section.Status
	Depth    string
	Courses  []string
	Checks   []string
	Cautions []string
	Confirm  []string
	Refusals []string
	Amounts  []string
}

func show(s *section.Section) shown {
	out := shown{Status: s.Status, Depth: s.Depth.Text(quantity.US)}
	for _, c := range s.Courses {
		for _, a := range c.Attributes {
			out.Courses = append(out.Courses, c.Name+"."+a.Name+": "+a.Value.Text(quantity.US))
		}
	}
	for _, c := range s.Checks {
		out.Checks = append(out.Checks, c.ID+": "+c.Value.Text(quantity.US)+" of "+c.Limit.Text(quantity.US)+", "+map[bool]string{true: "holds", false: "fails"}[c.Holds])
	}
	for _, c := range s.Cautions {
		out.Cautions = append(out.Cautions, c.ID)
	}
	for _, c := range s.Confirm {
		out.Confirm = append(out.Confirm, c.Name)
	}
	for _, r := range s.Refusals {
		out.Refusals = append(out.Refusals, r.ID)
	}
	for _, q := range s.Quantities {
		out.Amounts = append(out.Amounts, q.ID+": "+q.Amount.Text(quantity.US)+", "+q.Because.US)
	}
	return out
}

// sectionOf designs a job, also one that gets no section to build; nil if the job
// is not possible.
func sectionOf(t *testing.T, book *groundrule.Book, j *site.Site) *section.Section {
	t.Helper()
	d, err := book.Design(j)
	var refused *groundrule.Refused
	var wrong *site.Error
	switch {
	case errors.As(err, &refused):
		return refused.Section
	case errors.As(err, &wrong):
		return nil
	}
	require.NoError(t, err)
	s, err := d.Section(section.Takeoff)
	require.NoError(t, err)
	return s
}

// TestEveryKeyCounts walks every key of a job file: what is said changes what is
// built, checked, cautioned, assumed or refused, or it is said to be without
// effect, and never both.
func TestEveryKeyCounts(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	tried, count := 0, fewer(20, 5)
	for j := range jobs.Generate(nil, count, 9) {
		before := sectionOf(t, book, j)
		for _, f := range standardWords.Fields() {
			// Place and region say where a job is, for people too.
			if !f.Rules || f.Required || f.Form == site.TextForm || strings.Contains(f.Path, "[]") {
				continue
			}
			with, text := *j, f.Example
			if words := f.Vocabulary.Words; len(words) > 0 {
				text = words[tried%len(words)].Name
			}
			if with.Set(f.Path, text) != nil {
				continue
			}
			s := sectionOf(t, book, &with)
			if s == nil || len(s.Refusals) > 0 {
				continue
			}
			same := len(before.Refusals) == 0 && cmp.Equal(show(before), show(s))
			listed := strings.Contains(" "+strings.Join(ineffective(s), " ")+" ", " "+f.Path+" ")
			if _, told := j.Input(f.Path); !told {
				require.Equal(t, same, listed, "%s: %s\n%s", j.Job, f.Path, cmp.Diff(show(before), show(s)))
			}
			tried++
		}
	}
	require.Greater(t, tried, 25*count)
}

// TestRestsOn holds that a value which rules of practice pass on is told with what
// it rests on: the depth of the stone with the source of the need that governs.
func TestRestsOn(t *testing.T) {
	s := designed(t, job("heavy_driveway", "dense", 1.5))
	need := s.Reason("stone_need").Taken[0]
	require.Equal(t, "NEED-PAIR-COVER", need.ID)
	require.Equal(t, value.Memory, s.Source(need.Source).Known)
	require.Empty(t, need.RestsOn, "a rule with a publication of its own answers for itself")
	require.Equal(t, []string{need.Source}, s.Course("stone_top").Attribute("stone_in_all").RestsOn, "rounding does not make it better known")
	walk := designed(t, job("foot", "dense", 6))
	lift := walk.Reason("lift_most").Taken[0]
	require.Equal(t, value.Memory, walk.Source(lift.RestsOn[0]).Known, "a property is no better known than the compactor that has it")
	wheel := designed(t, job("car_driveway", "dense", 6)).Reason("wheel_load").Taken[0]
	require.Equal(t, []string{"ibc_garage"}, wheel.RestsOn, "a property with a source of its own rests on that")
	require.Contains(t, wheel.Because.US, "No wheel load was given; this is the one assumed for the load case car driveway. The 3,000 lb that the building code requires", "and tells why it is so")
}
