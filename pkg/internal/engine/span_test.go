package engine

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/value"
)

// TestSpans holds which spans of a column are the same, and which have a value in common.
func TestSpans(t *testing.T) {
	before := func(x float64) cut { return cut{value.Number(x), false} }
	after := func(x float64) cut { return cut{value.Number(x), true} }
	between := func(from, to cut) span { return span{ordered: true, isBand: true, from: from, to: to} }
	below3, upTo3 := between(cut{}, before(3)), between(cut{}, after(3))
	any, known, unknown := span{any: true}, span{known: true}, span{unknown: true}
	words := func(w ...string) span { return span{words: w} }
	for _, c := range []struct {
		name, why   string
		a, b        span
		same, meets bool
	}{
		{"one band", "it is what it is", below3, below3, true, true},
		{"with and without its end", "3 is in one alone", below3, upTo3, false, true},
		{"beside each other", "3 is in the second alone", below3, between(before(3), cut{}), false, false},
		{"at one value", "3 is in both", upTo3, between(before(3), cut{}), false, true},
		{"other begin", "2 is in one alone", between(before(2), before(5)), between(before(3), before(5)), false, true},
		{"other end", "4 is in one alone", between(before(2), before(5)), between(before(2), before(4)), false, true},
		{"no end", "one goes on for ever", between(before(2), cut{}), between(before(2), before(4)), false, true},
		{"words in another order", "a list in a cell has none", words("a", "b"), words("b", "a"), true, true},
		{"words in common", "b is in both", words("a", "b"), words("b", "c"), false, true},
		{"other words", "nothing is in both", words("a"), words("b"), false, false},
		{"not known and any", "any lets through what is not known", unknown, any, false, true},
		{"not known and known", "nothing is both", unknown, known, false, false},
		{"known and any", "what is not known is in one alone", known, any, false, true},
		{"not known twice", "it is what it is", unknown, unknown, true, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.same, sameSpan(c.a, c.b), c.why)
			require.Equal(t, c.same, sameSpan(c.b, c.a), c.why)
			require.Equal(t, c.meets, c.a.meets(c.b), c.why)
			require.Equal(t, c.meets, c.b.meets(c.a), c.why)
		})
	}
}

// TestHoles holds what a line has as its holes.
func TestHoles(t *testing.T) {
	for _, c := range []struct {
		name, why, text string
		want            []string
	}{
		{"none", "a fixed sentence", "Dig.", nil},
		{"sorted", "a line may be worded in another order", "{b} of {a}", []string{"{a}", "{b}"}},
		{"twice", "one hole that is filled twice", "{a} and {a}", []string{"{a}"}},
		{"spaces", "they stand for nothing", "{ a }", []string{"{a}"}},
		{"brace that is printed", "two braces are one on the sheet", "{{a} {b}", []string{"{b}"}},
		{"quoted brace", "it closes nothing", "{has('}')}", []string{"{has('}')}"}},
		{"brace within", "it is part of the hole that it stands in", "{a{b} {c}", []string{"{a{b}", "{c}"}},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, holes(c.text), c.why) })
	}
}
