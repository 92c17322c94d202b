package language

import (
	"slices"
	"strings"
)

// The scan splits an expression into the signs that a writer sees. CEL's own
// parser decides what an expression is; the scan is for saying where a part of
// one stands, and what is wrong with one that cannot be read.

type tokenKind uint8

const (
	nameToken    tokenKind = iota
	numberToken            // with whatever letters and digits stick to it
	textToken              // in quotes
	openText               // in quotes that are not closed
	signToken              // an operator, a comma, a dot
	bracketToken           // one of ()[]{}
	strangeToken           // a character that no expression has outside quotes
)

// token is a sign of an expression; start and stop count characters.
type token struct {
	kind        tokenKind
	text        string
	start, stop int
}

type scanner struct {
	runes []rune
	at    int
}

// scan returns the signs of the text; spaces and comments fall away.
func scan(text string) []token {
	s := &scanner{runes: []rune(text)}
	var out []token
	for s.skip(); s.at < len(s.runes); s.skip() {
		start := s.at
		kind := s.next()
		out = append(out, token{kind: kind, text: string(s.runes[start:s.at]), start: start, stop: s.at})
	}
	return out
}

func (s *scanner) peek(ahead int) rune {
	if i := s.at + ahead; i < len(s.runes) {
		return s.runes[i]
	}
	return 0
}

// skip goes past spaces and comments.
func (s *scanner) skip() {
	for s.at < len(s.runes) {
		switch r := s.runes[s.at]; {
		case r == ' ' || r == '\t' || r == '\n' || r == '\r' || r == '\f':
			s.at++
		case r == '/' && s.peek(1) == '/':
			for s.at < len(s.runes) && s.runes[s.at] != '\n' {
				s.at++
			}
		default:
			return
		}
	}
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '_' }
func isDigit(r rune) bool  { return r >= '0' && r <= '9' }

// next goes past one sign.
func (s *scanner) next() tokenKind {
	r := s.runes[s.at]
	switch {
	case isLetter(r):
		start := s.at
		for isLetter(s.peek(0)) || isDigit(s.peek(0)) {
			s.at++
		}
		if raw, isPrefix := textPrefix(string(s.runes[start:s.at])); isPrefix && isQuote(s.peek(0)) {
			return s.text(raw)
		}
		return nameToken
	case isDigit(r) || r == '.' && isDigit(s.peek(1)):
		s.number()
		return numberToken
	case isQuote(r):
		return s.text(false)
	case slices.Contains([]rune("()[]{}"), r):
		s.at++
		return bracketToken
	}
	two := string([]rune{r, s.peek(1)})
	if slices.Contains([]string{"==", "!=", "<=", ">=", "&&", "||"}, two) {
		s.at += 2
		return signToken
	}
	s.at++
	if slices.Contains([]rune("<>!+-*/%?:,."), r) {
		return signToken
	}
	return strangeToken
}

// number goes past a number: digits, a point, an exponent.
func (s *scanner) number() {
	for {
		r := s.peek(0)
		exponent := r == 'e' || r == 'E'
		switch {
		case exponent && (s.peek(1) == '+' || s.peek(1) == '-') && isDigit(s.peek(2)):
			s.at += 2
		case isDigit(r) || isLetter(r) || r == '.' && isDigit(s.peek(1)):
			s.at++
		default:
			return
		}
	}
}

func isQuote(r rune) bool { return r == '"' || r == '\'' }

// textPrefix reports whether letters before a quote belong to the text, and
// whether backslashes in it are plain.
func textPrefix(s string) (raw, isPrefix bool) {
	switch strings.ToLower(s) {
	case "r", "br", "rb":
		return true, true
	case "b":
		return false, true
	}
	return false, false
}

// text goes past a text in quotes, three of which may span lines.
func (s *scanner) text(raw bool) tokenKind {
	quote := s.peek(0)
	width := 1
	if s.peek(1) == quote && s.peek(2) == quote {
		width = 3
	}
	s.at += width
	for s.at < len(s.runes) {
		switch r := s.runes[s.at]; {
		case r == '\\' && !raw:
			s.at += 2
		case r == '\n' && width == 1:
			return openText
		case r == quote && (width == 1 || s.peek(1) == quote && s.peek(2) == quote):
			s.at += width
			return textToken
		default:
			s.at++
		}
	}
	s.at = min(s.at, len(s.runes))
	return openText
}

var closers = map[string]string{"(": ")", "[": "]", "{": "}"}

// partners pairs the brackets of a text by where they stand. A bracket without
// a partner is in lone.
func partners(tokens []token) (pairs map[int]int, lone []token) {
	pairs = map[int]int{}
	var open []token
	for _, t := range tokens {
		if t.kind != bracketToken {
			continue
		}
		if closers[t.text] != "" {
			open = append(open, t)
			continue
		}
		if len(open) == 0 || closers[open[len(open)-1].text] != t.text {
			lone = append(lone, t)
			continue
		}
		partner := open[len(open)-1]
		open = open[:len(open)-1]
		pairs[partner.start], pairs[t.start] = t.start, partner.start
	}
	return pairs, append(lone, open...)
}
