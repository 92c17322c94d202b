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
	Name  string
	Kind  value.Kind
	About string
	// MayLack reports whether the value can be missing; an expression must then ask
	// known(name) before it reads it.
	MayLack bool
}

// Builder gathers what the expressions of one rulebook can name.
type Builder struct {
	names      []Name
	words      map[string]*value.Word
	vocab      map[value.Kind][]*value.Word
	properties map[value.Kind][]rulebook.Property
	objects    map[value.Kind]bool
	functions  []calculation.Function
}

// NewBuilder returns a builder with the dimensions and the built-in functions.
func NewBuilder() *Builder {
	return &Builder{
		words:      map[string]*value.Word{},
		vocab:      map[value.Kind][]*value.Word{},
		properties: map[value.Kind][]rulebook.Property{},
		objects:    map[value.Kind]bool{},
	}
}

// AddName declares a name.
func (b *Builder) AddName(n Name) { b.names = append(b.names, n) }

// AddVocabulary declares a vocabulary with its words. A material kind is a
// vocabulary with properties.
func (b *Builder) AddVocabulary(kind value.Kind, words []*value.Word, properties []rulebook.Property) {
	b.vocab[kind] = words
	if properties != nil {
		b.properties[kind] = properties
	}
	for _, w := range words {
		b.words[w.Name] = w
	}
}

// AddObject declares a kind of object that expressions only pass on.
func (b *Builder) AddObject(kind value.Kind) { b.objects[kind] = true }

// AddFunction declares a described calculation.
func (b *Builder) AddFunction(f calculation.Function) { b.functions = append(b.functions, f) }

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

// Build compiles the declarations.
func (b *Builder) Build() (*Env, error) {
	e := &Env{
		types:      map[value.Kind]*cel.Type{},
		names:      map[string]int{},
		list:       slices.Clone(b.names),
		words:      b.words,
		vocab:      b.vocab,
		properties: map[value.Kind]map[string]rulebook.Property{},
		signatures: map[string][]string{},
		arguments:  map[string][]argument{},
		functions:  slices.Clone(b.functions),
	}
	if err := b.checkKinds(); err != nil {
		return nil, err
	}
	e.declareTypes(b)
	opts := []cel.EnvOption{
		cel.CustomTypeProvider(&provider{env: e}),
		cel.CustomTypeAdapter(adapter{}),
		cel.ParserExpressionSizeLimit(MaxCharacters),
		cel.ParserRecursionLimit(MaxNesting),
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
	for _, kind := range sortedKinds(b.vocab) {
		for _, w := range b.vocab[kind] {
			opts = append(opts, cel.Constant(w.Name, e.types[kind], wordValue{value.OfWord(w), e.types[kind]}))
		}
	}
	functions, err := e.functionOptions()
	if err != nil {
		return nil, err
	}
	opts = append(opts, functions...)
	if e.cel, err = cel.NewCustomEnv(opts...); err != nil {
		return nil, fmt.Errorf("rule language: %w", err)
	}
	return e, nil
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

func (b *Builder) checkKinds() error {
	for _, k := range append(sortedKinds(b.vocab), sortedKinds(b.objects)...) {
		if IsTaken(k) {
			return fmt.Errorf("%w: no vocabulary, material or object can be called %q", ErrKindTaken, string(k))
		}
	}
	return nil
}

func (e *Env) declareTypes(b *Builder) {
	e.types[value.NumberKind] = cel.DoubleType
	e.types[value.BoolKind] = cel.BoolType
	e.types[value.TextKind] = cel.StringType
	for _, d := range dimensions() {
		k := value.DimensionKind(d)
		e.types[k] = types.NewObjectType(string(k))
	}
	for k := range b.vocab {
		e.types[k] = types.NewObjectType(string(k))
	}
	for k := range b.objects {
		e.types[k] = types.NewObjectType(string(k))
	}
	for k, ps := range b.properties {
		e.properties[k] = map[string]rulebook.Property{}
		for _, p := range ps {
			e.properties[k][p.Name] = p
		}
	}
}

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

// HasKind reports whether k is a kind of this language.
func (e *Env) HasKind(k value.Kind) bool { _, err := e.typeOf(k); return err == nil }

// Kinds lists the names of all kinds, sorted.
func (e *Env) Kinds() []string {
	var out []string
	for k := range e.types {
		out = append(out, string(k))
	}
	slices.Sort(out)
	return out
}

// Word finds a word by its name in the rule language.
func (e *Env) Word(name string) (*value.Word, bool) { w, ok := e.words[name]; return w, ok }

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

// Index returns the place of a name in the order of declaration.
func (e *Env) Index(name string) (int, bool) { i, ok := e.names[name]; return i, ok }

// NameCount is how many names are declared.
func (e *Env) NameCount() int { return len(e.list) }

// wantedFor says in words what would do for a kind: the words of a vocabulary,
// or a sample of a dimension.
func (e *Env) wantedFor(k value.Kind) string {
	if words := e.vocab[k]; len(words) > 0 {
		return fmt.Sprintf("a word of %s (%s)", k, Listed(wordNames(words)))
	}
	if k == value.BoolKind {
		return "a bool: a comparison such as cbr < 3, or a name that is true or false"
	}
	if sample, ok := sampleOf(k); ok {
		return fmt.Sprintf("%s, such as %s", e.aKind(k), sample)
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
	return withArticle(spoken(k))
}

func withArticle(noun string) string {
	if noun == "" {
		return "of no kind that a rule can have"
	}
	if strings.ContainsRune("aeiou", rune(noun[0])) {
		return "an " + noun
	}
	return "a " + noun
}

func sortedKinds[V any](m map[value.Kind]V) []value.Kind {
	out := make([]value.Kind, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// Vocabularies lists the vocabularies and kinds of material, sorted.
func (e *Env) Vocabularies() []value.Kind { return sortedKinds(e.vocab) }

// Properties lists the properties of a kind of material, by name.
func (e *Env) Properties(kind value.Kind) []rulebook.Property {
	var out []rulebook.Property
	for _, name := range slices.Sorted(maps.Keys(e.properties[kind])) {
		out = append(out, e.properties[kind][name])
	}
	return out
}
