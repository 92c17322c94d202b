package engine

import (
	"fmt"

	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// NameKind returns the kind of value that stands under a name, and whether it may
// be missing.
func (b *Book) NameKind(name string) (kind value.Kind, mayLack, ok bool) {
	n, ok := b.env.NameOf(name)
	return n.Kind, n.MayLack, ok
}

// Formula is an expression of the book, such as a rule's answer, that can be
// worked out on given values apart from any job. The zero Formula is none.
type Formula struct {
	book *Book
	*Expression
}

// AnswerFormula returns the expression of a rule's answer.
func (b *Book) AnswerFormula(r *Rule) Formula { return Formula{b, r.answer} }

// TermFormula returns the expression of a term, and false for a term that is a
// condition.
func (b *Book) TermFormula(t *Term) (Formula, bool) { return Formula{b, t.expr}, t.expr != nil }

// CheckFormulas returns the two sides of a check that compares, and false for any
// other check.
func (b *Book) CheckFormulas(c *Check) (checked, limit Formula, ok bool) {
	return Formula{b, c.value}, Formula{b, c.limit}, c.value != nil && c.limit != nil
}

// NameFormula returns the expression that reads one name.
func (b *Book) NameFormula(name string) Formula { f, _ := b.formula(name); return f }

// LimitFormula returns the expression of a limit of answers, and false for one
// that compares with none.
func (b *Book) LimitFormula(l *Limit) (Formula, bool) { return Formula{b, l.limit}, l.limit != nil }

// ClauseSides returns the two sides of a clause that compares calculated values,
// and how it compares them; ok is false for a clause of another form.
func (b *Book) ClauseSides(index int) (left Formula, op string, right Formula, ok bool) {
	c := b.clauses[index]
	left, leftOK := b.formula(c.Left)
	right, rightOK := b.formula(c.Right)
	return left, c.Op, right, leftOK && rightOK
}

// formula reads a part of an expression of the book.
func (b *Book) formula(text string) (Formula, bool) {
	x, faults := b.env.Expression(text, value.NoKind, b.everyName())
	return Formula{b, &Expression{source: x}}, len(faults) == 0
}

// Kind is the kind of value that the expression gives.
func (f Formula) Kind() value.Kind { return f.source.Kind }

// On works the expression out on given values. Settings have their own value
// unless another is given; any other name that the expression reads and that is
// not given is an error that wraps [rulebook.ErrMissing].
func (f Formula) On(values func(name string) (value.Value, bool)) (value.Value, error) {
	return f.source.Eval(f.book.frameOn(values))
}

// Comparison returns the comparison that a yes-or-no expression makes, and false
// for one that makes none.
func (f Formula) Comparison() (Comparison, bool) { return f.book.comparison(f.source) }

// ClauseOn reports whether a clause holds on given values, as [Formula.On] works
// out an expression.
func (b *Book) ClauseOn(index int, values func(name string) (value.Value, bool)) (bool, error) {
	return b.clauses[index].Holds(b.frameOn(values))
}

func (b *Book) comparison(x *language.Expression) (Comparison, bool) {
	shape, ok := x.Comparison()
	if !ok {
		return Comparison{}, false
	}
	out := Comparison{Name: shape.Name, Op: shape.Op}
	for _, operand := range shape.Operands {
		if operand.Name == "" {
			out.Values = append(out.Values, operand.Value)
			continue
		}
		s, isSetting := b.byName[operand.Name].(*Setting)
		if !isSetting {
			return Comparison{}, false
		}
		out.Values = append(out.Values, s.Value)
	}
	return out, true
}

func (b *Book) frameOn(values func(string) (value.Value, bool)) *language.Frame {
	resolve := func(name string) (value.Value, error) {
		if v, given := values(name); given {
			return v, nil
		}
		if s, isSetting := b.byName[name].(*Setting); isSetting {
			return s.Value, nil
		}
		return value.Value{}, fmt.Errorf("%w: no value was given for %s", rulebook.ErrMissing, name)
	}
	known := func(name string) (bool, error) {
		_, given := values(name)
		return given, nil
	}
	return b.env.NewBriefFrame(resolve, known)
}
