package site

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/value"
)

// Group is a USCS symbol, such as CL.
type Group string

// Vocabulary lists the symbols.
func (Group) Vocabulary() value.Vocabulary { return ground.Group("").Vocabulary() }

// Consistency is an answer of the hand test, such as very stiff.
type Consistency string

// Vocabulary lists the answers.
func (Consistency) Vocabulary() value.Vocabulary { return ground.Consistency("").Vocabulary() }

// Hammer is a sliding hammer of the dynamic cone penetrometer, such as 8 kg.
type Hammer string

// Vocabulary lists the hammers.
func (Hammer) Vocabulary() value.Vocabulary { return ground.DCPHammer("").Vocabulary() }

// readGroup reads a USCS symbol, in the order of ASTM or of the Army.
func readGroup(text string) (word, problem string) {
	if strings.Contains(text, "/") {
		return "", "is a borderline soil of two groups; give the weaker"
	}
	g, err := ground.ParseGroup(text)
	if err != nil {
		return "", ""
	}
	return string(g), ""
}

// wordOf finds the word that text writes, "" for none. Case, spaces, hyphens and
// underscores do not count: "very stiff" and very_stiff are one word, 8 kg and
// 8kg another.
func (f *Field) wordOf(text string) string {
	is := func(name string) bool { return plain(name) == plain(text) }
	for _, w := range f.Vocabulary.Words {
		if is(w.GoValue()) || is(w.Label) || is(w.Name) || slices.ContainsFunc(w.Also, is) {
			return w.GoValue()
		}
	}
	return ""
}

// joints are what a person may write between the parts of a word.
var joints = strings.NewReplacer(" ", "", "-", "", "_", "")

func plain(text string) string { return joints.Replace(strings.ToLower(text)) }
