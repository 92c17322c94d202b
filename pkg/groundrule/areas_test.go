package groundrule_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

func standardBook(t *testing.T) *groundrule.Book {
	t.Helper()
	b, err := groundrule.Standard()
	require.NoError(t, err)
	return b
}

// A job of several areas has a section for each, the one that the area has as a job of
// its own, and a joint where two meet, told of the deeper.
func TestAreasOfTheExample(t *testing.T) {
	b, job := standardBook(t), exampleJob(t, "four-areas.yaml")
	a, err := b.Areas(job)
	require.NoError(t, err)
	require.Equal(t, section.Designed, a.Status())
	var names []string
	for i, s := range a.Sections {
		names = append(names, s.Job.Part)
		alone, err := b.Design(job.Parts()[i])
		require.NoError(t, err)
		same, err := alone.Section()
		require.NoError(t, err)
		require.Empty(t, cmp.Diff(jsonOf(t, same), jsonOf(t, s)), "an area is designed as a job of its own")
	}
	require.Equal(t, []string{"driveway", "apron", "walk", "patio"}, names)
	type joint struct{ of, beside, length, step, taper, face, edge string }
	var got []joint
	for _, j := range a.Joints {
		require.Len(t, j.Courses, 1)
		says := func(attribute string) string { return j.Courses[0].Attribute(attribute).Value.Text(quantity.US) }
		got = append(got, joint{j.Of, j.Beside, j.Length.Text(quantity.US), says("bottom"), says("taper"), says("between_bases"), says("between_pavers")})
		for _, r := range j.Reasons {
			require.NotEmpty(t, r.Taken[0].Because.US, r.Decision)
			require.Contains(t, sourcesOf(j.Sources), r.Taken[0].Source, "every source is told")
		}
	}
	require.Equal(t, []joint{
		{"apron", "driveway", "18 ft", "a square step", "0 in", "nothing", "a concrete curb, flush with the surface"},
		{"driveway", "walk", "48 in", "a taper", "5 ft", "nothing", "an edge restraint of its own for each, flush with the surface"},
		{"patio", "walk", "48 in", "a square step", "0 in", "a sheet of fabric, from the bottom of the dig to the top of the base", "an edge restraint of its own for each, flush with the surface"},
	}, got, "18-1/8, 17-3/8, 11-3/8 and 12-3/8 in deep: rises of 3/4, 6 and 1 in; frost lets the bottom rise 1 in 10")

	bought, err := b.Areas(job, section.Takeoff)
	require.NoError(t, err)
	edges := map[string][]string{}
	for _, s := range bought.Sections {
		for _, q := range s.Quantities {
			if strings.HasPrefix(q.ID, "JOINT-") {
				edges[s.Job.Part] = append(edges[s.Job.Part], q.ID+" "+q.Amount.Text(quantity.US))
			}
		}
	}
	require.Equal(t, map[string][]string{
		"apron":    {"JOINT-CURB 18 ft 10-13/16 in", "JOINT-EDGE-SET 18 ft"},
		"driveway": {"JOINT-RESTRAINT 8 ft 4-13/16 in", "JOINT-EDGE-SET 48 in"},
		"patio":    {"JOINT-RESTRAINT 8 ft 4-13/16 in", "JOINT-EDGE-SET 48 in"},
	}, edges, "the edge between two pavings is ordered once, with the one that is dug deeper")

	for _, forms := range [][]section.Form{nil, {section.Full, section.Indented}} {
		text, err := a.JSON(forms...)
		require.NoError(t, err)
		var back section.Areas
		require.NoError(t, json.Unmarshal(text, &back))
		again, err := back.JSON(forms...)
		require.NoError(t, err)
		require.Equal(t, string(text), string(again), "read back and written again")
	}
	require.ErrorIs(t, json.Unmarshal([]byte(`{"schema": "groundrule/section", "version": 2}`), new(section.Areas)), section.ErrForm)
}

func jsonOf(t *testing.T, s *section.Section) string {
	t.Helper()
	text, err := s.JSON(section.Full)
	require.NoError(t, err)
	return string(text)
}

// The section of an area carries the job of that area, which designed alone gives the
// same section: the edges that join other areas of the job stay apart from paving that
// is there already, told of with its length or without.
func TestAnAreaIsDesignedAgain(t *testing.T) {
	b := standardBook(t)
	jobs := map[string]*site.Site{"the example": exampleJob(t, "four-areas.yaml")}
	for name, length := range map[string]string{"beside paving of some length": ", length: 5 ft", "beside paving": ""} {
		job, err := b.Table().Read("job.yaml", []byte("use: foot\nbase: dense\nsoil: {word: sand}\nareas:\n"+
			"  - {name: patio, area: 300 sq ft, perimeter: 70 ft, beside: {depth: 8 in"+length+"}, edges: [{joins: walk, length: 9 ft}]}\n  - {name: walk, area: 90 sq ft}\n"))
		require.NoError(t, err)
		jobs[name] = job
	}
	for name, job := range jobs {
		t.Run(name, func(t *testing.T) {
			a, err := b.Areas(job)
			require.NoError(t, err)
			for i, s := range a.Sections {
				require.Equal(t, job.Areas[i].Job, s.Job.Part)
				require.NoError(t, roundTrip(b, s))
			}
		})
	}
}

func sourcesOf(list []section.Source) (names []string) {
	for _, s := range list {
		names = append(names, s.Name)
	}
	return names
}

// What a job of several areas cannot be, and what it is for those who ask in the way of
// one area.
func TestAreasThatAreNotDesigned(t *testing.T) {
	b := standardBook(t)
	read := func(text string) *site.Site {
		job, err := b.Table().Read("job.yaml", []byte("use: foot\nbase: dense\nsoil: {word: sand}\nareas:\n"+text))
		require.NoError(t, err)
		return job
	}
	two := read("  - {name: patio, shape: {length: 9 ft, width: 9 ft}, edges: [{joins: lane, side: 1}]}\n  - {name: lane, area: 600 sq ft, use: truck_yard}\n")
	var misuse *groundrule.UseError
	_, err := b.Design(two)
	require.ErrorAs(t, err, &misuse)
	require.ErrorContains(t, err, "several areas: design it with Book.Areas")
	_, err = b.Otherwise(two, nil)
	require.ErrorAs(t, err, &misuse)
	_, err = b.Ask(two)
	require.ErrorAs(t, err, &misuse)

	a, err := b.Areas(two)
	require.NoError(t, err, "an area that is refused is told, and the others are designed")
	require.Equal(t, []section.Status{section.Designed, section.Refused}, []section.Status{a.Sections[0].Status, a.Sections[1].Status})
	require.Equal(t, section.Refused, a.Status())
	require.Empty(t, a.Joints, "paving that is not built has no joint")

	apart := read("  - {name: patio, area: 80 sq ft}\n  - {name: lane, area: 600 sq ft, use: car_driveway}\n")
	a, err = b.Areas(apart)
	require.NoError(t, err)
	require.Empty(t, a.Joints, "two that do not meet have no joint")

	wrong := read("  - {name: patio, area: 80 sq ft}\n  - {name: lane, area: 600 sq ft, overrides: [{decision: stone_dept, answer: inches(8), by: A, because: b}]}\n")
	_, err = b.Areas(wrong)
	var fault *site.Error
	require.ErrorAs(t, err, &fault)
	require.Equal(t, "areas[1].overrides[0].decision", fault.Faults[0].Path)
	require.Equal(t, 6, fault.Faults[0].Place.Line)
}

// A job of one area is its only section, and paving beside that it tells of is no joint
// of the job.
func TestAreasOfOneArea(t *testing.T) {
	b := standardBook(t)
	job, err := b.Table().Read("job.yaml", []byte("use: foot\nbase: dense\narea: 80 sq ft\nsoil: {word: sand}\nbeside: {depth: 14 in}\n"))
	require.NoError(t, err)
	a, err := b.Areas(job)
	require.NoError(t, err)
	require.Len(t, a.Sections, 1)
	require.Empty(t, a.Joints)
	require.Empty(t, a.Sections[0].Job.Part)
	require.NotEmpty(t, a.Sections[0].Course("joint_beside").Name)
}

// plotJoints is the small rulebook with a joint between areas.
var plotJoints = strings.NewReplacer("course_kind:", "quantity_kind: {about: quantities, words: {material: material, labor: labor}, because: told, source: practice}\n  course_kind:",
	"\ncourses:", `
  joint_bottom:
    asks: How deep is the joint?
    answers: length
    take: first
    when: known(beside.depth)
    rules: [{rule: JOINT, answer: beside.depth, because: "It goes as deep as the other, {beside.depth}.", source: "book, page 3"}]
courses:`, "\nchecks:", `
  - {course: joint, label: Joint, is: stone, when: known(joint_bottom), because: They meet., source: practice, attributes: {below_finish_grade: joint_bottom}}
steps:
  - {step: WALK, says: Walk it., because: One looks first., source: practice}
  - {step: MEET, when: known(beside.depth), says: Join them., because: They meet., source: practice}
quantities:
  - {quantity: EDGE, when: known(beside.length) && known(beside.depth), about: edge, kind: material, item: "'edge'", amount: beside.length, because: told, source: practice}
checks:`).Replace(plot)

// TestJoints holds which areas of a small rulebook join, of which the joint is told,
// and what it takes.
func TestJoints(t *testing.T) {
	for _, c := range []struct {
		name, why, lane, patio string
		want                   []string
	}{
		{"a lane deeper than the patio", "it is told of the deeper, to the depth of the other", "use: car_driveway", "use: foot", []string{"lane beside patio, 9 ft: joint to 6 in; MEET; joint_bottom course.joint step.MEET; lane EDGE 9 ft"}},
		{"a patio deeper than the lane", "whichever is named first", "use: foot", "use: car_driveway", []string{"patio beside lane, 9 ft: joint to 6 in; MEET; joint_bottom course.joint step.MEET; patio EDGE 9 ft"}},
		{"alike", "then of the first", "use: foot", "use: foot", []string{"patio beside lane, 9 ft: joint to 6 in; MEET; joint_bottom course.joint step.MEET; patio EDGE 9 ft"}},
		{"beside other paving", "which is there already, and no part of the job; it has an edge of its own", "use: car_driveway, beside: {depth: 3 in, length: 5 ft}", "use: foot", []string{"lane beside patio, 9 ft: joint to 6 in; MEET; joint_bottom course.joint step.MEET; lane EDGE 5 ft; lane EDGE 9 ft"}},
		{"beside other paving, nobody knows how long", "how long the areas meet does not tell it", "use: car_driveway, beside: {depth: 3 in}", "use: foot", []string{"lane beside patio, 9 ft: joint to 6 in; MEET; joint_bottom course.joint step.MEET; lane EDGE 9 ft"}},
		{"one that is refused", "nothing is built there to join", "use: truck_yard", "use: foot", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, err := plotBook(t, plotJoints).Areas(plotAreas(t, c.lane, c.patio), section.Crew, section.Takeoff, section.Client)
			require.NoError(t, err)
			var got []string
			for _, j := range a.Joints {
				var steps, reasons []string
				for _, w := range j.Steps {
					steps = append(steps, w.ID)
				}
				for _, r := range j.Reasons {
					if !strings.HasPrefix(r.Decision, "quantity.") {
						reasons = append(reasons, r.Decision)
					}
				}
				require.Contains(t, sourcesOf(j.Sources), "book, page 3")
				require.NotContains(t, sourcesOf(j.Sources), "book, page 1", "what the joint does not name is no source of it")
				told := j.Of + " beside " + j.Beside + ", " + j.Length.Text(quantity.US) + ": " + j.Courses[0].Name + " to " + j.Courses[0].Bottom.Text(quantity.US) + "; " + strings.Join(steps, " ") + "; " + strings.Join(reasons, " ")
				require.Len(t, j.Courses, 1)
				for _, s := range a.Sections {
					for _, q := range s.Quantities {
						told += "; " + s.Job.Part + " " + q.ID + " " + q.Amount.Text(quantity.US)
					}
				}
				got = append(got, told)
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
			for _, s := range a.Sections {
				require.NotNil(t, s.Client, "each area in the forms that were asked for, refused or not")
			}
		})
	}
	for _, c := range []struct{ name, why, old, new string }{
		{"an area", "a rule has no answer", "answer: inches(9)", "answer: inches(9) / (strength - 2.5)"},
		{"a joint", "a rule has no answer beside the other area", "answer: beside.depth", "answer: inches(9) / (strength - 2.5)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, err := plotBook(t, replaced(t, plotJoints, c.old, c.new)).Areas(plotAreas(t, "use: car_driveway", "use: foot"))
			require.ErrorAs(t, err, new(*rulebook.RunError), c.why)
			require.Nil(t, a)
		})
	}
}

// plotAreas is a job of a patio, 9 ft square, and a lane that meets one side of it.
func plotAreas(t *testing.T, lane, patio string) *site.Site {
	t.Helper()
	job, err := site.Read("job.yaml", []byte("base: dense\nareas:\n  - {name: patio, shape: {length: 9 ft, width: 9 ft}, edges: [{joins: lane, side: 1}], "+patio+"}\n  - {name: lane, area: 600 sq ft, "+lane+"}\n"))
	require.NoError(t, err)
	return job
}
