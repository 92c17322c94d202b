// Package page lays out the text that people read: lines of at most [Width]
// columns, or as many as a page says, in which nothing that came out of a file can act on a terminal.
package page

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Width is how many columns a line has, but for a word that is longer.
const Width = 80

// Page gathers lines of text. The zero Page is empty.
type Page struct {
	// Columns that a line has; 0 or less is Width.
	Columns int

	out strings.Builder
}

// Write writes the page. The error is the writer's.
func (p *Page) Write(w io.Writer) error {
	_, err := io.WriteString(w, p.out.String())
	return err
}

// Heading starts a part of the page, after a blank line.
func (p *Page) Heading(text string) {
	if p.out.Len() > 0 {
		p.Blank()
	}
	p.lay("", "", text)
}

// Blank leaves a line blank.
func (p *Page) Blank() { p.line("") }

// Put writes a paragraph behind a mark such as "- ", which is placed at the
// indent; further lines begin under the text.
func (p *Page) Put(indent int, mark, text string) {
	before := strings.Repeat(" ", indent) + mark
	p.lay(before, strings.Repeat(" ", utf8.RuneCountInString(before)), text)
}

// Line writes a line; what is too long for it goes on below, four columns
// further in.
func (p *Page) Line(indent int, format string, args ...any) {
	margin := strings.Repeat(" ", indent)
	p.lay(margin, margin+"    ", fmt.Sprintf(format, args...))
}

// Verbatim writes lines that are meant to be copied, or that are set in columns,
// and leaves them as long as they are.
func (p *Page) Verbatim(indent int, text string) {
	for line := range strings.Lines(text) {
		p.line(strings.Repeat(" ", indent) + strings.TrimSuffix(line, "\n"))
	}
}

// Wide returns how many columns a line has.
func (p *Page) Wide() int { return cmp.Or(max(p.Columns, 0), Width) }

// Capital returns a text with a capital for its first letter.
func Capital(text string) string {
	_, n := utf8.DecodeRuneInString(text)
	return strings.ToUpper(text[:n]) + text[n:]
}

// lay breaks a text between words into lines; there is always at least one.
func (p *Page) lay(first, under, text string) {
	width := p.Wide() - utf8.RuneCountInString(first)
	for _, line := range broken(text, width, width+utf8.RuneCountInString(first)-utf8.RuneCountInString(under)) {
		p.line(first + line)
		first = under
	}
}

// Lines breaks a text between words into lines of so many columns, but for a word that
// is longer; there is always at least one.
func Lines(text string, width int) []string { return broken(text, width, width) }

// broken breaks a text whose first line may have another width than the rest.
func broken(text string, width, rest int) []string {
	lines := []string{""}
	for _, word := range strings.FieldsFunc(text, Breaks) {
		last := &lines[len(lines)-1]
		switch {
		case *last == "":
			*last = word
		case utf8.RuneCountInString(*last)+1+utf8.RuneCountInString(word) > width:
			lines, width = append(lines, word), rest
		default:
			*last += " " + word
		}
	}
	return lines
}

// line writes one line. What would act on a terminal is shown as "?".
func (p *Page) line(text string) {
	p.out.WriteString(strings.TrimRight(strings.Map(Printable, text), " ") + "\n")
}

// Printable returns a character as it is shown: "?" for one that would act on a
// terminal.
func Printable(r rune) rune {
	if !unicode.IsPrint(r) && !unbroken(r) || r == utf8.RuneError {
		return '?'
	}
	return r
}

// Shown returns a text of several lines as it is shown: see [Printable].
func Shown(text string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' {
			return r
		}
		return Printable(r)
	}, text)
}

// unbroken reports whether a character is a space at which no line is broken.
func unbroken(r rune) bool { return r == '\u00a0' || r == '\u202f' }

// Breaks reports whether a line may be broken at a character.
func Breaks(r rune) bool { return unicode.IsSpace(r) && !unbroken(r) }

// Noun returns a noun as it stands behind a number: "job" behind 1, else "jobs".
func Noun(n int, noun string) string {
	if n == 1 {
		return noun
	}
	return noun + "s"
}

// Fill returns a line of the rulebook with its holes filled: the value of x stands in
// place of {x}.
func Fill(line string, holes ...string) string {
	for i := 0; i < len(holes); i += 2 {
		holes[i] = "{" + holes[i] + "}"
	}
	return strings.NewReplacer(holes...).Replace(line)
}
