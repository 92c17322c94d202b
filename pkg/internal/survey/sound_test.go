package survey

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/rulebook"
)

// allows reports whether a set holds a job of which some cells are not known: -1
// stands for any.
func allows(d *cells.Diagram, set cells.Node, at []int) bool {
	way, ok := d.Cheapest(set, func(variable, cell int) float64 {
		if at[variable] < 0 || at[variable] == cell {
			return 0
		}
		return 1
	})
	return ok && !slices.ContainsFunc(way, func(s cells.Step) bool { return at[s.Variable] >= 0 && at[s.Variable] != s.Cell })
}

// aimsOf makes the aims of a whole rulebook.
func aimsOf(t testing.TB, book *engine.Book) (*asker, []*aim) {
	t.Helper()
	rules := book
	scope, err := narrow(rules, Within{}, subjects(rules), "")
	require.NoError(t, err)
	q, err := walk(t.Context(), newModel(rules, mostNodes), scope, func(string, int, int) {})
	require.NoError(t, err)
	var aims []*aim
	for _, s := range scope.subjects {
		aims = append(aims, s.aims...)
	}
	return q, aims
}

// soundOn proves on jobs of every kind what a proof stands on: whatever the
// engine does with a job, the walk holds possible for the cells of that job.
//
// It returns how many worked values came to a cell.
func soundOn(t *testing.T, book *engine.Book, count int) (worked int) {
	t.Helper()
	q, aims := aimsOf(t, book)
	rng := rand.New(rand.NewPCG(11, 12))
	w := q.w
	w.used = make([]bool, len(w.entries))
	for i := range w.used {
		w.used[i] = true
	}
	seenAims := map[*aim]bool{}
	for n := range count {
		var x *seen
		if n%2 == 0 {
			x = q.w.lookAt(nil, jobs.Any(rng, q.w.table))
		} else {
			var ok bool
			x, ok = q.w.look(w.randomDraft(rng))
			require.True(t, ok)
		}
		at := x.cells(q.m)
		for i, v := range q.m.variables {
			if v.role == leftOpen && q.m.worked[v.name] != nil && at[i] >= 0 {
				worked++
			}
		}
		for _, a := range aims {
			if a.shows(x) {
				seenAims[a] = true
				require.True(t, allows(q.m.d, a.region, at), "%s %s: %s, which the walk rules out", a.subject.What, a.subject.Name, a.asks())
			}
		}
	}
	require.NotEmpty(t, seenAims)
	return worked
}

func TestTheWalkRulesOutNothingThatTheEngineDoes(t *testing.T) {
	for _, c := range faultCases {
		t.Run(c.name, func(t *testing.T) { soundOn(t, opened(t, c.book), 200) })
	}
	t.Run("a word that is a kind of another", func(t *testing.T) {
		soundOn(t, opened(t, "  fine_word:\n    about: finer answers\n    because: told\n    source: practice\n    words: {fig: fig, blue_fig: {label: blue fig, kind_of: fig}}\n"+
			strings.Replace(oneDecision("first", "A, when: tree == fig, answer: apple", "B, answer: pear"), "decisions:\n",
				"decisions:\n  tree:\n    asks: which tree?\n    answers: fine_word\n    take: first\n    rules:\n      - {rule: T1, when: base == open, answer: blue_fig}\n      - {rule: T2, when: use == foot, answer: fig}\n      - {rule: T3, answer: blue_fig}\n", 1)), 100)
	})
	worked := 0
	for _, c := range plantedFaults {
		t.Run(c.name, func(t *testing.T) { worked += soundOn(t, opened(t, c.book), 60) })
	}
	require.Greater(t, worked, 100, "values that clauses work out are among what is held")
}

// The job of a finding is as small as it can be: without any one of the entries
// that may be left out it no longer shows it.
func TestJobsAreSmallest(t *testing.T) {
	jobs, entries := 0, 0
	for _, c := range faultCases {
		t.Run(c.name, func(t *testing.T) {
			book, r := c.survey(t)
			q, aims := aimsOf(t, book)
			for _, f := range r.Findings {
				if f.Job == nil || f.Kind != NoAnswer && f.Kind != TwoAnswers {
					continue
				}
				jobs++
				shows := func(x *seen) bool {
					for _, a := range aims {
						if a.subject.Name == f.Name && (a.what == noAnswer || a.what == twoAnswers) && a.shows(x) {
							return true
						}
					}
					return false
				}
				for i, e := range q.w.entries {
					if f.Job.seen.draft[i] == nil || e.Required {
						continue
					}
					entries++
					x, ok := q.w.look(f.Job.seen.draft.with(i, nil))
					require.False(t, ok && shows(x), "%s is not needed in\n%s", e.Path, f.Job.Text)
				}
			}
		})
	}
	require.GreaterOrEqual(t, jobs, 7, "the gaps and clashes of the cases")
	require.Greater(t, entries, jobs/2, "most of them turn on an entry that could be left out")
}

// The trial of a finding is one: package trial reads it, and it fails if and
// only if the rules cannot answer the job.
func TestFindingsAreTrials(t *testing.T) {
	passing, failing := 0, 0
	for _, c := range faultCases {
		t.Run(c.name, func(t *testing.T) {
			book, r := c.survey(t)
			for _, f := range r.Findings {
				if f.Job == nil {
					require.Empty(t, f.Trial())
					continue
				}
				text := "about: what a survey found\ntrials:\n  " + strings.ReplaceAll(strings.TrimSpace(f.Trial()), "\n", "\n  ") + "\n"
				trials, err := trial.Load(rulebook.Layer{Label: "found", FS: fstest.MapFS{"found.yaml": &fstest.MapFile{Data: []byte(text)}}})
				require.NoError(t, err, text)
				out, err := trial.Run(t.Context(), book, trials, trial.Options{})
				require.NoError(t, err, text)
				require.Len(t, out.Results, 1)
				unanswered := f.Kind == NoAnswer || f.Kind == TwoAnswers || f.Kind == Breaks
				require.Equal(t, unanswered, out.Failed == 1, text)
				passing, failing = passing+out.Passed, failing+out.Failed
			}
		})
	}
	require.Positive(t, passing)
	require.Positive(t, failing)
}
