package groundrule

import (
	"cmp"
	"slices"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// work tells what the crew works by and the client is told, as far as the forms have it, each with a reason
// of its own.
func (t *teller) work(forms []section.Form) {
	lists := map[string]*[]section.Work{}
	if slices.Contains(forms, section.Crew) {
		t.s.Steps, t.s.Tolerances, t.s.Stops = []section.Work{}, []section.Work{}, []section.Work{}
		t.s.Job.Use = t.b.rules.Word(t.job.Use).Word.Label
		lists = map[string]*[]section.Work{"step": &t.s.Steps, "tolerance": &t.s.Tolerances, "stop": &t.s.Stops}
	}
	if slices.Contains(forms, section.Client) {
		t.s.Client = []section.Work{}
		lists["client"] = &t.s.Client
	}
	measured := slices.Contains(forms, section.Takeoff) && t.s.Status == section.Designed // else there is nothing to buy
	if measured {
		t.s.Quantities = []section.Quantity{}
	}
	for _, w := range t.o.Work {
		list, isQuantity := lists[w.Sort], len(w.Measures()) > 0
		if list == nil && !(isQuantity && measured) {
			continue
		}
		told := section.Work{ID: w.ID, Courses: []string{}, Part: w.Part, Tells: slices.Clone(w.Tells), Says: t.say(w.Says("says")), Sizes: t.say(w.Says("sizes")), Hold: t.say(w.Says("hold")), Measure: t.say(w.Says("measure")),
			Finds: t.say(w.Says("finds")), Does: t.say(w.Says("does")), Calls: t.say(w.Says("calls")),
			Because: t.say(w.Why), Source: t.cite(w.Source), Place: w.Place, Amended: deep.Copy(w.Amended)}
		about, _ := w.About()
		for _, c := range t.o.Courses {
			if slices.Contains(about, c) {
				told.Courses = append(told.Courses, c.Name)
			}
		}
		answer := value.Bool(true)
		if isQuantity {
			answer = t.quantity(w, told)
		} else {
			told.Found, told.Then = t.found(w)
			*list = append(*list, told)
		}
		rule := section.Rule{ID: w.ID, State: rulebook.Chosen, Place: w.Place, Chapter: w.Chapter, Answer: answer, Because: told.Because, Source: told.Source,
			Clauses: t.clauses(t.o.Deciding(w.When)), Used: t.used(t.o.Quoted(w)), Amended: told.Amended}
		t.s.Reasons = append(t.s.Reasons, section.Reason{Decision: w.Sort + "." + w.ID, Label: w.ID, Asks: t.b.told("asks_"+w.Sort, "id", w.ID, "what", t.say(w.Says("about"))).US, Answer: answer,
			Take: rulebook.First, Taken: []section.Rule{rule}, Passed: []section.Rule{}})
	}
}

// quantity tells one quantity, and returns its amount.
func (t *teller) quantity(w *engine.Work, told section.Work) value.Value {
	m, err := t.o.Measured(w)
	t.keep(err)
	q := section.Quantity{ID: w.ID, About: t.say(w.Says("about")), Courses: told.Courses, Kind: w.Kind, Amount: m.Amount, Item: m.Item,
		Step: m.Step, CountedIn: w.CountedIn, Weighs: m.Weighs, Because: told.Because, Source: told.Source, Place: w.Place, Amended: told.Amended}
	if kind := t.b.rules.Word(w.Kind).Word.Label; kind != w.Kind {
		q.KindLabel = kind
	}
	if w.CountedIn != "" {
		for _, line := range []string{"counted_", "counted_many_"} {
			q.Counted = append(q.Counted, cmp.Or(t.b.words()[line+w.CountedIn], w.CountedIn))
		}
	}
	if layout, is := m.Amount.Data().(plan.Layout); is {
		q.Layout, q.Amount, q.Units = m.Amount, value.Measured(layout.Cut()), layout.Units()
		q.Step = value.Measured(layout.Bought() / quantity.Area(max(q.Units, 1)))
	}
	t.s.Quantities = append(t.s.Quantities, q)
	return q.Amount
}

// found tells what the job would say if what a crew stops for were there, and what
// would come of it.
func (t *teller) found(w *engine.Work) ([]section.Used, *section.Otherwise) {
	values, _, err := t.o.Found(w)
	t.keep(err)
	if len(values) == 0 {
		return nil, nil
	}
	told := used(t.b.rules, values)
	other, err := t.b.with(t.job, inJob(values)...)
	if err != nil {
		return told, nil // what the job says already cannot be true beside it
	}
	status, why := inside.Status(t.o)
	then, err := t.b.otherwise(inside.Ran{Status: status, Why: why, Outcome: t.o}, other)
	t.keep(err)
	if then.outcome != nil && slices.ContainsFunc(then.outcome.Refusals, func(r *engine.Refusal) bool { return r.Contradicts }) {
		return told, nil
	}
	all := then.told()
	return told, &all
}
