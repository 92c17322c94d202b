package engine

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// FuzzChapter throws any file at Open: it must end in a book, which then serves
// a job, or in faults at places of the file.
func FuzzChapter(f *testing.F) {
	f.Add(wholeBook)
	f.Add(guardedBook)
	f.Add(overriddenBook)
	f.Add(wordsFile)
	for _, bad := range []string{
		"", "a", "- a", "chapter: 1", "chapter: [a]\nabout: {b: c}\nterms: x\ndecisions: [1]\ncourses: {a: b}\n", "chapter: a\nsettings: {a: {value: [1], at_least: {}, because: 3, source: []}}\n",
		"chapter: a\nmaterials: {m: {kind: k, properties: {p: [1]}, because: told}}\nkinds: {k: {properties: {p: {is: list(list(k))}}}}\n",
		"chapter: a\ndecisions: {a: {asks: b, answers: [c], take: {d: e}, rules: [1, [2], {rule: {}, when: [], answer: {}, because: [], standing: [x]}]}}\n",
		"chapter: a\nchecks: [{check: [], failing: {}, value: [], at_least: {}}]\n", "chapter: a\nvocabularies: {length: {about: a, words: {b: c}, because: told, source: practice}, bool: {about: a, words: {true: x}, because: told, source: practice}}\n",
		"chapter: a\nterms: {a.b: {is: number, about: x, value: 3, because: told, source: practice}, a: {is: base_type, about: x, value: a.b, because: told, source: practice}, in: {}, 3: {}}\n",
		"chapter: a\ncourses: [{course: c, label: l, is: [stone], because: {}, attributes: {a: [b], c: {}}}]\n",
		"amendment: a\ncompany: c\nwho: w\nwhy: y\nwhen: 2026-01-01\nretire: [{rule: G1}, {rule: []}]\nreplace: [{rule: G2, with: {answer: 3}}, {setting: cover_least, set: {value: 5 in}}]\nadd: [{rule: x, after: [y]}]\nmove: [{course: stone, after: []}]\nvariances: [{variance: v, setting: cover_least, to: 1 in}]\n",
	} {
		f.Add(bad)
	}
	f.Fuzz(func(t *testing.T, file string) {
		book, err := openFiles(file)
		if err != nil {
			require.Nil(t, book)
			var faults *rulebook.Error
			require.True(t, errors.As(err, &faults), "%v", err)
			lines := strings.Count(strings.ReplaceAll(file, "\r", "\n"), "\n") + 1
			for _, d := range faults.Faults {
				require.NotEmpty(t, d.Message)
				require.NotEmpty(t, d.Place.File, "%v", d)
				require.LessOrEqual(t, d.Place.Line, max(lines, strings.Count(wordsFile, "\n")), "%v", d)
			}
			return
		}
		require.True(t, utf8.ValidString(file))
		bookText(book)
		for _, s := range []site{plain(), plain().with("water", quantity.Inches(6)).with("soil.swell", 1.0), {}} {
			whole(quiet{t}, book, s, nil)
		}
	})
}

// quiet is a test whose sentences may come to errors: any file may quote what
// has no value.
type quiet struct{ testing.TB }

func (quiet) Error(...any) {}
