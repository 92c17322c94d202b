package sheet

import (
	"strings"

	"example.com/groundrule/pkg/value"
)

// plainly writes the label of a bound as a noun: "lift at most" is the maximum lift.
func plainly(label string) string {
	if of, ok := strings.CutSuffix(label, " at most"); ok {
		return "maximum " + of
	}
	if of, ok := strings.CutSuffix(label, " at least"); ok {
		return "minimum " + of
	}
	return label
}

// fullStop ends a sentence, if nothing ends it yet.
func fullStop(text string) string {
	text = strings.TrimSpace(text)
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?:") {
		return text
	}
	return text + "."
}

// cite returns a source in words, with how it is known. A source's own text says
// so unless the document itself was read.
func cite(text string, known value.Known) string {
	text = strings.TrimSpace(text)
	switch {
	case text == "":
		text = "none given"
	case known == value.Seen:
		text += " (read in the document itself)"
	}
	return fullStop(text)
}

// list joins names as a sentence does: "a, b and c".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}
