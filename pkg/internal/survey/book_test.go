package survey

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// headLines is how many lines [opened] sets before a rulebook.
const headLines = 13

// opened opens a rulebook of one file. Rules are written short: what they are
// because of, and on whose authority, is filled in.
func opened(t testing.TB, text string) *engine.Book {
	t.Helper()
	book, err := open(text)
	require.NoError(t, err)
	return inside.Rules(book)
}

func open(text string, options ...groundrule.Option) (*groundrule.Book, error) {
	const head = "chapter: small\nabout: a rulebook for a test\n" +
		"vocabularies:\n  course_kind:\n    about: courses\n    words: {stone_course: stone}\n    because: told\n    source: practice\n" +
		"  answer_word:\n    about: answers\n    words: {apple: apple, pear: pear, plum: plum}\n    because: told\n    source: practice\n"
	var lines []string
	for _, l := range strings.Split(text, "\n") {
		if strings.HasSuffix(l, "}") && (strings.Contains(l, "{rule:") || strings.Contains(l, "{value:")) {
			l = strings.TrimSuffix(l, "}") + ", because: x, source: practice}"
		}
		lines = append(lines, l)
	}
	files := small.Rulebook("small.yaml", head+strings.Join(lines, "\n"))
	return groundrule.Open(files, append(options, inside.Partial.(groundrule.Option))...)
}

const testBudget = 3000

func surveyed(t testing.TB, book *engine.Book, within Within) *Report {
	t.Helper()
	r, err := Run(context.Background(), book, Options{Budget: testBudget, Within: within})
	require.NoError(t, err)
	return r
}

// brief returns a finding in one line: kind, rule or name, and by which rules.
func brief(f Finding) string {
	name := f.Name
	if f.Rule != nil {
		name = f.Rule.Name
	}
	out := string(f.Kind) + " " + name
	for _, by := range f.By {
		out += " < " + by.Name
	}
	if len(f.Settings) > 0 {
		out += " (" + strings.Join(f.Settings, ", ") + ")"
	}
	return out
}

func briefs(r *Report) []string {
	out := []string{}
	for _, f := range r.Findings {
		out = append(out, brief(f))
	}
	return out
}

// oneDecision is a rulebook with one decision that answers a word.
func oneDecision(take string, rules ...string) string {
	out := "decisions:\n  fruit:\n    asks: which fruit?\n    answers: answer_word\n    take: " + take + "\n    rules:\n"
	for _, r := range rules {
		out += "      - {rule: " + r + "}\n"
	}
	return out
}

// allSettled reports whether every question was settled exactly.
func allSettled(r *Report) bool {
	for _, s := range r.Settled {
		if !s.Exactly {
			return false
		}
	}
	return len(r.Settled) > 0
}

// holdsInEngine proves a finding with the engine alone: its job, as written, is
// read and run.
func holdsInEngine(t *testing.T, book *engine.Book, f Finding) {
	t.Helper()
	require.NotNil(t, f.Job, brief(f))
	job, err := site.Read("job.yaml", []byte(f.Job.Text))
	require.NoError(t, err, f.Job.Text)
	out, runErr := book.Run(job, nil)
	var at *rulebook.RunError
	errors.As(runErr, &at)
	d, isDecision := book.Decision(f.Name)
	switch f.Kind {
	case NoAnswer:
		require.ErrorIs(t, runErr, rulebook.ErrNoAnswer)
		require.Equal(t, f.Name, at.In)
	case TwoAnswers:
		require.ErrorIs(t, runErr, rulebook.ErrTwoAnswers)
		require.Equal(t, f.Rule.Name, at.Rule)
		require.Contains(t, runErr.Error(), f.By[0].Name)
	case Hidden, NeverGoverns:
		require.NoError(t, runErr)
		require.True(t, isDecision)
		decided, err := out.DecidedBy(d.Name)
		require.NoError(t, err)
		var by []string
		for _, each := range f.By {
			by = append(by, each.Name)
		}
		require.Contains(t, by, decided.Rule.ID)
		for _, r := range d.Rules {
			if r.ID == f.Rule.Name {
				is, err := out.Holds(r.When)
				require.NoError(t, err)
				require.True(t, is)
			}
		}
	case NeverMet:
		require.NoError(t, runErr)
		for _, c := range out.Checks {
			if c.Check.ID == f.Name {
				require.False(t, c.Holds)
				return
			}
		}
		require.Fail(t, "the check does not apply")
	case Breaks, OutOfRange:
		require.NotNil(t, at)
		require.Equal(t, f.Name, at.In)
	default:
		require.Fail(t, "no job can show a finding of this kind", f.Kind)
	}
}

func written(t testing.TB, r *Report) string {
	t.Helper()
	var p page.Page
	r.Tell(&p)
	var b bytes.Buffer
	require.NoError(t, p.Write(&b))
	return b.String()
}

// course tells in a few lines how a survey went: what was walked and tried, and what came
// of it.
func course(r *Report) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d names, %d cells; %d jobs, %d possible; %d proven, %d shown, %d searched by %d\n",
		r.Names, r.Cells, r.Jobs, r.Possible, r.Questions[Proven], r.Questions[Shown], r.Questions[Searched], r.Aimed)
	for _, f := range r.Findings {
		fmt.Fprintf(&b, "  %s: %s\n", brief(f), f.Says)
		for _, a := range f.Against {
			fmt.Fprintf(&b, "    against %s\n", a.Name)
		}
		if len(f.Cell) > 0 {
			fmt.Fprintf(&b, "    where %s\n", strings.Join(f.Cell, "; "))
		}
		if f.Job != nil {
			fmt.Fprintf(&b, "    job %s", f.Job.flowed())
		}
	}
	for _, u := range r.Unanalyzed {
		fmt.Fprintf(&b, "  open %s: %s\n", u.Text, u.Why)
	}
	return b.String()
}
