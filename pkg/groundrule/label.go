package groundrule

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/site"
)

// siteLabels are the labels of what a site gives, by the names in the rule
// language, as they are within a line: with a small letter first, unless the
// trade writes them in capitals.
var siteLabels = sync.OnceValue(func() map[string]string {
	out := map[string]string{}
	for _, f := range site.Fields() {
		out[f.Path] = small(f.Label)
	}
	return out
})

// small writes a text with a small letter first, unless the trade writes its first
// word in capitals.
func small(text string) string {
	first, n := utf8.DecodeRuneInString(text)
	second, _ := utf8.DecodeRuneInString(text[n:])
	if strings.TrimSpace(text) == "" || unicode.IsUpper(second) || unicode.IsDigit(second) || strings.HasSuffix(strings.Fields(text)[0], ".") {
		return text
	}
	return string(unicode.ToLower(first)) + text[n:]
}

// abbreviations are names that the trade writes in capitals.
var abbreviations = map[string]bool{"cbr": true, "dcp": true, "esal": true, "uscs": true, "aashto": true}

// label writes a name of the rule language, such as "support_cbr", as a person
// does: "support CBR". One that ends in most or least names a bound, and its
// label says so: "lift_most" is "lift at most".
// A language may have its own label for a name.
func label(rules *engine.Book, name string) string {
	if own := rules.Texts().Names[name]; own != "" {
		return own
	}
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
