package value

import "cmp"

// Worded is implemented by string types whose values are words of a vocabulary.
type Worded interface{ Vocabulary() Vocabulary }

// Vocabulary is a closed list of words.
type Vocabulary struct {
	// Name is the vocabulary's name in the rule language.
	Name string
	// About says what its words tell apart.
	About string
	// Words in the order that a reader would list them.
	Words []WordEntry
}

// WordEntry is one word of a vocabulary.
type WordEntry struct {
	// Name is the word in the rule language, an identifier such as "CL_ML".
	Name string
	// Label is the word as the trade writes it, such as "CL-ML" or "driveway
	// for cars".
	Label string
	// Go is the Go value of the [Worded] type, where that is not the Label.
	Go string
	// About says what the word means.
	About string
	// Also are other names that are taken for it, and Loosely what people say who
	// mean it and leave open what has to be known.
	Also, Loosely []string
	// Has names its yes-or-no properties that are so.
	Has []string
}

// GoValue is the Go value of the word.
func (w WordEntry) GoValue() string { return cmp.Or(w.Go, w.Label) }
