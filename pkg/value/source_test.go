package value_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/value"
)

// TestSourceText proves that no source is told as better known than it is.
func TestSourceText(t *testing.T) {
	cases := []struct {
		name, why string
		s         value.Source
		want      string
	}{
		{"seen", "a document that was read stands alone", value.Source{Document: "ASTM D2487", Clause: "Table 1", Known: value.Seen}, "ASTM D2487, Table 1"},
		{"relayed", "who relays it is named", value.Source{Document: "AASHTO 1993", Known: value.Relayed, Via: "a textbook"}, "AASHTO 1993, as quoted in a textbook"},
		{"relayed by someone", "or said to be unnamed", value.Source{Document: "AASHTO 1993", Known: value.Relayed}, "AASHTO 1993, as quoted in a secondary source"},
		{"memory", "a value that was not read says so", value.Source{Document: "AASHTO M 288", Clause: "Table 3", Known: value.Memory}, "AASHTO M 288, Table 3; from memory, not verified against the document"},
		{"computed", "never a publication", value.Source{Document: "the equation applied", Known: value.Computed}, "the equation applied; computed here"},
		{"practice", "without a document", value.Source{Known: value.Practice}, "common practice, no published source"},
		{"practice with words", "with a clause to tell which", value.Source{Clause: "lifts by tool", Known: value.Practice}, "lifts by tool; common practice, no published source"},
		{"clause alone", "a clause needs no document before it", value.Source{Clause: "Table 1", Known: value.Seen}, "Table 1"},
		{"own", "a choice of the rulebook is not a company's", value.Source{Known: value.Own}, "this rulebook's own choice"},
		{"the company itself", "the document is then the company", value.Source{ID: "company", Document: "Wrenfold", Known: value.Company}, "company standard of Wrenfold"},
		{"the company without a name", "nothing stands behind of", value.Source{ID: "company", Known: value.Company}, "company standard"},
		{"company", "a company's own", value.Source{Document: "Our table", Known: value.Company}, "Our table; company standard"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.s.String(), c.why) })
	}
}

// TestPublished tells a document, or what was worked out from one, from a practice
// and a choice.
func TestPublished(t *testing.T) {
	want := map[value.Known]bool{value.Seen: true, value.Relayed: true, value.Memory: true, value.Computed: true,
		value.Practice: false, value.Own: false, value.Company: false}
	for _, k := range value.AllKnown() {
		t.Run(string(k), func(t *testing.T) {
			published, told := want[k]
			require.True(t, told, "each way of being known is one or the other")
			require.Equal(t, published, value.Source{Known: k}.Published())
		})
	}
}

func TestKnown(t *testing.T) {
	for _, k := range value.AllKnown() {
		require.True(t, k.Valid())
		require.Equal(t, strings.ToLower(string(k)), string(k), "tags are written in rule files in lower case")
	}
	require.Subset(t, value.AllKnown(), []value.Known{value.Seen, value.Relayed, value.Memory, value.Computed, value.Practice, value.Own, value.Company})
	require.False(t, value.Known("heard").Valid())
	require.False(t, value.Known("").Valid())
	require.True(t, value.Source{}.IsZero())
	require.False(t, value.Source{Known: value.Practice}.IsZero())
}
