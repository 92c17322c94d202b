package trial

import (
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
)

// Coverage is how much of a rulebook its trials reach.
//
// A rule is reached if its answer was taken at least once; of a decision that
// takes the largest or the smallest that means that it governed.
//
// A clause is covered by the modified condition/decision measure: it was seen
// true and deciding, and false and deciding, where a clause decides a condition
// if turning it alone would turn the condition. Both need not be seen with the
// other clauses unchanged between them, so this is the masking form of the
// measure, not the unique-cause form. In particular:
//   - a condition counts where it was asked: the rules behind one that had
//     answered, and all but the refusals of a refused job, do not. Within a
//     condition that was asked, every clause is worked out, also those that the
//     run had no need of, so that none passes for deciding by having been asked
//     first;
//   - a clause that cannot be read, as x > 3 after known(x), is masked: it
//     decides nothing, and the clause before it, which keeps it from being
//     read, decides;
//   - a clause that stands twice in one condition is one clause, and is turned
//     in both places at once;
//   - known(a) and known(b) in one condition are one question, and are turned
//     together, where a and b are given under the same conditions.
//
// The comparison of a check with its limit counts as a clause, and decides
// whenever it is made.
type Coverage struct {
	// Rules in the order of the files.
	Rules []RuleCovered `json:"rules"`
	// Clauses in the order of the files, of each condition in the order of the
	// text.
	Clauses []ClauseCovered `json:"clauses"`
}

// RuleCovered is what the trials saw of one rule.
type RuleCovered struct {
	Decision string           `json:"decision"`
	Rule     string           `json:"rule"`
	Place    diagnostic.Place `json:"place"`
	// Chosen, Held and NotHeld count the trials in which its answer was taken,
	// in which it held beside another whose answer was taken, and in which it
	// did not hold.
	Chosen  int `json:"chosen"`
	Held    int `json:"held"`
	NotHeld int `json:"not_held"`
}

// Reached reports whether the rule's answer was taken at least once.
func (r *RuleCovered) Reached() bool { return r.Chosen > 0 }

// ClauseCovered is what the trials saw of one clause in one condition.
type ClauseCovered struct {
	// In says whose condition it is: "rule NEED-FOOT", "check CAPACITY when".
	In    string           `json:"in"`
	Text  string           `json:"text"`
	Place diagnostic.Place `json:"place"`
	// True and False count the trials in which it came to each, TrueDecides and
	// FalseDecides those in which it decided.
	True         int `json:"true"`
	False        int `json:"false"`
	TrueDecides  int `json:"true_decides"`
	FalseDecides int `json:"false_decides"`
	// With are the other clauses of the condition that ask the same.
	With []string `json:"with,omitempty"`
}

// Seen reports whether the clause was seen true and false.
func (c *ClauseCovered) Seen() bool { return c.True > 0 && c.False > 0 }

// Covered reports whether the clause was seen to decide, both true and false.
func (c *ClauseCovered) Covered() bool { return c.TrueDecides > 0 && c.FalseDecides > 0 }

// Share is a count out of a total.
type Share struct{ Of, Total int }

// Percent of the total; 100 of nothing.
func (s Share) Percent() float64 {
	if s.Total == 0 {
		return 100
	}
	return 100 * float64(s.Of) / float64(s.Total)
}

// RulesReached counts the rules that are reached.
func (c *Coverage) RulesReached() Share { return share(c.Rules, (*RuleCovered).Reached) }

// ClausesSeen counts the clauses that were seen true and false.
func (c *Coverage) ClausesSeen() Share { return share(c.Clauses, (*ClauseCovered).Seen) }

// ClausesCovered counts the clauses that were seen to decide, true and false.
func (c *Coverage) ClausesCovered() Share { return share(c.Clauses, (*ClauseCovered).Covered) }

func share[T any](all []T, is func(*T) bool) Share {
	out := Share{Total: len(all)}
	for i := range all {
		if is(&all[i]) {
			out.Of++
		}
	}
	return out
}

// measure gathers coverage from outcomes.
type measure struct {
	book       *engine.Book
	conditions []*measured
	rules      map[*engine.Rule]*RuleCovered
	compared   map[*engine.Check]*ClauseCovered
}

// measured is one condition with what was seen of its clauses.
type measured struct {
	condition *engine.Condition
	// asked reports whether a run asks the condition of itself; nil for one of a
	// term, which is asked where a clause reads the term.
	asked   func(*engine.Outcome) bool
	clauses []int
	groups  [][]int
	seen    []ClauseCovered
}

func newMeasure(book *engine.Book) *measure {
	m := &measure{book: book, rules: map[*engine.Rule]*RuleCovered{}, compared: map[*engine.Check]*ClauseCovered{}}
	q := &questions{book: book, done: map[string]string{}}
	each := func(in string, c *engine.Condition, asked func(*engine.Outcome) bool) {
		if c != nil {
			m.conditions = append(m.conditions, m.condition(q, in, c, asked))
		}
	}
	always := func(*engine.Outcome) bool { return true }
	designed := func(o *engine.Outcome) bool { return len(o.Refusals) == 0 }
	for _, t := range book.Terms() {
		each("term "+t.Name+" when", t.When, nil)
		each("term "+t.Name, t.TermCondition, nil)
	}
	for _, d := range book.Decisions() {
		each("decision "+d.Name, d.When, func(o *engine.Outcome) bool { _, came := o.Came(d); return came })
		for i, r := range d.Rules {
			m.rules[r] = &RuleCovered{Decision: d.Name, Rule: r.ID, Place: r.Place}
			each("rule "+r.ID, r.When, func(o *engine.Outcome) bool {
				decided, came := o.Came(d)
				return came && decided.Asked && decided.States[i] != rulebook.NotReached
			})
		}
	}
	for _, c := range book.Courses() {
		each("course "+c.Name, c.When, designed)
	}
	for _, c := range book.Checks() {
		each("check "+c.ID+" when", c.When, designed)
		each("check "+c.ID, c.Holds, func(o *engine.Outcome) bool {
			return slices.ContainsFunc(o.Checks, func(made *engine.Checked) bool { return made.Check == c })
		})
		if text := c.Compares(); text != "" {
			m.compared[c] = &ClauseCovered{In: "check " + c.ID, Text: text, Place: c.Place}
		}
	}
	for _, c := range book.Cautions() {
		each("caution "+c.ID, c.When, designed)
	}
	for _, w := range book.Work() {
		each(w.Sort+" "+w.ID, w.When, func(o *engine.Outcome) bool { return designed(o) && w.CanBe(o.Courses) })
	}
	for _, r := range book.Refusals() {
		each("refusal "+r.ID, r.When, always)
	}
	return m
}

func (m *measure) condition(q *questions, in string, c *engine.Condition, asked func(*engine.Outcome) bool) *measured {
	one := &measured{condition: c, asked: asked, clauses: c.Tree().Clauses()}
	at := map[int]diagnostic.Place{}
	for _, each := range slices.Backward(c.Clauses()) {
		at[each.Index] = each.Place // the first, of one that stands there twice
	}
	for _, i := range one.clauses {
		group := q.group(one.clauses, i)
		covered := ClauseCovered{In: in, Text: m.book.ClauseText(i), Place: at[i]}
		for _, other := range group {
			if other != i {
				covered.With = append(covered.With, m.book.ClauseText(other))
			}
		}
		one.groups = append(one.groups, group)
		one.seen = append(one.seen, covered)
	}
	return one
}

// coverage returns what was gathered, in the order of the files.
func (m *measure) coverage() *Coverage {
	out := &Coverage{}
	for _, d := range m.book.Decisions() {
		for _, r := range d.Rules {
			out.Rules = append(out.Rules, *m.rules[r])
		}
	}
	for _, one := range m.conditions {
		out.Clauses = append(out.Clauses, one.seen...)
	}
	for _, c := range m.book.Checks() {
		if compared := m.compared[c]; compared != nil {
			out.Clauses = append(out.Clauses, *compared)
		}
	}
	slices.SortStableFunc(out.Clauses, func(a, b ClauseCovered) int { return a.Place.Compare(b.Place) })
	return out
}
