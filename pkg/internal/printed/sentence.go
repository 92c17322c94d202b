package printed

import (
	"math"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// speaker says the conditions and expressions of a book in plain English.
type speaker struct {
	*phrases
	book     *engine.Book
	outlines map[string]*language.Outline
}

func newSpeaker(b *engine.Book) *speaker {
	return &speaker{phrases: newPhrases(b), book: b, outlines: map[string]*language.Outline{}}
}

// said is a condition in words: one clause, or several of which all or any must
// hold. Nothing is said where it always holds.
type said struct {
	text  string
	op    logic.Op
	parts []said
	// names are those that the clause reads; asks is the one of which it asks no
	// more than whether its value is there.
	names []string
	asks  string
	not   bool
}

// condition says a condition. What is denied is denied clause by clause, and that
// a value is there is not said beside what is asked of it.
func (s *speaker) condition(c *engine.Condition) said {
	if c == nil {
		return said{op: logic.All}
	}
	return s.tree(c.Tree(), false)
}

func (s *speaker) tree(t *logic.Tree, not bool) said {
	switch t.Op {
	case logic.Clause:
		return s.clause(s.outline(s.book.ClauseText(t.Clause)), not)
	case logic.Not:
		return s.tree(t.Parts[0], !not)
	}
	out := said{op: t.Op}
	if not {
		out.op = logic.All + logic.Any - t.Op
	}
	for _, part := range t.Parts {
		each := s.tree(part, not)
		if each.op == out.op && each.parts != nil {
			out.parts = append(out.parts, each.parts...)
			continue
		}
		out.parts = append(out.parts, each)
	}
	return out.brief(s)
}

// brief leaves out what another part says too.
func (c said) brief(s *speaker) said {
	var out []said
	for i, part := range c.parts {
		beside := slices.IndexFunc(c.parts, func(other said) bool { return part.asks != "" && slices.Contains(other.names, part.asks) })
		switch {
		case beside < 0:
		case c.op == logic.All && !part.not:
			continue
		case c.op == logic.Any && part.not && c.parts[beside].not && s.whether[part.asks] != "":
			c.parts[beside].text = "nothing says that " + s.whether[part.asks]
			continue
		}
		if !slices.ContainsFunc(c.parts[:i], func(have said) bool { return have.line() == part.line() }) {
			out = append(out, part)
		}
	}
	if len(out) == 1 {
		return out[0]
	}
	c.parts = out
	return c
}

// clause says one clause, or that it does not hold.
func (s *speaker) clause(o *language.Outline, not bool) said {
	out := said{not: not, names: o.Names(nil)}
	switch {
	case o.Name != "":
		out.text = s.yes(o.Name, not)
	case o.Property != "":
		out.text = s.has(o, not)
	case o.Call == "known":
		out.text, out.names, out.asks = s.there(o.Parts[0], not), nil, nameOf(o.Parts[0])
	case o.Call != "":
		out.text = strings.TrimPrefix(s.calls[o.Call], "whether ")
		if not {
			out.text = refused(out.text)
		}
		out.text += s.with(o)
	default:
		out.text = s.comparison(o, not)
	}
	return out
}

// comparison says what a clause compares, what changes from job to job first.
func (s *speaker) comparison(o *language.Outline, not bool) string {
	op := o.Op
	if not {
		op = contrary[op]
	}
	left, right := o.Parts[0], o.Parts[1]
	if is := map[string]string{"in": "==", "not in": "!="}[op]; is != "" && len(right.Parts) == 1 {
		op, right = is, right.Parts[0]
	}
	if s.fixed(left) && !s.fixed(right) && turned[op] != "" {
		left, right, op = right, left, turned[op]
	}
	noun, how := s.expression(left, 0), comparisons[op]
	if are(noun) {
		how = "are" + strings.TrimPrefix(how, "is")
	}
	if strings.Contains(noun, ", ") {
		noun += ","
	}
	to := s.compared(right, op)
	if op == "!=" && strings.HasPrefix(to, "no") {
		how = strings.Fields(how)[0] + " other than"
	}
	return noun + " " + how + " " + to
}

// fixed reports whether an expression is the same on every job.
func (s *speaker) fixed(o *language.Outline) bool {
	_, set := s.book.Setting(o.Name)
	return set || !o.Value.IsZero() || len(o.Parts) > 0 && !slices.ContainsFunc(o.Parts, func(p *language.Outline) bool { return !s.fixed(p) })
}

// nameOf returns the name that an expression reads and nothing else; a property
// of it is such a name.
func nameOf(o *language.Outline) string {
	if o.Property != "" {
		return nameOf(o.Parts[0]) + "." + o.Property
	}
	if o.Value.IsZero() {
		return o.Name
	}
	w, _ := o.Value.Word()
	return w.Name
}

var contrary = map[string]string{"==": "!=", "!=": "==", "<": ">=", ">=": "<", ">": "<=", "<=": ">", "in": "not in"}

var turned = map[string]string{"==": "==", "!=": "!=", "<": ">", ">": "<", "<=": ">=", ">=": "<="}

var comparisons = map[string]string{"==": "is", "!=": "is not", "<": "is less than", "<=": "is at most", ">": "is more than", ">=": "is at least", "in": "is", "not in": "is neither"}

// compared says what a value is compared with.
func (s *speaker) compared(o *language.Outline, op string) string {
	if op != "in" && op != "not in" {
		return s.word(o)
	}
	between := " or "
	if op == "not in" {
		between = " nor "
	}
	words := make([]string, len(o.Parts))
	for i, part := range o.Parts {
		words[i] = s.word(part)
	}
	return listed(words, between)
}

// word says what something is compared with; a word of several parts is quoted.
func (s *speaker) word(o *language.Outline) string {
	text := s.expression(o, 0)
	if _, is := o.Value.Word(); is && (strings.ContainsAny(text, ",;") || strings.Contains(text, " and ") || strings.Contains(text, " or ")) {
		return "“" + text + "”"
	}
	return text
}

// yes says that a yes-or-no value is yes, or no.
func (s *speaker) yes(name string, not bool) string {
	clause, is := s.whether[name]
	switch {
	case is && not:
		return denied(clause)
	case is:
		return clause
	case not:
		return "the setting “" + s.words(name) + "” is no"
	}
	return "the setting “" + s.words(name) + "” is yes"
}

// has says that something has a yes-or-no property, or has not.
func (s *speaker) has(o *language.Outline, not bool) string {
	clause, is := strings.CutPrefix(s.properties[s.kind(o.Parts[0])][o.Property], "whether ")
	if not {
		clause = denied(clause)
	}
	if rest, of := strings.CutPrefix(clause, "it "); of {
		clause = s.expression(o.Parts[0], 0) + " " + rest
	}
	switch {
	case is:
		return clause
	case not:
		return s.expression(o, 0) + " is no"
	}
	return s.expression(o, 0) + " is yes"
}

// kind is that of what has properties: a name, or a word.
func (s *speaker) kind(o *language.Outline) value.Kind {
	if !o.Value.IsZero() {
		return o.Value.Kind()
	}
	kind, _, _ := s.book.NameKind(o.Name)
	return kind
}

// there says that a value is there, or is not.
func (s *speaker) there(o *language.Outline, not bool) string {
	name := nameOf(o)
	origin, _ := s.book.OriginOf(name)
	d, _ := s.book.Decision(name)
	clause, is := s.whether[name]
	noun, verb := s.expression(o, 0), "is"
	if are(noun) {
		verb = "are"
	}
	if strings.Contains(noun, ", ") {
		noun += ","
	}
	no := ""
	if not {
		no = " not"
	}
	switch {
	case is:
		return "it is" + no + " known whether " + clause
	case origin == rulebook.FromSite:
		return noun + " " + verb + no + " given"
	case origin != rulebook.FromDecision || d.About != "":
		return noun + " " + verb + no + " known"
	}
	noun = strings.TrimPrefix(noun, "the ")
	switch {
	case not:
		return "there " + verb + " no " + noun
	case verb == "are":
		return "there are " + noun
	case strings.ContainsAny(noun[:1], "aeiou"):
		return "there is an " + noun
	}
	return "there is a " + noun
}

// line says a condition in one sentence without its beginning.
func (c said) line() string { return c.within(false) }

// within says a condition that stands within another, in such a way that its
// parts are seen to belong together.
func (c said) within(inner bool) string {
	if c.op == logic.Clause {
		return c.text
	}
	words, plain := make([]string, len(c.parts)), true
	for i, part := range c.parts {
		words[i] = part.within(true)
		plain = plain && part.op == logic.Clause
	}
	switch {
	case len(words) == 0:
		return ""
	case c.op == logic.Any && len(words) == 2 && inner:
		return "either " + words[0] + " or " + words[1]
	case c.op == logic.Any && inner:
		return "one of these holds: " + strings.Join(words[:len(words)-1], "; ") + "; or " + words[len(words)-1]
	case c.op == logic.Any && plain && !slices.ContainsFunc(words, func(w string) bool { return strings.Contains(w, " or ") }):
		return listed(words, " or ")
	case c.op == logic.Any:
		return listed(words, ", or ")
	case plain && len(words) == 2 && inner:
		return "both " + words[0] + " and " + words[1]
	case plain && !inner:
		return listed(words, " and ")
	case inner:
		return "all of these hold: " + strings.Join(words[:len(words)-1], "; ") + "; and " + words[len(words)-1]
	}
	return listed(words, ", and ")
}

// clauses counts what is said.
func (c said) clauses() int {
	if c.op == logic.Clause {
		return 1
	}
	n := 0
	for _, part := range c.parts {
		n += part.clauses()
	}
	return n
}

func listed(words []string, between string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + between + words[len(words)-1]
}

// shown writes a value in inches and pounds, and in millimeters where it is whole
// there and not here.
func shown(v value.Value) string {
	if list, ok := v.List(); ok {
		words := make([]string, len(list))
		for i, each := range list {
			words[i] = shown(each)
		}
		return listed(words, " and ")
	}
	us, si := v.Text(quantity.US), v.Text(quantity.SI)
	if !exact(v, us) && exact(v, si) {
		return si
	}
	return us
}

// exact reports whether a text says a quantity in full.
func exact(v value.Value, text string) bool {
	q, is := v.Quantity()
	back, err := quantity.ParseAs(q.Dim, text)
	return is && err == nil && math.Abs(back.SI-q.SI) <= 1e-9*math.Abs(q.SI)
}
