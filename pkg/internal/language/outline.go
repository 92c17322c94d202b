package language

import (
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.com/groundrule/pkg/value"
)

// Outline is how an expression is built, for whoever tells it in words. It is one
// of: a name (Name), a value that is written out or a word (Value), a property of
// its one part (Property), a call (Call), parts joined by a sign (Op), or a list
// of parts.
type Outline struct {
	Name     string
	Value    value.Value
	Property string
	Call     string // known among them
	Op       string // as CEL writes it; "-" of one part is its negative
	Parts    []*Outline
}

// Outline returns how an expression of the rulebook is built, nil for a text that
// is not one.
func (e *Env) Outline(text string) *Outline {
	p := e.read(text)
	if len(p.faults) > 0 {
		return nil
	}
	return p.outline(p.root)
}

func (p *parsed) outline(n ast.Expr) *Outline {
	if chain, ok := dotted(n); ok {
		if _, declared := p.env.names[chain]; declared {
			return &Outline{Name: chain}
		}
		if w, isWord := p.env.words[chain]; isWord {
			return &Outline{Value: value.OfWord(w)}
		}
	}
	out := &Outline{}
	switch n.Kind() {
	case ast.LiteralKind:
		out.Value = literal(n)
		return out
	case ast.SelectKind:
		out.Property = n.AsSelect().FieldName()
	case ast.CallKind:
		name := n.AsCall().FunctionName()
		if out.Op = symbols[name]; out.Op == "" {
			out.Call = name
		}
		if v, ok := built(n); ok {
			return &Outline{Value: v}
		}
	}
	for _, kid := range children(n) {
		out.Parts = append(out.Parts, p.outline(kid))
	}
	return out
}

// literal returns a value that is written out; whole numbers are read as any
// other.
func literal(n ast.Expr) value.Value {
	switch x := n.AsLiteral().(type) {
	case types.Int:
		return value.Number(float64(x))
	case types.Double:
		return value.Number(float64(x))
	case types.Bool:
		return value.Bool(bool(x))
	case types.String:
		return value.Text(string(x))
	}
	return value.Value{}
}

// built returns the value of a number with a unit, or of a negative number.
func built(n ast.Expr) (value.Value, bool) {
	call := n.AsCall()
	if len(call.Args()) != 1 || call.Args()[0].Kind() != ast.LiteralKind {
		return value.Value{}, false
	}
	x, isNumber := literal(call.Args()[0]).Number()
	if call.FunctionName() == operators.Negate {
		return value.Number(-x), isNumber
	}
	u, isUnit := builders()[call.FunctionName()]
	if !isUnit || !isNumber {
		return value.Value{}, false
	}
	q, err := u.Quantity(x)
	return value.Measured(q), err == nil
}

// Names adds the names that the expression reads, properties of one behind it.
func (o *Outline) Names(to []string) []string {
	if o.Name != "" {
		to = append(to, o.Name)
	}
	for _, part := range o.Parts {
		to = part.Names(to)
	}
	if o.Property != "" && o.Parts[0].Name != "" {
		to = append(to, o.Parts[0].Name+"."+o.Property)
	}
	return to
}
