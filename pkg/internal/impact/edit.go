package impact

import (
	"example.com/groundrule/pkg/diagnostic"
)

// Entry is a sort of entry of a rulebook.
type Entry string

// The sorts of entries, in the order in which edits are listed.
const (
	SourceEntry    Entry = "source"
	MaterialEntry  Entry = "material"
	LoadCaseEntry  Entry = "load_case"
	BaseTypeEntry  Entry = "base_type"
	SoilNameEntry  Entry = "soil_name"
	CompactorEntry Entry = "compactor"
	SettingEntry   Entry = "setting"
	QuestionEntry  Entry = "question"
	TermEntry      Entry = "term"
	DecisionEntry  Entry = "decision"
	RuleEntry      Entry = "rule"
	LimitEntry     Entry = "limit"
	CourseEntry    Entry = "course"
	CheckEntry     Entry = "check"
	CautionEntry   Entry = "caution"
	RefusalEntry   Entry = "refusal"
	PromiseEntry   Entry = "promise"
	QuantityEntry  Entry = "quantity"
	StepEntry      Entry = "step"
	ToleranceEntry Entry = "tolerance"
	StopEntry      Entry = "stop"
	OptionEntry    Entry = "option"
	RemedyEntry    Entry = "remedy"
	ClientEntry    Entry = "client"
	LineEntry      Entry = "line"
	OrderEntry     Entry = "order" // of the courses, or of the steps
)

// ofWords are the sorts of what is a word with properties.
var ofWords = []Entry{MaterialEntry, LoadCaseEntry, BaseTypeEntry, SoilNameEntry, CompactorEntry}

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
