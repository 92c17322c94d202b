package review

import (
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Names lists what a rule of the rulebook may read: the inputs, settings, terms and
// decisions, each with its kind and where it stands, and the words and properties of
// each kind. Settings are told with their limits. It is always well. The error is
// a [*groundrule.UseError].
func Names(book *groundrule.Book) (*Report, error) {
	if err := opened(book); err != nil {
		return nil, err
	}
	return &Report{named(book.Rules())}, nil
}

// names is what a rule may read.
type names struct {
	Schema  string `json:"schema"`
	Version int    `json:"version"`
	Names   []name `json:"names"`
	Kinds   []kind `json:"kinds"`
}

// name is a value that a rule may read.
type name struct {
	Name string     `json:"name"`
	Kind value.Kind `json:"kind"`
	From string     `json:"from"` // input, question, setting, term, decision or property
	// About says what it is; of a setting, why it has its value.
	About string `json:"about"`
	// MayBeMissing reports whether a rule must ask known(name) before it reads it.
	MayBeMissing bool             `json:"may_be_missing,omitempty"`
	Chapter      string           `json:"chapter,omitempty"`
	Place        diagnostic.Place `json:"place,omitzero"` // none for an input
	Amended      string           `json:"amended_by,omitempty"`
	Value        value.Value      `json:"value,omitzero"` // of a setting
	AtLeast      value.Value      `json:"at_least,omitzero"`
	AtMost       value.Value      `json:"at_most,omitzero"`
}

// kind is a vocabulary or a kind of material, with its words.
type kind struct {
	Kind       value.Kind `json:"kind"`
	Words      []string   `json:"words"`
	Properties []name     `json:"properties,omitempty"`
}

func named(c rulebook.Contents) *names {
	out := &names{Schema: "groundrule/names", Version: 1}
	add := func(n name, by *rulebook.Amended) {
		if by != nil {
			n.Amended = by.By.Name
		}
		out.Names = append(out.Names, n)
	}
	for _, in := range c.Inputs {
		add(name{Name: in.Name, Kind: in.Kind, From: "input", About: in.About, MayBeMissing: !in.Required}, nil)
	}
	for _, s := range c.Settings {
		add(name{Name: s.Name, Kind: s.Value.Kind(), From: "setting", About: s.Because.Text, Chapter: s.Chapter, Place: s.Place, Value: s.Value, AtLeast: s.AtLeast, AtMost: s.AtMost}, s.Amended)
	}
	for _, t := range c.Terms {
		add(name{Name: t.Name, Kind: t.Kind, From: "term", About: t.About, MayBeMissing: t.When.Text != "", Chapter: t.Chapter, Place: t.Place}, t.Amended)
	}
	for _, d := range c.Decisions {
		from := "decision"
		if d.Question != "" {
			from = "question"
		}
		add(name{Name: d.Name, Kind: d.Kind, From: from, About: d.Asks, MayBeMissing: d.When.Text != "", Chapter: d.Chapter, Place: d.Place}, d.Amended)
	}
	for _, v := range c.Vocabularies {
		k := kind{Kind: v.Kind, Words: []string{}}
		for _, p := range v.Properties {
			k.Properties = append(k.Properties, name{Name: p.Name, Kind: p.Kind, From: "property", About: p.About, MayBeMissing: p.Optional})
		}
		for _, w := range v.Words {
			k.Words = append(k.Words, w.Word.Name)
		}
		out.Kinds = append(out.Kinds, k)
	}
	return out
}

// OK reports true: a list is always well.
func (n *names) OK() bool { return true }

// Summary counts the names that the rulebook declares.
func (n *names) Summary() string {
	declared := 0
	for _, each := range n.Names {
		if each.Place.File != "" {
			declared++
		}
	}
	return fmt.Sprintf("names of the rulebook, beside what every job says: %d", declared)
}

// Tell writes the list: each name with its kind, where it stands and what it is.
func (n *names) Tell(p *page.Page, system quantity.System) {
	for _, group := range []struct{ from, heading string }{
		{"input", "INPUTS: what a job says"},
		{"question", "QUESTIONS: what a job may answer under company"},
		{"setting", "SETTINGS: values that a company may set, within their limits"},
		{"term", "TERMS: values worked out from the job"},
		{"decision", "DECISIONS: what rules answer"},
	} {
		if !slices.ContainsFunc(n.Names, func(n name) bool { return n.From == group.from }) {
			continue
		}
		p.Heading(group.heading)
		for i := range n.Names {
			if n.Names[i].From == group.from {
				n.Names[i].tell(p, system)
			}
		}
	}
	p.Heading("WORDS AND PROPERTIES of each kind; a property is read as name.property")
	for _, k := range n.Kinds {
		p.Put(2, "", string(k.Kind))
		if len(k.Words) > 0 {
			p.Put(6, "words: ", strings.Join(k.Words, ", "))
		}
		for _, property := range k.Properties {
			p.Put(6, "."+property.Name+": ", string(property.Kind)+missing(property.MayBeMissing)+". "+property.About)
		}
	}
	p.Blank()
	p.Line(0, "%s", n.Summary())
}

func missing(may bool) string {
	if may {
		return ", may be missing"
	}
	return ""
}

func (n *name) tell(p *page.Page, system quantity.System) {
	line := n.Name + ": " + string(n.Kind) + missing(n.MayBeMissing)
	for _, v := range []struct {
		word string
		of   value.Value
	}{{", ", n.Value}, {"; at least ", n.AtLeast}, {"; at most ", n.AtMost}} {
		if v.of.IsZero() {
			continue
		}
		text := v.of.Text(system)
		if w, isWord := v.of.Word(); isWord {
			text = w.Name // as a file writes it
		}
		line += v.word + text
	}
	p.Put(2, "", line)
	p.Put(6, "", n.About)
	if at := n.Place.String(); n.Place.File != "" {
		if n.Amended != "" {
			at += ", amended by " + n.Amended
		}
		p.Put(6, "", at)
	}
}
