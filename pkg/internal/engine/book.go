// Package rulebook reads rule files, checks them and compiles them into a
// [Book], which answers every question about a section for one site.
//
// It is the only package that knows the rule language; of the site it knows
// only the names and kinds that it is told, and of the calculations only their
// descriptions.
package engine

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/value"
)

// Book is a compiled rulebook. It is immutable and safe for use from many
// goroutines at once.
type Book struct {
	env       *language.Env
	inputs    map[string]Input
	chapters  []Chapter
	files     []File
	sources   map[string]value.Source
	materials []*Material
	settings  []*Setting
	terms     []*Term
	decisions []*Decision // in the order of the files
	order     []*Decision // in the order of use
	courses   []*Course
	checks    []*Check
	cautions  []*Caution
	refusals  []*Refusal
	byName    map[string]any // *Setting, *Term, *Decision or Input
	clauses   []*language.Clause

	amendments []*Amendment
	variances  []*Variance
	asOf       Date
}

// File is a rule file with the hash of its bytes, so that a design can say
// which files it was made from.
type File struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

// Chapter is one rule file's subject.
type Chapter struct {
	Name, About string
	Place       diagnostic.Place
}

// Input is a value that a site may give.
type Input struct {
	Name  string
	Kind  value.Kind
	About string
	// Required tells that every site has it; a rule must ask known(name) for
	// any other.
	Required bool
}

// Setting is a named value that a company may set.
type Setting struct {
	Name            string
	Value           value.Value
	AtLeast, AtMost value.Value // zero if there is no such limit
	Because         *Template
	Source          value.Source
	Place           diagnostic.Place
	Chapter         string
	// Amended is set if an amendment set the value.
	Amended *Amended
}

// Material is an entry of the catalog.
type Material struct {
	Word    *value.Word
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
}

// Term is a named value worked out from the site, for rules to use.
type Term struct {
	Name, About string
	Kind        value.Kind
	Source      value.Source
	Place       diagnostic.Place
	Chapter     string

	index     int
	when      *Condition
	condition *Condition // for a yes or no
	expr      *Expression
}

// Take is how an answer is chosen among the rules that hold.
type Take string

// The ways of taking.
const (
	First    Take = "first"    // the first rule that holds
	Only     Take = "only"     // the one answer; two different ones are an error
	Largest  Take = "largest"  // the largest of all that hold
	Smallest Take = "smallest" // the smallest of all that hold
	All      Take = "all"      // a list of all that hold, in order
)

// Decision is one question about the section.
type Decision struct {
	Name, Asks string
	Kind       value.Kind // of the answer; a list for All
	Take       Take
	Rules      []*Rule
	Place      diagnostic.Place
	Chapter    string

	index int
	when  *Condition
}

// When returns the condition under which the question is asked, nil if always.
func (d *Decision) When() *Condition { return d.when }

// Standing is how well the value that a rule answers is known.
type Standing string

// The standings, from the surest. Rules that answer a design choice have none.
const (
	NoStanding Standing = ""
	Measured   Standing = "measured"
	Correlated Standing = "correlated"
	Presumed   Standing = "presumed"
)

// Rule is one rule of a decision.
type Rule struct {
	ID       string
	Because  *Template
	Source   value.Source
	Standing Standing
	// Confirm says what to do to confirm a presumed value before building.
	Confirm string
	Place   diagnostic.Place
	Chapter string
	// Amended is set if the rule came by an amendment.
	Amended *Amended

	when   *Condition
	answer *Expression
}

// When returns the rule's condition, nil if it always holds.
func (r *Rule) When() *Condition { return r.when }

// Answer returns the text of the rule's answer.
func (r *Rule) Answer() string { return r.answer.Text() }

// Course is one layer or element of the section.
type Course struct {
	Name, Label string
	Is          *value.Word // a word of course_kind
	Because     *Template
	Source      value.Source
	Attributes  []Attribute
	Place       diagnostic.Place
	Chapter     string

	when *Condition
}

// When returns the condition under which the course is laid, nil if always.
func (c *Course) When() *Condition { return c.when }

// Attribute is one property of a course, taken from a decision.
type Attribute struct {
	Name     string
	Decision *Decision
}

// Failing is what a check that fails does.
type Failing string

// What a failing check does.
const (
	Stops    Failing = "stop"
	Cautions Failing = "caution"
)

// Check is something that the finished section must satisfy.
type Check struct {
	ID, Asks string
	Failing  Failing
	Says     *Template
	Because  *Template
	Source   value.Source
	Place    diagnostic.Place
	Chapter  string

	when, holds *Condition
	value       *Expression
	limit       *Expression
	atMost      bool
}

// Caution is something to tell whoever builds the section.
type Caution struct {
	ID      string
	Says    *Template
	Source  value.Source
	Place   diagnostic.Place
	Chapter string

	when *Condition
}

// Refusal is a limit of what the rulebook covers.
type Refusal struct {
	ID      string
	Says    *Template
	Who     *Template // who should design it instead
	Source  value.Source
	Place   diagnostic.Place
	Chapter string

	when *Condition
}

// Decisions returns every decision in the order of the files.
func (b *Book) Decisions() []*Decision { return slices.Clone(b.decisions) }

// Courses returns every course from the bottom up.
func (b *Book) Courses() []*Course { return slices.Clone(b.courses) }

// Settings returns every setting in the order of the files.
func (b *Book) Settings() []*Setting { return slices.Clone(b.settings) }

// Terms returns every term in the order of the files.
func (b *Book) Terms() []*Term { return slices.Clone(b.terms) }

// Checks returns every check in the order of the files.
func (b *Book) Checks() []*Check { return slices.Clone(b.checks) }

// Materials returns the catalog in the order of the files.
func (b *Book) Materials() []*Material { return slices.Clone(b.materials) }

// Chapters returns the chapters in the order of the files.
func (b *Book) Chapters() []Chapter { return slices.Clone(b.chapters) }

// Amendments returns the amendments that hold, in the order in which they were
// laid over the rulebook.
func (b *Book) Amendments() []*Amendment { return slices.Clone(b.amendments) }

// Variances returns the variances by which settings cross their limits.
func (b *Book) Variances() []*Variance { return slices.Clone(b.variances) }

// AsOf returns the day as of which the book holds, "" if none was told.
func (b *Book) AsOf() Date { return b.asOf }

// Setting finds a setting by its name.
func (b *Book) Setting(name string) (*Setting, bool) {
	s, ok := b.byName[name].(*Setting)
	return s, ok
}

// Files returns the files the book was read from, with their hashes.
func (b *Book) Files() []File { return slices.Clone(b.files) }

// Sources returns the sources by their ids.
func (b *Book) Sources() map[string]value.Source {
	out := make(map[string]value.Source, len(b.sources))
	for id, s := range b.sources {
		out[id] = s
	}
	return out
}

// Inputs returns what a site may give, by name.
func (b *Book) Inputs() []Input {
	out := make([]Input, 0, len(b.inputs))
	for _, in := range b.inputs {
		out = append(out, in)
	}
	slices.SortFunc(out, func(a, c Input) int { return strings.Compare(a.Name, c.Name) })
	return out
}

// Described describes a function of the rule language for a reader.
type Described = language.Described

// Functions describes every function that rules can call.
func (b *Book) Functions() []Described { return b.env.Functions() }

// Words returns the words of a vocabulary in their order.
func (b *Book) Words(vocabulary value.Kind) []*value.Word { return b.env.Words(vocabulary) }

// AtMost reports whether the check's limit is one not to go above.
func (c *Check) AtMost() bool { return c.atMost }

// Holds returns the check's condition; nil for a check that compares.
func (c *Check) Holds() *Condition { return c.holds }

// When returns the condition under which the check applies, nil if always.
func (c *Check) When() *Condition { return c.when }

// When returns the condition under which the caution is given, nil if always.
func (c *Caution) When() *Condition { return c.when }

// When returns the condition under which the job is refused.
func (r *Refusal) When() *Condition { return r.when }
