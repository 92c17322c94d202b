// Package signature reads, from the Go function behind a calculation, what kinds
// of values it takes and returns.
package signature

import (
	"fmt"
	"reflect"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Form is the form of a value.
type Form uint8

// The forms that arguments and results can take.
const (
	NoForm   Form = iota
	Number        // float64
	Bool          // bool
	Text          // string
	Measured      // a type of package quantity
	Word          // a string type with a Vocabulary method
	Numbers       // []float64
	Object        // any other named type, passed through as it is
)

// Kind is the type of an argument or a result, as read from the Go type.
type Kind struct {
	Form Form
	// Dim is the dimension of a Measured kind.
	Dim quantity.Dimension
	// Name is the vocabulary of a Word, or the type name of an Object.
	Name string
	// Go is the Go type.
	Go reflect.Type
}

// KindOf reads the kind from a Go type.
func KindOf(t reflect.Type) (Kind, error) {
	switch v := reflect.Zero(t).Interface().(type) {
	case float64:
		return Kind{Form: Number, Go: t}, nil
	case bool:
		return Kind{Form: Bool, Go: t}, nil
	case []float64:
		return Kind{Form: Numbers, Go: t}, nil
	case value.Worded:
		if t.Kind() != reflect.String {
			return Kind{}, fmt.Errorf("%w: %s has a vocabulary and must be a string type", calculation.ErrShape, t)
		}
		return Kind{Form: Word, Name: v.Vocabulary().Name, Go: t}, nil
	case string:
		return Kind{Form: Text, Go: t}, nil
	case interface{ RuleTypeName() string }:
		return Kind{Form: Object, Name: v.RuleTypeName(), Go: t}, nil
	case quantity.Measure:
		if t.Kind() == reflect.Float64 {
			return Kind{Form: Measured, Dim: v.Quantity().Dim, Go: t}, nil
		}
	}
	return Kind{}, fmt.Errorf("%w: %s cannot be an argument or a result", calculation.ErrShape, t)
}

// Value returns the kind of value that the argument or result is.
func (k Kind) Value() value.Kind {
	switch k.Form {
	case Number:
		return value.NumberKind
	case Bool:
		return value.BoolKind
	case Text:
		return value.TextKind
	case Measured:
		return value.DimensionKind(k.Dim)
	case Word, Object:
		return value.Kind(k.Name)
	case Numbers:
		return value.ListOf(value.NumberKind)
	}
	return value.NoKind
}

// Signature is the kinds of a function's arguments and of its result.
type Signature struct {
	Params []Kind
	Result Kind
	// Fails reports whether the Go function also returns an error.
	Fails bool
}

var errorType = reflect.TypeFor[error]()

// Of reads a function's signature and checks it against the
// description. The error wraps [calculation.ErrShape].
func Of(f calculation.Function) (Signature, error) {
	fail := func(format string, args ...any) (Signature, error) {
		return Signature{}, fmt.Errorf("%w: %s: %s", calculation.ErrShape, f.Name, fmt.Sprintf(format, args...))
	}
	if f.Go == nil {
		return fail("no Go function")
	}
	t := reflect.TypeOf(f.Go)
	if t.Kind() != reflect.Func || t.IsVariadic() {
		return fail("%s is not a plain function", t)
	}
	if t.NumIn() != len(f.Params) {
		return fail("%d arguments described, %d written", len(f.Params), t.NumIn())
	}
	if f.Name == "" || f.About == "" || f.Result.About == "" {
		return fail("name, about and the result's meaning are all needed")
	}
	if strings.Trim(f.Moves, "+-.") != "" || f.Moves != "" && len(f.Moves) != len(f.Params) {
		return fail("it moves %q, which is not one of + - . for each of %d arguments", f.Moves, len(f.Params))
	}
	if len(f.Sources) == 0 {
		return fail("no source")
	}
	var sig Signature
	for i, p := range f.Params {
		if p.Name == "" || p.About == "" {
			return fail("argument %d has no name or no meaning", i+1)
		}
		k, err := KindOf(t.In(i))
		if err != nil {
			return fail("argument %q: %v", p.Name, err)
		}
		sig.Params = append(sig.Params, k)
	}
	switch {
	case t.NumOut() == 1:
	case t.NumOut() == 2 && t.Out(1) == errorType:
		sig.Fails = true
	default:
		return fail("must return a value, or a value and an error")
	}
	k, err := KindOf(t.Out(0))
	if err != nil {
		return fail("result: %v", err)
	}
	sig.Result = k
	return sig, nil
}
