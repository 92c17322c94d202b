package engine

import (
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// The structures here are a rulebook as written: every entry with the node it
// stands in, nothing compiled. Amending works on them; compiling reads them.

// written is everything that the files of a rulebook say.
type written struct {
	chapters     []rulebook.Chapter
	sources      []*sourceEntry
	vocabularies []*vocabularyEntry
	kinds        []*kindEntry
	materials    []*materialEntry
	settings     []*settingEntry
	terms        []*termEntry
	decisions    []*decisionEntry
	courses      []*courseEntry
	checks       []*checkEntry
	cautions     []*cautionEntry
	refusals     []*refusalEntry
}

type sourceEntry struct {
	value.Source
	key, known *document.Node
}

type vocabularyEntry struct {
	key   *document.Node
	words []wordEntry
}

type wordEntry struct {
	key                *document.Node // nil for a word of the library
	name, label, about string
	also               []*document.Node // other names for it
}

type kindEntry struct {
	key        *document.Node
	properties []propertyEntry
}

type propertyEntry struct {
	rulebook.Property
	is *document.Node
}

type materialEntry struct {
	key, kind, source *document.Node
	label, about      string
	properties        []document.Field
	chapter           string
}

type settingEntry struct {
	rulebook.Setting
	key                    *document.Node
	value, atLeast, atMost *document.Node
	// first is the value before any amendment, which sets the kind; nil if none.
	first           *document.Node
	because, source *document.Node
	variance        *varianceEntry
}

type termEntry struct {
	rulebook.Term
	key                     *document.Node
	is, value, source, when *document.Node
}

type decisionEntry struct {
	rulebook.Decision
	key                 *document.Node
	when, answers, take *document.Node
	rules               []*ruleEntry
	list                *document.Node // of the rules, as written
}

type ruleEntry struct {
	rulebook.Rule
	id                                      *document.Node
	when, answer, because, source, standing *document.Node
}

type courseEntry struct {
	rulebook.Course
	node                      *document.Node
	is, when, because, source *document.Node
	attributes                []document.Field
}

type checkEntry struct {
	rulebook.Check
	id                     *document.Node
	when, holds            *document.Node
	value, atLeast, atMost *document.Node
	failing                *document.Node
	says, because, source  *document.Node
}

type cautionEntry struct {
	rulebook.Caution
	id                 *document.Node
	when, says, source *document.Node
}

type refusalEntry struct {
	rulebook.Refusal
	id                      *document.Node
	when, says, who, source *document.Node
}

// text returns what is written in a node; zero for none.
func text(n *document.Node) rulebook.Text {
	if n == nil {
		return rulebook.Text{}
	}
	return rulebook.Text{Text: n.Text(), Place: n.Place()}
}
