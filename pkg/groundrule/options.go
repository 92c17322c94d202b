package groundrule

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// Options designs a job as it is, and as each option of the rulebook would have it: the
// first is the job as it is, then come the rulebook's in its order, each with what it
// gives and lacks, and then the job's own alternatives, all with their sections. What
// an option decides is held to the limits as an override is.
//
// The errors are those of [Book.Design], but that a section that is refused is none.
func (b *Book) Options(job *site.Site, forms ...section.Form) ([]section.Otherwise, error) {
	job, first, err := b.first(job)
	if err != nil {
		return nil, err
	}
	asIs, err := b.beside(first, nil, job, forms)
	if err != nil {
		return nil, err
	}
	out := []section.Otherwise{asIs}
	var offered []*engine.Work
	if first.Outcome != nil { // else a calculation refused it, so that nothing is known to offer options by
		if offered, err = first.Outcome.Offered(); err != nil {
			return nil, b.blame(job, err)
		}
	}
	for _, w := range offered {
		one, err := b.option(first, asIs.Section, job, w, forms)
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	for i, other := range job.Otherwise() {
		one, err := b.beside(first, asIs.Section, other, forms)
		if err != nil {
			return nil, err
		}
		one.Option = job.Alternatives[i].Job
		out = append(out, one)
	}
	return out, nil
}

// first closes a job and runs it.
func (b *Book) first(job *site.Site) (*site.Site, inside.Ran, error) {
	job, err := b.one(job)
	if err != nil {
		return nil, inside.Ran{}, err
	}
	first := inside.Run(b.rules, job)
	if first.Status == "" {
		return nil, first, b.blame(job, first.Err)
	}
	return job, first, nil
}

// option designs a job as an option would have it. What cannot be said beside what the
// job says is no way to build it, and refused as that.
func (b *Book) option(first inside.Ran, asIs *section.Section, job *site.Site, w *engine.Work, forms []section.Form) (section.Otherwise, error) {
	t := &teller{b: b, o: first.Outcome}
	says, decides, err := first.Outcome.Found(w)
	if err != nil {
		return section.Otherwise{}, b.blame(job, err)
	}
	because := t.say(w.Why)
	var out section.Otherwise
	other, err := b.with(job, inJob(says)...)
	wrong := new(site.Error)
	switch {
	case errors.As(err, &wrong):
		made, err := begin(b, job, nil)
		if err != nil {
			return out, err
		}
		made.s.Status = section.Refused
		out.Status, out.Section, out.Differs = section.Refused, made.s, []section.Sentence{section.Plain(wrong.Faults[0].Message)}
	case err != nil:
		return out, err
	default:
		for _, d := range decides {
			other.Overrides = slices.DeleteFunc(other.Overrides, func(o site.Override) bool { return o.Decision == d.Name })
			other.Overrides = append(other.Overrides, site.Override{Decision: d.Name, Answer: written(d.Value), By: w.ID, Because: because.US})
		}
		if out, err = b.beside(first, asIs, other, forms); err != nil {
			return out, err
		}
	}
	out.Option, out.Label, out.Because, out.Source = w.ID, t.say(w.Says("about")).US, because, w.Source.String()
	out.Gives, out.Lacks, out.LeavesOut = t.say(w.Says("gives")), t.say(w.Says("lacks")), t.say(w.Says("leaves_out"))
	for i := range out.Effects {
		if e := &out.Effects[i]; slices.ContainsFunc(decides, func(d rulebook.NamedValue) bool { return e.RuleWith == engine.OverrideRule && e.With.Equal(d.Value) }) {
			e.RuleWith = w.ID
		}
	}
	return out, t.err
}

// beside designs another job, and tells it beside the first and its section, nil if it
// is the first. What the section is made of is run once.
func (b *Book) beside(first inside.Ran, asIs *section.Section, job *site.Site, forms []section.Form) (section.Otherwise, error) {
	ran := first
	if asIs != nil {
		ran = inside.Run(b.rules, job)
	}
	var s *section.Section
	var err error
	if ran.Outcome == nil { // a calculation refused it, or it is wrong
		s, err = b.area(job, 0, job, forms)
	} else {
		if ran.Status != section.Designed { // nobody builds it: it has nothing but what a client is told
			forms = slices.DeleteFunc(slices.Clone(forms), func(f section.Form) bool { return f != section.Client })
		}
		s, err = assemble(b, job, ran.Outcome, forms)
	}
	if err != nil {
		return section.Otherwise{}, b.blame(job, err)
	}
	told, err := b.came(first, ran, job)
	if err != nil {
		return section.Otherwise{}, b.blame(job, err)
	}
	out := told.told()
	out.Section = s
	out.Depth = out.Section.Depth
	if asIs != nil && asIs.Status != section.Refused && out.Status != section.Refused {
		out.Effects = asIs.Effects(out.Section)
		out.Remedies, err = b.remedies(first.Outcome, told.outcome)
	}
	return out, err
}

// remedies tells what to do with what is in the ground already.
func (b *Book) remedies(before, after *engine.Outcome) (out []section.Work, err error) {
	work, err := after.Remedies(before)
	t := &teller{b: b, o: after}
	for _, w := range work {
		out = append(out, section.Work{ID: w.ID, Courses: []string{}, Says: t.say(w.Says("says")), Because: t.say(w.Why), Source: w.Source.String(), Place: w.Place, Amended: deep.Copy(w.Amended)})
	}
	return out, errors.Join(err, t.err)
}

// inJob writes values under their names as a job file does: as a person reads them, but
// to the last bit where that would round them.
func inJob(values []rulebook.NamedValue) (out [][2]string) {
	for _, v := range values {
		text := v.Value.Text(quantity.US)
		if word, ok := v.Value.Word(); ok {
			text = word.Name
		} else if q, ok := v.Value.Measure(); ok {
			if same, err := quantity.ParseAs(q.Dim, text); err != nil || same != q {
				number, unit := inBase(q)
				text = strings.TrimSpace(number + " " + unit.Symbol)
			}
		}
		out = append(out, [2]string{v.Name, text})
	}
	return out
}

// inBase writes a measure in the base unit of its dimension, to the last bit.
func inBase(q quantity.Quantity) (string, quantity.Unit) {
	unit, _ := quantity.UnitNamed(q.Dim.BaseUnit(), q.Dim)
	x, _ := q.In(q.Dim.BaseUnit())
	return strconv.FormatFloat(x, 'f', -1, 64), unit
}

// written writes a value as an expression, to the last bit.
func written(v value.Value) string {
	if q, ok := v.Measure(); ok {
		number, unit := inBase(q)
		if q.Dim == quantity.DimRatio {
			return number
		}
		return unit.Builder + "(" + number + ")"
	}
	if is, ok := v.Bool(); ok {
		return strconv.FormatBool(is)
	}
	if word, ok := v.Word(); ok {
		return word.Name
	}
	return strconv.Quote(v.Text(quantity.US))
}
