package groundrule_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// TestOptions holds what comes of the options of a few jobs: each with its status, what
// refuses or stops it, and its depth.
func TestOptions(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, c := range []struct {
		name, why, job string
		want           []string
	}{
		{"patio", "the published minimum is less than weak or freezing ground asks for", "use: foot\nbase: dense\nsoil: {word: clay, consistency: stiff}", []string{
			" designed 9-3/8 in", "OPEN-BASE designed 12-3/8 in", "PANEL-BASE refused nothing PANEL-IN-FROST", "NO-GRID designed 9-3/8 in", "WITH-TWO-GRIDS designed 15-3/8 in",
			"MULTIAXIAL-GRID designed 9-3/8 in", "MINIMUM-FOOT stopped 7-3/8 in NEED-NOT-LESS"}},
		{"firm and free of frost", "the minimum may be built where nothing asks for more", "use: foot\nbase: dense\nsoil: {cbr: 12}\nwater: {wet_ground: no}\nfrost: {frost_free: yes}", []string{
			" designed 9-3/8 in", "OPEN-BASE designed 10-3/8 in", "PANEL-BASE designed 4-1/8 in", "NO-GRID designed 7-3/8 in", "WITH-TWO-GRIDS designed 15-3/8 in",
			"MULTIAXIAL-GRID designed 9-3/8 in", "MINIMUM-FOOT designed 7-3/8 in"}},
		{"weak driveway", "the grid that the ground calls for cannot be left out", "use: car_driveway\nbase: dense\nsoil: {cbr: 2.5}\nfrost: {frost_free: yes}", []string{
			" designed", "OPEN-BASE designed", "NO-GRID stopped", "WITH-ONE-GRID designed", "MULTIAXIAL-GRID designed", "MINIMUM-DRIVEWAY stopped"}},
		{"outside of the rules", "what refuses the job refuses its options too", "use: truck_yard\nbase: dense", []string{
			" refused nothing HEAVIER-USE", "OPEN-BASE refused nothing HEAVIER-USE"}},
		{"refused for its base", "another base may be what it needs", "use: foot\nbase: panel\nsoil: {cbr: 2.5}\nfrost: {frost_free: yes}", []string{
			" refused nothing PANEL-ON-SOFT-GROUND", "DENSE-BASE designed", "OPEN-BASE designed"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			options, err := book.Options(jobOf(t, c.job), section.Takeoff)
			require.NoError(t, err)
			var got []string
			for i, o := range options {
				if got = append(got, strings.Join(append([]string{o.Option, string(o.Status), o.Depth.Text(quantity.US)}, o.Why...), " ")); i < len(c.want) && !strings.Contains(c.want[i], " in") && !strings.Contains(c.want[i], "nothing") {
					got[i] = o.Option + " " + string(o.Status) // its depth is held elsewhere
				}
				require.Equal(t, o.Status, o.Section.Status)
				require.Equal(t, i > 0, o.Gives.US != "" && o.Lacks.US != "" && o.Because.US != "" && o.Source != "", "each says what it gives and lacks, and why")
			}
			require.Empty(t, cmp.Diff(c.want, got[:min(len(got), len(c.want))]), c.why)
		})
	}
}

func jobOf(t *testing.T, text string) *site.Site {
	t.Helper()
	job, err := site.Read("job.yaml", []byte("area: 400 sq ft\n"+text+"\n"))
	require.NoError(t, err)
	return job
}

// TestOptionDecides holds that what an option decides stands in its section as an
// override does, with who and why, and takes the place of the job's own.
func TestOptionDecides(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	options, err := book.Options(jobOf(t, "use: car_driveway\nbase: dense\nsoil: {cbr: 4.5}\nfrost: {frost_free: yes}\noverrides: [{decision: grid_layers, answer: 1, by: J. Orr, because: One is enough.}]"))
	require.NoError(t, err)
	for _, o := range options {
		if o.Option != "WITH-TWO-GRIDS" {
			continue
		}
		require.Len(t, o.Section.Overrides, 1)
		by := o.Section.Overrides[0]
		require.Equal(t, [2]string{"grid_layers", "WITH-TWO-GRIDS"}, [2]string{by.Decision, by.By})
		require.Equal(t, o.Because.US, by.Because)
		return
	}
	t.Fatal("the job has one grid, and another is not offered")
}

// TestEffectsOfSections holds what differs between two sections, and what makes it.
func TestEffectsOfSections(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	designed := func(job string) *section.Section {
		design, err := book.Design(jobOf(t, job))
		require.NoError(t, err)
		s, err := design.Section(section.Takeoff)
		require.NoError(t, err)
		return s
	}
	const patio = "use: foot\nbase: dense\nfrost: {frost_free: yes}\nwater: {wet_ground: no}\n"
	firm := designed(patio + "soil: {cbr: 12}")
	require.Empty(t, firm.Effects(designed(patio+"soil: {cbr: 12}")), "nothing differs from itself")
	told := map[string]section.Effect{}
	for _, e := range firm.Effects(designed(patio + "soil: {cbr: 2.5}")) {
		told[e.Course+" "+e.What] = e
	}
	for _, c := range []struct{ name, why, effect, without, with, makes string }{
		{"dig", "it is told last, of no course", " dig", "9-3/8 in", "11-3/8 in", ""},
		{"thickness", "what makes it is the rule for the stone, however many decisions pass it on", "Base all stone", "6 in", "8 in", "grid split by SPLIT-WOVEN in place of SPLIT-NONE; stone need by NEED-OVER-WOVEN in place of NEED-GRID-COVER"},
		{"a value", "a measured value is what makes it", "Prepared subgrade CBR", "12", "2.5", "CBR 2.5 in place of 12"},
	} {
		t.Run(c.name, func(t *testing.T) {
			e, ok := told[c.effect]
			require.True(t, ok, "%s: %v", c.why, told)
			require.Equal(t, [2]string{c.without, c.with}, [2]string{e.Without.Text(quantity.US), e.With.Text(quantity.US)}, c.why)
			var makes []string
			for _, m := range e.Makes {
				if m.RuleWith == "" {
					makes = append(makes, m.What+" "+m.With.Text(quantity.US)+" in place of "+m.Without.Text(quantity.US))
				} else {
					makes = append(makes, m.What+" by "+m.RuleWith+" in place of "+m.RuleWithout)
				}
			}
			require.Equal(t, c.makes, strings.Join(makes, "; "), c.why)
		})
	}
}

// TestOptionsOfTheJob holds that the alternatives that a job names come behind the
// rulebook's, also where a stream or a review passes them by.
func TestOptionsOfTheJob(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	const plain = "use: foot\nbase: dense\nsoil: {cbr: 4}\nfrost: {frost_free: yes}"
	job := jobOf(t, plain+"\nalternatives: [{name: softer, soil: {cbr: 2}}, {name: for trucks, use: truck_yard}]")
	options, err := book.Options(job)
	require.NoError(t, err)
	for i, c := range []struct {
		name   string
		status section.Status
	}{{"softer", section.Designed}, {"for trucks", section.Refused}} {
		o := options[len(options)-2+i]
		require.Equal(t, c.name, o.Option)
		require.Equal(t, c.status, o.Status)
		require.NotEmpty(t, o.Differs)
	}
	design, err := book.Design(job)
	require.NoError(t, err)
	without, err := book.Design(jobOf(t, plain))
	require.NoError(t, err)
	one, err := design.Section()
	require.NoError(t, err)
	other, err := without.Section()
	require.NoError(t, err)
	require.Empty(t, one.Effects(other), "its own section does not know of them")
	require.Empty(t, cmp.Diff(other.Absent, one.Absent), "nor tells that they have no effect")
}
