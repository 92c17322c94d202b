package groundrule

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// Design is what a rulebook came to for one site. It is safe for concurrent use.
type Design struct {
	book *Book
	job  *site.Site

	mu      sync.Mutex // of the outcome, which works out what it is asked
	outcome *engine.Outcome
}

// Refused is the error of a job that gets no section to build: it lies outside
// what the rulebook covers, or a check stopped it.
type Refused struct {
	// Section tells which limits were crossed, or which checks failed.
	Section *section.Section
	design  *Design // nil if a calculation refused it
}

// Error returns the limits that were crossed.
func (r *Refused) Error() string {
	var parts []string
	for _, each := range r.Section.Refusals {
		parts = append(parts, fmt.Sprintf("%s: %s", each.ID, each.Says.US))
	}
	for _, each := range r.Section.Crossed {
		if each.Variance == "" {
			parts = append(parts, fmt.Sprintf("%s: %s is %s; wanted %s", each.Limit, each.Label, each.Answer.Text(quantity.US), each.Wanted.US))
		}
	}
	for _, each := range r.Section.Failed() {
		if each.Failing == rulebook.Stops {
			parts = append(parts, fmt.Sprintf("%s: %s", each.ID, each.Says.US))
		}
	}
	return fmt.Sprintf("%s: %s", r.Section.Status, strings.Join(parts, "; "))
}

// Design answers every question of the rulebook for a site.
//
// The error says who must act. It is a [*site.Error] if the site is impossible or
// an override cannot be followed (whoever wrote the job), a [*rulebook.RunError]
// if a rule came to no answer (whoever wrote the rules), a [*UseError] if the book
// was never opened or the job has several areas, for which there is [Book.Areas]
// (whoever wrote the call), and a [*Refused] if the job gets no
// section to build.
func (b *Book) Design(job *site.Site) (*Design, error) {
	job, err := b.one(job) // a copy: what the caller changes from here on is of no account
	if err != nil {
		return nil, err
	}
	outcome, err := b.rules.Run(job, inside.Overrides(job))
	if err != nil {
		if refused := notCalculated(b, job, err); refused != nil {
			return nil, refused
		}
		return nil, b.blame(job, err)
	}
	d := &Design{book: b, job: job, outcome: outcome}
	if status, _ := inside.Status(outcome); status != section.Designed {
		s, err := d.Section()
		if err != nil {
			return nil, err
		}
		return nil, &Refused{s, d}
	}
	return d, nil
}

// one closes a job of one area.
func (b *Book) one(job *site.Site) (*site.Site, error) {
	switch {
	case b == nil || b.rules == nil:
		return nil, errNotOpened
	case job != nil && len(job.Areas) > 0:
		return nil, errAreas
	}
	return b.table.Close(job)
}

var errAreas = &UseError{errors.New("this job has several areas: design it with Book.Areas, or one of them, as site.Site.Parts returns it")}

const codeOverride diagnostic.Code = "override-breaks-rule" // an override with which a rule comes to no answer

// blame returns the error of a run for whoever must act: where an override is at
// fault, it is the job's.
func (b *Book) blame(job *site.Site, err error) error {
	var faults diagnostic.List
	if errors.Is(err, engine.ErrOverride) && errors.As(err, &faults) {
		return &site.Error{Faults: faults}
	}
	var run *rulebook.RunError
	if !errors.As(err, &run) {
		return err
	}
	overrides := inside.Overrides(job)
	for i, o := range overrides {
		own := run.Rule == engine.OverrideRule && run.In == o.Decision
		if !own {
			_, without := b.rules.Run(job, slices.Delete(slices.Clone(overrides), i, i+1))
			var same *rulebook.RunError
			if errors.As(without, &same) && same.Asked() == run.Asked() {
				continue // it fails without this override too
			}
		}
		d := &diagnostic.Diagnostic{Path: fmt.Sprintf("overrides[%d].answer", i), Width: len([]rune(o.Answer)), Code: codeOverride, Found: o.Answer}
		d.Place = o.At(d.Path, 0)
		if d.Message = "the override comes to no answer: " + run.Err.Error(); !own {
			d.Message = fmt.Sprintf("with this override %s comes to no answer: %v", run.Asked(), run.Err)
			d.Related = []diagnostic.Related{{Place: run.Place, Message: "it stands here"}}
		}
		return &site.Error{Faults: diagnostic.List{d}}
	}
	return err
}

// notCalculated makes a refusal of a rule whose calculation refuses the job: what
// lies outside a published range, or cannot be told from what is known, is
// refused and never extrapolated. Any other error stays an error.
func notCalculated(b *Book, job *site.Site, err error) *Refused {
	call, refuses := engine.NotCalculated(err)
	var at *rulebook.RunError
	if !refuses || !errors.As(err, &at) {
		return nil
	}
	t, broken := begin(b, job, nil)
	if broken != nil {
		return nil
	}
	var source value.Source
	for _, f := range b.rules.Functions() {
		if f.Function != nil && f.Name == call.Function {
			source = f.Function.Sources[0]
		}
	}
	t.s.Status = section.Refused
	t.s.Refusals = append(t.s.Refusals, section.Refusal{ID: inside.RefusedBy(at), Source: t.cite(source), Place: at.Place,
		Says:    b.told("refused_calculated", "why", call.Error(), "asked", at.Asked()),
		Who:     b.told("refused_engineer"),
		Clauses: []section.Clause{{Text: at.Text, Place: at.Place, Values: t.used(at.Values)}}})
	return &Refused{Section: t.s}
}

// Section returns the whole section with its reasons, as data of the caller's
// own: it is told anew at each call. Of the forms [section.Crew] asks for what the crew
// works by and [section.Client] for what the client is told. The error is a
// [*rulebook.RunError] if a sentence quotes a value that cannot be had.
func (d *Design) Section(forms ...section.Form) (*section.Section, error) {
	if d == nil || d.outcome == nil {
		return nil, errNoDesign
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	return assemble(d.book, d.job, d.outcome, forms)
}

var errNoDesign = &UseError{errors.New("there is no design: make one with Book.Design")}

// Answer returns the answer of one decision, and whether it was asked.
func (d *Design) Answer(decision string) (value.Value, bool) {
	if d == nil || d.outcome == nil {
		return value.Value{}, false
	}
	for _, each := range d.outcome.Decided {
		if each.Decision.Name == decision {
			return each.Answer, each.Asked
		}
	}
	return value.Value{}, false
}

// Calculated is the value of one expression.
type Calculated struct {
	Value value.Value
	// Functions are the calculations that the expression calls.
	Functions []rulebook.Function
	// Values are the values of the job that it reads.
	Values []section.Used
}

// Calculate works out one expression of the rule language, with the values of a
// job if there is one. A job that is refused still gives its values.
func (b *Book) Calculate(text string, job *site.Site) (*Calculated, error) {
	if b == nil || b.rules == nil {
		return nil, errNotOpened
	}
	if job != nil {
		var err error
		if job, err = b.one(job); err != nil {
			return nil, err
		}
	}
	done, err := b.rules.Calculate(text, job)
	if err != nil {
		return nil, err
	}
	return &Calculated{Value: done.Value, Functions: deep.Copy(done.Functions), Values: used(b.rules, done.Values)}, nil
}
