package survey

import (
	"errors"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
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
	at *rulebook.RunError
	w  *drafter
}

// look runs one job; ok is false for a job that cannot be.
func (w *drafter) look(d draft) (*seen, bool) {
	s, ok := w.site(d)
	if !ok {
		return nil, false
	}
	return w.lookAt(d, s), true
}

func (w *drafter) lookAt(d draft, s *site.Site) *seen {
	out := &seen{Ran: inside.Run(w.book, s), draft: d, site: s, w: w}
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
	if !s.answered() || !s.designed() && !s.w.early[d.Name] {
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
	var is value.Value
	var err error
	switch {
	case v.role == inputCell:
		x, given := s.site.Input(v.name)
		if !given {
			return m.notTold(v.name)
		}
		is, err = m.book.ValueOf(x, m.inputs[v.name].Kind)
	case v.role == settingClause:
		is, err = v.on(nothing)
	case v.on == nil || !s.answered():
		return -1
	default:
		is, err = v.on(s.value)
	}
	if cell, ok := v.cells.Of(is); ok && err == nil {
		return cell
	}
	return -1
}

// calculated works an expression out on the job, apart from all else: also on one
// for which the engine came to no answer elsewhere.
func (s *seen) calculated(text string) (value.Value, bool) {
	out, err := s.w.book.Calculate(text, s.site)
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
