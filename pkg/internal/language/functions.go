package language

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/common/types/traits"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// CallError is a calculation that refused its arguments.
type CallError struct {
	Function string
	Args     []value.Value
	Err      error
}

// Error names the call with its arguments, and says what the calculation said.
func (e *CallError) Error() string {
	return fmt.Sprintf("%s: %v", e.Call(quantity.US), e.Err)
}

// Call is the call with its arguments in one system of units.
func (e *CallError) Call(system quantity.System) string {
	args := make([]string, len(e.Args))
	for i, a := range e.Args {
		args[i] = a.Text(system)
	}
	return fmt.Sprintf("%s(%s)", e.Function, strings.Join(args, ", "))
}

// Unwrap returns what the calculation said.
func (e *CallError) Unwrap() error { return e.Err }

func (e *Env) functionOptions() ([]cel.EnvOption, error) {
	opts := operatorOptions()
	for _, u := range quantity.Units() {
		opts = append(opts, e.unitBuilder(u))
	}
	opts = append(opts, e.languageFunctions()...)
	for _, f := range e.functions {
		opt, err := e.calculationOption(f)
		if err != nil {
			return nil, err
		}
		opts = append(opts, opt)
	}
	return opts, nil
}

// unitBuilder declares the function that gives a number a unit, such as inches.
func (e *Env) unitBuilder(u quantity.Unit) cel.EnvOption {
	result := dimensionTypes[u.Dim]
	e.arguments[u.Builder] = []argument{{kind: value.NumberKind}}
	e.signatures[u.Builder] = []string{fmt.Sprintf("%s(number) %s", u.Builder, e.kindOf(result))}
	return cel.Function(u.Builder, cel.Overload("unit "+u.Builder, []*cel.Type{cel.DoubleType}, result,
		cel.UnaryBinding(func(x ref.Val) ref.Val {
			return fromQuantity(u.Quantity(float64(x.(types.Double))))
		})))
}

// languageFunctions declares the few functions that the language itself has.
func (e *Env) languageFunctions() []cel.EnvOption {
	var larger, smaller []cel.FunctionOpt
	for _, t := range ordered() {
		pick := func(name string, keep func(int) bool) cel.FunctionOpt {
			return cel.Overload(name+" "+t.TypeName(), []*cel.Type{t, t}, t, cel.BinaryBinding(func(a, b ref.Val) ref.Val {
				if keep(compare(a, b)) {
					return a
				}
				return b
			}))
		}
		larger = append(larger, pick("larger", func(c int) bool { return c >= 0 }))
		smaller = append(smaller, pick("smaller", func(c int) bool { return c <= 0 }))
	}
	length := dimensionTypes[quantity.DimLength]
	numbers := cel.ListType(cel.DoubleType)
	rounding := func(name string, round func(q, step quantity.Quantity) (quantity.Quantity, error)) cel.EnvOption {
		return cel.Function(name, cel.Overload(name+" length", []*cel.Type{length, length}, length,
			cel.BinaryBinding(func(a, step ref.Val) ref.Val { return fromQuantity(round(asQuantity(a), asQuantity(step))) })))
	}
	for _, d := range builtins {
		e.signatures[d.Name] = d.Signatures
	}
	return []cel.EnvOption{
		cel.Function("larger", larger...),
		cel.Function("smaller", smaller...),
		rounding("round_up", quantity.Quantity.RoundUp),
		rounding("round_down", quantity.Quantity.RoundDown),
		rounding("round_near", quantity.Quantity.RoundNear),
		cel.Function("whole_up", cel.Overload("whole_up number", []*cel.Type{cel.DoubleType}, cel.DoubleType,
			cel.UnaryBinding(func(x ref.Val) ref.Val { return fromQuantity(asQuantity(x).RoundUp(asQuantity(types.Double(1)))) }))),
		cel.Function("count", cel.Overload("count numbers", []*cel.Type{numbers}, cel.DoubleType, cel.UnaryBinding(
			func(l ref.Val) ref.Val { return types.Double(len(listItems(l))) }))),
		cel.Function("least", cel.Overload("least numbers", []*cel.Type{numbers}, cel.DoubleType, extreme(slices.Min[[]float64]))),
		cel.Function("greatest", cel.Overload("greatest numbers", []*cel.Type{numbers}, cel.DoubleType, extreme(slices.Max[[]float64]))),
	}
}

// builtins describes what the language itself has, apart from units.
var builtins = []rulebook.Function{
	{Name: "known", Signatures: []string{"known(name) bool"}, About: "whether a value that may be missing is there; a rule must ask before it reads one", Example: "known(soil.liquid_limit) && soil.liquid_limit >= 50"},
	{Name: "larger", Signatures: []string{"larger(number, number) number", "larger(quantity, quantity) quantity, all of one dimension"}, About: "the larger of two numbers or two quantities of one dimension", Example: "larger(inches(6), mm(150))"},
	{Name: "smaller", Signatures: []string{"smaller(number, number) number", "smaller(quantity, quantity) quantity, all of one dimension"}, About: "the smaller of two numbers or two quantities of one dimension", Example: "smaller(inches(6), mm(150))"},
	{Name: "round_up", Signatures: []string{"round_up(length, step length) length"}, About: "the least whole number of steps that is not less", Example: "round_up(inches(6.2), inches(0.5))"},
	{Name: "round_down", Signatures: []string{"round_down(length, step length) length"}, About: "the greatest whole number of steps that is not more", Example: "round_down(inches(6.2), inches(0.5))"},
	{Name: "round_near", Signatures: []string{"round_near(length, step length) length"}, About: "the nearest whole number of steps, the greater of two that are as near", Example: "round_near(inches(6.2), inches(0.5))"},
	{Name: "whole_up", Signatures: []string{"whole_up(number) number"}, About: "the least whole number that is not less", Example: "whole_up(2.2)"},
	{Name: "count", Signatures: []string{"count(list(number)) number"}, About: "how many readings there are", Example: "count([3, 4, 5])"},
	{Name: "least", Signatures: []string{"least(list(number)) number"}, About: "the least of several readings", Example: "least([3, 4, 5])"},
	{Name: "greatest", Signatures: []string{"greatest(list(number)) number"}, About: "the greatest of several readings", Example: "greatest([3, 4, 5])"},
}

// extreme picks one of a list of readings.
func extreme(pick func([]float64) float64) cel.OverloadOpt {
	return cel.UnaryBinding(func(list ref.Val) ref.Val {
		xs := readings(list)
		if len(xs) == 0 {
			return types.WrapErr(fmt.Errorf("%w: no readings", ErrArithmetic))
		}
		return types.Double(pick(xs))
	})
}

// readings returns the numbers of a list.
func readings(list ref.Val) []float64 {
	var out []float64
	for _, item := range listItems(list) {
		out = append(out, float64(item.(types.Double)))
	}
	return out
}

// listItems returns the items of a list, and none of what is no list: the checker
// lets nothing else come where one is read.
func listItems(v ref.Val) []ref.Val {
	var items []ref.Val
	if list, ok := v.(traits.Lister); ok {
		for i := range int(list.Size().(types.Int)) {
			items = append(items, list.Get(types.Int(i)))
		}
	}
	return items
}

// calculationOption declares a described calculation.
func (e *Env) calculationOption(f calculation.Function) (cel.EnvOption, error) {
	sig, err := signature.Of(f)
	if err != nil {
		return nil, err
	}
	if _, taken := e.signatures[f.Name]; taken {
		return nil, fmt.Errorf("%w: the name %s is taken", calculation.ErrShape, f.Name)
	}
	args := make([]*cel.Type, len(sig.Params))
	words := make([]string, len(sig.Params))
	takes := make([]argument, len(sig.Params))
	for i, p := range sig.Params {
		if args[i], err = e.typeOf(p.Value()); err != nil {
			return nil, fmt.Errorf("%s, argument %s: %w", f.Name, f.Params[i].Name, err)
		}
		words[i] = fmt.Sprintf("%s %s", f.Params[i].Name, p.Value())
		takes[i] = argument{f.Params[i].Name, p.Value()}
	}
	result, err := e.typeOf(sig.Result.Value())
	if err != nil {
		return nil, fmt.Errorf("%s, result: %w", f.Name, err)
	}
	e.arguments[f.Name] = takes
	e.signatures[f.Name] = []string{fmt.Sprintf("%s(%s) %s", f.Name, strings.Join(words, ", "), sig.Result.Value())}
	call := e.caller(f, sig)
	return cel.Function(f.Name, cel.Overload("calculation "+f.Name, args, result, cel.FunctionBinding(call))), nil
}

func (e *Env) caller(f calculation.Function, sig signature.Signature) func(...ref.Val) ref.Val {
	fn := reflect.ValueOf(f.Go)
	resultKind := sig.Result.Value()
	return func(args ...ref.Val) (out ref.Val) {
		fail := func(err error) ref.Val {
			given := make([]value.Value, len(args))
			for i, a := range args {
				given[i], _ = e.fromCEL(a, sig.Params[i].Value())
			}
			return types.WrapErr(&CallError{Function: f.Name, Args: given, Err: err})
		}
		defer func() {
			if r := recover(); r != nil {
				out = fail(fmt.Errorf("%w: %v", ErrCalculation, r))
			}
		}()
		in := make([]reflect.Value, len(args))
		for i, a := range args {
			in[i] = toGo(a, sig.Params[i])
		}
		results := fn.Call(in)
		if sig.Fails {
			if err, _ := results[1].Interface().(error); err != nil {
				return fail(err)
			}
		}
		v, err := value.Of(results[0].Interface(), e.WordLabeled)
		if err != nil {
			return fail(err)
		}
		if x, ok := finite(v); !ok {
			return fail(fmt.Errorf("%w: the result is %g", ErrArithmetic, x))
		}
		if v.Kind() != resultKind {
			return fail(fmt.Errorf("%w: gave %s, described as %s", ErrCalculation, v.Kind(), resultKind))
		}
		return e.toCEL(v)
	}
}

// ErrCalculation is wrapped when a calculation itself is at fault: it panicked
// or gave another kind than it was described with.
var ErrCalculation = errors.New("a calculation is at fault")

// finite returns a number that is none, and false, if there is one in the value.
func finite(v value.Value) (float64, bool) {
	items, _ := v.List()
	for _, item := range items {
		if x, ok := finite(item); !ok {
			return x, false
		}
	}
	x, ok := v.Number()
	if q, isQuantity := v.Quantity(); isQuantity {
		x, ok = q.SI, true
	}
	return x, !ok || !math.IsNaN(x) && !math.IsInf(x, 0)
}

// toGo turns an argument into the Go type that the calculation takes.
func toGo(v ref.Val, k signature.Kind) reflect.Value {
	out := reflect.New(k.Go).Elem()
	switch x := v.(type) {
	case types.Double:
		out.SetFloat(float64(x))
	case types.Bool:
		out.SetBool(bool(x))
	case types.String:
		out.SetString(string(x))
	case quantityValue:
		out.SetFloat(x.q.SI)
	case wordValue:
		w, _ := x.v.Word()
		out.SetString(w.Go)
	case objectValue:
		out.Set(reflect.ValueOf(x.x))
	default:
		out.Set(reflect.ValueOf(readings(v)))
	}
	return out
}

// Functions describes every function of the language: what it has itself, the
// units, and the calculations, each group in its order.
func (e *Env) Functions() []rulebook.Function {
	out := slices.Clone(builtins)
	for _, u := range quantity.Units() {
		out = append(out, rulebook.Function{Name: u.Builder, Signatures: e.signatures[u.Builder],
			About: u.About, Example: u.Builder + "(6)", Unit: true})
	}
	for _, f := range e.functions {
		out = append(out, rulebook.Function{Name: f.Name, Signatures: e.signatures[f.Name], About: f.About, Example: f.Example, Function: &f})
	}
	return out
}
