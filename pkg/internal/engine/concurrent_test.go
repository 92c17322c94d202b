package engine

import (
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// wholeBook has one of everything.
const wholeBook = `chapter: tests
about: One of everything.
sources:
  sheet: {document: a data sheet, known: memory}
settings:
  cover_least: {value: 4 in, at_least: 4 in, because: "less is loose", source: practice}
terms:
  soft: {is: bool, about: soft ground, source: practice, value: cbr < 3 || high, because: told}
  high: {is: bool, about: near water, source: practice, value: "known(water) && water < inches(24)", because: told}
decisions:
  grid_of:
    asks: Which grid?
    answers: grid
    take: only
    rules:
      - {rule: G1, when: soft && depth > cover_least, answer: biaxial, because: "soft at CBR {cbr}, cover {depth}", source: "sheet, table 2"}
      - {rule: G2, when: "!soft", answer: no_grid, because: firm, source: practice}
      - {rule: G3, when: soft && depth <= cover_least, answer: no_grid, because: thin, source: practice}
  depth:
    asks: How deep?
    answers: length
    take: largest
    rules:
      - {rule: D1, answer: inches(4), because: least, source: practice}
      - {rule: D2, when: known(water) && high, answer: inches(6) + inches(2), because: "water at {water}", source: practice}
      - {rule: D3, when: 1 / zero > 3 || soft, answer: inches(6), because: soft, source: practice}
  nets:
    asks: Which nets would do?
    answers: net
    take: all
    rules:
      - {rule: N1, when: soft, answer: heavy_net, because: strong, source: practice}
      - {rule: N2, answer: light_net, because: light, source: practice}
courses:
  - {course: base, label: Base, is: stone, because: "a base of {depth}", source: practice, attributes: {thickness: depth, grid: grid_of}}
checks:
  - {check: K1, asks: thick enough, failing: stop, value: depth, at_least: cover_least, says: "{depth}", because: loose, source: practice}
  - {check: K2, asks: firm, failing: caution, holds: "!soft", says: soft, because: soft, source: practice}
cautions:
  - {caution: W1, when: known(water) && high, says: "water at {water}", source: practice}
refusals:
  - {refusal: R1, when: cbr < 0.5, says: "CBR {cbr}", who: an engineer, source: practice}
`

// wholeSites are jobs that come to different answers.
func wholeSites() []site {
	return []site{
		plain().with("zero", 2.0), plain(), plain().with("cbr", 2.0), plain().with("cbr", 0.3),
		plain().with("water", quantity.Inches(20)), plain().with("water", quantity.Inches(30)).with("cbr", 9.0).with("zero", 1.0),
	}
}

// whole writes everything that an outcome tells.
func whole(t testing.TB, book *Book, s site, overrides []Override) string {
	out, err := book.Run(s, overrides)
	if err != nil {
		return err.Error()
	}
	var b strings.Builder
	say := func(what *Template) {
		said, err := out.Say(what)
		if err != nil {
			t.Error(err)
		}
		fmt.Fprintf(&b, "  %s / %s\n", said.Text(quantity.US), said.Text(quantity.SI))
	}
	fmt.Fprintln(&b, answers(out))
	for _, r := range out.Refusals {
		say(r.Says)
	}
	for _, d := range out.Decided {
		fmt.Fprintln(&b, d.Decision.Name, d.States)
		for i, r := range d.Decision.Rules {
			if !d.Asked {
				break
			}
			fmt.Fprintln(&b, " ", r.ID, out.Clauses(r.When), out.Deciding(r.When), out.Used(r))
			if d.States[i] != rulebook.NotReached && d.States[i] != rulebook.NotHeld {
				say(r.Because)
			}
		}
	}
	for _, c := range out.Courses {
		fmt.Fprintln(&b, c.Name)
		say(c.Because)
	}
	for _, c := range out.Checks {
		fmt.Fprintln(&b, c.Check.ID, c.Holds)
	}
	for _, c := range out.Cautions {
		say(c.Says)
	}
	for _, e := range out.Absorbed {
		fmt.Fprintln(&b, "absorbed:", e)
	}
	return b.String()
}

// TestConcurrentRuns holds that one book serves many goroutines, each with the
// outcome that it would have alone.
func TestConcurrentRuns(t *testing.T) {
	book := mustOpen(t, wholeBook)
	sites := wholeSites()
	overrides := []Override{takeOver("depth", "larger(inches(5), cover_least)", 1)}
	want := make([]string, 2*len(sites))
	for i, s := range sites {
		want[2*i], want[2*i+1] = whole(t, book, s, nil), whole(t, book, s, overrides)
	}
	require.GreaterOrEqual(t, len(uniq(want)), 7, "the jobs come to different answers, some to an error and one to a refusal")
	var wg sync.WaitGroup
	var lock sync.Mutex
	wrong := map[string]bool{}
	for g := range 8 {
		wg.Go(func() {
			for n := range 20 {
				i := (g + n) % len(sites)
				got := []string{whole(t, book, sites[i], nil), whole(t, book, sites[i], overrides)}
				done, err := book.Calculate("depth + cover_least", sites[i%2*2])
				if got[0] != want[2*i] || got[1] != want[2*i+1] || err != nil || done.Value.Kind() != "length" {
					lock.Lock()
					wrong[cmp.Diff(want[2*i:2*i+2], got)+fmt.Sprint(err)] = true
					lock.Unlock()
				}
			}
		})
	}
	wg.Wait()
	require.Empty(t, wrong)
}

func uniq(list []string) map[string]bool {
	out := map[string]bool{}
	for _, s := range list {
		out[s] = true
	}
	return out
}

// bookText writes everything that a book tells of itself.
func bookText(b *Book) string {
	var out strings.Builder
	for _, d := range b.Decisions() {
		fmt.Fprintln(&out, d.Name, d.Asks, d.Kind, d.Take, d.Place, b.Uses(d.Name), b.Reads(d.Name))
		for _, r := range d.Rules {
			fmt.Fprintln(&out, " ", r.ID, r.When.Text(), r.When.Clauses(), r.When.Names(), r.Answer.Text, r.Because, r.Source)
		}
	}
	for _, s := range b.Settings() {
		fmt.Fprintln(&out, s.Name, s.Value, s.Place)
	}
	for _, t := range b.Terms() {
		fmt.Fprintln(&out, t.Name, t.Kind, t.Place, b.Uses(t.Name))
	}
	for i := range b.ClauseCount() {
		c, is := b.ClauseComparison(i)
		fmt.Fprintln(&out, i, b.ClauseText(i), b.ClauseNames(i), c, is)
	}
	fmt.Fprintln(&out, b.Inputs(), b.Files(), b.Chapters(), b.Sources())
	for _, f := range b.Functions() {
		fmt.Fprintln(&out, f.Name, f.Signatures)
	}
	for _, m := range b.Materials() {
		fmt.Fprintln(&out, m.Word.Name, m.Place)
	}
	for _, d := range b.order {
		fmt.Fprintln(&out, d.Name)
	}
	return out.String()
}

// TestSameTwice holds that the same files give the same book, faults and
// outcomes, in the same order: Go's maps have none.
func TestSameTwice(t *testing.T) {
	first := mustOpen(t, wholeBook)
	bad := strings.NewReplacer("answers: length", "answers: lenght", "cbr <", "cbrr <", "biaxial,", "biaxal,", "practice", "practise").Replace(wholeBook)
	faults := faultsOf(t, bad)
	require.Greater(t, len(faults), 10)
	for range 10 {
		again := mustOpen(t, wholeBook)
		require.Empty(t, cmp.Diff(bookText(first), bookText(again)))
		for _, s := range wholeSites() {
			require.Equal(t, whole(t, first, s, nil), whole(t, again, s, nil))
		}
		require.Empty(t, cmp.Diff(faults, faultsOf(t, bad)))
	}
}
