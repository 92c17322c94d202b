package engine

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/rulebook"
)

// mark stands in a file just before the place where a fault is.
const mark = "‸"

// unmarked takes the mark out of a file and gives the place where it stood. It
// counts lines and characters on its own, so that nothing of the library is
// held against itself.
func unmarked(t *testing.T, file string) (string, diagnostic.Place) {
	t.Helper()
	before, after, ok := strings.Cut(file, mark)
	require.True(t, ok, "the file has a mark")
	line := strings.Count(before, "\n") + 1
	column := len([]rune(before[strings.LastIndex(before, "\n")+1:])) + 1
	return before + after, diagnostic.Place{File: "a.yaml", Line: line, Column: column}
}

// TestPlaces holds that a fault in an expression is at its line and column,
// however YAML writes the expression.
func TestPlaces(t *testing.T) {
	block := func(key, written string) string {
		return "chapter: tests\nabout: A chapter.\ndecisions:\n  a:\n    asks: What?\n    answers: number\n    take: first\n    rules:\n" +
			"      - rule: A\n        answer: 3\n        source: practice\n        because: none\n        " + key + ": " + written + "\n"
	}
	flow := func(written string) string {
		return "chapter: tests\nabout: A chapter.\ndecisions: {a: {asks: why, answers: number, take: first, rules: [{rule: A, " + written + ", source: practice}]}}\n"
	}
	for _, c := range []struct{ name, why, file, code string }{
		{"plain", "the usual way to write a condition", block("when", "wet && ‸cbrr > 3"), "unknown-name"},
		{"plain, at the start", "no text stands before it, so nothing shifts the column", block("when", "‸cbrr > 3"), "unknown-name"},
		{"plain, over lines", "YAML folds the break into one space, and the indent is gone", block("when", "wet &&\n          wet && ‸cbrr > 3"), "unknown-name"},
		{"plain, spaces before", "they are none of the text", block("when", "   ‸cbrr > 3"), "unknown-name"},
		{"single quotes", "the quote takes a column that is not of the text", block("when", "'wet && ‸cbrr > 3'"), "unknown-name"},
		{"single quotes, doubled", "two in the file are one character", block("when", "'label_of == ''''  && ‸cbrr > 3'"), "two"},
		{"double quotes", "the same with the other quote", block("when", `"wet && ‸cbrr > 3"`), "unknown-name"},
		{"double quotes, escapes before", "an escape takes several columns", block("when", `"wet &&\t\u0077et \x26\x26 ‸cbrr > 3"`), "unknown-name"},
		{"double quotes, escaped quotes", "each \\\" is two characters in the file and one in the text", block("when", `"\"a\" == \"b\" && ‸cbrr > 3"`), "unknown-name"},
		{"double quotes, over lines", "a break within quotes is folded as well", block("when", "\"wet &&\n          ‸cbrr > 3\""), "unknown-name"},
		{"double quotes, escaped break", "a break after a backslash leaves no space in the text", block("when", "\"wet && \\\n          ‸cbrr > 3\""), "unknown-name"},
		{"literal", "each line keeps its break, and the indent is taken off", block("when", "|\n          wet &&\n          ‸cbrr > 3"), "unknown-name"},
		{"literal, deeper lines", "an indent beyond the first line's is part of the text", block("when", "|\n          wet\n            && (\n              ‸cbrr > 3)"), "unknown-name"},
		{"literal, after a blank line", "blank lines before the text are part of it", block("when", "|\n\n          wet &&\n\n          ‸cbrr > 3"), "unknown-name"},
		{"folded", "breaks become spaces, so the text has one line and the file three", block("when", ">\n          wet &&\n          wet && ‸cbrr > 3"), "unknown-name"},
		{"folded, stripped", "a blank line is a break in the text", block("when", ">-\n          wet &&\n\n          ‸cbrr > 3"), "unknown-name"},
		{"flow", "within braces the text ends at a comma", flow("when: wet && ‸cbrr > 3, answer: 3, because: none"), "unknown-name"},
		{"flow, quoted", "quotes within braces start a column later", flow(`when: "wet && ‸cbrr > 3", answer: 3, because: none`), "unknown-name"},
		{"non-ASCII before", "columns count characters, not bytes", block("when", `"'größe ≤ 😀' == 'x' && ‸cbrr > 3"`), "unknown-name"},
		{"remark before", "CEL's own", block("when", "|\n          wet // and\n          && ‸cbrr > 3"), "unknown-name"},
		{"syntax", "the parser counts its own lines", block("when", "|\n          wet &&\n          cbr ‸= 3"), "not-an-expression"},
		{"syntax, end", "just behind the last character", block("when", "cbr >‸"), "not-an-expression"},
		{"unit", "the repair is offered at the number, not at the whole comparison", block("when", "cbr > 3 &&\n          cbr > ‸6 in"), "unit-behind"},
		{"length and number", "a comparison is marked at its left side", block("when", "known(water) && ‸water > 6"), "wrong-operands"},
		{"unguarded", "the mark is at the read, behind an || that guards nothing", block("when", "wet || ‸water > inches(6)"), "may-be-missing"},
		{"in a dotted name", "the whole name is marked, not the part behind the dot", block("when", "wet && ‸soil.swel > 3"), "unknown-name"},
		{"answer", "an answer is looked at as a condition is", strings.Replace(block("when", "wet"), "answer: 3", "answer: 2 * ‸cbrr", 1), "unknown-name"},
		{"answer of the wrong kind", "the expression is right in itself, so all of it is marked", strings.Replace(block("when", "wet"), "answer: 3", "answer: ‸inches(3)", 1), "wrong-kind"},
		{"answer with a unit", "people write a unit in an answer as they do in a setting", strings.Replace(block("when", "wet"), "answer: 3", "answer: ‸6 in", 1), "unit-behind"},
		{"in a sentence", "the column counts from the line's start, not from the brace", strings.Replace(block("when", "wet"), "because: none", "because: at CBR {‸cbrr}", 1), "unknown-name"},
		{"in a sentence, spaced", "spaces within the braces shift the mark", strings.Replace(block("when", "wet"), "because: none", "because: at CBR { 2 * ‸cbrr } and more", 1), "unknown-name"},
		{"in a sentence, second", "{{ is one brace of the text and opens no expression", strings.Replace(block("when", "wet"), "because: none", "because: '{cbr} and {{ and {‸cbrr}'", 1), "unknown-name"},
		{"in a sentence over lines", "folding and braces shift the mark together", strings.Replace(block("when", "wet"), "because: none", "because: >\n          größer: at CBR {cbr}\n          and at {\n          ‸cbrr}", 1), "unknown-name"},
		{"in a sentence, unguarded", "a sentence reads a value as a rule does", strings.Replace(block("when", "wet"), "because: none", "because: water at {‸water}", 1), "may-be-missing"},
		{"brace not closed", "the brace is marked, since the end may be anywhere", strings.Replace(block("when", "wet"), "because: none", "because: at CBR ‸{cbr", 1), "open-brace"},
		{"quote in braces not closed", "a } in a quote closes nothing, so the fault is where the quote begins", strings.Replace(block("when", "wet"), "because: none", "because: at CBR {‸'a} and {cbr}", 1), "not-an-expression"},
		{"brace with nothing", "the mark is where the expression should begin", strings.Replace(block("when", "wet"), "because: none", "because: at CBR {‸}", 1), "empty-expression"},
	} {
		for _, style := range []struct{ name, from, to string }{{"", "", ""}, {", CR LF", "\n", "\r\n"}, {", after a byte order mark", "chapter: tests", "\ufeffchapter: tests"}} {
			t.Run(c.name+style.name, func(t *testing.T) {
				file, want := unmarked(t, c.file)
				if style.from != "" {
					file = strings.ReplaceAll(file, style.from, style.to)
				}
				_, err := openFiles(file)
				var faults *rulebook.Error
				require.ErrorAs(t, err, &faults)
				last := faults.Faults[len(faults.Faults)-1]
				require.Empty(t, cmp.Diff(want, last.Place), "%s: %v", c.why, last)
				if c.code == "two" {
					require.Len(t, faults.Faults, 2)
					return
				}
				require.Len(t, faults.Faults, 1, "%v", faults)
				require.EqualValues(t, c.code, last.Code)
			})
		}
	}
}

// TestAllFaultsAtOnce holds that everything wrong in several files is told in
// one run, in the order of the files and lines.
func TestAllFaultsAtOnce(t *testing.T) {
	_, err := Open(filesOf(map[string]string{
		"b.yaml": chapterOf("decisions:\n", decision("depth", "length", "largest", "",
			[3]string{"D1", "base_of == pannel", "6"}, [3]string{"D2", "cbrr > 3", "inches(6) + 3"})),
		"a/z.yaml": "chapter: z\nabout: z\nterms:\n  soft: {is: bool, about: soft, source: practise, value: cbr < inches(3), because: told}\n  deep: {is: lenght, about: deep, value: 3, because: told, source: practice}\n",
		"a.yaml": "chapter: a\nabout: a\nsettings:\n  cover_least: {value: 3 in, at_least: 4 in, because: 'at {cbrrr}', source: practice}\n" +
			decisions(decision("base_of", "base_type", "frist", "", [3]string{"B1", "wet && (cbr = 3", "biaxial"})),
		"words.yaml": wordsFile,
	}), testSetup())
	require.Empty(t, cmp.Diff([]string{
		`a.yaml:4:24: cover_least crosses its limit; found 3 in; wanted at least 4 in; a.yaml:4:40: the limit is set here`,
		`a.yaml:4:60: no value or word is called cbrrr; found cbrrr; did you mean "cbr"?`,
		`a.yaml:9:11: this is not a way of taking an answer; found frist; wanted first, only, largest, smallest or all; did you mean "first"?`,
		`a.yaml:11:29: this is of the wrong kind; found biaxial, a word of grid; wanted a word of base_type (open_graded, dense_graded, panel)`,
		`a.yaml:11:94: this bracket is not closed; found (; wanted )`,
		`a.yaml:11:99: this cannot be read as an expression; found =; wanted ==`,
		`a/z.yaml:4:41: no source is called practise; found practise; wanted practice, own, company, or a name under sources; did you mean "practice"?`,
		`a/z.yaml:4:58: < does not go between these; found number < length; wanted a length, such as inches(6)`,
		`a/z.yaml:5:14: a term is of a kind that does not exist; found lenght; wanted number, bool, text, a dimension, a vocabulary or a kind of material; did you mean "length"?`,
		`b.yaml:9:29: this is of the wrong kind; found 6, which is a number; wanted a length, such as inches(6)`,
		`b.yaml:9:92: no value or word is called pannel; found pannel; wanted a word of base_type (open_graded, dense_graded, panel); did you mean "panel"?`,
		`b.yaml:10:29: + does not go between these; found length + number; wanted a length, such as inches(3)`,
		`b.yaml:10:93: no value or word is called cbrr; found cbrr; did you mean "cbr"?`,
	}, linesOf(t, err)))
}
