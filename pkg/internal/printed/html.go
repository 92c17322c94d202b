package printed

import (
	_ "embed"
	"html/template"
	"io"
	"strings"

	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
)

//go:embed document.gohtml
var pageText string

// pageTemplate is the page; it is well-formed XML, so that a test can read it.
var pageTemplate = template.Must(template.New("document").Funcs(template.FuncMap{
	"title":  func(c Change) string { return title(string(c)) },
	"policy": func() string { return paper.Policy },
	"style":  func() template.CSS { return template.CSS(paper.Style) },
}).Parse(pageText))

// HTML writes the document as one file of HTML that needs no other and runs no
// script.
func (d *Document) HTML(w io.Writer, o Options) error {
	var out strings.Builder
	if err := pageTemplate.Execute(&out, struct {
		*Document
		Options
	}{d, o}); err != nil {
		return err
	}
	_, err := io.WriteString(w, page.Shown(out.String()))
	return err
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
