package language

import (
	"fmt"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// wrongOperands reports an operator between kinds that do not go together, with
// the repair where there is one.
func (p *parsed) wrongOperands(n ast.Expr, op string, kinds []value.Kind) Fault {
	f := p.fault(n, codeOperands, fmt.Sprintf("%s does not go between these", symbols[op]))
	args := n.AsCall().Args()
	if len(kinds) != 2 || len(args) != 2 {
		f.Message = symbols[op] + " does not go with this"
		f.Found, f.Wanted = p.describe(args[0], kinds[0]), "a number or a quantity"
		if op == operators.LogicalNot {
			f.Wanted = p.env.wantedFor(value.BoolKind)
		}
		if kinds[0] == temperatureKind {
			f.Wanted = scaleOnly
		}
		return f
	}
	f.Found = fmt.Sprintf("%s %s %s", spoken(kinds[0]), symbols[op], spoken(kinds[1]))
	left, right := kinds[0], kinds[1]
	if op == operators.In {
		element, ok := right.Element()
		if !ok {
			f.Wanted = "a list behind in, such as [a, b]"
			return f
		}
		right = element
	}
	ops, l, r := sortOfOp(op), p.sortOf(left), p.sortOf(right)
	for _, each := range repairs {
		if each.ops&ops != 0 && each.left&l != 0 && each.right&r != 0 {
			f.Wanted = each.wanted(misfit{p, &f, args, left, right})
			break
		}
	}
	return f
}

const temperatureKind value.Kind = "temperature"

// scaleOnly says what a temperature can do.
const scaleOnly = "a comparison, such as < fahrenheit(32): a temperature is a reading on a scale and takes no part in arithmetic"

// sorts are the sorts of kinds that repairs tell apart, and of operators.
type sorts uint8

const (
	wordKinds sorts = 1 << iota
	textKinds
	numberKinds
	scales
	dimensionKinds // but for temperatures
	otherKinds
	measures = scales | dimensionKinds
)

const (
	equals sorts = 1 << iota // ==, != and in
	orders
	sums
	otherOps
)

const every = ^sorts(0)

func (p *parsed) sortOf(k value.Kind) sorts {
	switch {
	case len(p.env.vocab[k]) > 0:
		return wordKinds
	case k == value.TextKind:
		return textKinds
	case k == value.NumberKind:
		return numberKinds
	case k == temperatureKind:
		return scales
	case isDimension(k):
		return dimensionKinds
	}
	return otherKinds
}

func sortOfOp(op string) sorts {
	switch op {
	case equalFunction, differFunction, operators.In:
		return equals
	case operators.Less, operators.LessEquals, operators.Greater, operators.GreaterEquals:
		return orders
	case operators.Add, operators.Subtract:
		return sums
	}
	return otherOps
}

// misfit is two kinds that an operator does not take.
type misfit struct {
	p           *parsed
	f           *Fault
	args        []ast.Expr
	left, right value.Kind
}

// repairs says what to do about a misfit; the first that fits is told.
var repairs = []struct {
	ops, left, right sorts
	wanted           func(m misfit) string
}{
	{every, wordKinds, wordKinds, misfit.otherWord},
	{sums | otherOps, scales, every, says(scaleOnly)},
	{sums | otherOps, every, scales, says(scaleOnly)},
	{every, numberKinds, measures, func(m misfit) string { return m.p.repair(m.args[0], m.right) }},
	{every, measures, numberKinds, func(m misfit) string { return m.p.repair(m.args[1], m.left) }},
	{equals, wordKinds, textKinds, func(m misfit) string { return m.wordFor(m.args[1], m.left) }},
	{equals, textKinds, wordKinds, func(m misfit) string { return m.wordFor(m.args[0], m.right) }},
	{equals | orders | sums, measures, measures, func(m misfit) string {
		return fmt.Sprintf("%s on both sides, or %s on both sides", spoken(m.left), spoken(m.right))
	}},
	{otherOps, measures, measures, says("dimensions whose product or quotient is one that the rule language has")},
	{equals, every, otherKinds, func(m misfit) string {
		if element, isList := m.right.Element(); isList && element == m.left {
			return "in, which asks for one of a list: " + m.p.textOf(m.args[0]) + " in " + m.p.textOf(m.args[1])
		}
		return "the same kind on both sides"
	}},
	{equals, every, every, says("the same kind on both sides")},
	{every, every, every, says("numbers, or quantities of one dimension")},
}

func says(text string) func(misfit) string { return func(misfit) string { return text } }

// wordFor names the word of a vocabulary that a text most likely stands for.
func (m misfit) wordFor(text ast.Expr, vocabulary value.Kind) string {
	start, stop := m.p.span(text)
	m.f.Offset, m.f.Width, m.f.Found, m.f.Message = start, stop-start, m.p.textOf(text), "this is a text, and a word is wanted"
	m.f.Wanted = m.p.env.wantedFor(vocabulary)
	m.p.nearestWord(m.f, text, vocabulary)
	return m.f.Wanted
}

// dimensionOf returns the dimension of a kind that is one; a ratio is a number.
func dimensionOf(k value.Kind) (quantity.Dimension, bool) {
	d, ok := quantity.DimensionNamed(string(k))
	return d, ok && d != quantity.DimRatio
}

func isDimension(k value.Kind) bool {
	_, is := dimensionOf(k)
	return is
}

// IsOrdered reports whether values of a kind have an order.
func IsOrdered(k value.Kind) bool { return k == value.NumberKind || isDimension(k) }

// repair tells how to write a bare number as a quantity.
func (p *parsed) repair(number ast.Expr, k value.Kind) string {
	if items := number.AsList().Elements(); len(items) > 0 {
		number = items[0]
	}
	x, isNumber := number.AsLiteral().(types.Double)
	d, measured := dimensionOf(k)
	if !isNumber || !measured {
		return p.env.wantedFor(k)
	}
	text := fmt.Sprintf("%s, such as %s(%g)", p.env.aKind(k), d.Units()[0].Builder, float64(x))
	if d == quantity.DimShare { // 0.02 is often written for 2 %
		text += fmt.Sprintf(", which is %g %%", float64(x))
	}
	return text
}

// otherWord reports a word compared with a word of another vocabulary.
func (m misfit) otherWord() string {
	if m.left == m.right {
		return "== or !=: words have no order"
	}
	for i, arg := range m.args {
		candidates := []ast.Expr{arg}
		if arg.Kind() == ast.ListKind {
			candidates = arg.AsList().Elements()
		}
		for _, each := range candidates {
			if m.p.notOf(m.f, each, []value.Kind{m.right, m.left}[i]) {
				return m.f.Wanted
			}
		}
	}
	return fmt.Sprintf("words of one vocabulary on both sides, not of %s and %s", m.left, m.right)
}

// notOf reports whether a word is not of the wanted vocabulary, if it is a word.
func (p *parsed) notOf(f *Fault, n ast.Expr, wanted value.Kind) bool {
	name, _ := dotted(n)
	w, isWord := p.env.words[name]
	if !isWord || w.Vocabulary == wanted {
		return false
	}
	start, stop := p.span(n)
	f.Offset, f.Width = start, stop-start
	f.Code = codeOtherWord
	f.Message = fmt.Sprintf("%s is a word of %s, not of %s", name, w.Vocabulary, wanted)
	f.Found, f.Wanted = name, p.env.wantedFor(wanted)
	f.Nearest = diagnostic.Nearest(name, wordNames(p.env.vocab[wanted]))
	return true
}

// lists refuses a list whose items are of several kinds: CEL lets it pass, and
// the odd item is then equal to nothing.
func (p *parsed) lists(checked *ast.AST) {
	ast.PreOrderVisit(p.root, ast.NewExprVisitor(func(n ast.Expr) {
		if n.Kind() != ast.ListKind {
			return
		}
		items := n.AsList().Elements()
		want := p.env.kindOf(checked.GetType(items[0].ID()))
		if parent, ok := p.parent[n.ID()]; ok && parent.Kind() == ast.CallKind && parent.AsCall().FunctionName() == operators.In {
			if left := p.env.kindOf(checked.GetType(parent.AsCall().Args()[0].ID())); left != value.NoKind {
				want = left
			}
		}
		for _, item := range items {
			if kind := p.env.kindOf(checked.GetType(item.ID())); kind != want && kind != value.NoKind {
				p.faults = append(p.faults, p.wrongPart(item, kind, want, codeMixedList, "the items of a list are of one kind"))
			}
		}
	}))
}
