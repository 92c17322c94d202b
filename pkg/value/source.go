// Package source says where a number or a rule comes from, and how well that
// is known.
//
// Every source carries a tag, [Known], that stays with the value wherever it
// goes: into a rule, a reason, a doc comment or a test. A value that was
// recalled and not read is never shown as if it had been read.
package value

import (
	"fmt"
	"strings"
)

// Known tells how a value is known.
type Known string

// The ways a value can be known, from the surest to the least sure.
const (
	// Seen: read in the issuing document.
	Seen Known = "seen"
	// Relayed: read in something that relays the document.
	Relayed Known = "relayed"
	// Memory: recalled, not read; to be checked before use.
	Memory Known = "memory"
	// Computed: worked out here from other values; never a publication.
	Computed Known = "computed"
	// Practice: common practice of the trade, with no published source.
	Practice Known = "practice"
	// Company: a company's own standard.
	Company Known = "company"
)

// AllKnown lists every tag, in the order of the constants.
func AllKnown() []Known {
	return []Known{Seen, Relayed, Memory, Computed, Practice, Company}
}

// Valid reports whether k is one of the tags.
func (k Known) Valid() bool {
	for _, each := range AllKnown() {
		if k == each {
			return true
		}
	}
	return false
}

// Source is a publication, a practice or a company's standard, with how it is
// known. The zero Source is no source; [Source.IsZero] tells.
type Source struct {
	// ID is the short name by which rules refer to the source.
	ID string `json:"id,omitempty"`
	// Document names the publication, with its edition or year.
	Document string `json:"document,omitempty"`
	// Clause is the section, table, equation or page.
	Clause string `json:"clause,omitempty"`
	// Known tells how the value is known.
	Known Known `json:"known"`
	// Via names what relays the document, for a Relayed source.
	Via string `json:"via,omitempty"`
	// Note is anything a reader must know before relying on it.
	Note string `json:"note,omitempty"`
}

// IsZero reports whether s is no source at all.
func (s Source) IsZero() bool { return s == Source{} }

// String returns the source as a sheet shows it, the tag in words.
func (s Source) String() string {
	var b strings.Builder
	b.WriteString(s.Document)
	if s.Clause != "" {
		if s.Document != "" {
			b.WriteString(", ")
		}
		b.WriteString(s.Clause)
	}
	switch s.Known {
	case Seen:
	case Relayed:
		if s.Via != "" {
			fmt.Fprintf(&b, ", as relayed by %s", s.Via)
		} else {
			b.WriteString(", as relayed by a secondary source")
		}
	case Memory:
		b.WriteString("; value from memory, check before use")
	case Computed:
		join(&b, "computed here")
	case Practice:
		join(&b, "common practice, no published source")
	case Company:
		join(&b, "company standard")
	}
	return b.String()
}

func join(b *strings.Builder, words string) {
	if b.Len() > 0 {
		b.WriteString("; ")
	}
	b.WriteString(words)
}
