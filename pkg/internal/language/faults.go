package language

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

const wrongKindText = "this is of the wrong kind"

func (p *parsed) wrongKind(n ast.Expr, found, want value.Kind) Fault {
	f := p.fault(n, CodeWrongKind, wrongKindText)
	f.Found, f.Wanted = p.describe(n, found), p.env.wantedFor(want)
	if words := p.env.vocab[want]; len(words) > 0 {
		p.nearestWord(&f, n, want)
	} else {
		f.Wanted = p.repair(n, want)
	}
	return f
}

// wrongPart is wrongKind of a part, such as an argument or an item of a list, with a
// message of its own unless it is a word of another vocabulary.
func (p *parsed) wrongPart(n ast.Expr, found, want value.Kind, code diagnostic.Code, message string) Fault {
	f := p.wrongKind(n, found, want)
	f.Code, f.Message = code, message
	if len(p.env.vocab[want]) > 0 {
		p.notOf(&f, n, want)
	}
	return f
}

// nearestWord names the word of a vocabulary that a name or a text most likely
// stands for.
func (p *parsed) nearestWord(f *Fault, n ast.Expr, vocabulary value.Kind) {
	name, isName := dotted(n)
	text, isText := textLiteral(n)
	if isText {
		name = text
		f.Wanted += "; words stand without quotes"
	}
	if isName || isText {
		f.Nearest = diagnostic.Nearest(name, wordNames(p.env.vocab[vocabulary]))
	}
}

func textLiteral(n ast.Expr) (string, bool) {
	s, ok := n.AsLiteral().(types.String)
	return string(s), ok
}

// typeFaults turns CEL's type errors into faults with the found and the wanted.
func (p *parsed) typeFaults(issues *cel.Issues) {
	byID := map[int64]ast.Expr{}
	ast.PreOrderVisit(p.root, ast.NewExprVisitor(func(n ast.Expr) { byID[n.ID()] = n }))
	all := issues.Errors()
	for _, e := range all {
		if strings.Contains(e.Message, "!error!") && len(all) > 1 {
			continue // it follows from another
		}
		n, ok := byID[e.ExprID]
		if !ok {
			n = p.root
		}
		p.faults = append(p.faults, p.typeFault(n, e.Message)...)
	}
}

var (
	undeclared = regexp.MustCompile(`^undeclared reference to '([^']*)'`)
	noOverload = regexp.MustCompile(`^found no matching overload for '([^']*)' applied to '(?:.*\.)?\((.*)\)'`)
	noField    = regexp.MustCompile(`^undefined field '([^']*)'`)
	noSelect   = regexp.MustCompile(`^type '([^']*)' does not support field selection`)
	mismatch   = regexp.MustCompile(`^expected type '([^']*)' but found '([^']*)'`)
)

func (p *parsed) typeFault(n ast.Expr, message string) []Fault {
	if m := noOverload.FindStringSubmatch(message); m != nil {
		if _, isOperator := symbols[m[1]]; isOperator {
			return []Fault{p.wrongOperands(n, m[1], splitTypes(m[2]))}
		}
		return p.wrongArguments(n, m[1], splitTypes(m[2]))
	}
	return []Fault{p.otherTypeFault(n, message)}
}

func (p *parsed) otherTypeFault(n ast.Expr, message string) Fault {
	if m := undeclared.FindStringSubmatch(message); m != nil {
		return p.undeclared(n, m[1])
	}
	if m := noField.FindStringSubmatch(message); m != nil {
		return p.unknownProperty(n, m[1])
	}
	if noSelect.MatchString(message) && n.Kind() == ast.SelectKind {
		if name, ok := dotted(n); ok {
			f := p.fault(n, CodeUnknownName, "no value is called "+name)
			f.Found, f.Nearest = name, p.env.nearestName(name)
			return f
		}
		return p.unknownProperty(n, n.AsSelect().FieldName())
	}
	if m := mismatch.FindStringSubmatch(message); m != nil {
		f := p.fault(n, CodeWrongKind, wrongKindText)
		f.Found, f.Wanted = p.describe(n, plainKind(m[2])), p.env.wantedFor(plainKind(m[1]))
		return f
	}
	f := p.fault(n, CodeWrongKind, "the parts of this do not fit together")
	f.Found = p.textOf(n)
	return f
}

// undeclared reports a name that nobody declared, the whole dotted chain of it.
func (p *parsed) undeclared(n ast.Expr, name string) Fault {
	if n.Kind() == ast.CallKind {
		return p.unknownFunction(n, name)
	}
	for {
		parent, ok := p.parent[n.ID()]
		if !ok || parent.Kind() != ast.SelectKind {
			break
		}
		n = parent
	}
	if chain, ok := dotted(n); ok {
		name = chain
	}
	if signatures := p.env.signatures[name]; len(signatures) > 0 {
		f := p.fault(n, codeFunctionValue, name+" is a function, not a value")
		f.Found, f.Wanted = name, strings.Join(signatures, " or ")
		return f
	}
	f := p.fault(n, CodeUnknownName, "no value or word is called "+name)
	f.Found = name
	if group := p.env.group(name); len(group) > 0 {
		f.Message = name + " is not a value: it is the first part of other names"
		f.Wanted = "one of " + Listed(group)
		return f
	}
	if vocabulary, ok := p.vocabularyWanted(n); ok {
		f.Wanted = p.env.wantedFor(vocabulary)
		f.Nearest = diagnostic.Nearest(name, wordNames(p.env.vocab[vocabulary]))
	}
	if f.Nearest == "" {
		f.Nearest = p.env.nearestName(name)
	}
	return f
}

func (p *parsed) unknownFunction(n ast.Expr, name string) Fault {
	f := p.fault(n, rulebook.CodeUnknownFunction, "no function is called "+name)
	f.Found, f.Nearest = name, p.env.nearestFunction(name)
	if !n.AsCall().IsMemberFunction() {
		f.Width = len([]rune(name))
	}
	if strings.EqualFold(name, "not") {
		f.Wanted = "! before the bracket; a text that begins with ! stands in quotes"
	}
	if _, declared := p.env.names[name]; declared {
		f.Message, f.Nearest = name+" is a value, not a function", ""
		f.Wanted = name + " without brackets"
	}
	return f
}

// nearestFunction finds the function that was most likely meant, by its name or
// by the name of its unit, such as inch.
func (e *Env) nearestFunction(name string) string {
	if near := diagnostic.Nearest(name, slices.Sorted(maps.Keys(e.signatures))); near != "" {
		return near
	}
	for _, u := range quantity.Units() {
		for _, spelling := range append([]string{u.Symbol, u.Plural}, u.Spellings()...) {
			if strings.EqualFold(spelling, name) {
				return u.Builder
			}
		}
	}
	return ""
}

// group lists the declared names that have a name as their first part.
func (e *Env) group(name string) []string {
	var out []string
	for _, n := range e.list {
		if strings.HasPrefix(n.Name, name+".") {
			out = append(out, n.Name)
		}
	}
	return out
}

// Listed joins names, the first eight of them.
func Listed(names []string) string {
	if len(names) > 8 {
		names = append(names[:8:8], "...")
	}
	return strings.Join(names, ", ")
}

// vocabularyWanted finds the vocabulary of what n is compared with, or of the
// argument that it stands for.
func (p *parsed) vocabularyWanted(n ast.Expr) (value.Kind, bool) {
	parent, ok := p.parent[n.ID()]
	if ok && parent.Kind() == ast.ListKind {
		parent, ok = p.parent[parent.ID()]
	}
	if !ok || parent.Kind() != ast.CallKind {
		return value.NoKind, false
	}
	takes := p.env.arguments[parent.AsCall().FunctionName()]
	for i, arg := range parent.AsCall().Args() {
		if i < len(takes) && arg.ID() == n.ID() {
			return takes[i].kind, len(p.env.vocab[takes[i].kind]) > 0
		}
		if name, isName := dotted(arg); isName && arg.ID() != n.ID() {
			if i, declared := p.env.names[name]; declared {
				k := p.env.list[i].Kind
				return k, len(p.env.vocab[k]) > 0
			}
		}
	}
	return value.NoKind, false
}

var symbols = map[string]string{
	equalFunction: "==", differFunction: "!=", operators.Equals: "==", operators.NotEquals: "!=", operators.Less: "<", operators.LessEquals: "<=",
	operators.Greater: ">", operators.GreaterEquals: ">=", operators.Add: "+", operators.Subtract: "-",
	operators.Multiply: "*", operators.Divide: "/", operators.Negate: "-", operators.In: "in",
	operators.LogicalAnd: "&&", operators.LogicalOr: "||", operators.LogicalNot: "!", operators.Modulo: "%",
	operators.Index: "[]",
}

func (p *parsed) unknownProperty(n ast.Expr, field string) Fault {
	f := p.fault(n, CodeUnknownProperty, "no property is called "+field)
	f.Found = field
	if n.Kind() != ast.SelectKind {
		return f
	}
	if width := len(field); f.Width > width && strings.HasSuffix(p.textOf(n), "."+field) { // the property alone
		f.Offset, f.Width = f.Offset+f.Width-width, width
	}
	name, ok := dotted(n.AsSelect().Operand())
	if !ok {
		return f
	}
	kind := p.env.kindNamed(name)
	if kind == value.NoKind {
		return f
	}
	f.Message = fmt.Sprintf("%s is %s, which has no property called %s", name, p.env.aKind(kind), field)
	if names := slices.Sorted(maps.Keys(p.env.properties[kind])); len(names) > 0 {
		f.Wanted = "one of " + Listed(names)
		f.Nearest = diagnostic.Nearest(field, names)
	}
	return f
}

// nearestName finds the declared name or word nearest to one that is not.
func (e *Env) nearestName(name string) string {
	candidates := make([]string, 0, len(e.list)+len(e.words))
	for _, n := range e.list {
		candidates = append(candidates, n.Name)
	}
	candidates = append(append(candidates, slices.Sorted(maps.Keys(e.words))...), "true", "false")
	if near := diagnostic.Nearest(name, candidates); near != "" {
		return near
	}
	// A name without its group, such as liquid_limit for soil.liquid_limit.
	for _, c := range candidates {
		if _, tail, ok := cutLast(c); ok && tail == name {
			return c
		}
	}
	return ""
}

func wordNames(words []*value.Word) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = w.Name
	}
	return out
}

// splitTypes splits CEL's list of argument types at its outer commas.
func splitTypes(list string) []value.Kind {
	var out []value.Kind
	depth, from := 0, 0
	for i, r := range list + "," {
		switch {
		case r == '(':
			depth++
		case r == ')':
			depth--
		case r == ',' && depth == 0:
			out = append(out, plainKind(strings.TrimSpace(list[from:i])))
			from = i + 1
		}
	}
	return out
}

// plainKind returns the kind that CEL's name of a type stands for.
func plainKind(celType string) value.Kind {
	if celType == "list(dyn)" {
		return "list of several kinds"
	}
	if element, isList := strings.CutPrefix(celType, "list("); isList {
		return value.ListOf(plainKind(strings.TrimSuffix(element, ")")))
	}
	switch celType {
	case "double":
		return value.NumberKind
	case "string":
		return value.TextKind
	}
	return value.Kind(celType)
}

// spoken returns a kind as a reader would say it. The names of vocabularies are
// left as they are declared.
func spoken(k value.Kind) string {
	if isDimension(k) {
		return strings.ReplaceAll(string(k), "_", " ")
	}
	return string(k)
}
