package impact

import (
	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// Schema and FormVersion name the JSON form of a report. The version rises when
// a field changes its meaning or goes; a field that is added does not raise it.
const (
	Schema      = "groundrule/impact"
	FormVersion = 2
)

// Report is what an edited rulebook would change on a set of jobs.
type Report struct {
	Schema  string `json:"schema"`
	Version int    `json:"version"`
	// Before and After are the files of the two rulebooks.
	Before []rulebook.File `json:"before"`
	After  []rulebook.File `json:"after"`
	// Edits in the order of [Differences], with the jobs that each changes.
	Edits []Effect `json:"edits"`
	Jobs  Tally    `json:"jobs"`
	// Groups gather what changed in sections, in the order of the courses from
	// the bottom up, then checks and cautions.
	Groups []Group `json:"groups"`
	Depth  Depths  `json:"depth"`
	// Volumes has one entry for each kind of course.
	Volumes []Volume `json:"volumes"`
	// Changed are the jobs that are answered otherwise, in their order.
	Changed []*Job `json:"changed"`
	// Unreadable are those that are not jobs, in their order.
	Unreadable []Unreadable `json:"unreadable,omitempty"`
}

// Effect is an edit with the jobs that it changes.
type Effect struct {
	Edit
	// Jobs counts those of which it is a cause, Possible those in which it may
	// have a part.
	Jobs     int `json:"jobs"`
	Possible int `json:"possible"`
}

// Tally counts jobs.
type Tally struct {
	All  int `json:"all"`
	Same int `json:"same"`
	// By the heaviest change of each job, as [Kind] says.
	Section     int `json:"section"`
	Status      int `json:"status"`
	Otherwise   int `json:"other_stop"`
	NoticesOnly int `json:"notices"`
	ReasonsOnly int `json:"reasons"`
	Unreadable  int `json:"unreadable"`
	// Of the jobs whose status changes: those that were not so before.
	NewlyDesigned int `json:"newly_designed"`
	NewlyRefused  int `json:"newly_refused"`
	NewlyStopped  int `json:"newly_stopped"`
	NewlyFailed   int `json:"newly_failed"`
	// DesignedByBoth counts the jobs that depths and volumes are taken of.
	DesignedByBoth int `json:"designed_by_both"`
}

// Group is one sort of change, over all jobs.
type Group struct {
	What   differ.What `json:"what"`
	Course string      `json:"course,omitempty"`
	Label  string      `json:"label,omitempty"`
	Name   string      `json:"name,omitempty"`
	Jobs   int         `json:"jobs"`
	// Turns are the changes of value, the most frequent first.
	Turns []Turn `json:"turns"`
	// Causes are the edits that brought it about, in the order of the edits.
	Causes []Cause `json:"causes,omitempty"`
}

// Turn is a change from one value to another; for a [Reason], from one rule to
// another.
type Turn struct {
	Before value.Value `json:"before"`
	After  value.Value `json:"after"`
	Jobs   int         `json:"jobs"`
	// First are the numbers of the first jobs.
	First []int `json:"first"`
}

// Cause is an edit with how many jobs it is the cause of something in.
type Cause struct {
	Edit string `json:"edit"`
	Jobs int    `json:"jobs"`
}

// Depths says by how much sections grow or shrink, over the jobs designed by both
// rulebooks.
type Depths struct {
	Deeper    int `json:"deeper"`
	Shallower int `json:"shallower"`
	// Most and Least are the greatest changes either way, with the number of the
	// first job that each comes in; 0 for none.
	Most     quantity.Length `json:"most_m"`
	MostJob  int             `json:"most_job"`
	Least    quantity.Length `json:"least_m"`
	LeastJob int             `json:"least_job"`
}

// Volume is the compacted volume of one kind of course over the jobs designed
// by both rulebooks: thickness by area. Waste, and stone beyond the edge of the
// paving, are not counted.
type Volume struct {
	CourseKind
	Before quantity.Volume `json:"before_m3"`
	After  quantity.Volume `json:"after_m3"`
}

// Delta is how much more the later rulebook takes.
func (v Volume) Delta() quantity.Volume { return v.After - v.Before }

// Unreadable is an entry of the archive that is not a job.
type Unreadable struct {
	Number int    `json:"number"`
	Why    string `json:"why"`
}

// count takes one job into the report.
func (r *Report) count(number int, one compared) {
	r.Jobs.All++
	if one.err != nil {
		r.Jobs.Unreadable++
		r.Unreadable = append(r.Unreadable, Unreadable{number, one.err.Error()})
		return
	}
	if one.volumes != nil {
		r.Jobs.DesignedByBoth++
		for i, v := range one.volumes {
			r.Volumes[i].Before += quantity.Volume(v.before)
			r.Volumes[i].After += quantity.Volume(v.after)
		}
	}
	if one.job == nil {
		r.Jobs.Same++
		return
	}
	r.Changed = append(r.Changed, one.job)
	r.tally(one.job)
	r.depth(one.job)
}

func (r *Report) tally(j *Job) {
	*map[Kind]*int{Section: &r.Jobs.Section, Status: &r.Jobs.Status, Otherwise: &r.Jobs.Otherwise,
		NoticesOnly: &r.Jobs.NoticesOnly, ReasonsOnly: &r.Jobs.ReasonsOnly}[j.Kind]++
	if j.Kind == Status {
		*map[section.Status]*int{section.Designed: &r.Jobs.NewlyDesigned, section.Refused: &r.Jobs.NewlyRefused,
			section.Stopped: &r.Jobs.NewlyStopped, Failed: &r.Jobs.NewlyFailed}[j.After.Status]++
	}
}

func (r *Report) depth(j *Job) {
	before, after, both := j.depths()
	if !both || same(before, after) {
		return
	}
	by := after - before
	d := &r.Depth
	if by > 0 {
		d.Deeper++
	} else {
		d.Shallower++
	}
	if by > d.Most && !same(by, d.Most) {
		d.Most, d.MostJob = by, j.Number
	}
	if by < d.Least && !same(by, d.Least) {
		d.Least, d.LeastJob = by, j.Number
	}
}

// same reports whether two lengths differ by rounding alone.
func same(a, b quantity.Length) bool {
	order, err := a.Quantity().Compare(b.Quantity())
	return err == nil && order == 0
}
