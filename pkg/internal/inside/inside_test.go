package inside_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

func TestStatus(t *testing.T) {
	refusal := func(id string) *engine.Refusal { return &engine.Refusal{Refusal: rulebook.Refusal{ID: id}} }
	check := func(id string, failing rulebook.Failing, holds bool) *engine.Checked {
		return &engine.Checked{Check: &engine.Check{Check: rulebook.Check{ID: id, Failing: failing}}, Holds: holds}
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
