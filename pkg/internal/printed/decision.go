package printed

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// decision writes a decision: what is asked, how an answer is chosen, the rules
// and the limits.
func (w *writer) decision(d *engine.Decision) *Section {
	out := &Section{ID: slug("decision", d.Name), Title: d.Asks, Name: d.Name, Marks: w.marks(d.Amended)}
	if d.When != nil {
		out.About = append(out.About, "Asked only where "+w.condition(d.When).line()+".")
	}
	if d.Question != "" {
		out.About = append(out.About, "The job answers it, under "+d.Question+".")
	}
	columns := w.columns(d)
	if d.Columns != nil {
		out.Columns = append(columns, "Answer", "Because", "Source")
	}
	if len(d.Rules) > 1 {
		out.About = append(out.About, takes[d.Take])
	}
	for i, r := range d.Rules {
		if len(r.Cells) > 0 {
			out.Rows = append(out.Rows, w.row(columns, r))
			continue
		}
		main := w.conditioned("", w.formula(r.Answer.Text), r.When, "", r.Answer.Text)
		lines := []Line{main, w.reason("Because", r.Because), source(r.Source), {Label: "How sure", Text: string(r.Standing)}, {Label: "To confirm", Text: w.filled(r.Confirm)}}
		c := w.clause(r.ID, r.Amended, lines...)
		c.Lead = lead(d.Take, i, r.When != nil)
		out.Clauses = append(out.Clauses, c)
	}
	for _, l := range d.Limits() {
		c := w.clause(l.ID, l.Amended, w.limit(l), w.reason("Because", l.Because), source(l.Source))
		c.Lead = "Limit:"
		if l.When != nil {
			c.Lead = "Limit, where"
		}
		out.Clauses = append(out.Clauses, c)
	}
	for _, c := range slices.Concat(out.Rows, out.Clauses) {
		if slices.Equal(c.Marks, out.Marks) {
			c.Marks = nil // said once, of all of it
		}
	}
	return out
}

// columns are the heads of a decision that is written as a table.
func (w *writer) columns(d *engine.Decision) []string {
	var out []string
	for _, name := range d.Columns {
		head := w.formula(name)
		if o := w.outline(name); o.Property != "" && strings.HasPrefix(w.properties[w.kind(o.Parts[0])][o.Property], "whether ") {
			head = w.has(o, false)
		}
		out = append(out, title(strings.TrimPrefix(head, "the ")))
	}
	return out
}

// row is a rule that is a row of such a table.
func (w *writer) row(columns []string, r *engine.Rule) *Clause {
	var lines []Line
	for i, label := range columns {
		lines = append(lines, Line{Label: label, Text: w.cell(r.Cells[i].Text)})
	}
	return w.clause(r.ID, r.Amended, append(lines, Line{Label: "Answer", Text: w.formula(r.Answer.Text), Code: r.Answer.Text, written: r.Answer.Text}, w.reason("Because", r.Because), source(r.Source))...)
}

// cell says a cell with the labels of its words.
func (w *writer) cell(text string) string {
	words := strings.Split(text, ", ")
	for i, each := range words {
		if o := w.outline(each); o != nil && !o.Value.IsZero() {
			words[i] = shown(o.Value)
		}
	}
	return listed(words, " or ")
}

// takes says how an answer is chosen among several rules.
var takes = map[rulebook.Take]string{
	rulebook.First:    "The first of these rules that applies:",
	rulebook.Only:     "The one of these rules that applies; two that answer differently are an error of the rulebook:",
	rulebook.Largest:  "The largest that any of these rules calls for:",
	rulebook.Smallest: "The smallest that any of these rules calls for:",
	rulebook.All:      "All that these rules answer where they apply, in this order:",
}

// lead is what a rule begins with by its place.
func lead(take rulebook.Take, i int, when bool) string {
	switch {
	case take == rulebook.First && i > 0 && when:
		return "Otherwise, where"
	case take == rulebook.First && i > 0:
		return "Otherwise:"
	case when:
		return "Where"
	}
	return "Always:"
}

func (w *writer) limit(l *engine.Limit) Line {
	var says, code string
	text := func(how string, of rulebook.Text) {
		if of == (rulebook.Text{}) {
			return
		}
		code = of.Text
		says = how + " " + w.formula(of.Text)
		if of.Text == engine.ByRules {
			says = how + " what the rules answer, whoever else answers"
		}
	}
	text("at least", l.AtLeast)
	text("at most", l.AtMost)
	if l.OneOf != nil {
		says = "only " + labels(l.OneOf)
	}
	if l.NoneOf != nil {
		says = "never " + labels(l.NoneOf)
	}
	return w.conditioned("", says, l.When, "", cmp.Or(code, says))
}

func labels(words []value.Word) string {
	var out []string
	for _, w := range words {
		out = append(out, w.Label)
	}
	return listed(out, " or ")
}
