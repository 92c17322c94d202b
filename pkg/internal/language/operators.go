package language

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/common/types/traits"

	"example.com/groundrule/pkg/quantity"
)

// ErrArithmetic is wrapped by division by zero and by a result beyond all
// numbers.
var ErrArithmetic = errors.New("arithmetic without a result")

// operatorOptions declares CEL's operators for numbers, dimensions and words.
func operatorOptions() []cel.EnvOption {
	a := cel.TypeParamType("A")
	boolean := func(name, id string, args ...*cel.Type) cel.EnvOption {
		return cel.Function(name, cel.Overload(id, args, cel.BoolType))
	}
	opts := []cel.EnvOption{
		boolean(operators.LogicalAnd, "and", cel.BoolType, cel.BoolType),
		boolean(operators.LogicalOr, "or", cel.BoolType, cel.BoolType),
		cel.Function(operators.LogicalNot, cel.Overload("not", []*cel.Type{cel.BoolType}, cel.BoolType,
			cel.UnaryBinding(func(v ref.Val) ref.Val { return !v.(types.Bool) }))),
		cel.Function(equalFunction, cel.Overload("equal", []*cel.Type{a, a}, cel.BoolType,
			cel.BinaryBinding(func(x, y ref.Val) ref.Val { return types.Bool(same(x, y)) }))),
		cel.Function(differFunction, cel.Overload("differ", []*cel.Type{a, a}, cel.BoolType,
			cel.BinaryBinding(func(x, y ref.Val) ref.Val { return types.Bool(!same(x, y)) }))),
		cel.Function(operators.In, cel.Overload("among", []*cel.Type{a, cel.ListType(a)}, cel.BoolType,
			cel.BinaryBinding(among))),
	}
	opts = append(opts, comparisons()...)
	return append(opts, arithmetic()...)
}

// CEL works out == and != in a way of its own that no binding changes, and by
// which 0.1 + 0.2 is not 0.3. They are renamed to these after parsing, so that
// numbers are equal as quantities are.
const (
	equalFunction  = "=="
	differFunction = "!="
)

// same reports whether two values are equal: numbers and quantities within the
// tolerance of [quantity.Quantity.Compare], a word with the wider word that it is a kind
// of.
func same(a, b ref.Val) bool {
	if x, ok := a.(types.Double); ok {
		y, ok := b.(types.Double)
		return ok && compare(x, y) == 0
	}
	if x, ok := a.(wordValue); ok {
		y, ok := b.(wordValue)
		return ok && x.v.Is(y.v)
	}
	if _, isList := a.(traits.Lister); isList {
		return slices.EqualFunc(listItems(a), listItems(b), same)
	}
	return a.Equal(b) == types.True
}

func among(x, list ref.Val) ref.Val {
	return types.Bool(slices.ContainsFunc(listItems(list), func(item ref.Val) bool { return same(x, item) }))
}

// ordered lists the types whose values have an order.
func ordered() []*cel.Type {
	out := []*cel.Type{cel.DoubleType}
	for _, d := range dimensions() {
		out = append(out, dimensionTypes[d])
	}
	return out
}

func comparisons() []cel.EnvOption {
	var opts []cel.EnvOption
	for _, op := range []struct {
		name  string
		holds func(order int) bool
	}{
		{operators.Less, func(order int) bool { return order < 0 }},
		{operators.LessEquals, func(order int) bool { return order <= 0 }},
		{operators.Greater, func(order int) bool { return order > 0 }},
		{operators.GreaterEquals, func(order int) bool { return order >= 0 }},
	} {
		var overloads []cel.FunctionOpt
		for _, t := range ordered() {
			overloads = append(overloads, cel.Overload(op.name+" "+t.TypeName(), []*cel.Type{t, t}, cel.BoolType,
				cel.BinaryBinding(func(a, b ref.Val) ref.Val { return types.Bool(op.holds(compare(a, b))) })))
		}
		opts = append(opts, cel.Function(op.name, overloads...))
	}
	return opts
}

// compare returns the order of two values of one type. Both are finite, since no
// other value enters a frame or comes out of an operator or a function.
func compare(a, b ref.Val) int {
	order, _ := asQuantity(a).Compare(asQuantity(b))
	return order
}

// asQuantity reads a number as a ratio.
func asQuantity(v ref.Val) quantity.Quantity {
	switch x := v.(type) {
	case types.Double:
		return quantity.Quantity{Dim: quantity.DimRatio, SI: float64(x)}
	case quantityValue:
		return x.q
	}
	return quantity.Quantity{}
}

// fromQuantity returns a ratio as a number and refuses what is not a number.
func fromQuantity(q quantity.Quantity, err error) ref.Val {
	if errors.Is(err, quantity.ErrNotFinite) || err == nil && (math.IsNaN(q.SI) || math.IsInf(q.SI, 0)) {
		err = errors.New("the result is beyond all numbers")
	}
	if err != nil {
		return types.WrapErr(fmt.Errorf("%w: %w", ErrArithmetic, err))
	}
	if q.Dim == quantity.DimRatio {
		return types.Double(q.SI)
	}
	return quantityValue{q: q}
}

func arithmetic() []cel.EnvOption {
	sums := map[string][]cel.FunctionOpt{}
	binary := func(op string, a, b, result quantity.Dimension, work func(a, b quantity.Quantity) (quantity.Quantity, error)) {
		ta, tb := dimensionTypes[a], dimensionTypes[b]
		id := fmt.Sprintf("%s %s %s", op, ta.TypeName(), tb.TypeName())
		sums[op] = append(sums[op], cel.Overload(id, []*cel.Type{ta, tb}, dimensionTypes[result],
			cel.BinaryBinding(func(x, y ref.Val) ref.Val {
				return fromQuantity(work(asQuantity(x), asQuantity(y)))
			})))
	}
	add := func(a, b quantity.Quantity) (quantity.Quantity, error) {
		return quantity.Quantity{Dim: a.Dim, SI: a.SI + b.SI}, nil
	}
	subtract := func(a, b quantity.Quantity) (quantity.Quantity, error) {
		return quantity.Quantity{Dim: a.Dim, SI: a.SI - b.SI}, nil
	}
	var negate []cel.FunctionOpt
	all := slices.DeleteFunc(quantity.Dimensions(), func(d quantity.Dimension) bool {
		return d == quantity.DimTemperature // a scale, not a difference: it can only be compared
	})
	for _, a := range all {
		binary(operators.Add, a, a, a, add)
		binary(operators.Subtract, a, a, a, subtract)
		t := dimensionTypes[a]
		negate = append(negate, cel.Overload("negate "+t.TypeName(), []*cel.Type{t}, t,
			cel.UnaryBinding(func(x ref.Val) ref.Val {
				q := asQuantity(x)
				q.SI = -q.SI
				return fromQuantity(q, nil)
			})))
		for _, b := range all {
			if r, ok := a.Product(b); ok {
				binary(operators.Multiply, a, b, r, quantity.Quantity.Multiply)
			}
			if r, ok := a.Quotient(b); ok {
				binary(operators.Divide, a, b, r, divide)
			}
		}
	}
	opts := []cel.EnvOption{cel.Function(operators.Negate, negate...)}
	for _, op := range []string{operators.Add, operators.Subtract, operators.Multiply, operators.Divide} {
		opts = append(opts, cel.Function(op, sums[op]...))
	}
	return opts
}

// divide is [quantity.Quantity.Divide] with division by zero said as a writer would.
func divide(a, b quantity.Quantity) (quantity.Quantity, error) {
	if b.SI == 0 {
		return quantity.Quantity{}, errors.New("division by zero")
	}
	return a.Divide(b)
}
