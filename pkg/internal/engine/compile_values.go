package engine

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// literal reads a value of a wanted kind as the trade writes it, not as an
// expression.
func (c *compiler) literal(n *document.Node, kind value.Kind) (value.Value, bool) {
	if n.Shape() != document.Scalar {
		c.notScalar(n, "a value")
		return value.Value{}, false
	}
	text := strings.TrimSpace(n.Text())
	fail := func(wanted, problem string) (value.Value, bool) {
		c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(n.Text())), Code: CodeWrong, Message: problem, Found: text, Wanted: wanted})
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
	c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len(text), Code: CodeWord, Message: "this is not a word of " + string(kind), Found: text,
		Wanted: "a word of " + string(kind), Nearest: nearestSorted(text, names)})
	return value.Value{}, false
}

func nearestSorted(name string, names []string) string {
	return diagnostic.Nearest(name, slices.Sorted(slices.Values(names)))
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
		c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(text)), Code: CodeWrong, Message: "this is not a quantity", Found: text, Wanted: err.Error()})
		return value.Value{}, false
	}
	var names []string
	for name := range c.words {
		names = append(names, name)
	}
	c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(text)), Code: CodeWrong, Message: "this cannot be the value of a setting", Found: text,
		Wanted: "a number, a quantity such as 4 in, true or false, a word, or a quoted text", Nearest: nearestSorted(text, names)})
	return value.Value{}, false
}
