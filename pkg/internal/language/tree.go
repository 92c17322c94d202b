package language

import (
	"github.com/google/cel-go/common/ast"

	"example.com/groundrule/pkg/value"
)

// Node is a part of an expression, for whoever works out what follows from it.
type Node struct {
	// Text is the part as CEL writes it.
	Text string
	// Name is the declared name that the part reads; "" for another part. Value is
	// what a literal, a word or a literal with its unit comes to; else it is zero.
	Name  string
	Value value.Value
	// Call is the operator or function that makes it of Args: "+", "<", "larger"; "."
	// for the Property of a word, "list" for a list, "known" for whether Name has a
	// value.
	Call     string
	Property string
	Args     []*Node
	Kind     value.Kind
}

// Tree reads an expression of which the names are all there, or one clause of a
// condition; nil if it cannot be read.
func (e *Env) Tree(text string) *Node {
	p := e.parse(text)
	checked := p.check()
	if len(p.faults) > 0 {
		return nil
	}
	return p.node(p.root, checked.NativeRep())
}

func (p *parsed) node(n ast.Expr, checked *ast.AST) *Node {
	out := &Node{Text: p.written(n), Kind: p.env.kindOf(checked.GetType(n.ID()))}
	if name, ok := p.asked[n.ID()]; ok {
		out.Call, out.Name = "known", name
		return out
	}
	if name, ok := p.readName(n, checked); ok {
		out.Name = name
		return out
	}
	if operand, ok := p.operand(n, checked); ok {
		out.Value = operand.Value
		return out
	}
	switch n.Kind() {
	case ast.CallKind:
		out.Call = n.AsCall().FunctionName()
		if sign, isOperator := symbols[out.Call]; isOperator {
			out.Call = sign
		}
	case ast.SelectKind:
		out.Call, out.Property = ".", n.AsSelect().FieldName()
	case ast.ListKind:
		out.Call = "list"
	}
	for _, kid := range children(n) {
		out.Args = append(out.Args, p.node(kid, checked))
	}
	return out
}
