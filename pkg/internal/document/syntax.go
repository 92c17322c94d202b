package document

import (
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
)

// parserMessage takes apart what the YAML parser says.
var parserMessage = regexp.MustCompile(`^yaml: (?:line (\d+): )?(?s:(.*))$`)

func splitMessage(err error) (line int, message string) {
	m := parserMessage.FindStringSubmatch(err.Error())
	if m == nil {
		return 0, err.Error()
	}
	line, _ = strconv.Atoi(m[1])
	return line, m[2]
}

var unknownAnchor = regexp.MustCompile(`^unknown anchor '(.*)' referenced$`)

// reportSyntax reports an error of the YAML parser.
func reportSyntax(o *original, limits Limits, err error, faults *diagnostic.List) {
	line, message := splitMessage(err)
	at := o.whole()
	offset, found := findSyntax(o.data, line, message)
	switch {
	case found:
		at = o.place(offset)
	case line > 0:
		at.Line = min(line, strings.Count(o.data, "\n")+1)
	}
	if strings.HasPrefix(message, "exceeded max depth") {
		reportTooDeep(at, limits, faults)
		return
	}
	if m := unknownAnchor.FindStringSubmatch(message); m != nil {
		d := faults.Addf(at, CodeAlias, "an alias may not be used")
		d.Found, d.Wanted = "*"+m[1], `text that starts with * in quotes`
		if found && strings.HasSuffix(o.data[:offset+1], d.Found) && strings.HasPrefix(o.data[offset:], d.Found[len(d.Found)-1:]) {
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
	// good never brings the message, bad always does.
	good, bad := 0, len(data)
	for good < bad {
		middle := (good + bad) / 2
		for middle > good && !utf8.RuneStart(data[middle]) {
			middle--
		}
		if middle == good {
			_, w := utf8.DecodeRuneInString(data[good:])
			if good+w >= bad {
				break
			}
			middle = good + w
		}
		if fails(middle) {
			bad = middle
		} else {
			good = middle
		}
	}
	return good, true
}
