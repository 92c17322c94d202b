package printed

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/jobnode"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

func (w *writer) settings() {
	head := Section{ID: "settings", Title: "Settings", Columns: []string{"Setting", "Value", "Limits", "Because", "Source"}}
	for _, s := range w.book.Settings() {
		limits := ""
		switch least, atMost := shown(s.AtLeast), shown(s.AtMost); {
		case !s.AtLeast.IsZero() && !s.AtMost.IsZero():
			limits = least + " to " + atMost
		case !s.AtLeast.IsZero():
			limits = "at least " + least
		case !s.AtMost.IsZero():
			limits = "at most " + atMost
		}
		w.add(head, "setting", s.Name, s.Chapter, s.Amended, Line{Text: title(w.setting(s.Name))}, Line{Label: "Value", Text: shown(s.Value)},
			Line{Label: "Limits", Text: limits}, w.reason("Because", s.Why), source(s.Source))
	}
}

// vocabulary lists the words, or the materials, of a kind.
func (w *writer) vocabulary(v rulebook.Vocabulary) {
	head := Section{ID: slug("words", string(v.Kind)), Title: title(w.words(string(v.Kind))), Columns: []string{"Word", "About", "Because", "Source"}}
	if len(v.Properties) > 0 {
		head.Columns = slices.Insert(head.Columns, 1, "Properties")
	}
	for _, word := range v.Words {
		lines := []Line{{Text: word.Word.Label}}
		if len(v.Properties) > 0 {
			lines = append(lines, Line{Label: "Properties", Text: w.propertiesOf(v, word)})
		}
		w.add(head, word.Sort, word.Word.Name, word.Chapter, word.Amended, append(lines, Line{Label: "About", Text: word.Word.About},
			Line{Label: "Because", Text: word.Because.Text}, source(word.Source))...)
	}
}

func (w *writer) propertiesOf(v rulebook.Vocabulary, word rulebook.Word) string {
	var out []string
	for _, p := range v.Properties {
		has, is := word.Word.Property(p.Name), w.words(p.Name)
		if yes, flag := has.Bool(); has.IsZero() || flag && !yes {
			continue
		} else if !flag {
			is += ": " + strings.TrimSuffix(shown(has), ".")
		}
		if own, ok := word.Own[p.Name]; ok && !has.Equal(p.Usual) {
			is += " (" + own.Because.Text + " " + own.Source.String() + ")"
		}
		out = append(out, is)
	}
	return strings.Join(out, "; ")
}

func (w *writer) terms() {
	head := Section{ID: "terms", Title: "Worked out from the job"}
	for _, t := range w.book.Terms() {
		noun, is := w.name(t.Name), w.formula(t.Value.Text)
		if c := t.TermCondition; c != nil {
			is = w.condition(c).line()
		}
		main := Line{Text: sentence(noun + ": " + is), Code: t.Value.Text, written: t.Value.Text}
		if clause, whether := w.whether[t.Name]; whether {
			main = w.conditioned("", clause, t.TermCondition, " if ", "")
		}
		w.add(head, "term", t.Name, t.Chapter, t.Amended, main, w.only("Only", t.When), Line{Label: "About", Text: sentence(t.About)},
			w.reason("Because", t.Why), source(t.Source))
	}
}

// questions lists how people are asked; of a question of the company, how they find
// the answer out.
func (w *writer) questions() {
	head := Section{ID: "questions", Title: "What people are asked, the weightiest first"}
	for _, q := range w.book.Askings() {
		if q.How == nil && strings.HasPrefix(q.Key, jobnode.Company+".") {
			continue
		}
		var mayBe []string
		for i, each := range q.MayBe {
			when := ""
			if c := q.Case(i); c != nil {
				when = " where " + w.condition(c).line()
			}
			mayBe = append(mayBe, strings.Join(each.Values, ", ")+when)
		}
		w.add(head, "question", q.Key, q.Chapter, q.Amended, Line{Text: q.Asks}, w.only("Asked only", q.When), w.reason("How", q.How),
			Line{Label: "It may be", Text: full(strings.Join(mayBe, "; "))}, w.reason("Because", q.Why), source(q.Source))
	}
}

func (w *writer) courses() {
	head := Section{ID: "courses", Title: "Courses, from the bottom up"}
	for _, c := range w.book.Courses() {
		var takes []string
		for _, a := range c.Attributes {
			takes = append(takes, w.words(a.Name)+" is "+w.name(a.Decision))
		}
		drawn := c.Drawn["symbol"]
		if drawn != "" {
			drawn = sentence(w.words(drawn))
		}
		w.add(head, "course", c.Name, c.Chapter, c.Amended, Line{Text: c.Label + "."}, w.only("Laid only", c.When),
			Line{Label: "Each of its values", Text: sentence(strings.Join(takes, "; "))}, Line{Label: "Drawn as", Text: drawn}, w.reason("Because", c.Because), source(c.Source))
	}
}

func (w *writer) checks() {
	head := Section{ID: "checks", Title: "Checks of the finished section"}
	for _, c := range w.book.Checks() {
		must := Line{Label: "Passes where", Code: c.Compares(), written: c.Compares()}
		if c.Holds != nil {
			must = w.only("Passes", c.Holds)
		} else {
			must.Text = sentence(w.comparison(w.outline(c.Compares()), false))
		}
		fails := "It cautions where it fails."
		if c.Failing == rulebook.Stops {
			fails = "It stops the design where it fails."
		}
		w.add(head, "check", c.ID, c.Chapter, c.Amended, Line{Text: c.Asks + " " + fails}, w.only("Made only", c.When), must,
			w.reason("If not", c.Says), w.reason("If it passes", c.Passes), w.reason("Because", c.Because), source(c.Source))
	}
}

func (w *writer) cautions() {
	head := Section{ID: "cautions", Title: "Cautions"}
	for _, c := range w.book.Cautions() {
		owed := ""
		if c.Owed {
			owed = "Every section owes it; only a variance takes it away."
		}
		w.add(head, "caution", c.ID, c.Chapter, c.Amended, w.spoken(c.When, c.Says), w.reason("In short", c.Short), w.only("The job makes it real", c.RealWhen), Line{Label: "Owed", Text: owed}, source(c.Source))
	}
}

func (w *writer) refusals() {
	head := Section{ID: "refusals", Title: "Jobs that are refused"}
	for _, r := range w.book.Refusals() {
		w.add(head, "refusal", r.ID, r.Chapter, r.Amended, w.spoken(r.When, r.Says),
			w.reason("Take it to", r.Who), source(r.Source))
	}
}

func (w *writer) promises() {
	head := Section{ID: "promises", Title: "Promises, on every job that gets a section"}
	if w.proof == nil {
		head.About = []string{"How each is settled is found by groundrule book prove; this copy was printed without it."}
	}
	for _, p := range w.book.Promises() {
		var says string
		code := cmp.Or(p.Promise.Always.Text, p.Promise.Never.Text)
		switch name, rises := p.As(); {
		case p.Always != nil:
			says = "always, " + w.condition(p.Always).line()
		case p.Never != nil:
			says = "never so: " + w.condition(p.Never).line()
		default:
			then, neverRises := w.book.Then(p)
			code = p.Promise.As.Text + " → " + p.Promise.Then.Text
			says = fmt.Sprintf("%s never %s as %s %s, all else equal", w.formula(then.Text()), way(neverRises), w.name(name), way(rises))
		}
		main := w.conditioned(start(p.When), says, p.When, "", code)
		w.add(head, "promise", p.ID, p.Chapter, p.Amended, main, w.reason("Because", p.Why), source(p.Source), Line{Label: "Proof", Text: w.proof[p.ID]})
	}
}

// work lists what a crew works by, and headings how each of its sentences is headed.
var (
	work = []struct{ sort, title string }{{"quantity", "Quantities"}, {"step", "Steps, in order"}, {"tolerance", "Tolerances"}, {"stop", "What the crew stops for"},
		{"option", "Other ways to build it"}, {"remedy", "What to do with what is in the ground"}, {"client", "What the client is told"}}
	headings = map[string]string{"sizes": "Sizes", "hold": "Hold until", "measure": "Measured", "does": "At once", "calls": "Calls", "gives": "Gives", "lacks": "Lacks", "leaves_out": "Leaves out",
		"kind": "Counts as", "amount": "Amount", "item": "Bought as", "step": "Ordered by", "counted_in": "Counted in", "weighs": "Weighs"}
)

func (w *writer) work(sort, title string) {
	head := Section{ID: sort, Title: title}
	for _, each := range w.book.Work() {
		if each.Sort != sort {
			continue
		}
		lines := []Line{w.spoken(each.When, each.Says(each.Sayings()[0]))}
		if each.Course != "" {
			lines = append(lines, Line{Label: "Only with", Text: sentence(w.words(each.Course))})
		}
		if len(each.Tells) > 0 {
			lines = append(lines, Line{Label: "Tells", Text: sentence(strings.Join(each.Tells, ", "))})
		}
		for _, m := range each.Measures() {
			said := w.words(m.Text)
			if m.Expression != nil {
				said = w.formula(m.Text)
			}
			lines = append(lines, Line{Label: headings[m.Key], Text: sentence(said)})
		}
		for _, key := range each.Sayings()[1:] {
			lines = append(lines, w.reason(headings[key], each.Says(key)))
		}
		w.add(head, sort, each.ID, each.Chapter, each.Amended, append(lines, w.reason("Because", each.Why), source(each.Source))...)
	}
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
