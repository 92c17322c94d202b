package value

import (
	"cmp"
	"slices"
)

// Known says how well the source of a value is known. It stays with the value
// wherever it goes: into a rule, a reason, a doc comment or a test. A value that
// was recalled and not read is never shown as if it had been read.
type Known string

// The ways in which a value can be known, from the surest to the least sure.
const (
	// Seen: read in the issuing document.
	Seen Known = "seen"
	// Relayed: read in something that quotes the document.
	Relayed Known = "relayed"
	// Memory: recalled, not read; to be checked before use.
	Memory Known = "memory"
	// Computed: calculated here from other values; never a publication.
	Computed Known = "computed"
	// Practice: common practice of the trade, with no published source.
	Practice Known = "practice"
	// Own: the choice of the rulebook itself, with no published source.
	Own Known = "own"
	// Company: a company's own standard.
	Company Known = "company"
)

// AllKnown lists every tag, in the order of the constants.
func AllKnown() []Known {
	return []Known{Seen, Relayed, Memory, Computed, Practice, Own, Company}
}

// Published reports whether the source is a document, or what was worked out from
// one, and not a practice or a choice.
func (s Source) Published() bool {
	return s.Known != Practice && s.Known != Own && s.Known != Company
}

// Valid reports whether k is one of the tags.
func (k Known) Valid() bool {
	return slices.Contains(AllKnown(), k)
}

// Source is a publication, a practice or a company's standard, with how well it
// is known. The zero Source is none.
type Source struct {
	// ID is the short name by which rules refer to the source.
	ID string `json:"id,omitempty"`
	// Document names the publication, with its edition or year.
	Document string `json:"document,omitempty"`
	// Clause is the section, table, equation or page.
	Clause string `json:"clause,omitempty"`
	// Known says how well the value is known.
	Known Known `json:"known"`
	// Via names what quotes the document, for a Relayed source.
	Via string `json:"via,omitempty"`
	// Note is whatever a reader must know before relying on it.
	Note string `json:"note,omitempty"`
}

// IsZero reports whether s is no source at all.
func (s Source) IsZero() bool { return s == Source{} }

// String returns the source as a sheet shows it, with how it is known in words;
// of one that was seen only the document.
func (s Source) String() string {
	out := joined(s.Document, ", ", s.Clause)
	switch s.Known {
	case Relayed:
		return joined(out, ", ", "as quoted in "+cmp.Or(s.Via, "a secondary source"))
	case Memory:
		return joined(out, "; ", "from memory, not verified against the document")
	case Computed:
		return joined(out, "; ", "computed here")
	case Practice:
		return joined(out, "; ", "common practice, no published source")
	case Own:
		return joined(out, "; ", "this rulebook's own choice")
	case Company:
		if s.ID == string(Company) { // the document is then the company
			return joined("company standard", " of ", out)
		}
		return joined(out, "; ", "company standard")
	}
	return out
}

// joined joins two texts, of which either may be empty.
func joined(a, between, b string) string {
	if a == "" || b == "" {
		between = ""
	}
	return a + between + b
}
