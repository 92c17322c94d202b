package sheet

import (
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// boundName splits the label of a bound, such as "lift at most", into what
// it bounds and how.
func boundName(label string) (of, bound string, ok bool) {
	for _, bound := range []string{"at most", "at least"} {
		if of, ok := strings.CutSuffix(label, " "+bound); ok {
			return of, bound, true
		}
	}
	return "", "", false
}

// plainly writes the label of a bound as a noun: "lift at most" is the maximum lift.
func plainly(label string) string {
	if of, bound, ok := boundName(label); ok {
		return map[string]string{"at most": "maximum ", "at least": "minimum "}[bound] + of
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

func capital(text string) string {
	_, n := utf8.DecodeRuneInString(text)
	return strings.ToUpper(text[:n]) + text[n:]
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

// takenAs says how an answer was chosen.
var takenAs = map[rulebook.Take]string{
	rulebook.First:    "the first rule that holds answers",
	rulebook.Only:     "every rule that holds must give the same answer",
	rulebook.Largest:  "the largest answer of all the rules that hold",
	rulebook.Smallest: "the smallest answer of all the rules that hold",
	rulebook.All:      "the answers of all the rules that hold, together",
}

// superlative names the one that governs, "" if none does.
func superlative(take rulebook.Take) string {
	if take == rulebook.Largest || take == rulebook.Smallest {
		return string(take)
	}
	return ""
}

// list joins names as a sentence does: "a, b and c".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// beyond says on which side of its limit a value is that crosses it.
func beyond(v, limit value.Value) string {
	if order, _ := v.Compare(limit); order < 0 {
		return "below"
	}
	return "above"
}
