package rulebook

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/value"
)

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
