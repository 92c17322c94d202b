// Package value holds what a rule can read or answer: a number, a yes or no, a
// measured quantity, a word of a vocabulary, a text, an object such as a
// gradation, or a list of these.
package value

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"sync"

	"example.com/groundrule/pkg/quantity"
)

// Kind names what a value is: "number", "bool", "text", the name of a
// dimension such as "length", of a vocabulary such as "grid", of an object such
// as "gradation", or "list(K)". The empty Kind is none.
type Kind string

// The kinds that every rulebook has. The kinds of dimensions are their names.
const (
	NoKind     Kind = ""
	NumberKind Kind = "number"
	BoolKind   Kind = "bool"
	TextKind   Kind = "text"
)

// ListOf is the kind of a list of k.
func ListOf(k Kind) Kind { return "list(" + k + ")" }

// Element returns the kind of a list's elements, and whether k is a list.
func (k Kind) Element() (Kind, bool) {
	s, list := strings.CutPrefix(string(k), "list(")
	s, closed := strings.CutSuffix(s, ")")
	if !list || !closed {
		return NoKind, false
	}
	return Kind(s), true
}

// DimensionKind is the kind of quantities of a dimension; a ratio is a number.
func DimensionKind(d quantity.Dimension) Kind {
	if d == quantity.DimRatio {
		return NumberKind
	}
	return Kind(d.Name())
}

// Word is one word of a vocabulary. A material is a word with properties.
type Word struct {
	Vocabulary Kind
	// Name is the word in the rule language, Label as a sheet shows it, and Go
	// its value in the Go type behind the vocabulary, if there is one.
	Name, Label, Go string
	// About says what the word means.
	About string
	// KindOf is the wider word that this one is a kind of, nil if there is none: a
	// rule that asks for that one holds for this one too.
	KindOf *Word
	// properties of a material; nil for a plain word.
	properties map[string]Value
}

// Is reports whether the word is a word of this name, or a kind of it.
func (w Word) Is(name string) bool {
	for at := &w; at != nil; at = at.KindOf {
		if at.Name == name {
			return true
		}
	}
	return false
}

// Is reports whether name == asked holds in a rule where the name has a value:
// the two are equal, or the value is a word that is a kind of the one asked for.
func (v Value) Is(asked Value) bool {
	w, isWord := v.Word()
	other, areWords := asked.Word()
	if isWord && areWords {
		return w.Vocabulary == other.Vocabulary && w.Is(other.Name)
	}
	return v.Equal(asked)
}

// With returns the word with properties: a material.
func (w Word) With(properties map[string]Value) Word {
	w.properties = maps.Clone(properties)
	return w
}

// Properties returns the properties of a material; nil for a plain word.
func (w Word) Properties() map[string]Value { return maps.Clone(w.properties) }

// Property returns a property of a material, the zero Value if it has none of
// that name.
func (w Word) Property(name string) Value { return w.properties[name] }

// Value is one value. The zero Value is none. [Value.Equal] reports whether two
// are the same; == never panics, but is true of lists, objects and words only if
// they are the very same one, and knows no tolerance.
type Value struct {
	kind Kind
	data any // comparable: a float64, bool, string, quantity, *Word, *list or *object
}

type list struct{ items []Value }

// object is what rules only pass on. One read from JSON is its text.
type object struct{ x any }

// Number, Bool, Text and OfWord make values.
func Number(x float64) Value { return Value{NumberKind, x} }
func Bool(b bool) Value      { return Value{BoolKind, b} }
func Text(s string) Value    { return Value{TextKind, s} }
func OfWord(w *Word) Value   { return Value{w.Vocabulary, w} }

// Measured makes a value of a quantity; a ratio becomes a number.
func Measured(m quantity.Measure) Value {
	q := m.Quantity()
	if q.Dim == quantity.DimRatio {
		return Number(q.SI)
	}
	return Value{DimensionKind(q.Dim), q}
}

// Object makes a value of a Go value that rules only pass on.
func Object(kind Kind, x any) Value { return Value{kind, &object{x}} }

// List makes a list of values of one kind.
func List(element Kind, vs []Value) Value { return Value{ListOf(element), &list{slices.Clone(vs)}} }

// Kind returns the kind of the value, NoKind for the zero Value.
func (v Value) Kind() Kind { return v.kind }

// IsZero reports whether v is the zero Value, which is no value.
func (v Value) IsZero() bool { return v.kind == NoKind }

// Number returns a number and whether the value is one.
func (v Value) Number() (float64, bool) { x, ok := v.data.(float64); return x, ok }

// Bool returns a yes or no and whether the value is one.
func (v Value) Bool() (bool, bool) { b, ok := v.data.(bool); return b, ok }

// Quantity returns a quantity and whether the value is one.
func (v Value) Quantity() (quantity.Quantity, bool) {
	q, ok := v.data.(quantity.Quantity)
	return q, ok
}

// Length returns a length and whether the value is one.
func (v Value) Length() (quantity.Length, bool) {
	q, ok := v.data.(quantity.Quantity)
	return quantity.Length(q.SI), ok && q.Dim == quantity.DimLength
}

// Word returns a word and whether the value is one.
func (v Value) Word() (Word, bool) {
	w, ok := v.data.(*Word)
	if !ok {
		return Word{}, false
	}
	return *w, true
}

// PlainText returns a text and whether the value is one.
func (v Value) PlainText() (string, bool) { s, ok := v.data.(string); return s, ok }

// List returns a list's values and whether the value is a list.
func (v Value) List() ([]Value, bool) {
	l, ok := v.data.(*list)
	if !ok {
		return nil, false
	}
	return slices.Clone(l.items), true
}

// Data returns what an object holds, the values of a list, or the plain Go value
// of any other kind.
func (v Value) Data() any {
	switch x := v.data.(type) {
	case *list:
		return slices.Clone(x.items)
	case *object:
		return x.x
	case *Word:
		return *x
	}
	return v.data
}

// Measure returns a number, as a ratio, or a quantity; false for any other value.
func (v Value) Measure() (quantity.Quantity, bool) {
	if x, isNumber := v.Number(); isNumber {
		return quantity.Quantity{Dim: quantity.DimRatio, SI: x}, true
	}
	return v.Quantity()
}

// Compare returns -1 if v is less than w, 1 if it is more, and 0 if they are the
// same within the tolerance of [quantity.Quantity.Compare], so that 0.1 + 0.2 is not more
// than 0.3. It returns false for values that have no order: other than two
// numbers or two quantities of one dimension, or not finite.
func (v Value) Compare(w Value) (order int, ok bool) {
	a, _ := v.Measure() // without a dimension if it is not measured: an error below
	b, _ := w.Measure()
	order, err := a.Compare(b)
	return order, err == nil
}

// Equal reports whether v and w are the same value. Numbers and quantities are
// the same within the tolerance of [quantity.Quantity.Compare], words by their names, and
// objects by their texts.
func (v Value) Equal(w Value) bool {
	if v.kind != w.kind {
		return false
	}
	switch a := v.data.(type) {
	case float64, quantity.Quantity:
		order, ok := v.Compare(w)
		return ok && order == 0
	case *Word:
		b, ok := w.data.(*Word)
		return ok && a.Name == b.Name
	case *list:
		b, ok := w.data.(*list)
		return ok && slices.EqualFunc(a.items, b.items, Value.Equal)
	case *object:
		b, ok := w.data.(*object)
		return ok && a.text() == b.text()
	}
	return v.data == w.data
}

func (o *object) text() string { return fmt.Sprint(o.x) }

// String returns the value as a reader writes it, in US units.
func (v Value) String() string { return v.Text(quantity.US) }

// Text returns the value as a reader writes it, in one system of units.
func (v Value) Text(system quantity.System) string {
	switch x := v.data.(type) {
	case nil:
		return system.Write("nothing")
	case float64:
		return quantity.Quantity{Dim: quantity.DimRatio, SI: x}.Text(system)
	case bool:
		if x {
			return system.Write("yes")
		}
		return system.Write("no")
	case quantity.Quantity:
		return x.Text(system)
	case *Word:
		return system.Name(x.Label)
	case string:
		return system.Name(x)
	case *object:
		if told, ok := x.x.(interface{ Text(quantity.System) string }); ok {
			return told.Text(system)
		}
		return x.text()
	case *list:
		if len(x.items) == 0 {
			return system.Write("none")
		}
		return x.joined(func(each Value) string { return each.Text(system) })
	}
	return fmt.Sprint(v.data)
}

// joined writes the items of a list.
func (l *list) joined(text func(Value) string) string {
	parts := make([]string, len(l.items))
	for i, each := range l.items {
		parts[i] = text(each)
	}
	return strings.Join(parts, ", ")
}

// Of makes a value of a Go value of one of the kinds that a calculation takes:
// float64, bool, string, a type of package quantity, a Worded type, []float64
// or an object that gives the name of its type in the rule language with
// RuleTypeName. words looks up a word by vocabulary and label.
func Of(x any, words func(vocabulary Kind, label string) (*Word, bool)) (Value, error) {
	switch v := x.(type) {
	case Value:
		return v, nil
	case float64:
		return Number(v), nil
	case bool:
		return Bool(v), nil
	case []float64:
		vs := make([]Value, len(v))
		for i, each := range v {
			vs[i] = Number(each)
		}
		return List(NumberKind, vs), nil
	case Worded:
		label := reflect.ValueOf(x).String()
		vocabulary := vocabularyOf(v)
		w, ok := words(vocabulary, label)
		if !ok {
			return Value{}, fmt.Errorf("%q is not a word of %s", label, vocabulary)
		}
		return OfWord(w), nil
	case string:
		return Text(v), nil
	case interface{ RuleTypeName() string }:
		return Object(Kind(v.RuleTypeName()), x), nil
	case quantity.Measure:
		return Measured(v), nil
	}
	return Value{}, fmt.Errorf("a Go value of type %T cannot stand in a rule", x)
}

// vocabularies holds the names of the vocabularies of Go types, which are made anew at
// each call.
var vocabularies sync.Map

func vocabularyOf(w Worded) Kind {
	t := reflect.TypeOf(w)
	name, known := vocabularies.Load(t)
	if !known {
		name, _ = vocabularies.LoadOrStore(t, Kind(w.Vocabulary().Name))
	}
	return name.(Kind)
}
