package rulebook

import (
	"encoding/json"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/document"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook/internal/language"
	"example.com/groundrule/pkg/value"
)

// kindNames lists every kind that values can have.
func (c *compiler) kindNames() []string {
	out := []string{string(value.NumberKind), string(value.BoolKind), string(value.TextKind)}
	for _, d := range quantity.Dimensions() {
		if d != quantity.DimRatio {
			out = append(out, string(value.DimensionKind(d)))
		}
	}
	for _, o := range c.setup.Objects {
		out = append(out, string(o.Kind))
	}
	seen := map[value.Kind]bool{}
	for _, w := range c.words {
		seen[w.Vocabulary] = true
	}
	for _, k := range c.in.kinds {
		seen[value.Kind(k.name)] = true
	}
	for _, k := range sortedKinds(seen) {
		out = append(out, string(k))
	}
	return out
}

func sortedKinds(m map[value.Kind]bool) []value.Kind {
	out := make([]value.Kind, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	for i := 1; i < len(out); i++ {
		for j := i; j > 0 && out[j] < out[j-1]; j-- {
			out[j], out[j-1] = out[j-1], out[j]
		}
	}
	return out
}

func ordered(k value.Kind) bool {
	if k == value.NumberKind {
		return true
	}
	d, ok := quantity.DimensionNamed(string(k))
	return ok && d != quantity.DimRatio
}

// materials declares the kinds of material and the catalogue.
func (c *compiler) materials() {
	byKind := map[value.Kind][]*value.Word{}
	kinds := map[string]*kindEntry{}
	for _, k := range c.in.kinds {
		if c.claimKind(k.name, k.at) {
			kinds[k.name] = k
		}
	}
	for _, m := range c.in.materials {
		if _, ok := kinds[m.kind]; !ok {
			var names []string
			for _, k := range c.in.kinds {
				names = append(names, k.name)
			}
			c.faults.Add(&diagnostic.Diagnostic{Place: m.at, Width: len(m.name), Code: "unknown-kind", Message: "no kind of material is called " + m.kind,
				Found: m.kind, Wanted: strings.Join(names, ", "), Nearest: diagnostic.Nearest(m.kind, names)})
			continue
		}
		w := c.word(value.Kind(m.kind), wordEntry{name: m.name, label: m.label, about: m.about, at: m.at}, m.name)
		byKind[value.Kind(m.kind)] = append(byKind[value.Kind(m.kind)], w)
		c.book.materials = append(c.book.materials, &Material{Word: w, Source: c.sourceOf(m.source), Place: m.at, Chapter: m.chapter})
	}
	for _, k := range c.in.kinds {
		properties := []language.Property{}
		for _, p := range k.properties {
			if c.kindKnown(value.Kind(p.is), p.at, "a property") {
				properties = append(properties, language.Property{Name: p.name, Kind: value.Kind(p.is), About: p.about, Optional: p.optional})
			}
		}
		c.properties[value.Kind(k.name)] = properties
		c.builder.AddVocabulary(value.Kind(k.name), byKind[value.Kind(k.name)], properties)
	}
	for _, m := range c.in.materials {
		if w := c.words[m.name]; w != nil && string(w.Vocabulary) == m.kind {
			w.Properties = c.materialProperties(m)
		}
	}
}

func (c *compiler) materialProperties(m *materialEntry) map[string]value.Value {
	out := map[string]value.Value{}
	declared := c.properties[value.Kind(m.kind)]
	var names []string
	for _, p := range declared {
		names = append(names, p.Name)
	}
	for _, f := range m.properties {
		var property *language.Property
		for i := range declared {
			if declared[i].Name == f.Key.Text() {
				property = &declared[i]
			}
		}
		if property == nil {
			c.faults.Add(&diagnostic.Diagnostic{Place: f.Key.Place(), Width: len(f.Key.Text()), Code: "unknown-property",
				Message: m.kind + " has no property called " + f.Key.Text(), Found: f.Key.Text(), Wanted: strings.Join(names, ", "),
				Nearest: diagnostic.Nearest(f.Key.Text(), names)})
			continue
		}
		if f.Value.Null() {
			continue
		}
		if v, ok := c.literal(f.Value, property.Kind); ok {
			out[property.Name] = v
		}
	}
	for _, p := range declared {
		if _, has := out[p.Name]; !has && !p.Optional {
			c.faults.Add(&diagnostic.Diagnostic{Place: m.at, Width: len(m.name), Code: "missing-property", Message: m.name + " lacks a property that every " + m.kind + " has",
				Wanted: p.Name + ": " + p.About})
		}
	}
	return out
}

// literal reads a value of a wanted kind as the trade writes it, not as an
// expression.
func (c *compiler) literal(n *document.Node, kind value.Kind) (value.Value, bool) {
	if n.Shape() != document.Scalar {
		c.notScalar(n, "a value")
		return value.Value{}, false
	}
	text := strings.TrimSpace(n.Text())
	fail := func(wanted, problem string) (value.Value, bool) {
		c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(n.Text())), Code: "wrong-value", Message: problem, Found: text, Wanted: wanted})
		return value.Value{}, false
	}
	switch kind {
	case value.NumberKind:
		q, err := quantity.ParseAs(quantity.DimRatio, text)
		if err != nil {
			return fail("a number", "this is not a number")
		}
		return value.Number(q.SI), true
	case value.BoolKind:
		b, err := strconv.ParseBool(text)
		if err != nil {
			return fail("true or false", "this is neither true nor false")
		}
		return value.Bool(b), true
	case value.TextKind:
		return value.Text(n.Text()), true
	}
	if d, ok := quantity.DimensionNamed(string(kind)); ok {
		q, err := quantity.ParseAs(d, text)
		if err != nil {
			return fail(string(kind), err.Error())
		}
		return value.Measured(q), true
	}
	for _, o := range c.setup.Objects {
		if o.Kind == kind {
			x, err := o.Parse(n.Text())
			if err != nil {
				return fail(string(kind), err.Error())
			}
			return value.Object(kind, x), true
		}
	}
	if w, ok := c.words[text]; ok && w.Vocabulary == kind {
		return value.OfWord(w), true
	}
	var names []string
	for name, w := range c.words {
		if w.Vocabulary == kind {
			names = append(names, name)
		}
	}
	c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len(text), Code: "unknown-word", Message: "this is not a word of " + string(kind), Found: text,
		Wanted: "a word of " + string(kind), Nearest: nearestSorted(text, names)})
	return value.Value{}, false
}

func nearestSorted(name string, names []string) string {
	seen := map[value.Kind]bool{}
	for _, n := range names {
		seen[value.Kind(n)] = true
	}
	sorted := make([]string, 0, len(names))
	for _, k := range sortedKinds(seen) {
		sorted = append(sorted, string(k))
	}
	return diagnostic.Nearest(name, sorted)
}

// settings reads the settings and holds them to their limits.
func (c *compiler) settings() {
	for _, s := range c.in.settings {
		if !c.claim(s.name, s.at) || s.value == nil {
			continue
		}
		v, ok := c.anyLiteral(s.value)
		if !ok {
			continue
		}
		out := &Setting{Name: s.name, Value: v, Source: c.sourceOf(s.source), Place: s.at, Chapter: s.chapter, Amended: s.amended}
		if s.atLeast != nil {
			out.AtLeast, _ = c.literal(s.atLeast, v.Kind())
		}
		if s.atMost != nil {
			out.AtMost, _ = c.literal(s.atMost, v.Kind())
		}
		c.limits(out, s)
		c.book.settings = append(c.book.settings, out)
		c.book.byName[s.name] = out
		c.builder.AddName(language.Name{Name: s.name, Kind: v.Kind(), About: "a setting"})
	}
}

// settingReasons compiles the sentences of the settings, once there is a
// language to compile them in.
func (c *compiler) settingReasons() {
	for _, s := range c.in.settings {
		if out, ok := c.book.byName[s.name].(*Setting); ok {
			out.Because = c.template(s.because, nil)
		}
	}
}

func (c *compiler) limits(s *Setting, entry *settingEntry) {
	if !ordered(s.Value.Kind()) && (!s.AtLeast.IsZero() || !s.AtMost.IsZero()) {
		c.faults.Add(&diagnostic.Diagnostic{Place: entry.at, Width: len(entry.name), Code: "no-order", Message: "a value of this kind has no limits",
			Found: string(s.Value.Kind()), Wanted: "no at_least and no at_most"})
		return
	}
	crossed := func(limit value.Value, node *document.Node, words string, wrong func(int) bool) {
		if limit.IsZero() || !wrong(compareValues(s.Value, limit)) || c.varied(s, entry, limit, wrong) {
			return
		}
		c.faults.Add(&diagnostic.Diagnostic{Place: entry.value.Place(), Width: len([]rune(entry.value.Text())), Code: "limit-crossed",
			Message: entry.name + " crosses its limit", Found: s.Value.Text(quantity.US), Wanted: words + " " + limit.Text(quantity.US),
			Related: []diagnostic.Related{{Place: node.Place(), Message: "the limit is set here"}}})
	}
	crossed(s.AtLeast, entry.atLeast, "at least", func(x int) bool { return x < 0 })
	crossed(s.AtMost, entry.atMost, "at most", func(x int) bool { return x > 0 })
}

// varied tells whether a variance gives leave to cross the limit as far as the
// setting does.
func (c *compiler) varied(s *Setting, entry *settingEntry, limit value.Value, wrong func(int) bool) bool {
	v := entry.variance
	if v == nil || v.to == nil {
		return false
	}
	to, ok := c.literal(v.to, s.Value.Kind())
	if !ok || wrong(compareValues(s.Value, to)) {
		return false
	}
	granted := v.Variance
	granted.Value, granted.Limit, granted.Used = s.Value, limit, true
	c.book.variances = append(c.book.variances, &granted)
	return true
}

// compareValues orders numbers and quantities of one kind.
func compareValues(a, b value.Value) int {
	if x, ok := a.Number(); ok {
		y, _ := b.Number()
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	}
	qa, _ := a.Quantity()
	qb, _ := b.Quantity()
	order, err := quantity.Compare(qa, qb)
	if err != nil {
		return 0
	}
	return order
}

// anyLiteral reads a setting's value: true or false, a number, a quantity, or a
// word; what is quoted is a text.
func (c *compiler) anyLiteral(n *document.Node) (value.Value, bool) {
	if n.Shape() != document.Scalar {
		c.notScalar(n, "a setting's value")
		return value.Value{}, false
	}
	text := strings.TrimSpace(n.Text())
	if w, ok := c.words[text]; ok {
		return value.OfWord(w), true
	}
	if text == "true" || text == "false" {
		return value.Bool(text == "true"), true
	}
	q, err := quantity.Parse(text)
	if err == nil {
		return value.Measured(q), true
	}
	if json.Valid([]byte(text)) && text != "null" {
		return c.literal(n, value.NumberKind)
	}
	if n.Quoted() {
		return value.Text(n.Text()), true
	}
	if text != "" && (text[0] >= '0' && text[0] <= '9' || text[0] == '-' || text[0] == '.') {
		c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(text)), Code: "wrong-value", Message: "this is not a quantity", Found: text, Wanted: err.Error()})
		return value.Value{}, false
	}
	var names []string
	for name := range c.words {
		names = append(names, name)
	}
	c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(text)), Code: "wrong-value", Message: "this cannot be the value of a setting", Found: text,
		Wanted: "a number, a quantity such as 4 in, true or false, a word, or a quoted text", Nearest: nearestSorted(text, names)})
	return value.Value{}, false
}

func (c *compiler) courses() {
	kinds := map[string]*value.Word{}
	for _, w := range c.book.env.Words("course_kind") {
		kinds[w.Name] = w
	}
	names := map[string]diagnostic.Place{}
	for _, e := range c.in.courses {
		if first, taken := names[e.name]; taken {
			c.faults.Add(&diagnostic.Diagnostic{Place: e.at, Code: "declared-twice", Message: "the course is there already", Found: e.name,
				Related: []diagnostic.Related{{Place: first, Message: "it stands here first"}}})
			continue
		}
		names[e.name] = e.at
		out := &Course{Name: e.name, Label: e.label, Source: c.sourceOf(e.source), Place: e.at, Chapter: e.chapter}
		if e.is != nil {
			if v, ok := c.literal(e.is, "course_kind"); ok {
				out.Is, _ = v.Word()
			}
		}
		out.when = c.condition(e.when, nil)
		given := out.when.settles(nil)
		out.Because = c.template(e.because, given)
		for _, a := range e.attributes {
			if d := c.attribute(a.Value, given); d != nil {
				out.Attributes = append(out.Attributes, Attribute{Name: a.Key.Text(), Decision: d})
			}
		}
		c.book.courses = append(c.book.courses, out)
	}
}

// attribute finds the decision that an attribute is taken from. Nothing but a
// decision will do: that is what gives every attribute a reason.
func (c *compiler) attribute(n *document.Node, given language.Given) *Decision {
	name := strings.TrimSpace(n.Text())
	d, ok := c.book.byName[name].(*Decision)
	if !ok {
		var names []string
		for _, each := range c.book.decisions {
			names = append(names, each.Name)
		}
		c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(n.Text())), Code: "not-a-decision", Message: "an attribute is taken from a decision",
			Found: name, Wanted: "the name of a decision", Nearest: diagnostic.Nearest(name, names)})
		return nil
	}
	if d.when != nil && !given[name] {
		c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(n.Text())), Code: "may-be-missing", Message: name + " may be missing here",
			Found: name, Wanted: "known(" + name + ") in the course's when"})
	}
	return d
}

func (c *compiler) checks() {
	for _, e := range c.in.checks {
		c.ruleID(e.id, e.at)
		out := &Check{ID: e.id, Asks: e.asks, Source: c.sourceOf(e.source), Place: e.at, Chapter: e.chapter}
		out.when = c.condition(e.when, nil)
		given := out.when.settles(nil)
		out.Says, out.Because = c.template(e.says, given), c.template(e.because, given)
		if e.failing != nil {
			out.Failing = Failing(e.failing.Text())
			if out.Failing != Stops && out.Failing != Cautions {
				c.faults.Add(&diagnostic.Diagnostic{Place: e.failing.Place(), Width: len(e.failing.Text()), Code: "unknown-failing", Message: "this is not what a failing check does",
					Found: e.failing.Text(), Wanted: "stop or caution", Nearest: diagnostic.Nearest(e.failing.Text(), []string{"stop", "caution"})})
			}
		}
		c.checked(e, out, given)
		c.book.checks = append(c.book.checks, out)
	}
}

// checked compiles what a check asks: holds, or value with one limit.
func (c *compiler) checked(e *checkEntry, out *Check, given language.Given) {
	measured := e.value != nil && (e.atLeast == nil) != (e.atMost == nil) && e.holds == nil
	plain := e.holds != nil && e.value == nil && e.atLeast == nil && e.atMost == nil
	if !measured && !plain {
		c.faults.Add(&diagnostic.Diagnostic{Place: e.at, Code: "unclear-check", Message: "a check asks one thing",
			Wanted: "either holds, or value with at_least or at_most"})
		return
	}
	if plain {
		out.holds = c.condition(e.holds, given)
		return
	}
	limit := e.atLeast
	if out.atMost = e.atMost != nil; out.atMost {
		limit = e.atMost
	}
	out.value = c.expression(e.value, value.NoKind, given)
	if out.value == nil {
		return
	}
	kind := out.value.source.Kind
	if !ordered(kind) {
		c.faults.Add(&diagnostic.Diagnostic{Place: e.value.Place(), Code: "no-order", Message: "values of this kind have no order", Found: string(kind), Wanted: "a number or a quantity"})
		return
	}
	out.limit = c.expression(limit, kind, given)
}

func (c *compiler) cautions() {
	for _, e := range c.in.cautions {
		c.ruleID(e.id, e.at)
		out := &Caution{ID: e.id, Source: c.sourceOf(e.source), Place: e.at, Chapter: e.chapter}
		out.when = c.condition(e.when, nil)
		out.Says = c.template(e.says, out.when.settles(nil))
		c.book.cautions = append(c.book.cautions, out)
	}
}

func (c *compiler) refusals() {
	for _, e := range c.in.refusals {
		c.ruleID(e.id, e.at)
		out := &Refusal{ID: e.id, Source: c.sourceOf(e.source), Place: e.at, Chapter: e.chapter}
		out.when = c.condition(e.when, nil)
		given := out.when.settles(nil)
		out.Says, out.Who = c.template(e.says, given), c.template(e.who, given)
		c.book.refusals = append(c.book.refusals, out)
	}
}
