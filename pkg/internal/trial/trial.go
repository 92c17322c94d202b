// Package trial holds a rulebook to what is expected of it. A trial is a job
// and what must come of it, written in a file beside the rules; running the
// trials says which expectations fail, and how much of the rulebook the trials
// reach: every rule, and every clause of every condition.
//
// # The trial file
//
//	about: What the trials of this file are for.
//	trials:
//	  - trial: PATIO-STIFF-CLAY     # an id, used once in the folder
//	    why: The commonest patio there is.
//	    job: {use: foot, base: dense, area: 400 sq ft, soil: {word: clay}}
//	    settings: {precaution_grid: false}
//	    expect:
//	      status: designed
//	      answers: {grid_why: needed_by_ground, grid_layers: 1}
//	    cases:
//	      - case: weak
//	        why: Very soft ground.
//	        change: {soil: {cbr: [2]}}
//	        expect: {between: {stone_depth: [8 in, 10 in]}}
//
// job is written as a job file is. A trial has an expect, cases, or both; each
// case lays its change over the job, in which a value left empty takes away what
// was there, and its settings over those of the trial. Cases share nothing of
// what is expected.
//
// settings are values that a company could set, so that rules which the settings
// of the rulebook leave idle can be tried. They keep to the limits, but for one
// written as {by_variance: VALUE}, for which permission is presumed; such a value
// must cross a limit, so that it holds the limit in place. A setting that
// is a material takes the name of a material, or {like: NAME} with
// properties that differ from it.
//
// expect may have:
//
//	status: designed      # or refused, stopped; designed if it is left out
//	answers: {D: X}       # decision D answers X: a number, a quantity with its unit, a word
//	between: {D: [A, B]}  # decision D answers no less than A and no more than B
//	rules: {D: RULE}      # the rule that decided D, or the rules, of a list
//	held: [RULE]          # these rules hold, whether or not theirs is the answer
//	not_held: [RULE]      # these rules do not hold
//	unasked: [D]          # these decisions are not asked
//	confirm: [D]          # these answers are presumed, and to be confirmed
//	failed: [CHECK]       # the checks that fail: these and no others
//	fails: [CHECK]        # these checks fail, whichever others do
//	holds: [CHECK]        # these checks are made, and hold
//	idle: [CHECK]         # these checks are not made
//	cautions: [ID]        # these are given
//	steps: [ID]           # these are taken
//	tolerances: [ID]      # these are given
//	stops: [ID]           # these are given
//	options: [ID]         # these are offered
//	remedies: [ID]        # these are told for what the dig showed
//	client: [ID]          # this the client is told
//	without: [ID]         # none of these is given, of whichever sort
//	says: {ID: TEXT}      # this entry says this text, or these, of a list, in US units; and what a stop finds as NAME: VALUE
//	quantities: {ID: TEXT} # this quantity comes to this amount, or is of this item, order or weight: one of them or a list, in US units
//	refusals: [ID]        # the refusals given: these and no others
//	crossed: [LIMIT]      # the limits that answers are beyond: these and no others
//	courses: {present: [C], absent: [C], from_bottom: [C, C, C]}
//
// from_bottom lists every course. A job that no calculation reaches is refused
// by the rule that asked for it, under that rule's id.
package trial

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/site"
)

// Trial is one job and what must come of it. Of a trial with cases each case is
// a Trial.
type Trial struct {
	// ID of the trial, Case of the case, which is "" for the trial's own job.
	ID, Case string
	// Why the trial is there: for a case, why the case is.
	Why   string
	Place diagnostic.Place
	Job   *site.Site

	settings []pair
	expect   expect
}

// Name is the id, with the case if it is one: PATIO-STIFF-CLAY/weak.
func (t *Trial) Name() string {
	if t.Case == "" {
		return t.ID
	}
	return t.ID + "/" + t.Case
}

// pair is a key with its value, as written.
type pair struct{ key, value *document.Node }

// names is a list of names, as written.
type names struct {
	at    diagnostic.Place
	items []*document.Node
}

// expect is what a trial expects, as written.
type expect struct {
	at     diagnostic.Place
	status *document.Node
	// pairs and lists are those that are not left out, by their keys, such as
	// "answers" and "held".
	pairs map[string][]pair
	lists map[string]names
}
