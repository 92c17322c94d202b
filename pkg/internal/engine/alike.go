package engine

import (
	"errors"
	"maps"
	"reflect"
	"slices"

	"example.com/groundrule/pkg/internal/logic"
)

// Alike reports whether another job comes to the same for whoever builds: the
// courses, what they are made of, what is checked, cautioned and beyond a limit, and
// what is presumed; and, of a section that is taken off, what its amounts are made of.
// It stops at the first difference.
func (o *Outcome) Alike(site Site, overrides []Override, takenOff bool) bool {
	changed := o.changed(site)
	if len(changed) == 0 && o.takesOver(overrides) {
		return true
	}
	shown := map[string]bool{}
	for _, c := range o.Courses {
		for _, a := range c.Attributes {
			shown[a.Decision] = true
		}
	}
	if takenOff && !o.measuresAlike(site, shown) {
		return false
	}
	parts := func(was, is *Decided) bool {
		return is == nil || was.presumed() != is.presumed() || shown[was.Decision.Name] && !was.Answer.Equal(is.Answer)
	}
	r, err := o.follow(site, overrides, changed, parts) // most differences are found here
	if err != nil {
		return false
	}
	for _, was := range o.Decided {
		if is, err := r.decide(was.Decision); err != nil || parts(was, is) {
			return false
		}
	}
	other, err := r.outcome(overrides)
	return err == nil && slices.Equal(o.Refusals, other.Refusals) && slices.Equal(o.Courses, other.Courses) &&
		slices.Equal(o.Cautions, other.Cautions) && slices.EqualFunc(o.Checks, other.Checks, sameCheck) &&
		slices.EqualFunc(o.Crossed, other.Crossed, sameCrossing)
}

// Otherwise is [Book.Run] for another job, and works out no more of it than what the
// other job changes. A clause that the first run asked may be known in it that a run
// alone would not ask, so no section is told of it.
func (o *Outcome) Otherwise(site Site, overrides []Override) (*Outcome, error) {
	r, err := o.follow(site, overrides, o.changed(site), func(was, is *Decided) bool { return false })
	if err != nil {
		return nil, err
	}
	out, err := r.outcome(overrides)
	if err == nil && len(out.Refusals) > 0 {
		return o.run.book.Run(site, overrides) // which asks less than was asked of the first job
	}
	return out, err
}

// follow begins a run of another job with all that this one came to and in which
// nothing has a part that has changed, of the inputs that this one asked for. It ends
// with an error at a decision by which the two part.
func (o *Outcome) follow(site Site, overrides []Override, changed []string, parts func(was, is *Decided) bool) (*run, error) {
	r := o.run
	out := r.book.newRun(site)
	if len(overrides)+len(r.overrides)+len(r.absorbed)+len(r.clauseErrors) > 0 {
		return out, out.compileOverrides(overrides)
	}
	if out.moved = map[string]bool{}; len(o.Refusals) == 0 {
		out.first = o
	}
	out.frame.Follow(r.frame)
	copy(out.states, r.states)
	copy(out.decided, r.decided)
	touched := make([]bool, len(r.book.sequence))
	moved := func(name string) {
		out.moved[name] = true
		for _, clause := range r.book.askedBy[name] {
			out.states[clause] = logic.Unknown
		}
		r.book.touch(name, touched)
	}
	maps.Copy(out.asked, r.asked)
	for _, name := range changed {
		out.frame.Forget(name)
		moved(name)
	}
	for at, name := range r.book.sequence {
		if !touched[at] {
			continue
		}
		if out.differs(r, name) {
			moved(name)
		}
		if d, is := r.book.Decision(name); is && parts(r.decided[d.index], out.decided[d.index]) {
			return nil, errors.New("the jobs part")
		}
	}
	return out, nil
}

// stays reports whether the parts come to what they came to in the run that this one
// follows.
func (r *run) stays(parts ...reading) bool { return r.first != nil && !readsAny(r.moved, parts...) }

// differs works a term or a decision out anew, and reports whether it came to anything
// else in the run that this one follows, or was not asked there.
func (r *run) differs(from *run, name string) bool {
	asked := from.frame.Has(name)
	r.frame.Forget(name)
	switch e := r.book.byName[name].(type) {
	case *Decision:
		was := from.decided[e.index]
		if r.decided[e.index] = nil; was == nil {
			return true
		}
		is, err := r.decide(e)
		return err != nil || is.Asked != was.Asked || is.Answer != was.Answer
	case *Term:
		if !asked || e.When != nil && e.When.root.Eval(r.ask) != e.When.root.Eval(from.state) {
			return true
		}
	}
	was, wasErr := from.frame.Value(name)
	is, isErr := r.frame.Value(name)
	return wasErr != nil || isErr != nil || is != was
}

// measuresAlike reports whether another job tells the same of what amounts are made of,
// and adds the decisions among these to those that are shown.
func (o *Outcome) measuresAlike(site Site, shown map[string]bool) bool {
	for _, name := range o.run.book.measuring {
		shown[name] = true
		if _, isInput := o.run.book.inputs[name]; isInput && !o.run.tellsAlike(site, name) {
			return false
		}
	}
	return true
}

func sameCheck(a, b *Checked) bool {
	return a.Check == b.Check && a.Holds == b.Holds && a.Value.Equal(b.Value) && a.Limit.Equal(b.Limit)
}

func sameCrossing(a, b *Crossed) bool { return a.Limit == b.Limit && a.Variance == b.Variance }

// Asks reports whether the site was asked for an input, or whether it is known.
func (o *Outcome) Asks(input string) bool { return o.run.asked[input] }

// changed lists the inputs that another job tells otherwise, of all that this one was
// asked: what a run never asked for, not even whether it is known, cannot change it.
func (o *Outcome) changed(site Site) (out []string) {
	for name := range o.run.asked {
		if !o.run.tellsAlike(site, name) {
			out = append(out, name)
		}
	}
	return out
}

// takesOver reports whether a job has the same taken over as this one.
func (o *Outcome) takesOver(overrides []Override) bool {
	return len(overrides) == len(o.run.overrides) && !slices.ContainsFunc(overrides, func(is Override) bool {
		was := o.run.overrides[is.Decision]
		return was == nil || was.Answer != is.Answer
	})
}

func (r *run) tellsAlike(site Site, input string) bool {
	was, wasGiven := r.site.Input(input)
	is, isGiven := site.Input(input)
	return wasGiven == isGiven && (!wasGiven || reflect.DeepEqual(was, is))
}

// ReadTogether lists the names that each thing reads of which what is built is made:
// terms, decisions, limits, courses, checks and refusals.
func (b *Book) ReadTogether() [][]string {
	var out [][]string
	for _, t := range b.terms {
		out = append(out, reads(t))
	}
	for _, d := range b.decisions {
		out = append(out, reads(d))
		for _, l := range d.limits {
			out = append(out, append(namesOf(l.When, l.limit), d.Name))
		}
	}
	for _, c := range b.courses {
		out = append(out, namesOf(c.When))
	}
	for _, c := range b.checks {
		out = append(out, namesOf(c.When, c.Holds, c.value, c.limit))
	}
	for _, r := range b.refusals {
		out = append(out, namesOf(r.When))
	}
	return out
}

// Moved lists the terms and decisions that have another value in another run.
func (o *Outcome) Moved(other *Outcome) []string {
	var out []string
	note := func(name string) {
		was, _ := o.Value(name)
		if is, _ := other.Value(name); !was.Equal(is) {
			out = append(out, name)
		}
	}
	for _, t := range o.run.book.terms {
		note(t.Name)
	}
	for _, d := range o.run.book.decisions {
		note(d.Name)
	}
	return out
}
