package printed

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Of makes the document of a book.
func Of(b *engine.Book, o Options) *Document {
	out := newWriter(b, nil, o).document()
	brief(out.Chapters)
	return out
}

func newWriter(b *engine.Book, home map[string]string, o Options) *writer {
	return &writer{speaker: newSpeaker(b), holds: b.Contents(), home: home, proof: o.Proof, out: &Document{Title: "The rulebook"}}
}

func (w *writer) document() *Document {
	w.facts()
	for _, c := range w.chapters() {
		w.chapter(c)
	}
	w.sources()
	number(w.out.Chapters)
	return w.out
}

// writer makes the document.
type writer struct {
	*speaker
	holds rulebook.Contents
	// home are the chapters of entries that are to be written elsewhere than where
	// they stand.
	home map[string]string
	// proof says how each promise is settled, nil if that was not asked.
	proof map[string]string
	out   *Document
}

// in reports whether an entry is written in a chapter.
func (w *writer) in(chapter, name, stands string) bool {
	return cmp.Or(w.home[name], stands) == chapter
}

// homes returns the chapter of each entry of a book as it was before, and of what
// an amendment put in another's place the chapter of that one.
func homes(before, after *engine.Book) map[string]string {
	out := map[string]string{}
	entries(before, func(name, chapter string, _ *rulebook.Amended) { out[name] = chapter })
	entries(after, func(name, _ string, by *rulebook.Amended) {
		if was := formerly(by); out[was] != "" {
			out[name] = out[was]
		}
	})
	return out
}

// formerly is what an entry was called before any amendment, "" for one that none
// changed.
func formerly(by *rulebook.Amended) string {
	if by == nil || len(by.Replaced) == 0 {
		return ""
	}
	return by.Replaced[len(by.Replaced)-1].ID
}

// entries hands out the entries that stand in chapters, but for rules and limits,
// which stand where their decision does.
func entries(b *engine.Book, each func(name, chapter string, by *rulebook.Amended)) {
	c := b.Contents()
	for _, x := range c.Settings {
		each(x.Name, x.Chapter, x.Amended)
	}
	for _, x := range c.Terms {
		each(x.Name, x.Chapter, x.Amended)
	}
	for _, x := range c.Decisions {
		each(x.Name, x.Chapter, x.Amended)
	}
	for _, x := range c.Courses {
		each(x.Name, x.Chapter, x.Amended)
	}
	for _, x := range c.Checks {
		each(x.ID, x.Chapter, x.Amended)
	}
	for _, x := range c.Cautions {
		each(x.ID, x.Chapter, x.Amended)
	}
	for _, x := range c.Refusals {
		each(x.ID, x.Chapter, x.Amended)
	}
	for _, x := range c.Promises {
		each(x.ID, x.Chapter, x.Amended)
	}
	for _, v := range c.Vocabularies {
		for _, x := range v.Words {
			each(x.Word.Name, x.Chapter, x.Amended)
		}
	}
}

func (w *writer) facts() {
	if !w.holds.AsOf.IsZero() {
		w.out.Facts = append(w.out.Facts, "In force on "+w.holds.AsOf.String()+".")
	}
	for _, a := range w.holds.Amendments {
		w.out.Facts = append(w.out.Facts, fmt.Sprintf("Amended by %s of %s (%s, %s): %s", a.Name, a.Company, a.Who, a.When, a.Why))
	}
	for _, v := range w.holds.Variances {
		of := cmp.Or(w.words(v.Setting), v.Bound, v.Retires)
		w.out.Facts = append(w.out.Facts, fmt.Sprintf("By permission (%s), of %s: %s, through %s: %s", v.Name, v.Who, of, v.Until, v.Why))
	}
	for _, i := range w.holds.Idle {
		days := ""
		if !i.From.IsZero() {
			days = " from " + i.From.String()
		}
		if !i.Until.IsZero() {
			days += " through " + i.Until.String()
		}
		w.out.Facts = append(w.out.Facts, "Not in force on that day: "+i.What+", which applies"+days+".")
	}
	for _, f := range w.holds.Files {
		w.out.Files = append(w.out.Files, f.Name+" "+f.SHA256)
	}
}

// chapters are those of the files, and those of amendments behind them.
func (w *writer) chapters() []rulebook.Chapter {
	out := w.holds.Chapters
	for _, a := range w.holds.Amendments {
		out = append(out, rulebook.Chapter{Name: "amendment " + a.Name, About: a.Why})
	}
	return out
}

// chapter adds a chapter with all that stands in it, and nothing if that is
// nothing.
func (w *writer) chapter(c rulebook.Chapter) {
	out := &Section{ID: slug("chapter", c.Name), Title: title(c.Name), About: []string{c.About}}
	add := func(s *Section) {
		if len(s.Rows)+len(s.Clauses) > 0 {
			s.ID = slug(c.Name, s.ID)
			out.Sections = append(out.Sections, s)
		}
	}
	add(w.settings(c.Name))
	for _, v := range w.holds.Vocabularies {
		add(w.vocabulary(v, c.Name))
	}
	add(w.terms(c.Name))
	for _, d := range w.book.Decisions() {
		if w.in(c.Name, d.Name, d.Chapter) {
			add(w.decision(d))
		}
	}
	add(w.courses(c.Name))
	add(w.checks(c.Name))
	add(w.cautions(c.Name))
	add(w.refusals(c.Name))
	add(w.promises(c.Name))
	if len(out.Sections) > 0 {
		w.out.Chapters = append(w.out.Chapters, out)
	}
}

func (w *writer) settings(chapter string) *Section {
	out := &Section{ID: "settings", Title: "Settings", Columns: []string{"Setting", "Value", "Limits", "Because", "Source"}}
	for _, s := range w.book.Settings() {
		if !w.in(chapter, s.Name, s.Chapter) {
			continue
		}
		var limits []string
		if !s.AtLeast.IsZero() {
			limits = append(limits, "at least "+shown(s.AtLeast))
		}
		if !s.AtMost.IsZero() {
			limits = append(limits, "at most "+shown(s.AtMost))
		}
		out.Rows = append(out.Rows, w.clause(s.Name, s.Amended, Line{Text: title(w.words(s.Name))}, Line{Label: "Value", Text: shown(s.Value)},
			Line{Label: "Limits", Text: strings.Join(limits, ", ")}, w.reason("Because", s.Why()), source(s.Source)))
	}
	return out
}

// vocabulary lists the words, or the materials, of a kind that stand in a chapter.
func (w *writer) vocabulary(v rulebook.Vocabulary, chapter string) *Section {
	out := &Section{ID: slug("words", string(v.Kind)), Title: title(w.words(string(v.Kind))), Columns: []string{"Word", "About", "Because", "Source"}}
	if len(v.Properties) > 0 {
		out.Columns = slices.Insert(out.Columns, 1, "Properties")
	}
	for _, word := range v.Words {
		if !w.in(chapter, word.Word.Name, word.Chapter) {
			continue
		}
		lines := []Line{{Text: word.Word.Label}}
		if len(v.Properties) > 0 {
			lines = append(lines, Line{Label: "Properties", Text: w.propertiesOf(v, word)})
		}
		out.Rows = append(out.Rows, w.clause(word.Word.Name, word.Amended, append(lines, Line{Label: "About", Text: word.Word.About},
			Line{Label: "Because", Text: word.Because.Text}, source(word.Source))...))
	}
	return out
}

func (w *writer) propertiesOf(v rulebook.Vocabulary, word rulebook.Word) string {
	var out []string
	for _, p := range v.Properties {
		has := word.Word.Property(p.Name)
		switch yes, is := has.Bool(); {
		case is && yes:
			out = append(out, w.words(p.Name))
		case !is && !has.IsZero():
			out = append(out, w.words(p.Name)+": "+strings.TrimSuffix(shown(has), "."))
		}
	}
	return strings.Join(out, "; ")
}

func (w *writer) terms(chapter string) *Section {
	out := &Section{ID: "terms", Title: "Worked out from the job"}
	for _, t := range w.book.Terms() {
		if !w.in(chapter, t.Name, t.Chapter) {
			continue
		}
		noun, is := w.name(t.Name), w.formula(t.Value.Text)
		if c := t.TermCondition(); c != nil {
			is = w.condition(c).line()
		}
		main := Line{Text: sentence(noun + ": " + is), Code: t.Value.Text, written: t.Value.Text}
		if clause, whether := w.whether[t.Name]; whether {
			main = w.conditioned("", clause, t.TermCondition(), " if ", "")
		}
		out.Clauses = append(out.Clauses, w.clause(t.Name, t.Amended, main, w.only("Only", t.When()), Line{Label: "About", Text: sentence(t.About)},
			w.reason("Because", t.Why()), source(t.Source)))
	}
	return out
}

// decision writes a decision: what is asked, how an answer is chosen, the rules
// and the limits.
func (w *writer) decision(d *engine.Decision) *Section {
	out := &Section{ID: slug("decision", d.Name), Title: d.Asks, Marks: w.marks(d.Amended)}
	if d.When() != nil {
		out.About = append(out.About, "Asked only where "+w.condition(d.When()).line()+".")
	}
	if d.Question != "" {
		out.About = append(out.About, "The job answers it, under "+d.Question+".")
	}
	if d.Columns != nil {
		out.Columns = append(w.columns(d), "Answer", "Because", "Source")
	}
	if len(d.Rules) > 1 {
		out.About = append(out.About, takes[d.Take])
	}
	for i, r := range d.Rules {
		if d.Columns != nil {
			out.Rows = append(out.Rows, w.row(d, r))
			continue
		}
		main := w.conditioned("", w.formula(r.Answer.Text), r.When(), "", r.Answer.Text)
		lines := []Line{main, w.reason("Because", r.Because()), source(r.Source), {Label: "How sure", Text: string(r.Standing)}, {Label: "To confirm", Text: r.Confirm}}
		c := w.clause(r.ID, r.Amended, lines...)
		c.Lead = lead(d.Take, i, r.When() != nil)
		out.Clauses = append(out.Clauses, c)
	}
	for _, l := range d.Limits() {
		c := w.clause(l.ID, l.Amended, w.limit(l), w.reason("Because", l.Because()), source(l.Source))
		c.Lead = "Limit:"
		if l.When() != nil {
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
		out = append(out, title(strings.TrimPrefix(w.formula(name), "the ")))
	}
	return out
}

// row is a rule that is a row of such a table.
func (w *writer) row(d *engine.Decision, r *engine.Rule) *Clause {
	var lines []Line
	for i, label := range w.columns(d) {
		lines = append(lines, Line{Label: label, Text: w.cell(r.Cells[i].Text)})
	}
	return w.clause(r.ID, r.Amended, append(lines, Line{Label: "Answer", Text: w.formula(r.Answer.Text), Code: r.Answer.Text, written: r.Answer.Text}, w.reason("Because", r.Because()), source(r.Source))...)
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
		says = "only " + labels(l.OneOf, " or ")
	}
	if l.NoneOf != nil {
		says = "never " + labels(l.NoneOf, " or ")
	}
	return w.conditioned("", says, l.When(), "", cmp.Or(code, says))
}

func labels(words []value.Word, between string) string {
	var out []string
	for _, w := range words {
		out = append(out, w.Label)
	}
	return listed(out, between)
}

func (w *writer) courses(chapter string) *Section {
	out := &Section{ID: "courses", Title: "Courses, from the bottom up"}
	for _, c := range w.book.Courses() {
		if !w.in(chapter, c.Name, c.Chapter) {
			continue
		}
		var takes []string
		for _, a := range c.Attributes {
			takes = append(takes, w.words(a.Name)+" is "+w.name(a.Decision))
		}
		out.Clauses = append(out.Clauses, w.clause(c.Name, c.Amended, Line{Text: c.Label + "."}, w.only("Laid only", c.When()),
			Line{Label: "Each of its values", Text: sentence(strings.Join(takes, "; "))}, w.reason("Because", c.Because()), source(c.Source)))
	}
	return out
}

func (w *writer) checks(chapter string) *Section {
	out := &Section{ID: "checks", Title: "Checks of the finished section"}
	for _, c := range w.book.Checks() {
		if !w.in(chapter, c.ID, c.Chapter) {
			continue
		}
		must := Line{Label: "Passes where", Code: c.Compares(), written: c.Compares()}
		if c.Holds() != nil {
			must = w.only("Passes", c.Holds())
		} else {
			must.Text = sentence(w.comparison(w.outline(c.Compares()), false))
		}
		fails := "It cautions where it fails."
		if c.Failing == rulebook.Stops {
			fails = "It stops the design where it fails."
		}
		out.Clauses = append(out.Clauses, w.clause(c.ID, c.Amended, Line{Text: c.Asks + " " + fails}, w.only("Made only", c.When()), must,
			w.reason("If not", c.Says()), w.reason("Because", c.Because()), source(c.Source)))
	}
	return out
}

func (w *writer) cautions(chapter string) *Section {
	out := &Section{ID: "cautions", Title: "Cautions"}
	for _, c := range w.book.Cautions() {
		if !w.in(chapter, c.ID, c.Chapter) {
			continue
		}
		owed := ""
		if c.Owed {
			owed = "Every section owes it; only a variance takes it away."
		}
		out.Clauses = append(out.Clauses, w.clause(c.ID, c.Amended, w.spoken(c.When(), c.Says()), Line{Label: "Owed", Text: owed}, source(c.Source)))
	}
	return out
}

func (w *writer) refusals(chapter string) *Section {
	out := &Section{ID: "refusals", Title: "Jobs that are refused"}
	for _, r := range w.book.Refusals() {
		if w.in(chapter, r.ID, r.Chapter) {
			out.Clauses = append(out.Clauses, w.clause(r.ID, r.Amended, w.spoken(r.When(), r.Says()),
				w.reason("Who should design it", r.Who()), source(r.Source)))
		}
	}
	return out
}

func (w *writer) promises(chapter string) *Section {
	out := &Section{ID: "promises", Title: "Promises, on every job that gets a section"}
	if w.proof == nil {
		out.About = []string{"How each is settled is found by groundrule book prove; this copy was printed without it."}
	}
	for _, p := range w.book.Promises() {
		if !w.in(chapter, p.ID, p.Chapter) {
			continue
		}
		var says string
		code := cmp.Or(p.Promise.Always.Text, p.Promise.Never.Text)
		switch name, rises := p.As(); {
		case p.Always() != nil:
			says = "always, " + w.condition(p.Always()).line()
		case p.Never() != nil:
			says = "never so: " + w.condition(p.Never()).line()
		default:
			then, neverRises := w.book.Then(p)
			code = p.Promise.As.Text + " → " + p.Promise.Then.Text
			says = fmt.Sprintf("%s never %s as %s %s, all else equal", w.formula(then.Text()), way(neverRises), w.name(name), way(rises))
		}
		main := w.conditioned(start(p.When()), says, p.When(), "", code)
		out.Clauses = append(out.Clauses, w.clause(p.ID, p.Amended, main, w.reason("Because", p.Why()), source(p.Source), Line{Label: "Proof", Text: w.proof[p.ID]}))
	}
	return out
}

func way(rises bool) string {
	if rises {
		return "rises"
	}
	return "falls"
}

// sources lists the documents, with how each is known.
func (w *writer) sources() {
	list := &Section{ID: "sources-list", Title: "Documents", Columns: []string{"Document", "How it is known"}}
	for _, s := range w.holds.Sources {
		if s.Document == "" {
			continue // practice and the like, which say themselves what they are
		}
		list.Rows = append(list.Rows, w.clause(s.ID, s.Amended, Line{Text: s.Document}, Line{Label: "How it is known", Text: known[s.Known] + strings.TrimRight("; "+s.Via, "; ")}))
	}
	if len(list.Rows) > 0 {
		w.out.Chapters = append(w.out.Chapters, &Section{ID: "sources", Title: "Sources", About: []string{"What the clauses rest on, and how each document is known."}, Sections: []*Section{list}})
	}
}

var known = map[value.Known]string{value.Seen: "read", value.Relayed: "as another document relays it", value.Memory: "from memory, not read again", value.Computed: "computed",
	value.Practice: "common practice, no published source", value.Own: "this rulebook's own choice", value.Company: "a company's own standard"}
