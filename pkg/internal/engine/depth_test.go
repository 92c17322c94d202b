package engine

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// deepBook has two courses, of 4 in and 6 in, and the decision that adds them up. The
// lower is laid where low_laid says so, which it always does.
var deepBook = chapterOf(terms([4]string{"added_depth", "length", "", "inches(0)"}),
	decisions(
		decision("top_depth", "length", "first", "", [3]string{"TOP", "", "inches(4)"}),
		decision("low_depth", "length", "first", "", [3]string{"LOW", "", "inches(6)"}),
		decision("spare_depth", "length", "first", "", [3]string{"SPARE", "", "inches(1)"}),
		decision("low_laid", "bool", "first", "", [3]string{"LAID", "", "true"}),
		decision("whole_depth", "length", "first", "", [3]string{"WHOLE", "", "top_depth + low_depth + added_depth"}),
		"    limits:\n      - {limit: MOST, at_most: by_rules, because: It is the sum of the courses., source: practice}\n"),
	"courses:\n",
	"  - {course: top, label: Top, is: stone, because: laid, source: practice, attributes: {thickness: top_depth}}\n",
	"  - {course: low, label: Low, is: stone, when: low_laid, because: laid, source: practice, attributes: {thickness: low_depth}}\n")

// TestDepthOfAmendedCourses holds that the depth counts each course that an amendment
// adds, changes or takes away, where it is laid.
func TestDepthOfAmendedCourses(t *testing.T) {
	for _, c := range []struct {
		name, why, amendment string
		wet, dry             string
		counted              string // the decisions by which amended courses are counted
		crossed              bool
	}{
		{"none", "4 and 6", "", "10 in", "10 in", "", false},
		{"added", "1 more", "add:\n  - {course: mat, after: top, label: Mat, is: stone, because: told, source: company, attributes: {thickness: spare_depth}}\n", "11 in", "11 in", "depth_of_mat", false},
		{"added on wet ground", "1 more where it is laid", "add:\n  - {course: mat, after: top, label: Mat, is: stone, when: wet, because: told, source: company, attributes: {thickness: spare_depth}}\n", "11 in", "10 in", "depth_of_mat", false},
		{"taken away", "4 alone", "retire:\n  - {course: low, because: told}\n", "4 in", "4 in", "depth_without_low", false},
		{"thinner", "1 in place of 6", "replace:\n  - {course: low, set: {attributes: {thickness: spare_depth}, because: told, source: company}}\n", "5 in", "5 in", "depth_of_low depth_without_low", false},
		{"renamed", "as thick as it was", "replace:\n  - {course: low, set: {label: Lowest, because: told, source: company}}\n", "10 in", "10 in", "", false},
		{"on wet ground alone", "6 less where it is not laid any more", "replace:\n  - {course: low, set: {when: wet, because: told, source: company}}\n", "10 in", "4 in", "depth_of_low depth_without_low", false},
		{"moved", "it is where it was not, and as thick", "move:\n  - {course: low, before: top, because: told}\n", "10 in", "10 in", "", false},
		{"left out by a rule", "it is counted and not laid, so the job is stopped", "add:\n  - {rule: NO, before: LAID, answer: 'false', because: told, source: company}\n", "10 in", "10 in", "", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			setup := testSetup()
			setup.Thickness, setup.Added, setup.Depth = "thickness", "added_depth", "whole_depth"
			if c.amendment != "" {
				setup.Amendments = []rulebook.Layer{{Label: "ours", FS: filesOf(map[string]string{"a.yaml": keeper + c.amendment})}}
			}
			book, err := Open(filesOf(map[string]string{"a.yaml": deepBook, "words.yaml": wordsFile}), setup)
			require.NoError(t, err, c.why)
			counted := namesIn(book.Decisions(), func(d *Decision) string { return d.Name })
			counted = slices.DeleteFunc(counted, func(name string) bool { return !strings.HasPrefix(name, "depth_") })
			require.Equal(t, c.counted, strings.Join(counted, " "), "no other course is counted anew")
			for wet, want := range map[bool]string{true: c.wet, false: c.dry} {
				out, err := book.Run(plain().with("wet", wet), nil)
				require.NoError(t, err)
				v, err := out.Value("whole_depth")
				require.NoError(t, err)
				require.Equal(t, want, v.Text(quantity.US), c.why)
				if !c.crossed {
					require.Empty(t, out.Crossed, c.why)
					continue
				}
				require.Len(t, out.Crossed, 1, c.why)
				require.Equal(t, "MOST", out.Crossed[0].Limit.ID)
				require.Equal(t, "4 in", out.Crossed[0].Value.Text(quantity.US), "what is laid")
				require.Equal(t, "first", out.Crossed[0].Amended[0].By.Name, "by whose doing it is so")
			}
		})
	}
}

// TestSumsAreNotAmended holds that no amendment changes what only adds up others.
func TestSumsAreNotAmended(t *testing.T) {
	summed := strings.Replace(deepBook, "  whole_depth:\n", "  whole_depth:\n    sum: true\n", 1)
	require.NotEqual(t, deepBook, summed)
	for _, c := range []struct {
		name, why, amendment string
		refused              bool
	}{
		{"another rule of it", "the depth would not be that of the courses", "add:\n  - {rule: NEW, to: whole_depth, answer: inches(1), because: told, source: company}\n", true},
		{"its rule otherwise", "as much", "replace:\n  - {rule: WHOLE, set: {answer: inches(1), because: told, source: company}}\n", true},
		{"what it adds up", "the sum follows", "add:\n  - {rule: NEW, before: TOP, answer: inches(1), because: told, source: company}\n", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			setup := testSetup()
			setup.Amendments = []rulebook.Layer{{Label: "ours", FS: filesOf(map[string]string{"a.yaml": keeper + c.amendment})}}
			_, err := Open(filesOf(map[string]string{"a.yaml": summed, "words.yaml": wordsFile}), setup)
			if !c.refused {
				require.NoError(t, err, c.why)
				return
			}
			require.ErrorContains(t, err, "the decision whole_depth only adds up what others answer, and no amendment changes that", c.why)
		})
	}
}
