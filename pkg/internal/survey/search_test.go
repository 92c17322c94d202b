package survey

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// frosts is a rulebook that splits the frost depth at 10 in and at 20 in.
var frosts = oneDecision("first", "A, when: known(frost.depth) && frost.depth < inches(10), answer: apple",
	"B, when: known(frost.depth) && frost.depth > inches(20), answer: pear", "C, when: known(soil.passing_no4) && soil.passing_no4 > percent(50), answer: pear", "D, answer: plum")

// full drafts a job that tells everything.
func full(w *drafter) draft {
	d := w.plain()
	for i, e := range w.entries {
		d[i] = e.usual
	}
	return d
}

// Whatever is not needed is left out, the first entry and the last as well; what
// every job tells, and what the survey holds, is not.
func TestLeaveOut(t *testing.T) {
	w, q := testDrafter(t, frosts)
	s := &searcher{w: w, m: q.m}
	all := full(w)
	require.Equal(t, len(w.entries), all.told())
	got := s.leaveOut(all, func(draft) bool { return true })
	require.Equal(t, w.plain(), got)
	w.fixed = []pin{{input: "frost.depth", cell: 2, value: value.Measured(quantity.Inches(15))}}
	held := s.leaveOut(all, func(draft) bool { return true })
	require.Equal(t, w.plain().told()+1, held.told())
	require.NotNil(t, held[w.index["frost.depth"]])
	require.Equal(t, all, s.leaveOut(all, func(draft) bool { return false }), "where every entry is needed all stay")
	w.fixed = nil
	last := len(all) - 1
	kept := s.leaveOut(all, func(d draft) bool { return d[last] != nil })
	require.Equal(t, w.plain().told()+1, kept.told(), "what is needed stays")
	require.NotNil(t, kept[last])
}

// A hunt runs no more jobs than it may, wherever it stops.
func TestHuntKeepsToItsBudget(t *testing.T) {
	c := faultCases[3] // a narrow band, which takes many
	q, _ := aimsOf(t, opened(t, c.book))
	s := &searcher{w: q.w, m: q.m, seed: 1}
	q.w.used = make([]bool, len(q.w.entries))
	s.aims = q.subjectAims(t, "fruit")
	found := 0
	for _, budget := range []int{1, 2, 7, 20, 60, 400} {
		h := s.huntOne(0, 0, budget)
		require.LessOrEqual(t, h.ran, budget)
		require.LessOrEqual(t, h.valid, h.ran)
		require.True(t, h.hit || h.ran == budget, "it stops when it has found what it looks for, and not before its budget is spent: %d of %d", h.ran, budget)
		if h.hit {
			found++
			require.NotEmpty(t, h.found)
		}
	}
	require.Positive(t, found, "with enough jobs it is found")
}

// How many jobs each hunt takes until it finds what it looks for follows from the seed
// alone, on every machine: for a line in the plane of two inputs, and for a narrow band
// far from usual values. A change of how jobs are drafted changes these counts, and
// should keep them small.
func TestHuntsTakeTheirTime(t *testing.T) {
	for at, want := range map[int]string{
		2: "0: 41 1 2 12; 1: 50 1 2 3; 2: 46 1 8 2; 3: 43 1 5 2; 4: 47 1 2 14; 5: 38 1 2 12; ",
		3: "0: 19 1 13; 1: 23 1 3; 2: 26 1 2; 3: 35 1 2; 4: 24 1 3; 5: 24 1 3; ",
	} {
		c := faultCases[at]
		t.Run(c.name, func(t *testing.T) {
			q, _ := aimsOf(t, opened(t, c.book))
			q.w.used = make([]bool, len(q.w.entries))
			aims, got := q.subjectAims(t, "fruit"), ""
			for seed := range uint64(6) {
				s := &searcher{w: q.w, m: q.m, seed: seed, aims: aims}
				got += fmt.Sprint(seed, ":")
				for i := range aims {
					h := s.huntOne(i, 0, 400)
					require.True(t, h.hit)
					require.Equal(t, h.ran, h.valid, "every job that is drafted here can be")
					got += fmt.Sprint(" ", h.ran)
				}
				got += "; "
			}
			require.Equal(t, want, got)
		})
	}
}

// A hunt among inputs that contradict each other meets jobs that cannot be, counts them,
// and goes another way.
func TestHuntsAmongJobsThatCannotBe(t *testing.T) {
	const both = "known(soil.liquid_limit) && known(soil.plastic_limit) && "
	q, _ := aimsOf(t, opened(t, oneDecision("first", "A, when: "+both+"soil.liquid_limit * 2 - soil.plastic_limit < 60, answer: apple",
		"B, when: "+both+"soil.liquid_limit * 2 - soil.plastic_limit > 60, answer: pear", "C, when: '!known(soil.liquid_limit) || !known(soil.plastic_limit)', answer: plum")))
	q.w.used = make([]bool, len(q.w.entries))
	aims := q.subjectAims(t, "fruit")
	got := ""
	for seed := range uint64(12) {
		s := &searcher{w: q.w, m: q.m, seed: seed, aims: aims}
		h := s.huntOne(0, 0, 400)
		require.True(t, h.hit)
		got += fmt.Sprintf("%d: %d of %d; ", seed, h.valid, h.ran)
	}
	require.Equal(t, "0: 107 of 158; 1: 76 of 107; 2: 39 of 39; 3: 175 of 243; 4: 45 of 51; 5: 45 of 47; 6: 107 of 155; 7: 110 of 132; 8: 152 of 188; 9: 42 of 42; 10: 40 of 40; 11: 59 of 71; ", got)
}

// subjectAims returns the aims of one subject of the rulebook.
func (q *asker) subjectAims(t *testing.T, name string) []*aim {
	t.Helper()
	for _, s := range subjects(q.m.book) {
		if s.Name == name {
			q.ask(s)
			return s.aims
		}
	}
	t.Fatal("no subject is called " + name)
	return nil
}

// Of troubles of one kind the smallest job is kept, and all are counted; they are
// told in the order of their places.
func TestTroubles(t *testing.T) {
	at := func(line int, rule string, told int) *seen {
		d := make(draft, 5)
		for i := range told {
			d[i] = true
		}
		run := &rulebook.RunError{In: "size", Rule: rule, Place: diagnostic.Place{File: "f", Line: line}, Err: errors.New("broken")}
		return &seen{Ran: inside.Ran{Err: run}, at: run, draft: d}
	}
	s := &searcher{troubles: map[string]*aim{}}
	for _, each := range []*seen{at(7, "B", 3), at(7, "A", 3), at(2, "C", 4), at(2, "C", 2), at(2, "C", 3), {Ran: inside.Ran{Err: errors.New("no place")}}} {
		s.keepTrouble(each)
	}
	var got []string
	var jobs, told []int
	for _, each := range s.sortedTroubles() {
		rule := ""
		if each.trouble.at != nil {
			rule = each.trouble.at.Rule
		}
		got, jobs, told = append(got, rule), append(jobs, each.hits), append(told, each.best.told())
	}
	require.Equal(t, []string{"", "C", "A", "B"}, got)
	require.Equal(t, []int{1, 3, 1, 1}, jobs)
	require.Equal(t, []int{0, 2, 3, 3}, told)
}

// Entries that have no part in what is asked are left untold; what is read off
// the sieve curve needs its ends.
func TestFindUsed(t *testing.T) {
	w, q := testDrafter(t, frosts)
	used := func(names ...string) map[string]bool {
		w.findUsed(names)
		out := map[string]bool{}
		for i, is := range w.used {
			if is && !w.entries[i].Required {
				out[w.entries[i].Path] = true
			}
		}
		return out
	}
	require.Empty(t, used("use"))
	require.Equal(t, map[string]bool{"frost.depth": true}, used("frost.depth"))
	curve := used("soil.passing_no4")
	require.Subset(t, curve, map[string]bool{"sieve " + coarsest.String(): true, "sieve " + finest.String(): true})
	require.NotContains(t, curve, "frost.depth")
	require.Contains(t, used(q.names(&scope{subjects: subjects(q.m.book)})...), "frost.depth", "what the rules read is used")
}

// A survey of one decision tells what it reads, and what a refusal reads: a job that
// is refused shows nothing.
func TestNamesOfAScope(t *testing.T) {
	book := opened(t, frosts+`
  juice:
    asks: which juice?
    answers: answer_word
    take: first
    rules:
      - {rule: J, when: known(nearby.roots) && nearby.roots, answer: apple}
      - {rule: J2, answer: pear}
refusals:
  - {refusal: WELL, when: known(nearby.well_distance) && nearby.well_distance < feet(3), says: no, who: nobody, source: practice}
`)
	scope, err := narrow(book, Within{Decisions: []string{"juice"}}, subjects(book), "")
	require.NoError(t, err)
	q := &asker{m: newModel(book, mostNodes)}
	names := q.names(scope)
	require.Subset(t, names, []string{"nearby.roots", "nearby.well_distance"})
	require.NotContains(t, names, "frost.depth")
}

// A number is tried in few digits of the unit in which a job file shows it.
func TestSimpler(t *testing.T) {
	w, _ := testDrafter(t, frosts)
	e := w.entries[w.index["frost.depth"]]
	var got []string
	for _, v := range e.simpler(quantity.Inches(12.3456).Meters()) {
		x, _ := v.(float64)
		got = append(got, fmt.Sprintf("%.6g in", quantity.Meters(x).Inches()))
	}
	require.Equal(t, []string{"40 in", "10 in", "12 in", "12.3 in", "12.35 in", "12.346 in", "12.3456 in"}, got)
	require.Nil(t, w.entries[w.index["frost.frost_free"]].simpler(true), "a yes or no cannot be simpler")
	word := w.entries[w.index["use"]]
	require.Equal(t, []any{word.words[0]}, word.simpler(word.words[1]))
}

// A job that cannot be is counted among those that were run, and shows nothing.
func TestLookAtAJobThatCannotBe(t *testing.T) {
	w, q := testDrafter(t, frosts)
	h := &hunter{searcher: &searcher{w: w, m: q.m}}
	d := w.plain()
	d[w.index["area"]] = -1.0
	x, ok := h.look(d)
	require.False(t, ok)
	require.Nil(t, x)
	require.Equal(t, []int{1, 0}, []int{h.ran, h.valid})
	x, ok = h.look(w.plain())
	require.True(t, ok)
	require.NotNil(t, x)
	require.Equal(t, []int{2, 1}, []int{h.ran, h.valid})
}

// What is asked for no job in particular takes a third of the budget and a tenth at
// most, and what is still open after that the rest of it, in six rounds. Jobs that were
// given, and their drafts, are run beside the budget.
func TestStages(t *testing.T) {
	left := oneDecision("first", "A, when: known(rain.depth) && rain.depth * 2 > rain.depth * 3 + inches(1), answer: apple", "B, answer: pear") // A is never shown
	for _, c := range []struct {
		name, why, book string
		budget          int
		want            []string
	}{
		{"one left open", "each round takes its part of what is left", left, 1000, []string{"walking the cells 0 of 1", "walking the cells 1 of 1", "the jobs of trials and examples 1 of 1",
			"the values of trials and examples 1 of 1", "jobs at the values where conditions meet 1 of 1", "random jobs 256 of 350", "random jobs 350 of 350",
			"looking for what was not shown 461 of 1002", "looking for what was not shown 569 of 1002", "looking for what was not shown 677 of 1002",
			"looking for what was not shown 785 of 1002", "looking for what was not shown 893 of 1002", "looking for what was not shown 1002 of 1002", "making the jobs smaller 0 of 0"}},
		{"one left open, of few jobs", "a round takes forty at least", left, 100, []string{"walking the cells 0 of 1", "walking the cells 1 of 1", "the jobs of trials and examples 1 of 1",
			"the values of trials and examples 1 of 1", "jobs at the values where conditions meet 1 of 1", "random jobs 35 of 35", "looking for what was not shown 78 of 102", "making the jobs smaller 0 of 0"}},
		{"none left open", "then nothing is looked for", frosts, 60, []string{"walking the cells 0 of 1", "walking the cells 1 of 1", "the jobs of trials and examples 1 of 1",
			"the values of trials and examples 1 of 1", "jobs at the values where conditions meet 6 of 6", "random jobs 21 of 21", "making the jobs smaller 0 of 0"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			_, err := Run(t.Context(), opened(t, c.book), Options{Budget: c.budget, Jobs: jobsOf(t, "use: foot\nbase: open\nsoil: {cbr: [3]}\n"), Progress: func(stage string, done, total int) {
				got = append(got, fmt.Sprintf("%s %d of %d", stage, done, total))
			}})
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
}

// Each part of the search has a random source of its own, which follows from the seed.
func TestSourcesOfChance(t *testing.T) {
	first := map[uint64]string{}
	for seed := range uint64(3) {
		s := &searcher{seed: seed}
		for _, part := range [][]uint64{nil, {1}, {2}, {1, 2}, {2, 1}, {1, 2, 3}} {
			x, name := s.rng(part...).Uint64(), fmt.Sprint(seed, part)
			require.Empty(t, first[x], name)
			require.Equal(t, x, s.rng(part...).Uint64(), name)
			first[x] = name
		}
	}
}
