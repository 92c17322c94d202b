package groundrule_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

const (
	ofDepth = "amendment: depths\ncompany: Our Paving\nwho: A. Keeper\nwhen: 2026-03-01\nwhy: Our own way.\n"
	// A course more, with a thickness, on a condition.
	withMat = `add:
  - decision: mat_thickness
    asks: How thick is the mat?
    answers: length
    take: first
    when: base.open_graded
    rules: [{rule: MAT, answer: inches(0.5), because: As bought., source: company}]
  - {course: mat, before: bedding, label: Mat, is: bedding_course, when: known(mat_thickness), because: It keeps the bedding dry., source: company, attributes: {thickness: mat_thickness}}
`
	drainedJob = "use: car_driveway\nbase: open\njoints: open\narea: 600 sq ft\nsoil: {uscs: CL, cbr: [4]}\nwater: {groundwater: 8 ft}\nfrost: {depth: 30 in}\nsurface_slope: 2 %\nground_falls: away_from_house\n"
	denseJob   = "use: foot\nbase: dense\narea: 200 sq ft\nsoil: {uscs: SC, cbr: [9]}\nwater: {wet_ground: no}\nfrost: {frost_free: yes}\nsurface_slope: 2 %\nground_falls: away_from_house\n"
)

// The depth that rules read is that of the courses, whatever courses a company adds,
// changes or leaves out: what is told from it, the drain and the dig, lies with them.
func TestDepthIsThatOfTheCourses(t *testing.T) {
	for _, c := range []struct{ name, why, job, changes, depth string }{
		{"the standard's own", "what the others are held against", drainedJob, "", "17-1/8 in"},
		{"a course added", "half an inch more, and the drain lies that much lower", drainedJob, withMat, "17-5/8 in"},
		{"a course added for other jobs", "where it is not laid it counts for nothing", denseJob, withMat, "9-3/8 in"},
		{"two courses added", "each counts", drainedJob, withMat + "  - {course: mat_again, before: mat, label: Mat, is: bedding_course, when: known(mat_thickness), because: Two are better., source: company, attributes: {thickness: mat_thickness}}\n", "18-1/8 in"},
		{"a course without a thickness", "it takes no room", drainedJob, "add:\n  - {course: more_bedding, before: bedding, label: Name of it, is: bedding_course, when: known(bedding_material), because: It is named., source: company, attributes: {material: bedding_material}}\n", "17-1/8 in"},
		{"a course that a company leaves out", "its 2 in are not dug", drainedJob, "retire:\n  - {course: bedding, because: We set them dry.}\n", "15-1/8 in"},
		{"a course of another thickness", "2-1/2 in take the place of 2 in", drainedJob, "add:\n  - {decision: our_bed, asks: How thick, answers: length, take: first, rules: [{rule: OUR-BED, answer: inches(2.5), because: Ours., source: company}]}\n" +
			"replace:\n  - {course: bedding, set: {attributes: {material: bedding_material, thickness: our_bed}, because: Ours is thick., source: company}}\n", "17-5/8 in"},
		{"a course worded otherwise", "it is as thick as it was", drainedJob, "replace:\n  - {course: bedding, set: {label: Our bedding}, because: Our word.}\n", "17-1/8 in"},
		{"a course moved", "it lies elsewhere, and is as thick", drainedJob, "move:\n  - {course: fabric, before: stone_top, because: So we do.}\n", "17-1/8 in"},
	} {
		t.Run(c.name, func(t *testing.T) {
			layers := []rulebook.Layer{}
			if c.changes != "" {
				layers = append(layers, rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(ofDepth + c.changes)}}})
			}
			b, err := groundrule.OpenStandard(groundrule.WithAmendments(layers...))
			require.NoError(t, err, c.why)
			job, err := site.Read("job.yaml", []byte(c.job))
			require.NoError(t, err)
			d, err := b.Design(job)
			require.NoError(t, err, c.why)
			s, err := d.Section(section.Takeoff)
			require.NoError(t, err, c.why)
			answer := func(name string) string { v, _ := d.Answer(name); return v.String() }
			require.Equal(t, c.depth, s.Depth.String(), c.why)
			require.Equal(t, c.depth, answer("section_depth"), c.why)
			if c.job == drainedJob {
				require.Equal(t, c.depth, answer("drain_invert"), "the pipe lies on the bottom")
				require.Equal(t, c.depth, s.Course("drain").Top.String())
			}
		})
	}
}

// Whoever lets the depth be another than that of the courses gets no rulebook.
func TestAnotherDepthThanThatOfTheCourses(t *testing.T) {
	whole := "{asks: How deep, answers: length, take: first, rules: [{rule: OURS, answer: inches(20), because: Ours., source: company}]}"
	for _, c := range []struct{ name, of, at, changes string }{
		{"a rule worked out otherwise", "section_depth", "a.yaml:7:12", "replace:\n  - {rule: SECTION-AS-DESIGNED, set: {answer: designed_depth + inches(1), because: To be safe., source: company}}\n"},
		{"a rule that speaks first", "section_depth", "a.yaml:7:12", "add:\n  - {rule: OURS, to: section_depth, before: SECTION-REFILLED, answer: inches(20), because: Ours., source: company}\n"},
		{"a rule before another", "stone_laid", "a.yaml:7:12", "add:\n  - {rule: OURS, before: LAID-ONE, answer: inches(20), because: Ours., source: company}\n"},
		{"a rule behind another", "stone_laid", "a.yaml:7:12", "add:\n  - {rule: OURS, after: LAID-MIDDLE, answer: inches(20), because: Ours., source: company}\n"},
		{"a rule taken away", "designed_depth", "a.yaml:7:12", "retire:\n  - {rule: SECTION-OF-PANELS, because: We lay none.}\n"},
		{"a rule moved", "bedding_counted", "a.yaml:7:12", "move:\n  - {rule: BEDDING-NOT, before: BEDDING-COUNTED, because: So we do.}\n"},
		{"another decision in its place", "section_depth", "a.yaml:7:16", "replace:\n  - {decision: section_depth, with: " + whole + ", because: Ours.}\n"},
		{"a condition of the decision", "stone_laid", "a.yaml:7:16", "replace:\n  - {decision: stone_laid, set: {when: base.open_graded}, because: Ours.}\n"},
		{"a limit more", "designed_depth", "a.yaml:7:13", "add:\n  - {limit: OURS, to: designed_depth, at_most: inches(12), because: Ours., source: company}\n"},
		{"a limit otherwise", "section_depth", "a.yaml:7:13", "replace:\n  - {limit: SECTION-DEPTH-NOT-LESS, set: {at_least: inches(1), because: Ours., source: company}}\n"},
		{"a limit taken away", "section_depth", "a.yaml:7:13", "retire:\n  - {limit: SECTION-DEPTH-NOT-LESS, because: Ours.}\n"},
		{"another depth permitted", "section_depth", "a.yaml:7:32", "variances:\n  - {variance: shallow, limit: SECTION-DEPTH-NOT-LESS, to: inches(1), who: The owner, why: Ours., until: 2027-01-01}\n"},
		{"another sum permitted", "stone_laid", "a.yaml:7:32", "variances:\n  - {variance: shallow, limit: LAID-NOT-LESS, to: inches(1), who: The owner, why: Ours., until: 2027-01-01}\n"},
		{"what is above the stone", "above_stone", "a.yaml:7:12", "replace:\n  - {term: above_stone, set: {value: paver_depth, because: Ours., source: company}}\n"},
		{"what courses count", "added_depth", "a.yaml:7:12", "replace:\n  - {term: added_depth, set: {value: inches(1), because: Ours., source: company}}\n"},
		{"nothing that courses count", "added_depth", "a.yaml:7:12", "retire:\n  - {term: added_depth, because: Ours.}\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			day, err := rulebook.ParseDate("2026-06-01")
			require.NoError(t, err)
			_, err = groundrule.OpenStandard(groundrule.AsOf(day), groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(ofDepth + c.changes)}}}))
			var wrong *rulebook.Error
			require.ErrorAs(t, err, &wrong)
			require.Len(t, wrong.Faults, 1, wrong.Error())
			require.Equal(t, "not-changed", string(wrong.Faults[0].Code))
			require.Contains(t, wrong.Faults[0].Message, c.of+" only adds up what others answer")
			require.Equal(t, "ours/"+c.at, wrong.Faults[0].Place.String())
		})
	}
}

// A course that an amendment leaves out by a decision of it, where its thickness is still
// counted, stops the job, and the amendment is named.
func TestACourseCountedThatIsNotLaid(t *testing.T) {
	b, err := groundrule.OpenStandard(groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(ofDepth +
		"replace:\n  - {decision: bedding_material, set: {when: base.dense_graded}, because: We set them dry.}\n")}}}))
	require.NoError(t, err)
	job, err := site.Read("job.yaml", []byte(drainedJob))
	require.NoError(t, err)
	s, err := cameTo(b, job)
	require.NoError(t, err)
	require.Equal(t, section.Stopped, s.Status)
	require.Equal(t, "section_depth", s.Crossed[0].Decision)
	require.Equal(t, "at most 15-1/8 in", s.Crossed[0].Wanted.US)
	require.Equal(t, []string{`amendment "depths" of Our Paving (A. Keeper, 2026-03-01)`}, s.Crossed[0].By)
}

// What a course that a company adds counts for the depth is not for a job to decide.
func TestACourseCountsAsItIsLaid(t *testing.T) {
	b, err := groundrule.OpenStandard(groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(ofDepth + withMat)}}}))
	require.NoError(t, err)
	for answer, limit := range map[string]string{"inches(0)": "DEPTH-OF-MAT-NOT-LESS", "inches(1)": "DEPTH-OF-MAT-NOT-MORE"} {
		job, err := site.Read("job.yaml", []byte(drainedJob))
		require.NoError(t, err)
		job.Overrides = []site.Override{{Decision: "depth_of_mat", Answer: answer, By: "A. Tester", Because: "to try it"}}
		s, err := cameTo(b, job)
		require.NoError(t, err)
		require.Equal(t, section.Stopped, s.Status)
		require.Equal(t, limit, s.Crossed[0].Limit)
	}
}
