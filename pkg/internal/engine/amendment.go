package engine

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// amendmentEntry is an amendment as written.
type amendmentEntry struct {
	rulebook.Amendment
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
	from, until rulebook.Date
	at          diagnostic.Place
}

type wordsChange struct {
	vocabulary string
	words      []wordEntry
	at         diagnostic.Place
}

type varianceEntry struct {
	rulebook.Variance
	to *document.Node
	// waits tells that it does not hold yet on the day of the design.
	waits bool
}

// holdsOn reports whether a span of days holds a day.
func holdsOn(from, until, day rulebook.Date) bool {
	return !day.Before(from) && (until.IsZero() || !until.Before(day))
}
