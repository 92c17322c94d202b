package engine

import (
	"time"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/value"
)

// Date is a day, such as 2026-03-01. The zero Date is none. Dates order as
// their texts do.
type Date string

// ParseDate reads a day written as 2026-03-01.
func ParseDate(text string) (Date, bool) {
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		return "", false
	}
	return Date(text), true
}

// Amendment is a company's change to a rulebook, with who made it, when and
// why.
type Amendment struct {
	Name, Who, Why string
	When           Date
	// From and Until bound the days on which it holds; either may be zero.
	From, Until Date
	Place       diagnostic.Place
	// Over names the amendments that it builds on.
	Over []string
}

// Amended tells how an amendment changed an entry.
type Amended struct {
	By *Amendment
	// Because is the reason given for this very change; the amendment's own if
	// none was given.
	Because string
	Place   diagnostic.Place
	// Replaced is what stood there before; nil for what was added.
	Replaced *Replaced
}

// Replaced is an entry as it stood before an amendment.
type Replaced struct {
	ID, When, Answer string
	Place            diagnostic.Place
	// By is the amendment by which that entry itself had come; nil for the
	// rulebook's own.
	By *Amendment
}

// Variance is leave to cross a limit of a setting.
type Variance struct {
	Name, Setting string
	Value         value.Value
	// Limit is the limit that it crosses.
	Limit    value.Value
	Who, Why string
	From     Date
	Until    Date
	Place    diagnostic.Place
	// Used tells that the setting does cross its limit by this variance.
	Used bool
}

// amendmentEntry is an amendment as written.
type amendmentEntry struct {
	Amendment
	changes   []changeEntry
	settings  []settingChange
	words     []wordsChange
	variances []varianceEntry
	added     *written // new entries: sources, materials, decisions, checks ...
	overNodes []*document.Node
}

// changeEntry is a rule replaced, retired or added.
type changeEntry struct {
	replace, retire       string
	with, add             *ruleEntry
	to, before, after     string
	because               string
	at                    diagnostic.Place
	targetNode, placeNode *document.Node
}

type settingChange struct {
	name        string
	value       *document.Node
	because     *document.Node
	source      *document.Node
	from, until Date
	at          diagnostic.Place
}

type wordsChange struct {
	vocabulary string
	words      []wordEntry
	at         diagnostic.Place
}

type varianceEntry struct {
	Variance
	to *document.Node
	// waits tells that it does not hold yet on the day of the design.
	waits bool
}

// holdsOn reports whether a span of days holds a day.
func holdsOn(from, until, day Date) bool {
	return (from == "" || from <= day) && (until == "" || day <= until)
}
