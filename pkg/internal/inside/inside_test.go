package inside_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

func TestStatus(t *testing.T) {
	refusal := func(id string) *engine.Refusal { return &engine.Refusal{Refusal: rulebook.Refusal{ID: id}} }
	check := func(id string, failing rulebook.Failing, holds bool) *engine.Checked {
		return &engine.Checked{Check: &engine.Check{Check: rulebook.Check{ID: id, Failing: failing}}, Holds: holds}
	}
	crossed := func(id string, v *rulebook.Variance) *engine.Crossed {
		return &engine.Crossed{Limit: &engine.Limit{Bound: rulebook.Bound{ID: id}}, Variance: v}
	}
	for _, c := range []struct {
		name, why string
		outcome   engine.Outcome
		status    section.Status
		ids       []string
	}{
		{"nothing amiss", "a job that crosses no limit is designed", engine.Outcome{}, section.Designed, nil},
		{"all hold", "a check that holds stops nothing", engine.Outcome{Checks: []*engine.Checked{check("A", rulebook.Stops, true)}}, section.Designed, nil},
		{"a caution", "a check may fail and only caution", engine.Outcome{Checks: []*engine.Checked{check("A", rulebook.Cautions, false)}}, section.Designed, nil},
		{"checks fail", "each that stops is told", engine.Outcome{Checks: []*engine.Checked{
			check("A", rulebook.Stops, false), check("B", rulebook.Cautions, false), check("C", rulebook.Stops, true), check("D", rulebook.Stops, false)}},
			section.Stopped, []string{"A", "D"}},
		{"limit crossed", "without permission it stops the section", engine.Outcome{Crossed: []*engine.Crossed{crossed("L", nil)}}, section.Stopped, []string{"L"}},
		{"limit crossed by permission", "a variance lets it be", engine.Outcome{Crossed: []*engine.Crossed{crossed("L", &rulebook.Variance{})}}, section.Designed, nil},
		{"limit and check", "both are told", engine.Outcome{Crossed: []*engine.Crossed{crossed("L", nil)}, Checks: []*engine.Checked{check("A", rulebook.Stops, false)}}, section.Stopped, []string{"L", "A"}},
		{"refused", "each limit is told", engine.Outcome{Refusals: []*engine.Refusal{refusal("X"), refusal("Y")}}, section.Refused, []string{"X", "Y"}},
		{"refused and stopped", "what is refused is not asked for its checks", engine.Outcome{Refusals: []*engine.Refusal{refusal("X")}, Checks: []*engine.Checked{check("A", rulebook.Stops, false)}},
			section.Refused, []string{"X"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, ids := inside.Status(&c.outcome)
			require.Equal(t, c.status, status, c.why)
			require.Equal(t, c.ids, ids, c.why)
		})
	}
}

// TestOverrides holds that an override is at its place in the job file, down to the
// character, and where it was built in Go at the place that it has.
func TestOverrides(t *testing.T) {
	job, err := site.Read("job.yaml", []byte("area: 1 sq ft\nuse: foot\nbase: dense\noverrides:\n  - {decision: base_depth, answer: inches(4), by: A, because: b}\n"))
	require.NoError(t, err)
	o := inside.Overrides(job)[0]
	require.Equal(t, [4]string{"base_depth", "inches(4)", "A", "b"}, [4]string{o.Decision, o.Answer, o.By, o.Because})
	require.Equal(t, "job.yaml:5:43", o.At("overrides[0].answer", 7).String())
	built := &site.Site{Overrides: []site.Override{{Decision: "base_depth", Place: diagnostic.Place{File: "form", Line: 3}}}}
	require.Equal(t, "form:3", inside.Overrides(built)[0].At("overrides[0].answer", 7).String())
}

// TestRun holds what a run without any telling comes to.
func TestRun(t *testing.T) {
	standard, err := groundrule.Standard()
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		change    func(*site.Site)
		status    section.Status
		ids       []string
		err       string
	}{
		{"designed", "the usual case", func(*site.Site) {}, section.Designed, nil, ""},
		{"refused", "by a limit of the rulebook", func(s *site.Site) { s.Use = "truck_yard" }, section.Refused, []string{"HEAVIER-USE"}, ""},
		{"override that cannot be followed", "the job is at fault", func(s *site.Site) { s.Overrides = []site.Override{{Decision: "nosuch", Answer: "1"}} }, "", nil, "an override names a decision that does not exist"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := &site.Site{Area: quantity.SquareFeet(100), Use: "foot", Base: "dense"}
			c.change(job)
			ran := inside.Run(inside.Rules(standard), job)
			require.Equal(t, c.status, ran.Status, c.why)
			require.Equal(t, c.ids, ran.Why, c.why)
			require.Equal(t, c.err == "", ran.Err == nil)
			require.Equal(t, c.err == "", ran.Outcome != nil)
			if c.err != "" {
				require.ErrorContains(t, ran.Err, c.err, c.why)
			}
		})
	}
}
