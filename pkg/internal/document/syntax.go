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
		d.Found, d.Wanted = "*"+m[1], "text that starts with * in quotes, or what it stands for, written out"
		if start := strings.LastIndex(o.data[:min(offset+1, len(o.data))], d.Found); found && start >= 0 {
			d.Place, d.Width = o.place(start), utf8.RuneCountInString(d.Found)
			if inQuotes := *d; mend(o, line, &inQuotes) {
				d.Repaired, d.Wanted = inQuotes.Repaired, ""
			}
		}
		return
	}
	d := faults.Addf(at, CodeSyntax, "%s", inPlainWords(message))
	if !mend(o, line, d) && strings.Contains(message, "expected ',' or") {
		d.Wanted = "quotes around a text between { } or [ ] that holds , : # or a ? at its end"
	}
}

// largestTried is the size of the largest part of a file that is parsed again to
// find what is wrong with it.
const largestTried = 256 << 10

// findSyntax returns the offset of the character at which the message arises: the
// file up to before it does not bring the message, and with it does. The
// parser's own line is not always the line of the fault, and it gives no
// column. Each try parses the file again, so it is looked for at the start of a
// large file only; it is false if it was not found there.
func findSyntax(data string, line int, message string) (int, bool) {
	if end := largestTried; len(data) > end {
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
	ends := make([]int, 0, len(data))
	for at := range data {
		ends = append(ends, at)
	}
	bad := sort.Search(len(ends), func(i int) bool { return fails(ends[i]) })
	return ends[max(0, bad-1)], true
}
