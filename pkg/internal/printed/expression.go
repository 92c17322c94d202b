package printed

import (
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/language"
)

// expression says what an expression gives. A setting is said by its value, with
// its name beside it. Within another expression, one that joins several is put in
// brackets.
func (s *speaker) expression(o *language.Outline, depth int) string {
	part := func(i int) string { return s.expression(o.Parts[i], depth+1) }
	switch {
	case o == nil:
		return ""
	case !o.Value.IsZero():
		return shown(o.Value)
	case o.Name != "":
		if set, is := s.book.Setting(o.Name); is {
			return shown(set.Value) + " (" + s.setting(o.Name) + ")"
		}
		return s.name(o.Name)
	case o.Property != "":
		return "the " + s.words(o.Property) + " of " + part(0)
	case o.Call != "":
		return s.call(o)
	case o.Op == "" || o.Op == "in":
		words := make([]string, len(o.Parts))
		for i := range o.Parts {
			words[i] = part(i)
		}
		return listed(words, " and ")
	case len(o.Parts) == 1:
		return "the negative of " + part(0)
	}
	if comparisons[o.Op] != "" {
		return "whether " + s.comparison(o, false)
	}
	if how := s.how(o); how != "" {
		of := o.Parts[0]
		if set, is := s.book.Setting(of.Name); is {
			return shown(set.Value) + " " + how + " (" + s.setting(of.Name) + ")"
		}
		return part(0) + map[bool]string{true: " ", false: ", "}[!of.Value.IsZero()] + how
	}
	left := part(0)
	if strings.Contains(sums[o.Op], o.Parts[0].Op) && o.Parts[0].Op != "" {
		left = s.expression(o.Parts[0], 0)
	}
	text := left + joiners[o.Op] + part(1)
	if depth > 0 {
		return "(" + text + ")"
	}
	return text
}

// how is what a factor is called that only tells how the other is meant, such as "as
// built"; "" for another expression.
func (s *speaker) how(o *language.Outline) string {
	if o.Op == "*" && strings.HasPrefix(s.called[o.Parts[1].Name], "as ") {
		return s.called[o.Parts[1].Name]
	}
	return ""
}

// sums are the operators that may stand in the first part without brackets.
var sums = map[string]string{"+": "+-", "-": "+-", "*": "*", "/": "*"}

var joiners = map[string]string{"+": " plus ", "-": " less ", "*": " times ", "/": " divided by "}

// call says a call: what the language itself has in words of its own, and a
// calculation by what it gives, with what it is given.
func (s *speaker) call(o *language.Outline) string {
	words := s.given(o)
	if own, is := calls[o.Call]; is {
		return own[0] + words[0] + own[1] + strings.Join(words[1:], "")
	}
	if o.Call == "larger" || o.Call == "smaller" {
		return "the " + o.Call + " of " + listed(words, " and ")
	}
	return withArticle(s.calls[o.Call]) + s.with(o)
}

// calls are those of the language itself, with what is said before the first of what
// they are given and behind it.
var calls = map[string][2]string{"round_up": {"", ", rounded up to the step of "}, "round_down": {"", ", rounded down to the step of "},
	"round_near": {"", ", to the nearest step of "}, "whole_up": {"", ", rounded up to a whole number"}, "count": {"the number of "},
	"least": {"the least of "}, "greatest": {"the greatest of "}}

// with says what a calculation is given.
func (s *speaker) with(o *language.Outline) string {
	return " (with " + listed(s.given(o), " and ") + ")"
}

// given says each of what a call is given.
func (s *speaker) given(o *language.Outline) []string {
	words := make([]string, len(o.Parts))
	for i, p := range o.Parts {
		words[i] = s.expression(p, 0)
	}
	return words
}

// formula says what an expression of the book gives.
func (s *speaker) formula(text string) string { return s.expression(s.outline(text), 0) }

// quoting says a sentence of the book with what it quotes in square brackets, as
// a blank to be filled in on each job; a setting is filled in.
func (s *speaker) quoting(t *engine.Template) string { return t.Telling(s.blank) }

// filled is quoting for a sentence of which the text alone was kept.
func (s *speaker) filled(text string) string {
	return quoted.ReplaceAllStringFunc(text, func(in string) string {
		if out := s.blank(strings.Trim(in, "{}")); out != "" {
			return out
		}
		return in
	})
}

// blank says an expression that a sentence quotes, "" for one that the book
// cannot read.
func (s *speaker) blank(text string) string {
	o := s.outline(text)
	if o == nil {
		return ""
	}
	of, how := o, s.how(o)
	if how != "" {
		of, how = o.Parts[0], " "+how
	}
	if set, is := s.book.Setting(of.Name); is {
		return shown(set.Value) + how
	}
	return "[" + strings.TrimPrefix(s.expression(o, 0), "the ") + "]"
}
