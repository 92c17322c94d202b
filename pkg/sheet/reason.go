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

// Reason writes the whole reason of one course, by its name or its label, or of
// one decision by its name: for a course why it is there and, for every attribute,
// for a decision alone, the answer, the rule, what made it hold, and every rule
// that was passed over with what failed in it. [Asked] lists what there is.
//
// Of a course that is not laid, and a decision that is not asked, it tells why
// not. The error is a [*NoCourseError], or that of w.
func Reason(w io.Writer, s *section.Section, name string, system quantity.System) error {
	r := &reasoner{page: page{system: system}, s: s}
	if err := r.find(name); err != nil {
		if a, ok := findAbsent(s, name); ok {
			return r.whyNot(w, a)
		}
		return err
	}
	r.head()
	for _, q := range r.questions {
		r.question(q)
	}
	r.restsOn()
	r.accounts()
	r.footing()
	return r.writeTo(w)
}

// reasoner writes the reason of one course or decision.
type reasoner struct {
	page
	s         *section.Section
	course    section.Course
	isCourse  bool // and not a decision
	questions []question
}

// find finds the course or the decision, and what is to be told of it.
func (r *reasoner) find(name string) error {
	course, reason, err := find(r.s, name)
	r.course, r.isCourse = course, reason.Decision == ""
	switch {
	case err != nil:
		return err
	case r.isCourse:
		r.questions = r.questionsOf(course)
	default:
		r.questions = []question{{names: []string{reason.Decision}, reason: reason}}
	}
	return nil
}

// question is a reason with the attributes that it answers.
type question struct {
	names  []string
	reason section.Reason
}

func (r *reasoner) head() {
	title := r.course.Label
	if !r.isCourse {
		title = r.questions[0].reason.Decision
	}
	if r.s.Job.Name != "" {
		title += ", on " + r.s.Job.Name
	}
	r.put(0, "", "WHY "+title)
	if r.s.Status == section.Stopped {
		r.put(0, "", "DO NOT BUILD: a check stopped this design. These are the reasons for what was tried.")
	}
	if r.isCourse {
		where := "At " + r.value(r.course.Top)
		if !r.course.Top.Equal(r.course.Bottom) {
			where = "From " + r.value(r.course.Top) + " to " + r.value(r.course.Bottom)
		}
		r.put(0, "", where+" below finish grade.")
	}
	r.variances(r.s.Variances)
}

// whyNot writes why a course is not laid, or a decision not asked.
func (r *reasoner) whyNot(w io.Writer, a section.Absent) error {
	r.put(0, "", "WHY NOT "+a.Label)
	not := "This course is not laid here: "
	if a.Sort == "decision" {
		not = "This question is not asked here: "
	}
	r.put(0, "", not+r.missing(a))
	if len(a.Clauses) > 0 {
		r.heading("WHAT DOES NOT HOLD")
		for i := range a.Clauses {
			r.put(2, "- ", r.clause(&a.Clauses[i], false)+", at "+a.Clauses[i].Place.String())
		}
	}
	r.footing()
	return r.writeTo(w)
}

// questionsOf lists a course's presence and its decisions, each once, in the
// order of the attributes.
func (r *reasoner) questionsOf(c section.Course) []question {
	var out []question
	if presence := r.s.Reason(c.Presence); presence.Decision != "" {
		out = append(out, question{names: []string{"presence"}, reason: presence})
	}
	for _, a := range c.Attributes {
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
		r.put(2, "taken:  ", takenAs[q.reason.Take])
	}
	r.changedBy(2, q.reason.Amended)
	for i := range q.reason.Taken {
		r.chosen(&q.reason.Taken[i])
	}
	for _, l := range r.s.Lifted {
		if l.Sort == "rule" && l.Decision == q.reason.Decision {
			r.put(2, "", "Rule "+l.ID+", at "+l.Place.String()+", would have answered, and was taken away by "+byWhom(l.Amended.By)+": "+fullStop(l.Amended.Because))
			r.put(4, "because:  ", r.sentence(l.Says))
		}
	}
	if len(q.reason.Passed) == 0 {
		return
	}
	r.put(2, "", "Passed over:")
	for i := range q.reason.Passed {
		r.passed(&q.reason, &q.reason.Passed[i])
	}
}

// reasonSchema and reasonVersion name the JSON form of [ReasonJSON].
const (
	reasonSchema  = "groundrule/reason"
	reasonVersion = 2
)

// reasonForm is the JSON form of the reason of one course or decision.
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

// ReasonJSON writes what [Reason] writes as JSON, on one line unless it is to be
// [section.Indented]; it is always in full. The error is a [*NoCourseError], or
// that of w.
func ReasonJSON(w io.Writer, s *section.Section, name string, forms ...section.Form) error {
	r := &reasoner{s: s}
	err := r.find(name)
	absent, notThere := findAbsent(s, name)
	if err != nil && !notThere {
		return err
	}
	out := reasonForm{Schema: reasonSchema, Version: reasonVersion, Status: s.Status, Job: s.Job, AsOf: s.AsOf, Amendments: append([]rulebook.Amendment{}, s.Amendments...),
		Variances: append([]rulebook.Variance{}, s.Variances...), Course: r.course, Reasons: []section.Reason{}, RestsOn: []section.Reason{}, Sources: []section.Source{}, Accounts: r.rested()}
	if err != nil {
		out.Absent = &absent
	}
	for _, q := range r.questions {
		out.Reasons = append(out.Reasons, q.reason)
	}
	out.RestsOn = append(out.RestsOn, r.under()...)
	named := map[string]bool{}
	for _, reason := range slices.Concat(out.Reasons, out.RestsOn) {
		for _, rule := range slices.Concat(reason.Taken, reason.Passed) {
			named[rule.Source] = true
		}
	}
	for _, a := range out.Accounts {
		named[a.Source] = true
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
