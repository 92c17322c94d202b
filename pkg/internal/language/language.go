// Package language is the rule language: CEL, with dimensions and vocabularies
// as types of their own. It is the one place that knows cel-go.
//
// Three things are taken away from CEL, so that a rule can be explained, costs
// no more than its length, and cannot go wrong in ways that CEL lets pass:
// whole numbers (every number is a double; 6 is read as 6.0), loops, maps and
// indexes, and the choice operator (two rules say it better). One thing is
// added: known(name) tells whether a value that may be missing is there, and
// the compiler refuses a rule that reads such a value without having asked.
package language

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Limits of one expression. They bound its cost once, when it is read: there
// are no loops, so evaluating costs at most one call for each node.
const (
	MaxCharacters = 4000
	MaxNodes      = 400
	MaxNesting    = 40
)

// Name is a name that expressions can read.
type Name struct {
	Name string
	Kind value.Kind
	// MayLack reports whether the value can be missing; an expression must then ask
	// known(name) before it reads it.
	MayLack bool
}

// Declarations are what the expressions of one rulebook can name, besides the
// dimensions and the functions of the language.
type Declarations struct {
	Names        []Name
	Vocabularies []Vocabulary
	Also         []Also
	Objects      []value.Kind // which expressions only pass on
	Functions    []calculation.Function
}

// Vocabulary is a vocabulary with its words. One with properties is a kind of
// material.
type Vocabulary struct {
	Kind       value.Kind
	Words      []*value.Word
	Properties []rulebook.Property // nil for one that is no kind of material
}

// Also is another name for a word. What is told of the word never uses it.
type Also struct {
	Name string
	Word *value.Word
}

// Env is everything that expressions can name, ready to compile them. It is
// immutable and safe for concurrent use.
type Env struct {
	cel        *cel.Env
	types      map[value.Kind]*cel.Type
	names      map[string]int // index into list
	list       []Name
	words      map[string]*value.Word
	vocab      map[value.Kind][]*value.Word
	properties map[value.Kind]map[string]rulebook.Property
	signatures map[string][]string
	// arguments are what the functions with one signature take.
	arguments map[string][]argument
	functions []calculation.Function
}

// New compiles the declarations.
func New(d Declarations) (*Env, error) {
	e := &Env{
		types:      map[value.Kind]*cel.Type{value.NumberKind: cel.DoubleType, value.BoolKind: cel.BoolType, value.TextKind: cel.StringType},
		names:      map[string]int{},
		list:       slices.Clone(d.Names),
		words:      map[string]*value.Word{},
		vocab:      map[value.Kind][]*value.Word{},
		properties: map[value.Kind]map[string]rulebook.Property{},
		signatures: map[string][]string{},
		arguments:  map[string][]argument{},
		functions:  slices.Clone(d.Functions),
	}
	opts := []cel.EnvOption{
		cel.CustomTypeProvider(&provider{env: e}),
		cel.CustomTypeAdapter(adapter{}),
		cel.ParserExpressionSizeLimit(MaxCharacters),
		cel.ParserRecursionLimit(MaxNesting),
	}
	for _, dim := range dimensions() {
		e.types[value.DimensionKind(dim)] = dimensionTypes[dim]
	}
	for _, k := range d.Objects {
		if err := e.declareKind(k); err != nil {
			return nil, err
		}
	}
	for _, v := range d.Vocabularies {
		if err := e.declareKind(v.Kind); err != nil {
			return nil, err
		}
		e.vocab[v.Kind] = v.Words
		for _, w := range v.Words {
			e.words[w.Name] = w
			opts = append(opts, cel.Constant(w.Name, e.types[v.Kind], wordValue{v: value.OfWord(w), t: e.types[v.Kind]}))
		}
		if v.Properties != nil {
			e.properties[v.Kind] = map[string]rulebook.Property{}
		}
		for _, p := range v.Properties {
			e.properties[v.Kind][p.Name] = p
		}
	}
	for _, a := range d.Also {
		e.words[a.Name] = a.Word
		t := e.types[a.Word.Vocabulary]
		opts = append(opts, cel.Constant(a.Name, t, wordValue{v: value.OfWord(a.Word), t: t}))
	}
	for i, n := range e.list {
		t, err := e.typeOf(n.Kind)
		if err != nil {
			return nil, fmt.Errorf("name %s: %w", n.Name, err)
		}
		e.names[n.Name] = i
		opts = append(opts, cel.Variable(n.Name, t))
		if n.MayLack {
			opts = append(opts, cel.Variable(knownPrefix+n.Name, cel.BoolType))
		}
	}
	functions, err := e.functionOptions()
	if err != nil {
		return nil, err
	}
	if e.cel, err = cel.NewCustomEnv(append(opts, functions...)...); err != nil {
		return nil, fmt.Errorf("rule language: %w", err)
	}
	return e, nil
}

func (e *Env) declareKind(k value.Kind) error {
	if IsTaken(k) {
		return fmt.Errorf("%w: no vocabulary, material or object can be called %q", ErrKindTaken, string(k))
	}
	e.types[k] = types.NewObjectType(string(k))
	return nil
}

// ErrKindTaken is wrapped when a vocabulary, a kind of material or an object has
// the name of a kind that the language has itself: its words would then pass for
// lengths, say.
var ErrKindTaken = errors.New("the name of a kind is taken")

// OwnKinds lists the kinds that the language has itself.
func OwnKinds() []value.Kind {
	out := []value.Kind{value.NumberKind, value.BoolKind, value.TextKind}
	for _, d := range dimensions() {
		out = append(out, value.DimensionKind(d))
	}
	return out
}

// IsTaken reports whether no vocabulary, material or object can have the name of
// a kind: the language has it itself, or CEL has a type of that name.
func IsTaken(k value.Kind) bool {
	return k == value.NoKind || slices.Contains(celKinds, k) || slices.Contains(OwnKinds(), k)
}

var celKinds = []value.Kind{"any", "bytes", "double", "duration", "dyn", "int", "list", "map", "null_type", "string", "timestamp", "type", "uint"}

// typeOf returns the CEL type of a kind.
func (e *Env) typeOf(k value.Kind) (*cel.Type, error) {
	if element, ok := k.Element(); ok {
		t, err := e.typeOf(element)
		if err != nil {
			return nil, err
		}
		return cel.ListType(t), nil
	}
	if t, ok := e.types[k]; ok {
		return t, nil
	}
	return nil, fmt.Errorf("%q is not a kind of value", k)
}

// kindOf returns the kind of a CEL type.
func (e *Env) kindOf(t *cel.Type) value.Kind {
	switch t.Kind() {
	case types.DoubleKind:
		return value.NumberKind
	case types.BoolKind:
		return value.BoolKind
	case types.StringKind:
		return value.TextKind
	case types.StructKind:
		return value.Kind(t.TypeName())
	case types.ListKind:
		return value.ListOf(e.kindOf(t.Parameters()[0]))
	}
	return value.NoKind
}

// WordLabeled finds a word of a vocabulary by its label, name or Go value.
func (e *Env) WordLabeled(vocabulary value.Kind, label string) (*value.Word, bool) {
	for _, w := range e.vocab[vocabulary] {
		if w.Label == label || w.Name == label || w.Go == label {
			return w, true
		}
	}
	return nil, false
}

// Words lists the words of a vocabulary in their order.
func (e *Env) Words(vocabulary value.Kind) []*value.Word { return slices.Clone(e.vocab[vocabulary]) }

// NameOf finds a declared name.
func (e *Env) NameOf(name string) (Name, bool) {
	i, ok := e.names[name]
	if !ok {
		return Name{}, false
	}
	return e.list[i], true
}

// wantedFor says in words what would do for a kind: the words of a vocabulary,
// or a sample of a dimension.
func (e *Env) wantedFor(k value.Kind) string {
	if words := e.vocab[k]; len(words) > 0 {
		return fmt.Sprintf("a word of %s (%s)", k, Listed(wordNames(words)))
	}
	switch k {
	case value.BoolKind:
		return "a bool: a comparison such as cbr < 3, or a name that is true or false"
	case value.NumberKind:
		return "a number, such as 6"
	}
	if d, ok := dimensionOf(k); ok {
		return fmt.Sprintf("%s, such as %s(6)", e.aKind(k), d.Units()[0].Builder)
	}
	return e.aKind(k)
}

// aKind returns a kind with its article.
func (e *Env) aKind(k value.Kind) string {
	if element, isList := k.Element(); isList {
		return "a list of " + spoken(element)
	}
	if e.vocab[k] != nil {
		return "a word of " + string(k)
	}
	noun := spoken(k)
	switch {
	case noun == "":
		return "of no kind that a rule can have"
	case strings.ContainsRune("aeiou", rune(noun[0])):
		return "an " + noun
	}
	return "a " + noun
}

// Vocabularies lists the vocabularies and kinds of material, sorted.
func (e *Env) Vocabularies() []value.Kind { return slices.Sorted(maps.Keys(e.vocab)) }

// Properties lists the properties of a kind of material, by name.
func (e *Env) Properties(kind value.Kind) []rulebook.Property {
	var out []rulebook.Property
	for _, name := range slices.Sorted(maps.Keys(e.properties[kind])) {
		out = append(out, e.properties[kind][name])
	}
	return out
}
