package language

import (
	"slices"
	"sync"

	"github.com/google/cel-go/common/ast"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Shape is a clause that compares one name with values that do not change from
// job to job.
type Shape struct {
	Name     string
	Op       string     // ==, !=, <, <=, >, >=, in or known; a plain yes or no is == true
	Operands []*Outline // each a literal, a word, or another name, which may be a setting
}

// Comparison returns the shape of a clause, or of an expression of the same
// form, if it has one.
func (x *Expression) Comparison() (Shape, bool) {
	return x.shape, x.shape.Name != "" && x.Kind == value.BoolKind
}

var turned = map[string]string{"<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "==", "!=": "!="}

// shapeOf reads the shape of a clause from its checked tree.
func (p *parsed) shapeOf(n ast.Expr) Shape {
	if name, ok := p.asked[n.ID()]; ok {
		return Shape{Name: name, Op: "known"}
	}
	o := p.outline(n)
	if o.Name != "" {
		return Shape{Name: o.Name, Op: "==", Operands: []*Outline{{Value: value.Bool(true)}}}
	}
	if len(o.Parts) != 2 || o.Op != "in" && turned[o.Op] == "" {
		return Shape{}
	}
	left, right, items := o.Parts[0], o.Parts[1], o.Parts[1:]
	if o.Op == "in" {
		if right.Call+right.Op+right.Property != "" {
			return Shape{} // a list that is worked out, and not written
		}
		items = right.Parts
	}
	out := Shape{Name: left.Name, Op: o.Op, Operands: operands(items)}
	if (out.Name == "" || out.Operands == nil) && o.Op != "in" {
		out = Shape{Name: right.Name, Op: turned[o.Op], Operands: operands(o.Parts[:1])}
	}
	if out.Name == "" || out.Operands == nil {
		return Shape{}
	}
	return out
}

// operands returns literals, words, quantities that are built of a literal, and names;
// nil if one of them is none of these.
func operands(items []*Outline) []*Outline {
	if slices.ContainsFunc(items, func(o *Outline) bool { return o.Name == "" && o.Value.IsZero() }) {
		return nil
	}
	return items
}

// builders returns the units by the functions that build them.
var builders = sync.OnceValue(func() map[string]quantity.Unit {
	out := map[string]quantity.Unit{}
	for _, u := range quantity.Units() {
		out[u.Builder] = u
	}
	return out
})
