package groundrule

import (
	"cmp"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
)

// Ask lists what is worth asking about a job, what may change most first: each
// question with its choices and what comes of each. A question that can change
// nothing, or no more than lengths by the amount that the rulebook sets
// (asking_ends_at), is left out, so that an empty list is the end. Unknown are the
// keys of questions that nobody can answer: they are not asked again, and what is
// presumed for them stays.
//
// The errors are those of [Book.Design]. A job that a rule refuses is none, since an
// answer may make it one that is not; a job that a calculation refuses is one.
func (b *Book) Ask(job *site.Site, unknown ...string) ([]section.Question, error) {
	return b.AskPriced(job, nil, rulebook.Date{}, unknown...)
}

// AskPriced is [Book.Ask], and tells what the answers may save or add in money too, by
// a price list on a day.
func (b *Book) AskPriced(job *site.Site, prices *takeoff.Prices, day rulebook.Date, unknown ...string) ([]section.Question, error) {
	job, first, err := b.first(job)
	if err != nil {
		return nil, err
	}
	open, err := b.open(first, job, unknown)
	if err != nil {
		return nil, err
	}
	matter := slices.DeleteFunc(slices.Clone(open), func(q question) bool { return !q.matters(b.asksFor()) })
	if len(matter) == 0 {
		return b.pairs(first, job, open, unknown)
	}
	if err := b.weigh(first, job, matter, prices, day); err != nil {
		return nil, err
	}
	var out []section.Question
	for _, q := range matter {
		out = append(out, q.Question)
	}
	return out, nil
}

// pairs returns the first question that changes nothing alone, and something beside
// the answer of another, such as the heights of two points, or beside those of
// questions that it opens. Two answers can do together what neither does alone only
// where something reads from what both have moved: the others need not be tried.
func (b *Book) pairs(first inside.Ran, job *site.Site, open []question, unknown []string) ([]section.Question, error) {
	moved := map[string][]string{}
	var others, shut []*engine.Asking // what may be asked, and of that what is not asked as things stand
	for _, a := range b.rules.Askings() {
		if _, given := job.Input(a.Key); given || slices.Contains(unknown, a.Key) {
			continue
		}
		moved[a.Key], others = []string{a.Key}, append(others, a)
		mayBe, err := first.Outcome.MayBe(a)
		if err != nil {
			return nil, err
		}
		if len(mayBe) == 0 {
			shut = append(shut, a)
		}
	}
	for _, q := range open {
		for _, o := range q.choices {
			if o.outcome != nil {
				moved[q.Key] = append(moved[q.Key], first.Outcome.Moved(o.outcome)...)
			}
		}
	}
	tried := map[string]bool{}
	for _, q := range open {
		tried[q.Key] = len(q.choices) > 0 // else another's answer may open it
		q.Choices = slices.Clone(q.Choices)
		found := false
		for _, other := range others {
			if tried[other.Key] || !b.meet(moved[q.Key], moved[other.Key]) {
				continue
			}
			for at, choice := range q.choices {
				if len(q.Choices[at].Differs) > 0 || choice.outcome == nil {
					continue // told already, or nothing can be asked beside it
				}
				o, answers, err := b.pair(first, choice, other, shut)
				if err != nil {
					return nil, err
				}
				if o == nil {
					continue
				}
				found = true
				q.Choices[at].Status, q.Choices[at].Differs = o.Status, []section.Sentence{both(b.rules, func(in quantity.System) string {
					return "with " + answers + ": " + o.Differs[0].In(in)
				})}
			}
		}
		if found {
			return []section.Question{q.Question}, nil
		}
	}
	return nil, nil
}

// meet reports whether anything reads a name of each of two lists.
func (b *Book) meet(one, other []string) bool {
	has := func(names, of []string) bool {
		return slices.ContainsFunc(names, func(name string) bool { return slices.Contains(of, name) })
	}
	return slices.ContainsFunc(b.rules.ReadTogether(), func(names []string) bool { return has(names, one) && has(names, other) })
}

// pair tries each answer that another question may have where one was answered by a
// choice, and returns the first that matters, with the answers that it takes. A
// question of those that are shut is tried beside the others that are.
func (b *Book) pair(first inside.Ran, choice otherwise, other *engine.Asking, shut []*engine.Asking) (*otherwise, string, error) {
	mayBe, err := choice.outcome.MayBe(other)
	if err != nil {
		return nil, "", err
	}
	for _, may := range mayBe {
		beside, err := b.with(choice.job, [2]string{other.Key, may})
		if err != nil {
			continue
		}
		o, err := b.otherwise(first, beside)
		if err != nil {
			return nil, "", b.blame(beside, err)
		}
		said := other.Key + " " + may
		switch {
		case o.contradicts(first):
		case o.matters(b.asksFor()):
			return &o, said, nil
		case o.outcome != nil && slices.Contains(shut, other):
			for _, third := range shut {
				if _, given := beside.Input(third.Key); given {
					continue
				}
				if found, also, err := b.pair(first, o, third, shut); found != nil || err != nil {
					return found, said + ", " + also, err
				}
			}
		}
	}
	return nil, "", nil
}

// contradicts reports whether the job is refused because it cannot be true.
func (o *otherwise) contradicts(first inside.Ran) bool {
	return o.outcome != nil && slices.ContainsFunc(o.outcome.Refusals, func(r *engine.Refusal) bool { return r.Contradicts && !slices.Contains(first.Why, r.ID) })
}

// asksFor is the difference of a length that is too small to ask for.
func (b *Book) asksFor() quantity.Length {
	s, _ := b.rules.Setting(inside.AskingEnds)
	if s == nil {
		return 0
	}
	amount, _ := s.Value.Length()
	return amount
}

// questions tells all that the job does not say and with which its section
// changes, by however little, and which keys would tell what is presumed.
func (t *teller) questions() {
	open, err := t.b.open(inside.Run(t.b.rules, t.job), t.job, nil)
	t.keep(err)
	t.s.Questions = []section.Question{}
	for _, q := range open {
		if q.matters(0) {
			t.s.Questions = append(t.s.Questions, q.Question)
		}
		for i := range t.s.Confirm {
			if p := &t.s.Confirm[i]; slices.ContainsFunc(q.choices, func(o otherwise) bool { return o.settles(p.Name) }) {
				p.Keys = append(p.Keys, q.Key)
			}
		}
	}
}

// settles reports whether a decision that was presumed is not presumed then.
func (o *otherwise) settles(decision string) bool {
	if o.outcome == nil {
		return false
	}
	decided, err := o.outcome.DecidedBy(decision)
	return err == nil && decided.Asked && !o.outcome.Presumed(decision)
}

// question is one that is open, with what comes of its choices.
type question struct {
	section.Question
	choices []otherwise
	rank    int
	most    quantity.Length
	test    string // what finds it out, "" if nothing is named
	stake   stake  // the most that it may change, either way
}

// matters reports whether any choice changes more than lengths of an amount.
func (q *question) matters(amount quantity.Length) bool {
	return slices.ContainsFunc(q.choices, func(o otherwise) bool { return o.matters(amount) })
}

// open lists the questions whose answer may change what comes of a job, the
// weightiest first, each with what comes of its answers. What a run never read
// cannot change it.
func (b *Book) open(first inside.Ran, job *site.Site, unknown []string) ([]question, error) {
	if first.Outcome == nil {
		return nil, notCalculated(b, job, first.Err) // nothing can be set beside it
	}
	askings := b.rules.Askings()
	found := make([]*question, len(askings))
	for more := true; more; { // whether a question is asked at all may rest on what nothing else reads
		more = false
		for i, asking := range askings {
			if _, given := job.Input(asking.Key); given || found[i] != nil || slices.Contains(unknown, asking.Key) || !b.asks(first.Outcome, asking.Key) {
				continue
			}
			q, err := b.choices(first, job, asking)
			if err != nil {
				return nil, err
			}
			found[i], more = &q, true
		}
	}
	var out []question
	for _, q := range found {
		if q != nil {
			out = append(out, *q)
		}
	}
	sortQuestions(out)
	return out, nil
}

// sortQuestions puts what may change most first: whether there is a section, then
// money or mass where these were weighed, then thickness.
func sortQuestions(questions []question) {
	slices.SortStableFunc(questions, func(a, b question) int {
		order := cmp.Or(cmp.Compare(a.rank, b.rank), b.stake.compare(a.stake))
		if a.rank == 0 {
			return order // a thickness does not compare with whether there is a section
		}
		return cmp.Or(order, cmp.Compare(b.most, a.most))
	})
}

// choices tries every answer that a question may have. One that cannot be true beside
// what the job says is no choice.
func (b *Book) choices(first inside.Ran, job *site.Site, asking *engine.Asking) (question, error) {
	f := b.field(asking.Key)
	out := question{Question: section.Question{Key: asking.Key, Label: cmp.Or(b.rules.Texts().Names[asking.Key], f.Label), Asks: asking.Asks}, rank: 1, test: asking.Test}
	mayBe, err := first.Outcome.MayBe(asking)
	if err != nil {
		return out, err
	}
	for _, answer := range mayBe {
		other, err := b.with(job, [2]string{asking.Key, answer})
		if err != nil {
			continue
		}
		o, err := b.otherwise(first, other)
		if err != nil {
			return out, b.blame(other, err)
		}
		if o.contradicts(first) {
			continue
		}
		o.Answer = answer
		for _, w := range f.Vocabulary.Words {
			if w.GoValue() == answer && w.Label != answer {
				o.Label = b.rules.In(quantity.US).Name(w.Label)
			}
		}
		out.choices = append(out.choices, o)
		out.Choices = append(out.Choices, o.Otherwise)
		out.most = max(out.most, o.length)
		if o.Status != first.Status {
			out.rank = 0
		}
	}
	t := &teller{b: b, o: first.Outcome}
	out.How = t.say(asking.How)
	return out, t.err
}

// field is the field of an input.
func (b *Book) field(input string) site.Field {
	fields := b.table.Inputs()
	return fields[slices.IndexFunc(fields, func(f site.Field) bool { return f.Path == input })]
}

// asks reports whether a value of the job was asked for, or one that is worked out
// from it.
func (b *Book) asks(o *engine.Outcome, key string) bool {
	return o.Asks(key) || slices.ContainsFunc(b.table.Inputs(), func(f site.Field) bool { return slices.Contains(f.From, key) && o.Asks(f.Path) })
}
