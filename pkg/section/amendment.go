package section

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/value"
)

// Amendment is a company's change to the rulebook.
type Amendment struct {
	// Name of the amendment.
	Name string `json:"name"`
	// Who made it.
	Who string `json:"who"`
	// When it was made, a day.
	When string `json:"when"`
	// Why it was made.
	Why string `json:"why"`
}

// Variance is leave by which a setting crosses its limit.
type Variance struct {
	// Name of the variance.
	Name string `json:"name"`
	// Setting that it lets cross a limit.
	Setting string `json:"setting"`
	// Value that the setting has by it.
	Value value.Value `json:"value"`
	// Limit that is crossed.
	Limit value.Value `json:"limit"`
	// Who gave leave.
	Who string `json:"who"`
	// Why leave was given.
	Why string `json:"why"`
	// Until which day it holds.
	Until string `json:"until"`
}

// Amended tells how an amendment changed a rule or a setting.
type Amended struct {
	// By which amendment.
	By Amendment `json:"by"`
	// Because of what this very change was made.
	Because string `json:"because"`
	// Place of the change.
	Place diagnostic.Place `json:"place"`
	// Replaced is the entry that stood there before; null for what was added.
	Replaced *Replaced `json:"replaced,omitempty"`
}

// Replaced is an entry as it stood before an amendment.
type Replaced struct {
	// ID of the rule, or name of the setting.
	ID string `json:"id"`
	// When it held, as written.
	When string `json:"when,omitempty"`
	// Answer or value, as written.
	Answer string `json:"answer,omitempty"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
}
