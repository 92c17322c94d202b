package engine

import (
	"slices"

	"example.com/groundrule/pkg/rulebook"
)

// lifted is an entry that an amendment took away, or put something weaker in the
// place of. It is compiled all the same, so that a section can tell where it
// would have spoken.
type lifted struct {
	entry *entry
	// One of these is set; none if the entry cannot be worked out any more, since
	// it reads what was taken away with it.
	rule    *Rule
	limit   *Limit
	check   *Check
	caution *Caution
	refusal *Refusal
	course  *Course
	promise *Promise
	work    *Work
	before  int // how many of the rules that are left stood before the rule
}

// Lifted is what an amendment took away, and would have spoken on this job.
type Lifted struct {
	rulebook.Lifted
	// Says what it would have said; nil if it cannot be worked out any more.
	Says *Template
	Rule *Rule // set for a rule that would have decided
	// Decision of a rule or a limit.
	Decision string
	// Unknown reports that it cannot be worked out any more.
	Unknown bool
}

// lifting compiles what an amendment took away. What is wrong with it is no fault
// of the rulebook: it can then not be worked out.
func (c *compiler) lifting(e *entry, compile func(*lifted)) *lifted {
	faults, clash := c.faults, c.lifts
	c.faults, c.lifts = nil, true
	out := &lifted{entry: e}
	compile(out)
	if len(c.faults) > 0 {
		out = &lifted{entry: e}
	}
	c.faults, c.lifts = faults, clash
	c.book.lifted = append(c.book.lifted, out)
	return out
}

// standing compiles the entries that stand, and returns them; those that an
// amendment took away are kept apart.
func standing[E interface{ self() *entry }, T any](c *compiler, entries []E, compile func(E) T, keep func(*lifted, T)) []T {
	var out []T
	for _, e := range entries {
		if e.self().lifted == nil {
			out = append(out, compile(e))
			continue
		}
		c.lifting(e.self(), func(l *lifted) { keep(l, compile(e)) })
	}
	return out
}

// told is the lifted entry as data.
func (l *lifted) told() rulebook.Lifted {
	return rulebook.Lifted{Sort: string(l.entry.sort), ID: l.entry.id(), Amended: *l.entry.lifted, Replaced: l.entry.instead != nil, Place: l.entry.place()}
}

func liftedTold(list []*lifted) []rulebook.Lifted {
	out := make([]rulebook.Lifted, len(list))
	for i, l := range list {
		out[i] = l.told()
	}
	return out
}

// Lifted lists what amendments took away and would have spoken on this job, in
// the order of the rulebook.
func (o *Outcome) Lifted() []Lifted {
	var out []Lifted
	for _, l := range o.run.book.lifted {
		if len(o.Refusals) > 0 && l.refusal == nil {
			continue // nothing else is asked of a refused job
		}
		told := Lifted{Lifted: l.told(), Decision: l.entry.of}
		var speaks bool
		var err error
		switch {
		case l.rule != nil:
			told.Rule, told.Says = l.rule, l.rule.because
			speaks = o.wouldDecide(l)
		case l.limit != nil:
			told.Says = l.limit.because
			speaks, err = o.wouldCross(l)
		case l.check != nil:
			told.Says = l.check.says
			speaks, err = o.wouldFail(l)
		case l.caution != nil:
			told.Says = l.caution.says
			speaks, err = o.run.holds(l.caution.when, place{name: "caution", rule: l.caution.ID})
			speaks = speaks && !slices.ContainsFunc(o.Cautions, func(c *Caution) bool { return l.entry.instead != nil && c.ID == l.entry.instead.id() })
		case l.refusal != nil:
			told.Says = l.refusal.says
			speaks, err = o.run.holds(l.refusal.when, place{name: "refusal", rule: l.refusal.ID})
		case l.promise != nil:
			told.Says = l.promise.because
			speaks, err = o.Breaks(l.promise)
		case l.work != nil:
			told.Says = l.work.first()
			speaks, err = o.applies(l.work)
			speaks = speaks && !slices.ContainsFunc(o.Work, func(w *Work) bool { return l.entry.instead != nil && w.ID == l.entry.instead.id() })
		case l.course != nil:
			told.Says = l.course.because
			speaks, err = o.run.holds(l.course.when, place{name: "course " + l.course.Name})
		default:
			speaks, told.Unknown = true, true
		}
		if err != nil {
			speaks, told.Unknown, told.Says = true, true, nil
		}
		if speaks {
			out = append(out, told)
		}
	}
	return out
}

// wouldDecide reports whether a rule that was taken away would have answered its
// decision.
func (o *Outcome) wouldDecide(l *lifted) bool {
	d, ok := o.run.book.Decision(l.entry.of)
	if !ok {
		return false
	}
	done := o.run.decided[d.index]
	if done == nil || !done.Asked {
		return false
	}
	whole := *d
	whole.Rules = nil
	for i := 0; i <= len(d.Rules); i++ {
		for _, gone := range d.lifted {
			if gone.before == i && gone.rule != nil {
				whole.Rules = append(whole.Rules, gone.rule)
			}
		}
		if i < len(d.Rules) {
			whole.Rules = append(whole.Rules, d.Rules[i])
		}
	}
	would := &Decided{Decision: &whole}
	if err := o.run.byRules(&whole, would); err != nil {
		return false
	}
	at := slices.Index(whole.Rules, l.rule)
	return at >= 0 && would.States[at] == rulebook.Chosen
}

// wouldCross reports whether an answer is beyond a limit that was taken away,
// and within the one that took its place.
func (o *Outcome) wouldCross(l *lifted) (bool, error) {
	d, ok := o.run.book.Decision(l.entry.of)
	if !ok || o.run.decided[d.index] == nil || !o.run.decided[d.index].Asked {
		return false, nil
	}
	crossed, err := o.run.crosses(o.run.decided[d.index], l.limit)
	again := slices.ContainsFunc(o.Crossed, func(c *Crossed) bool { return l.entry.instead != nil && c.Limit.ID == l.entry.instead.id() })
	return crossed != nil && !again, err
}

// wouldFail reports whether a check that was taken away would have failed, where
// the one that took its place does not, or does not stop as it would have.
func (o *Outcome) wouldFail(l *lifted) (bool, error) {
	checked, err := o.run.check(l.check)
	if err != nil || checked == nil || checked.Holds {
		return false, err
	}
	again := slices.ContainsFunc(o.Checks, func(c *Checked) bool {
		return l.entry.instead != nil && c.Check.ID == l.entry.instead.id() && !c.Holds && (c.Check.Failing == rulebook.Stops || l.check.Failing != rulebook.Stops)
	})
	return !again, nil
}
