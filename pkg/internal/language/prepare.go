package language

import (
	"fmt"
	"strings"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.com/groundrule/pkg/value"
)

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
		p.faults = append(p.faults, Fault{Code: codeTooLarge, Message: "the expression has too many parts",
			Found: fmt.Sprintf("%d parts", nodes), Wanted: fmt.Sprintf("%d parts at most; name a part of it as a term", MaxNodes)})
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
	return p.env.words[n.AsIdent()] != nil
}

func (p *parsed) prepareKnown(n, arg ast.Expr, factory ast.ExprFactory) {
	name, ok := dotted(arg)
	if !ok {
		p.refuse(arg, codeKnownOf, "known takes the name of a value", "known(name)")
		return
	}
	declared, isName := p.env.NameOf(name)
	base, field, isSelect := cutLast(name)
	property, has := p.env.properties[p.env.kindNamed(base)][field]
	switch {
	case !isName && !(isSelect && has):
		p.faults = append(p.faults, p.knownOfNothing(arg, name))
		return
	case isName && !declared.MayLack, !isName && !property.Optional:
		p.refuse(arg, codeKnown, name+" always has a value", "a condition without known("+name+")")
		return
	case isName:
		n.SetKindCase(factory.NewIdent(n.ID(), knownPrefix+name))
	default:
		n.SetKindCase(factory.NewPresenceTest(n.ID(), arg.AsSelect().Operand(), field))
	}
	p.asked[n.ID()] = name
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
