package document_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/document"
)

// TestDay holds which texts are days, and which day was meant by one that is none.
func TestDay(t *testing.T) {
	for _, c := range []struct{ name, why, text, day, meant string }{
		{"a day", "as it is written", "2026-03-01", "2026-03-01", ""},
		{"slashes", "the year comes first, so the rest is told", "2026/03/01", "", "2026-03-01"},
		{"one figure", "it is written with two", "2026-3-1", "", "2026-03-01"},
		{"no such day", "February ends before", "2026-02-30", "", ""},
		{"the year last", "3 January or 1 March", "03/01/2026", "", ""},
		{"points", "one figure each", "2026.3.1", "", "2026-03-01"},
		{"one figure of the month", "each by itself", "2026-3-01", "", "2026-03-01"},
		{"one figure of the day", "each by itself", "2026-03-1", "", "2026-03-01"},
		{"month 13", "there is none", "2026/13/01", "", ""},
		{"February 29", "not in 2026", "2026/2/29", "", ""},
		{"February 29 of a leap year", "2028 has one", "2028/2/29", "", "2028-02-29"},
		{"three figures", "a slip of another kind", "2026/123/1", "", ""},
		{"two figures of the year", "the century is not guessed", "26/12/31", "", ""},
		{"a word", "nobody knows", "soon", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			root, faults := document.Read("f.yaml", []byte("day: '"+c.text+"'\n"), document.Limits{})
			require.Equal(t, c.day, root.Field("day").Day(&faults), c.why)
			if c.day != "" {
				require.Empty(t, faults)
				return
			}
			require.Len(t, faults, 1)
			require.Equal(t, []string{c.text, c.meant, "a day such as 2026-03-01"}, []string{faults[0].Found, faults[0].Nearest, faults[0].Wanted}, c.why)
		})
	}
	var none *document.Node
	require.Empty(t, none.Day(nil), "what is not there is no fault")
}

// TestSpan holds that a last day is no earlier than the first.
func TestSpan(t *testing.T) {
	for _, c := range []struct{ name, why, first, last, fault string }{
		{"in order", "the usual case", "2026-01-01", "2026-12-31", ""},
		{"one day", "it holds on that day", "2026-01-01", "2026-01-01", ""},
		{"turned round", "such a thing never holds", "2026-01-02", "2026-01-01", "f.yaml:2:8: the last day is before the first; found 2026-01-01, from 2026-01-02; wanted a day no earlier than 2026-01-02"},
	} {
		t.Run(c.name, func(t *testing.T) {
			root, faults := document.Read("f.yaml", []byte("from: "+c.first+"\nuntil: "+c.last+"\n"), document.Limits{})
			first, last := document.Span(root.Field("from"), root.Field("until"), &faults)
			require.Equal(t, []string{c.first, c.last}, []string{first, last})
			if c.fault == "" {
				require.Empty(t, faults, c.why)
				return
			}
			require.EqualError(t, faults.Err(), c.fault, c.why)
		})
	}
}

// TestCommaBetweenBraces holds that a comma that ends a text between braces is told as
// such, with the line as it would be right.
func TestCommaBetweenBraces(t *testing.T) {
	for _, c := range []struct{ name, why, text, repaired string }{
		{"a text with a comma", "its rest is taken for a key", "k: {says: Dig here, not there, at: 3}", `k: {says: "Dig here, not there", at: 3}`},
		{"the nearest text", "another stands before it", "k: {at: 3, says: Dig here, not there}", `k: {at: 3, says: "Dig here, not there"}`},
		{"in quotes", "what is behind it is a key", `k: {says: "Dig here", not there, at: 3}`, ""},
		{"a key in quotes", "it is a key", `k: {says: Dig here, 'not there', at: 3}`, ""},
		{"a key with a value", "it is a key", "k: {says: Dig here, not there: 2, at: 3}", ""},
		{"a key of an earlier line", "the text stands elsewhere", "k: {says: Dig here,\n  not there, at: 3}", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			root, faults := document.Read("f.yaml", []byte(c.text+"\n"), document.Limits{})
			e := root.Field("k").Entry("a step", &faults)
			e.Get("says")
			e.Get("at")
			e.Done()
			require.Len(t, faults, 1, c.why)
			require.Equal(t, c.repaired, faults[0].Repaired, c.why)
			if c.repaired != "" {
				column := 1 + strings.Index(c.text, "Dig")
				require.EqualError(t, faults[0], fmt.Sprintf("f.yaml:1:%d: ", column)+`a comma ends a text between { }; found "Dig here, not there"; wanted quotes around a text that has one; write `+c.repaired)
				require.Equal(t, len("Dig here, not there"), faults[0].Width)
			}
		})
	}
}

// TestRemark holds that a # behind a text without quotes is found, with the line as it
// would be right.
func TestRemark(t *testing.T) {
	for _, c := range []struct{ name, why, text, place, repaired string }{
		{"a number sign", "the rest is no part of the text", "k: at pier #2\n", "f.yaml:1:12", `k: "at pier #2"`},
		{"two spaces", "it is the sign that is told", "k: at pier  #2\n", "f.yaml:1:13", `k: "at pier  #2"`},
		{"a tab", "it parts as a space does", "k: at pier\t#2\n", "f.yaml:1:12", "k: \"at pier\t#2\""},
		{"no sign", "there is none to tell", "k: at pier 2\n", "", ""},
		{"within a word", "it is part of the text", "k: pier#2\n", "", ""},
		{"in quotes", "it is part of the text", "k: 'at pier #2'\n", "", ""},
		{"no text", "there is nothing that goes on", "k: [a] #2\n", "", ""},
		{"over two lines", "no line alone would be right", "k: at\n  pier #2\n", "f.yaml:2:8", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			root, faults := document.Read("f.yaml", []byte(c.text), document.Limits{})
			require.NoError(t, faults.Err())
			at, repaired, found := root.Field("k").Remark()
			require.Equal(t, c.place != "", found, c.why)
			require.Equal(t, c.repaired, repaired, c.why)
			if found {
				require.Equal(t, c.place, at.String(), c.why)
			}
		})
	}
}

// TestSlips holds what is said of a line that is no YAML, and how it would be right.
func TestSlips(t *testing.T) {
	for _, c := range []struct{ name, why, text, fault, repaired string }{
		{"no space behind a colon", "the commonest", "a: 1\nb:2\nc: 3\n", "f.yaml:2:3: a colon behind a key needs a space behind it", "b: 2"},
		{"no colon", "a key alone", "a: 1\nb 2\nc: 3\n", "f.yaml:2:2: the colon behind the key is missing", "b: 2"},
		{"a tab", "spaces alone indent", "a:\n  b: 1\n\tc: 2\n", "f.yaml:3:1: a tab indents the line, where only spaces can", "  c: 2"},
		{"spaces that are not plain", "they look like plain ones", "a:\n  b: 1\n \u00a0c: 2\n", "f.yaml:3:2: the line is indented with spaces that are not plain ones", "  c: 2"},
		{"lines that end in CR LF", "the line alone is told", "a: 1\r\nb:2\r\nc: 3\r\n", "f.yaml:2:3: a colon behind a key needs a space behind it", "b: 2"},
		{"too far right", "it belongs to nothing", "a: 1\n b: 2\n", "f.yaml:2:1: the line begins further right than those that it belongs to", "b: 2"},
		{"too far left", "the lines beside it tell", "a:\n  b: 1\nc: 2\n  d: 3\n", "f.yaml:3:1: the line begins further left than those that it belongs to", "  c: 2"},
		{"an open quote", "to the end of the line", "a: \"x\nb: 2\n", "f.yaml:1:6: the quote is not closed", `a: "x"`},
		{"an open single quote", "to the end of the line", "a: 'x\nb: 2\n", "f.yaml:1:6: the quote is not closed", `a: 'x'`},
		{"a backslash", "it begins a sign", "a: \"C:\\work\"\n", "", `a: 'C:\work'`},
		{"an apostrophe", "it ends the text", "a: 'it's'\n", "f.yaml:1:4: an apostrophe ends a text in single quotes", `a: "it's"`},
		{"a sign", "no text begins with it", "a: %x\n", "f.yaml:1:4: a text that begins with this sign needs quotes", `a: "%x"`},
		{"a colon in a text", "it would be a key", "a: b: c\n", "", `a: "b: c"`},
		{"an open brace", "it is closed nowhere", "a: {b: 1\nc: 2\n", "", "a: {b: 1}"},
		{"an open bracket", "it is closed nowhere", "a: [b, c\nd: 2\n", "", "a: [b, c]"},
		{"no dash", "the lines below make a list", "a:\n    b: 1\n    c: 2\n  - b: 3\n", "f.yaml:2:3: a dash is missing: the lines below make a list", "  - b: 1"},
		{"a dash without a space", "it is a text", "a:\n  - b: 1\n  -c: 2\n", "f.yaml:3:4: a dash needs a space behind it", "  - c: 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := document.Read("f.yaml", []byte(c.text), document.Limits{})
			require.NotEmpty(t, faults, c.why)
			require.Equal(t, c.repaired, faults[0].Repaired, "%s: %v", c.why, faults[0])
			if c.fault != "" {
				require.Equal(t, c.fault, faults[0].Place.String()+": "+faults[0].Message, c.why)
			}
			require.Equal(t, 1, faults[0].Width)
		})
	}
}
