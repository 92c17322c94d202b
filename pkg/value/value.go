// Package value holds what a rule can read or answer: a number, a yes or no, a
// measured quantity, a word of a vocabulary, a text, an object such as a
// gradation, or a list of these.
package value

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

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
	// Properties are the properties of a material; nil for a plain word.
	Properties map[string]Value
}

// Value is one value. The zero Value is none.
type Value struct {
	kind Kind
	data any
}

// Number, Bool, Text, Measured, OfWord, Object and List make values.
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
func Object(kind Kind, x any) Value { return Value{kind, x} }

// List makes a list of values of one kind.
func List(element Kind, vs []Value) Value { return Value{ListOf(element), slices.Clone(vs)} }

// Kind of the value; NoKind for the zero Value.
func (v Value) Kind() Kind { return v.kind }

// IsZero reports the zero Value, which is no value.
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
func (v Value) Word() (*Word, bool) { w, ok := v.data.(*Word); return w, ok }

// PlainText returns a text and whether the value is one.
func (v Value) PlainText() (string, bool) { s, ok := v.data.(string); return s, ok }

// List returns a list's values and whether the value is a list.
func (v Value) List() ([]Value, bool) { l, ok := v.data.([]Value); return slices.Clone(l), ok }

// Data returns what an object holds, or the plain Go value of any other kind.
func (v Value) Data() any { return v.data }

// Measure returns a number, as a ratio, or a quantity; false for any other value.
func (v Value) Measure() (quantity.Quantity, bool) {
	if x, isNumber := v.Number(); isNumber {
		return quantity.Quantity{Dim: quantity.DimRatio, SI: x}, true
	}
	return v.Quantity()
}

// Compare orders two numbers, or two quantities of one dimension, within the
// tolerance of [quantity.Compare], so that 0.1 + 0.2 is not more than 0.3. What
// has no order compares as equal; whoever needs to know asks first.
func Compare(v, w Value) int {
	order, err := compare(v, w)
	if err != nil {
		return 0
	}
	return order
}

func compare(v, w Value) (int, error) {
	a, _ := v.Measure()
	b, _ := w.Measure()
	return quantity.Compare(a, b)
}

// Equal reports whether v and w are the same value; numbers and quantities are
// the same within the tolerance of [quantity.Compare].
func (v Value) Equal(w Value) bool {
	if v.kind != w.kind {
		return false
	}
	switch a := v.data.(type) {
	case float64, quantity.Quantity:
		order, err := compare(v, w)
		return err == nil && order == 0
	case *Word:
		b, ok := w.data.(*Word)
		return ok && a.Name == b.Name
	case []Value:
		b, _ := w.data.([]Value)
		return slices.EqualFunc(a, b, Value.Equal)
	}
	return reflect.DeepEqual(v.data, w.data)
}

// Text returns the value as a reader would write it, in one system of units.
func (v Value) Text(system quantity.System) string {
	switch x := v.data.(type) {
	case nil:
		return "nothing"
	case float64:
		return quantity.Quantity{Dim: quantity.DimRatio, SI: x}.Text(system)
	case bool:
		if x {
			return "yes"
		}
		return "no"
	case string:
		return x
	case quantity.Quantity:
		return x.Text(system)
	case *Word:
		return x.Label
	case []Value:
		if len(x) == 0 {
			return "none"
		}
		parts := make([]string, len(x))
		for i, each := range x {
			parts[i] = each.Text(system)
		}
		return strings.Join(parts, ", ")
	case fmt.Stringer:
		return x.String()
	}
	return fmt.Sprint(v.data)
}

// jsonValue is the JSON form: the kind, the value in SI or as a word, and the
// text in both systems for whoever only shows it.
type jsonValue struct {
	Kind  Kind    `json:"kind"`
	Value any     `json:"value"`
	Unit  string  `json:"unit,omitempty"`
	US    string  `json:"us"`
	SI    string  `json:"si"`
	Items []Value `json:"items,omitempty"`
}

// jsonFigures is how many significant figures a number has in JSON: enough for
// any use, and few enough that the last bits in which machines differ do not show.
const jsonFigures = 12

// Figures rounds a number to the figures that JSON shows.
func Figures(x float64) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', jsonFigures, 64), 64)
	if err != nil {
		return x
	}
	return rounded
}

// MarshalJSON returns {"kind", "value", "unit", "us", "si"}: value is a number
// (in the SI unit named by unit, to 12 figures), true or false, a word's name, or a text; us
// and si are the value as text. A list has its values under items.
func (v Value) MarshalJSON() ([]byte, error) {
	if v.IsZero() {
		return []byte("null"), nil
	}
	out := jsonValue{Kind: v.kind, US: v.Text(quantity.US), SI: v.Text(quantity.SI)}
	switch x := v.data.(type) {
	case quantity.Quantity:
		out.Value, out.Unit = Figures(x.SI), x.Dim.BaseUnit()
	case float64:
		out.Value = Figures(x)
	case *Word:
		out.Value = x.Name
	case []Value:
		out.Items = x
	case bool, string:
		out.Value = x
	default:
		out.Value = out.US
	}
	return json.Marshal(out)
}

// Of makes a value of a Go value of one of the kinds that a calculation takes:
// float64, bool, string, a type of package quantity, a Worded type, []float64
// or a Named object. words looks up a word by vocabulary and label.
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
		vocabulary := Kind(v.Vocabulary().Name)
		w, ok := words(vocabulary, label)
		if !ok {
			return Value{}, fmt.Errorf("%q is not a word of %s", label, vocabulary)
		}
		return OfWord(w), nil
	case string:
		return Text(v), nil
	case Named:
		return Object(Kind(v.RuleTypeName()), x), nil
	case quantity.Measure:
		return Measured(v), nil
	}
	return Value{}, fmt.Errorf("a Go value of type %T cannot stand in a rule", x)
}
