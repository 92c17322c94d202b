package language

import (
	"fmt"
	"slices"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

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

// parse reads the text and makes the language's own changes to what CEL read.
func (e *Env) parse(text string) *parsed {
	p := e.read(text)
	if len(p.faults) == 0 {
		p.prepare()
	}
	return p
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
	p := e.parse(text)
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
	return &Expression{Text: strings.TrimSpace(text), Kind: kind, Names: names, Calls: callsIn(p.root), env: e, prog: prog,
		shape: p.shapeOf(p.root, checked.NativeRep())}, nil
}

// notReady reports a checked expression of which no program can be made. None is
// known; it is the library's fault, not the writer's.
func notReady(err error) []Fault {
	return []Fault{{Code: codeNotReady, Message: "the library cannot make this expression ready: " + err.Error()}}
}

// prepare refuses what the language does not have, reads whole numbers as
// doubles, and turns known(name) into the hidden name that answers it.
func (p *parsed) prepare() {
	nodes := 0
	factory := ast.NewExprFactory()
	ast.PreOrderVisit(p.root, ast.NewExprVisitor(func(n ast.Expr) {
		nodes++
		switch n.Kind() {
		case ast.LiteralKind:
			switch x := n.AsLiteral().(type) {
			case types.Int:
				n.SetKindCase(factory.NewLiteral(n.ID(), types.Double(x)))
			case types.Uint, types.Bytes, types.Null:
				p.refuse(n, codeNoLiteral, "this kind of literal is not part of the rule language", "a number, a word or a quoted text")
			}
		case ast.CallKind:
			p.prepareCall(n, factory)
		case ast.IdentKind:
			p.refuseKind(n)
		case ast.ListKind:
			if len(n.AsList().Elements()) == 0 {
				p.refuse(n, codeEmptyList, "the list is empty", "at least one item")
			}
		case ast.MapKind, ast.StructKind, ast.ComprehensionKind:
			p.refuse(n, codeNoForm, "maps, structures and loops are not part of the rule language", "a plain condition or value")
		}
		for _, kid := range children(n) {
			p.parent[kid.ID()] = n
		}
	}))
	if nodes > MaxNodes {
		p.faults = append(p.faults, Fault{Code: codeTooLarge,
			Message: "the expression has too many parts", Found: count(nodes, "part"), Wanted: count(MaxNodes, "part") + " at most; name a part of it as a term"})
	}
}

func (p *parsed) prepareCall(n ast.Expr, factory ast.ExprFactory) {
	call := n.AsCall()
	switch call.FunctionName() {
	case operators.Conditional:
		p.refuse(n, codeHiddenRule, "the choice a ? b : c hides a rule", "two rules, each with its own reason")
	case operators.Modulo:
		f := p.fault(n, codeNoForm, "% is not part of the rule language")
		if f.Found = p.textOf(n); call.Args()[0].Kind() == ast.LiteralKind {
			f.Wanted = "percent(" + p.textOf(call.Args()[0]) + ") for a share"
		}
		p.faults = append(p.faults, f)
	case operators.Subtract:
		p.hyphened(n)
	case operators.Index:
		p.refuse(n, codeNoForm, "indexes are not part of the rule language", "least(...), greatest(...) or count(...)")
	case operators.Equals, operators.NotEquals:
		name := map[string]string{operators.Equals: equalFunction, operators.NotEquals: differFunction}[call.FunctionName()]
		args := call.Args()
		if p.isWord(args[0]) && !p.isWord(args[1]) {
			args = []ast.Expr{args[1], args[0]} // the word that is asked for stands behind
		}
		n.SetKindCase(factory.NewCall(n.ID(), name, args...))
	case "has":
		p.refuse(n, codeNoForm, "has is not part of the rule language", "known(name)")
	case "all", "exists", "exists_one", "map", "filter":
		p.refuse(n, codeNoForm, "maps, structures and loops are not part of the rule language", "a plain condition or value")
	case "known":
		if call.IsMemberFunction() || len(call.Args()) != 1 {
			p.refuse(n, codeKnownOf, "known takes the name of one value that may be missing", "known(name)")
			return
		}
		p.prepareKnown(n, call.Args()[0], factory)
	}
}

// hyphened refuses a name that was written with a hyphen for its _.
func (p *parsed) hyphened(n ast.Expr) {
	left, isName := dotted(n.AsCall().Args()[0])
	right, too := dotted(n.AsCall().Args()[1])
	if name := left + "_" + right; isName && too && p.env.isDeclared(name) && !(p.env.isDeclared(left) && p.env.isDeclared(right)) {
		f := p.fault(n, CodeUnknownName, "no value or word is called "+p.textOf(n))
		f.Found, f.Nearest = p.textOf(n), name
		p.faults = append(p.faults, f)
	}
}

// isWord reports whether a part of an expression is a word.
func (p *parsed) isWord(n ast.Expr) bool {
	return n.Kind() == ast.IdentKind && p.env.words[n.AsIdent()] != nil
}

func (p *parsed) prepareKnown(n, arg ast.Expr, factory ast.ExprFactory) {
	name, ok := dotted(arg)
	if !ok {
		p.refuse(arg, codeKnownOf, "known takes the name of a value", "known(name)")
		return
	}
	if i, declared := p.env.names[name]; declared {
		if !p.env.list[i].MayLack {
			p.refuse(arg, codeKnown, name+" always has a value", "a condition without known("+name+")")
			return
		}
		p.asked[n.ID()] = name
		n.SetKindCase(factory.NewIdent(n.ID(), knownPrefix+name))
		return
	}
	base, field, isSelect := cutLast(name)
	if kind := p.env.kindNamed(base); isSelect && kind != value.NoKind {
		if property, has := p.env.properties[kind][field]; has {
			if !property.Optional {
				p.refuse(arg, codeKnown, name+" always has a value", "a condition without known("+name+")")
				return
			}
			p.asked[n.ID()] = name
			n.SetKindCase(factory.NewPresenceTest(n.ID(), arg.AsSelect().Operand(), field))
			return
		}
	}
	p.faults = append(p.faults, p.knownOfNothing(arg, name))
}

// knownOfNothing reports known(...) of what is no value that may be missing.
func (p *parsed) knownOfNothing(arg ast.Expr, name string) Fault {
	base, field, isSelect := cutLast(name)
	if kind := p.env.kindNamed(base); isSelect && kind != value.NoKind {
		return p.unknownProperty(arg, field)
	}
	if w, isWord := p.env.words[name]; isWord {
		f := p.fault(arg, codeKnown, fmt.Sprintf("%s is a word of %s, and words are always there", name, w.Vocabulary))
		f.Wanted = "the name of a value that may be missing"
		return f
	}
	f := p.fault(arg, CodeUnknownName, "no value is called "+name)
	f.Found, f.Wanted, f.Nearest = name, "the name of a value that may be missing", p.env.nearestName(name)
	return f
}

// refuseKind refuses the name of a kind where a value is wanted. CEL would read
// it as the type itself.
func (p *parsed) refuseKind(n ast.Expr) {
	name := strings.TrimPrefix(n.AsIdent(), ".")
	kind := value.Kind(name)
	if _, isKind := p.env.types[kind]; !isKind || p.env.isDeclared(p.chain(n)) {
		return
	}
	f := p.fault(n, codeKindValue, name+" is the name of a kind of value, not a value")
	f.Found = name
	switch {
	case p.env.properties[kind] != nil:
		f.Message = name + " is the name of a kind of material, not a value"
	case p.env.vocab[kind] != nil:
		f.Message = name + " is the name of a vocabulary, not a value"
	case isDimension(kind):
		f.Message = name + " is the name of a dimension, not a value"
	}
	f.Wanted = p.env.wantedFor(kind)
	var names []string
	for _, each := range p.env.list {
		if each.Kind == kind {
			names = append(names, each.Name)
		}
	}
	if _, words := p.vocabularyWanted(n); !words && len(names) > 0 {
		f.Wanted = "the name of such a value: " + Listed(names)
	}
	p.faults = append(p.faults, f)
}

// chain returns the whole dotted name that begins at n.
func (p *parsed) chain(n ast.Expr) string {
	name := strings.TrimPrefix(n.AsIdent(), ".")
	for {
		parent, ok := p.parent[n.ID()]
		if !ok || parent.Kind() != ast.SelectKind {
			return name
		}
		name += "." + parent.AsSelect().FieldName()
		n = parent
	}
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
	if n.Kind() != ast.CallKind {
		return false
	}
	_, joined := joins[n.AsCall().FunctionName()]
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
