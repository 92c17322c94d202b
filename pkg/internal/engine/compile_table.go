package engine

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// column is a column of a table: the kind of its cells, and which names a rule must
// ask for before it reads it.
type column struct {
	node  *document.Node
	kind  value.Kind
	asked []string
}

// table checks the cells of a decision that is written as a table, holds its rows to
// each other, and asks in their conditions for what may be missing.
func (c *compiler) table(d *decisionEntry, given language.Given) {
	var columns []column
	var rows []*entry
	var spans [][]span
	wrong := false // one slip is told once: what is wrong is not compared
	for _, r := range d.rules {
		if r.row == nil || r.node.Field("when") != r.row.when {
			continue // not a row, or not any more
		}
		if columns == nil {
			for _, n := range r.row.columns {
				columns = append(columns, c.column(n, given))
			}
		}
		var line []span
		for k, cell := range r.row.cells {
			s, ok := c.span(cell, columns[k])
			r.row.wrong = r.row.wrong || !ok
			line = append(line, s)
		}
		if wrong = wrong || r.row.wrong; r.row.wrong {
			continue
		}
		r.row.asks = r.row.condition(func(k int) []string { return columns[k].asked })
		if r.lifted == nil {
			rows, spans = append(rows, r), append(spans, line)
		}
	}
	if !wrong {
		c.apart(d, columns, rows, spans)
	}
}

// column finds the kind of a column; NoKind if what is wrong with it is reported.
func (c *compiler) column(n *document.Node, given language.Given) column {
	out := column{node: n}
	if !language.IsName(n.Text()) {
		fault(&c.faults, n, codeTable, "a column is the name of a value", n.Text(), "a name; what is worked out is a term")
		return out
	}
	known := given.And(nil)
	for {
		x, faults := c.book.env.Expression(n.Text(), value.NoKind, known)
		if len(faults) == 1 && faults[0].Code == language.CodeMayBeMissing && !known[faults[0].Found] {
			known[faults[0].Found] = true
			out.asked = append([]string{faults[0].Found}, out.asked...)
			continue
		}
		if c.report(n, 0, faults) {
			return out
		}
		out.kind = x.Kind
		return out
	}
}

// span reads a cell as its column has it, and reports what does not fit.
func (c *compiler) span(cell *document.Node, k column) (span, bool) {
	text := cell.Text()
	out := span{cell: cell, any: text == anyCell, known: text == knownCell, unknown: text == unknownCell, ordered: language.IsOrdered(k.kind)}
	if k.kind == value.NoKind {
		return out, false // the column is reported
	}
	words := c.book.env.Words(k.kind)
	switch {
	case (out.known || out.unknown) && len(k.asked) == 0:
		fault(&c.faults, cell, codeTable, k.node.Text()+" always has a value", text, "a value, or any")
		return out, false
	case out.unknown:
	case (out.any || out.known) && k.kind == value.BoolKind:
		out.words = []string{"true", "false"}
	case out.any || out.known:
		out.words = namesIn(words, func(w *value.Word) string { return w.Name })
	case cell.Shape() == document.Scalar && out.ordered:
		return c.stretch(out, k)
	case cell.Shape() == document.Sequence && len(words) == 0, cell.Shape() == document.Mapping, k.kind != value.BoolKind && len(words) == 0:
		fault(&c.faults, cell, codeTable, "this cell does not fit its column", asWritten(cell), "what "+k.node.Text()+" can be, of the kind "+string(k.kind)+", or any")
		return out, false
	default:
		return c.wordsIn(out, k)
	}
	return out, true
}

// wordsIn reads a cell of words, or of yes and no.
func (c *compiler) wordsIn(out span, k column) (span, bool) {
	cells, ok := []*document.Node{out.cell}, true
	if out.cell.Shape() == document.Sequence {
		cells = out.cell.Items()
	}
	for _, n := range cells {
		v, read := c.literal(n, k.kind)
		ok = ok && read
		if is, isTruth := v.Bool(); isTruth {
			out.words = append(out.words, map[bool]string{true: "true", false: "false"}[is])
		}
		if asked, isWord := v.Word(); isWord {
			for _, w := range c.book.env.Words(k.kind) {
				if w.Is(asked.Name) {
					out.words = append(out.words, w.Name)
				}
			}
		}
	}
	return out, ok
}

// stretch reads a band, or a single value.
func (c *compiler) stretch(out span, k column) (span, bool) {
	text := out.cell.Text()
	from, to, isBand := band(text)
	out.isBand = isBand
	if !isBand {
		before := len(c.faults)
		v, ok := c.end(out.cell, text, k.kind)
		if !ok {
			d := c.faults[before]
			d.Wanted += ", or a band: 3 to 5, below 3, 5 and more, up to 3, over 3"
			d.Nearest = cmp.Or(bandMeant(text), d.Nearest)
		}
		out.from, out.to = cut{v, false}, cut{v, true}
		return out, ok
	}
	first, fits := c.end(out.cell, from.text, k.kind)
	last, too := c.end(out.cell, to.text, k.kind)
	if !fits || !too {
		return out, false
	}
	out.from, out.to = cut{first, from.after}, cut{last, to.after}
	if order, _ := first.Compare(last); from.text != "" && to.text != "" && order >= 0 {
		d := fault(&c.faults, out.cell, codeBands, "the band ends before it begins", text, "the smaller end first, as in 3 to 5")
		if order > 0 {
			d.Nearest = to.text + " to " + from.text
		}
		return out, false
	}
	return out, true
}

// end reads one end of a band: a value as a setting has it, or the name of a
// setting.
func (c *compiler) end(cell *document.Node, text string, kind value.Kind) (value.Value, bool) {
	if text == "" {
		return value.Value{}, true
	}
	if s, ok := c.book.byName[text].(*Setting); ok && s.Value.Kind() == kind {
		return s.Value, true
	}
	v, d := c.literals.read(text, kind)
	if d == nil {
		return v, true
	}
	d.Place, d.Width = cell.Place(), cell.Width()
	if at := strings.Index(cell.Text(), text); at >= 0 {
		d.Place, d.Width = cell.At(len([]rune(cell.Text()[:at]))), len([]rune(text))
	}
	settings := slices.DeleteFunc(slices.Clone(c.book.settings), func(s *Setting) bool { return s.Value.Kind() != kind })
	names := namesIn(settings, func(s *Setting) string { return s.Name })
	if near := diagnostic.Nearest(text, names); near != "" && d.Nearest == "" && language.IsName(text) {
		d.Message, d.Wanted, d.Nearest = "no setting of the kind "+string(kind)+" is called so", "a value, or the name of a setting", near
	}
	c.faults.Add(d)
	return v, false
}

// apart reports rows that ask the same, and bands of a column that overlap or leave
// a gap where all other cells of their rows meet.
func (c *compiler) apart(d *decisionEntry, columns []column, rows []*entry, spans [][]span) {
	one := d.Take == rulebook.First || d.Take == rulebook.Only // where several rows may answer, bands may overlap
	before := len(c.faults)
	for j, second := range spans {
		for i, first := range spans[:j] {
			if !meet(first, second, -1) {
				continue
			}
			if slices.EqualFunc(first, second, sameSpan) {
				c.unclear(rows[i], rows[j], "ask the same", "cells that tell them apart, or one of them")
				break
			}
			told := len(c.faults)
			for k := range columns {
				if a, b := first[k], second[k]; one && a.isBand && b.isBand && !sameSpan(a, b) {
					c.bands(columns[k], "overlap", rows[i], rows[j], a, b)
				}
			}
			if d.Take == rulebook.Only && rows[i].node.Field("answer").Text() != rows[j].node.Field("answer").Text() && told == len(c.faults) {
				c.unclear(rows[i], rows[j], "answer differently where both fit", "cells that tell them apart, or take: first, by which the upper one answers")
			}
		}
	}
	for j, second := range spans {
		for k := range columns {
			if before < len(c.faults) {
				break
			}
			if i := nearestBelow(spans, j, k); i >= 0 {
				c.bands(columns[k], "leave a gap", rows[i], rows[j], spans[i][k], second[k])
			}
		}
	}
}

// unclear reports two rows that cannot be told apart.
func (c *compiler) unclear(first, second *entry, does, wanted string) {
	d := fault(&c.faults, second.name, codeAlike, "the rows "+first.id()+" and "+second.id()+" "+does, second.id(), wanted)
	d.Related = []diagnostic.Related{{Place: first.place(), Message: first.id() + " stands here"}}
}

// bands reports two bands of a column, of which the second is to begin where the
// first ends.
func (c *compiler) bands(k column, does string, first, second *entry, a, b span) {
	_, end, _ := band(a.cell.Text())
	_, to, _ := band(b.cell.Text())
	d := fault(&c.faults, b.cell, codeBands, "the bands of "+k.node.Text()+" in the rows "+first.id()+" and "+second.id()+" "+does, b.cell.Text()+", and "+a.cell.Text()+" in "+first.id(),
		"bands of which one begins where the other ends: 3 to 5 is from 3 up to, but not with, 5")
	d.Related = []diagnostic.Related{{Place: a.cell.Place(), Message: first.id() + " has " + a.cell.Text()}}
	switch {
	case end.text == "" || to.after:
	case to.text == "" && end.after:
		d.Nearest = "over " + end.text
	case to.text == "":
		d.Nearest = end.text + " and more"
	case !end.after && a.to.below(b.to):
		d.Nearest = end.text + " to " + to.text
	}
}

// nearestBelow returns the row with the band that ends last below that of row j in
// column k, where a gap is between them that no row fills; -1 if there is none.
func nearestBelow(spans [][]span, j, k int) int {
	at := -1
	for i := range spans {
		a, b := spans[i][k], spans[j][k]
		if i == j || !a.isBand || !b.isBand || a.to.IsZero() || b.from.IsZero() || !a.to.below(b.from) || !meet(spans[i], spans[j], k) {
			continue
		}
		box := make([]span, len(spans[i]))
		for n := range box {
			box[n] = spans[i][n].with(spans[j][n])
		}
		box[k] = span{ordered: true, from: a.to, to: b.from}
		if uncovered(box, k, spans) && (at < 0 || spans[at][k].to.below(a.to)) {
			at = i
		}
	}
	return at
}

// uncovered reports whether any part of a box is in no row. What is partly filled in
// the gap's own column is a gap between other rows.
func uncovered(box []span, gap int, rows [][]span) bool {
	for n, r := range rows {
		if !meet(box, r, -1) {
			continue
		}
		for k := range box {
			if k == gap {
				continue
			}
			for _, rest := range box[k].but(r[k]) {
				part := slices.Clone(box)
				if part[k] = rest; uncovered(part, gap, rows[n+1:]) {
					return true
				}
			}
			box = slices.Clone(box)
			box[k] = box[k].with(r[k])
		}
		return false
	}
	return true
}
