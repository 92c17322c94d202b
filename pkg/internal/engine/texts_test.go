package engine_test

import (
	"errors"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// inLanguage opens the small rulebook of amendments in a language, with files laid over it.
func inLanguage(language string, files ...string) (*engine.Book, error) {
	over := fstest.MapFS{}
	for i, text := range files {
		over[string(rune('a'+i))+".yaml"] = &fstest.MapFile{Data: []byte(text)}
	}
	return engine.Open(fstest.MapFS{"small.yaml": {Data: []byte(amended)}}, engine.Setup{Label: "rules", Language: language,
		Inputs: []rulebook.Input{{Name: "cbr", Kind: value.NumberKind, About: "CBR"}}, Amendments: []rulebook.Layer{{Label: "ours", FS: over}}})
}

const french = `texts: fr
numbers: {decimal: ",", thousands: " "}
units: {in: po}
rules:
  DEPTH-COVER: {because: {of: "{cover} over it.", is: "Il faut {cover} au-dessus."}}
courses:
  base: {label: {of: Base, is: Fondation}}
words:
  biaxial: {label: {of: biaxial grid, is: géogrille biaxiale}}
names: {depth: profondeur}
`

func TestTexts(t *testing.T) {
	amends := func(change string) string {
		return "amendment: a\ncompany: Ours\nwho: K. Abel\nwhen: 2026-03-01\nwhy: Because.\nreplace:\n" + change
	}
	for _, c := range []struct {
		name, why, language string
		more                []string
		because, label      string
		missing             string // one that must be listed, or "-" before one that must not
	}{
		{"without a language", "the texts are read and not used", "", nil, "6 in over it.", "Base", "-course base: label"},
		{"in the language", "numbers and units are written as it writes them", "fr", nil, "Il faut 6 po au-dessus.", "Fondation", "-course base: label"},
		{"a setting moved", "the text quotes the value, whatever it is", "fr", []string{amends("  - {setting: cover, set: {value: 6.3 in, because: More., source: company}}\n")}, "Il faut 6,3 po au-dessus.", "Fondation", "-course base: label"},
		{"worded otherwise since", "the new words stand until they are translated", "fr", []string{amends("  - {course: base, because: Clearer., set: {label: Stone base}}\n")},
			"Il faut 6 po au-dessus.", "Stone base", "course base: label (given, of another text)"},
		{"the new words translated", "both translations stand for their own text", "fr", []string{amends("  - {course: base, because: Clearer., set: {label: Stone base}}\n"),
			"texts: fr\ncourses:\n  base: {label: {of: Stone base, is: Fondation de pierre}}\n"}, "Il faut 6 po au-dessus.", "Fondation de pierre", "-course base: label"},
		{"not given", "a check that has no translation speaks in the rulebook's own", "fr", nil, "Il faut 6 po au-dessus.", "Fondation", "check DEEP: says"},
		{"another language", "its texts are not mixed in", "es", []string{"texts: es\ncourses:\n  base: {label: {of: Base, is: Cimiento}}\n"}, "6 in over it.", "Cimiento", "rule DEPTH-COVER: because"},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, err := inLanguage(c.language, append([]string{french}, c.more...)...)
			require.NoError(t, err, c.why)
			out, err := book.Run(given{"cbr": 5.0}, nil)
			require.NoError(t, err)
			d, err := out.DecidedBy("depth")
			require.NoError(t, err)
			said, err := out.Say(d.Rule.Because)
			require.NoError(t, err)
			require.Equal(t, c.because, said.Text(book.In(quantity.US)), c.why)
			require.Equal(t, c.label, book.Courses()[0].Label, c.why)
			require.Equal(t, "DEPTH-COVER", d.Rule.ID)
			if c.missing[0] == '-' {
				require.NotContains(t, book.Texts().Missing, c.missing[1:], c.why)
			} else {
				require.Contains(t, book.Texts().Missing, c.missing, c.why)
			}
		})
	}
	book, err := inLanguage("fr", french)
	require.NoError(t, err)
	require.Equal(t, 3, book.Texts().All-len(book.Texts().Missing), "texts that are given")
	for _, written := range []string{"biaxial", "biaxial grid"} {
		w, fault := book.Literal(written, "grid")
		require.Nil(t, fault, "a job goes on writing %s", written)
		require.Equal(t, "géogrille biaxiale", w.Text(quantity.US))
	}
	require.Equal(t, "rules/small.yaml:39:5", book.Courses()[0].Place.String(), "an entry stays where it stands")
}

// TestTextsRefused holds that a file of texts gives texts and nothing else.
func TestTextsRefused(t *testing.T) {
	const head = "texts: fr\n"
	for _, c := range []struct{ name, why, file, want string }{
		{"an answer", "no language changes what is built", head + "rules:\n  GRID-WEAK: {answer: {of: biaxial, is: no_grid}}\n", "a.yaml:3:15: unknown key"},
		{"a condition", "nor when", head + "rules:\n  GRID-WEAK: {when: {of: cbr, is: 'true'}}\n", "a.yaml:3:15: unknown key"},
		{"a source", "nor on whose authority", head + "rules:\n  GRID-WEAK: {source: {of: practice, is: company}}\n", "a.yaml:3:15: unknown key"},
		{"a bound", "nor a limit", head + "checks:\n  DEEP: {at_least: {of: inches(4), is: inches(1)}}\n", "a.yaml:3:10: unknown key"},
		{"a name that is not there", "with the nearest", head + "rules:\n  GRID-WEEK: {because: {of: Weak., is: Faible.}}\n", "a.yaml:3:3: no rule is called GRID-WEEK; found GRID-WEEK; wanted the name of a rule of the rulebook; did you mean \"GRID-WEAK\"?"},
		{"a name of another sort", "each sort has its names", head + "checks:\n  GRID-WEAK: {because: {of: Weak., is: Faible.}}\n", "a.yaml:3:3: no check is called GRID-WEAK"},
		{"a lost value", "the sentence would not say it", head + "rules:\n  DEPTH-COVER: {because: {of: \"{cover} over it.\", is: \"Au-dessus.\"}}\n", "a.yaml:3:55: the text does not have the values and numbers of the one that it translates; wanted {cover}"},
		{"another value", "nor one of its own", head + "rules:\n  DEPTH-COVER: {because: {of: \"{cover} over it.\", is: \"{depth} dessus.\"}}\n", "a.yaml:3:55: the text does not have the values"},
		{"another number", "nor one that is written out", head + "courses:\n  base: {label: {of: Base of 4 in, is: Base de 6 po}}\n", "a.yaml:3:40: the text does not have the values"},
		{"no original", "nothing would tell that it is stale", head + "courses:\n  base: {label: Fondation}\n", "a.yaml:3:17: a text must be keys with values"},
		{"no tag", "it is no language", "texts: my French\n", "a.yaml:1:8: this is not the tag of a language"},
		{"a unit that is none", "nothing prints it", head + "units: {inn: po}\n", "a.yaml:2:9: nothing under units is called inn"},
		{"a text of nothing", "no value prints it", head + "values: {biaxal grid: géogrille}\n", "a.yaml:2:10: no value prints this; found biaxal grid; wanted the label of a word, or a text that a rule answers; did you mean \"biaxial grid\"?"},
		{"a digit for a mark", "1,5 would be 155", head + "numbers: {decimal: \"5\"}\n", "a.yaml:2:20: this cannot be written for decimal"},
		{"a name of nothing", "it would stand nowhere", head + "names: {deppth: profondeur}\n", "a.yaml:2:9: nothing under names is called deppth"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := inLanguage("", c.file)
			require.Error(t, err, c.why)
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
	_, err := inLanguage("", french, "texts: fr\ncourses:\n  base: {label: {of: Base, is: Socle}}\nnumbers: {decimal: \";\"}\n")
	require.ErrorContains(t, err, "b.yaml:3:17: this text is given in fr already")
	require.ErrorContains(t, err, "b.yaml:4:11: decimal is given in fr already")
	_, err = inLanguage("de", french)
	var misuse *engine.SetupError
	require.True(t, errors.As(err, &misuse), "a language that nothing gives is the caller's slip: %v", err)
	require.ErrorContains(t, err, `no file of the amendments gives texts in the language "de"; wanted fr`)
	_, err = engine.Open(fstest.MapFS{"small.yaml": {Data: []byte(amended)}, "fr.yaml": {Data: []byte(french)}}, engine.Setup{})
	require.ErrorContains(t, err, "fr.yaml:1:1: this is not a rule file", "texts stand among the amendments, or the rules could not be read alone")
}

// TestQuotedAlike tells what a translation must keep of a text.
func TestQuotedAlike(t *testing.T) {
	book, err := inLanguage("fr", "texts: fr\nrules:\n  DEPTH-COVER: {because: {of: \"{cover} over it.\", is: \"Au-dessus, {{il} faut { cover }.\"}}\n")
	require.NoError(t, err, "a value may stand elsewhere in the sentence")
	out, err := book.Run(given{"cbr": 5.0}, nil)
	require.NoError(t, err)
	d, _ := out.DecidedBy("depth")
	said, err := out.Say(d.Rule.Because)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff("Au-dessus, {il} faut 6 in.", said.Text(book.In(quantity.US))), "without numbers of its own a language writes them as the trade does")
}
