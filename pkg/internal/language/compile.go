package language

import (
	"slices"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/value"
)

// Fault is one thing wrong in an expression. Offset and Width count characters
// of the expression's text.
type Fault struct {
	Offset, Width int
	Code          diagnostic.Code
	Message       string
	Found, Wanted string
	Nearest       string
}

// Expression is a compiled expression that gives a value. It is immutable.
type Expression struct {
	Text  string
	Kind  value.Kind
	Names []string // the names it reads, in the order of the text
	Reads []string // these, and behind each what is read of it, as NAME.PROPERTY
	Calls []string // the functions it calls, in the order of the text
	env   *Env
	prog  cel.Program
	shape Shape
}

// Eval works the expression out. Every error is an [*EvalError].
func (x *Expression) Eval(f *Frame) (value.Value, error) {
	out, _, err := x.prog.Eval(f)
	if err == nil {
		var v value.Value
		if v, err = x.env.fromCEL(out, x.Kind); err == nil {
			return v, nil
		}
	}
	return value.Value{}, &EvalError{Text: x.Text, Err: err}
}

// EvalError is an expression that came to no value.
type EvalError struct {
	Text string
	Err  error
}

func (e *EvalError) Error() string {
	cause := e.Err.Error()
	if strings.HasPrefix(cause, e.Text+": ") {
		return cause // the expression is the call that failed
	}
	return e.Text + ": " + cause
}

// Unwrap returns the cause.
func (e *EvalError) Unwrap() error { return e.Err }

// parsed is an expression between parsing and checking.
type parsed struct {
	env    *Env
	text   string
	ast    *cel.Ast
	root   ast.Expr
	info   *ast.SourceInfo
	parent map[int64]ast.Expr
	asked  map[int64]string // nodes that stood as known(name)
	leaves []ast.Expr       // the clauses, in the order of the text
	faults []Fault
	layout *layout // made when a place is first asked for
}

// read parses the text as CEL reads it.
func (e *Env) read(text string) *parsed {
	p := &parsed{env: e, text: text, parent: map[int64]ast.Expr{}, asked: map[int64]string{}}
	if strings.TrimSpace(text) == "" {
		p.faults = []Fault{{Code: codeNothing, Message: "nothing is written here", Wanted: "an expression"}}
		return p
	}
	tree, issues := e.cel.Parse(text)
	if issues.Err() != nil {
		p.faults = e.syntaxFaults(text, issues)
		return p
	}
	p.ast = tree
	p.root, p.info = tree.NativeRep().Expr(), tree.NativeRep().SourceInfo()
	return p
}

// Expression compiles text as an expression of the wanted kind, or of any kind
// if want is empty. given lists the names that are known to have a value where
// the expression is used.
func (e *Env) Expression(text string, want value.Kind, given Given) (*Expression, []Fault) {
	p := e.read(text)
	if len(p.faults) == 0 {
		p.prepare()
	}
	if len(p.faults) > 0 {
		return nil, p.faults
	}
	p.refuseLogic(p.root)
	checked := p.check()
	if len(p.faults) > 0 {
		return nil, p.faults
	}
	kind := e.kindOf(checked.OutputType())
	if want != value.NoKind && kind != want {
		return nil, []Fault{p.wrongKind(p.root, kind, want)}
	}
	names := p.namesIn(p.root, checked.NativeRep())
	p.needAsked(p.root, checked.NativeRep(), given)
	if len(p.faults) > 0 {
		return nil, p.faults
	}
	prog, err := e.cel.PlanProgram(checked.NativeRep())
	if err != nil {
		return nil, notReady(err)
	}
	return &Expression{Text: strings.TrimSpace(text), Kind: kind, Names: names, Reads: p.outline(p.root).Names(nil), Calls: callsIn(p.root), env: e, prog: prog,
		shape: p.shapeOf(p.root)}, nil
}

// notReady reports a checked expression of which no program can be made. None is
// known; it is the library's fault, not the writer's.
func notReady(err error) []Fault {
	return []Fault{{Code: codeNotReady, Message: "the library cannot make this expression ready: " + err.Error()}}
}

// isDeclared reports whether a dotted name, or the front of it, is a value or a
// word.
func (e *Env) isDeclared(name string) bool {
	for more := true; more; name, _, more = cutLast(name) {
		_, isName := e.names[name]
		_, isWord := e.words[name]
		if isName || isWord {
			return true
		}
	}
	return false
}

// kindNamed returns the kind of a name or of a word.
func (e *Env) kindNamed(name string) value.Kind {
	if i, declared := e.names[name]; declared {
		return e.list[i].Kind
	}
	if w, isWord := e.words[name]; isWord {
		return w.Vocabulary
	}
	return value.NoKind
}

// IsJoined reports whether a text is a condition of several clauses: whether &&,
// || or ! joins all of it.
func (e *Env) IsJoined(text string) bool {
	p := e.read(text)
	return len(p.faults) == 0 && isJoined(p.root)
}

func isJoined(n ast.Expr) bool {
	_, joined := joins[n.AsCall().FunctionName()] // "" of what is no call
	return joined
}

// refuseLogic refuses &&, || and ! inside a value, where no reason could be
// given for them.
func (p *parsed) refuseLogic(root ast.Expr) {
	if isJoined(root) {
		p.refuse(root, codeHiddenLogic, "&&, || and ! cannot stand inside a value", "a condition of its own, such as a term that is a bool")
		return // what is within it is refused with it
	}
	for _, kid := range children(root) {
		p.refuseLogic(kid)
	}
}

// check type-checks the prepared tree.
func (p *parsed) check() *cel.Ast {
	if len(p.faults) > 0 {
		return nil
	}
	checked, issues := p.env.cel.Check(p.ast)
	if issues.Err() != nil {
		p.typeFaults(issues)
		return nil
	}
	p.lists(checked.NativeRep())
	return checked
}

// namesIn lists the declared names that a part of the tree reads.
func (p *parsed) namesIn(root ast.Expr, checked *ast.AST) []string {
	var out []string
	refs := checked.ReferenceMap()
	ast.PreOrderVisit(root, ast.NewExprVisitor(func(n ast.Expr) {
		r, ok := refs[n.ID()]
		if !ok || r.Name == "" || r.Value != nil {
			return
		}
		name := strings.TrimPrefix(r.Name, knownPrefix)
		if _, declared := p.env.names[name]; declared && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}))
	return out
}

// children lists the direct parts of a node, in the order of the text.
func children(n ast.Expr) []ast.Expr {
	switch n.Kind() {
	case ast.CallKind:
		call := n.AsCall()
		if call.IsMemberFunction() {
			return append([]ast.Expr{call.Target()}, call.Args()...)
		}
		return call.Args()
	case ast.SelectKind:
		return []ast.Expr{n.AsSelect().Operand()}
	case ast.ListKind:
		return n.AsList().Elements()
	}
	return nil
}

// dotted returns a chain of names joined by dots.
func dotted(n ast.Expr) (string, bool) {
	switch n.Kind() {
	case ast.IdentKind:
		return n.AsIdent(), true
	case ast.SelectKind:
		sel := n.AsSelect()
		if sel.IsTestOnly() {
			return "", false
		}
		head, ok := dotted(sel.Operand())
		return head + "." + sel.FieldName(), ok
	}
	return "", false
}

func cutLast(name string) (head, tail string, ok bool) {
	i := strings.LastIndexByte(name, '.')
	if i < 0 {
		return name, "", false
	}
	return name[:i], name[i+1:], true
}

// callsIn lists the functions that a part of the tree calls, without operators.
func callsIn(root ast.Expr) []string {
	var out []string
	ast.PreOrderVisit(root, ast.NewExprVisitor(func(n ast.Expr) {
		if n.Kind() != ast.CallKind {
			return
		}
		name := n.AsCall().FunctionName()
		if _, isOperator := symbols[name]; !isOperator && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}))
	return out
}
