package differ_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// garden opens a small invented rulebook, with texts replaced by others; a step is added
// to it.
func garden(t *testing.T, replaced ...string) *engine.Book {
	t.Helper()
	data, err := os.ReadFile("../impact/testdata/garden.yaml")
	require.NoError(t, err)
	text := string(data) + "\nsteps:\n  - step: BED-MESH\n    when: yields\n    says: Lay the mesh tight.\n    because: Slack carries nothing.\n    source: practice\n"
	for i := 0; i < len(replaced); i += 2 {
		require.Contains(t, text, replaced[i])
		text = strings.Replace(text, replaced[i], replaced[i+1], 1)
	}
	book, err := groundrule.Open(fstest.MapFS{"garden.yaml": {Data: []byte(text)}})
	require.NoError(t, err)
	return inside.Rules(book)
}

func ran(t *testing.T, book *engine.Book, use string, cbr float64, overrides ...site.Override) *engine.Outcome {
	t.Helper()
	job := &site.Site{Area: quantity.SquareFeet(100), Use: use, Base: "dense", Overrides: overrides}
	if cbr > 0 {
		job.Soil.CBR = []float64{cbr}
	}
	out := inside.Run(book, job)
	require.NoError(t, out.Err)
	return out.Outcome
}

// base is what a person decides of the base.
func base(answer string) site.Override {
	return site.Override{Decision: "base_thickness", Answer: answer, By: "A", Because: "b"}
}

// told is a change as one line.
func told(c differ.Change) string {
	of := func(v value.Value) string {
		if v.IsZero() {
			return "none"
		}
		return v.Text(quantity.US)
	}
	out := strings.Join(strings.Fields(string(c.What)+" "+c.Course+" "+c.Name), " ") + ": " + of(c.Before) + " -> " + of(c.After)
	if c.Decision != "" {
		out += fmt.Sprintf(" (%s: %s -> %s)", c.Decision, c.RuleBefore, c.RuleAfter)
	}
	return out
}

// The sections of the garden are worked out by hand: a walk on ground that nobody tested
// has felt, 4 in of stone and slabs of 50 mm; on ground of CBR 2 it has mesh and 6 in; a
// driveway there has 9 in and slabs of 80 mm.
func TestChanges(t *testing.T) {
	plain := garden(t)
	noMat := garden(t, "mat_wanted:\n    value: true", "mat_wanted:\n    value: false")
	fewer := garden(t, "attributes: {strength: strength, tell: to_tell}", "attributes: {tell: to_tell}")
	walk := ran(t, plain, "foot", 0)
	soft := ran(t, plain, "foot", 2)
	thin := ran(t, plain, "foot", 2, base("inches(4)"))
	const fails, holds = "check BASE-DEEP: yes -> no", "check BASE-DEEP: no -> yes"
	for _, c := range []struct {
		name, why     string
		before, after *engine.Outcome
		want          []string
	}{
		{"nothing", "one section differs in nothing from itself", walk, walk, nil},
		{"all the way", "every course, from the bottom up, then what is given", walk, ran(t, plain, "car_driveway", 2), []string{
			"attribute subgrade strength: 4 -> 2 (strength: STRENGTH-TAKEN -> STRENGTH-READ)",
			"attribute subgrade tell: none -> the ground is soft, wheels come (to_tell:  -> TELL-SOFT, TELL-WHEELS)",
			"attribute mat kind: felt -> mesh (mat_laid: MAT-WANTED -> MAT-SOFT)",
			"attribute base thickness: 4 in -> 9 in (base_thickness: BASE-AS-NEEDED -> BASE-AS-NEEDED)",
			"attribute slabs material: thin slab -> thick slab (slab_laid: SLAB-FOOT -> SLAB-WHEELS)",
			"attribute slabs thickness: 1.97 in -> 3.15 in (slab_height: HEIGHT-CATALOG -> HEIGHT-CATALOG)",
			"caution SOFT: no -> yes", "step BED-MESH: no -> yes"}},
		{"laid no longer", "a course that is not there has no attributes", walk, ran(t, noMat, "foot", 0), []string{"laid mat: yes -> no"}},
		{"laid now", "nor has one that was not", ran(t, noMat, "foot", 0), walk, []string{"laid mat: no -> yes"}},
		{"by a person", "the value is the same, and who decided it is not", walk, ran(t, plain, "foot", 0, base("inches(4)")), []string{"reason base thickness: 4 in -> 4 in (base_thickness: BASE-AS-NEEDED -> override)"}},
		{"an attribute gone", "it is told behind those that are left", walk, ran(t, fewer, "foot", 0), []string{"attribute subgrade strength: 4 -> none (strength: STRENGTH-TAKEN -> )"}},
		{"a new attribute", "as the other way round", ran(t, fewer, "foot", 0), walk, []string{"attribute subgrade strength: none -> 4 (strength:  -> STRENGTH-TAKEN)"}},
		{"a check fails", "what failed in one is told once", soft, thin, []string{"attribute base thickness: 6 in -> 4 in (base_thickness: BASE-AS-NEEDED -> override)", fails}},
		{"a check holds again", "and the other way round", thin, soft, []string{"attribute base thickness: 4 in -> 6 in (base_thickness: override -> BASE-AS-NEEDED)", holds}},
		{"a check is asked and fails", "where it was not asked before", ran(t, garden(t, "when: mat_laid == mesh\n    holds", "when: use != foot\n    holds"), "foot", 2, base("inches(4)")), thin, []string{"check BASE-DEEP: none -> no"}},
		{"a check is asked and holds", "which asks nothing of anyone", ran(t, garden(t, "when: mat_laid == mesh\n    holds", "when: use != foot\n    holds"), "foot", 2), soft, nil},
		{"given no longer", "what goes is told behind", ran(t, plain, "foot", 2.9), ran(t, plain, "foot", 3.1), []string{
			"attribute subgrade strength: 2.9 -> 3.1 (strength: STRENGTH-READ -> STRENGTH-READ)",
			"attribute subgrade tell: the ground is soft -> none (to_tell: TELL-SOFT -> )",
			"attribute mat kind: mesh -> felt (mat_laid: MAT-SOFT -> MAT-WANTED)",
			"attribute base thickness: 6 in -> 4 in (base_thickness: BASE-AS-NEEDED -> BASE-AS-NEEDED)",
			"caution SOFT: yes -> no", "step BED-MESH: yes -> no"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, each := range differ.Changes(plain.Courses(), c.before, c.after) {
				got = append(got, told(each))
				require.Equal(t, each.Course != "", each.Label != "", "a course is named to a person too")
			}
			require.Equal(t, c.want, got, c.why)
		})
	}
}

func TestDepth(t *testing.T) {
	book := garden(t)
	walk := ran(t, book, "foot", 0)
	require.InDelta(t, 4*25.4+50, differ.Depth(walk).Millimeters(), 1e-9, "4 in of stone and a slab of 50 mm")
	require.InDelta(t, 9*25.4+80, differ.Depth(ran(t, book, "car_driveway", 2)).Millimeters(), 1e-9)
	for _, c := range []struct {
		course, decision string
		thick            bool
		inches           float64
	}{{"subgrade", "", false, 0}, {"mat", "", false, 0}, {"base", "base_thickness", true, 4}, {"slabs", "slab_height", true, 50 / 25.4}} {
		course := walk.Courses[slices.IndexFunc(walk.Courses, func(each *engine.Course) bool { return each.Name == c.course })]
		thickness, ok := differ.Thickness(walk, course)
		require.Equal(t, c.thick, ok, c.course)
		require.InDelta(t, c.inches, thickness.Inches(), 1e-9, c.course)
		require.Equal(t, c.decision, differ.Attributed(course, inside.Thickness), c.course)
	}
	require.True(t, differ.Answer(walk, "nothing_of_this_name").IsZero())
}
