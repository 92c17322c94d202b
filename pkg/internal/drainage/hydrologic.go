package drainage

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// HydrologicGroup is the hydrologic soil group: A takes water fastest, D slowest.
// A dual group such as A/D is A where drained and D where not.
type HydrologicGroup string

// The groups.
const (
	GroupA  HydrologicGroup = "A"
	GroupB  HydrologicGroup = "B"
	GroupC  HydrologicGroup = "C"
	GroupD  HydrologicGroup = "D"
	GroupAD HydrologicGroup = "A/D"
	GroupBD HydrologicGroup = "B/D"
	GroupCD HydrologicGroup = "C/D"
)

// Vocabulary lists the groups.
func (HydrologicGroup) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "hydrologic_group",
		About: "NRCS hydrologic soil group of the ground",
		Words: []value.WordEntry{
			{Name: "hsg_a", Label: string(GroupA), About: "takes water fast: gravel and sand"},
			{Name: "hsg_b", Label: string(GroupB), About: "takes water at a middling rate"},
			{Name: "hsg_c", Label: string(GroupC), About: "takes water slowly"},
			{Name: "hsg_d", Label: string(GroupD), About: "takes water very slowly: clay, or water close below"},
			{Name: "hsg_a_d", Label: string(GroupAD), About: "A where drained, D where not"},
			{Name: "hsg_b_d", Label: string(GroupBD), About: "B where drained, D where not"},
			{Name: "hsg_c_d", Label: string(GroupCD), About: "C where drained, D where not"},
		},
	}
}

// DrainedGroup returns the first letter of a dual group, and a single group as it is.
//
// Source: NRCS soil report, seen.
func DrainedGroup(group HydrologicGroup) (HydrologicGroup, error) {
	switch group {
	case GroupA, GroupB, GroupC, GroupD:
		return group, nil
	case GroupAD:
		return GroupA, nil
	case GroupBD:
		return GroupB, nil
	case GroupCD:
		return GroupC, nil
	}
	return "", noGroup(group, "the words of hydrologic_group")
}

// UndrainedGroup returns D for a dual group, and a single group as it is.
//
// Source: NRCS soil report, seen.
func UndrainedGroup(group HydrologicGroup) (HydrologicGroup, error) {
	switch group {
	case GroupA, GroupB, GroupC, GroupD:
		return group, nil
	case GroupAD, GroupBD, GroupCD:
		return GroupD, nil
	}
	return "", noGroup(group, "the words of hydrologic_group")
}

func noGroup(group HydrologicGroup, within string) error {
	return &calculation.WordError{Name: "hydrologic group", Got: string(group),
		Want: []string{within}, Document: "NRCS hydrologic soil groups"}
}

// tr55Rates are the minimum infiltration rates of TR-55's older set, in in/h:
// from, and up to. Relayed; one relay prints A as at most 0.45, a sign slip.
var tr55Rates = map[HydrologicGroup][2]float64{
	GroupA: {0.30, 0.45},
	GroupB: {0.15, 0.30},
	GroupC: {0.05, 0.15},
	GroupD: {0, 0.05},
}

// InfiltrationLeastTR55 returns the lower end of the minimum infiltration of a
// group in TR-55's older set. A dual group must be told drained or undrained
// first: it is a range error here.
//
// Source: NRCS TR-55, relayed.
func InfiltrationLeastTR55(group HydrologicGroup) (quantity.Rate, error) {
	return tr55(group, 0)
}

// InfiltrationMostTR55 returns the upper end of the same range.
//
// Source: NRCS TR-55, relayed.
func InfiltrationMostTR55(group HydrologicGroup) (quantity.Rate, error) {
	return tr55(group, 1)
}

func tr55(group HydrologicGroup, end int) (quantity.Rate, error) {
	rates, ok := tr55Rates[group]
	if !ok {
		return 0, noGroup(group, "A, B, C or D")
	}
	return quantity.InchesPerHour(rates[end]), nil
}

// InfiltrationMinnesotaByGroup returns the slower of the design rates that the
// Minnesota manual lists for a group: A 0.8, B 0.3, C 0.2 in/h. For D it lists
// only "less than 0.2 in/h", so the answer is [ErrCannotTell]. A dual group is a
// range error.
//
// Source: Minnesota Stormwater Manual, seen.
func InfiltrationMinnesotaByGroup(group HydrologicGroup) (quantity.Rate, error) {
	if _, ok := tr55Rates[group]; !ok {
		return 0, noGroup(group, "A, B, C or D")
	}
	slowest, found := quantity.Rate(0), false
	for _, r := range minnesotaRates {
		rate := quantity.InchesPerHour(r.inchesPerHour)
		if r.group == group && (!found || rate < slowest) {
			slowest, found = rate, true
		}
	}
	if !found {
		return 0, cannotTell("design infiltration of group %s: the manual gives only less than %g in/h", group, minnesotaGroupDBelow)
	}
	return slowest, nil
}
