// Package engine reads rule files, checks them and compiles them into a
// [Book], which answers every question about a section for one site.
//
// It is the only package that knows the rule language; of the site it knows
// only the names and kinds that it is told, and of the calculations only their
// descriptions.
package engine

import (
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Book is a compiled rulebook. It is immutable and safe for use from many
// goroutines at once.
type Book struct {
	env              *language.Env
	literals         *literals
	thickness, depth string
	inputs           map[string]rulebook.Input
	chapters         []rulebook.Chapter
	files            []rulebook.File
	sources          map[string]value.Source
	declared         map[string]rulebook.Source         // of the files, by id
	kinds            map[value.Kind]rulebook.Vocabulary // what the files say of vocabularies and kinds
	materials        []rulebook.Word                    // and words of jobs that have properties
	words            map[string]rulebook.Word           // of the files, materials among them, by name
	settings         []*Setting
	questions        []Question
	askings          []*Asking
	terms            []*Term
	decisions        []*Decision // in the order of the files
	order            []*Decision // in the order of use
	courses          []*Course
	checks           []*Check
	cautions         []*Caution
	refusals         []*Refusal
	promises         []*Promise
	work             []*Work
	lines            []rulebook.Line
	texts            Texts
	measuring        []string       // what the amounts of quantities read, through terms
	byName           map[string]any // *Setting, *Term, *Decision or rulebook.Input
	clauses          []*language.Clause
	sequence         []string         // terms and decisions, each behind those that it reads
	readers          map[string][]int // of each name: the terms and decisions that read it, by their place in the sequence
	askedBy          map[string][]int // of each name: the clauses that read it, by their index

	amendments []rulebook.Amendment
	variances  []rulebook.Variance
	idle       []rulebook.Idle
	lifted     []*lifted         // all that amendments took away
	gone       []rulebook.Lifted // what of that is not worked out
	asOf       rulebook.Date
}

// Of the entries of a book, whatever is exported is for reading alone. A condition that is
// nil always holds, and a sentence that is nil is not there.

// Setting is a named value that a company may set.
type Setting struct {
	rulebook.Setting
	Why *Template
}

// Term is a named value worked out from the site, for rules to use.
type Term struct {
	rulebook.Term
	When          *Condition
	TermCondition *Condition // for a yes or no, else nil
	expr          *Expression
	Why           *Template
}

// Decision is one question about the section.
type Decision struct {
	rulebook.Decision
	Rules  []*Rule
	index  int
	at     int // in the sequence
	When   *Condition
	limits []*Limit
	lifted []*lifted // rules that amendments took away
}

// Rule is one rule of a decision.
type Rule struct {
	rulebook.Rule
	When               *Condition
	answer             *Expression
	Because, ToConfirm *Template // why, and what to do to confirm a presumed answer
}

// Course is one layer or element of the section.
type Course struct {
	rulebook.Course
	When    *Condition
	Because *Template
}

// Check is something that the finished section must satisfy.
type Check struct {
	rulebook.Check
	When, Holds           *Condition // Holds is nil for a check that compares
	value, limit          *Expression
	Says, Passes, Because *Template // what to do where it fails, what it found where it passes, and why
}

// Caution is something to tell whoever builds the section.
type Caution struct {
	rulebook.Caution
	When     *Condition
	RealWhen *Condition // under which a job makes it real; nil for one that no job does more than another
	Says     *Template
	Short    *Template // that in one line, nil where it is short itself
}

// Refusal is a limit of what the rulebook covers.
type Refusal struct {
	rulebook.Refusal
	When      *Condition
	Says, Who *Template // which limit was crossed, and who can settle it
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

// Cautions returns every caution in the order of the files.
func (b *Book) Cautions() []*Caution { return slices.Clone(b.cautions) }

// Refusals returns every refusal in the order of the files.
func (b *Book) Refusals() []*Refusal { return slices.Clone(b.refusals) }

// Materials returns the catalog and the words of jobs that have properties, in the
// order of the files.
func (b *Book) Materials() []rulebook.Word { return slices.Clone(b.materials) }

// Chapters returns the chapters in the order of the files.
func (b *Book) Chapters() []rulebook.Chapter { return slices.Clone(b.chapters) }

// Amendments returns the amendments that hold, in the order in which they were
// laid over the rulebook.
func (b *Book) Amendments() []rulebook.Amendment { return slices.Clone(b.amendments) }

// Lifted lists what amendments took away, in the order of the rulebook.
func (b *Book) Lifted() []rulebook.Lifted { return liftedTold(b.lifted) }

// Gone lists all that amendments took away, what nothing would speak of on a job
// included.
func (b *Book) Gone() []rulebook.Lifted { return append(liftedTold(b.lifted), b.gone...) }

// Idle lists what amendments say and is not in force on the day of the book.
func (b *Book) Idle() []rulebook.Idle { return slices.Clone(b.idle) }

// Word returns what the files say of a word or a material; zero for a word of the
// library.
func (b *Book) Word(name string) rulebook.Word { return b.words[name] }

// Limits returns the limits of the decision's answers.
func (d *Decision) Limits() []*Limit { return slices.Clone(d.limits) }

// Variances returns the variances by which settings cross their limits.
func (b *Book) Variances() []rulebook.Variance { return slices.Clone(b.variances) }

// AsOf returns the day as of which the book holds, "" if none was told.
func (b *Book) AsOf() rulebook.Date { return b.asOf }

// Setting finds a setting by its name.
func (b *Book) Setting(name string) (*Setting, bool) {
	s, ok := b.byName[name].(*Setting)
	return s, ok
}

// Term finds a term by its name.
func (b *Book) Term(name string) (*Term, bool) {
	t, ok := b.byName[name].(*Term)
	return t, ok
}

// Decision finds a decision by its name.
func (b *Book) Decision(name string) (*Decision, bool) {
	d, ok := b.byName[name].(*Decision)
	return d, ok
}

// OriginOf tells where a name's value comes from.
func (b *Book) OriginOf(name string) (rulebook.Origin, bool) {
	switch b.byName[name].(type) {
	case rulebook.Input:
		return rulebook.FromSite, true
	case *Setting:
		return rulebook.FromSetting, true
	case *Term:
		return rulebook.FromTerm, true
	case *Decision:
		return rulebook.FromDecision, true
	}
	return "", false
}

// Texts returns what is known of the texts of the book in its language.
func (b *Book) Texts() Texts { return b.texts }

// In returns a system of units as the language of the book writes it.
func (b *Book) In(system quantity.System) quantity.System {
	if len(b.texts.Numbers) == 0 {
		return system.Base()
	}
	return b.texts.in[system.Base()]
}

// Files returns the files the book was read from, with their hashes.
func (b *Book) Files() []rulebook.File { return slices.Clone(b.files) }

// Sources returns the sources by their ids.
func (b *Book) Sources() map[string]value.Source { return maps.Clone(b.sources) }

// Inputs returns what a site may give, by name.
func (b *Book) Inputs() []rulebook.Input {
	return slices.SortedFunc(maps.Values(b.inputs), func(a, c rulebook.Input) int { return strings.Compare(a.Name, c.Name) })
}

// Functions describes every function that rules can call.
func (b *Book) Functions() []rulebook.Function { return b.env.Functions() }

// Words returns the words of a vocabulary in their order.
func (b *Book) Words(vocabulary value.Kind) []*value.Word { return b.env.Words(vocabulary) }

// Properties lists the properties of a kind of material, by name; none for a
// kind of anything else.
func (b *Book) Properties(kind value.Kind) []rulebook.Property { return b.env.Properties(kind) }

// Vocabularies lists the vocabularies and kinds of material that have words,
// sorted.
func (b *Book) Vocabularies() []value.Kind { return b.env.Vocabularies() }

// WordsOfJobs returns the vocabularies whose words jobs are written in, as the
// files have them.
func (b *Book) WordsOfJobs() []value.Vocabulary {
	var out []value.Vocabulary
	for _, kind := range b.Vocabularies() {
		v := value.Vocabulary{Name: string(kind), About: b.kinds[kind].About}
		for _, w := range b.env.Words(kind) {
			told := b.words[w.Name]
			var has []string
			for _, p := range b.Properties(kind) {
				if is, _ := w.Property(p.Name).Bool(); is {
					has = append(has, p.Name)
				}
			}
			v.Words = append(v.Words, value.WordEntry{Has: has, Name: w.Name, Label: w.Label, Go: w.Go, About: w.About, Also: append(slices.Clone(told.Also), b.literals.labels[w]...), Loosely: told.Loosely})
		}
		out = append(out, v)
	}
	return out
}
