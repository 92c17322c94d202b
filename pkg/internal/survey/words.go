package survey

import (
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Unasked are words of a vocabulary that nothing in the rulebook answers, asks
// about, or hands to a calculation.
type Unasked struct {
	Vocabulary value.Kind `json:"vocabulary"`
	Words      []string   `json:"words"`
}

// unasked lists the words that nothing asks about, by their vocabularies.
func unasked(b *engine.Book) []Unasked {
	said := said(b)
	library := map[value.Kind]bool{} // vocabularies that the book does not declare
	for _, in := range b.Inputs() {
		library[in.Kind] = true
	}
	taken := map[value.Kind]bool{} // by a function that is called
	for _, f := range b.Functions() {
		for _, signature := range f.Signatures {
			for _, kind := range language.Words(signature) {
				library[value.Kind(kind)] = true
			}
			_, takes, _ := strings.Cut(signature, "(")
			for _, kind := range language.Words(takes[:strings.LastIndex(takes, ")")]) {
				taken[value.Kind(kind)] = taken[value.Kind(kind)] || said[f.Name]
			}
		}
	}
	var out []Unasked
	for _, kind := range b.Vocabularies() {
		var words []string
		all := b.Words(kind)
		used := slices.ContainsFunc(all, func(w *value.Word) bool { return said[w.Name] })
		for _, w := range all {
			// A vocabulary of the library that the book makes no use of is left alone.
			if !said[w.Name] && !taken[kind] && (used || !library[kind]) {
				words = append(words, w.Name)
			}
		}
		if len(words) > 0 {
			out = append(out, Unasked{kind, words})
		}
	}
	return out
}

// said returns every name that stands in an expression of the book, and the words
// that its comparisons, answers, settings, materials and courses have.
func said(b *engine.Book) map[string]bool {
	out := map[string]bool{}
	hold := func(values ...value.Value) {
		for _, v := range values {
			if w, ok := v.Word(); ok {
				out[w.Name] = true
			}
		}
	}
	read := func(text string) {
		for _, word := range language.Words(text) {
			out[word] = true
		}
	}
	for i := range b.ClauseCount() {
		read(b.ClauseText(i))
		c, _ := b.ClauseComparison(i)
		hold(c.Values...)
	}
	for _, f := range formulas(b) {
		read(f.Text())
		if v, err := f.On(nothing); err == nil {
			hold(v)
		}
	}
	for _, d := range b.Decisions() {
		for _, l := range d.Limits() {
			for _, w := range slices.Concat(l.OneOf, l.NoneOf) {
				out[w.Name] = true
			}
		}
	}
	for _, s := range b.Settings() {
		hold(s.Value)
	}
	for _, m := range b.Materials() {
		hold(slices.Collect(maps.Values(m.Word.Properties()))...)
	}
	for _, c := range b.Courses() {
		hold(value.OfWord(&c.Is))
	}
	return out
}

// formula is an answer of a decision, or what a term comes to; of a limit or a side of a
// check it has no owner.
type formula struct {
	engine.Formula
	owner string
	take  rulebook.Take // of a decision
}

func formulas(b *engine.Book) []formula {
	var out []formula
	for _, d := range b.Decisions() {
		for _, r := range d.Rules {
			out = append(out, formula{b.AnswerFormula(r), d.Name, d.Take})
		}
		for _, l := range d.Limits() {
			if f, ok := b.LimitFormula(l); ok {
				out = append(out, formula{Formula: f})
			}
		}
	}
	for _, t := range b.Terms() {
		if f, ok := b.TermFormula(t); ok {
			out = append(out, formula{Formula: f, owner: t.Name})
		}
	}
	for _, c := range b.Checks() {
		if checked, limit, ok := b.CheckFormulas(c); ok {
			out = append(out, formula{Formula: checked}, formula{Formula: limit})
		}
	}
	return out
}

// PassedBy is a word that an amendment added, with the entries that ask for other
// words of its vocabulary and so do not hold for it.
type PassedBy struct {
	Word       string     `json:"word"`
	Vocabulary value.Kind `json:"vocabulary"`
	// AddedBy names the amendment.
	AddedBy string `json:"added_by"`
	// By are the entries, and the words that each asks for.
	By []Asking `json:"by"`
}

// Asking is an entry that asks for some words of a vocabulary.
type Asking struct {
	Named
	For []string `json:"for"`
}

// passedBy lists, for each word that an amendment added, the entries that were
// there before, ask for other words and pass it by.
func passedBy(b *engine.Book) []PassedBy {
	var out []PassedBy
	for _, v := range b.Contents().Vocabularies {
		for _, w := range v.Words {
			if !added(w.Amended) {
				continue
			}
			p := PassedBy{Word: w.Word.Name, Vocabulary: v.Kind, AddedBy: w.Amended.By.Name}
			for _, each := range conditions(b) {
				if asks := asksBeside(b, each.condition, w.Word); len(asks) > 0 && !each.added {
					p.By = append(p.By, Asking{each.of, asks})
				}
			}
			if len(p.By) > 0 {
				out = append(out, p)
			}
		}
	}
	return out
}

// added reports whether an amendment added an entry, and not only changed it.
func added(a *rulebook.Amended) bool { return a != nil && len(a.Replaced) == 0 }

// asksBeside lists the words for which a condition asks in clauses that do not
// hold for a word of the same vocabulary.
func asksBeside(b *engine.Book, c *engine.Condition, word value.Word) []string {
	var out []string
	for _, clause := range c.Clauses() {
		asks, ok := b.ClauseComparison(clause.Index)
		if !ok || asks.Op != "==" && asks.Op != "in" {
			continue
		}
		holds := slices.ContainsFunc(asks.Values, func(v value.Value) bool { return value.OfWord(&word).Is(v) })
		for _, v := range asks.Values {
			if w, isWord := v.Word(); isWord && w.Vocabulary == word.Vocabulary && !holds && !slices.Contains(out, w.Name) {
				out = append(out, w.Name)
			}
		}
	}
	return out
}

// conditionOf is a condition with the entry that has it, and whether an amendment
// added that.
type conditionOf struct {
	of        Named
	added     bool
	condition *engine.Condition
}

func conditions(b *engine.Book) []conditionOf {
	var out []conditionOf
	for _, s := range subjects(b) {
		for i, c := range s.conditions() {
			one := conditionOf{Named{s.Name, s.Place}, added(s.amended), c}
			if s.decision != nil && i > 0 {
				r := s.decision.Rules[i-1]
				one.of, one.added = ruleNamed(r), one.added || added(r.Amended)
			}
			out = append(out, one)
		}
	}
	for _, t := range b.Terms() {
		for _, c := range []*engine.Condition{t.When, t.TermCondition} {
			out = append(out, conditionOf{Named{t.Name, t.Place}, added(t.Amended), c})
		}
	}
	return out
}

// unread finds the questions of a company that no rule reads, as far as the scope
// asks about them.
func (c *conclusion) unread() []Finding {
	b := c.q.m.book
	said := said(b)
	var out []Finding
	for _, d := range b.Decisions() {
		asked := slices.ContainsFunc(c.scope.subjects, func(s *subject) bool { return s.decision == d })
		if d.Question != "" && asked && !said[d.Name] {
			out = append(out, Finding{Kind: Unread, About: About{"question", d.Name, d.Chapter, d.Place},
				Says: "A job may answer it, and no rule, check, caution or refusal reads the answer."})
		}
	}
	return out
}
