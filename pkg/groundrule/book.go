// Package groundrule is the front door: open a rulebook, design a section for a
// site, and ask why.
//
//	book, err := groundrule.Standard()
//	job, err := site.Read("job.yaml", data)
//	design, err := book.Design(job)
//	section, err := design.Section()
//	fmt.Println(section.Depth)
//
// A [Book] is immutable: one serves any number of goroutines. The same site and
// the same rulebook give the same bytes, on every machine.
//
// A section is no substitute for local codes and licensed practice. A job
// outside what the rulebook covers gets no section but a [Refused] error that
// says which limit it crossed and who should design it.
package groundrule

import (
	"fmt"
	"io/fs"
	"reflect"
	"sync"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/internal/structure"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
	"example.com/groundrule/rules"
)

// Book is a compiled rulebook that knows this library's sites and
// calculations. It is immutable and safe for concurrent use.
type Book struct{ rules *engine.Book }

// Option changes how a rulebook is opened.
type Option func(*engine.Setup)

// WithFunctions lets rules call calculations of the caller's own, described as
// this library's are.
func WithFunctions(functions ...calculation.Function) Option {
	return func(s *engine.Setup) { s.Functions = append(s.Functions, functions...) }
}

// WithAmendments lays folders of amendments over the rulebook. What they change,
// and by whose word, is told in every reason that rests on it.
func WithAmendments(layers ...engine.Layer) Option {
	return func(s *engine.Setup) { s.Amendments = append(s.Amendments, layers...) }
}

// AsOf makes designs by the rules of a day. It is needed where amendments,
// settings or variances hold on some days only, and is never taken from the
// clock.
func AsOf(day engine.Date) Option { return func(s *engine.Setup) { s.AsOf = day } }

// Labeled sets what goes before the names of the rulebook's files wherever a
// place is shown, such as the folder they lie in.
func Labeled(label string) Option { return func(s *engine.Setup) { s.Label = label } }

// Open reads and compiles every .yaml file of a folder as one rulebook. What is
// wrong in the files is reported all at once, as a [*engine.Error].
func Open(fsys fs.FS, options ...Option) (*Book, error) {
	setup := Setup()
	for _, option := range options {
		option(&setup)
	}
	b, err := engine.Open(fsys, setup)
	if err != nil {
		return nil, err
	}
	return &Book{rules: b}, nil
}

var standard = sync.OnceValues(func() (*Book, error) {
	b, err := OpenStandard()
	if err != nil {
		return nil, fmt.Errorf("the standard rulebook: %w", err)
	}
	return b, nil
})

// StandardLabel goes before the names of the standard rulebook's files.
const StandardLabel = "rules"

// OpenStandard opens the standard rulebook with options, such as a company's
// amendments.
func OpenStandard(options ...Option) (*Book, error) {
	return Open(rules.Files, append([]Option{Labeled(StandardLabel)}, options...)...)
}

// Standard returns the standard rulebook, compiled once.
func Standard() (*Book, error) { return standard() }

// Rules returns the compiled rulebook itself.
func (b *Book) Rules() *engine.Book { return b.rules }

// Setup is what rulebooks are compiled against: what a site can give, and every
// calculation of this library.
func Setup() engine.Setup {
	s := engine.Setup{
		Functions: Calculations(),
		Objects: []engine.Object{{
			Kind: value.Kind(drainage.Gradation{}.RuleTypeName()),
			Parse: func(text string) (any, error) {
				var g drainage.Gradation
				err := g.UnmarshalText([]byte(text))
				return g, err
			},
		}},
	}
	for _, in := range site.Inputs() {
		s.Inputs = append(s.Inputs, engine.Input{Name: in.Name, Kind: in.Kind.Value(), About: in.About, Required: in.Required})
		if w, ok := reflect.Zero(in.Kind.Go).Interface().(value.Worded); ok {
			s.Vocabularies = append(s.Vocabularies, w.Vocabulary())
		}
	}
	return s
}

// Calculations lists every calculation of this library that rules can call.
func Calculations() []calculation.Function {
	var out []calculation.Function
	for _, list := range [][]calculation.Function{ground.Calculations(), structure.Calculations(),
		drainage.Calculations(), geosynthetic.Calculations()} {
		out = append(out, list...)
	}
	return out
}
