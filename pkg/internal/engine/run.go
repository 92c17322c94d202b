package engine

import (
	"errors"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Site gives the values of a job by the names of the inputs. given is false for
// a value that the job does not tell.
type Site interface {
	Input(name string) (v any, given bool)
}

// Override is a decision that a person took over for one job.
type Override struct {
	Decision, Answer string
	By, Because      string
	Place            diagnostic.Place
	// At returns where a character of what is written under a path stands, such
	// as overrides[0].answer; nil if nobody can tell.
	At func(path string, offset int) diagnostic.Place
}

// run works out one site. Values are worked out when they are first asked for
// and kept; a run serves one goroutine.
type run struct {
	book         *Book
	site         Site
	asked        map[string]bool // inputs that the site was asked for
	frame        *language.Frame
	states       []logic.Truth // of the clauses
	clauseErrors map[int]error
	decided      []*Decided
	overrides    map[string]*override
	absorbed     []error
	ask          func(clause int) logic.Truth // askClause, made once
	failures     []int                        // clauses that came to an error in the conditions being worked out
	first        *Outcome                     // that of the run which this one follows, nil if none
	moved        map[string]bool              // what has another value than in that
}

type override struct {
	Override
	expr *language.Expression
}

// place names what is being worked out, for errors.
type place struct {
	sort, name, rule string
}

func (b *Book) newRun(site Site) *run {
	r := &run{book: b, site: site, asked: map[string]bool{}, states: make([]logic.Truth, len(b.clauses)), decided: make([]*Decided, len(b.decisions))}
	r.frame, r.ask = b.env.NewFrame(r.resolve, r.known), r.askClause
	return r
}

// resolve returns the value of a name.
func (r *run) resolve(name string) (value.Value, error) {
	switch e := r.book.byName[name].(type) {
	case rulebook.Input:
		return r.input(e)
	case *Setting:
		return e.Value, nil
	case *Term:
		return r.term(e)
	case *Decision:
		d, err := r.decide(e)
		if err != nil {
			return value.Value{}, err
		}
		if !d.Asked {
			return value.Value{}, fmt.Errorf("%w: %s is not asked here", rulebook.ErrMissing, name)
		}
		return d.Answer, nil
	}
	return value.Value{}, language.UnknownName(name)
}

// told returns what the site tells of an input.
func (r *run) told(name string) (x any, given bool) {
	r.asked[name] = true
	return r.site.Input(name)
}

func (r *run) input(in rulebook.Input) (value.Value, error) {
	x, given := r.told(in.Name)
	if !given {
		return value.Value{}, fmt.Errorf("%w: the site does not tell %s", rulebook.ErrMissing, in.Name)
	}
	v, err := r.book.ValueOf(x, in.Kind)
	if err != nil {
		return value.Value{}, fmt.Errorf("%w: %s: %w", ErrInput, in.Name, err)
	}
	if v.Kind() != in.Kind {
		return value.Value{}, fmt.Errorf("%w: %s is %s, declared as %s", ErrInput, in.Name, v.Kind(), in.Kind)
	}
	return v, nil
}

// known answers known(name).
func (r *run) known(name string) (bool, error) {
	switch e := r.book.byName[name].(type) {
	case rulebook.Input:
		_, given := r.told(name)
		return given, nil
	case *Term:
		return r.holds(e.When, place{name: name})
	case *Decision:
		return r.holds(e.When, place{name: name})
	}
	return false, language.UnknownName(name)
}

func (r *run) term(t *Term) (value.Value, error) {
	in := place{name: t.Name}
	if t.TermCondition != nil {
		is, err := r.holds(t.TermCondition, in)
		return value.Bool(is), err
	}
	return r.eval(t.expr, in)
}

// eval works out an expression, and tells where if it cannot.
func (r *run) eval(x *Expression, in place) (value.Value, error) {
	v, err := x.source.Eval(r.frame)
	if err != nil {
		return value.Value{}, r.fail(in, x.Place(), x.source.Text, x.source.Names, err)
	}
	return v, nil
}

// fail dresses an error with the place and with the values that were read. An
// error that is dressed already is handed on: it tells the first cause.
func (r *run) fail(in place, at diagnostic.Place, text string, names []string, err error) error {
	var dressed *rulebook.RunError
	if errors.As(err, &dressed) {
		return dressed
	}
	return &rulebook.RunError{Sort: in.sort, In: in.name, Rule: in.rule, Place: at, Text: text, Err: err, Values: r.values(names)}
}

// values returns the values of names that can be had, in the given order.
func (r *run) values(names []string) []rulebook.NamedValue {
	var out []rulebook.NamedValue
	for _, n := range names {
		if !r.isKnown(n) {
			continue
		}
		if v, err := r.frame.Value(n); err == nil {
			out = append(out, rulebook.NamedValue{Name: n, Value: v})
		}
	}
	return out
}

// isKnown reports whether a name has a value, for a name that always has one too.
func (r *run) isKnown(name string) bool {
	if n, ok := r.book.env.NameOf(name); ok && !n.MayLack {
		return true
	}
	known, err := r.known(name)
	return err == nil && known
}

// compileOverrides checks the overrides of a job against the book.
func (r *run) compileOverrides(overrides []Override) error {
	var faults diagnostic.List
	for i, o := range overrides {
		wrong := func(key string, offset int, code diagnostic.Code, message string) *diagnostic.Diagnostic {
			d := &diagnostic.Diagnostic{Place: o.Place, Path: fmt.Sprintf("overrides[%d].%s", i, key), Width: 1, Code: code, Message: message}
			if o.At != nil {
				d.Place = o.At(d.Path, offset)
			}
			faults.Add(d)
			return d
		}
		d, ok := r.book.Decision(o.Decision)
		first, twice := r.overrides[o.Decision]
		switch {
		case !ok:
			names := namesIn(r.book.decisions, func(d *Decision) string { return d.Name })
			d := wrong("decision", 0, codeDecision, "an override names a decision that does not exist")
			d.Width = len([]rune(o.Decision))
			d.Found, d.Wanted, d.Nearest = o.Decision, "the name of a decision", diagnostic.Nearest(o.Decision, names)
			continue
		case twice:
			d := wrong("decision", 0, CodeTwice, "the decision is overridden twice")
			d.Found, d.Related = o.Decision, []diagnostic.Related{{Place: first.Place, Message: "here first"}}
			continue
		}
		x, found := r.book.env.Expression(o.Answer, d.Kind, nil)
		for _, f := range found {
			d := wrong("answer", f.Offset, f.Code, "the answer of an override: "+f.Message)
			d.Width, d.Found, d.Wanted, d.Nearest = max(f.Width, 1), f.Found, f.Wanted, f.Nearest
		}
		switch {
		case x == nil:
		case slices.Contains(x.Names, o.Decision):
			wrong("answer", 0, codeCircle, "an override cannot use the answer that it overrides").Found = o.Decision
		default:
			if r.overrides == nil {
				r.overrides = map[string]*override{}
			}
			r.overrides[o.Decision] = &override{Override: o, expr: x}
		}
	}
	if len(faults) > 0 {
		return fmt.Errorf("%w: %w", ErrOverride, faults.Err())
	}
	return nil
}
