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
