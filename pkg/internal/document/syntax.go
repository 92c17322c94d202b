package document

import (
	"fmt"
	"regexp"
	"sort"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
)

// splitMessage takes apart what the YAML parser says; the line is 0 if it tells
// none.
func splitMessage(err error) (line int, message string) {
	message = strings.TrimPrefix(err.Error(), "yaml: ")
	if n, _ := fmt.Sscanf(message, "line %d:", &line); n == 1 {
		_, message, _ = strings.Cut(message, ": ")
	}
	return line, message
}

var unknownAnchor = regexp.MustCompile(`^unknown anchor '(.*)' referenced$`)

// reportSyntax reports an error of the YAML parser.
func reportSyntax(o *original, limits Limits, err error, faults *diagnostic.List) {
	line, message := splitMessage(err)
	at := o.whole()
	offset, found := findSyntax(o.data, line, message)
	at.Line = min(line, strings.Count(o.data, "\n")+1) // 0 where the parser tells none
	if found {
		at = o.place(offset)
	}
	if strings.HasPrefix(message, "exceeded max depth") {
		reportTooDeep(at, limits, faults)
		return
	}
	if m := unknownAnchor.FindStringSubmatch(message); m != nil {
		d := faults.Addf(at, CodeAlias, "an alias may not be used")
		d.Found, d.Wanted = "*"+m[1], `text that starts with * in quotes`
		if found && strings.HasSuffix(o.data[:offset+1], d.Found) {
			d.Place = o.place(offset + 1 - len(d.Found))
			d.Width = len(d.Found)
		}
		return
	}
	d := faults.Addf(at, CodeSyntax, "this is not YAML: %s", message)
	if strings.Contains(message, "expected ',' or '}'") || strings.Contains(message, "expected ',' or ']'") {
		d.Wanted = "quotes around a text between { } or [ ] that holds , : # or a ? at its end"
	}
	if found && strings.HasPrefix(o.data[offset:], "\t") {
		d.Found, d.Wanted = "a tab", "spaces to indent with"
	}
}

// findSyntax returns the offset of the character at which the message arises: the
// file up to before it does not bring the message, and with it does. The
// parser's own line is not always the line of the fault, and it gives no
// column. Each try parses the file again, so it is looked for at the start of a
// large file only; it is false if it was not found there.
func findSyntax(data string, line int, message string) (int, bool) {
	const largest = 256 << 10
	if end := largest; len(data) > end {
		for !utf8.RuneStart(data[end]) {
			end--
		}
		data = data[:end]
	}
	fails := func(end int) bool {
		_, _, err := parseYAML([]byte(data[:end]))
		if err == nil {
			return false
		}
		// A prefix that ends inside an earlier bracket brings the same message,
		// but at another line.
		at, m := splitMessage(err)
		return m == message && at == line
	}
	if !fails(len(data)) {
		return 0, false
	}
	ends := make([]int, 0, len(data)+1)
	for at := range data {
		ends = append(ends, at)
	}
	ends = append(ends, len(data))
	bad := sort.Search(len(ends), func(i int) bool { return fails(ends[i]) })
	return ends[max(0, bad-1)], true
}
