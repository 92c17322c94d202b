package survey

import (
	"errors"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// seen is what the engine itself made of one job.
type seen struct {
	draft draft
	site  *site.Site
	out   *engine.Outcome
	err   *rulebook.RunError // nil if it answered
	other error              // an error that is no RunError
	eye   *eye
}

// eye runs jobs and knows where to look.
type eye struct {
	book  *engine.Book
	desk  *desk
	early map[string]bool // decisions that a refusal needs, asked before it is known
}

func newEye(book *engine.Book, k *desk) *eye {
	e := &eye{book: book, desk: k, early: map[string]bool{}}
	for _, r := range book.Refusals() {
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
	s, ok := e.desk.site(d)
	if !ok {
		return nil, false
	}
	return e.lookAt(d, s), true
}

func (e *eye) lookAt(d draft, s *site.Site) *seen {
	out := &seen{draft: d, site: s, eye: e}
	var err error
	if out.out, err = e.book.Run(s, nil); err != nil && !errors.As(err, &out.err) {
		out.other = err
	}
	return out
}

// answered reports whether the engine answered every question, or refused.
func (s *seen) answered() bool { return s.err == nil && s.other == nil }

// designed reports whether the job was not refused.
func (s *seen) designed() bool { return s.answered() && len(s.out.Refusals) == 0 }

// decided returns what a decision came to; false for one that was not asked. Of a
// refused job only what the refusals may need is looked at.
func (s *seen) decided(d *engine.Decision) (*engine.Decided, bool) {
	if !s.answered() || !s.designed() && !s.eye.early[d.Name] {
		return nil, false
	}
	out, err := s.out.DecidedBy(d.Name)
	return out, err == nil && out.Asked
}

// chose reports whether a rule's answer was taken.
func (s *seen) chose(d *engine.Decision, rule int) bool {
	out, ok := s.decided(d)
	if !ok {
		return false
	}
	return out.States[rule] == rulebook.Chosen
}

// held reports whether a rule's condition holds where its decision is asked, even
// if an earlier rule had answered.
func (s *seen) held(d *engine.Decision, rule int) bool {
	out, ok := s.decided(d)
	if !ok {
		return false
	}
	if out.States[rule] == rulebook.NotReached {
		holds, err := s.out.Holds(d.Rules[rule].When())
		return err == nil && holds
	}
	return out.States[rule].Holds()
}

// failsWith reports whether the engine stopped at a decision with an error.
func (s *seen) failsWith(d *engine.Decision, cause error) bool {
	return s.err != nil && s.err.In == d.Name && errors.Is(s.err, cause)
}

// clash reports whether the engine stopped because two rules of a decision answer
// differently.
func (s *seen) clash(d *engine.Decision, first, second *engine.Rule) bool {
	return s.failsWith(d, rulebook.ErrTwoAnswers) && s.err.Rule == second.ID && s.err.Against == first.ID
}

// outOfRange reports whether a calculation did not reach the job, which is refused.
func (s *seen) outOfRange() bool {
	if s.err == nil {
		return false
	}
	_, refuses := engine.NotCalculated(s.err)
	return refuses
}

// checked returns what a check came to; false where it does not apply.
func (s *seen) checked(c *engine.Check) (*engine.Checked, bool) {
	if !s.designed() {
		return nil, false
	}
	for _, each := range s.out.Checks {
		if each.Check == c {
			return each, true
		}
	}
	return nil, false
}

func (s *seen) gave(c *engine.Caution) bool {
	if !s.designed() {
		return false
	}
	for _, each := range s.out.Cautions {
		if each == c {
			return true
		}
	}
	return false
}

func (s *seen) laid(c *engine.Course) bool {
	if !s.designed() {
		return false
	}
	for _, each := range s.out.Courses {
		if each == c {
			return true
		}
	}
	return false
}

func (s *seen) refused(r *engine.Refusal) bool {
	if !s.answered() {
		return false
	}
	for _, each := range s.out.Refusals {
		if each.Refusal == r {
			return true
		}
	}
	return false
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
	switch v.role {
	case inputCell:
		x, given := s.site.Input(v.name)
		if !given {
			return m.notTold(v.name)
		}
		return cellOr(v.cells, m.valueOf(x))
	case settingClause:
		is, err := m.book.ClauseOn(v.clause, func(string) (value.Value, bool) { return value.Value{}, false })
		if err != nil {
			return -1
		}
		return cellOr(v.cells, value.Bool(is))
	}
	if !s.answered() {
		return -1
	}
	switch v.role {
	case clauseOpen:
		return s.clauseCell(v.clause)
	case checkOpen:
		if c, applies := s.checked(v.check); applies {
			return cellOr(v.cells, value.Bool(c.Holds))
		}
	case answerOpen:
		return s.answerCell(m, v)
	}
	return -1
}

func (s *seen) clauseCell(clause int) int {
	switch s.out.ClauseState(clause) {
	case engine.ClauseTrue:
		return 1
	case engine.ClauseFalse:
		return 0
	}
	return -1
}

func (s *seen) answerCell(m *model, v variable) int {
	d, isDecision := m.book.Decision(v.name)
	if !isDecision {
		if x, err := s.out.Value(v.name); err == nil {
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

func cellOr(c *cells, v value.Value) int {
	if cell, ok := c.of(v); ok {
		return cell
	}
	return -1
}

// valueOf makes a value of what a site gives.
func (m *model) valueOf(x any) value.Value {
	v, err := value.Of(x, func(vocabulary value.Kind, label string) (*value.Word, bool) {
		for _, w := range m.book.Words(vocabulary) {
			if w.Label == label || w.Name == label || w.Go == label {
				return w, true
			}
		}
		return nil, false
	})
	if err != nil {
		return value.Value{}
	}
	return v
}

// isGap reports whether the engine stopped at a gap or a clash.
func (s *seen) isGap() bool {
	return s.err != nil && (errors.Is(s.err, rulebook.ErrNoAnswer) || errors.Is(s.err, rulebook.ErrTwoAnswers))
}
