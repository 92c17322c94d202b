package sheet

import (
	"encoding/json"
	"io"
	"slices"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// Reason writes the whole reason of one course, found as by [Find]: why it is
// there, and for every attribute the answer, the rule, what made it hold, and
// every rule that was passed over with what failed in it.
//
// The error is a [*NoCourseError], or that of w.
func Reason(w io.Writer, s *section.Section, course string, system quantity.System) error {
	c, err := Find(s, course)
	if err != nil {
		return err
	}
	r := &reasoner{page: page{system: system}, s: s, course: c}
	r.head()
	var questions []question
	for _, q := range r.questions() {
		r.question(q)
		questions = append(questions, q)
	}
	r.restsOn(questions)
	r.amendedSettings(questions)
	r.footing()
	return r.writeTo(w)
}

// reasoner writes the reason of one course.
type reasoner struct {
	page
	s      *section.Section
	course section.Course
}

// question is a reason with the attributes that it answers.
type question struct {
	names  []string
	reason section.Reason
}

func (r *reasoner) head() {
	title := "WHY " + r.course.Label
	if r.s.Job.Name != "" {
		title += ", on " + r.s.Job.Name
	}
	r.put(0, "", title)
	if r.s.Status == section.Stopped {
		r.put(0, "", "DO NOT BUILD: a check stopped this design. These are the reasons for what was tried.")
	}
	where := "At " + r.value(r.course.Top)
	if !r.course.Top.Equal(r.course.Bottom) {
		where = "From " + r.value(r.course.Top) + " to " + r.value(r.course.Bottom)
	}
	r.put(0, "", where+" below finish grade.")
	r.variances(r.s.Variances)
}

// questions lists the course's presence and its decisions, each once, in the
// order of the attributes.
func (r *reasoner) questions() []question {
	var out []question
	if presence := r.s.Reason(r.course.Presence); presence.Decision != "" {
		out = append(out, question{names: []string{"presence"}, reason: presence})
	}
	for _, a := range r.course.Attributes {
		at := slices.IndexFunc(out, func(q question) bool { return q.reason.Decision == a.Decision })
		switch reason := r.s.Reason(a.Decision); {
		case at >= 0:
			out[at].names = append(out[at].names, a.Label)
		case reason.Decision != "":
			out = append(out, question{names: []string{a.Label}, reason: reason})
		}
	}
	return out
}

func (r *reasoner) question(q question) {
	r.heading(strings.ToUpper(list(q.names)) + ": " + r.value(q.reason.Answer))
	r.put(2, "asked:  ", q.reason.Asks)
	if len(q.reason.Taken)+len(q.reason.Passed) > 1 {
		r.put(2, "taken:  ", takenAs(q.reason.Take))
	}
	for i := range q.reason.Taken {
		r.chosen(&q.reason.Taken[i])
	}
	if len(q.reason.Passed) == 0 {
		return
	}
	r.put(2, "", "Passed over:")
	for i := range q.reason.Passed {
		r.passed(&q.reason, &q.reason.Passed[i])
	}
}

// ReasonSchema and ReasonVersion name the JSON form of [ReasonJSON].
const (
	ReasonSchema  = "groundrule/reason"
	ReasonVersion = 1
)

// courseReason is the JSON form of the reason of one course.
type courseReason struct {
	Schema  string         `json:"schema"`
	Version int            `json:"version"`
	Status  section.Status `json:"status"`
	Job     section.Job    `json:"job"`
	// AsOf, Amendments and Variances are those of the section.
	AsOf       rulebook.Date        `json:"as_of,omitzero"`
	Amendments []rulebook.Amendment `json:"amendments,omitempty"`
	Variances  []rulebook.Variance  `json:"variances,omitempty"`
	Course     section.Course       `json:"course"`
	// Reasons has the presence first, then one for each decision behind the
	// attributes; RestsOn the decisions that these read.
	Reasons []section.Reason `json:"reasons"`
	RestsOn []section.Reason `json:"rests_on"`
	// Sources are those that the course and the reasons name.
	Sources []section.Source `json:"sources"`
}

// ReasonJSON writes the reason of one course as JSON, on one line unless it is to
// be [section.Indented]; it is always in full. The error is a [*NoCourseError],
// or that of w.
func ReasonJSON(w io.Writer, s *section.Section, course string, forms ...section.Form) error {
	c, err := Find(s, course)
	if err != nil {
		return err
	}
	r := &reasoner{s: s, course: c}
	out := courseReason{Schema: ReasonSchema, Version: ReasonVersion, Status: s.Status, Job: s.Job,
		AsOf: s.AsOf, Amendments: s.Amendments, Variances: s.Variances, Course: c, Reasons: []section.Reason{}, RestsOn: []section.Reason{}, Sources: []section.Source{}}
	questions := r.questions()
	for _, q := range questions {
		out.Reasons = append(out.Reasons, q.reason)
	}
	out.RestsOn = append(out.RestsOn, r.under(questions)...)
	named := map[string]bool{}
	for _, reason := range slices.Concat(out.Reasons, out.RestsOn) {
		for _, rule := range slices.Concat(reason.Taken, reason.Passed) {
			named[rule.Source] = true
		}
	}
	for _, source := range s.Sources {
		if named[source.Name] {
			out.Sources = append(out.Sources, source)
		}
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	if slices.Contains(forms, section.Indented) {
		enc.SetIndent("", "  ")
	}
	return enc.Encode(out)
}
