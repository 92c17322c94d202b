package impact

import "example.com/groundrule/pkg/diagnostic"

// Entry is a sort of entry of a rulebook.
type Entry string

// OrderEntry is the order of the courses, or of the steps.
const OrderEntry Entry = "order"

// Done is what was done to an entry.
type Done string

// What can be done to an entry.
const (
	Added   Done = "added"
	Removed Done = "removed"
	Changed Done = "changed"
)

// Edit is one difference between two rulebooks.
type Edit struct {
	// ID names the edit, as "setting grid_cover"; no two have the same.
	ID    string `json:"id"`
	Entry Entry  `json:"entry"`
	Name  string `json:"name"`
	// In names the decision that a rule belongs to.
	In   string `json:"in,omitempty"`
	Done Done   `json:"done"`
	// Fields are what changed of an entry that is in both.
	Fields []Field `json:"fields,omitempty"`
	// WordsOnly reports that only texts, sources or limits changed, which no
	// answer depends on.
	WordsOnly bool `json:"words_only,omitempty"`
	// Before and After are the places of the entry; null where it is missing.
	Before *diagnostic.Place `json:"before"`
	After  *diagnostic.Place `json:"after"`
}

// Field is what changed of an entry.
type Field struct {
	Name   string `json:"name"`
	Before string `json:"before"`
	After  string `json:"after"`
	// Bears reports that answers can depend on it.
	Bears bool `json:"bears"`
}
