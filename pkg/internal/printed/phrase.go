package printed

import (
	"cmp"
	"maps"
	"regexp"
	"strings"
	"unicode"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/value"
)

// phrases are what the names of a book are called in a sentence.
type phrases struct {
	// whether are yes-or-no names, with the clause behind "whether"; called are all
	// others, with a noun and its article.
	whether, called map[string]string
	// properties are the yes-or-no ones, by the kind of what has them.
	properties map[value.Kind]map[string]string
	// calls are the functions, each of one kind or the other.
	calls map[string]string
	// capitals are words that the book writes in capitals alone, by their small
	// letters.
	capitals map[string]string
}

// begins matches what a clause or a question begins with that is no noun.
var begins = regexp.MustCompile(`^(how|what|which|where|when|in|near|from|by) `)

// newPhrases makes a phrase of what is told about each name: as much of it as no
// other name shares. A name of which nothing is told is called by its own words.
func newPhrases(b *engine.Book) *phrases {
	p := &phrases{whether: map[string]string{}, called: map[string]string{}, properties: map[value.Kind]map[string]string{}, capitals: capitals(b)}
	names, calls := map[string][]string{}, map[string][]string{}
	for _, in := range b.Inputs() {
		names[in.Name] = p.shorter(in.About, in.Name)
	}
	for _, t := range b.Terms() {
		names[t.Name] = p.shorter(t.About, t.Name)
	}
	for _, d := range b.Decisions() {
		names[d.Name] = p.shorter(d.About, d.Name)
	}
	for _, s := range b.Settings() {
		names[s.Name] = []string{cmp.Or(s.About, bound.ReplaceAllStringFunc(p.words(s.Name), bounding))}
	}
	for _, f := range b.Functions() {
		calls[f.Name] = p.shorter(f.About, f.Name)
	}
	for name, phrase := range unshared(names) {
		if clause, is := strings.CutPrefix(phrase, "whether "); is {
			p.whether[name] = clause
			continue
		}
		p.called[name] = withArticle(phrase)
	}
	for _, kind := range b.Vocabularies() {
		of := map[string][]string{}
		for _, each := range b.Properties(kind) {
			of[each.Name] = p.shorter(each.About, each.Name)
		}
		p.properties[kind] = unshared(of)
	}
	p.calls = unshared(calls)
	return p
}

// bound matches the words of the name of a setting that bounds something.
var bound = regexp.MustCompile(`^(.+) (most|least)( .+)?$`)

// bounding says what such a name means: "slope most" is the maximum slope.
func bounding(words string) string {
	part := bound.FindStringSubmatch(words)
	return map[string]string{"most": "maximum ", "least": "minimum "}[part[2]] + part[1] + strings.Replace(part[3], " ", ", ", 1)
}

// setting calls a setting by a noun without its article.
func (p *phrases) setting(name string) string { return strings.TrimPrefix(p.name(name), "the ") }

// shorter lists phrases for a name, the shortest first.
func (p *phrases) shorter(about, name string) []string {
	about, _, _ = strings.Cut(strings.TrimSuffix(about, "."), ";")
	about = small(about)
	if about == "" || begins.MatchString(about) {
		return []string{p.words(name)}
	}
	var out []string
	for at := range about {
		if strings.ContainsRune(":,", rune(about[at])) && strings.HasPrefix(about[at+1:], " ") {
			out = append(out, about[:at])
		}
	}
	return append(out, about)
}

// unshared takes for each name the shortest phrase that no other name has.
func unshared(names map[string][]string) map[string]string {
	count := map[string]int{}
	for _, all := range names {
		for _, each := range all {
			count[each]++
		}
	}
	out := map[string]string{}
	for name, all := range names {
		out[name] = all[len(all)-1]
		for _, each := range all {
			if count[each] == 1 {
				out[name] = each
				break
			}
		}
	}
	return out
}

// words are those of a name itself.
func (p *phrases) words(name string) string {
	words := strings.FieldsFunc(name, func(r rune) bool { return r == '_' || r == '.' })
	for i, w := range words {
		if all, is := p.capitals[w]; is {
			words[i] = all
		}
	}
	return strings.Join(words, " ")
}

var shouted, quoted = regexp.MustCompile(`[A-Z]{2,}|[A-Za-z]+`), regexp.MustCompile(`\{[^{}]*\}`)

// capitals finds the words that the sentences of a book write in capitals and
// never otherwise, such as CBR.
func capitals(b *engine.Book) map[string]string {
	var text strings.Builder
	c := b.Contents()
	for _, d := range c.Decisions {
		text.WriteString(d.Asks + "\n")
		for _, r := range d.Rules {
			text.WriteString(r.Because.Text + "\n")
		}
	}
	for _, s := range c.Settings {
		text.WriteString(s.Because.Text + "\n")
	}
	out, never := map[string]string{}, map[string]bool{}
	for _, w := range shouted.FindAllString(quoted.ReplaceAllString(text.String(), ""), -1) {
		if len(w) > 1 && w == strings.ToUpper(w) {
			out[strings.ToLower(w)] = w
		} else {
			never[strings.ToLower(w)] = true
		}
	}
	maps.DeleteFunc(out, func(w, _ string) bool { return never[w] })
	return out
}

// small writes the first letter small, unless the word is an abbreviation or the
// name of someone.
func small(text string) string {
	first, _, _ := strings.Cut(text, " ")
	if strings.ContainsFunc(first[min(1, len(first)):], func(r rune) bool { return unicode.IsUpper(r) || unicode.IsDigit(r) || r == '\'' }) {
		return text
	}
	return strings.ToLower(first) + text[len(first):]
}

func withArticle(noun string) string {
	for _, article := range []string{"the ", "a ", "an ", "each ", "every ", "as "} {
		if strings.HasPrefix(noun, article) {
			return noun
		}
	}
	return "the " + noun
}

// name calls a name in a sentence, a yes-or-no one as a noun too.
func (p *phrases) name(name string) string {
	if clause, is := p.whether[name]; is {
		return "whether " + clause
	}
	if noun, is := p.called[name]; is {
		return noun
	}
	return "the " + p.words(name)
}

// denied turns a clause into its opposite.
func denied(clause string) string {
	first, rest, _ := strings.Cut(clause, " ")
	verb, what, _ := strings.Cut(rest, " ")
	switch {
	case first == "there" && (verb == "is" || verb == "are"):
		return "there " + verb + " no " + strings.TrimPrefix(strings.TrimPrefix(what, "a "), "an ")
	case first == "any" || first == "a" || first == "an":
		return "no " + rest
	case first == "it" && opposites[verb] == "" && strings.HasSuffix(verb, "s"):
		return "it does not " + stem(verb) + " " + what
	}
	return refused(clause)
}

// stem is a verb without the ending of "it carries".
func stem(verb string) string {
	if y, is := strings.CutSuffix(verb, "ies"); is {
		return y + "y"
	}
	for _, ending := range []string{"ches", "shes", "sses", "xes"} {
		if strings.HasSuffix(verb, ending) {
			return strings.TrimSuffix(verb, "es")
		}
	}
	return strings.TrimSuffix(verb, "s")
}

// refused denies a clause by its verb.
func refused(clause string) string {
	if strings.HasPrefix(clause, "every ") || strings.HasPrefix(clause, "all ") {
		return "not " + clause
	}
	words := strings.Fields(clause)
	for i, w := range words {
		if strings.HasSuffix(w, ",") || w == "that" || w == "which" {
			break
		}
		if to, is := opposites[w]; is {
			words[i] = to
			return strings.Join(words, " ")
		}
	}
	return "it is not so that " + clause
}

var opposites = map[string]string{"is": "is not", "are": "are not", "was": "was not", "were": "were not", "may": "may not", "can": "cannot", "must": "need not",
	"has": "does not have", "have": "do not have", "does": "does not", "do": "do not", "will": "will not"}

// head matches what a noun has behind it.
var head = regexp.MustCompile(`,? \(| (of|for|at|with|that|in|from|by|to|on|over|under|between|wanted|given|counted|used|built|allowed|here) .*| (wanted|given|counted|used|built|allowed|here)$|,`)

// are reports whether a noun is of several things.
func are(noun string) bool {
	if at := head.FindStringIndex(noun); at != nil {
		noun = noun[:at[0]]
	}
	if strings.HasSuffix(noun, "ss") || strings.HasSuffix(noun, "us") || strings.HasSuffix(noun, "is") {
		return false
	}
	return strings.HasSuffix(noun, "s")
}

// outline is [engine.Book.Outline], kept.
func (s *speaker) outline(text string) *language.Outline {
	if _, have := s.outlines[text]; !have {
		s.outlines[text] = s.book.Outline(text)
	}
	return s.outlines[text]
}
