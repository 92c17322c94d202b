package engine_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/rulebook"
)

// layer is an amendment of a name over others that sets the cover.
func layer(name, over string) string {
	return fmt.Sprintf("amendment: %s\ncompany: Ours\nwho: W\nwhen: 2026-01-01\nwhy: Because.\nover: [%s]\nreplace:\n  - {setting: cover, set: {value: 8 in, because: Deeper., source: company}}\n", name, over)
}

// TestLayers holds that amendments over each other are put in order however they
// share what they stand on, and that a circle is shown whole and ends.
func TestLayers(t *testing.T) {
	var diamonds []string
	below := ""
	for i := range 60 {
		p, q, top := fmt.Sprintf("p%d", i), fmt.Sprintf("q%d", i), fmt.Sprintf("t%d", i)
		diamonds = append(diamonds, layer(p, below), layer(q, p), layer(top, p+", "+q))
		below = top
	}
	const again = "setting cover is amended twice; wanted one amendment of it, or over: "
	cases := []struct {
		name, why string
		texts     []string
		want      string // "" if all is well
	}{
		{"diamonds", "180 layers, each way through them shared, take no longer than 180", diamonds, ""},
		{"over itself", "the smallest circle", []string{layer("a", "a")}, "ours/a.yaml:6:8: an amendment cannot build on itself; found a; wanted the name of another amendment, or no over"},
		{"over each other, and a third", "it once overflowed the stack", []string{layer("z", ""), layer("a", "b"), layer("b", "a")}, again + "[z]"},
		{"circle of three", "the whole way round is shown", []string{layer("a", "b"), layer("b", "c"), layer("c", "a")},
			"amendments build on each other in a circle; found a over b over c over a; wanted an order; ours/a.yaml:1:12: a stands here; ours/b.yaml:1:12: b stands here; ours/c.yaml:1:12: c stands here"},
		{"into a circle", "what leads into the circle is not a part of it", []string{layer("a", "b"), layer("b", "b")}, "an amendment cannot build on itself; found b"},
		{"beside each other", "neither knows of the other", []string{layer("a", ""), layer("b", "")}, "ours/b.yaml:8:15: " + again + "[a] where this one is meant to build on that; ours/a.yaml:8:15: it is amended here"},
		{"over what is not there", "a slip of the pen", []string{layer("first", ""), layer("b", "frist")}, `ours/b.yaml:6:8: no amendment is called frist; found frist; wanted the name of an amendment that this one builds on; did you mean "first"?`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := amendedBook("2026-03-01", c.texts...)
			if c.want == "" {
				require.NoError(t, err, c.why)
				return
			}
			var wrong *rulebook.Error
			require.ErrorAs(t, err, &wrong)
			require.Contains(t, err.Error(), c.want, c.why)
		})
	}
}

// TestVarianceDays holds the first and the last day on which a variance holds.
func TestVarianceDays(t *testing.T) {
	thin := head + "replace:\n  - {setting: cover, set: {value: 3 in, because: Thin., source: company}}\nvariances:\n  - {variance: thin, setting: cover, to: 3 in, who: Owner, why: Tested., from: 2026-03-01, until: 2026-03-31}\n"
	for _, c := range []struct{ name, why, day, want string }{
		{"day before", "it waits", "2026-02-28", "the variance thin holds only from 2026-03-01"},
		{"first day", "the day itself counts", "2026-03-01", ""},
		{"last day", "the day itself counts", "2026-03-31", ""},
		{"day after", "it has expired", "2026-04-01", "the variance thin has expired; found until 2026-03-31, as of 2026-04-01"},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, err := amendedBook(c.day, thin)
			if c.want != "" {
				require.ErrorContains(t, err, c.want, c.why)
				return
			}
			require.NoError(t, err, c.why)
			require.Len(t, book.Variances(), 1)
		})
	}
}

// TestWhatAmendmentsCannotName holds the names that an amendment can have wrong,
// each with the nearest right one.
func TestWhatAmendmentsCannotName(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"vocabulary", "words are added to one that is there", head + "add:\n  - {word: triaxial, to: gird, label: triaxial grid, because: Ours., source: company}\n",
			`ours/a.yaml:7:26: no vocabulary is called gird; found gird; wanted the name of a vocabulary of the rulebook; did you mean "grid"?`},
		{"setting of a variance", "at the name, not at the variance", head + "variances:\n  - {variance: v, setting: covr, to: 3 in, who: O, why: W., until: 2027-01-01}\n",
			`ours/a.yaml:7:28: no setting is called covr; found covr; wanted the name of a setting of the rulebook; did you mean "cover"?`},
		{"decision to add to", "at the name", head + "add:\n  - {rule: R, answer: inches(9), because: B., source: company, to: dept}\n",
			`ours/a.yaml:7:68: no decision is called dept; found dept; wanted the name of a decision of the rulebook; did you mean "depth"?`},
		{"file of no amendment", "how an amendment begins is said, not how a chapter does", "- 1\n", "ours/a.yaml:1:1: this is not a rule file; found a list; wanted amendment: NAME, as every amendment begins"},
		{"decision not told", "at the change", head + "add:\n  - {rule: R, answer: inches(9), because: B., source: company}\n", "ours/a.yaml:7:5: the change does not say where the rule goes; wanted to: the name of a decision, or before: or after: a rule"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := amendedBook("2026-03-01", c.text)
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}
