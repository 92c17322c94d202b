package engine

import (
	"example.com/groundrule/pkg/diagnostic"
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
	at    diagnostic.Place
	known *document.Node
}

type vocabularyEntry struct {
	name, about string
	at          diagnostic.Place
	words       []wordEntry
}

type wordEntry struct {
	name, label, about string
	at                 diagnostic.Place
}

type kindEntry struct {
	name, about string
	at          diagnostic.Place
	properties  []propertyEntry
}

type propertyEntry struct {
	rulebook.Property
	at diagnostic.Place
}

type materialEntry struct {
	name, kind, label, about string
	source                   *document.Node
	properties               []document.Field
	at                       diagnostic.Place
	chapter                  string
}

type settingEntry struct {
	rulebook.Setting
	value, atLeast, atMost *document.Node
	// first is the value before any amendment, which sets the kind; nil if none.
	first           *document.Node
	because, source *document.Node
	variance        *varianceEntry
}

type termEntry struct {
	rulebook.Term
	is, value, source, when *document.Node
}

type decisionEntry struct {
	rulebook.Decision
	when, answers, take *document.Node
	rules               []*ruleEntry
}

type ruleEntry struct {
	rulebook.Rule
	when, answer, because, source, standing *document.Node
}

type courseEntry struct {
	rulebook.Course
	is, when, because, source *document.Node
	attributes                []document.Field
}

type checkEntry struct {
	rulebook.Check
	when, holds            *document.Node
	value, atLeast, atMost *document.Node
	failing                *document.Node
	says, because, source  *document.Node
}

type cautionEntry struct {
	rulebook.Caution
	when, says, source *document.Node
}

type refusalEntry struct {
	rulebook.Refusal
	when, says, who, source *document.Node
}

// text returns what is written in a node; zero for none.
func text(n *document.Node) rulebook.Text {
	if n == nil {
		return rulebook.Text{}
	}
	return rulebook.Text{Text: n.Text(), Place: n.Place()}
}
