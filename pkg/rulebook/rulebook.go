// Package rulebook is what a compiled rulebook holds, as plain data to inspect:
// chapters, sources, settings, words, decisions with their rules, courses,
// checks, cautions, refusals, promises and what a crew works by, and the amendments laid
// over them. Conditions, answers and sentences are texts, each with its place.
//
// It is also what rulebook files are opened by ([Layer], [Date]), and how faults
// in them are told ([Error], [RunError]). Changing what it holds changes no
// rulebook: every [Contents] is a copy.
package rulebook

import (
	"io/fs"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/jobnode"
	"example.com/groundrule/pkg/value"
)

// TrialsFolder is the folder beside the rule files that holds trials; it is not
// read as rules.
const TrialsFolder = "trials"

// Layer is a folder of rule files. Its label goes before the names of its files
// wherever a place is shown.
type Layer struct {
	Label string
	FS    fs.FS
}

// Limits bound the files of a rulebook, and what is said of them. A zero field
// takes the default, which is far above what a person writes.
type Limits struct {
	Files  int // of one folder; 500
	Bytes  int // of one file; 1 MiB
	Faults int // that an [Error] lists; 50
}

// Contents is everything that a rulebook holds. Every list is in the order of
// the files but for Sources, Inputs and Vocabularies, which are in the order of
// their names.
type Contents struct {
	// AsOf is the day as of which the rulebook holds; the zero Date if none was
	// told.
	AsOf         Date
	Files        []File
	Amendments   []Amendment // those that hold, in the order in which they were laid over the rulebook
	Variances    []Variance  // those in force by which anything is permitted
	Lifted       []Lifted    // what amendments took away
	Idle         []Idle      // what amendments say and is not in force
	Chapters     []Chapter
	Sources      []Source
	Inputs       []Input
	Vocabularies []Vocabulary
	Materials    []Word
	Functions    []Function
	Settings     []Setting
	Questions    []Question // what people are asked of a job, the weightiest first
	Terms        []Term
	Decisions    []Decision
	Courses      []Course // from the bottom up
	Checks       []Check
	Cautions     []Caution
	Refusals     []Refusal
	Promises     []Promise
	Work         []Work // quantities, steps in the order in which they are done, tolerances, stops, options and remedies
	Lines        []Line

	// Language is that in which the texts are given, "" for the rulebook's own, and
	// Numbers how it writes numbers and units: see [quantity.System.Writing]. Texts is how
	// many texts there are, and Missing those that the language lacks, such as
	// "caution UTILITIES: says": they are in the rulebook's own. Both are told only of a
	// rulebook in a language.
	Language string
	Numbers  map[string]string
	Texts    int
	Missing  []string
}

// Each hands out the named entries of rule files by their sorts, with the chapter
// in which each stands and what an amendment did to it. Rules and limits come behind
// their decision.
func (c Contents) Each(entry func(sort, name, chapter string, by *Amended)) {
	for _, x := range c.Sources {
		entry("source", x.ID, "", x.Amended) // they stand in the list of sources
	}
	for _, v := range c.Vocabularies {
		for _, w := range v.Words {
			if w.Sort != "" {
				entry(w.Sort, w.Word.Name, w.Chapter, w.Amended)
			}
		}
	}
	for _, x := range c.Settings {
		entry("setting", x.Name, x.Chapter, x.Amended)
	}
	for _, x := range c.Questions {
		if !strings.HasPrefix(x.Key, jobnode.Company+".") { // those are decisions
			entry("question", x.Key, x.Chapter, x.Amended)
		}
	}
	for _, x := range c.Terms {
		entry("term", x.Name, x.Chapter, x.Amended)
	}
	for _, x := range c.Decisions {
		entry("decision", x.Name, x.Chapter, x.Amended)
		for _, r := range x.Rules {
			entry("rule", r.ID, r.Chapter, r.Amended)
		}
		for _, l := range x.Bounds {
			entry("limit", l.ID, l.Chapter, l.Amended)
		}
	}
	for _, x := range c.Courses {
		entry("course", x.Name, x.Chapter, x.Amended)
	}
	for _, x := range c.Checks {
		entry("check", x.ID, x.Chapter, x.Amended)
	}
	for _, x := range c.Cautions {
		entry("caution", x.ID, x.Chapter, x.Amended)
	}
	for _, x := range c.Refusals {
		entry("refusal", x.ID, x.Chapter, x.Amended)
	}
	for _, x := range c.Promises {
		entry("promise", x.ID, x.Chapter, x.Amended)
	}
	for _, x := range c.Work {
		entry(x.Sort, x.ID, x.Chapter, x.Amended)
	}
	for _, x := range c.Lines {
		entry("line", x.Name, x.Chapter, x.Amended)
	}
}

// Chapter is one rule file's subject.
type Chapter struct {
	Name  string
	About string
	Place diagnostic.Place
}

// Text is a condition, an expression or a sentence as it is written in a rule
// file. The zero Text is none.
type Text struct {
	Text  string
	Place diagnostic.Place
}

// Question is how people are asked for a value of a job.
type Question struct {
	// Key of the value in a job, such as soil.consistency or company.pool_distance.
	Key  string
	Asks string
	// Test is what finds the answer out, as a noun, such as a cone test; "" if nothing
	// but the answer itself is named.
	Test string
	// How to find the answer out.
	How Text
	// When is the condition under which it is asked; zero if it always may be.
	When Text
	// MayBe are answers worth trying, as a job writes them: those of each case that
	// holds.
	MayBe []struct {
		When   Text
		Values []string
	}
	Because Text
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Input is a value that a site may give.
type Input struct {
	Name  string
	Kind  value.Kind
	About string
	// Required reports whether every site has it; a rule must ask known(name) for
	// any other.
	Required bool
}

// Vocabulary is a closed list of words, or a kind of material with its
// catalog.
type Vocabulary struct {
	Kind       value.Kind
	About      string // "" for a vocabulary of the library
	Words      []Word
	Properties []Property // of a kind, by name
	Amended    *Amended
}

// Property is a property of a kind, such as a kind of material.
type Property struct {
	Name  string
	Kind  value.Kind
	About string
	// Optional reports whether a word may lack it; Usual is what a word has that does
	// not say, zero if each must say.
	Optional bool
	Usual    value.Value
	// AtLeast and AtMost bound what a word may say, zero for no bound.
	AtLeast, AtMost value.Value
	// Because and Source are those of what is usual or, of a word, of its value; zero
	// for those of the word itself.
	Because Text
	Source  value.Source
}

// Source is a source with where it is declared; practice, own and company are the
// library's.
type Source struct {
	value.Source
	Place   diagnostic.Place
	Amended *Amended
}

// Word is a word of a vocabulary, a material of the catalog, or a word of jobs such
// as a load case. A word of the library itself has no because and no source.
type Word struct {
	Word value.Word
	// Sort is that of its entry: "word", "material", "load_case" ...
	Sort string
	// Also are other names for it, and Loosely what people say who mean it and leave
	// open what has to be known.
	Also, Loosely []string
	Because       Text
	Source        value.Source
	Place         diagnostic.Place
	Chapter       string
	Amended       *Amended
	// Own are the properties that have a because and a source of their own.
	Own map[string]Property
}

// Function describes a function of the rule language.
type Function struct {
	Name string
	// Signatures are its forms, such as "min(length, length) length".
	Signatures []string
	// About says in one sentence what it gives.
	About string
	// Example is a call that a reader can try.
	Example string
	// Unit is true of a unit, which makes a quantity of a plain number.
	Unit bool
	// Function describes a calculation; nil for what the language itself has.
	Function *calculation.Function
}

// Setting is a named value that a company may set.
type Setting struct {
	Name string
	// About is what a sentence calls it, "" for the words of its name.
	About string
	Value value.Value
	// AtLeast and AtMost are its limits; zero if there is no such limit.
	AtLeast value.Value
	AtMost  value.Value
	Because Text
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	// Amended is set if an amendment changed it.
	Amended *Amended
}

// Term is a named value worked out from the site, for rules to use.
type Term struct {
	Name  string
	About string
	Kind  value.Kind
	// When is the condition under which it has a value; zero if it always has.
	When    Text
	Value   Text
	Because Text
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Course is one layer or element of the section.
type Course struct {
	Name  string
	Label string
	// Is is a word of course_kind.
	Is value.Word
	// When is the condition under which it is laid; zero if it always is.
	When       Text
	Because    Text
	Source     value.Source
	Attributes []Attribute
	// Drawn says as what a drawing of the section shows it, under "symbol", and which of
	// its attributes give what that symbol shows, such as "up" how far it is turned
	// up; nil for what is only named.
	Drawn   map[string]string
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Attribute is one property of a course, taken from a decision.
type Attribute struct {
	Name     string
	Decision string
	// Shown reports whether a page has it beside the course.
	Shown bool
}

// Failing is what a check that fails does.
type Failing string

// What a failing check does.
const (
	Stops    Failing = "stop"
	Cautions Failing = "caution"
)

// Check is something that the finished section must satisfy: a condition that
// holds, or a value within a limit.
type Check struct {
	ID      string
	Asks    string
	Failing Failing
	// When is the condition under which it applies; zero if it always does.
	When Text
	// Holds is zero for a check that compares Value with Limit, and they are for
	// one that does not.
	Holds Text
	Value Text
	Limit Text
	// AtMost reports whether the limit is one not to go above.
	AtMost bool
	Says   Text
	// Passes is what a page says of a check that holds; zero for one that it counts.
	Passes  Text
	Because Text
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Compares returns the comparison that a check makes, as a text, and "" for a
// check with a condition.
func (c *Check) Compares() string {
	sign := " >= "
	if c.AtMost {
		sign = " <= "
	}
	if c.Value == (Text{}) || c.Limit == (Text{}) {
		return ""
	}
	return c.Value.Text + sign + c.Limit.Text
}

// Caution is something to tell whoever builds the section.
type Caution struct {
	ID string
	// When is the condition under which it is given; zero if it always is.
	When Text
	Says Text
	// Short is what a page says in place of that, in one line; zero for one that is
	// short itself.
	Short Text
	// RealWhen is the condition under which a page puts it before others; zero for none.
	RealWhen Text
	// Owed reports whether every section owes it, so that only a variance takes
	// it away.
	Owed    bool
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Refusal is a limit of what the rulebook covers.
type Refusal struct {
	ID   string
	When Text
	Says Text
	// Who should design it instead.
	Who Text
	// Contradicts reports whether what the job says cannot all be true, so that no
	// such job is worth asking for.
	Contradicts bool
	Source      value.Source
	Place       diagnostic.Place
	Chapter     string
	Amended     *Amended
}

// Promise is what the rulebook owes on every job that gets a section: something
// that always or never holds, or that one value never falls, or never rises, as
// another moves and all else stays as it is.
type Promise struct {
	ID string
	// When is the condition of the jobs that it is about; zero if it is about all.
	When Text
	// Always or Never is the condition, or As and Then say what moves and what then
	// never falls or rises, such as "support_cbr falls" and "stone_need never
	// falls". The others are zero.
	Always  Text
	Never   Text
	As      Text
	Then    Text
	Because Text
	Source  value.Source
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Line is a heading or a fixed sentence of the sheets.
type Line struct {
	Name string
	// Says is its text; what stands in braces is filled by the sheet.
	Says    Text
	Place   diagnostic.Place
	Chapter string
	Amended *Amended
}

// Work is what a crew works by: a quantity that the job takes, a step, a tolerance
// that it keeps, something that it may find and then stops for, a remedy for what is in
// the ground when a section changes, an option, another way to build the job, or what the
// client is told.
type Work struct {
	Sort string // quantity, step, tolerance, stop, option, remedy or client
	ID   string
	// Course that it is about, by its name, or a kind of course; it applies only where
	// one is laid. "" if it is about none.
	Course string
	// When is the condition under which it applies; zero if there is none.
	When Text
	// Says has its sentences by their keys: about of a quantity, says, sizes and hold
	// of a step, says and measure of a tolerance, finds, does and calls of a stop, about,
	// gives, lacks and leaves_out of an option, says of a remedy and of what the client
	// is told.
	Says map[string]Text
	// As says what must differ for a remedy, such as "section_depth rises".
	As string
	// Part of the client's sheet in which it stands, a word of client_part, and the ids of
	// the rules, limits, checks, cautions and refusals that it tells in the client's words.
	Part  string
	Tells []string
	// Kind of a quantity, a word of quantity_kind; "" of other work, as the next are.
	Kind string
	// Amount of the quantity; Item is what it is bought as, and zero for what is only
	// told; Step is the whole unit in which it is ordered, and Weighs the density or the
	// areal mass by which it is weighed.
	Amount, Item, Step, Weighs Text
	// CountedIn names the steps, such as load.
	CountedIn string
	Because   Text
	Source    value.Source
	Place     diagnostic.Place
	Chapter   string
	Amended   *Amended
}
