package groundrule_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// TestWhatGoverns holds what the README says of the depth of the stone: in most
// sections no publication that was read sets it, and the equation for axle loads
// hardly ever does.
func TestWhatGoverns(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	known, rules, all, tried := map[value.Known]int{}, map[string]int{}, 0, fewer(1000, 200)
	for j := range jobs.Generate(nil, tried, 1) {
		s := sectionOf(t, book, j)
		if s == nil || s.Status != section.Designed || len(s.Reason("stone_need").Taken) == 0 {
			continue
		}
		rule := s.Reason("stone_need").Taken[0]
		known[s.Source(rule.Source).Known]++
		rules[rule.ID]++
		all++
	}
	t.Logf("%d sections with stone: %v, %v", all, known, rules)
	require.Greater(t, all, tried/2)
	require.Greater(t, 10*(known[value.Practice]+known[value.Own]+known[value.Memory]), 9*all, "nine of ten")
	require.Less(t, 50*rules["NEED-STRUCTURE"], all, "hardly any")
}
