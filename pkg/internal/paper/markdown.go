package paper

import (
	"io"
	"regexp"
	"strings"
	"unicode"

	"example.com/groundrule/pkg/internal/page"
)

// WriteMarkdown writes a sheet as Markdown. Of figures there are the words.
//
// The only error is that of w.
func WriteMarkdown(w io.Writer, sheet *Block, _ int) error {
	m := &markdown{}
	m.block(sheet, 0, "")
	_, err := io.WriteString(w, page.Shown(strings.TrimPrefix(m.String(), "\n")))
	return err
}

// markdown is a sheet of Markdown while it is written.
type markdown struct {
	strings.Builder
	list bool // whether what was written last is an item
}

// line writes a block of text behind a mark, below a blank line unless it goes on
// with a list.
func (m *markdown) line(indent, mark, text string, list bool) {
	if !list || !m.list {
		m.WriteString("\n")
	}
	m.list = list
	m.WriteString(strings.TrimRight(indent+mark+text, " ") + "\n")
}

func (m *markdown) block(b *Block, depth int, indent string) {
	if !b.Says() {
		return
	}
	text := Plain(b.Text)
	if b.To != "" {
		text = "[" + text + "](#" + Anchor(b.To) + ")"
	}
	if b.Lead != "" {
		text = "**" + Plain(b.Lead) + ":** " + text
	}
	if b.ID != "" && b.Is != IsItem && b.Is != IsBox {
		m.line(indent, "", `<a id="`+Anchor(b.ID)+`"></a>`, false)
	}
	switch b.Is {
	case IsPart:
		m.line("", strings.Repeat("#", min(depth+1, 6))+" ", text, false)
		depth++
	case IsText, IsNote:
		m.line(indent, "", text, false)
	case IsWarn:
		m.line(indent, "> ", text, false)
	case IsItem, IsBox:
		mark := "- "
		if b.Is == IsBox {
			text = "[ ] " + strings.TrimPrefix(b.Mark+". ", ". ") + text
		} else if b.Mark != "" {
			mark = "- " + Plain(b.Mark) + `\. `
		}
		m.line(indent, mark, text, true)
		indent += "  "
	case IsRows:
		m.rows(b, indent)
	case IsWrite:
		m.line(indent, "", text+" "+strings.Repeat("_", 40), false)
	case IsFigure:
		m.line(indent, "", "*"+text+"*", false)
	}
	for _, each := range b.Under {
		m.block(each, depth, indent)
	}
}

func (m *markdown) rows(b *Block, indent string) {
	head := b.Head
	if len(head) == 0 {
		head = make([]string, len(b.Rows[0]))
	}
	all := append([][]string{head}, b.Rows...)
	for i, row := range all {
		cells := make([]string, len(row))
		for j, each := range row {
			cells[j] = Cell(each)
		}
		m.line(indent, "| ", strings.Join(cells, " | ")+" |", i > 0)
		m.list = true
		if i == 0 {
			m.line(indent, "|", strings.Repeat(" --- |", len(row)), true)
		}
	}
	m.list = false
}

// begins is a beginning of a line that would make a list or a rule; links is what
// some readers make a link of.
var (
	begins = regexp.MustCompile(`^([0-9]*)([-+=.)])([-= ]|$)`)
	links  = regexp.MustCompile(`(www)(\.)|(://|@)`)
)

// Plain returns a text on one line that Markdown takes for nothing but text.
func Plain(text string) string {
	var b strings.Builder
	for _, r := range strings.Join(strings.FieldsFunc(text, page.Breaks), " ") {
		if strings.ContainsRune("\\`*_[]<>#~&", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return begins.ReplaceAllString(links.ReplaceAllString(b.String(), `$1\$2$3`), `$1\$2$3`)
}

// Cell returns a text that breaks out of no cell of a table.
func Cell(text string) string { return strings.ReplaceAll(Plain(text), "|", `\|`) }

// Anchor returns an ID made of a text: its letters and digits, with dashes between.
func Anchor(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return r != '_' && !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), "-")
}

// Within puts a prefix before the IDs of blocks and of all that stands under them,
// and before what they lead to.
func Within(prefix string, blocks ...*Block) []*Block {
	for _, b := range blocks {
		if b == nil {
			continue
		}
		if b.ID != "" {
			b.ID = prefix + b.ID
		}
		if b.To != "" {
			b.To = prefix + b.To
		}
		Within(prefix, b.Under...)
	}
	return blocks
}
