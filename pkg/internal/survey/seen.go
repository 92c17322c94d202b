package survey

import (
	"errors"
	"slices"
	"strconv"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
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

// troubled reports whether the engine did not answer, for another cause than a gap or a
// clash.
func (s *seen) troubled() bool {
	return !s.answered() && !errors.Is(s.Err, rulebook.ErrNoAnswer) && !errors.Is(s.Err, rulebook.ErrTwoAnswers)
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
		holds, err := s.Outcome.Holds(d.Rules[rule].When)
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
	return s.answered() && (e.refusal != nil || s.designed()) && e.in(s.Outcome)
}

// comesTo reports whether a subject is asked of the job.
func (s *seen) comesTo(e *subject) bool {
	return s.answered() && (e.refusal != nil || s.designed() && (e.work == nil || e.work.CanBe(s.Outcome.Courses)))
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

// smaller makes a job smaller while it passes a test: every entry that is not needed is
// left out, and what is left is told in the usual value or in few digits where that
// passes too.
func (s *searcher) smaller(d draft, test func(draft) bool) draft {
	d = s.leaveOut(d, test)
	for i, e := range s.w.entries {
		if d[i] == nil || s.w.isHeld(i) {
			continue
		}
		for _, v := range e.simpler(d[i]) {
			if v == d[i] {
				break
			}
			if next := d.with(i, v); test(next) {
				d = next
				break
			}
		}
	}
	return s.leaveOut(d, test)
}

// first returns the first job of one number that passes a test, in the order of the table,
// in place of one that is as small, so that it does not rest on which jobs were tried.
func (s *searcher) first(d draft, test func(draft) bool) draft {
	if d.told() == s.w.start(s.rng(4)).told()+1 {
		for _, each := range s.w.boundaries(s.rng(4)) {
			if test(each) {
				return s.smaller(each, test)
			}
		}
	}
	return d
}

// leaveOut leaves out entries until none can be left out any more.
func (s *searcher) leaveOut(d draft, test func(draft) bool) draft {
	for again := true; again; {
		again = false
		for i := len(d) - 1; i >= 0; i-- {
			if d[i] == nil || s.w.entries[i].Required || s.w.isHeld(i) {
				continue
			}
			if next := d.with(i, nil); test(next) {
				d, again = next, true
			}
		}
	}
	return d
}

// simpler lists values that read more simply than the one that was found, the
// simplest first.
func (e entry) simpler(now any) []any {
	var out []any
	if word, ok := now.(string); ok && e.Form == site.WordForm {
		for _, w := range e.words[:max(0, slices.Index(e.words, word))] {
			out = append(out, w)
		}
	}
	if !e.numeric() {
		return out
	}
	out = append(out, e.usual)
	x, _ := now.(float64)
	for _, y := range e.rounded(x) {
		out = append(out, y)
	}
	return out
}

// rounded rounds a number to one digit and to more in the usual unit, and reads each as
// a job file would be read, so that it is written as short.
func (e entry) rounded(x float64) []float64 {
	in := func(x float64) (float64, error) { return x, nil }
	read := in
	if e.unit != "" {
		in = func(x float64) (float64, error) { return quantity.Quantity{Dim: e.Dim, SI: x}.In(e.unit) }
		read = func(x float64) (float64, error) {
			q, err := quantity.ParseAs(e.Dim, strconv.FormatFloat(x, 'f', -1, 64)+" "+e.unit)
			return q.SI, err
		}
	}
	var out []float64
	told, err := in(x)
	for digits := 1; digits <= 6 && err == nil; digits++ {
		y, _ := strconv.ParseFloat(strconv.FormatFloat(told, 'g', digits, 64), 64)
		if y, err := read(y); err == nil {
			out = append(out, y)
		}
	}
	return out
}

// written writes the job of a draft, or one that was given, as a job file, reads it back
// and runs it once more; ok is false where that cannot be.
func (s *searcher) written(d draft, given *site.Site) (out Job, ok bool) {
	if given == nil {
		if given, ok = s.w.site(d); !ok {
			return Job{}, false
		}
	}
	data, err := site.Write(given)
	back, unread := s.w.table.Read("job.yaml", data)
	if errors.Join(err, unread) != nil {
		return Job{}, false
	}
	x := s.w.lookAt(d, back)
	return Job{Text: string(data), Entries: d.told(), Status: string(x.Status), seen: x}, true
}

// witness returns the smallest job that shows what an aim looks for, as a job file. A
// job that was given stands as it is where no draft shows it.
func (s *searcher) witness(a *aim) (Job, bool) {
	if a.best == nil {
		if a.whole == nil {
			return Job{}, false
		}
		out, ok := s.written(s.w.draftsOf(a.whole)[0], a.whole)
		return out, ok && a.shows(out.seen)
	}
	test := func(d draft) bool {
		x, ok := s.w.look(d)
		return ok && a.shows(x)
	}
	for _, each := range []draft{s.first(s.smaller(a.best, test), test), a.best} {
		if out, ok := s.written(each, nil); ok && a.shows(out.seen) {
			return out, true
		}
	}
	return Job{}, false
}
