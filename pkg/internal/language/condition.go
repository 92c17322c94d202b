package language

import (
	"maps"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/value"
)

// Clause is a part of a condition that holds or does not, with no && or ||
// inside. Its text is as CEL writes it, so that clauses that read the same have
// the same text.
type Clause struct {
	Expression
	// Offset and Width are where the clause stands in the condition.
	Offset, Width int
	// Left and Right are the two sides of a clause that compares, as CEL writes
	// them, and Op is how; "" for any other clause.
	Left, Op, Right string
}

// Holds reports whether the clause holds. Every error is an [*EvalError].
func (c *Clause) Holds(f *Frame) (bool, error) {
	out, _, err := c.prog.Eval(f)
	if err != nil {
		return false, &EvalError{Text: c.Text, Err: err}
	}
	return out == types.True, nil
}

// Condition is a compiled condition. It is immutable.
type Condition struct {
	Text    string
	Root    *logic.Tree // of indices in Clauses
	Clauses []*Clause   // in the order of the text
	Names   []string
	Calls   []string // the functions it calls
	// Settles lists the names that surely have a value where the condition holds.
	Settles Given
}

// Given is a set of names that are known to have a value at some point.
type Given map[string]bool

// And adds what another set has.
func (g Given) And(h Given) Given {
	out := Given{}
	maps.Copy(out, g)
	maps.Copy(out, h)
	return out
}

// or keeps what both sides settle.
func (g Given) or(h Given) Given {
	out := g.And(nil)
	maps.DeleteFunc(out, func(n string, _ bool) bool { return !h[n] })
	return out
}

// Condition compiles text as a condition. given lists the names that surely
// have a value where it is asked.
func (e *Env) Condition(text string, given Given) (*Condition, []Fault) {
	p := e.read(text)
	if len(p.faults) > 0 {
		return nil, p.faults
	}
	c := &Condition{Text: strings.TrimSpace(text)}
	c.Root = p.split(p.root, c) // before prepare, so that a clause reads as it was written
	p.prepare()
	checked := p.check()
	if len(p.faults) > 0 {
		return nil, p.faults
	}
	if k := e.kindOf(checked.OutputType()); k != value.BoolKind {
		return nil, []Fault{p.wrongKind(p.root, k, value.BoolKind)}
	}
	rep := checked.NativeRep()
	c.Names, c.Calls = p.namesIn(p.root, rep), callsIn(p.root)
	c.Settles, _ = p.settle(p.root, rep, given)
	if len(p.faults) > 0 {
		return nil, p.faults
	}
	if err := p.plan(c, rep); err != nil {
		return nil, notReady(err)
	}
	return c, nil
}

var joins = map[string]logic.Op{operators.LogicalAnd: logic.All, operators.LogicalOr: logic.Any, operators.LogicalNot: logic.Not}

// split makes the tree of clauses. The nodes' expressions are kept in
// p.leaves until they are planned.
func (p *parsed) split(n ast.Expr, c *Condition) *logic.Tree {
	call := n.AsCall()
	if op, joined := joins[call.FunctionName()]; joined {
		tree := &logic.Tree{Op: op}
		for _, arg := range call.Args() {
			kid := p.split(arg, c)
			if kid.Op == op && op != logic.Not {
				tree.Parts = append(tree.Parts, kid.Parts...) // CEL balances chains; a reader sees one
			} else {
				tree.Parts = append(tree.Parts, kid)
			}
		}
		return tree
	}
	p.refuseLogic(n)
	start, stop := p.span(n)
	clause := &Clause{Expression: Expression{Text: p.written(n), Kind: value.BoolKind, env: p.env}, Offset: start, Width: stop - start}
	if op := symbols[call.FunctionName()]; turned[op] != "" {
		clause.Left, clause.Op, clause.Right = p.written(call.Args()[0]), op, p.written(call.Args()[1])
	}
	c.Clauses = append(c.Clauses, clause)
	p.leaves = append(p.leaves, n)
	return &logic.Tree{Clause: len(c.Clauses) - 1}
}

// written returns a part of the text as CEL writes it.
func (p *parsed) written(n ast.Expr) string {
	s, err := cel.ExprToString(n, p.info)
	if err != nil {
		return p.text
	}
	return s
}

// plan makes a program of each clause.
func (p *parsed) plan(c *Condition, checked *ast.AST) error {
	for i, clause := range c.Clauses {
		part := ast.NewCheckedAST(ast.NewAST(p.leaves[i], checked.SourceInfo()), checked.TypeMap(), checked.ReferenceMap())
		clause.Names = p.namesIn(p.leaves[i], checked)
		clause.shape = p.shapeOf(p.leaves[i])
		prog, err := p.env.cel.PlanProgram(part)
		if err != nil {
			return err
		}
		clause.prog = prog
	}
	return nil
}

// settle walks a condition in the order in which it is asked, and refuses a
// read of a value that may be missing where known() has not been asked before.
// It gives the names that surely have a value if the part holds, and if it does
// not.
func (p *parsed) settle(n ast.Expr, checked *ast.AST, given Given) (ifTrue, ifFalse Given) {
	call := n.AsCall()
	switch call.FunctionName() {
	case operators.LogicalAnd:
		lt, lf := p.settle(call.Args()[0], checked, given)
		rt, rf := p.settle(call.Args()[1], checked, given.And(lt))
		return lt.And(rt), lf.or(rf.And(lt))
	case operators.LogicalOr:
		lt, lf := p.settle(call.Args()[0], checked, given)
		rt, rf := p.settle(call.Args()[1], checked, given.And(lf))
		return lt.or(rt.And(lf)), lf.And(rf)
	case operators.LogicalNot:
		t, f := p.settle(call.Args()[0], checked, given)
		return f, t
	}
	p.needAsked(n, checked, given)
	if name, ok := p.asked[n.ID()]; ok {
		return Given{name: true}, Given{}
	}
	return Given{}, Given{}
}

// needAsked refuses each read, in n, of a value that may be missing and is not
// in given.
func (p *parsed) needAsked(n ast.Expr, checked *ast.AST, given Given) {
	refs := checked.ReferenceMap()
	ast.PreOrderVisit(n, ast.NewExprVisitor(func(n ast.Expr) {
		if _, ok := p.asked[n.ID()]; ok {
			return
		}
		name := ""
		if r, ok := refs[n.ID()]; ok && r.Value == nil {
			if i, declared := p.env.names[r.Name]; declared && p.env.list[i].MayLack {
				name = r.Name
			}
		} else if n.Kind() == ast.SelectKind {
			operand := checked.GetType(n.AsSelect().Operand().ID())
			if property, has := p.env.properties[p.env.kindOf(operand)][n.AsSelect().FieldName()]; has && property.Optional {
				if chain, ok := dotted(n); ok {
					name = chain
				} else {
					name = n.AsSelect().FieldName()
				}
			}
		}
		if name == "" || given[name] {
			return
		}
		f := p.fault(n, CodeMayBeMissing, name+" may be missing here")
		f.Found, f.Wanted = name, "known("+name+") asked before it, as in known("+name+") && ..."
		p.faults = append(p.faults, f)
	}))
}
