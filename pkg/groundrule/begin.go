package groundrule

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// Begin returns a job file to begin with, in the words of the rulebook: what every
// job must say, filled in with an example, then what people are asked, what matters
// most first, each commented out with how it is found and what it may be, and last
// whatever else a job may say. It can be designed as it stands.
func (b *Book) Begin() []byte {
	w := &beginner{fields: b.fields, questions: b.Rules().Questions}
	w.comment("", "A job for groundrule. What has no # before it is read: change it. Of the rest fill in what is known and take its # away; leave out what is not. It is assumed then, and the sheet says so. Keys are set in under the key they belong to, two blanks each.")
	w.keys("", func(f site.Field) bool { return f.Required })
	w.keys("", func(f site.Field) bool { return !f.Required })
	return w.out.Bytes()
}

// beginner writes a job file to begin with.
type beginner struct {
	out       bytes.Buffer
	fields    []site.Field
	questions []rulebook.Question
}

// comment writes lines of remarks.
func (w *beginner) comment(indent, text string) {
	const width = 80
	line := indent + "#"
	for _, word := range strings.Fields(text) {
		if len(line)+1+len(word) > width && len(line) > len(indent)+1 {
			w.out.WriteString(line + "\n")
			line = indent + "#  "
		}
		line += " " + word
	}
	w.out.WriteString(line + "\n")
}

// keys writes the keys under a path that are wanted: what is asked for first, in the
// order of the questions, then the others in that of the table.
func (w *beginner) keys(under string, wanted func(site.Field) bool) {
	var first, others []site.Field
	for _, f := range w.fields {
		if key, in := strings.CutPrefix(f.Path, under); !in || strings.ContainsAny(key, ".[") || !wanted(f) || f.Path == "overrides" { // who takes one knows a decision
			continue
		}
		if w.rank(f.Path) < len(w.questions) {
			first = append(first, f)
		} else {
			others = append(others, f)
		}
	}
	slices.SortStableFunc(first, func(a, b site.Field) int { return w.rank(a.Path) - w.rank(b.Path) })
	indent := strings.Repeat("  ", strings.Count(under, "."))
	for _, f := range slices.Concat(first, others) {
		key := f.Path[len(under):]
		w.out.WriteString("\n")
		if f.Form == site.GroupForm {
			w.comment(indent, strings.ToUpper(f.Label)+": "+f.About)
			w.out.WriteString(indent + key + ":\n")
			w.keys(f.Path+".", func(site.Field) bool { return true })
			continue
		}
		w.about(indent, f)
		mark := "# "
		if f.Required {
			mark = ""
		}
		w.out.WriteString(indent + mark + key + ": " + w.example(f) + "\n")
	}
}

// rank is the place of a key, or of the first of those under it, among the questions.
func (w *beginner) rank(path string) int {
	for i, q := range w.questions {
		if q.Key == path || strings.HasPrefix(q.Key, path+".") {
			return i
		}
	}
	return len(w.questions)
}

// about says how people are asked for a value and how they find it out, or else what
// it is, and which words may stand there.
func (w *beginner) about(indent string, f site.Field) {
	if at := slices.IndexFunc(w.questions, func(q rulebook.Question) bool { return q.Key == f.Path }); at >= 0 {
		q := w.questions[at]
		how := q.How.Text
		if strings.Contains(how, "{") {
			how = "" // it quotes values of a job
		}
		w.comment(indent, q.Asks+" "+how)
	} else {
		w.comment(indent, f.Label+": "+f.About)
	}
	var bare []string
	for _, word := range f.Vocabulary.Words {
		if word.About == "" {
			bare = append(bare, word.GoValue())
			continue
		}
		w.comment(indent, "- "+word.GoValue()+": "+word.About)
	}
	if len(bare) > 0 {
		w.comment(indent, "One of: "+strings.Join(bare, ", "))
	}
}

// example is a value as a job file has it; of a list, one item.
func (w *beginner) example(f site.Field) string {
	words := f.Vocabulary.Words
	switch {
	case len(words) > 0 && !slices.ContainsFunc(words, func(w value.WordEntry) bool { return w.GoValue() == f.Example }):
		return words[0].GoValue()
	case f.Form != site.ListForm || f.Example != "":
		return f.Example
	}
	var parts []string
	for _, each := range w.fields {
		if key, in := strings.CutPrefix(each.Path, f.Path+"[]."); in {
			parts = append(parts, fmt.Sprintf("%s: %s", key, w.example(each)))
		}
	}
	return "[{" + strings.Join(parts, ", ") + "}]"
}
