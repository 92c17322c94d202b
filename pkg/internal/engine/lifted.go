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
	// says is what it would have said, and speaks whether it would have on a job; nil if
	// the entry cannot be worked out any more, since it reads what was taken away with it.
	says   *Template
	speaks func(*Outcome) (bool, error)
	course *Course // of a course
	rule   *Rule   // of a rule
	before int     // how many of the rules that are left stood before the rule
}

// isNow reports whether the entry that took its place has an id.
func (l *lifted) isNow(id string) bool { return l.entry.instead != nil && l.entry.instead.id() == id }

// Lifted is what an amendment took away, and would have spoken on this job.
type Lifted struct {
	rulebook.Lifted
	// Says what it would have said; nil if it cannot be worked out any more.
	Says *Template
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
func standing[T any](c *compiler, entries []*entry, compile func(*entry) T, keep func(*lifted, T)) []T {
	var out []T
	for _, e := range entries {
		if e.lifted == nil {
			out = append(out, compile(e))
			continue
		}
		c.lifting(e, func(l *lifted) { keep(l, compile(e)) })
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
		if len(o.Refusals) > 0 && (l.entry.sort != refusalSort || l.speaks == nil) {
			continue // nothing else is asked of a refused job
		}
		told := Lifted{Lifted: l.told(), Decision: l.entry.of, Says: l.says}
		speaks, err := true, error(nil)
		if l.speaks != nil {
			speaks, err = l.speaks(o)
		}
		if told.Unknown = l.speaks == nil || err != nil; told.Unknown {
			speaks, told.Says = true, nil
		}
		if speaks {
			out = append(out, told)
		}
	}
	return out
}

// askedOf returns what the decision of a rule or a limit that was taken away came to,
// and whether it is asked on this job.
func (o *Outcome) askedOf(l *lifted) (*Decided, bool) {
	d, ok := o.run.book.Decision(l.entry.of)
	if !ok {
		return nil, false
	}
	done, came := o.Came(d)
	return done, came && done.Asked
}

// wouldDecide reports whether a rule that was taken away would have answered its
// decision.
func (o *Outcome) wouldDecide(l *lifted) bool {
	done, asked := o.askedOf(l)
	if !asked {
		return false
	}
	d := done.Decision
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
func (o *Outcome) wouldCross(l *lifted, limit *Limit) (bool, error) {
	done, asked := o.askedOf(l)
	if !asked {
		return false, nil
	}
	crossed, err := o.run.crosses(done, limit)
	again := slices.ContainsFunc(o.Crossed, func(c *Crossed) bool { return l.isNow(c.Limit.ID) })
	return crossed != nil && !again, err
}

// wouldFail reports whether a check that was taken away would have failed, where
// the one that took its place does not, or does not stop as it would have.
func (o *Outcome) wouldFail(l *lifted, check *Check) (bool, error) {
	checked, err := o.run.check(check)
	if err != nil || checked == nil || checked.Holds {
		return false, err
	}
	again := slices.ContainsFunc(o.Checks, func(c *Checked) bool {
		return l.isNow(c.Check.ID) && !c.Holds && (c.Check.Failing == rulebook.Stops || check.Failing != rulebook.Stops)
	})
	return !again, nil
}
