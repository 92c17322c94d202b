package value

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"

	"example.com/groundrule/pkg/quantity"
)

// jsonValue is the JSON form: the kind, the value in SI or as a word, and the
// text in both systems for whoever only shows it.
type jsonValue struct {
	Kind  Kind            `json:"kind"`
	Value json.RawMessage `json:"value"`
	Unit  string          `json:"unit,omitempty"`
	US    string          `json:"us"`
	SI    string          `json:"si,omitempty"`
	Items []Value         `json:"items,omitzero"`
}

// jsonFigures is how many significant figures a number has in JSON: enough for
// any use, and few enough that the last bits in which machines differ do not show.
const jsonFigures = 12

// Figures rounds a number to the figures that JSON shows.
func Figures(x float64) float64 { return toFigures(x, jsonFigures) }

// MarshalJSON writes {"kind", "value", "unit", "us", "si"}: value is a number (in
// the unit named by unit, "%" for a share and else the SI unit, to 12 figures),
// true or false, a word's name, or a text; us and si are the value as text, without
// si where both are the same. A list has its values under items, and
// an object its text alone; value is then null. The zero Value is null.
func (v Value) MarshalJSON() ([]byte, error) {
	if v.IsZero() {
		return []byte("null"), nil
	}
	// The texts are those of the numbers as they are written here, so that what is
	// read back is written the same.
	v = v.rounded()
	out, plain := jsonValue{Kind: v.kind}, any(nil)
	switch x := v.data.(type) {
	case quantity.Quantity:
		out.Unit = x.Dim.BaseUnit()
		number, err := x.In(out.Unit)
		if err != nil {
			return nil, fmt.Errorf("a value of kind %s: %w", v.kind, err)
		}
		plain = Figures(number)
	case *Word:
		plain = x.Name
	case *list:
		out.Items = append([]Value{}, x.items...)
	case float64, bool, string:
		plain = x
	}
	var err error
	if out.Value, err = encode(plain); err != nil {
		return nil, fmt.Errorf("a value of kind %s: %w", v.kind, err)
	}
	out.US = v.Text(quantity.US)
	if si := v.Text(quantity.SI); si != out.US {
		out.SI = si
	}
	return encode(out)
}

// rounded returns the value with its numbers as JSON writes them.
func (v Value) rounded() Value {
	switch x := v.data.(type) {
	case float64:
		v.data = Figures(x)
	case quantity.Quantity:
		if number, err := x.In(x.Dim.BaseUnit()); err == nil {
			v.data = inBaseUnit(x.Dim, Figures(number))
		}
	case *list:
		items := make([]Value, len(x.items))
		for i, each := range x.items {
			items[i] = each.rounded()
		}
		v.data = &list{items}
	}
	return v
}

// encode leaves <, > and & as they are; whoever writes the whole may escape them.
func encode(x any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(x)
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), err
}

// UnmarshalJSON reads what [Value.MarshalJSON] writes. A word keeps its
// vocabulary, name and label; an object becomes its text, of the same kind. The
// texts of numbers and quantities are not read: they follow from the value.
func (v *Value) UnmarshalJSON(data []byte) error {
	if string(bytes.TrimSpace(data)) == "null" {
		*v = Value{}
		return nil
	}
	var in jsonValue
	if err := json.Unmarshal(data, &in); err != nil {
		return fmt.Errorf("a value is written as {kind, value, unit, us, si}: %w", err)
	}
	read, err := in.value()
	if err != nil {
		return fmt.Errorf("a value of kind %q: %w", in.Kind, err)
	}
	*v = read
	return nil
}

func (in jsonValue) value() (Value, error) {
	element, isList := in.Kind.Element()
	dimension, isMeasured := quantity.DimensionNamed(string(in.Kind))
	switch {
	case in.Kind == NoKind:
		return Value{}, fmt.Errorf("the kind is missing")
	case isList:
		for _, item := range in.Items {
			if item.kind != element {
				return Value{}, fmt.Errorf("an item is of kind %q", item.kind)
			}
		}
		return List(element, in.Items), nil
	case in.Kind == NumberKind:
		x, err := read[float64](in)
		return Number(x), err
	case in.Kind == BoolKind:
		is, err := read[bool](in)
		return Bool(is), err
	case in.Kind == TextKind:
		s, err := read[string](in)
		return Text(s), err
	case isMeasured:
		x, err := read[float64](in)
		if err == nil && in.Unit != dimension.BaseUnit() {
			err = fmt.Errorf("the unit is %q, and not %q", in.Unit, dimension.BaseUnit())
		}
		return Value{in.Kind, inBaseUnit(dimension, x)}, err
	case in.isNull():
		return Object(in.Kind, told{in.US, cmp.Or(in.SI, in.US)}), nil
	}
	name, err := read[string](in)
	return OfWord(&Word{Vocabulary: in.Kind, Name: name, Label: in.US}), err
}

// told is an object that was read: its texts.
type told struct{ us, si string }

// Text returns the text in one system of units.
func (t told) Text(system quantity.System) string {
	if system.Base() == quantity.SI {
		return t.si
	}
	return t.us
}

// String returns the text in US units.
func (t told) String() string { return t.us }

// inBaseUnit returns x of the unit in which JSON writes a dimension.
func inBaseUnit(d quantity.Dimension, x float64) quantity.Quantity {
	if d == quantity.DimShare {
		return quantity.Percent(x).Quantity()
	}
	return quantity.Quantity{Dim: d, SI: x}
}

func (in jsonValue) isNull() bool { return len(in.Value) == 0 || string(in.Value) == "null" }

// read reads the plain value of a kind that has one.
func read[T any](in jsonValue) (T, error) {
	var x T
	if in.isNull() {
		return x, fmt.Errorf("value is missing")
	}
	return x, json.Unmarshal(in.Value, &x)
}
