package engine

import (
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Template is a sentence that may quote values, as in "at CBR {ground.cbr}".
type Template struct {
	parts []templatePart
	node  *document.Node
}

type templatePart struct {
	text string
	expr *language.Expression
	at   int // where the expression begins in the sentence
}

// Said is a sentence with the values that it quotes, ready to be written in
// either system of units.
type Said struct {
	Parts []SaidPart
}

// SaidPart is a piece of text, or a value.
type SaidPart struct {
	Text  string
	Value value.Value // zero for a piece of text
}

// Text writes the sentence in one system of units, its values as a person says
// them to another.
func (s Said) Text(system quantity.System) string {
	var b strings.Builder
	for _, p := range s.Parts {
		if p.Value.IsZero() {
			b.WriteString(p.Text)
		} else {
			b.WriteString(p.Value.Brief(system))
		}
	}
	return b.String()
}

// String returns the sentence as written, its expressions in braces.
func (t *Template) String() string {
	if t == nil {
		return ""
	}
	return t.node.Text()
}

// Names lists the names that the sentence quotes, in the order of the text.
func (t *Template) Names() []string {
	var out []string
	if t == nil {
		return nil
	}
	for _, p := range t.parts {
		if p.expr != nil {
			out = append(out, p.expr.Names...)
		}
	}
	return out
}

// template compiles a sentence; "{{" writes a brace.
func (c *compiler) template(n *document.Node, given language.Given) *Template {
	if n == nil {
		return nil
	}
	if n.Shape() != document.Scalar {
		c.notScalar(n, "a sentence")
		return nil
	}
	if strings.TrimSpace(n.Text()) == "" {
		fault(&c.faults, n, codeSentence, "nothing is written here", "", "a sentence")
		return nil
	}
	if unseen(&c.faults, n) {
		return nil
	}
	t := &Template{node: n}
	runes := []rune(n.Text())
	var text strings.Builder
	open := 0 // braces of the text itself
	for i := 0; i < len(runes); i++ {
		switch {
		case runes[i] == '{' && i+1 < len(runes) && runes[i+1] == '{':
			text.WriteRune('{')
			i++
			open++
		case runes[i] == '{':
			end := closingBrace(runes, i+1)
			if end == len(runes) {
				c.report(n, i, []language.Fault{{Width: 1, Code: codeBrace, Message: "the brace is not closed", Wanted: "} behind the expression, or {{ for a brace"}})
				return nil
			}
			expr, faults := c.book.env.Expression(string(runes[i+1:end]), value.NoKind, given)
			if c.report(n, i+1, faults) {
				i = end
				continue
			}
			if text.Len() > 0 {
				t.parts = append(t.parts, templatePart{text: text.String()})
				text.Reset()
			}
			t.parts = append(t.parts, templatePart{expr: expr, at: i + 1})
			i = end
		case runes[i] == '}' && open == 0:
			c.report(n, i, []language.Fault{{Width: 1, Code: codeBrace, Message: "the brace closes nothing", Found: "}", Wanted: "{ before the expression, or no brace"}})
			return nil
		case runes[i] == '}':
			open--
			text.WriteRune('}')
		default:
			text.WriteRune(runes[i])
		}
	}
	if text.Len() > 0 {
		t.parts = append(t.parts, templatePart{text: text.String()})
	}
	return t
}

// unseen reports a # behind a sentence: what follows it is no part of the
// sentence, and whoever wrote it may not know.
func unseen(faults *diagnostic.List, n *document.Node) bool {
	at, repaired, is := n.Remark()
	if is {
		d := fault(faults, n, codeRemark, "the sentence ends at the #: what follows is taken for a remark", "#", "quotes around the whole sentence, or the remark on a line of its own")
		d.Place, d.Width, d.Repaired = at, 1, repaired
	}
	return is
}

// closingBrace finds the brace that closes an expression, passing over those in
// quotes. If a quote is not closed the first brace will do: the expression is
// then refused for its quote.
func closingBrace(runes []rune, from int) int {
	first := len(runes)
	quote := rune(0)
	for i := from; i < len(runes); i++ {
		switch r := runes[i]; {
		case r == '}' && quote == 0:
			return i
		case r == '}':
			first = min(first, i)
		case r == quote:
			quote = 0
		case quote == 0 && (r == '"' || r == '\''):
			quote = r
		}
	}
	return first
}
