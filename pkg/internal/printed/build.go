package printed

import (
	"cmp"
	"fmt"

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
	// home are the chapters of entries, by sort and name, that are to be written
	// elsewhere than where they stand.
	home map[string]string
	// proof says how each promise is settled, nil if that was not asked.
	proof map[string]string
	out   *Document
}

// in reports whether an entry is written in a chapter.
func (w *writer) in(chapter, sort, name, stands string) bool {
	return cmp.Or(w.home[sort+" "+name], stands) == chapter
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
	add(w.questions(c.Name))
	add(w.terms(c.Name))
	for _, d := range w.book.Decisions() {
		if w.in(c.Name, "decision", d.Name, d.Chapter) {
			add(w.decision(d))
		}
	}
	add(w.courses(c.Name))
	add(w.checks(c.Name))
	add(w.cautions(c.Name))
	add(w.refusals(c.Name))
	add(w.promises(c.Name))
	for _, each := range work {
		add(w.work(each.sort, each.title, c.Name))
	}
	if len(out.Sections) > 0 {
		w.out.Chapters = append(w.out.Chapters, out)
	}
}
