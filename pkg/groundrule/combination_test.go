package groundrule_test

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// met is ground that a job may meet: a word, a symbol, and what was found
// besides. answered tells whether every use and every stone base must be
// designed on it, if it is strong enough.
type met struct {
	name     string
	answered bool
	on       func(*site.Subgrade)
}

// standardWords is the table with the words of the standard rulebook.
var standardWords = func() *site.Table {
	book, err := groundrule.Standard()
	if err != nil {
		panic(err)
	}
	return book.Table()
}()

// wordsFor lists the words of the standard rulebook that a job may have at a path.
func wordsFor(path string) []value.WordEntry {
	for _, f := range standardWords.Fields() {
		if f.Path == path {
			return f.Vocabulary.Words
		}
	}
	panic("no field " + path)
}

func grounds() []met {
	var out []met
	for _, w := range wordsFor("soil.word") {
		sound := !slices.Contains([]string{"peat", "fill"}, w.Label)
		out = append(out, met{"word " + w.Label, sound, func(s *site.Subgrade) { s.Word = w.GoValue() }})
	}
	for _, w := range ground.Group("").Vocabulary().Words {
		sound := !slices.Contains([]string{"PT", "OL", "OH"}, w.Label)
		out = append(out, met{w.Label, sound, func(s *site.Subgrade) { s.Group = site.Group(w.GoValue()) }})
	}
	return append(out,
		met{"nothing told", true, func(s *site.Subgrade) {}},
		met{"organic found", true, func(s *site.Subgrade) { s.Organic = new(true) }},
		met{"uncontrolled fill", false, func(s *site.Subgrade) { s.UncontrolledFill = new(true) }},
		met{"expansive", false, func(s *site.Subgrade) { s.Expansive = new(true) }},
		met{"swelling limits", false, func(s *site.Subgrade) { s.Group, s.LiquidLimit, s.PlasticLimit = "CH", new(72.0), new(28.0) }},
	)
}

// answer designs a job and gives what came of it; a rule that came to no answer
// fails the test.
func answer(t *testing.T, book *groundrule.Book, name string, job *site.Site) section.Status {
	_, err := book.Design(job)
	var refused *groundrule.Refused
	if errors.As(err, &refused) {
		for _, r := range refused.Section.Refusals {
			require.NotEmpty(t, r.Who.US, "%s: %s says nobody to ask", name, r.ID)
		}
		return refused.Section.Status
	}
	require.NoError(t, err, name)
	return section.Designed
}

// TestEveryCombination proves that the standard rulebook answers for every
// combination of base, use, soil, strength, frost and water: with a section, or
// with a refusal that says whom to take it to. On sound soil of CBR 1 and more
// every stone base under the six uses is designed; a panel base under feet is
// designed on firm mineral soil where frost does no harm.
func TestEveryCombination(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	tried := 0
	for _, use := range wordsFor("use") {
		for _, base := range []string{"dense", "open", "panel"} {
			for _, g := range grounds() {
				for _, cbr := range []float64{0, 0.3, 0.7, 1.5, 2.9, 3.5, 4.6, 9, 12.5, 25} {
					for _, hard := range []bool{true, false} {
						if tried++; tried%fewer(1, 7) != 0 { // 7 divides the length of no list, so that each word and number is tried
							continue
						}
						job := combined(use.GoValue(), base, cbr, hard)
						g.on(&job.Soil)
						name := use.Label + " on " + g.name
						status := answer(t, book, name, job)
						covered := job.Use != "collector_street" && job.Use != "truck_yard" && (base != "panel" || job.Use == "foot")
						sound := g.answered && (cbr == 0 || cbr >= 1)
						if base == "panel" {
							sound = g.answered && g.name != "organic found" && g.name != "word topsoil" && cbr >= 3 && !hard
						}
						if covered && sound {
							require.Equal(t, section.Designed, status, "%s, base %s, CBR %g", name, base, cbr)
						}
						if !covered {
							require.Equal(t, section.Refused, status, "%s, base %s, CBR %g", name, base, cbr)
						}
					}
				}
			}
		}
	}
}

// combined makes a job; hard is frost, wet ground and, in open stone, rain to be
// held. A CBR of 0 is none told.
func combined(use string, base string, cbr float64, hard bool) *site.Site {
	job := &site.Site{Area: quantity.SquareFeet(600), Use: use, Base: base}
	if cbr > 0 {
		job.Soil.CBR = []float64{cbr}
	}
	job.Water.WetGround = new(hard)
	if !hard {
		job.Frost.FrostFree = new(true)
		return job
	}
	job.Frost.FreezingIndex = new(quantity.FahrenheitDays(1500))
	if base == "open" {
		job.Rain.StorageWanted, job.Rain.Depth = new(true), new(quantity.Inches(2.5))
	}
	return job
}
