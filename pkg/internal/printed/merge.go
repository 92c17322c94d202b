package printed

import (
	"cmp"
	"maps"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
)

// Merge makes the document of a rulebook with what differs from an earlier one:
// what was there and is no more stands where it stood, taken away, and beside what
// was changed stands what it was.
func Merge(before, after *engine.Book, o Options) *Document {
	out := merge(before, after, o)
	brief(out.Chapters)
	return out
}

func merge(before, after *engine.Book, o Options) *Document {
	// What an amendment put in another's place stands where that one stood.
	out := newWriter(after, homes(before, after), o).document()
	old := newWriter(before, nil, o)
	m := merger{gone: map[string]*rulebook.Amended{}, told: old.speaker}
	for _, g := range after.Gone() {
		m.gone[g.ID] = &g.Amended
	}
	out.Chapters = m.sections(old.document().Chapters, out.Chapters)
	return out
}

// Diff is [Merge] with what differs and nothing else.
func Diff(before, after *engine.Book, o Options) *Document {
	out := merge(before, after, o)
	out.Title, out.Files = "What differs between two rulebooks", nil
	out.Chapters = differing(out.Chapters)
	brief(out.Chapters)
	return out
}

func differing(all []*Section) []*Section {
	var out []*Section
	for _, s := range all {
		s.Sections = differing(s.Sections)
		same := func(c *Clause) bool { return c.Change == Unchanged }
		s.Rows, s.Clauses = slices.DeleteFunc(s.Rows, same), slices.DeleteFunc(s.Clauses, same)
		if len(s.Sections)+len(s.Rows)+len(s.Clauses) > 0 || s.Change != Unchanged {
			out = append(out, s)
		}
	}
	return out
}

type merger struct {
	gone map[string]*rulebook.Amended
	told *speaker
}

func (m *merger) sections(before, after []*Section) []*Section {
	return merged(before, after, func(s *Section) string { return s.ID }, m.section, m.whole)
}

// whole notes that a section was added or taken away with all that is in it.
func (m *merger) whole(s *Section, done Change) {
	s.Change = done
	if done == Gone {
		s.Number, s.ID, s.Marks = "", "was-"+s.ID, m.goneBy(s.Name)
	}
	for _, c := range slices.Concat(s.Rows, s.Clauses) {
		m.mark(c, done)
	}
	for _, part := range s.Sections {
		m.whole(part, done)
	}
}

func (m *merger) section(was, is *Section) {
	is.Sections = m.sections(was.Sections, is.Sections)
	name := func(c *Clause) string { return cmp.Or(c.Formerly, c.Name) }
	is.Rows = merged(was.Rows, is.Rows, name, m.clause, m.mark)
	is.Clauses = merged(was.Clauses, is.Clauses, name, m.clause, m.mark)
	if was.Title != is.Title || !slices.Equal(was.About, is.About) {
		is.Change = Changed
		is.About = append(is.About, "It was: "+was.Title)
		is.About = append(is.About, was.About...)
	}
}

// clause notes which lines differ from those of an earlier clause.
func (m *merger) clause(was, is *Clause) {
	if is.Formerly != "" {
		is.Change = Changed
	}
	old := map[string]Line{}
	for _, l := range was.Lines {
		old[l.Label] = l
	}
	for i, l := range is.Lines {
		before := old[l.Label]
		delete(old, l.Label)
		if cmp.Or(before.written, before.flat()) == cmp.Or(l.written, l.flat()) {
			continue
		}
		is.Lines[i].Was, is.Lines[i].Change, is.Change = before.flat(), Changed, Changed
		if l.Label == "" && was.Lead != "" {
			is.Lines[i].Was = was.Lead + " " + before.flat()
		}
		if before.Label == "" && before.Text == "" {
			is.Lines[i].Change = Added
		}
	}
	for _, label := range slices.Sorted(maps.Keys(old)) {
		is.Lines, is.Change = append(is.Lines, Line{Label: label, Was: old[label].flat(), Change: Gone}), Changed
	}
}

// flat is a line with the parts of its condition behind one another.
func (l Line) flat() string {
	text := l.Text
	var walk func([]Part)
	walk = func(parts []Part) {
		for i, p := range parts {
			if i > 0 {
				text += ";"
			}
			text += " " + p.Text
			walk(p.Parts)
		}
	}
	walk(l.Parts)
	if l.Then != "" {
		text += ". " + l.Then
	}
	return text
}

// mark notes that a clause was added or taken away.
func (m *merger) mark(c *Clause, done Change) {
	c.Change = done
	if done == Gone {
		c.Number, c.ID, c.Marks = "", "was-"+c.ID, m.goneBy(c.Name)
	}
}

// goneBy tells who took away what has a name.
func (m *merger) goneBy(name string) []Mark {
	out := m.told.marks(m.gone[name])
	for i := range out {
		out[i].Done = Gone
	}
	return out
}

// merged lays what was there in the order of what is there; what is there no more
// follows what it followed.
func merged[T any](before, after []T, id func(T) string, both func(was, is T), one func(T, Change)) []T {
	have, had := map[string]bool{}, map[string]T{}
	for _, x := range after {
		have[id(x)] = true
	}
	for _, x := range before {
		had[id(x)] = x
	}
	follows := map[string][]T{} // what is gone, by what it followed
	last := ""
	for _, x := range before {
		if have[id(x)] {
			last = id(x)
			continue
		}
		one(x, Gone)
		follows[last] = append(follows[last], x)
	}
	out := follows[""]
	for _, x := range after {
		if was, is := had[id(x)]; is {
			both(was, x)
		} else {
			one(x, Added)
		}
		out = append(append(out, x), follows[id(x)]...)
	}
	return out
}
