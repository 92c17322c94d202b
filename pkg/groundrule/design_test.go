package groundrule_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// A job that gets no section says why in its error: the limits that it crossed,
// or the checks that stop it, and no check that only warns.
func TestRefusedError(t *testing.T) {
	stopping := replaced(t, plot, `at_least: inches(5), failing: caution`, `at_least: inches(7), failing: stop`)
	stopping = replaced(t, stopping, `at_most: inches(8), failing: caution`, `at_most: inches(5), failing: caution`)
	calculated := replaced(t, plot, "value: strength < 3", "value: faulty(strength) < 3")
	ruled := replaced(t, plot, "rule: GUESS, answer: 2.5", "rule: GUESS, answer: faulty(2.5)")
	yard := path()
	yard.Use = "truck_yard"
	cases := []struct {
		name, why, text string
		job             *site.Site
		status          section.Status
		want, id        string
	}{
		{"refused", "a limit of the rulebook", plot, yard, section.Refused, "refused: TRUCKS: Trucks.", "TRUCKS"},
		{"stopped", "the check that stops it, and not the one that warns", stopping, path(), section.Stopped, "stopped: DEEP: Dig deeper.", ""},
		{"calculated by a rule", "under the rule's id", ruled, path(), section.Refused,
			"refused: GUESS: A calculation that this section needs does not reach this job: faulty(2.5): out of range. It was asked by strength, rule GUESS.", "GUESS"},
		{"calculated elsewhere", "a term has no id of its own", calculated, path(), section.Refused,
			"refused: NOT-CALCULATED: A calculation that this section needs does not reach this job: faulty(2.5): out of range. It was asked by weak.", "NOT-CALCULATED"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			book, err := groundrule.Open(small.Rulebook("plot.yaml", c.text), groundrule.WithFunctions(faulty))
			require.NoError(t, err)
			d, err := book.Design(c.job)
			require.Nil(t, d)
			require.EqualError(t, err, c.want, c.why)
			var refused *groundrule.Refused
			require.ErrorAs(t, err, &refused)
			require.Equal(t, c.status, refused.Section.Status)
			if c.id != "" {
				require.Equal(t, c.id, refused.Section.Refusals[0].ID)
			}
		})
	}
}

// Where an override makes a rule come to no answer, whoever wrote the job must act,
// and is told where; where it would come to none anyway it is the rule's author.
func TestOverrideThatBreaksARule(t *testing.T) {
	dividing := replaced(t, plot, "answer: inches(4) + extra", "answer: inches(8) / (strength - 1)")
	const (
		nothing = "arithmetic without a result: division by zero"
		head    = "{area: 100 sq ft, use: foot, base: dense, overrides: ["
		word    = "{decision: word, answer: \"'lane'\", by: A, because: b}"
		one     = "{decision: strength, answer: 1, by: A, because: b}"
	)
	for _, c := range []struct {
		name, why, text, overrides string
		want                       string // the fault; "" where the rule is at fault
		related                    string
	}{
		{"by itself", "no rule is at fault", plot, "{decision: strength, answer: 1 / 0, by: A, because: b}",
			"job.yaml:1:84: the override comes to no answer: 1 / 0: " + nothing + `; found 1 / 0`, ""},
		{"a rule that reads it", "both places are told", dividing, one,
			"job.yaml:1:84: with this override depth, rule WEAK comes to no answer: inches(8) / (strength - 1): " + nothing + `; found 1; plot.yaml:25:42: it stands here`, "plot.yaml:25:42"},
		{"a term that reads it", "a term has no rule to name", replaced(t, plot, "value: strength < 3", "value: 3 / (strength - 1) < 3"), one,
			"job.yaml:1:84: with this override weak comes to no answer: 3 / (strength - 1) < 3: " + nothing + `; found 1; plot.yaml:10:54: it stands here`, "plot.yaml:10:54"},
		{"the second of two", "the rule comes to an answer without it", dividing, word + ", " + one,
			"job.yaml:1:139: with this override depth, rule WEAK comes to no answer: inches(8) / (strength - 1): " + nothing + `; found 1; plot.yaml:25:42: it stands here`, "plot.yaml:25:42"},
		{"another decision", "the rule comes to no answer without it too", replaced(t, plot, "answer: inches(4) + extra", "answer: inches(8) / (strength - 2.5)"), word, "", ""},
		{"no such decision", "an override that cannot be followed", plot, "{decision: strenght, answer: 1, by: A, because: b}",
			"job.yaml:1:66: an override names a decision that does not exist; found strenght", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, err := groundrule.Open(small.Rulebook("plot.yaml", c.text))
			require.NoError(t, err)
			job, err := site.Read("job.yaml", []byte(head+c.overrides+"]}"))
			require.NoError(t, err)
			_, err = book.Design(job)
			var wrong *site.Error
			require.Equal(t, c.want != "", errors.As(err, &wrong), "%v", err)
			if c.want == "" {
				var run *rulebook.RunError
				require.ErrorAs(t, err, &run)
				require.Equal(t, "WEAK", run.Rule)
				return
			}
			require.ErrorContains(t, err, c.want, c.why)
			if c.related != "" {
				require.Equal(t, c.related, wrong.Faults[0].Related[0].Place.String())
			}
		})
	}
}

// A section that is stopped, and whose sentence comes to no value, is no section
// to hand out.
func TestRefusedWithoutASentence(t *testing.T) {
	text := replaced(t, plot, `at_least: inches(5), failing: caution, says: Dig deeper.`, `at_least: inches(7), failing: stop, says: "Dig {inches(1) / (strength - 2.5)}."`)
	book, err := groundrule.Open(small.Rulebook("plot.yaml", text))
	require.NoError(t, err)
	_, err = book.Design(path())
	var run *rulebook.RunError
	require.ErrorAs(t, err, &run)
	require.ErrorContains(t, err, "division by zero")
}

// The label of what a site gives begins with a small letter, unless the trade writes
// it in capitals.
func TestLabelsOfASite(t *testing.T) {
	book, err := groundrule.Open(small.Rulebook("plot.yaml", plot))
	require.NoError(t, err)
	job := path()
	job.Soil.CBR = []float64{3}
	for text, want := range map[string]string{"area": "area", "least(soil.cbr)": "CBR"} {
		done, err := book.Calculate(text, job)
		require.NoError(t, err)
		require.Equal(t, want, done.Values[0].Label, text)
	}
}

// An answer that was not asked for is none, and says so.
func TestAnswer(t *testing.T) {
	book, err := groundrule.Open(small.Rulebook("plot.yaml", plot))
	require.NoError(t, err)
	d, err := book.Design(path())
	require.NoError(t, err)
	v, asked := d.Answer("strength")
	require.True(t, asked)
	require.True(t, v.Equal(value.Number(2.5)))
	v, asked = d.Answer("color")
	require.False(t, asked, "no decision has that name")
	require.True(t, v.IsZero())
}

// A name is written as a person writes it, with what the trade abbreviates in
// capitals, and a bound as a bound.
func TestLabels(t *testing.T) {
	text := plot
	want := map[string]string{"cbr_taken": "CBR taken", "dcp_read": "DCP read", "esal_most": "ESAL at most", "uscs": "USCS", "aashto_at_least": "AASHTO at least",
		"lift_least": "lift at least", "lift_height": "lift height", "most": "most"}
	for name := range want {
		text = replaced(t, text, "settings:\n", "settings:\n  "+name+": {value: 1, because: So it is., source: practice}\n")
	}
	book, err := groundrule.Open(small.Rulebook("plot.yaml", text))
	require.NoError(t, err)
	for name, label := range want {
		done, err := book.Calculate(name, nil)
		require.NoError(t, err)
		require.Equal(t, label, done.Values[0].Label)
	}
}

// An expression without a job reads what the rulebook has, and no more.
func TestCalculateWithoutAJob(t *testing.T) {
	book, err := groundrule.Open(small.Rulebook("plot.yaml", plot), groundrule.WithFunctions(faulty))
	require.NoError(t, err)
	done, err := book.Calculate("extra + inches(1)", nil)
	require.NoError(t, err)
	require.Equal(t, "3 in", done.Value.String())
	require.Len(t, done.Values, 1)
	require.Equal(t, [3]string{"extra", "extra", "setting"}, [3]string{done.Values[0].Name, done.Values[0].Label, string(done.Values[0].Origin)})
	_, err = book.Calculate("known(soil.cbr)", nil)
	require.NoError(t, err)
	_, err = book.Calculate("area", nil)
	require.ErrorContains(t, err, "area", "no job, no area")
}

// TestBegin holds that a job file to begin with names every value that a job may have, each
// once, and reads as it stands; with every key taken for told, it is still a job file.
func TestBegin(t *testing.T) {
	book := standardBook(t)
	begun := string(book.Begin())
	for _, want := range []string{"\nuse: foot\n", "\nbase: dense\n", "\n# - dense: dense-graded crushed stone, compacted in lifts\n", "  # What is the ground, by eye and feel? Dig", "\n# SOIL: what is known of the ground under the section\nsoil:\n"} {
		require.Contains(t, begun, want)
	}
	for _, line := range strings.Split(begun, "\n") {
		require.True(t, len([]rune(line)) <= 80 || strings.HasSuffix(line, "}]"), "an example of a list alone may be longer: %s", line)
	}
	job, err := book.Table().Read("job.yaml", []byte(begun))
	require.NoError(t, err)
	design, err := book.Design(job)
	require.NoError(t, err)
	require.NotNil(t, design)
	told := 0
	for _, f := range book.Table().Inputs() {
		if _, is := job.Input(f.Path); is {
			told++
			require.True(t, f.Required, "%s is told, though a job need not tell it", f.Path)
		}
	}
	require.Equal(t, 3, told, "the area, its use and its base")
}
