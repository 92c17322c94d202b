package engine

import (
	"encoding/json"
	"errors"
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// literals reads values as the trade writes them, not as expressions.
type literals struct {
	words   map[string]*value.Word
	labels  map[*value.Word][]string // in the rulebook's own language, of those that have another
	objects []Object
}

// Literal reads a value of a wanted kind as the trade writes it. What is wrong is
// a diagnostic without a place.
func (b *Book) Literal(text string, kind value.Kind) (value.Value, *diagnostic.Diagnostic) {
	return b.literals.read(text, kind)
}

func (l *literals) read(written string, kind value.Kind) (value.Value, *diagnostic.Diagnostic) {
	text := strings.TrimSpace(written)
	fail := func(problem, wanted string) (value.Value, *diagnostic.Diagnostic) {
		return value.Value{}, &diagnostic.Diagnostic{Code: CodeWrong, Message: problem, Found: text, Wanted: wanted}
	}
	dimension, measured := quantity.DimensionNamed(string(kind))
	switch {
	case kind == value.TextKind:
		return value.Text(written), nil
	case kind == value.BoolKind:
		switch text {
		case "true", "yes":
			return value.Bool(true), nil
		case "false", "no":
			return value.Bool(false), nil
		}
		return fail("this is neither true nor false", "true or false")
	case kind == value.NumberKind:
		q, err := quantity.ParseAs(quantity.DimRatio, text)
		if err != nil {
			return fail("this is not a number", "a number without a unit")
		}
		return value.Number(q.SI), nil
	case measured:
		q, err := quantity.ParseAs(dimension, text)
		if err != nil {
			return value.Value{}, notQuantity(text, err)
		}
		return value.Measured(q), nil
	}
	for _, o := range l.objects {
		if o.Kind == kind {
			x, err := o.Parse(written)
			if err != nil {
				return fail(err.Error(), string(kind))
			}
			return value.Object(kind, x), nil
		}
	}
	return l.word(text, kind)
}

// notQuantity tells what the reader of quantities found wrong.
func notQuantity(text string, err error) *diagnostic.Diagnostic {
	d := &diagnostic.Diagnostic{Code: CodeWrong, Message: err.Error(), Found: text}
	var bad *quantity.ParseError
	if errors.As(err, &bad) {
		d.Message, d.Nearest = bad.Problem, bad.Nearest
		if runes := []rune(text); bad.Nearest != "" && bad.Offset < len(runes) { // the unit alone
			d.Nearest = string(runes[:bad.Offset]) + bad.Nearest
		}
		if len(bad.Wanted) > 0 {
			d.Wanted = "one of the units " + strings.Join(bad.Wanted, ", ")
		}
	}
	return d
}

func (l *literals) word(text string, kind value.Kind) (value.Value, *diagnostic.Diagnostic) {
	if w, ok := l.words[text]; ok && w.Vocabulary == kind {
		return value.OfWord(w), nil
	}
	var names []string
	for _, name := range slices.Sorted(maps.Keys(l.words)) {
		if w := l.words[name]; w.Vocabulary == kind {
			if w.Label == text || w.Go == text || slices.Contains(l.labels[w], text) {
				return value.OfWord(w), nil
			}
			names = append(names, name)
		}
	}
	return value.Value{}, &diagnostic.Diagnostic{Code: CodeWord, Message: "this is not a word of " + string(kind), Found: text,
		Wanted: "one of " + language.Listed(names), Nearest: diagnostic.Nearest(text, names)}
}

// readAny reads the value of a setting: true or false, a number, a quantity, or
// a word; what is quoted is a text.
func (l *literals) readAny(n *document.Node) (value.Value, *diagnostic.Diagnostic) {
	text := strings.TrimSpace(n.Text())
	if w, ok := l.words[text]; ok {
		return value.OfWord(w), nil
	}
	if text == "true" || text == "false" {
		return value.Bool(text == "true"), nil
	}
	q, err := quantity.Parse(text)
	switch {
	case err == nil:
		return value.Measured(q), nil
	case json.Valid([]byte(text)) && text != "null":
		return l.read(text, value.NumberKind)
	case n.Quoted():
		return value.Text(n.Text()), nil
	case text != "" && strings.Contains("0123456789-.", text[:1]):
		return value.Value{}, notQuantity(text, err)
	}
	return value.Value{}, &diagnostic.Diagnostic{Code: CodeWrong, Message: "this cannot be the value of a setting", Found: text,
		Wanted: "a number, a quantity such as 4 in, true or false, a word, or a quoted text", Nearest: diagnostic.Nearest(text, slices.Sorted(maps.Keys(l.words)))}
}

// literal reads the value of a wanted kind that is written in a node; there is none in
// a nil node, and nothing to report.
func (c *compiler) literal(n *document.Node, kind value.Kind) (value.Value, bool) {
	return c.readIn(n, func() (value.Value, *diagnostic.Diagnostic) { return c.literals.read(n.Text(), kind) })
}

// anyLiteral reads the value of a setting that is written in a node.
func (c *compiler) anyLiteral(n *document.Node) (value.Value, bool) {
	return c.readIn(n, func() (value.Value, *diagnostic.Diagnostic) { return c.literals.readAny(n) })
}

func (c *compiler) readIn(n *document.Node, read func() (value.Value, *diagnostic.Diagnostic)) (value.Value, bool) {
	if n.Shape() != document.Scalar {
		c.notScalar(n, "a value")
		return value.Value{}, false
	}
	v, fault := read()
	if fault != nil {
		if c.in.gone[fault.Found] != nil {
			c.readsGone(fault.Found, n.Place())
			return value.Value{}, false
		}
		fault.Place, fault.Width = n.Place(), n.Width()
		if plain := strings.Trim(n.Text(), "“”„‘’"); plain != n.Text() && !n.Quoted() {
			fault.Message, fault.Wanted, fault.Nearest = "these are the quotes of a word processor", "the value without them", plain
		}
		c.faults.Add(fault)
	}
	return v, fault == nil
}
