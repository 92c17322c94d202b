package language

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/google/cel-go/common/ast"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/value"
)

// layout is where the signs of a text stand.
type layout struct {
	runes  []rune
	tokens []token
	pairs  map[int]int
}

func layOut(text string) *layout {
	tokens := scan(text)
	pairs, _ := partners(tokens)
	return &layout{runes: []rune(text), tokens: tokens, pairs: pairs}
}

// before returns the sign that ends last at or before a place, and after the one
// that starts first at or behind it.
func (l *layout) before(at int) (token, bool) {
	for i := len(l.tokens) - 1; i >= 0; i-- {
		if l.tokens[i].stop <= at {
			return l.tokens[i], true
		}
	}
	return token{}, false
}

func (l *layout) after(at int) (token, bool) {
	for _, t := range l.tokens {
		if t.start >= at {
			return t, true
		}
	}
	return token{}, false
}

// dotted returns where a name of several parts stands, by its last dot: that is
// all that CEL keeps of one.
func (l *layout) dotted(lastDot, dots int) (start, stop int) {
	for i, t := range l.tokens {
		if t.start != lastDot || t.text != "." || i+1 >= len(l.tokens) {
			continue
		}
		first := max(i-2*dots+1, 0)
		return l.tokens[first].start, l.tokens[i+1].stop
	}
	return -1, -1
}

// span returns where a node with all its parts stands in the text, brackets
// closed. CEL keeps of a call only where its operator or bracket stands, and of
// a property only its dot.
func (p *parsed) span(n ast.Expr) (start, stop int) {
	if p.layout == nil {
		p.layout = layOut(p.text)
	}
	start, stop = p.extent(n)
	if start < 0 {
		return 0, len(p.layout.runes)
	}
	stop = min(max(stop, start+1), len(p.layout.runes))
	// What lies between a bracket and its partner is closed already, so that the
	// brackets of the text need be seen once.
	for _, t := range p.layout.tokens {
		partner, paired := p.layout.pairs[t.start]
		switch {
		case !paired || t.kind != bracketToken || t.start < start || t.start >= stop:
		case partner < start:
			start = partner
		case partner >= stop:
			stop = partner + 1
		}
	}
	return start, stop
}

// extent joins a node's own range with those of its parts; start is -1 if
// nothing is known.
func (p *parsed) extent(n ast.Expr) (start, stop int) {
	start, stop = -1, -1
	join := func(from, to int) {
		if from >= 0 && (start < 0 || from < start) {
			start = from
		}
		stop = max(stop, to)
	}
	if r, ok := p.info.GetOffsetRange(n.ID()); ok {
		own := int(r.Start)
		join(own, int(r.Stop))
		if closing, isBracket := p.layout.pairs[own]; isBracket && closing > own {
			join(own, closing+1)
			_, wasKnown := p.asked[n.ID()]
			if name, ok := p.layout.before(own); ok && name.kind == nameToken && (wasKnown || n.Kind() == ast.CallKind || n.Kind() == ast.StructKind) {
				join(name.start, name.stop)
			}
		} else if n.Kind() == ast.SelectKind {
			if field, ok := p.layout.after(int(r.Stop)); ok && field.text == n.AsSelect().FieldName() {
				join(field.start, field.stop)
			}
		} else if n.Kind() == ast.IdentKind {
			join(p.layout.dotted(own, strings.Count(n.AsIdent(), ".")))
		}
	}
	for _, kid := range children(n) {
		join(p.extent(kid))
	}
	return start, stop
}

// textOf returns what stands at a node, in one line and not too long.
func (p *parsed) textOf(n ast.Expr) string {
	start, stop := p.span(n)
	return shortened(string(p.layout.runes[start:stop]))
}

func shortened(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	if utf8.RuneCountInString(text) > 40 {
		text = string([]rune(text)[:37]) + "..."
	}
	return text
}

func (p *parsed) fault(n ast.Expr, code diagnostic.Code, message string) Fault {
	start, stop := p.span(n)
	return Fault{Offset: start, Width: stop - start, Code: code, Message: message}
}

func (p *parsed) refuse(n ast.Expr, code diagnostic.Code, message, wanted string) {
	f := p.fault(n, code, message)
	f.Wanted = wanted
	p.faults = append(p.faults, f)
}

// describe names what stands at n, with its kind.
func (p *parsed) describe(n ast.Expr, kind value.Kind) string {
	if name, ok := dotted(n); ok {
		if w, isWord := p.env.words[name]; isWord {
			return fmt.Sprintf("%s, a word of %s", name, w.Vocabulary)
		}
	}
	return fmt.Sprintf("%s, which is %s", p.textOf(n), p.env.aKind(kind))
}
