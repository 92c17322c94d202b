package rulebook_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

func day(t *testing.T, text string) rulebook.Date {
	t.Helper()
	d, err := rulebook.ParseDate(text)
	require.NoError(t, err)
	return d
}

func TestParseDate(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"a day", "it is kept as it is written", "2026-03-01", ""},
		{"a leap day", "the calendar is known", "2024-02-29", ""},
		{"no leap year", "so that a slip is told, not moved to March", "2026-02-29", `"2026-02-29" is not a day such as 2026-03-01`},
		{"one figure", "texts of one length compare as days do", "2026-3-1", `"2026-3-1" is not a day such as 2026-03-01`},
		{"another order", "3 January and 1 March are both written so", "03/01/2026", `"03/01/2026" is not a day such as 2026-03-01`},
		{"nothing", "no day is the zero Date, which nobody writes", "", `"" is not a day such as 2026-03-01`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := rulebook.ParseDate(c.text)
			if c.want != "" {
				require.EqualError(t, err, c.want, c.why)
				require.True(t, got.IsZero())
				return
			}
			require.NoError(t, err, c.why)
			require.Equal(t, c.text, got.String(), c.why)
			require.False(t, got.IsZero())
		})
	}
}

func TestDates(t *testing.T) {
	early, late := day(t, "2025-12-31"), day(t, "2026-01-01")
	require.True(t, early.Before(late))
	require.False(t, late.Before(early))
	require.False(t, early.Before(early), "a day is not before itself")
	require.True(t, rulebook.Date{}.Before(early), "no day is before any")
	require.True(t, early.Equal(day(t, "2025-12-31")))
	require.False(t, early.Equal(late))
	west := time.FixedZone("west", -8*3600)
	require.Equal(t, early, rulebook.DateOf(time.Date(2026, 1, 1, 2, 0, 0, 0, time.UTC).In(west)), "the day in the time's own zone")

	for _, d := range []rulebook.Date{early, {}} {
		text, err := json.Marshal(d)
		require.NoError(t, err)
		require.Equal(t, `"`+d.String()+`"`, string(text))
		back := late
		require.NoError(t, json.Unmarshal(text, &back))
		require.Equal(t, d, back)
	}
	bad := late
	require.EqualError(t, json.Unmarshal([]byte(`"soon"`), &bad), `"soon" is not a day such as 2026-03-01`)
	require.True(t, bad.IsZero(), "what was there before is not taken for what was read")
}

func TestError(t *testing.T) {
	faults := diagnostic.List{{Place: diagnostic.Place{File: "a.yaml", Line: 1, Column: 2}, Code: rulebook.CodeNoDay, Message: "no day"},
		{Place: diagnostic.Place{File: "b.yaml", Line: 3}, Message: "no reason"}}
	for _, c := range []struct {
		name, why string
		more      int
		want      string
	}{
		{"all", "each fault has a line", 0, "a.yaml:1:2: no day\nb.yaml:3: no reason"},
		{"cut", "that there are more is said, and how many", 1, "a.yaml:1:2: no day\nb.yaml:3: no reason\nand 1 more"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := error(&rulebook.Error{Faults: faults, More: c.more})
			require.EqualError(t, err, c.want, c.why)
			var one *diagnostic.Diagnostic
			require.ErrorAs(t, err, &one)
			require.Equal(t, rulebook.CodeNoDay, one.Code)
		})
	}
}

func TestRunError(t *testing.T) {
	at := diagnostic.Place{File: "a.yaml", Line: 4, Column: 7}
	cover := rulebook.NamedValue{Name: "cover", Value: value.Measured(quantity.Inches(6))}
	cbr := rulebook.NamedValue{Name: "soil.cbr", Value: value.Number(3)}
	for _, c := range []struct {
		name, why string
		err       rulebook.RunError
		want      string
	}{
		{"bare", "a decision without an answer has no rule to name", rulebook.RunError{In: "base_depth"}, "a.yaml:4:7: base_depth: no rule answers"},
		{"with all", "the values that it read explain it", rulebook.RunError{In: "base_depth", Rule: "DEEP", Values: []rulebook.NamedValue{cover, cbr}},
			"a.yaml:4:7: base_depth, rule DEEP: no rule answers (with cover = 6 in, soil.cbr = 3)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.err.Place, c.err.Err = at, rulebook.ErrNoAnswer
			require.EqualError(t, &c.err, c.want, c.why)
			require.ErrorIs(t, &c.err, rulebook.ErrNoAnswer)
		})
	}
}

func TestHolds(t *testing.T) {
	for state, want := range map[rulebook.State]bool{rulebook.Chosen: true, rulebook.Held: true, rulebook.NotHeld: false, rulebook.NotReached: false, "": false} {
		require.Equal(t, want, state.Holds(), "a rule that is %q", state)
	}
}

func TestCompares(t *testing.T) {
	text := func(s string) rulebook.Text { return rulebook.Text{Text: s} }
	for _, c := range []struct {
		name, why string
		check     rulebook.Check
		want      string
	}{
		{"at least", "the usual side", rulebook.Check{Value: text("cover"), Limit: text("inches(6)")}, "cover >= inches(6)"},
		{"at most", "the other side", rulebook.Check{Value: text("slope"), Limit: text("percent(12)"), AtMost: true}, "slope <= percent(12)"},
		{"a condition", "it compares nothing", rulebook.Check{Holds: text("wet")}, ""},
		{"a value alone", "half a comparison is none", rulebook.Check{Value: text("cover")}, ""},
		{"a limit alone", "half a comparison is none", rulebook.Check{Limit: text("cover")}, ""},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.check.Compares(), c.why) })
	}
}

// TestEach holds that every entry is handed out once, with its chapter and what an
// amendment did to it, and rules and limits behind their decision.
func TestEach(t *testing.T) {
	by := func(who string) *rulebook.Amended { return &rulebook.Amended{Because: who} }
	word := func(sort, name string) rulebook.Word {
		return rulebook.Word{Sort: sort, Word: value.Word{Name: name}, Chapter: "w", Amended: by(name)}
	}
	book := rulebook.Contents{
		Sources:      []rulebook.Source{{Source: value.Source{ID: "src"}, Amended: by("src")}},
		Vocabularies: []rulebook.Vocabulary{{Words: []rulebook.Word{word("word", "felt"), word("", "library")}}, {Words: []rulebook.Word{word("material", "slab")}}},
		Settings:     []rulebook.Setting{{Name: "least", Chapter: "a", Amended: by("least")}},
		Questions:    []rulebook.Question{{Key: "soil.word", Chapter: "b", Amended: by("soil.word")}, {Key: "company.pool", Chapter: "b"}},
		Terms:        []rulebook.Term{{Name: "wet", Chapter: "c", Amended: by("wet")}},
		Decisions: []rulebook.Decision{{Name: "deep", Chapter: "d", Amended: by("deep"), Rules: []rulebook.Rule{{ID: "R", Chapter: "d1", Amended: by("R")}}, Bounds: []rulebook.Bound{{ID: "L", Chapter: "d2", Amended: by("L")}}},
			{Name: "plain", Chapter: "d"}},
		Courses:  []rulebook.Course{{Name: "base", Chapter: "e", Amended: by("base")}},
		Checks:   []rulebook.Check{{ID: "CHECK", Chapter: "f", Amended: by("CHECK")}},
		Cautions: []rulebook.Caution{{ID: "CAUTION", Chapter: "g", Amended: by("CAUTION")}},
		Refusals: []rulebook.Refusal{{ID: "REFUSAL", Chapter: "h", Amended: by("REFUSAL")}},
		Promises: []rulebook.Promise{{ID: "PROMISE", Chapter: "i", Amended: by("PROMISE")}},
		Work:     []rulebook.Work{{Sort: "step", ID: "STEP", Chapter: "j", Amended: by("STEP")}, {Sort: "stop", ID: "STOP", Chapter: "j", Amended: by("STOP")}},
		Lines:    []rulebook.Line{{Name: "line", Chapter: "k", Amended: by("line")}},
	}
	var got []string
	book.Each(func(sort, name, chapter string, by *rulebook.Amended) {
		got = append(got, sort+" "+name+" "+chapter)
		require.Equal(t, name != "plain", by != nil && by.Because == name, "what was done to %s", name)
	})
	require.Equal(t, []string{"source src ", "word felt w", "material slab w", "setting least a", "question soil.word b", "term wet c", "decision deep d", "rule R d1", "limit L d2", "decision plain d",
		"course base e", "check CHECK f", "caution CAUTION g", "refusal REFUSAL h", "promise PROMISE i", "step STEP j", "stop STOP j", "line line k"}, got,
		"what the library itself has is no entry, and a company's own question is the decision of its name")
}
