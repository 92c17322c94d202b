package printed

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// clause is an entry with what it says; lines that say nothing are left out, but
// for the cells of a table.
func (w *writer) clause(name string, amended *rulebook.Amended, lines ...Line) *Clause {
	was := formerly(amended)
	if was == name {
		was = ""
	}
	return &Clause{ID: slug(name), Name: name, Formerly: was, Lines: slices.DeleteFunc(lines, func(l Line) bool {
		return l.Text == "" && len(l.Parts) == 0 && l.Label != "Limits" && l.Label != "About"
	}), Marks: w.marks(amended)}
}

// marks tells who changed an entry, the last first.
func (s *speaker) marks(a *rulebook.Amended) []Mark {
	if a == nil {
		return nil
	}
	done := Added
	if len(a.Replaced) > 0 {
		done = Changed
	}
	return []Mark{{Done: done, By: a.By.Name + " of " + a.By.Company, Who: a.By.Who, When: a.By.When.String(), Why: s.filled(a.Because)}}
}

// most is how many parts of a condition are read in one sentence.
const most = 3

// conditioned says what comes of a condition, and what that is as it is written. A
// long condition is a list.
func (w *writer) conditioned(lead, then string, c *engine.Condition, between, written string) Line {
	if c == nil {
		return Line{Text: sentence(strings.TrimSpace(lead + " " + then)), Code: written, written: written}
	}
	is := w.condition(c)
	out := Line{Code: c.Text(), written: c.Text() + " → " + written}
	if written != "" {
		out.Code = out.written
	}
	switch {
	case between != "" && is.clauses() <= most:
		out.Text = sentence(then + between + is.line())
	case between != "":
		out.Text, out.Parts = sentence(then+between+each[is.op]+":"), parts(is)
	case is.clauses() <= most:
		out.Text = strings.TrimSpace(lead+" "+is.line()) + ": " + full(then)
	default:
		out.Text, out.Parts, out.Then = strings.TrimSpace(lead+" "+each[is.op])+":", parts(is), full("Then: "+then)
	}
	return out
}

// spoken is what a sentence of the book says where a condition holds.
func (w *writer) spoken(when *engine.Condition, says *engine.Template) Line {
	out := w.conditioned(start(when), w.quoting(says), when, "", says.String())
	if out.Code = ""; when != nil {
		out.Code = when.Text()
	}
	return out
}

// only is a line with the condition under which something is done.
func (w *writer) only(does string, c *engine.Condition) Line {
	if c == nil {
		return Line{}
	}
	is := w.condition(c)
	out := Line{Label: does + " where", Text: sentence(is.line()), Code: c.Text(), written: c.Text()}
	if is.clauses() > most {
		out.Text, out.Parts = sentence(each[is.op]+":"), parts(is)
	}
	return out
}

var each = map[logic.Op]string{logic.All: "all of these hold", logic.Any: "any of these holds"}

func parts(c said) []Part {
	var out []Part
	for _, p := range c.parts {
		if p.op == logic.Clause {
			out = append(out, Part{Text: p.text})
			continue
		}
		out = append(out, Part{Text: each[p.op] + ":", Parts: parts(p)})
	}
	return out
}

// start is what a clause of its own begins with.
func start(when *engine.Condition) string {
	if when == nil {
		return ""
	}
	return "Where"
}

// reason is a line with a sentence of the book.
func (w *writer) reason(label string, t *engine.Template) Line {
	return Line{Label: label, Text: w.quoting(t), written: t.String()}
}

func source(s value.Source) Line { return Line{Label: "Source", Text: s.String()} }

// sentence begins with a capital and ends with a point.
func sentence(text string) string { return full(title(text)) }

func full(text string) string {
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".:?!]") {
		return text
	}
	return text + "."
}

func title(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// slug is an id of the page: letters, digits and hyphens.
func slug(names ...string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-':
			return r
		}
		return '-'
	}, strings.Join(names, "-"))
}

// brief says once above a table why its rows are there and where they come from,
// where that is the same for all, and leaves out columns in which nothing stands.
func brief(sections []*Section) {
	for _, s := range sections {
		brief(s.Sections)
		for _, column := range slices.Clone(s.Columns[min(1, len(s.Columns)):]) {
			at := slices.Index(s.Columns, column)
			first, alike, bare := "", len(s.Rows) > 1, true
			for i, r := range s.Rows {
				cell := r.Cells(s.Columns)[at]
				if i == 0 {
					first = cell.Text
				}
				alike = alike && cell.Text == first && r.Change == Unchanged
				bare = bare && cell.flat() == "" && cell.Was == ""
			}
			alike = alike && (column == "Because" || column == "Source")
			if alike && !bare {
				s.About = append(s.About, full(column+": "+first))
			}
			if (alike || bare) && len(s.Rows) > 0 {
				s.Columns = slices.Delete(s.Columns, at, at+1)
			}
		}
	}
}

func number(chapters []*Section) {
	for i, c := range chapters {
		c.Number = fmt.Sprint(i + 1)
		for j, s := range c.Sections {
			s.Number = fmt.Sprintf("%s.%d", c.Number, j+1)
			for k, clause := range slices.Concat(s.Rows, s.Clauses) {
				clause.Number = fmt.Sprintf("%s.%d", s.Number, k+1)
				clause.ID = s.ID + "-" + clause.ID
			}
		}
	}
}
