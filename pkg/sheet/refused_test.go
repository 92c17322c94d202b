package sheet_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

// onClay is a patio that panels cannot carry, as far as is assumed of it.
const onClay = "{job: Patio, area: 400 sq ft, use: foot, base: panel, soil: {word: clay}}"

// TestRefusedOnAssumptions holds that a job that is refused by what was assumed is told
// so: whoever measures it may have a section. On what it rests can be asked, down to
// what was given.
func TestRefusedOnAssumptions(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	job, err := site.Read("job.yaml", []byte(onClay))
	require.NoError(t, err)
	areas, err := book.Areas(job, section.Client)
	require.NoError(t, err)
	s := areas.Sections[0]
	require.Equal(t, section.Refused, s.Status)
	var b bytes.Buffer
	for _, of := range []string{"page", "client"} {
		require.NoError(t, sheet.Sheet{Of: of, Lines: book.Lines(), Drawn: book.Drawn()}.Write(&b, areas))
	}
	require.NoError(t, sheet.Asked(&b, s, quantity.US))
	require.NoError(t, sheet.Sheet{Lines: book.Lines()}.Why(&b, s, "panel on soft ground"))
	golden(t, "refused_on_assumptions.txt", b.String())

	b.Reset()
	require.NoError(t, sheet.ReasonJSON(&b, s, "PANEL-IN-FROST"))
	var told struct {
		Refusals []section.Refusal
		RestsOn  []section.Reason `json:"rests_on"`
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &told))
	require.Len(t, told.Refusals, 1)
	require.Equal(t, "PANEL-IN-FROST", told.Refusals[0].ID)
	var on []string
	for _, r := range told.RestsOn {
		on = append(on, r.Decision)
	}
	require.Contains(t, on, "frost_class")
	require.NotContains(t, on, "weakest_cbr", "another refusal rests on that")
	require.Equal(t, "ground_freezes frost_depth", strings.Join(on[:2], " "))
}

// TestRefusedOnWhatWasTold holds what is said to be assumed where a job is refused by
// what it says: no more than what the refusal rests on.
func TestRefusedOnWhatWasTold(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, c := range []struct{ name, why, job, rests, assumed string }{
		{"a reading", "the strength was measured, and what was assumed of frost has no part in it", "base: dense, soil: {uscs: CL, cbr: [0.3]}", "cbr_readings readings_counted weakest_cbr", ""},
		{"a word", "it says what the soil is, by eye", "base: dense, soil: {word: peat}", "soil_class", "soil_class"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, err := site.Read("job.yaml", []byte("{area: 400 sq ft, use: foot, "+c.job+"}"))
			require.NoError(t, err)
			areas, err := book.Areas(job)
			require.NoError(t, err)
			s := areas.Sections[0]
			require.Equal(t, section.Refused, s.Status)
			var assumed []string
			for _, p := range s.Confirm {
				assumed = append(assumed, p.Name)
			}
			require.Equal(t, c.assumed, strings.Join(assumed, " "), c.why)
			require.Empty(t, s.Absent, "there is nothing for it to be absent from")
			var on []string
			for _, r := range s.Reasons {
				on = append(on, r.Decision)
			}
			require.Equal(t, c.rests, strings.Join(on, " "), c.why)
		})
	}
}
