package sheet

import (
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// width is how many columns a line has, but for a word that is longer.
const width = 100

// page gathers lines of text in one system of units.
type page struct {
	out    strings.Builder
	system quantity.System
}

func (p *page) writeTo(w io.Writer) error {
	_, err := io.WriteString(w, p.out.String())
	return err
}

// heading starts a part of the sheet.
func (p *page) heading(text string) {
	if p.out.Len() > 0 {
		p.out.WriteByte('\n')
	}
	p.put(0, "", text)
}

func (p *page) blank() { p.out.WriteByte('\n') }

// put writes a paragraph behind a mark such as "- ", which stands at the
// indent; further lines stand under the text.
func (p *page) put(indent int, mark, text string) {
	mark = strings.Map(printable, mark)
	margin := strings.Repeat(" ", indent)
	under := margin + strings.Repeat(" ", utf8.RuneCountInString(mark))
	for i, line := range wrap(text, width-utf8.RuneCountInString(under)) {
		before := under
		if i == 0 {
			before = margin + mark
		}
		p.out.WriteString(strings.TrimRight(before+line, " ") + "\n")
	}
}

// value and sentence return the text in the page's system of units.
func (p *page) value(v value.Value) string         { return v.Text(p.system) }
func (p *page) sentence(s section.Sentence) string { return capital(fullStop(s.In(p.system))) }
func (p *page) quoted(s section.Sentence) string   { return strings.TrimSpace(s.In(p.system)) }

// wrap breaks a text between words into lines of at most so many columns; there
// is always at least one. What would act on a terminal is shown as "?".
func wrap(text string, columns int) []string {
	var lines []string
	line := ""
	room := 0
	for _, word := range strings.Fields(text) {
		word = strings.Map(printable, word)
		n := utf8.RuneCountInString(word)
		if line != "" && n+1 > room {
			lines = append(lines, line)
			line = ""
		}
		if line == "" {
			line, room = word, columns-n
			continue
		}
		line += " " + word
		room -= n + 1
	}
	return append(lines, line)
}

func printable(r rune) rune {
	if !unicode.IsPrint(r) || r == utf8.RuneError {
		return '?'
	}
	return r
}
