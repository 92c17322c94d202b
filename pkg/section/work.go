package section

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Quantity is how much of something the job takes.
type Quantity struct {
	// ID of the entry.
	ID string `json:"id"`
	// About is what it is, as a noun.
	About Sentence `json:"about"`
	// Courses of this section that it is about, from the bottom up.
	Courses []string `json:"courses"`
	// Kind says what it counts as, a word of quantity_kind: material, haulage,
	// dumping, equipment or labor.
	Kind string `json:"kind"`
	// KindLabel is that kind, to show a person; left out where it reads the same.
	KindLabel string `json:"kind_label,omitempty"`
	// Amount of it: a count, a length, an area, a volume, a mass or a time. Of a layout
	// it is the area of the pieces.
	Amount value.Value `json:"amount"`
	// Layout says what is cut from which roll or panel; left out of what is not laid
	// out.
	Layout value.Value `json:"layout,omitzero"`
	// Units is how many rolls or panels that takes by itself; left out as the layout is.
	Units int `json:"units,omitempty"`
	// Item is what it is bought as, a word or a text: all quantities of one item are
	// one order. Null for what is only told.
	Item value.Value `json:"item"`
	// Step is the whole unit in which it is ordered, of a layout a roll or a panel; null
	// for what is ordered to the amount.
	Step value.Value `json:"step"`
	// CountedIn names one such unit, such as load; left out without one.
	CountedIn string `json:"counted_in,omitempty"`
	// Counted is what one such unit is called, and several.
	Counted []string `json:"counted,omitempty"`
	// Weighs is the density of a volume, or the areal mass of an area, by which the
	// amount is weighed, and of a mass the density as bought; null if not given.
	Weighs value.Value `json:"weighs"`
	// Because is why.
	Because Sentence `json:"because"`
	// Source names the source of it.
	Source string `json:"source"`
	// Place where it is written.
	Place diagnostic.Place `json:"place"`
	// Amended is there for what an amendment added or changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}

// Work is what a crew works by: a step, a tolerance that it keeps, or something
// that it may find and then stops for; or it is what the client is told.
type Work struct {
	// ID of the entry.
	ID string `json:"id"`
	// Courses of this section that it is about, from the bottom up.
	Courses []string `json:"courses"`
	// Part of the client's sheet, a word of client_part; only of what the client is told.
	Part string `json:"part,omitempty"`
	// Tells are the rules, limits, checks, cautions and refusals that it tells in the client's
	// words.
	Tells []string `json:"tells,omitempty"`
	// Says what the crew does, what is within tolerance, or what the client is told.
	Says Sentence `json:"says,omitzero"`
	// Sizes say how thick, long or far it is done; only of a step that has them.
	Sizes Sentence `json:"sizes,omitzero"`
	// Hold says what must be looked at before work goes on; only of a hold point.
	Hold Sentence `json:"hold,omitzero"`
	// Measure says how a tolerance is measured.
	Measure Sentence `json:"measure,omitzero"`
	// Finds says what the crew may find.
	Finds Sentence `json:"finds,omitzero"`
	// Does says what it then does at once.
	Does Sentence `json:"does,omitzero"`
	// Calls says whom it calls.
	Calls Sentence `json:"calls,omitzero"`
	// Found is what the job would say if that were found; left out if no value of a job
	// says it.
	Found []Used `json:"found,omitempty"`
	// Then is what would come of the job; left out where it could not say so beside what
	// it says already.
	Then *Otherwise `json:"then,omitempty"`
	// Because is why.
	Because Sentence `json:"because"`
	// Source names the source of it.
	Source string `json:"source"`
	// Place where it is written.
	Place diagnostic.Place `json:"place"`
	// Amended is there for what an amendment added or changed.
	Amended *rulebook.Amended `json:"amended,omitempty"`
}
