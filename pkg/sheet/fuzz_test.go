package sheet_test

import (
	"bytes"
	"strings"
	"testing"
	"unicode"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
)

// FuzzText puts any text wherever a rulebook or a job may write one: no sheet
// may fail on it, or let it act on a terminal.
func FuzzText(f *testing.F) {
	f.Add("Base", 0)
	f.Add("a\x1b[2J\u202e\xff\nb", 1)
	f.Add(strings.Repeat("x", 300)+" "+strings.Repeat("y ", 200), 2)
	f.Add("_most_", 3)
	f.Fuzz(func(t *testing.T, text string, which int) {
		s := []func() *section.Section{patio, stopped, refused, amended}[uint(which)%4]()
		s.Job = section.Job{Name: text, Client: text, Place: text}
		said := section.Plain(text)
		for i := range s.Courses {
			c := &s.Courses[i]
			c.Label = text
			for j := range c.Attributes {
				c.Attributes[j].Name = text
			}
		}
		for i := range s.Amendments {
			s.Amendments[i] = rulebook.Amendment{Name: text, Who: text, Why: text}
		}
		for i := range s.Variances {
			v := &s.Variances[i]
			v.Name, v.Setting, v.Who, v.Why = text, text, text, text
		}
		for i := range s.Checks {
			s.Checks[i].ID, s.Checks[i].Asks, s.Checks[i].Says = text, text, said
		}
		for i := range s.Refusals {
			s.Refusals[i].Who, s.Refusals[i].Says, s.Refusals[i].SourceText = said, said, text
		}
		for _, r := range s.Reasons {
			r.Asks, r.Take = text, rulebook.Take(text)
			for i := range r.Taken {
				r.Taken[i].ID, r.Taken[i].Because, r.Taken[i].Place.File = text, said, text
				if a := r.Taken[i].Amended; a != nil {
					a.Because, a.Replaced.When, a.Replaced.Answer = text, text, text
				}
			}
		}
		var b bytes.Buffer
		if err := sheet.Text(&b, s, quantity.US); err != nil {
			t.Fatal(err)
		}
		for _, c := range s.Courses {
			if err := sheet.Reason(&b, s, c.Name, quantity.SI); err != nil {
				t.Fatal(err)
			}
		}
		for _, r := range b.String() {
			if r != '\n' && !unicode.IsPrint(r) {
				t.Fatalf("%q in %q", r, b.String())
			}
		}
	})
}
