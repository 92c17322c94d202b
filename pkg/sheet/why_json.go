package sheet

import (
	"encoding/json"
	"io"
	"slices"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// reasonSchema and reasonVersion name the JSON form of [ReasonJSON].
const (
	reasonSchema  = "groundrule/reason"
	reasonVersion = 2
)

// reasonForm is the JSON form of the reason of one course, decision or refusal.
type reasonForm struct {
	Schema  string         `json:"schema"`
	Version int            `json:"version"`
	Status  section.Status `json:"status"`
	Job     section.Job    `json:"job"`
	// AsOf, Amendments and Variances are those of the section.
	AsOf       rulebook.Date        `json:"as_of,omitzero"`
	Amendments []rulebook.Amendment `json:"amendments"`
	Variances  []rulebook.Variance  `json:"variances"`
	// Course is left out for the reason of a decision.
	Course section.Course `json:"course,omitzero"`
	// Refusals has the one that was asked for, and is left out else.
	Refusals []section.Refusal `json:"refusals,omitempty"`
	// Reasons has the presence of the course first, then one for each decision
	// behind its attributes, or the one decision; RestsOn the decisions that
	// these read.
	Reasons []section.Reason `json:"reasons"`
	RestsOn []section.Reason `json:"rests_on"`
	// Sources are those that the course and the reasons name.
	Sources []section.Source `json:"sources"`
	// Accounts are what the values that they read rest on.
	Accounts []section.Account `json:"accounts"`
	// Absent is why a course is not laid, or a decision not asked; there is then
	// nothing else.
	Absent *section.Absent `json:"absent,omitempty"`
}

// ReasonJSON writes what [Sheet.Why] writes as JSON, on one line unless it is to be
// [section.Indented]; it is always in full. The error is a [*NoCourseError], or
// that of w.
func ReasonJSON(w io.Writer, s *section.Section, name string, forms ...section.Form) error {
	r, err := find(s, name)
	if err != nil {
		return err
	}
	out := reasonForm{Schema: reasonSchema, Version: reasonVersion, Status: s.Status, Job: s.Job, AsOf: s.AsOf,
		Amendments: listed(s.Amendments), Variances: listed(s.Variances), Course: r.course, Refusals: r.refusals, Reasons: listed(r.reasons), RestsOn: listed(r.under()),
		Sources: listed(r.sources()), Accounts: listed(r.rested()), Absent: r.absent}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	if slices.Contains(forms, section.Indented) {
		enc.SetIndent("", "  ")
	}
	return enc.Encode(out)
}

// listed is a list that is written as [] where there is nothing in it.
func listed[T any](all []T) []T { return append([]T{}, all...) }
