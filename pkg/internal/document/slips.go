package document

import (
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
)

// lineSlip is a way of getting a line of YAML wrong: what such a line looks like,
// what is wrong with it, and the parts of the line as they would be right.
type lineSlip struct {
	line *regexp.Regexp
	says string
	mend func(part []string) string
	// there reports whether the fault is where the parser stopped, and not where the
	// mended line first differs.
	there bool
}

// Parts of the lines below: a key with its dashes and colon, and a space that
// looks like a plain one and is not.
const (
	keyPart   = `^([ -]*[\w-]+: +)`
	oddSpaces = `\x{00a0}\x{2000}-\x{200b}\x{202f}\x{3000}`
)

var oddIndent = lineSlip{regexp.MustCompile(`^( *[` + oddSpaces + `][ ` + oddSpaces + `]*)(.*)$`), "the line is indented with spaces that are not plain ones",
	func(p []string) string { return strings.Repeat(" ", len([]rune(p[1]))) + p[2] }, false}

// lineSlips are the other slips that writers of YAML make. The first whose mended line
// can be read is told.
var lineSlips = []lineSlip{
	{regexp.MustCompile(`^([ -]*[\w-]+:)[` + oddSpaces + `][ ` + oddSpaces + `]*(.*)$`), "the space behind the colon is not a plain one", spaced, false},
	{regexp.MustCompile(`^([ -]*[\w-]+:)([^\s:].*)$`), "a colon behind a key needs a space behind it", spaced, false},
	{regexp.MustCompile(`^( *-)([^\s-].*)$`), "a dash needs a space behind it", spaced, false},
	{regexp.MustCompile(`^([ -]*[a-z_]+)()()( [^:]*)$`), "the colon behind the key is missing", func(p []string) string { return p[1] + ":" + p[4] }, false},
	{regexp.MustCompile(keyPart + `("[^"\\]*)$`), "the quote is not closed", func(p []string) string { return p[1] + strings.TrimRight(p[2], " ") + `"` }, true},
	{regexp.MustCompile(keyPart + `('[^']*)$`), "the quote is not closed", func(p []string) string { return p[1] + strings.TrimRight(p[2], " ") + `'` }, true},
	{regexp.MustCompile(keyPart + `"([^"]*\\[^"]*)"$`), `a backslash means something of its own between these quotes`,
		func(p []string) string { return p[1] + "'" + strings.ReplaceAll(p[2], "'", "''") + "'" }, true},
	{regexp.MustCompile(keyPart + `'(.*'.*)'$`), "an apostrophe ends a text in single quotes", quoted, false},
	{regexp.MustCompile(keyPart + `(["'].+)$`), "text stands behind the closing quote", quoted, false},
	{regexp.MustCompile(keyPart + "([%@`&*!|>?,-].*|[{\\[][^}\\]]*[}\\]] *[^ }\\],].*)$"), "a text that begins with this sign needs quotes", quoted, false},
	{regexp.MustCompile(keyPart + `([^"'{\[].*:.*)$`), "a text with a colon and a space in it needs quotes", quoted, true},
	{regexp.MustCompile(`^(.*[{,] *\w+: +)([^"'{}\[\],]*:[^{}\[\],]*)([,}].*)$`), "a text with a colon in it needs quotes between { }", quoted, false},
	{regexp.MustCompile(`^(.*\{.*)$`), "a bracket is not closed", func(p []string) string { return p[1] + "}" }, true},
	{regexp.MustCompile(`^(.*\[.*)$`), "a bracket is not closed", func(p []string) string { return p[1] + "]" }, true},
}

func spaced(p []string) string { return p[1] + " " + p[2] }

// quoted puts the second part in quotes.
func quoted(p []string) string { return p[1] + inQuotes(p[2]) + strings.Join(p[3:], "") }

// inQuotes writes a text as a quoted scalar.
func inQuotes(text string) string {
	text = strings.TrimRight(text, " ")
	if strings.ContainsAny(text, `"\`) {
		return "'" + strings.ReplaceAll(text, "'", "''") + "'"
	}
	return `"` + text + `"`
}

// mended is a line of a file as it would be right, with what is wrong with it.
type mended struct {
	line  int // counted from 0
	text  string
	says  string
	there bool
}

// mends lists what may be wrong about a line at which the parser stopped, the
// likeliest first.
func mends(lines []string, at int) []mended {
	var out []mended
	try := func(slips ...lineSlip) {
		for i := at; i >= max(at-1, 0); i-- {
			for _, s := range slips {
				if part := s.line.FindStringSubmatch(lines[i]); part != nil {
					out = append(out, mended{i, s.mend(part), s.says, s.there})
				}
			}
		}
	}
	try(oddIndent)
	out = append(out, indents(lines, at)...)
	try(lineSlips...)
	return out
}

// indents lists what may be wrong with where a line begins.
func indents(lines []string, at int) []mended {
	indent := func(i int) string {
		if i < 0 {
			return ""
		}
		return lines[i][:len(lines[i])-len(strings.TrimLeft(lines[i], " "))]
	}
	at = min(at, len(lines)-1)
	here, before := indent(at), indent(at-1)
	text := strings.TrimLeft(lines[at], " \t")
	var out []mended
	if strings.HasPrefix(lines[at][len(here):], "\t") {
		for i := at - 1; i >= 0; i-- {
			out = append(out, mended{at, indent(i) + text, "a tab indents the line, where only spaces can", false})
		}
		return out
	}
	if len(here) > len(before) {
		shallow := mended{at - 1, here + strings.TrimLeft(lines[max(at-1, 0)], " "), "the line begins further left than those that it belongs to", false}
		deep := mended{at, before + text, "the line begins further right than those that it belongs to", false}
		switch {
		case at > 1 && indent(at-2) == here:
			return append(out, shallow, deep)
		case len(here) == len(before)+1: // further in, it may go on the text above
			out = append(out, deep)
		}
	}
	if strings.HasPrefix(text, "- ") { // an item behind what should be one
		first := at
		for first > 0 && (len(indent(first-1)) > len(here) || strings.TrimSpace(lines[first-1]) == "") {
			first--
		}
		out = append(out, mended{first, here + "- " + strings.TrimLeft(lines[first], " "), "a dash is missing: the lines below make a list", false})
	}
	return out
}

// mend tells in plain words what is wrong about the line at which the parser
// stopped, with the line as it would be right, if that can be read. It reports
// whether it found it.
func mend(o *original, parserLine int, d *diagnostic.Diagnostic) bool {
	if len(o.data) > largestTried || d.Place.Line == 0 {
		return false
	}
	lines := strings.Split(o.data, "\n")
	for i := range lines {
		lines[i] = strings.TrimSuffix(lines[i], "\r")
	}
	const most = 40
	for i, m := range mends(lines, min(d.Place.Line, len(lines))-1) {
		if i == most {
			break
		}
		tried := slices.Clone(lines)
		tried[m.line] = m.text
		_, _, err := parseYAML([]byte(strings.Join(tried, "\n")))
		if err != nil {
			if line, _ := splitMessage(err); line <= max(parserLine, d.Place.Line) {
				continue
			}
		}
		d.Message, d.Repaired, d.Width = m.says, m.text, 1
		if !m.there || d.Place.Line != m.line+1 {
			d.Place.Line, d.Place.Column = m.line+1, 1+utf8.RuneCountInString(common(lines[m.line], m.text))
		}
		return true
	}
	return false
}

// common returns how two texts begin alike.
func common(a, b string) string {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return strings.ToValidUTF8(a[:n], "")
}

// line returns a line of the file, counted from 1, without its break.
func (o *original) line(number int) []rune { return []rune(o.lines()[number-1]) }

// Remark returns the place of the # behind a text without quotes, and whether
// there is one: what follows it is no part of the text.
func (n *Node) Remark() (diagnostic.Place, string, bool) {
	if n.Shape() != Scalar || n.style != plain || len(n.places()) == 0 {
		return diagnostic.Place{}, "", false
	}
	m := n.places()
	last := m[len(m)-1]
	line := n.origin.line(int(last.line))
	rest := string(line[min(int(last.column)-1, len(line)):])
	space := len(rest) - len(strings.TrimLeft(rest, " \t"))
	if space == 0 || !strings.HasPrefix(rest[space:], "#") {
		return diagnostic.Place{}, "", false
	}
	at := diagnostic.Place{File: n.origin.file, Line: int(last.line), Column: int(last.column) + space}
	if int(last.line) != n.line {
		return at, "", true
	}
	return at, string(line[:n.column-1]) + inQuotes(string(line[n.column-1:])), true
}

// repaired is the line of a node as it would be right: without the sign that its
// text begins with, as far as the first space, or with the text in quotes. It is
// "" where the text ends at a bracket.
func (n *Node) repaired(drop bool) string {
	line := n.origin.line(n.line)
	if n.column > len(line) || strings.ContainsAny(string(line[:n.column-1]), "{[") {
		return ""
	}
	head, text := string(line[:n.column-1]), string(line[n.column-1:])
	if !drop {
		return head + inQuotes(text)
	}
	_, rest, _ := strings.Cut(text, " ")
	return head + strings.TrimLeft(rest, " ")
}

// plainWords are what the parser says, in the words of a person who never read
// how YAML is made.
var plainWords = []struct{ parser, says string }{
	{"mapping values are not allowed", "a colon stands where no key can: a key begins where those above it do, and a text with a colon needs quotes"},
	{"could not find expected ':'", "a line here is neither a key with its colon nor part of a text"},
	{"did not find expected key", "this does not go on from what stands above it"},
	{"did not find expected '-' indicator", "a line among the items of a list begins without a dash"},
	{"found character that cannot start any token", "no text can begin with this sign unless it is in quotes"},
	{"unexpected end of stream", "a quote is not closed before the end of the file"},
	{"did not find expected ','", "between brackets something is not closed, or needs a comma or quotes"},
	{"tab character", "a tab stands where only spaces can"},
}

// inPlainWords turns what the parser says into plain words.
func inPlainWords(message string) string {
	for _, each := range plainWords {
		if strings.Contains(message, each.parser) {
			return each.says
		}
	}
	return "this is not YAML: " + message
}
