package groundrule

import (
	"cmp"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// Ask lists what is worth asking about a job, what may change most first: each
// question with its choices and what comes of each. A question that can change
// nothing, or no more than lengths by the amount that the rulebook sets
// (asking_ends_at), is left out, so that an empty list is the end. Unknown are the
// keys of questions that nobody can answer: they are not asked again, and what is
// presumed for them stays.
//
// The errors are those of [Book.Design], but that a job that is refused is none:
// an answer may make it one that is not.
func (b *Book) Ask(job *site.Site, unknown ...string) ([]section.Question, error) {
	if b == nil || b.rules == nil {
		return nil, errNotOpened
	}
	job, err := b.table.Close(job)
	if err != nil {
		return nil, err
	}
	open, err := b.open(job, unknown)
	if err != nil {
		return nil, err
	}
	amount := quantity.Length(0)
	if s, ok := b.rules.Setting(inside.AskingEnds); ok {
		amount, _ = s.Value.Length()
	}
	var out []section.Question
	for _, q := range open {
		if q.matters(amount) {
			out = append(out, q.Question)
		}
	}
	return out, nil
}

// Questions lists all that the job does not say and with which its section
// changes: as [Book.Ask], by however little.
func (d *Design) Questions() ([]section.Question, error) {
	if d == nil || d.outcome == nil {
		return nil, errNoDesign
	}
	open, err := d.book.open(d.job, nil)
	out := make([]section.Question, len(open))
	for i, q := range open {
		out[i] = q.Question
	}
	return out, err
}

// question is one that is open, with what comes of its choices.
type question struct {
	section.Question
	choices []otherwise
	rank    int
	most    quantity.Length
}

// matters reports whether any choice changes more than lengths of an amount.
func (q *question) matters(amount quantity.Length) bool {
	return slices.ContainsFunc(q.choices, func(o otherwise) bool { return o.matters(amount) })
}

// open lists the questions whose answer changes what comes of a job, the
// weightiest first. What a run never read cannot change it.
func (b *Book) open(job *site.Site, unknown []string) ([]question, error) {
	read := &recorded{job: job, read: map[string]bool{}}
	first := inside.RunOn(b.rules, read, inside.Overrides(job))
	if first.Status == "" {
		return nil, b.blame(job, first.Err)
	}
	var out []question
	for _, asking := range b.rules.Askings() {
		if _, given := job.Input(asking.Key); given || slices.Contains(unknown, asking.Key) || !read.of(b.table, asking.Key) {
			continue
		}
		q, err := b.choices(first, job, asking)
		if err != nil {
			return nil, err
		}
		if q.matters(0) {
			out = append(out, q)
		}
	}
	slices.SortStableFunc(out, func(a, b question) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.most, a.most))
	})
	return out, nil
}

// choices tries every answer that a question may have. One that the job cannot have
// beside what it says is no choice.
func (b *Book) choices(first inside.Ran, job *site.Site, asking *engine.Asking) (question, error) {
	out := question{Question: section.Question{Key: asking.Key, Label: b.labelOf(asking.Key), Asks: asking.Asks}, rank: 1}
	if first.Outcome == nil {
		return out, nil
	}
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
		o.Answer = answer
		out.choices = append(out.choices, o)
		out.Choices = append(out.Choices, o.Otherwise)
		out.most = max(out.most, o.length)
		if o.Status != first.Status {
			out.rank = 0
		}
	}
	t := &teller{rules: b.rules, o: first.Outcome}
	out.How = t.say(asking.How())
	return out, t.err
}

// labelOf is the label of a value of a job.
func (b *Book) labelOf(key string) string {
	for _, f := range b.table.Inputs() {
		if f.Path == key {
			return f.Label
		}
	}
	return label(key)
}

// recorded is a site that keeps what was read of it.
type recorded struct {
	job  *site.Site
	read map[string]bool
}

// Input returns what the job says.
func (r *recorded) Input(path string) (any, bool) {
	r.read[path] = true
	return r.job.Input(path)
}

// of reports whether a value of the job was read, or one that is worked out from it.
func (r *recorded) of(table *site.Table, key string) bool {
	if r.read[key] {
		return true
	}
	return slices.ContainsFunc(table.Inputs(), func(f site.Field) bool { return r.read[f.Path] && slices.Contains(f.From, key) })
}
