package engine

import (
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// amendmentEntry is an amendment as written.
type amendmentEntry struct {
	rulebook.Amendment
	node      *document.Node // of its name
	over      []*document.Node
	under     map[*amendmentEntry]bool // all that it builds on, directly or not
	changes   []changeEntry
	settings  []settingChange
	words     []wordsChange
	variances []varianceEntry
	added     *written // new entries: sources, materials, decisions, checks ...
}

// changeEntry is a rule replaced, retired or added.
type changeEntry struct {
	node                               *document.Node
	replace, retire, to, before, after *document.Node // texts; nil for those that are not there
	with, add                          *ruleEntry
	because                            string
}

type settingChange struct {
	key, value, because, source *document.Node
	from, until                 rulebook.Date
}

type wordsChange struct {
	key   *document.Node
	words []wordEntry
}

type varianceEntry struct {
	rulebook.Variance
	node, setting, to *document.Node
	// waits reports whether it does not hold yet on the day of the design.
	waits bool
}

// holdsOn reports whether a span of days holds a day.
func holdsOn(from, until, day rulebook.Date) bool {
	return !day.Before(from) && (until.IsZero() || !until.Before(day))
}
