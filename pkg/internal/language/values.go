package language

import (
	"errors"
	"fmt"
	"reflect"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/common/types/traits"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// closed is what the language's own values have in common: CEL asks each whether
// it can be turned into another, and none can.
type closed struct{}

var errNoConversion = errors.New("the rule language has no conversions")

func (closed) ConvertToNative(reflect.Type) (any, error) { return nil, errNoConversion }
func (closed) ConvertToType(ref.Type) ref.Val            { return types.WrapErr(errNoConversion) }

// quantityValue carries a dimensioned quantity through CEL.
type quantityValue struct {
	closed
	q quantity.Quantity
}

func (v quantityValue) Equal(other ref.Val) ref.Val {
	o, ok := other.(quantityValue)
	if !ok {
		return types.False
	}
	c, err := v.q.Compare(o.q)
	return types.Bool(err == nil && c == 0)
}
func (v quantityValue) Type() ref.Type { return dimensionTypes[v.q.Dim] }
func (v quantityValue) Value() any     { return v.q }

// dimensionTypes are the CEL types of the dimensions: a ratio is a number.
var dimensionTypes = func() map[quantity.Dimension]*types.Type {
	out := map[quantity.Dimension]*types.Type{quantity.DimRatio: types.DoubleType}
	for _, d := range dimensions() {
		out[d] = types.NewObjectType(string(value.DimensionKind(d)))
	}
	return out
}()

// dimensions lists the dimensions that are kinds of their own: all but the
// plain ratio, which is a number.
func dimensions() []quantity.Dimension {
	var out []quantity.Dimension
	for _, d := range quantity.Dimensions() {
		if d != quantity.DimRatio {
			out = append(out, d)
		}
	}
	return out
}

// wordValue carries a word of a vocabulary.
type wordValue struct {
	closed
	v value.Value
	t *types.Type
}

func (v wordValue) Equal(other ref.Val) ref.Val {
	o, ok := other.(wordValue)
	return types.Bool(ok && o.v.Equal(v.v))
}
func (v wordValue) Type() ref.Type { return v.t }
func (v wordValue) Value() any     { return v.v }

// objectValue carries what expressions only pass on.
type objectValue struct {
	closed
	x    any
	kind value.Kind
}

func (v objectValue) Equal(other ref.Val) ref.Val {
	o, ok := other.(objectValue)
	return types.Bool(ok && reflect.DeepEqual(o.x, v.x))
}
func (v objectValue) Type() ref.Type { return types.NewObjectType(string(v.kind)) }
func (v objectValue) Value() any     { return v.x }

// toCEL carries a value into CEL.
func (e *Env) toCEL(v value.Value) ref.Val {
	if _, isWord := v.Word(); isWord {
		return wordValue{v: v, t: e.types[v.Kind()]}
	}
	switch x := v.Data().(type) {
	case float64:
		return types.Double(x)
	case bool:
		return types.Bool(x)
	case string:
		return types.String(x)
	case quantity.Quantity:
		return quantityValue{q: x}
	case []value.Value:
		items := make([]ref.Val, len(x))
		for i, each := range x {
			items[i] = e.toCEL(each)
		}
		return types.NewRefValList(adapter{}, items)
	}
	return objectValue{x: v.Data(), kind: v.Kind()}
}

// fromCEL carries a value of a known kind out of CEL.
func (e *Env) fromCEL(v ref.Val, kind value.Kind) (value.Value, error) {
	switch x := v.(type) {
	case types.Double:
		return value.Number(float64(x)), nil
	case types.Bool:
		return value.Bool(bool(x)), nil
	case types.String:
		return value.Text(string(x)), nil
	case quantityValue:
		return value.Measured(x.q), nil
	case wordValue:
		return x.v, nil
	case objectValue:
		return value.Object(x.kind, x.x), nil
	case traits.Lister:
		element, _ := kind.Element()
		var vs []value.Value
		for _, item := range listItems(v) {
			each, err := e.fromCEL(item, element)
			if err != nil {
				return value.Value{}, err
			}
			vs = append(vs, each)
		}
		return value.List(element, vs), nil
	}
	return value.Value{}, fmt.Errorf("unexpected value %v (%T)", v, v)
}

// adapter hands CEL the values that are its own already, and whether a property is
// there; nothing else enters.
type adapter struct{}

func (adapter) NativeToValue(x any) ref.Val {
	switch v := x.(type) {
	case ref.Val:
		return v
	case bool:
		return types.Bool(v)
	}
	return types.WrapErr(fmt.Errorf("a Go value of type %T cannot stand in a rule", x))
}

// provider tells CEL the properties of materials.
type provider struct{ env *Env }

func (p *provider) EnumValue(name string) ref.Val               { return types.NewErr("no enumerations") }
func (p *provider) FindIdent(name string) (ref.Val, bool)       { return nil, false }
func (p *provider) NewValue(string, map[string]ref.Val) ref.Val { return types.NewErr("no literals") }
func (p *provider) FindStructType(name string) (*types.Type, bool) {
	t, ok := p.env.types[value.Kind(name)]
	if !ok {
		return nil, false
	}
	return types.NewTypeTypeWithParam(t), true
}
func (p *provider) FindStructFieldNames(string) ([]string, bool) { return nil, false } // nothing asks for a list
func (p *provider) FindStructFieldType(name, field string) (*types.FieldType, bool) {
	t, err := p.env.typeOf(p.env.properties[value.Kind(name)][field].Kind)
	if err != nil {
		return nil, false // there is no such property, and so no kind
	}
	return &types.FieldType{
		Type: t,
		IsSet: func(target any) bool {
			return !propertyOf(target, field).IsZero()
		},
		GetFrom: func(target any) (any, error) {
			v := propertyOf(target, field)
			if v.IsZero() {
				return nil, fmt.Errorf("%v has no %s", target, field)
			}
			return p.env.toCEL(v), nil
		},
	}, true
}

// propertyOf returns a property of a material that CEL hands over.
func propertyOf(target any, field string) value.Value {
	v, _ := target.(value.Value)
	w, _ := v.Word()
	return w.Property(field)
}

var _ cel.Activation = (*Frame)(nil)
