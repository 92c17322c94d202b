package rulebook

import (
	"fmt"
	"time"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/value"
)

// Date is a day, such as 2026-03-01. The zero Date is none; any other can only
// be made valid.
type Date struct{ day string }

// DateOf returns the day of a time, in the time's own zone.
func DateOf(t time.Time) Date { return Date{t.Format(time.DateOnly)} }

// ParseDate reads a day written as 2026-03-01.
func ParseDate(text string) (Date, error) {
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		return Date{}, fmt.Errorf("%q is not a day such as 2026-03-01", text)
	}
	return Date{text}, nil
}

// IsZero reports whether d is no day.
func (d Date) IsZero() bool { return d == Date{} }

// String returns the day as 2026-03-01, "" for the zero Date.
func (d Date) String() string { return d.day }

// Equal reports whether both are the same day.
func (d Date) Equal(e Date) bool { return d == e }

// Before reports whether d is an earlier day than e. The zero Date is before
// any other.
func (d Date) Before(e Date) bool { return d.day < e.day }

// MarshalText returns the day as [Date.String] does.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.day), nil }

// UnmarshalText reads what [Date.MarshalText] returns.
func (d *Date) UnmarshalText(text []byte) (err error) {
	*d = Date{}
	if len(text) > 0 {
		*d, err = ParseDate(string(text))
	}
	return err
}

// File is a rule file with the hash of its bytes, so that a design can say
// which files it was made from.
type File struct {
	// Name of the file.
	Name string `json:"name"`
	// SHA256 of its bytes, in hexadecimal.
	SHA256 string `json:"sha256"`
}

// Amendment is a company's change to the rulebook.
type Amendment struct {
	// Name of the amendment.
	Name string `json:"name"`
	// Who made it.
	Who string `json:"who"`
	// When it was made, a day.
	When Date `json:"when"`
	// Why it was made.
	Why string `json:"why"`
	// From is the first day on which it holds.
	From Date `json:"from,omitzero"`
	// Until is the last day on which it holds.
	Until Date `json:"until,omitzero"`
	// Over names the amendments that it builds on.
	Over []string `json:"over,omitempty"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
}

// Variance is permission by which a setting crosses its limit.
type Variance struct {
	// Name of the variance.
	Name string `json:"name"`
	// Setting that it lets cross a limit.
	Setting string `json:"setting"`
	// Value that the setting has by it.
	Value value.Value `json:"value"`
	// Limit that is crossed.
	Limit value.Value `json:"limit"`
	// Who gave permission.
	Who string `json:"who"`
	// Why permission was given.
	Why string `json:"why"`
	// From is the first day on which it holds.
	From Date `json:"from,omitzero"`
	// Until which day it holds.
	Until Date `json:"until"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
}

// Amended tells how an amendment changed a rule or a setting.
type Amended struct {
	// By which amendment.
	By Amendment `json:"by"`
	// Because of what this very change was made; the amendment's own reason if
	// none was given for it.
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
	// By which amendment that entry itself had come; null for the rulebook's own.
	By *Amendment `json:"by,omitempty"`
}
