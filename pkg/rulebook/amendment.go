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
	// Company whose standard it is.
	Company string `json:"company"`
	// Who made it.
	Who string `json:"who"`
	// When it was made, a day; it holds from then on unless From says otherwise.
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

// Variance is permission for one thing: a setting or an answer beyond its limit,
// or what an amendment takes away.
type Variance struct {
	// Name of the variance.
	Name string `json:"name"`
	// Setting that it lets cross a limit.
	Setting string `json:"setting,omitempty"`
	// Bound is the id of the limit that it lets answers cross.
	Bound string `json:"bound,omitempty"`
	// Retires is the id of what an amendment may retire or change by it.
	Retires string `json:"retires,omitempty"`
	// Value that the setting has by it, or as far as which an answer may go.
	Value value.Value `json:"value,omitzero"`
	// Limit of the setting that is crossed.
	Limit value.Value `json:"limit,omitzero"`
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

// Amended tells how an amendment changed an entry.
type Amended struct {
	// By which amendment.
	By Amendment `json:"by"`
	// Because of what this very change was made; the amendment's own reason if
	// none was given for it.
	Because string `json:"because"`
	// Place of the change.
	Place diagnostic.Place `json:"place"`
	// Replaced tells what the entry was before, the last first; left out for what
	// was added.
	Replaced []Replaced `json:"replaced,omitempty"`
}

// Replaced is an entry as it stood before an amendment.
type Replaced struct {
	// ID or name of the entry.
	ID string `json:"id"`
	// Was lists what was changed, as it was written.
	Was []Was `json:"was,omitempty"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
	// By which amendment it had come to be so; left out for the rulebook's own.
	By *Amendment `json:"by,omitempty"`
}

// Was is one key of an entry as it was written.
type Was struct {
	// Key of the entry.
	Key string `json:"key"`
	// Text that stood there.
	Text string `json:"text"`
}

// Lifted is what an amendment took away, or replaced by something weaker.
type Lifted struct {
	// Sort of the entry: rule, limit, course, check, caution, refusal, promise, step,
	// tolerance or stop.
	Sort string
	// ID or name of the entry.
	ID string
	// Amended tells by whom, and why.
	Amended Amended
	// Replaced reports whether another stands in its place.
	Replaced bool
	// Place where it stands.
	Place diagnostic.Place
}

// Idle is what is written in amendments and not in force on the day of the
// rulebook.
type Idle struct {
	// What it is, for a person, such as "the amendment deeper base".
	What string `json:"what"`
	// Name of it.
	Name string `json:"name"`
	// From is the first day on which it holds.
	From Date `json:"from,omitzero"`
	// Until is the last day on which it holds.
	Until Date `json:"until,omitzero"`
	// Place where it stands.
	Place diagnostic.Place `json:"place"`
}
