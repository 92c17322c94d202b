package printed

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"
	text "text/template"

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

var (
	//go:embed document.gohtml
	pageText string
	// pageTemplate is the page; it is well-formed XML, so that a test can read it.
	pageTemplate = template.Must(template.New("document").Funcs(template.FuncMap{
		"title":  func(c Change) string { return title(string(c)) },
		"policy": func() string { return paper.Policy },
		"style":  func() template.CSS { return template.CSS(paper.Style) },
	}).Parse(pageText))

	//go:embed document.gomd
	markdownText     string
	markdownTemplate = text.Must(text.New("document").Funcs(text.FuncMap{
		"title": func(c Change) string { return title(string(c)) },
		"plain": paper.Plain, "cell": paper.Cell, "code": code, "struck": struck, "bullets": bullets,
	}).Parse(markdownText))
)

// HTML writes the document as one file of HTML that needs no other and runs no
// script.
func (d *Document) HTML(w io.Writer, o Options) error { return d.write(w, o, pageTemplate) }

// Markdown writes the document as Markdown.
func (d *Document) Markdown(w io.Writer, o Options) error { return d.write(w, o, markdownTemplate) }

func (d *Document) write(w io.Writer, o Options, form interface{ Execute(io.Writer, any) error }) error {
	var out strings.Builder
	if err := form.Execute(&out, struct {
		*Document
		Options
	}{d, o}); err != nil {
		return err
	}
	_, err := io.WriteString(w, page.Shown(out.String()))
	return err
}

// String says who changed it, when and why.
func (k Mark) String() string {
	return fmt.Sprintf("%s by %s (%s, %s): %s", title(string(k.Done)), k.By, k.Who, k.When, k.Why)
}

// struck strikes a text of Markdown through that was taken away.
func struck(done Change, text string) string {
	if done != Gone || text == "" {
		return text
	}
	return "~~" + text + "~~"
}

// bullets lists the parts of a condition in Markdown.
func bullets(parts []Part, mark string, done Change) (out string) {
	for _, p := range parts {
		out += mark + struck(done, paper.Plain(p.Text)) + "\n" + bullets(p.Parts, "  "+mark, done)
	}
	return out
}

// code is a text as it is written in a rule file.
func code(text string) string {
	return "`" + strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "`", "'") + "`"
}

// row is a clause that is the row of a table.
type row struct {
	*Clause
	Cells []Line
}

// Table is the table of a section.
func (s *Section) Table() []row {
	out := make([]row, len(s.Rows))
	for i, c := range s.Rows {
		out[i] = row{c, c.Cells(s.Columns)}
	}
	return out
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

// saying is a line with whether all of its clause was taken away.
type saying struct {
	Line
	Lead string
	Gone bool
}

// Says is a line as the template writes it.
func (c *Clause) Says(l Line) saying {
	out := saying{Line: l, Gone: c.Change == Gone}
	if l.Label == "" && c.Lead != "" {
		out.Lead = c.Lead + " "
	}
	return out
}
