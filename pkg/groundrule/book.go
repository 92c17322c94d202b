// Package groundrule is the front door: open a rulebook, design a section for a
// site, and ask why.
//
//	book, err := groundrule.Standard()
//	...
//	job := &site.Site{Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
//	job.Soil.Word = "clay" // what is not known is left out
//	design, err := book.Design(job)
//	...
//	s, err := design.Section()
//	...
//	fmt.Println("dig", s.Depth)
//
// The example of the package is this snippet whole.
//
// A [Book] is immutable: one serves any number of goroutines. The same site and
// the same rulebook give the same bytes, on every machine.
//
// A section is no substitute for local codes and licensed practice. A job
// outside what the rulebook covers gets no section but a [Refused] error that
// says which limit it crossed and whom to take it to.
package groundrule

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"sync"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/amounts"
	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/internal/structure"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
	"example.com/groundrule/rules"
)

// Book is a compiled rulebook that knows this library's sites and
// calculations. It is immutable and safe for concurrent use.
type Book struct {
	rules  *engine.Book
	table  *site.Table
	fields []site.Field // of the table
	lines  *lines
}

// Option changes how a rulebook is opened.
type Option interface{ set(*engine.Setup) error }

type option func(*engine.Setup) error

func (o option) set(s *engine.Setup) error { return o(s) }

// WithFunctions lets rules call calculations of the caller's own, described as
// this library's are.
func WithFunctions(functions ...calculation.Function) Option {
	return option(func(s *engine.Setup) error {
		for _, f := range functions {
			if _, err := signature.Of(f); err != nil {
				return err
			}
		}
		s.Functions = append(s.Functions, deep.Copy(functions)...)
		return nil
	})
}

// WithAmendments lays folders of amendments over the rulebook. What they change,
// and by whose word, is told in every reason that rests on it.
func WithAmendments(layers ...rulebook.Layer) Option {
	return option(func(s *engine.Setup) error {
		for _, l := range layers {
			if l.FS == nil {
				return fmt.Errorf("the amendments %q have no files", l.Label)
			}
		}
		s.Amendments = append(s.Amendments, layers...)
		return nil
	})
}

// AsOf makes designs by the rules of a day. It is needed where amendments,
// settings or variances hold on some days only, and is never taken from the
// clock.
func AsOf(day rulebook.Date) Option {
	return option(func(s *engine.Setup) error { s.AsOf = day; return nil })
}

// Language gives the texts of the rulebook in a language, such as fr, as far as files of
// texts in the amendments do; what they lack stays in the rulebook's own. Numbers in
// sentences and on sheets are written as the language writes them. It changes no answer.
func Language(tag string) Option {
	return option(func(s *engine.Setup) error { s.Language = tag; return nil })
}

// WithLabel sets what goes before the names of the rulebook's files wherever a
// place is shown, such as the folder they lie in.
func WithLabel(label string) Option {
	return option(func(s *engine.Setup) error { s.Label = label; return nil })
}

// WithLimits bounds what is read of the rulebook's files, and what is said of
// them, more tightly than is usual.
func WithLimits(l rulebook.Limits) Option {
	return option(func(s *engine.Setup) error { s.Limits = l; return nil })
}

// UseError is a call of this library that cannot be right; whoever embeds it
// must act.
type UseError struct{ Err error }

func (e *UseError) Error() string { return "groundrule: " + e.Err.Error() }

// Unwrap returns the cause.
func (e *UseError) Unwrap() error { return e.Err }

var errNotOpened = &UseError{errors.New("the book was not opened: open one with Open, OpenStandard or Standard")}

// Open reads and compiles every .yaml file of a folder as one rulebook. What is
// wrong in the files is reported all at once, as a [*rulebook.Error]; what is wrong in the
// call is a [*UseError].
func Open(fsys fs.FS, options ...Option) (*Book, error) {
	if fsys == nil {
		return nil, &UseError{errors.New("there are no files to open a rulebook from")}
	}
	s := setup()
	for _, o := range options {
		if o == nil {
			return nil, &UseError{errors.New("an option is nil")}
		}
		if err := o.set(&s); err != nil {
			return nil, &UseError{err}
		}
	}
	b, err := engine.Open(fsys, s)
	var misuse *engine.SetupError
	if errors.As(err, &misuse) {
		return nil, &UseError{misuse.Err}
	}
	if err != nil {
		return nil, err
	}
	table := inside.Table(b)
	return &Book{rules: b, table: table, fields: table.Fields(), lines: &lines{}}, nil
}

var standard = sync.OnceValues(func() (*Book, error) {
	b, err := OpenStandard()
	if err != nil {
		return nil, fmt.Errorf("the standard rulebook: %w", err)
	}
	return b, nil
})

// OpenStandard opens the standard rulebook with options, such as a company's
// amendments.
func OpenStandard(options ...Option) (*Book, error) {
	return Open(rules.Files(), append([]Option{WithLabel(rules.Label)}, options...)...)
}

// Standard returns the standard rulebook, compiled once.
func Standard() (*Book, error) { return standard() }

// Rules returns everything that the rulebook holds, as data of the caller's own.
func (b *Book) Rules() rulebook.Contents {
	if b == nil || b.rules == nil {
		return rulebook.Contents{}
	}
	return b.rules.Contents()
}

// Lines returns the words of the sheets by their names: those of the rulebook, and of
// the standard where it has none.
func (b *Book) Lines() map[string]string {
	out := map[string]string{}
	usual, _ := Standard() // without lines if it cannot be opened
	for _, l := range slices.Concat(usual.Rules().Lines, b.Rules().Lines) {
		out[l.Name] = l.Says.Text
	}
	return out
}

// Drawn returns as what a drawing shows each course, and which attributes it shows, by
// the names of the courses; and the properties of each material by its name.
func (b *Book) Drawn() map[string]map[string]value.Value {
	out := map[string]map[string]value.Value{}
	rules := b.Rules()
	for _, m := range rules.Materials {
		out[m.Word.Name] = m.Word.Properties()
	}
	for _, c := range rules.Courses {
		out[c.Name] = map[string]value.Value{}
		for key, text := range c.Drawn {
			out[c.Name][key] = value.Text(text)
		}
	}
	return out
}

// Table returns the table of what a job may say, closed by the words of this
// rulebook. Without a book it is nil.
func (b *Book) Table() *site.Table {
	if b == nil {
		return nil
	}
	return b.table
}

func init() {
	inside.Partial = option(func(s *engine.Setup) error { s.Whole = false; return nil })
	inside.Rules = func(book any) *engine.Book { return book.(*Book).rules }
}

// setup is what rulebooks are compiled against: what a site can give, and every
// calculation of this library.
func setup() engine.Setup {
	s := engine.Setup{
		Whole:     true,
		Thickness: inside.Thickness,
		Added:     inside.Added,
		Depth:     inside.Depth,
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
		s.Inputs = append(s.Inputs, rulebook.Input{Name: in.Path, Kind: in.Kind(), About: in.About, Required: in.Required})
		if len(in.Vocabulary.Words) > 0 {
			s.Vocabularies = append(s.Vocabularies, in.Vocabulary)
		}
	}
	return s
}

// Calculations lists every calculation of this library that rules can call.
func Calculations() []calculation.Function {
	return deep.Copy(slices.Concat(ground.Calculations(), structure.Calculations(), drainage.Calculations(),
		geosynthetic.Calculations(), amounts.Calculations(), plan.Calculations()))
}
