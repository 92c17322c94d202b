package sheet

import (
	"cmp"
	"io"
	"slices"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/section"
)

// Why writes as text the whole reason of one course, by its name or its label, or of
// one decision by its name, as the audit sheet tells it: for a course why it is there and,
// for every attribute, for a decision alone, the answer, the rule, what made it hold, and
// every rule that was passed over with what failed in it; then what that rests on.
// [Asked] lists what there is.
//
// Of a course that is not laid, and a decision that is not asked, it tells why not. The
// error is a [*NoCourseError], that of w, or it wraps [ErrSheet] if a line is missing.
func (s Sheet) Why(w io.Writer, of *section.Section, name string) error {
	s.System = s.System.Writing(of.Numbers)
	l := &leaf{Sheet: s, s: of, missing: map[string]bool{}}
	told, err := l.why(name)
	if err == nil {
		err = l.lacks()
	}
	if err != nil {
		return err
	}
	return paper.WriteText(w, told, s.Columns)
}

func (l *leaf) why(name string) (*paper.Block, error) {
	r, err := find(l.s, name)
	switch {
	case err != nil:
		return nil, err
	case r.absent != nil:
		return l.whyAbsent(*r.absent), nil
	}
	out := l.whyTitle("why_title", r.what())
	if l.s.Status == section.Stopped {
		out.Add(paper.Warn(l.line("sheet_stopped")))
	}
	if r.isCourse {
		out.Add(l.where(r.course))
	}
	refusals, choices, under := l.part("audit_refusals"), l.part("audit_choices"), l.part("why_under")
	for _, each := range r.refusals {
		refusals.Add(l.refusal(each))
	}
	for _, each := range r.reasons {
		choices.Add(l.choice(each))
	}
	for _, each := range r.under() {
		told := paper.Item(l.chosen(each), paper.Text(each.Asks))
		for _, rule := range each.Taken {
			told.Add(l.taken(rule))
		}
		under.Add(told)
	}
	return out.Add(refusals, l.part("audit_limits", l.variances()...), choices, under, l.rests(r.rested()), l.sources(r.sources(), nil), l.inForce(), l.day()), nil
}

// whyAbsent tells why a course is not laid, or a decision not asked.
func (l *leaf) whyAbsent(a section.Absent) *paper.Block {
	says := l.line("why_not_"+a.Sort, "what", pages.Capital(a.Label), "why", l.missed(a))
	clauses := l.part("why_clauses")
	for _, c := range a.Clauses {
		clauses.Add(paper.Item(l.clause(c, false)).Add(paper.Note(c.Place.String())))
	}
	return l.whyTitle("why_not", a.Label).Add(paper.Text(says), clauses, l.inForce(), l.day())
}

func (l *leaf) whyTitle(line, what string) *paper.Block {
	if l.s.Job.Name != "" {
		what = l.line("why_on", "what", what, "job", l.s.Job.Name)
	}
	return paper.Part("", l.line(line, "what", what))
}

// behind is the reason of one course, decision or refusal with all that it rests on.
type behind struct {
	s        *section.Section
	course   section.Course
	isCourse bool              // and not a decision
	reasons  []section.Reason  // of a course its presence first, then those of its attributes
	absent   *section.Absent   // what is not there, and then nothing else
	refusals []section.Refusal // why there is no section: one, and then no course and no decision
}

// what names it.
func (r *behind) what() string {
	switch {
	case r.isCourse:
		return r.course.Label
	case len(r.refusals) > 0:
		return r.refusals[0].ID
	}
	return r.reasons[0].Decision
}

// behindCourse is the reason of a course that is laid.
func behindCourse(s *section.Section, course section.Course) *behind {
	r := &behind{s: s, course: course, isCourse: true}
	decisions := []string{course.Presence}
	for _, a := range course.Attributes {
		decisions = append(decisions, a.Decision)
	}
	for _, each := range unique(decisions) {
		if reason := s.Reason(each); reason.Decision != "" {
			r.reasons = append(r.reasons, reason)
		}
	}
	return r
}

// under lists the reasons of the decisions that the rules taken read, and of those that
// these read in turn, each once.
func (r *behind) under() (out []section.Reason) {
	seen := map[string]bool{}
	for _, each := range r.reasons {
		seen[each.Decision] = true
	}
	var visit func(names []string)
	reason := func(of section.Reason) {
		for _, rule := range of.Taken {
			visit(namesOf(readBy(&rule)))
		}
	}
	visit = func(names []string) {
		for _, name := range names {
			if seen[name] {
				continue
			}
			seen[name] = true
			if next := r.s.Reason(name); next.Decision != "" {
				out = append(out, next)
				reason(next)
			}
			visit(account(r.s, name).Reads)
		}
	}
	for _, each := range r.refusals {
		visit(namesOf(inClauses(each.Clauses)))
	}
	for _, each := range r.reasons {
		reason(each)
	}
	return out
}

// sources are those that all of that names.
func (r *behind) sources() []section.Source {
	all := section.Section{Sources: r.s.Sources, Refusals: r.refusals, Courses: []section.Course{r.course}, Reasons: slices.Concat(r.reasons, r.under()), Accounts: r.rested()}
	return all.Cited()
}

// rested lists what the values that the page names rest on.
func (r *behind) rested() []section.Account {
	named := map[string]bool{}
	note := func(values ...section.Used) {
		for _, v := range values {
			named[v.Name] = true
			if w, ok := v.Value.Word(); ok {
				named[w.Name] = true
			}
		}
	}
	for _, each := range r.refusals {
		note(inClauses(each.Clauses)...)
	}
	for _, reason := range slices.Concat(r.reasons, r.under()) {
		for _, rule := range reason.Taken {
			note(append(readBy(&rule), section.Used{Value: rule.Answer}, section.Used{Value: reason.Answer})...)
		}
		for _, rule := range slices.Concat(reason.Taken, reason.Passed) {
			for _, v := range touched(r.s, &rule) {
				named[v.Name] = true
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(r.s.Accounts), func(a section.Account) bool { return !named[a.Name] })
}

// readBy lists the values that a rule read, those of its clauses first.
func readBy(rule *section.Rule) []section.Used {
	return append(inClauses(rule.Clauses), rule.Used...)
}

func inClauses(clauses []section.Clause) (out []section.Used) {
	for _, c := range clauses {
		out = append(out, c.Values...)
	}
	return out
}

func namesOf(values []section.Used) (out []string) {
	for _, v := range values {
		out = append(out, v.Name)
	}
	return out
}

// touched lists what a rule rests on and amendments changed: the settings and terms
// that it reads, what these read, and the words and materials among the values.
func touched(s *section.Section, rule *section.Rule) []section.Used {
	var out []section.Used
	seen := map[string]bool{}
	var note func(v section.Used)
	note = func(v section.Used) {
		if seen[v.Name] {
			return
		}
		seen[v.Name] = true
		a := account(s, v.Name)
		if v.Amended = cmp.Or(v.Amended, a.Amended); v.Amended != nil {
			out = append(out, v)
		}
		for _, name := range a.Reads {
			note(section.Used{Name: name, Value: account(s, name).Value})
		}
		if w, ok := v.Value.Word(); ok {
			note(section.Used{Name: w.Name})
		}
	}
	for _, v := range append(readBy(rule), section.Used{Value: rule.Answer}) {
		note(v)
	}
	return out
}

// account returns what a name rests on, the zero Account if nothing is told of it.
func account(s *section.Section, name string) section.Account {
	for _, a := range s.Accounts {
		if a.Name == name {
			return a
		}
	}
	return section.Account{}
}
