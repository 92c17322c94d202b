package survey

import (
	"errors"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// seen is what the engine itself made of one job.
type seen struct {
	inside.Ran
	draft draft
	site  *site.Site
	// at is where it came to no answer, nil if it answered or failed otherwise.
	at  *rulebook.RunError
	eye *eye
}

// eye runs jobs and knows where to look.
type eye struct {
	book  *engine.Book
	w     *drafter
	early map[string]bool // decisions that a refusal needs, asked before it is known
}

func newEye(w *drafter) *eye {
	e := &eye{book: w.book, w: w, early: map[string]bool{}}
	for _, r := range w.book.Refusals() {
		e.reach(r.When().Names())
	}
	return e
}

// reach marks every name that can be worked out for the sake of these.
func (e *eye) reach(names []string) {
	for _, n := range names {
		if origin, _ := e.book.OriginOf(n); e.early[n] || origin == rulebook.FromSite || origin == rulebook.FromSetting {
			continue
		}
		e.early[n] = true
		e.reach(e.book.Reads(n))
	}
}

// look runs one job; ok is false for a job that cannot be.
func (e *eye) look(d draft) (*seen, bool) {
	s, ok := e.w.site(d)
	if !ok {
		return nil, false
	}
	return e.lookAt(d, s), true
}

func (e *eye) lookAt(d draft, s *site.Site) *seen {
	out := &seen{Ran: inside.Run(e.book, s), draft: d, site: s, eye: e}
	errors.As(out.Err, &out.at)
	return out
}

// answered reports whether the engine answered every question, or refused.
func (s *seen) answered() bool { return s.Err == nil }

// designed reports whether the job was not refused.
func (s *seen) designed() bool { return s.answered() && s.Status != section.Refused }

// outOfRange reports whether a calculation did not reach the job, which is refused.
func (s *seen) outOfRange() bool { return s.Err != nil && s.Status == section.Refused }

// isGap reports whether the engine stopped at a gap or a clash.
func (s *seen) isGap() bool {
	return errors.Is(s.Err, rulebook.ErrNoAnswer) || errors.Is(s.Err, rulebook.ErrTwoAnswers)
}

// failsWith reports whether the engine stopped at a decision with an error.
func (s *seen) failsWith(d *engine.Decision, cause error) bool {
	return s.at != nil && s.at.In == d.Name && errors.Is(s.at, cause)
}

// clash reports whether the engine stopped because two rules of a decision answer
// differently.
func (s *seen) clash(d *engine.Decision, first, second *engine.Rule) bool {
	return s.failsWith(d, rulebook.ErrTwoAnswers) && s.at.Rule == second.ID && s.at.Against == first.ID
}

// decided returns what a decision came to; false for one that was not asked. Of a
// refused job only what the refusals may need is looked at.
func (s *seen) decided(d *engine.Decision) (*engine.Decided, bool) {
	if !s.answered() || !s.designed() && !s.eye.early[d.Name] {
		return nil, false
	}
	out, err := s.Outcome.DecidedBy(d.Name)
	return out, err == nil && out.Asked
}

// chose reports whether a rule's answer was taken.
func (s *seen) chose(d *engine.Decision, rule int) bool {
	out, ok := s.decided(d)
	return ok && out.States[rule] == rulebook.Chosen
}

// held reports whether a rule's condition holds where its decision is asked, even
// if an earlier rule had answered.
func (s *seen) held(d *engine.Decision, rule int) bool {
	out, ok := s.decided(d)
	if !ok {
		return false
	}
	if out.States[rule] == rulebook.NotReached {
		holds, err := s.Outcome.Holds(d.Rules[rule].When())
		return err == nil && holds
	}
	return out.States[rule] == rulebook.Held || out.States[rule] == rulebook.Chosen
}

// checked returns what a check came to; false where it does not apply.
func (s *seen) checked(c *engine.Check) (*engine.Checked, bool) {
	if !s.designed() {
		return nil, false
	}
	i := slices.IndexFunc(s.Outcome.Checks, func(each *engine.Checked) bool { return each.Check == c })
	if i < 0 {
		return nil, false
	}
	return s.Outcome.Checks[i], true
}

// has reports whether a check, caution, course, refusal, step, tolerance or stop
// applies to the job.
func (s *seen) has(e *subject) bool {
	switch {
	case !s.answered():
		return false
	case e.refusal != nil:
		return slices.Contains(s.Outcome.Refusals, e.refusal)
	case !s.designed():
		return false
	case e.work != nil:
		return slices.Contains(s.Outcome.Work, e.work)
	case e.caution != nil:
		return slices.Contains(s.Outcome.Cautions, e.caution)
	case e.course != nil:
		return slices.Contains(s.Outcome.Courses, e.course)
	}
	_, is := s.checked(e.check)
	return is
}

// cells returns the cell of each variable of the model in this job, -1 for one
// that was not worked out.
func (s *seen) cells(m *model) []int {
	out := make([]int, len(m.variables))
	for i, v := range m.variables {
		out[i] = s.cellOf(m, v)
	}
	return out
}

func (s *seen) cellOf(m *model, v variable) int {
	if v.role == inputCell {
		if x, given := s.site.Input(v.name); !given {
			return m.notTold(v.name)
		} else if of, err := m.book.ValueOf(x, m.inputs[v.name].Kind); err == nil {
			return cellOr(v.cells, of)
		}
		return -1
	}
	if v.role == settingClause {
		if is, err := m.book.ClauseOn(v.clause, nothing); err == nil {
			return cellOr(v.cells, value.Bool(is))
		}
		return -1
	}
	if !s.answered() {
		return -1
	}
	switch v.role {
	case clauseOpen:
		switch s.Outcome.Clause(v.clause) {
		case logic.Yes:
			return 1
		case logic.No:
			return 0
		}
	case valueOpen:
		if w, ok := m.worked[v.name]; ok {
			if x, err := w.on(s.value); err == nil {
				return cellOr(v.cells, x)
			}
		}
	case answerOpen:
		return s.answerCell(m, v)
	}
	return -1
}

// calculated works an expression out on the job, apart from all else: also on one
// for which the engine came to no answer elsewhere.
func (s *seen) calculated(text string) (value.Value, bool) {
	out, err := s.eye.book.Calculate(text, s.site)
	if err != nil {
		return value.Value{}, false
	}
	return out.Value, true
}

// value returns what a name came to; false for one that has no value here.
func (s *seen) value(name string) (value.Value, bool) {
	v, err := s.Outcome.Value(name)
	return v, err == nil
}

// nothing gives no name a value, so that settings alone have one.
func nothing(string) (value.Value, bool) { return value.Value{}, false }

func (s *seen) answerCell(m *model, v variable) int {
	d, isDecision := m.book.Decision(v.name)
	if !isDecision {
		if x, err := s.Outcome.Value(v.name); err == nil {
			return cellOr(v.cells, x)
		}
		return -1
	}
	decided, ok := s.decided(d)
	if !ok {
		return -1
	}
	for _, rule := range v.rules {
		if x := decided.Answers[rule]; !x.IsZero() {
			return cellOr(v.cells, x)
		}
	}
	return -1
}

func cellOr(c *cells.Cells, v value.Value) int {
	if cell, ok := c.Of(v); ok {
		return cell
	}
	return -1
}
