package printed

import (
	"fmt"
	"io"
	"strings"

	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
)

// Options are how a document is made and written.
type Options struct {
	// Proof says of each promise how it is settled; nil if that was not asked.
	Proof map[string]string
	// Expressions stand beside the sentences that were made from them.
	Expressions bool
}

// Markdown writes the document as Markdown.
func (d *Document) Markdown(w io.Writer, o Options) error {
	m := &markdown{o: o}
	m.line("# " + paper.Plain(d.Title))
	if len(d.Facts) > 0 {
		facts := make([]string, len(d.Facts))
		for i, f := range d.Facts {
			facts[i] = "- " + paper.Plain(f)
		}
		m.line(strings.Join(facts, "\n"))
	}
	m.line("## Contents")
	var b strings.Builder
	for _, c := range d.Chapters {
		fmt.Fprintf(&b, "- [%s %s](#%s)\n", c.Number, paper.Plain(c.Title), c.ID)
	}
	if len(d.Chapters) == 0 {
		b.WriteString("Nothing differs.\n")
	}
	m.line(strings.TrimSuffix(b.String(), "\n"))
	for _, c := range d.Chapters {
		m.section(c, "##")
	}
	if len(d.Files) > 0 {
		m.line("## Files, with the SHA-256 of each")
		m.line("- `" + strings.Join(d.Files, "`\n- `") + "`")
	}
	_, err := io.WriteString(w, page.Shown(m.out.String()))
	return err
}

type markdown struct {
	o   Options
	out strings.Builder
}

// line writes a block, with a blank line behind it.
func (m *markdown) line(text string) { m.out.WriteString(text + "\n\n") }

func (m *markdown) section(s *Section, level string) {
	m.line(fmt.Sprintf(`<a id="%s"></a>`, s.ID))
	m.line(level + " " + strings.TrimSpace(s.Number+" "+paper.Plain(s.Title)) + changeNote(s.Change))
	m.marks("", s.Marks)
	for _, each := range s.About {
		m.line(paper.Plain(each))
	}
	if len(s.Rows) > 0 {
		m.table(s)
	}
	for _, c := range s.Clauses {
		m.clause(c)
	}
	for _, part := range s.Sections {
		m.section(part, level+"#")
	}
}

func changeNote(c Change) string {
	if c == Unchanged {
		return ""
	}
	return " (" + string(c) + ")"
}

func (m *markdown) marks(indent string, marks []Mark) {
	for _, k := range marks {
		m.line(indent + "> " + paper.Plain(k.String()))
	}
}

// String says who changed it, when and why.
func (k Mark) String() string {
	return fmt.Sprintf("%s by %s (%s, %s): %s", title(string(k.Done)), k.By, k.Who, k.When, k.Why)
}

func (m *markdown) clause(c *Clause) {
	head := strings.TrimSpace("**" + c.Number + "** " + code(c.Name) + c.formerly() + changeNote(c.Change))
	if c.Number == "" {
		head = strings.TrimSpace(code(c.Name) + c.formerly() + changeNote(c.Change))
	}
	m.line(head)
	m.marks("", c.Marks)
	for _, l := range c.Lines {
		text := paper.Plain(l.Text)
		if l.Label == "" && c.Lead != "" {
			text = paper.Plain(c.Lead) + " " + text
		}
		text = struckIf(c.Change == Gone, text)
		if l.Label != "" {
			text = "*" + paper.Plain(l.Label) + ":* " + text
		}
		if l.Was != "" {
			text = strings.TrimSpace(text + " (it was: " + struck(paper.Plain(l.Was)) + ")")
		}
		if m.o.Expressions && l.Code != "" {
			text += "  \n" + code(l.Code)
		}
		m.out.WriteString(text + "\n")
		m.parts(l.Parts, "- ", c.Change == Gone)
		if l.Then != "" {
			m.out.WriteString("\n" + struckIf(c.Change == Gone, paper.Plain(l.Then)) + "\n")
		}
		m.out.WriteString("\n")
	}
}

// formerly tells the name before.
func (c *Clause) formerly() string {
	if c.Formerly == "" {
		return ""
	}
	return ", before: " + struck(code(c.Formerly))
}

func struckIf(gone bool, text string) string {
	if gone {
		return struck(text)
	}
	return text
}

func struck(text string) string {
	if text == "" {
		return ""
	}
	return "~~" + text + "~~"
}

func (m *markdown) parts(parts []Part, mark string, gone bool) {
	for _, p := range parts {
		m.out.WriteString(mark + struckIf(gone, paper.Plain(p.Text)) + "\n")
		m.parts(p.Parts, "  "+mark, gone)
	}
}

// table writes the clauses of a section as rows.
func (m *markdown) table(s *Section) {
	var b strings.Builder
	heads := make([]string, len(s.Columns))
	for i, head := range s.Columns {
		heads[i] = paper.Cell(head)
	}
	fmt.Fprintf(&b, "| No. | %s | Changed |\n|%s\n", strings.Join(heads, " | "), strings.Repeat(" --- |", len(s.Columns)+2))
	for _, c := range s.Rows {
		cells := []string{c.Number}
		for _, l := range c.Cells(s.Columns) {
			text := paper.Cell(l.Text)
			text = struckIf(c.Change == Gone, text)
			if l.Was != "" {
				text = strings.TrimSpace(text + " (it was: " + struck(paper.Cell(l.Was)) + ")")
			}
			cells = append(cells, text)
		}
		var notes []string
		for _, k := range c.Marks {
			notes = append(notes, paper.Cell(k.String()))
		}
		if len(notes) == 0 && c.Change != Unchanged {
			notes = []string{title(string(c.Change))}
		}
		fmt.Fprintf(&b, "| %s | %s |\n", strings.Join(cells, " | "), strings.Join(notes, " "))
	}
	m.line(strings.TrimSuffix(b.String(), "\n"))
}

// Cells are the lines of a clause in the order of the columns; the first is what
// the clause itself says.
func (c *Clause) Cells(columns []string) []Line {
	out := make([]Line, len(columns))
	for _, l := range c.Lines {
		for i, name := range columns {
			if l.Label == name || l.Label == "" && i == 0 {
				out[i] = l
			}
		}
	}
	return out
}

// code is a text as it is written in a rule file.
func code(text string) string {
	return "`" + strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "`", "'") + "`"
}
