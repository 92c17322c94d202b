package sheet

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// abbreviations are names that the trade writes in capitals.
var abbreviations = map[string]bool{"cbr": true, "dcp": true, "esal": true, "uscs": true, "aashto": true}

// plainName shows a name of the rule language, such as "material_kind", as a
// reader would write it. A name that ends in most or least names a bound, and
// says so: "lift_most" is lift at most.
func plainName(name string) string {
	words := strings.FieldsFunc(name, func(r rune) bool { return r == '_' || r == '.' })
	for i, w := range words {
		if abbreviations[w] {
			words[i] = strings.ToUpper(w)
		}
	}
	if last := len(words) - 1; last > 0 && (words[last] == "most" || words[last] == "least") && words[last-1] != "at" {
		words[last] = "at " + words[last]
	}
	return strings.Join(words, " ")
}

// boundName splits the plain name of a bound, such as "lift at most", into what
// it bounds and how.
func boundName(plain string) (of, bound string, ok bool) {
	for _, bound := range []string{"at most", "at least"} {
		if of, ok := strings.CutSuffix(plain, " "+bound); ok {
			return of, bound, true
		}
	}
	return "", "", false
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
func cite(text string, s value.Source) string {
	text = strings.TrimSpace(text)
	switch {
	case text == "":
		text = "none is given"
	case s.Known == value.Seen:
		text += " (read in the document itself)"
	}
	return fullStop(text)
}

// knownAs says how a source is known, after its tag.
func knownAs(k value.Known) string {
	switch k {
	case value.Seen:
		return "read in the issuing document"
	case value.Relayed:
		return "read in something that relays the document"
	case value.Memory:
		return "from memory, not read; check before use"
	case value.Computed:
		return "worked out from other values; no publication"
	case value.Practice:
		return "common practice of the trade; no published source"
	case value.Company:
		return "the company's own standard"
	}
	return "not told"
}

// takenAs says how an answer was chosen.
func takenAs(take string) string {
	switch take {
	case "first":
		return "the first rule that holds answers"
	case "only":
		return "every rule that holds must give the same answer"
	case "largest":
		return "the largest answer of all the rules that hold"
	case "smallest":
		return "the smallest answer of all the rules that hold"
	case "all":
		return "the answers of all the rules that hold, together"
	}
	return take
}

// superlative names the one that governs, "" if none does.
func superlative(take string) string {
	if take == "largest" || take == "smallest" {
		return take
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

// atLimit is how near to its limit, as a share of it, a value counts as at it.
const atLimit = 1e-9

// spare says how far a check's value is from its limit.
func spare(c *section.Check) string {
	switch {
	case c.Margin == nil:
		return ""
	case math.Abs(*c.Margin) < atLimit:
		return "just at the limit"
	case c.Holds:
		return share(*c.Margin) + " of the limit to spare"
	case c.Bound == boundMost:
		return "over by " + share(*c.Margin) + " of the limit"
	case c.Bound == boundLeast:
		return "short by " + share(*c.Margin) + " of the limit"
	}
	return "off by " + share(*c.Margin) + " of the limit"
}

// share writes a share without its sign as a percentage.
func share(x float64) string {
	percent := math.Abs(x) * 100
	const whole, least = 10, 0.05
	switch {
	case percent < least:
		return "less than 0.1 %"
	case percent < whole:
		return fmt.Sprintf("%.1f %%", percent)
	}
	return fmt.Sprintf("%.0f %%", percent)
}

// The sides of a limit, as a check tells them.
const (
	boundMost  = "at most"
	boundLeast = "at least"
)

// limitWord says on which side of its limit a check's value must be; a section
// that does not tell gets no side.
func limitWord(c *section.Check) string {
	if c.Bound == "" {
		return "limit"
	}
	return c.Bound
}

// beyond says on which side of its limit a value lies that crosses it.
func beyond(v, limit value.Value) string {
	if size(&v) < size(&limit) {
		return "below"
	}
	return "above"
}

func size(v *value.Value) float64 {
	if x, ok := v.Number(); ok {
		return x
	}
	q, _ := v.Quantity()
	return q.SI
}
