package engine

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// site is a job of the tests: what it tells, by name.
type site map[string]any

func (s site) Input(name string) (any, bool) { v, ok := s[name]; return v, ok }

// with returns the site with one more value.
func (s site) with(name string, v any) site {
	out := site{name: v}
	for n, x := range s {
		if n != name {
			out[n] = x
		}
	}
	return out
}

var cbrRange = calculation.Range{Name: "cbr", Unit: "percent", Low: 1, High: 20, Document: "the test's own table"}

// plain is a site that tells all that every site must.
func plain() site { return site{"cbr": 3.0, "wet": true, "zero": 0.0} }

// testSetup is what the rulebooks of the tests are compiled against.
func testSetup() Setup {
	cbr := []calculation.Param{{Name: "cbr", About: "in percent"}}
	described := func(name string, fn any) calculation.Function {
		return calculation.Function{Name: name, About: "a calculation of the tests", Params: cbr, Result: calculation.Param{Name: "result", About: "what it comes to"},
			Sources: []value.Source{{ID: "practice", Known: value.Practice}}, Go: fn}
	}
	return Setup{
		Inputs: []rulebook.Input{
			{Name: "cbr", Kind: value.NumberKind, Required: true}, {Name: "wet", Kind: value.BoolKind, Required: true},
			{Name: "zero", Kind: value.NumberKind, Required: true}, {Name: "water", Kind: "length"}, {Name: "soil.swell", Kind: value.NumberKind},
		},
		Functions: []calculation.Function{
			described("modulus", func(cbr float64) (quantity.Pressure, error) {
				if err := cbrRange.Check(cbr); err != nil {
					return 0, err
				}
				return quantity.Megapascals(10 * cbr), nil
			}),
			described("panics", func(float64) float64 { panic("a fault of its own") }),
		},
	}
}

// wordsFile has the vocabularies and materials of the tests.
const wordsFile = `chapter: words
about: The words of the tests.
vocabularies:
  base_type: {about: bases, words: {open_graded: open-graded, dense_graded: dense-graded, panel: panel}, because: told, source: practice}
  grid: {about: grids, words: {no_grid: no grid, biaxial: biaxial grid}, because: told, source: practice}
  course_kind: {about: courses, words: {stone: stone}, because: told, source: practice}
kinds:
  net: {about: nets, properties: {strength: {is: line_strength, about: in use}, aperture: {is: length, about: between ribs, optional: true}}}
materials:
  light_net: {kind: net, label: light net, source: practice, properties: {strength: 12 kN/m}, because: told}
  heavy_net: {kind: net, label: heavy net, source: practice, properties: {strength: 20 kN/m, aperture: 35 mm}, because: told}
`

// chapterOf makes a chapter of entries, each written at the left margin.
func chapterOf(entries ...string) string {
	return "chapter: tests\nabout: A chapter of the tests.\n" + strings.Join(entries, "")
}

// decisions makes the decisions of a chapter.
func decisions(each ...string) string { return "decisions:\n" + strings.Join(each, "") }

// terms makes the terms of a chapter, each written as name, kind, when and value.
func terms(each ...[4]string) string {
	out := "terms:\n"
	for _, t := range each {
		out += fmt.Sprintf("  %s: {is: %s, about: a term, source: practice, value: %q, because: told", t[0], t[1], t[3])
		if t[2] != "" {
			out += fmt.Sprintf(", when: %q", t[2])
		}
		out += "}\n"
	}
	return out
}

// decision makes a decision of rules, each written as ID, condition and answer.
func decision(name, answers, take, when string, rules ...[3]string) string {
	out := fmt.Sprintf("  %s:\n    asks: What is %s?\n    answers: %s\n    take: %s\n", name, name, answers, take)
	if when != "" {
		out += fmt.Sprintf("    when: %q\n", when)
	}
	out += "    rules:\n"
	for _, r := range rules {
		out += fmt.Sprintf("      - {rule: %s, answer: %q, because: of the tests, source: practice", r[0], r[2])
		if r[1] != "" {
			out += fmt.Sprintf(", when: %q", r[1])
		}
		out += "}\n"
	}
	return out
}

func filesOf(files map[string]string) fstest.MapFS {
	out := fstest.MapFS{}
	for name, data := range files {
		out[name] = &fstest.MapFile{Data: []byte(data)}
	}
	return out
}

// openFiles opens a rulebook of the words of the tests and of a.yaml.
func openFiles(file string) (*Book, error) {
	return Open(filesOf(map[string]string{"a.yaml": file, "words.yaml": wordsFile}), testSetup())
}

func mustOpen(t testing.TB, file string) *Book {
	t.Helper()
	book, err := openFiles(file)
	require.NoError(t, err)
	return book
}

// faultsOf returns what is wrong with a.yaml, each in one line.
func faultsOf(t testing.TB, file string) []string {
	t.Helper()
	book, err := openFiles(file)
	if err == nil {
		return nil
	}
	require.Nil(t, book)
	return linesOf(t, err)
}

func linesOf(t testing.TB, err error) []string {
	t.Helper()
	var faults *rulebook.Error
	require.True(t, errors.As(err, &faults), "%v", err)
	var out []string
	for _, d := range faults.Faults {
		require.NotEmpty(t, d.Code)
		out = append(out, d.Error())
	}
	return out
}

// answers writes what each decision came to, as name=answer by rule.
func answers(o *Outcome) string {
	var out []string
	for _, d := range o.Decided {
		switch {
		case !d.Asked:
			out = append(out, d.Decision.Name+" not asked")
		case d.Rule == nil:
			out = append(out, d.Decision.Name+"="+d.Answer.Text(quantity.US))
		default:
			out = append(out, d.Decision.Name+"="+d.Answer.Text(quantity.US)+" by "+d.Rule.ID)
		}
	}
	return strings.Join(out, "; ")
}
