package impact

import (
	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// Failed is the status of a job for which a rule came to no answer, or whose
// override could not be followed. The other statuses are those of a section.
const Failed section.Status = "failed"

// Job is one job that the edited rulebook answers otherwise.
type Job struct {
	// Number counts the jobs from 1, in the order in which they were given.
	Number int    `json:"number"`
	Name   string `json:"name,omitempty"`
	// Kind is the heaviest sort of change.
	Kind   Kind `json:"kind"`
	Before Side `json:"before"`
	After  Side `json:"after"`
	// Changes are those of the section, in the order of the courses from the
	// bottom up, then of checks and cautions. There are none unless the job is
	// designed by both rulebooks.
	Changes []Change `json:"changes,omitempty"`
	// Causes names the edits that brought it about, in the order of the report.
	Causes []string `json:"causes,omitempty"`
	// Possible names edits that may have a part in it, where the answers could
	// not be followed: those that what failed can depend on at all.
	Possible []string `json:"possible,omitempty"`
}

// Kind is a sort of change of a job, from none to the heaviest.
type Kind string

// The sorts of change.
const (
	Same        Kind = "same"
	ReasonsOnly Kind = "reasons"    // the same section, decided by another rule
	NoticesOnly Kind = "notices"    // the same section, with other checks, cautions or work of the crew
	Otherwise   Kind = "other_stop" // refused, stopped or failed by both, by another limit, check or error
	Section     Kind = "section"    // another section
	Status      Kind = "status"     // designed by one and not by the other, or refused here and stopped there
)

// Side is what one rulebook came to for a job.
type Side struct {
	Status section.Status `json:"status"`
	// Why names the limits that refused the job, or the checks that stopped it,
	// or hold the error.
	Why []string `json:"why,omitempty"`
	// Depth is the whole depth of the section; null unless designed.
	Depth value.Value `json:"depth"`
}

// Change is one thing that changed in a section.
type Change = differ.Change

// depths returns how deep both sections are, and whether both are designed.
func (j *Job) depths() (before, after quantity.Length, both bool) {
	before, a := j.Before.Depth.Length()
	after, b := j.After.Depth.Length()
	return before, after, a && b
}
