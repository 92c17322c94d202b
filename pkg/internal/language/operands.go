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
	p.repairOperands(&f, args, op, left, right)
	return f
}

const temperatureKind value.Kind = "temperature"

// scaleOnly says what a temperature can do.
const scaleOnly = "a comparison, such as < fahrenheit(32): a temperature is a reading on a scale and takes no part in arithmetic"

func (p *parsed) repairOperands(f *Fault, args []ast.Expr, op string, left, right value.Kind) {
	compares := op == equalFunction || op == differFunction || op == operators.In
	orders := op == operators.Less || op == operators.LessEquals || op == operators.Greater || op == operators.GreaterEquals
	sums := op == operators.Add || op == operators.Subtract
	lw, rw := p.env.vocab[left], p.env.vocab[right]
	switch {
	case len(lw) > 0 && len(rw) > 0 && left != right:
		p.wordOfAnother(f, args, left, right)
	case (left == temperatureKind || right == temperatureKind) && !compares && !orders:
		f.Wanted = scaleOnly
	case left == value.NumberKind && isDimension(right):
		f.Wanted = p.repair(args[0], right)
	case right == value.NumberKind && isDimension(left):
		f.Wanted = p.repair(args[1], left)
	case compares && len(lw) > 0 && right == value.TextKind:
		f.Wanted = p.env.wantedFor(left)
		p.nearestWord(f, args[1], left)
	case compares && len(rw) > 0 && left == value.TextKind:
		f.Wanted = p.env.wantedFor(right)
		p.nearestWord(f, args[0], right)
	case isDimension(left) && isDimension(right) && (compares || orders || sums):
		f.Wanted = fmt.Sprintf("%s on both sides, or %s on both sides", spoken(left), spoken(right))
	case isDimension(left) && isDimension(right):
		f.Wanted = "dimensions whose product or quotient is one that the rule language has"
	case compares:
		f.Wanted = "the same kind on both sides"
	case left == right && len(lw) > 0:
		f.Wanted = "== or !=: words have no order"
	default:
		f.Wanted = "numbers, or quantities of one dimension"
	}
}

func isDimension(k value.Kind) bool {
	d, ok := quantity.DimensionNamed(string(k))
	return ok && d != quantity.DimRatio
}

// repair tells how to write a bare number as a quantity.
func (p *parsed) repair(number ast.Expr, k value.Kind) string {
	if number.Kind() == ast.ListKind && len(number.AsList().Elements()) > 0 {
		number = number.AsList().Elements()[0]
	}
	if number.Kind() == ast.LiteralKind {
		if x, ok := number.AsLiteral().(types.Double); ok {
			if d, ok := quantity.DimensionNamed(string(k)); ok && d != quantity.DimRatio {
				text := fmt.Sprintf("%s, such as %s(%g)", p.env.aKind(k), d.Units()[0].Builder, float64(x))
				if d == quantity.DimShare { // 0.02 is often written for 2 %
					text += fmt.Sprintf(", which is %g %%", float64(x))
				}
				return text
			}
		}
	}
	return p.env.wantedFor(k)
}

// wordOfAnother reports a word compared with a word of another vocabulary.
func (p *parsed) wordOfAnother(f *Fault, args []ast.Expr, left, right value.Kind) {
	for i, arg := range args {
		other := []value.Kind{right, left}[i]
		candidates := []ast.Expr{arg}
		if arg.Kind() == ast.ListKind {
			candidates = arg.AsList().Elements()
		}
		for _, each := range candidates {
			if p.notOf(f, each, other) {
				return
			}
		}
	}
	f.Wanted = fmt.Sprintf("words of one vocabulary on both sides, not of %s and %s", left, right)
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
				p.mixed(item, kind, want)
			}
		}
	}))
}

func (p *parsed) mixed(item ast.Expr, kind, want value.Kind) {
	f := p.wrongKind(item, kind, want)
	f.Code, f.Message = codeMixedList, "the items of a list are of one kind"
	if kind == value.NumberKind && isDimension(want) {
		f.Wanted = p.repair(item, want)
	}
	if len(p.env.vocab[want]) > 0 {
		p.notOf(&f, item, want)
	}
	p.faults = append(p.faults, f)
}
