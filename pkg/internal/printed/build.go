package printed

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
)

// Of makes the document of a book.
func Of(b *engine.Book, o Options) *Document {
	out := newWriter(b, nil, o).document()
	brief(out.Chapters)
	return out
}

func newWriter(b *engine.Book, home map[string]string, o Options) *writer {
	return &writer{speaker: newSpeaker(b), holds: b.Contents(), home: home, named: map[string]*Section{}, proof: o.Proof, out: &Document{Title: "The rulebook"}}
}

func (w *writer) document() *Document {
	w.facts()
	w.chapters()
	w.sources()
	number(w.out.Chapters)
	return w.out
}

// writer makes the document.
type writer struct {
	*speaker
	holds rulebook.Contents
	// home are the chapters of entries, by sort and name, that are to be written
	// elsewhere than where they stand.
	home map[string]string
	// named are the chapters by their names.
	named map[string]*Section
	// proof says how each promise is settled, nil if that was not asked.
	proof map[string]string
	out   *Document
}

// add puts a clause under a heading, in the chapter in which its entry is written.
func (w *writer) add(head Section, sort, name, stands string, amended *rulebook.Amended, lines ...Line) {
	in, c := w.into(&head, sort, name, stands), w.clause(name, amended, lines...)
	if head.Columns != nil {
		in.Rows = append(in.Rows, c)
		return
	}
	in.Clauses = append(in.Clauses, c)
}

// into returns the section of a chapter that has a heading, which is its last if it
// is there already. What is written in no chapter goes nowhere.
func (w *writer) into(head *Section, sort, name, stands string) *Section {
	chapter := cmp.Or(w.home[sort+" "+name], stands)
	in := w.named[chapter]
	if in == nil {
		return head
	}
	head.ID, head.Columns = slug(chapter, head.ID), slices.Clone(head.Columns) // brief takes some away
	if last := len(in.Sections) - 1; last >= 0 && in.Sections[last].ID == head.ID {
		return in.Sections[last]
	}
	in.Sections = append(in.Sections, head)
	return head
}

// homes returns the chapter of each entry of a book as it was before, and of what
// an amendment put in another's place the chapter of that one.
func homes(before, after *engine.Book) map[string]string {
	out := map[string]string{}
	before.Contents().Each(func(sort, name, chapter string, _ *rulebook.Amended) { out[sort+" "+name] = chapter })
	after.Contents().Each(func(sort, name, _ string, by *rulebook.Amended) {
		if was := out[sort+" "+formerly(by)]; was != "" {
			out[sort+" "+name] = was
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

// chapters writes the chapters of the files, and those of amendments behind them,
// but for those in which nothing stands.
func (w *writer) chapters() {
	all := w.holds.Chapters
	for _, a := range w.holds.Amendments {
		all = append(all, rulebook.Chapter{Name: "amendment " + a.Name, About: a.Why})
	}
	for _, c := range all {
		w.named[c.Name] = &Section{ID: slug("chapter", c.Name), Title: title(c.Name), About: []string{c.About}}
	}
	w.settings()
	for _, v := range w.holds.Vocabularies {
		w.vocabulary(v)
	}
	w.questions()
	w.terms()
	for _, d := range w.book.Decisions() {
		if s := w.decision(d); len(s.Rows)+len(s.Clauses) > 0 {
			w.into(s, "decision", d.Name, d.Chapter)
		}
	}
	w.courses()
	w.checks()
	w.cautions()
	w.refusals()
	w.promises()
	for _, each := range work {
		w.work(each.sort, each.title)
	}
	for _, c := range all {
		if s := w.named[c.Name]; len(s.Sections) > 0 {
			w.out.Chapters = append(w.out.Chapters, s)
		}
	}
}
