package language

import (
	"sync"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Shape is a clause that compares one name with values that do not change from
// job to job.
type Shape struct {
	Name     string
	Op       string // ==, !=, <, <=, >, >=, in, known, or "" for a plain yes or no
	Operands []Operand
}

// Operand is a literal or word, or another name, which may be a setting.
type Operand struct {
	Value   value.Value
	Setting string
}

// Comparison returns the shape of a clause, or of an expression of the same
// form, if it has one.
func (x *Expression) Comparison() (Shape, bool) {
	return x.shape, x.shape.Name != "" && x.Kind == value.BoolKind
}

var turned = map[string]string{"<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "==", "!=": "!="}

// shapeOf reads the shape of a clause from its checked tree.
func (p *parsed) shapeOf(n ast.Expr, checked *ast.AST) Shape {
	if name, ok := p.asked[n.ID()]; ok {
		return Shape{Name: name, Op: "known"}
	}
	if name, ok := p.readName(n, checked); ok {
		return Shape{Name: name, Op: "==", Operands: []Operand{{Value: value.Bool(true)}}}
	}
	if n.Kind() != ast.CallKind || len(n.AsCall().Args()) != 2 {
		return Shape{}
	}
	op, left, right := symbols[n.AsCall().FunctionName()], n.AsCall().Args()[0], n.AsCall().Args()[1]
	if op == "in" {
		return p.membership(left, right, checked)
	}
	if _, isComparison := turned[op]; !isComparison {
		return Shape{}
	}
	if name, ok := p.readName(left, checked); ok {
		if operand, ok := p.operand(right, checked); ok {
			return Shape{Name: name, Op: op, Operands: []Operand{operand}}
		}
	}
	if name, ok := p.readName(right, checked); ok {
		if operand, ok := p.operand(left, checked); ok {
			return Shape{Name: name, Op: turned[op], Operands: []Operand{operand}}
		}
	}
	return Shape{}
}

func (p *parsed) membership(left, right ast.Expr, checked *ast.AST) Shape {
	name, ok := p.readName(left, checked)
	if !ok || right.Kind() != ast.ListKind {
		return Shape{}
	}
	out := Shape{Name: name, Op: "in"}
	for _, item := range right.AsList().Elements() {
		operand, ok := p.operand(item, checked)
		if !ok {
			return Shape{}
		}
		out.Operands = append(out.Operands, operand)
	}
	return out
}

// readName returns the declared name that a node reads.
func (p *parsed) readName(n ast.Expr, checked *ast.AST) (string, bool) {
	r, ok := checked.ReferenceMap()[n.ID()]
	if !ok || r.Value != nil {
		return "", false
	}
	_, declared := p.env.names[r.Name]
	return r.Name, declared
}

// operand reads a literal, a word, a quantity built of a literal, or a name.
func (p *parsed) operand(n ast.Expr, checked *ast.AST) (Operand, bool) {
	if name, ok := p.readName(n, checked); ok {
		return Operand{Setting: name}, true
	}
	if r, ok := checked.ReferenceMap()[n.ID()]; ok && r.Value != nil {
		if w, isWord := r.Value.(wordValue); isWord {
			return Operand{Value: w.v}, true
		}
	}
	switch n.Kind() {
	case ast.LiteralKind:
		switch x := n.AsLiteral().(type) {
		case types.Double:
			return Operand{Value: value.Number(float64(x))}, true
		case types.Bool:
			return Operand{Value: value.Bool(bool(x))}, true
		case types.String:
			return Operand{Value: value.Text(string(x))}, true
		}
	case ast.CallKind:
		call := n.AsCall()
		if call.FunctionName() == operators.Negate && len(call.Args()) == 1 {
			if operand, ok := p.operand(call.Args()[0], checked); ok {
				if x, isNumber := operand.Value.Number(); isNumber {
					return Operand{Value: value.Number(-x)}, true
				}
			}
		}
		u, isUnit := builders()[call.FunctionName()]
		if !isUnit || len(call.Args()) != 1 || call.Args()[0].Kind() != ast.LiteralKind {
			break
		}
		if x, ok := call.Args()[0].AsLiteral().(types.Double); ok {
			if q, err := u.Quantity(float64(x)); err == nil {
				return Operand{Value: value.Measured(q)}, true
			}
		}
	}
	return Operand{}, false
}

// builders returns the units by the functions that build them.
var builders = sync.OnceValue(func() map[string]quantity.Unit {
	out := map[string]quantity.Unit{}
	for _, u := range quantity.Units() {
		out[u.Builder] = u
	}
	return out
})
