package paper

import (
	"cmp"
	_ "embed"
	"fmt"
	"html"
	"io"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/internal/page"
)

// Style is the stylesheet of every page of HTML that the library writes.
//
//go:embed style.css
var Style string

// Policy of those pages: they run nothing and ask for nothing, wherever they lie.
const Policy = "default-src 'none'; style-src 'unsafe-inline'"

// WriteHTML writes a sheet as one file of HTML that needs no other and runs no
// script. It is well-formed XML as well.
//
// The only error is that of w.
func WriteHTML(w io.Writer, sheet *Block, _ int) error {
	h := &hypertext{}
	title := html.EscapeString(sheet.Text)
	h.put(`<!DOCTYPE html>
<html lang="%s">
<head>
<meta charset="utf-8"/>
<meta http-equiv="Content-Security-Policy" content="%s"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<meta name="color-scheme" content="light dark"/>
<title>%s</title>
<style>
%s</style>
</head>
<body>
<main class="sheet"%s>
`, html.EscapeString(cmp.Or(sheet.Language, "en-US")), html.EscapeString(Policy), title, Style, sheet.id())
	h.put("<h1>%s</h1>\n", title)
	h.blocks(sheet.Under, 1)
	h.put("</main>\n</body>\n</html>\n")
	_, err := io.WriteString(w, page.Shown(h.String()))
	return err
}

// hypertext is a page of HTML while it is written.
type hypertext struct{ strings.Builder }

func (h *hypertext) put(format string, args ...any) { fmt.Fprintf(h, format, args...) }

// blocks writes blocks that stand under one another; depth is how many parts they
// stand in. Items that follow one another are one list.
func (h *hypertext) blocks(all []*Block, depth int) {
	list := false
	for _, b := range all {
		if !b.Says() {
			continue
		}
		if item := b.Is == IsItem || b.Is == IsBox; item != list {
			list = item
			h.WriteString(map[bool]string{true: "<ul class=\"list\">\n", false: "</ul>\n"}[list])
		}
		h.block(b, depth)
	}
	if list {
		h.WriteString("</ul>\n")
	}
}

func (h *hypertext) block(b *Block, depth int) {
	switch b.Is {
	case IsPart:
		h.part(b, depth)
		return
	case IsText, IsWarn, IsNote:
		class := map[Is]string{IsWarn: ` class="warn"`, IsNote: ` class="note"`}[b.Is]
		h.put("<p%s%s>%s</p>\n", class, b.id(), b.html())
	case IsItem, IsBox:
		h.item(b, depth)
		return
	case IsRows:
		h.rows(b)
	case IsWrite:
		h.put("<p class=\"write\"><span>%s</span><i></i></p>\n", b.html())
	case IsFigure:
		h.put("<figure%s>\n%s\n<figcaption>%s</figcaption>\n</figure>\n", b.id(), b.SVG, b.html())
	}
	h.blocks(b.Under, depth)
}

func (h *hypertext) part(b *Block, depth int) {
	heading := fmt.Sprintf("<h%d>%s</h%[1]d>", min(depth+1, 6), b.html())
	class := ""
	if b.Breaks {
		class = ` class="breaks"`
	}
	open, end := "<section%s%s>\n%s\n", "</section>\n"
	if b.Folds {
		open, end = "<details open=\"open\"%s%s>\n<summary>%s</summary>\n", "</details>\n"
	}
	h.put(open, class, b.id(), heading)
	h.blocks(b.Under, depth+1)
	h.WriteString(end)
}

func (h *hypertext) item(b *Block, depth int) {
	h.put("<li%s>", b.id())
	if b.Is == IsBox {
		h.WriteString(`<span class="box"></span>`)
	}
	switch {
	case b.Mark != "":
		h.put(`<span class="no">%s.</span>`, html.EscapeString(b.Mark))
	case b.Is == IsItem:
		h.WriteString(`<span class="dash"></span>`)
	}
	h.put("<div>%s", b.html())
	if len(b.Under) > 0 {
		h.WriteString("\n")
		h.blocks(b.Under, depth)
	}
	h.WriteString("</div></li>\n")
}

// rows writes a table. On a narrow screen each cell stands below the one before it,
// behind the heading of its column. What is short stays on one line.
func (h *hypertext) rows(b *Block) {
	short := make([]bool, len(b.Rows[0]))
	for i := range short {
		short[i] = !slices.ContainsFunc(append(b.Rows, b.Head), func(row []string) bool { return i < len(row) && utf8.RuneCountInString(row[i]) > 14 })
	}
	cells := func(row []string, kind func(i int) (element, role string)) {
		h.WriteString(`<tr role="row">`)
		for i, cell := range row {
			element, role := kind(i)
			h.put("<%s role=\"%s\"", element, role)
			if short[i] {
				h.WriteString(` class="short"`)
			}
			if role != "columnheader" && cell != "" && i < len(b.Head) && b.Head[i] != "" {
				h.put(` data-label="%s"`, html.EscapeString(b.Head[i]))
			}
			element, _, _ = strings.Cut(element, " ")
			h.put(">%s</%s>", words(cell), element)
		}
		h.WriteString("</tr>\n")
	}
	h.put("<table role=\"table\"%s>\n", b.id())
	if len(b.Head) > 0 {
		h.WriteString("<thead role=\"rowgroup\">\n")
		cells(b.Head, func(int) (string, string) { return `th scope="col"`, "columnheader" })
		h.WriteString("</thead>\n")
	}
	h.WriteString("<tbody role=\"rowgroup\">\n")
	for _, row := range b.Rows {
		cells(row, func(i int) (string, string) {
			if i == 0 && row[0] != "" {
				return `th scope="row"`, "rowheader"
			}
			return "td", "cell"
		})
	}
	h.WriteString("</tbody>\n</table>\n")
}

func (b *Block) id() string {
	if b.ID == "" {
		return ""
	}
	return ` id="` + Anchor(b.ID) + `"`
}

var fraction = regexp.MustCompile(`[0-9]+(-[0-9]+)?/[0-9]+( in\b)?|[0-9]+ (%|(ft|in|mm|m)\b)`)

// words are a text, in which no fraction, share or length is broken between lines.
func words(text string) string {
	return fraction.ReplaceAllString(html.EscapeString(text), `<span class="whole">$0</span>`)
}

// html is the text of a block, behind what it begins with.
func (b *Block) html() string {
	text := words(b.Text)
	if b.To != "" {
		text = `<a href="#` + Anchor(b.To) + `">` + text + `</a>`
	}
	if b.Lead != "" {
		text = "<strong>" + html.EscapeString(b.Lead) + ":</strong> " + text
	}
	return text
}
