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
	var rows []*ruleEntry
	var spans [][]span
	wrong := false // one slip is told once: what is wrong is not compared
	all := slices.Clone(d.rules)
	for _, l := range d.lifted {
		all = append(all, l.ruleEntry)
	}
	for i, r := range all {
		if r.row == nil || r.when != r.row.when {
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
		r.when = r.row.condition(func(k int) []string {
			return columns[k].asked
		})
		r.When = text(r.when)
		if i < len(d.rules) {
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
	known := language.Given{}
	for name := range given {
		known[name] = true
	}
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

// span is what a cell lets through: of words some, of what has an order a single
// value, or from one up to, but not with, another.
type span struct {
	cell         *document.Node
	any, unknown bool
	words        []string
	at, from, to value.Value // zero for none
	ordered      bool
}

func (s span) band() bool { return s.ordered && !s.any && !s.unknown && s.at.IsZero() }

// span reads a cell as its column has it, and reports what does not fit.
func (c *compiler) span(cell *document.Node, k column) (span, bool) {
	out := span{cell: cell, any: cell.Text() == anyCell, unknown: cell.Text() == unknownCell, ordered: ordered(k.kind)}
	if k.kind == value.NoKind {
		return out, false // the column is reported
	}
	words := c.book.env.Words(k.kind)
	switch {
	case out.any && k.kind == value.BoolKind:
		out.words = []string{"true", "false"}
	case out.any:
		out.words = namesIn(words, func(w *value.Word) string { return w.Name })
	case out.unknown && len(k.asked) == 0:
		fault(&c.faults, cell, codeTable, k.node.Text()+" always has a value", cell.Text(), "a value, or any")
		return out, false
	case out.unknown:
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
	if !isBand {
		var ok bool
		before := len(c.faults)
		if out.at, ok = c.end(out.cell, text, k.kind); !ok && len(c.faults) > before {
			d := c.faults[before]
			d.Wanted += ", or a band: 3 to 5, below 3, 5 and more"
			d.Nearest = cmp.Or(bandMeant(text), d.Nearest)
		}
		return out, ok
	}
	var fits, too bool
	out.from, fits = c.end(out.cell, from, k.kind)
	out.to, too = c.end(out.cell, to, k.kind)
	if !fits || !too {
		return out, false
	}
	if order, _ := value.Compare(out.from, out.to); from != "" && to != "" && order >= 0 {
		d := fault(&c.faults, out.cell, codeBands, "the band ends before it begins", text, "the smaller end first, as in 3 to 5")
		if order > 0 {
			d.Nearest = to + " to " + from
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
	if near := diagnostic.Nearest(text, c.settingsOf(kind)); near != "" && d.Nearest == "" && language.IsName(text) {
		d.Message, d.Wanted, d.Nearest = "no setting of the kind "+string(kind)+" is called so", "a value, or the name of a setting", near
	}
	c.faults.Add(d)
	return v, false
}

func (c *compiler) settingsOf(kind value.Kind) []string {
	var out []string
	for _, s := range c.book.settings {
		if s.Value.Kind() == kind {
			out = append(out, s.Name)
		}
	}
	return out
}

// apart reports rows that ask the same, and bands of a column that overlap or leave
// a gap where all other cells of their rows meet.
func (c *compiler) apart(d *decisionEntry, columns []column, rows []*ruleEntry, spans [][]span) {
	one := d.Take == rulebook.First || d.Take == rulebook.Only // where several rows may answer, bands may overlap
	before := len(c.faults)
	for j, second := range spans {
		for i, first := range spans[:j] {
			if !meet(first, second, -1) {
				continue
			}
			if alike(first, second) {
				c.unclear(rows[i], rows[j], "ask the same", "cells that tell them apart, or one of them")
				break
			}
			told := len(c.faults)
			for k := range columns {
				if a, b := first[k], second[k]; one && a.band() && b.band() && !sameSpan(a, b) {
					c.bands(columns[k], "overlap", rows[i], rows[j], a, b)
				}
			}
			if d.Take == rulebook.Only && rows[i].Answer.Text != rows[j].Answer.Text && told == len(c.faults) {
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
func (c *compiler) unclear(first, second *ruleEntry, does, wanted string) {
	d := fault(&c.faults, second.name, codeAlike, "the rows "+first.ID+" and "+second.ID+" "+does, second.ID, wanted)
	d.Related = []diagnostic.Related{{Place: first.Place, Message: first.ID + " stands here"}}
}

// bands reports two bands of a column, of which the second is to begin where the
// first ends.
func (c *compiler) bands(k column, does string, first, second *ruleEntry, a, b span) {
	_, end, _ := band(a.cell.Text())
	_, to, _ := band(b.cell.Text())
	d := fault(&c.faults, b.cell, codeBands, "the bands of "+k.node.Text()+" in the rows "+first.ID+" and "+second.ID+" "+does, b.cell.Text()+", and "+a.cell.Text()+" in "+first.ID,
		"bands of which one begins where the other ends: 3 to 5 is from 3 up to, but not with, 5")
	d.Related = []diagnostic.Related{{Place: a.cell.Place(), Message: first.ID + " has " + a.cell.Text()}}
	if order, _ := value.Compare(a.to, b.to); !a.to.IsZero() && (b.to.IsZero() || order < 0) {
		d.Nearest = end + " and more"
		if to != "" {
			d.Nearest = end + " to " + to
		}
	}
}

// nearestBelow returns the row with the band that ends last below that of row j in
// column k, where a gap is between them that no row fills; -1 if there is none.
func nearestBelow(spans [][]span, j, k int) int {
	at := -1
	for i := range spans {
		a, b := spans[i][k], spans[j][k]
		if i == j || !a.band() || !b.band() || a.to.IsZero() || b.from.IsZero() || !less(a.to, b.from) || !meet(spans[i], spans[j], k) {
			continue
		}
		box := make([]span, len(spans[i]))
		for n := range box {
			box[n] = spans[i][n].with(spans[j][n])
		}
		box[k] = span{ordered: true, from: a.to, to: b.from}
		if uncovered(box, k, spans) && (at < 0 || less(spans[at][k].to, a.to)) {
			at = i
		}
	}
	return at
}

// uncovered reports whether any part of a box is in no row. What is partly filled in
// the gap's own column is a gap between other rows.
func uncovered(box []span, gap int, rows [][]span) bool {
	for n, r := range rows {
		if !meet(box, r, -1) || slices.ContainsFunc(r, func(s span) bool { return !s.at.IsZero() }) {
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

// meet reports whether some job is in both rows, in all columns but one.
func meet(a, b []span, but int) bool {
	for k := range a {
		if k != but && !a[k].meets(b[k]) {
			return false
		}
	}
	return true
}

func alike(a, b []span) bool { return slices.EqualFunc(a, b, sameSpan) }

func sameSpan(a, b span) bool {
	same := func(v, w value.Value) bool { return v.IsZero() && w.IsZero() || v.Equal(w) }
	return a.unknown == b.unknown && a.any == b.any && same(a.at, b.at) && same(a.from, b.from) && same(a.to, b.to) && slices.Equal(slices.Sorted(slices.Values(a.words)), slices.Sorted(slices.Values(b.words)))
}

func (s span) meets(t span) bool {
	switch {
	case s.unknown || t.unknown:
		return (s.unknown || s.any) && (t.unknown || t.any)
	case !s.ordered:
		return s.any && t.any || slices.ContainsFunc(s.words, func(w string) bool { return slices.Contains(t.words, w) })
	case !s.at.IsZero() && !t.at.IsZero():
		return s.at.Equal(t.at)
	case !s.at.IsZero():
		return t.has(s.at)
	case !t.at.IsZero():
		return s.has(t.at)
	}
	both := s.with(t)
	return both.from.IsZero() || both.to.IsZero() || less(both.from, both.to)
}

func (s span) has(v value.Value) bool {
	return (s.from.IsZero() || !less(v, s.from)) && (s.to.IsZero() || less(v, s.to))
}

// with is what is in both spans.
func (s span) with(t span) span {
	out := s
	out.any = s.any && t.any
	out.words = slices.DeleteFunc(slices.Clone(s.words), func(w string) bool { return !slices.Contains(t.words, w) })
	if s.from.IsZero() || !t.from.IsZero() && less(s.from, t.from) {
		out.from = t.from
	}
	if s.to.IsZero() || !t.to.IsZero() && less(t.to, s.to) {
		out.to = t.to
	}
	return out
}

// but is what is in the span and not in the other, in parts.
func (s span) but(t span) []span {
	var out []span
	if !s.ordered {
		part := s
		part.any = false
		part.words = slices.DeleteFunc(slices.Clone(s.words), func(w string) bool { return slices.Contains(t.words, w) })
		if len(part.words) > 0 {
			out = append(out, part)
		}
		return out
	}
	if !t.from.IsZero() && (s.from.IsZero() || less(s.from, t.from)) {
		part := s
		part.any, part.to = false, t.from
		out = append(out, part)
	}
	if !t.to.IsZero() && (s.to.IsZero() || less(t.to, s.to)) {
		part := s
		part.any, part.from = false, t.to
		out = append(out, part)
	}
	return out
}

func less(v, w value.Value) bool {
	order, _ := value.Compare(v, w)
	return order < 0
}
