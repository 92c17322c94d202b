package language

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// span gives where a node and all its parts stand in the text. A call's own
// range is its operator alone, so its parts are joined in; a closing bracket
// behind a call is counted with it.
func (p *parsed) span(n ast.Expr) (start, stop int) {
	start, stop = -1, -1
	ast.PreOrderVisit(n, ast.NewExprVisitor(func(n ast.Expr) {
		r, ok := p.info.GetOffsetRange(n.ID())
		if !ok {
			return
		}
		if start < 0 || int(r.Start) < start {
			start = int(r.Start)
		}
		if int(r.Stop) > stop {
			stop = int(r.Stop)
		}
	}))
	if start < 0 {
		return 0, utf8.RuneCountInString(p.text)
	}
	// A function call's range starts at its bracket: take its name in.
	runes := []rune(p.text)
	if n.Kind() == ast.CallKind {
		name := []rune(n.AsCall().FunctionName())
		if at := start - len(name); at >= 0 && string(runes[at:start]) == string(name) {
			start = at
		}
	}
	stop = min(stop, len(runes))
	open := strings.Count(string(runes[start:stop]), "(") - strings.Count(string(runes[start:stop]), ")")
	for i := stop; open > 0 && i < len(runes); i++ {
		if runes[i] == ')' {
			open--
			stop = i + 1
		} else if runes[i] != ' ' && runes[i] != '\n' {
			break
		}
	}
	return start, max(stop, start+1)
}

func (p *parsed) fault(n ast.Expr, code, message string) Fault {
	start, stop := p.span(n)
	return Fault{Offset: start, Width: stop - start, Code: code, Message: message}
}

func (p *parsed) refuse(n ast.Expr, code, message, wanted string) {
	f := p.fault(n, code, message)
	f.Wanted = wanted
	p.faults = append(p.faults, f)
}

func (p *parsed) wrongKind(n ast.Expr, found, want value.Kind) Fault {
	f := p.fault(n, "wrong-kind", "this is of the wrong kind")
	f.Found, f.Wanted = p.describe(n, found), p.env.wantedFor(want)
	if words := p.env.vocab[want]; len(words) > 0 {
		if name, ok := dotted(n); ok {
			f.Nearest = diagnostic.Nearest(name, wordNames(words))
		}
	}
	return f
}

// describe names what stands at n, with its kind.
func (p *parsed) describe(n ast.Expr, kind value.Kind) string {
	start, stop := p.span(n)
	runes := []rune(p.text)
	text := strings.Join(strings.Fields(string(runes[start:min(stop, len(runes))])), " ")
	if utf8.RuneCountInString(text) > 40 {
		text = string([]rune(text)[:37]) + "..."
	}
	if name, ok := dotted(n); ok {
		if w, isWord := p.env.words[name]; isWord {
			return fmt.Sprintf("%s, a word of %s", name, w.Vocabulary)
		}
	}
	return fmt.Sprintf("%s, which is %s", text, withArticle(string(kind)))
}

// syntaxFaults turns CEL's parse errors into faults. The parser's wording is
// replaced where a plainer one fits.
func syntaxFaults(text string, issues *cel.Issues) []Fault {
	var out []Fault
	for _, e := range issues.Errors() {
		f := Fault{Code: "syntax", Message: "this cannot be read as an expression", Width: 1}
		if e.Location.Line() > 0 {
			f.Offset = offsetOf(text, e.Location.Line(), e.Location.Column())
		}
		f.Found, f.Wanted = syntaxDetail(text, e.Message)
		if strings.Contains(e.Message, "recursion limit") || strings.Contains(e.Message, "code point") || strings.Contains(e.Message, "size exceeds") {
			f.Code, f.Message = "expression-too-large", "the expression is too long or too deeply nested"
			f.Wanted = fmt.Sprintf("at most %d characters and %d levels; name a part of it as a term", MaxCharacters, MaxNesting)
			f.Offset = 0
			return []Fault{f}
		}
		out = append(out, f)
		break // what follows the first is the parser finding its feet again
	}
	if len(out) == 0 {
		out = []Fault{{Code: "syntax", Message: issues.Err().Error()}}
	}
	return out
}

var (
	unexpected = regexp.MustCompile(`(?:mismatched|extraneous) input '((?:[^'])*)' expecting (.*)`)
	noViable   = regexp.MustCompile(`no viable alternative at input '(.*)'`)
	badToken   = regexp.MustCompile(`token recognition error at: '(.*)'`)
)

func syntaxDetail(text, message string) (found, wanted string) {
	if q, err := quantity.Parse(strings.TrimSpace(text)); err == nil && q.Dim != quantity.DimRatio {
		if builder, x, ok := builderFor(strings.TrimSpace(text), q); ok {
			return strings.TrimSpace(text), fmt.Sprintf("%s(%s): in an expression a unit is written as a function", builder, x)
		}
	}
	if m := unexpected.FindStringSubmatch(message); m != nil {
		if m[1] == "<EOF>" {
			return "the end of the expression", "a value or a closing bracket"
		}
		if m[1] == "=" {
			return "=", "== to compare"
		}
		return m[1], "an operator such as ==, <, && or the end"
	}
	if m := badToken.FindStringSubmatch(message); m != nil {
		switch m[1] {
		case "&", "|":
			return m[1], m[1] + m[1]
		case "= ", "=":
			return "=", "== to compare"
		}
		return m[1], "a character of the rule language"
	}
	if m := noViable.FindStringSubmatch(message); m != nil {
		return m[1], "a name, a number or a bracket"
	}
	return strings.TrimPrefix(message, "Syntax error: "), ""
}

// builderFor finds how the rule language writes what was written as "6 in".
func builderFor(text string, q quantity.Quantity) (builder, number string, ok bool) {
	for _, u := range quantity.Units() {
		if u.Builder == "" || u.Dim != q.Dim {
			continue
		}
		for _, spelling := range append([]string{u.Symbol}, u.Spellings...) {
			if head, cut := strings.CutSuffix(text, spelling); cut {
				x, err := q.In(u.Symbol)
				if err != nil || strings.TrimSpace(head) == "" {
					continue
				}
				return u.Builder, fmt.Sprintf("%g", x), true
			}
		}
	}
	return "", "", false
}

// typeFaults turns CEL's type errors into faults with the found and the wanted.
func (p *parsed) typeFaults(issues *cel.Issues) {
	byID := map[int64]ast.Expr{}
	ast.PreOrderVisit(p.root, ast.NewExprVisitor(func(n ast.Expr) { byID[n.ID()] = n }))
	for _, e := range issues.Errors() {
		n, ok := byID[e.ExprID]
		if !ok {
			n = p.root
		}
		p.faults = append(p.faults, p.typeFault(n, e.Message))
	}
}

var (
	undeclared = regexp.MustCompile(`^undeclared reference to '([^']*)'`)
	noOverload = regexp.MustCompile(`^found no matching overload for '([^']*)' applied to '\((.*)\)'`)
	noField    = regexp.MustCompile(`^undefined field '([^']*)'`)
	noSelect   = regexp.MustCompile(`^type '([^']*)' does not support field selection`)
	mismatch   = regexp.MustCompile(`^expected type '([^']*)' but found '([^']*)'`)
)

func (p *parsed) typeFault(n ast.Expr, message string) Fault {
	if m := undeclared.FindStringSubmatch(message); m != nil {
		return p.undeclared(n, m[1])
	}
	if m := noOverload.FindStringSubmatch(message); m != nil {
		if _, isOperator := symbols[m[1]]; isOperator {
			return p.wrongOperands(n, m[1], splitTypes(m[2]))
		}
		f := p.fault(n, "wrong-arguments", m[1]+" does not take these")
		f.Found, f.Wanted = m[1]+"("+kindWords(m[2])+")", strings.Join(p.env.signatures[m[1]], " or ")
		return f
	}
	if m := noField.FindStringSubmatch(message); m != nil {
		f := p.fault(n, "unknown-property", "no property is called "+m[1])
		f.Found = m[1]
		if n.Kind() == ast.SelectKind {
			p.suggestProperty(&f, n, m[1])
		}
		return f
	}
	if noSelect.MatchString(message) && n.Kind() == ast.SelectKind {
		if name, ok := dotted(n); ok {
			f := p.fault(n, "unknown-name", "no value is called "+name)
			f.Found, f.Nearest = name, p.env.nearestName(name)
			return f
		}
	}
	if m := mismatch.FindStringSubmatch(message); m != nil {
		f := p.fault(n, "wrong-kind", "this is of the wrong kind")
		f.Found, f.Wanted = withArticle(plainKind(m[2])), withArticle(plainKind(m[1]))
		return f
	}
	return p.fault(n, "type", message)
}

// undeclared reports a name that nobody declared, the whole dotted chain of it.
func (p *parsed) undeclared(n ast.Expr, name string) Fault {
	if n.Kind() == ast.CallKind {
		f := p.fault(n, "unknown-function", "no function is called "+name)
		f.Found, f.Nearest = name, diagnostic.Nearest(name, sortedNames(p.env.signatures))
		if _, isOperator := symbols[name]; isOperator {
			f.Code, f.Message, f.Nearest = "no-such-form", "this operator is not part of the rule language", ""
		}
		return f
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
	f := p.fault(n, "unknown-name", "no value or word is called "+name)
	f.Found = name
	if vocabulary, ok := p.vocabularyWanted(n); ok {
		f.Wanted = p.env.wantedFor(vocabulary)
		f.Nearest = diagnostic.Nearest(name, wordNames(p.env.vocab[vocabulary]))
	}
	if f.Nearest == "" {
		f.Nearest = p.env.nearestName(name)
	}
	return f
}

// vocabularyWanted finds the vocabulary of what n is compared with.
func (p *parsed) vocabularyWanted(n ast.Expr) (value.Kind, bool) {
	parent, ok := p.parent[n.ID()]
	if ok && parent.Kind() == ast.ListKind {
		parent, ok = p.parent[parent.ID()]
	}
	if !ok || parent.Kind() != ast.CallKind {
		return value.NoKind, false
	}
	for _, arg := range parent.AsCall().Args() {
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
	operators.Equals: "==", operators.NotEquals: "!=", operators.Less: "<", operators.LessEquals: "<=",
	operators.Greater: ">", operators.GreaterEquals: ">=", operators.Add: "+", operators.Subtract: "-",
	operators.Multiply: "*", operators.Divide: "/", operators.Negate: "-", operators.In: "in",
	operators.LogicalAnd: "&&", operators.LogicalOr: "||", operators.LogicalNot: "!", operators.Modulo: "%",
	operators.Index: "[]",
}

// wrongOperands reports an operator between kinds that do not go together, with
// the repair where there is one.
func (p *parsed) wrongOperands(n ast.Expr, op string, kinds []value.Kind) Fault {
	f := p.fault(n, "wrong-operands", fmt.Sprintf("%s does not go between these", symbols[op]))
	args := n.AsCall().Args()
	if len(kinds) != 2 || len(args) != 2 {
		f.Message = symbols[op] + " does not go with this"
		f.Found = kindWords(string(kinds[0]))
		return f
	}
	f.Found = fmt.Sprintf("%s %s %s", spoken(kinds[0]), symbols[op], spoken(kinds[1]))
	left, right := kinds[0], kinds[1]
	if op == operators.In {
		if element, ok := right.Element(); ok {
			right = element
		}
	}
	lw, rw := p.env.vocab[left], p.env.vocab[right]
	switch {
	case len(lw) > 0 && len(rw) > 0:
		p.wordOfAnother(&f, args, left, right)
	case left == value.NumberKind && right != value.NumberKind && p.isDimension(right):
		f.Wanted = p.repair(args[0], right)
	case right == value.NumberKind && p.isDimension(left):
		f.Wanted = p.repair(args[1], left)
	case op == operators.Equals || op == operators.NotEquals || op == operators.In:
		f.Wanted = "the same kind on both sides"
	case p.isDimension(left) && p.isDimension(right):
		f.Wanted = fmt.Sprintf("dimensions that go together: %s on both sides", spoken(left))
	default:
		f.Wanted = "numbers or quantities of one dimension"
	}
	return f
}

func (p *parsed) isDimension(k value.Kind) bool {
	_, ok := quantity.DimensionNamed(string(k))
	return ok
}

// repair tells how to write a bare number as a quantity.
func (p *parsed) repair(number ast.Expr, k value.Kind) string {
	if number.Kind() == ast.LiteralKind {
		if x, ok := number.AsLiteral().(types.Double); ok {
			for _, u := range quantity.Units() {
				if value.DimensionKind(u.Dim) == k && u.Builder != "" {
					return fmt.Sprintf("%s, such as %s(%g)", withArticle(string(k)), u.Builder, float64(x))
				}
			}
		}
	}
	return p.env.wantedFor(k)
}

// wordOfAnother reports a word compared with a word of another vocabulary.
func (p *parsed) wordOfAnother(f *Fault, args []ast.Expr, left, right value.Kind) {
	for i, arg := range args {
		name, ok := dotted(arg)
		if !ok {
			continue
		}
		if w, isWord := p.env.words[name]; isWord {
			other := []value.Kind{right, left}[i]
			start, stop := p.span(arg)
			f.Offset, f.Width = start, stop-start
			f.Code = "word-of-another"
			f.Message = fmt.Sprintf("%s is a word of %s, not of %s", name, w.Vocabulary, other)
			f.Found, f.Wanted = name, p.env.wantedFor(other)
			f.Nearest = diagnostic.Nearest(name, wordNames(p.env.vocab[other]))
			return
		}
	}
	f.Wanted = fmt.Sprintf("words of one vocabulary on both sides, not %s and %s", left, right)
}

func (p *parsed) suggestProperty(f *Fault, n ast.Expr, field string) {
	operand := n.AsSelect().Operand()
	kind := value.NoKind
	if name, ok := dotted(operand); ok {
		kind = p.env.kindNamed(name)
	}
	if names := sortedNames(p.env.properties[kind]); len(names) > 0 {
		f.Message = fmt.Sprintf("%s has no property called %s", kind, field)
		f.Wanted = "one of " + strings.Join(names, ", ")
		f.Nearest = diagnostic.Nearest(field, names)
	}
}

// nearestName finds the declared name or word nearest to one that is not.
func (e *Env) nearestName(name string) string {
	candidates := make([]string, 0, len(e.list)+len(e.words))
	for _, n := range e.list {
		candidates = append(candidates, n.Name)
	}
	candidates = append(candidates, sortedNames(e.words)...)
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
			out = append(out, value.Kind(plainKind(strings.TrimSpace(list[from:i]))))
			from = i + 1
		}
	}
	return out
}

func plainKind(celType string) string {
	return strings.NewReplacer("double", "number", "string", "text").Replace(celType)
}

func kindWords(types string) string {
	var out []string
	for _, k := range splitTypes(types) {
		out = append(out, spoken(k))
	}
	return strings.Join(out, ", ")
}

func spoken(k value.Kind) string { return strings.ReplaceAll(string(k), "_", " ") }

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// offsetOf turns CEL's line (from 1) and column (from 0) into an offset.
func offsetOf(text string, line, column int) int {
	lines := slices.Collect(strings.SplitSeq(text, "\n"))
	offset := 0
	for i := 0; i < line-1 && i < len(lines); i++ {
		offset += utf8.RuneCountInString(lines[i]) + 1
	}
	return offset + column
}
