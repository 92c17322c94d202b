package engine

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
)

// What a cell of a table can say beside a word, a value or a band.
const (
	anyCell     = "any"
	knownCell   = "known"
	unknownCell = "not known"
	answerCell  = "answer" // the column of the answers
)

// mostRows bounds a table, since every two of its rows are compared.
const mostRows = 300

// row is what a rule keeps of the table that it is a row of. Each row becomes a
// rule when the entries are read, so that whatever works on rules works on rows.
type row struct {
	columns []*document.Node // their names, but for that of the answer
	cells   []*document.Node
	when    *document.Node // the condition made of the cells; nil if all are any
	asks    *document.Node // that with what a rule must ask for before it
	wrong   bool           // something in the cells was reported
}

// table reads the rows of a decision that is written as a table; further rules may
// stand behind them.
func (r *reader) table(e *entry) []*entry {
	n := e.node.Field("table")
	if n == nil {
		return nil
	}
	t := n.Entry("a table", &r.faults)
	columns, at := r.columns(t.Need("columns"), t.Items("columns"))
	rows := t.Need("rows")
	because, source, standing, confirm := t.Get("because"), t.Get("source"), t.Get("standing"), t.Get("confirm")
	if !saidInTexts(t) {
		columns = nil
	}
	for _, key := range []string{"because", "source"} {
		if t.Get(key) == nil && !slices.ContainsFunc(rows.Fields(), func(f document.Field) bool { return f.Value.Field(key) != nil }) {
			t.Need(key)
			columns = nil
		}
	}
	t.Done()
	if len(columns) == 0 || rows == nil {
		return nil
	}
	if rows.Shape() != document.Mapping || len(rows.Fields()) == 0 || len(rows.Fields()) > mostRows {
		fault(&r.faults, rows, codeTable, "the rows of a table are its ids with their cells", "", "ID: [CELL, CELL, ...], one a line, 1 to 300 of them")
		return nil
	}
	var out []*entry
	for _, f := range rows.Fields() {
		cells, said := f.Value.Items(), f.Value
		if said.Shape() == document.Mapping {
			opened := said.Entry("a row", &r.faults)
			opened.Need("cells")
			cells = opened.Items("cells")
			spoken := saidInTexts(opened)
			opened.Done()
			if !spoken {
				continue
			}
		}
		if said.Shape() == document.Scalar {
			fault(&r.faults, said, document.CodeNotList, "a row is a list of its cells", said.Text(), "[CELL, CELL, ...]")
			continue
		}
		if len(cells) != len(columns) {
			names := strings.Join(namesIn(columns, (*document.Node).Text), ", ")
			than := map[bool]string{true: "more", false: "fewer"}[len(cells) > len(columns)]
			fault(&r.faults, f.Key, codeTable, "the row "+f.Key.Text()+" has "+than+" cells than the table has columns",
				strings.Join(namesIn(cells, asWritten), ", "), "a cell for each of "+names)
			continue
		}
		line := &row{columns: except(columns, at), cells: except(cells, at)}
		line.when = line.condition(func(int) []string { return nil })
		line.asks = line.when
		confirms := confirm
		if said.Field("standing") != nil {
			confirms = nil // it belongs to the standing of the table
		}
		made := &entry{sort: ruleSort, name: f.Key, of: e.id(), chapter: r.chapter, row: line}
		made.node = document.Gather(made.field("rule", f.Key), made.field("when", line.when), made.field("answer", answerOf(cells[at])),
			made.field("because", cmp.Or(said.Field("because"), because)), made.field("source", cmp.Or(said.Field("source"), source)),
			made.field("standing", cmp.Or(said.Field("standing"), standing)), made.field("confirm", cmp.Or(said.Field("confirm"), confirms)))
		out = append(out, made)
	}
	return out
}

// saidInTexts reports whether what a table or a row says beside its cells is in texts, as a
// rule says it.
func saidInTexts(e *document.Entry) bool {
	is := true
	for _, key := range []string{"because", "source", "standing", "confirm"} {
		is = (e.Text(key) != "" || e.Get(key) == nil) && is
	}
	return is
}

// columns checks the head of a table, and returns it with the place of the answer;
// nil if it is reported.
func (r *reader) columns(head *document.Node, columns []*document.Node) ([]*document.Node, int) {
	at := -1
	for i, n := range columns {
		for _, first := range columns[:i] {
			if n.Text() == first.Text() {
				twice(&r.faults, n, first, "two columns of one name", n.Text(), "a column of each name", "the other stands here")
				return nil, 0
			}
		}
		if n.Text() == answerCell {
			at = i
		}
	}
	if at < 0 && head.Shape() == document.Sequence {
		last := head
		if len(columns) > 0 {
			last = columns[len(columns)-1]
		}
		fault(&r.faults, last, codeTable, "no column has the answers", last.Text(), "a column called answer", answerCell)
		return nil, 0
	}
	return columns, at
}

func except(nodes []*document.Node, at int) []*document.Node {
	return slices.Concat(nodes[:at], nodes[at+1:])
}

// answerOf is the answer in a cell, as the rule language writes it.
func answerOf(cell *document.Node) *document.Node {
	text := language.Written(cell.Text())
	if is, ok := yesOrNo(cell); ok {
		text = map[bool]string{true: "true", false: "false"}[is]
	}
	if cell.Shape() != document.Scalar || text == cell.Text() {
		return cell
	}
	return document.Join([]document.Piece{{Text: text, At: cell}}, "")
}

// mark notes of each clause of the row's condition which column asks it.
func (w *row) mark(c *Condition) {
	for k, cell := range w.cells {
		for i := range c.Clauses() {
			if c.clauses[i].Place == cell.Place() {
				c.clauses[i].Column = w.columns[k].Text()
			}
		}
	}
}

// texts are the cells as they are written.
func (w *row) texts() []rulebook.Text {
	out := make([]rulebook.Text, len(w.cells))
	for i, cell := range w.cells {
		out[i] = rulebook.Text{Text: asWritten(cell), Place: cell.Place()}
	}
	return out
}

func yesOrNo(cell *document.Node) (is, ok bool) {
	text := cell.Text()
	return text == "yes" || text == "true", text == "yes" || text == "true" || text == "no" || text == "false"
}

// condition joins what the cells ask; asked gives the names that a rule must ask
// for before it reads a column.
func (w *row) condition(asked func(int) []string) *document.Node {
	var pieces []document.Piece
	for i, cell := range w.cells {
		name := w.columns[i].Text()
		text := cellText(name, cell)
		if text == "" {
			continue
		}
		for _, need := range asked(i) {
			if strings.TrimPrefix(text, "!") != "known("+need+")" {
				pieces = append(pieces, document.Piece{Text: "known(" + need + ")", At: cell})
			}
		}
		pieces = append(pieces, document.Piece{Text: text, At: cell})
	}
	return document.Join(pieces, " && ")
}

// cellText is what a cell asks of its column, in the rule language; "" for any.
func cellText(name string, cell *document.Node) string {
	if cell.Shape() == document.Sequence {
		return name + " in [" + strings.Join(namesIn(cell.Items(), (*document.Node).Text), ", ") + "]"
	}
	text := cell.Text()
	from, to, isBand := band(text)
	is, isTruth := yesOrNo(cell)
	switch {
	case text == anyCell:
		return ""
	case text == unknownCell:
		return "!known(" + name + ")"
	case text == knownCell:
		return "known(" + name + ")"
	case isTruth && is:
		return name
	case isTruth:
		return "!" + name
	case !isBand:
		return name + " == " + language.Written(text)
	}
	var out []string
	if from.text != "" {
		out = append(out, name+map[bool]string{false: " >= ", true: " > "}[from.after]+language.Written(from.text))
	}
	if to.text != "" {
		out = append(out, name+map[bool]string{false: " < ", true: " <= "}[to.after]+language.Written(to.text))
	}
	return strings.Join(out, " && ")
}

// bandEnd is an end of a band: before the value that is written, or after it.
type bandEnd struct {
	text  string // "" for none
	after bool
}

var (
	bandText   = regexp.MustCompile(`^(?:(below|up to|over)\s+(\S.*)|(\S.*?)\s+to\s+(\S.*)|(\S.*?)\s+and\s+more)$`)
	bareNumber = regexp.MustCompile(`^[-+0-9.,/ ]+$`)
)

// band reads below 3, up to 3, over 3, 5 and more, and 3 to 5, which is from the
// first up to, but not with, the second. One unit behind both ends will do.
func band(text string) (from, to bandEnd, ok bool) {
	m := bandText.FindStringSubmatch(strings.TrimSpace(text))
	switch {
	case m == nil:
		return from, to, false
	case m[1] == "over":
		return bandEnd{m[2], true}, to, true
	case m[1] != "":
		return from, bandEnd{m[2], m[1] == "up to"}, true
	}
	from.text, to.text = m[3]+m[5], m[4]
	if unit := strings.TrimLeft(to.text, "-+0123456789.,/ "); bareNumber.MatchString(from.text) && unit != "" && unit != to.text {
		from.text += " " + unit
	}
	return from, to, true
}

// otherBands are bands as print has them.
var otherBands = []struct {
	is *regexp.Regexp
	as string
}{
	{regexp.MustCompile(`^(?:<=|≤|at most)\s*(.+)$`), "up to $1"},
	{regexp.MustCompile(`^(?:<|under|less than)\s*(.+)$`), "below $1"},
	{regexp.MustCompile(`^(?:>=|≥|at least|from)\s*(.+)$`), "$1 and more"},
	{regexp.MustCompile(`^(?:>|above|more than)\s*(.+)$`), "over $1"},
	{regexp.MustCompile(`^(.+?)\s*(?:\+|and up|or more)$`), "$1 and more"},
	{regexp.MustCompile(`^(.+?)\s*(?:-|–|\.\.)\s*(.+)$`), "$1 to $2"},
}

// bandMeant is the band that was most likely meant, "" if it cannot be told.
func bandMeant(text string) string {
	for _, b := range otherBands {
		if b.is.MatchString(text) {
			return b.is.ReplaceAllString(text, b.as)
		}
	}
	return ""
}
