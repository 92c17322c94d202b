package engine

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

// The structures here are a rulebook as written: every entry with the node it
// stands in, nothing compiled. Amending works on them; compiling reads them.

// written is everything that the files of a rulebook say.
type written struct {
	chapters     []*chapterEntry
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

type chapterEntry struct {
	name, about string
	at          diagnostic.Place
}

type sourceEntry struct {
	id                                 string
	document, clause, known, via, note string
	at                                 diagnostic.Place
	node                               *document.Node
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
	name, is, about string
	optional        bool
	at              diagnostic.Place
}

type materialEntry struct {
	name, kind, label, about string
	source                   *document.Node
	properties               []document.Field
	at                       diagnostic.Place
	chapter                  string
}

type settingEntry struct {
	name                   string
	value, atLeast, atMost *document.Node
	// first is the value before any amendment, which sets the kind; nil if none.
	first    *document.Node
	because  *document.Node
	source   *document.Node
	at       diagnostic.Place
	chapter  string
	amended  *Amended
	variance *varianceEntry
}

type termEntry struct {
	name, is, about string
	isNode          *document.Node
	value           *document.Node
	source          *document.Node
	when            *document.Node
	at              diagnostic.Place
	chapter         string
}

type decisionEntry struct {
	name, asks, answers, take string
	when                      *document.Node
	rules                     []*ruleEntry
	at                        diagnostic.Place
	answersNode, takeNode     *document.Node
	chapter                   string
}

type ruleEntry struct {
	id                            string
	when, answer, because, source *document.Node
	standing, confirm             string
	standingNode                  *document.Node
	amended                       *Amended
	at                            diagnostic.Place
	chapter                       string
}

type courseEntry struct {
	name, label     string
	is              *document.Node
	when            *document.Node
	because, source *document.Node
	attributes      []document.Field
	at              diagnostic.Place
	chapter         string
}

type checkEntry struct {
	id, asks               string
	when, holds            *document.Node
	value, atLeast, atMost *document.Node
	failing                *document.Node
	says, because, source  *document.Node
	at                     diagnostic.Place
	chapter                string
}

type cautionEntry struct {
	id           string
	when         *document.Node
	says, source *document.Node
	at           diagnostic.Place
	chapter      string
}

type refusalEntry struct {
	id                string
	when              *document.Node
	says, who, source *document.Node
	at                diagnostic.Place
	chapter           string
}
