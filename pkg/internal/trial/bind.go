package trial

import (
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/section"
)

// binder binds the names and values of trials to a rulebook.
type binder struct {
	book   *engine.Book
	faults diagnostic.List

	decisions, rules, checks, cautions, refusals, courses []string
	ruleOf                                                map[string]*engine.Decision
}

func newBinder(book *engine.Book) *binder {
	b := &binder{book: book, ruleOf: map[string]*engine.Decision{}}
	for _, d := range book.Decisions() {
		b.decisions = append(b.decisions, d.Name)
		for _, r := range d.Rules {
			b.rules = append(b.rules, r.ID)
			b.ruleOf[r.ID] = d
		}
	}
	for _, c := range book.Checks() {
		b.checks = append(b.checks, c.ID)
	}
	for _, c := range book.Cautions() {
		b.cautions = append(b.cautions, c.ID)
	}
	for _, r := range book.Refusals() {
		b.refusals = append(b.refusals, r.ID)
	}
	for _, c := range book.Courses() {
		b.courses = append(b.courses, c.Name)
	}
	return b
}

// bound is a trial with everything that it names found in the rulebook.
type bound struct {
	trial *Trial
	book  *engine.Book // with the trial's settings
	wants []want
}

// want is one expectation.
type want struct {
	what string // such as "stone_depth"
	at   diagnostic.Place
	// met compares; it gives what was and what was wanted where they differ.
	met func(*result) (was, wanted string, ok bool)
	// decision whose reason goes with the report, nil if there is none.
	decision *engine.Decision
}

func (b *binder) bind(t *Trial) bound {
	out := bound{trial: t, book: b.withSettings(t)}
	add := func(w ...want) { out.wants = append(out.wants, w...) }
	add(b.status(t.expect))
	for _, p := range t.expect.answers {
		add(b.answer(p)...)
	}
	for _, p := range t.expect.between {
		add(b.within(p)...)
	}
	for _, p := range t.expect.rules {
		add(b.chosen(p)...)
	}
	add(b.decisionWants(t.expect)...)
	add(b.checkWants(t.expect)...)
	add(b.listWants(t.expect)...)
	add(b.courseWants(t.expect)...)
	return out
}

// withSettings returns the book with the settings of a trial.
func (b *binder) withSettings(t *Trial) *engine.Book {
	var tried []engine.Tried
	for _, p := range t.settings {
		s := b.setting(p)
		if s == nil {
			continue
		}
		one, ok := b.tried(p.value, s)
		if !ok {
			continue
		}
		if !b.keepsToLimits(p.value, one) {
			continue
		}
		tried = append(tried, one)
	}
	if len(tried) == 0 {
		return b.book
	}
	book, err := b.book.Trying(tried...)
	if err != nil {
		b.faults.Addf(t.Place, CodeValue, "%v", err)
		return b.book
	}
	return book
}

// keepsToLimits reports a value that crosses a limit of its setting without
// leave, and leave that is taken where no limit is crossed.
func (b *binder) keepsToLimits(n *document.Node, one engine.Tried) bool {
	if _, err := b.book.Trying(one); err != nil {
		d := b.faults.Addf(n.Place(), CodeLimit, "%v", err)
		d.Found, d.Width, d.Wanted = n.Text(), n.Width(), "a value within the limits, or {by_variance: VALUE}"
		return false
	}
	if !one.Variance {
		return true
	}
	one.Variance = false
	if _, err := b.book.Trying(one); err == nil {
		at := n.Fields()[0].Value
		d := b.faults.Addf(at.Place(), CodeLimit, "%s crosses no limit at this value, and needs no leave", one.Setting)
		d.Found, d.Width, d.Wanted = at.Text(), at.Width(), "a value beyond the limits, or one without by_variance"
		return false
	}
	return true
}

// tried reads the value to try a setting at.
func (b *binder) tried(n *document.Node, s *engine.Setting) (engine.Tried, bool) {
	out := engine.Tried{Setting: s.Name}
	fields := n.Fields()
	ok := false
	switch {
	case len(fields) == 1 && fields[0].Key.Text() == "by_variance":
		out.Variance = true
		out.Value, ok = b.literal(fields[0].Value, s.Value.Kind(), s.Name)
	case n.Shape() == document.Mapping:
		out.Value, ok = b.material(n, s)
	default:
		out.Value, ok = b.literal(n, s.Value.Kind(), s.Name)
	}
	return out, ok
}

func (b *binder) setting(p pair) *engine.Setting {
	var all []string
	for _, s := range b.book.Settings() {
		if s.Name == p.key.Text() {
			return s
		}
		all = append(all, s.Name)
	}
	b.unknown(p.key, "setting", all)
	return nil
}

func (b *binder) unknown(n *document.Node, what string, all []string) {
	d := b.faults.Addf(n.Place(), CodeName, "no %s is called %s", what, n.Text())
	d.Found, d.Wanted, d.Width = n.Text(), "a "+what+" of the rulebook", n.Width()
	d.Nearest = diagnostic.Nearest(n.Text(), all)
}

// named checks that a node holds one of the names.
func (b *binder) named(n *document.Node, what string, all []string) bool {
	for _, name := range all {
		if name == n.Text() {
			return true
		}
	}
	b.unknown(n, what, all)
	return false
}

// allNamed returns the names of a list that exist.
func (b *binder) allNamed(l names, what string, all []string) []*document.Node {
	var out []*document.Node
	for _, n := range l.items {
		if b.named(n, what, all) {
			out = append(out, n)
		}
	}
	return out
}

func (b *binder) decisionNamed(n *document.Node) *engine.Decision {
	d, ok := b.book.Decision(n.Text())
	if !ok {
		b.unknown(n, "decision", b.decisions)
		return nil
	}
	return d
}

var statuses = []string{string(section.Designed), string(section.Refused), string(section.Stopped)}

func (b *binder) status(e expect) want {
	wanted, at := string(section.Designed), e.at
	if n := e.status; n != nil {
		wanted, at = n.Text(), n.Place()
		if d := diagnosticOfStatus(n); d != nil {
			b.faults.Add(d)
		}
	}
	return want{what: "status", at: at, met: func(r *result) (string, string, bool) {
		return r.statusText(), wanted, string(r.status) == wanted
	}}
}

func diagnosticOfStatus(n *document.Node) *diagnostic.Diagnostic {
	for _, s := range statuses {
		if s == n.Text() {
			return nil
		}
	}
	return &diagnostic.Diagnostic{Place: n.Place(), Width: n.Width(), Code: CodeWord, Message: "this is nothing that a design comes to",
		Found: n.Text(), Wanted: strings.Join(statuses, ", "), Nearest: diagnostic.Nearest(n.Text(), statuses)}
}

func listText(items []string) string {
	if len(items) == 0 {
		return "none"
	}
	return strings.Join(items, ", ")
}
