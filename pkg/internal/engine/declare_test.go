package engine

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// TestDeclarations holds what a chapter cannot declare, each with its place and
// what would do.
func TestDeclarations(t *testing.T) {
	rule := func(rest string) string {
		return chapterOf("decisions:\n  a:\n    asks: what\n    answers: number\n    take: first\n    rules:\n      - {rule: A, answer: 1, because: b, source: practice" + rest + "}\n")
	}
	const once = "; wanted a name that stands for one thing in the whole rulebook; "
	for _, c := range []struct {
		name, why, file string
		want            []string
	}{
		{"unknown key", "a misspelt key would be a rule that always holds", rule(", whne: wet"),
			[]string{`a.yaml:9:60: unknown key "whne" in a rule; found "whne"; wanted rule, when, answer, because, source, standing or confirm; did you mean "when"?`}},
		{"unknown key of a chapter", "a whole list of entries would be passed over", "chapter: tests\nabout: a\ndecision: {}\n",
			[]string{`a.yaml:3:1: unknown key "decision" in a chapter; found "decision"; wanted chapter, about, settings, sources, vocabularies, kinds, materials, load_cases, base_types, soil_names, compactors, edge_kinds, questions, terms, decisions, courses, checks, cautions, refusals, promises, quantities, steps, tolerances, stops, options, remedies, client or lines; did you mean "decisions"?`}},
		{"in", "the language keeps it for itself", chapterOf(terms([4]string{"in", "number", "", "3"})),
			[]string{"a.yaml:4:3: this cannot be a name; found in; wanted another name: the rule language keeps this one for itself"}},
		{"not a name", "no expression could write it", chapterOf(terms([4]string{"ground-water", "number", "", "3"})),
			[]string{"a.yaml:4:3: this cannot be a name; found ground-water; wanted letters, digits and _, starting with a letter"}},
		{"name of an input", "an input has no file, so the library is named as the first place", chapterOf(terms([4]string{"cbr", "number", "", "3"})), []string{"a.yaml:4:3: the name is taken; found cbr" + once + "the library: it was declared here first"}},
		{"name of a word", "in another file", chapterOf(terms([4]string{"panel", "number", "", "3"})), []string{"a.yaml:4:3: the name is taken; found panel" + once + "words.yaml:4:91: it was declared here first"}},
		{"rule twice", "a reason names its rule alone", rule("}\n      - {rule: A, answer: 2, because: b, source: practice"),
			[]string{"a.yaml:10:16: A is there already; found A; wanted a name that no other rule, limit, check, caution, refusal or promise has; a.yaml:9:16: it stands here first"}},
		{"unknown standing", "a standing is one of three, and the nearest is offered", rule(", standing: measurd"), []string{`a.yaml:9:70: this is not a standing; found measurd; wanted measured, correlated or presumed; did you mean "measured"?`}},
		{"a list for a condition", "two conditions in a list leave open whether both must hold", rule(", when: [wet, wet]"), []string{"a.yaml:9:66: a condition is written as one text; found a list or a mapping; wanted a text"}},
		{"word in two vocabularies", "a rule could not say which of the two it means", chapterOf("vocabularies:\n  slab: {about: slabs, words: {panel: panel}, because: told, source: practice}\n"), []string{"words.yaml:4:91: the name is taken; found panel" + once + "a.yaml:4:32: it was declared here first"}},
		{"a reason that is a list", "it would be lost", chapterOf("vocabularies:\n  slab: {about: slabs, words: {thick: {label: thick slab, because: {a: b}}}, because: [told], source: practice}\n"), []string{`a.yaml:4:68: "because" of a word must be a single value; found a mapping`, `a.yaml:4:87: "because" of a vocabulary must be a single value; found a list`}},
		{"another name that is taken", "a word's other names stand for it alone", chapterOf("vocabularies:\n  slab: {about: slabs, words: {thick: {label: thick slab, also: [panel]}}, because: told, source: practice}\n"),
			[]string{"words.yaml:4:91: the name is taken; found panel" + once + "a.yaml:4:66: it was declared here first"}},
		{"another name that is none", "no expression could write it", chapterOf("vocabularies:\n  slab: {about: slabs, words: {thick: {label: thick slab, also: [extra-thick]}}, because: told, source: practice}\n"),
			[]string{"a.yaml:4:66: this cannot be a name; found extra-thick; wanted letters, digits and _, starting with a letter"}},
		{"property that its kind has not", "it would be read by no rule", chapterOf("materials:\n  net_x: {kind: net, label: x, source: practice, because: told, properties: {strength: 9 kN/m, apertures: 1 in}}\n"),
			[]string{`a.yaml:4:96: net has no property called apertures; found apertures; wanted strength, aperture; did you mean "aperture"?`}},
		{"course twice", "a section could not tell which of the two it laid", chapterOf("courses:\n  - {course: c, label: l, is: stone, because: b, source: practice, attributes: {}}\n  - {course: c, label: l, is: stone, because: b, source: practice, attributes: {}}\n"),
			[]string{"a.yaml:5:14: the course is there already; found c; a.yaml:4:14: it stands here first"}},
		{"question of no key", "nobody would ever be asked it", chapterOf("questions:\n  cbrr: {asks: q, because: b, source: practice}\n"),
			[]string{`a.yaml:4:3: no job has a value of this name; found cbrr; wanted a key of jobs such as soil.consistency; or for a question of the company answers: and what with; did you mean "cbr"?`}},
		{"question of a wrong value", "it could not be tried", chapterOf("questions:\n  cbr: {asks: q, may_be: [3, much], because: b, source: practice}\n"),
			[]string{"a.yaml:4:30: this is not a number; found much; wanted a number without a unit"}},
		{"question that asks what may be missing", "it could not be told whether to ask", chapterOf("questions:\n  cbr: {asks: q, when: soil.swell > 3, because: b, source: practice}\n"),
			[]string{"a.yaml:4:24: soil.swell may be missing here; found soil.swell; wanted known(soil.swell) asked before it, as in known(soil.swell) && ..."}},
		{"values of no case", "a case says when it is one", chapterOf("questions:\n  cbr: {asks: q, may_be: [{values: [3]}], because: b, source: practice}\n"),
			[]string{`a.yaml:4:27: values that it may be needs the key "when"; wanted when`}},
		{"check of what has no order", "yes is not more than no", chapterOf("checks:\n  - {check: K, asks: q, value: wet, at_least: wet, failing: stop, says: s, because: b, source: practice}\n"),
			[]string{"a.yaml:4:32: values of this kind have no order; found bool; wanted a number or a quantity"}},
		{"limits of a word", "one word is not more than another", chapterOf("settings:\n  s: {value: panel, at_least: open_graded, because: b, source: practice}\n"),
			[]string{"a.yaml:4:3: a value of this kind has no limits; found base_type; wanted no at_least and no at_most"}},
		{"source of the library's name", "practice would be a document", chapterOf("sources:\n  practice: {document: d, known: seen}\n"),
			[]string{"a.yaml:4:3: the source is there already; found practice; the library: it was declared here first"}},
		{"source that nobody declared", "a reader could not look it up", chapterOf("cautions:\n  - {caution: W, says: s, source: manual}\n"),
			[]string{"a.yaml:4:35: no source is called manual; found manual; wanted practice, own, company, or a name under sources"}},
		{"list for a source", "an entry has one source", chapterOf("cautions:\n  - {caution: W, says: s, source: [practice]}\n"),
			[]string{"a.yaml:4:35: a source is written as one text; found a list or a mapping; wanted a text"}},
		{"setting that is nothing", "a word that is not quoted must be a word", chapterOf("settings:\n  s: {value: pannel, because: b, source: practice}\n"),
			[]string{`a.yaml:4:14: this cannot be the value of a setting; found pannel; wanted a number, a quantity such as 4 in, true or false, a word, or a quoted text; did you mean "panel"?`}},
		{"list for a setting", "a setting has one value", chapterOf("settings:\n  s: {value: [3], because: b, source: practice}\n"),
			[]string{"a.yaml:4:14: a value is written as one text; found a list or a mapping; wanted a text"}},
		{"too little presumed", "no job could say it", chapterOf("questions:\n  pool: {asks: a, answers: length, at_least: 2 ft, at_most: 9 ft, presumed: {value: 1 ft, because: b, confirm: c}, because: b, source: practice}\n"),
			[]string{"a.yaml:4:85: no job may say what is presumed here; found 1 ft; wanted at least 24 in"}},
		{"too much presumed", "nor that", chapterOf("questions:\n  pool: {asks: a, answers: length, at_least: 2 ft, at_most: 9 ft, presumed: {value: 10 ft, because: b, confirm: c}, because: b, source: practice}\n"),
			[]string{"a.yaml:4:85: no job may say what is presumed here; found 10 ft; wanted at most 9 ft"}},
		{"a number sign in a sentence", "the rest would be lost", chapterOf("cautions:\n  - caution: V\n    says: Mind pier #2\n    source: practice\n"),
			[]string{`a.yaml:5:21: the sentence ends at the #: what follows is taken for a remark; found #; wanted quotes around the whole sentence, or the remark on a line of its own; write says: "Mind pier #2"`}},
		{"no way of taking", "the nearest would be a guess", chapterOf("decisions:\n  a: {asks: a, answers: number, take: larg, rules: [{rule: A, answer: 1, because: b, source: practice}]}\n"),
			[]string{"a.yaml:4:39: this is not a way of taking an answer; found larg; wanted first, only, largest, smallest or all"}},
		{"the largest word", "words have no order", chapterOf("decisions:\n  a: {asks: a, answers: base_type, take: largest, rules: [{rule: A, answer: panel, because: b, source: practice}]}\n"),
			[]string{"a.yaml:4:42: answers of this kind have no order; found largest of base_type; wanted first, only or all"}},
		{"quotes of a word processor", "they are no quotes here", chapterOf("settings:\n  s: {value: “3 in”, because: b, source: practice}\n"),
			[]string{"a.yaml:4:14: these are the quotes of a word processor; found “3 in”; wanted the value without them; did you mean \"3 in\"?"}},
		{"a misspelt unit", "the nearest is told", chapterOf("settings:\n  s: {value: 3 inn, because: b, source: practice}\n"),
			[]string{`a.yaml:4:14: unknown unit "inn"; found 3 inn; did you mean "3 in"?`}},
		{"limits of a word", "words have no order", chapterOf("settings:\n  s: {value: panel, at_least: panel, because: b, source: practice}\n"),
			[]string{"a.yaml:4:3: a value of this kind has no limits; found base_type; wanted no at_least and no at_most"}},
		{"owed or not", "nobody knows", chapterOf("cautions:\n  - {caution: W, says: x, owed: maybe, source: practice}\n"),
			[]string{`a.yaml:4:33: "owed" of a caution must be true or false; found "maybe"; wanted true or false`}},
		{"attribute of no decision", "a reason for it could name no rule", chapterOf("courses:\n  - {course: c, label: l, is: stone, because: b, source: practice, attributes: {depth: inches(3)}}\n"),
			[]string{"a.yaml:4:88: an attribute is taken from a decision; found inches(3); wanted the name of a decision"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Empty(t, cmp.Diff(c.want, faultsOf(t, c.file)), c.why)
		})
	}
}

// TestKindsKeepTheirNames holds that a vocabulary cannot pass for a dimension.
func TestKindsKeepTheirNames(t *testing.T) {
	for _, kind := range []string{"length", "number", "bool", "text", "string", "double"} {
		got := faultsOf(t, chapterOf("vocabularies:\n  "+kind+": {about: a, words: {long: long}, because: told, source: practice}\n"))
		require.Len(t, got, 1)
		require.Contains(t, got[0], kind)
	}
}

// TestAnotherNameOfAWord holds that a word may be written by another of its names,
// in a rule as in a job, and is then told by its own.
func TestAnotherNameOfAWord(t *testing.T) {
	book := mustOpen(t, chapterOf("vocabularies:\n  slab: {about: slabs, words: {thick: {label: thick slab, also: [heavy]}, thin: thin slab}, because: told, source: practice}\n",
		decisions(decision("slab_of", "slab", "first", "", [3]string{"S1", "wet", "heavy"}, [3]string{"S2", "", "thin"}),
			decision("as_heavy", "bool", "first", "", [3]string{"T1", "", "slab_of == heavy"}))))
	out, err := book.Run(plain(), nil)
	require.NoError(t, err)
	require.Equal(t, "slab_of=thick slab by S1; as_heavy=yes by T1", answers(out))
	out, err = book.Run(plain(), []Override{takeOver("slab_of", "heavy", 1)})
	require.NoError(t, err)
	require.Equal(t, "slab_of=thick slab; as_heavy=yes by T1", answers(out))
}

// TestKindsOfWords holds that a rule which asks for a word holds for its kinds,
// and a rule which asks for a kind does not hold for the wider word.
func TestKindsOfWords(t *testing.T) {
	const words = "vocabularies:\n  bond: {about: bonds, because: told, source: practice, words: {herringbone: herringbone, at_45: {label: herringbone at 45, kind_of: herringbone}, steep: {label: steep, kind_of: at_45}, running: running}}\n"
	for _, c := range []struct{ name, why, laid, when, want string }{
		{"the word itself", "as ever", "herringbone", "laid == herringbone", "yes"},
		{"a kind of it", "what holds for the wider holds for it", "at_45", "laid == herringbone", "yes"},
		{"a kind of a kind", "all the way up", "steep", "laid == herringbone", "yes"},
		{"turned about", "the order of writing does not matter", "at_45", "herringbone == laid", "yes"},
		{"the wider word", "not every herringbone is at 45", "herringbone", "laid == at_45", "no"},
		{"the wider word, turned about", "nor then", "herringbone", "at_45 == laid", "no"},
		{"another word", "running is no kind of it", "running", "laid == herringbone", "no"},
		{"not the word", "the same with !=", "at_45", "laid != herringbone", "no"},
		{"in a list", "the same with in", "at_45", "laid in [running, herringbone]", "yes"},
	} {
		t.Run(c.name, func(t *testing.T) {
			book := mustOpen(t, chapterOf(words, decisions(decision("laid", "bond", "first", "", [3]string{"L1", "", c.laid}),
				decision("asked", "bool", "first", "", [3]string{"A1", c.when, "true"}, [3]string{"A2", "", "false"}))))
			out, err := book.Run(plain(), nil)
			require.NoError(t, err)
			v, err := out.Value("asked")
			require.NoError(t, err)
			require.Equal(t, c.want, v.Text(quantity.US), c.why)
		})
	}
	got := faultsOf(t, chapterOf("vocabularies:\n  bond: {about: b, because: t, source: practice, words: {one: {label: one, kind_of: two}, two: {label: two, kind_of: one}}}\n"))
	require.Contains(t, got[0], "a word cannot be a kind of itself")
}
