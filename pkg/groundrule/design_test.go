package groundrule_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
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
	yard.Use = site.TruckYard
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
			book, err := groundrule.Open(fstest.MapFS{"plot.yaml": {Data: []byte(c.text)}}, groundrule.WithFunctions(faulty))
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

// An answer that was not asked for is none, and says so.
func TestAnswer(t *testing.T) {
	book, err := groundrule.Open(fstest.MapFS{"plot.yaml": {Data: []byte(plot)}})
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

// An expression without a job reads what the rulebook has, and no more.
func TestCalculateWithoutAJob(t *testing.T) {
	book, err := groundrule.Open(fstest.MapFS{"plot.yaml": {Data: []byte(plot)}}, groundrule.WithFunctions(faulty))
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
