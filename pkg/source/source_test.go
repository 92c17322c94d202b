package source_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/source"
)

// TestText proves that no source is told as better known than it is.
func TestText(t *testing.T) {
	cases := []struct {
		name, why string
		s         source.Source
		want      string
	}{
		{"seen", "a document that was read stands alone", source.Source{Document: "ASTM D2487", Clause: "Table 1", Known: source.Seen}, "ASTM D2487, Table 1"},
		{"relayed", "who relays it is named", source.Source{Document: "AASHTO 1993", Known: source.Relayed, Via: "a textbook"}, "AASHTO 1993, as relayed by a textbook"},
		{"relayed by someone", "or said to be unnamed", source.Source{Document: "AASHTO 1993", Known: source.Relayed}, "AASHTO 1993, as relayed by a secondary source"},
		{"memory", "a value that was not read says so", source.Source{Document: "AASHTO M 288", Clause: "Table 3", Known: source.Memory}, "AASHTO M 288, Table 3; value from memory, check before use"},
		{"computed", "never a publication", source.Source{Document: "the equation applied", Known: source.Computed}, "the equation applied; computed here"},
		{"practice", "without a document", source.Source{Known: source.Practice}, "common practice, no published source"},
		{"practice with words", "with a clause to tell which", source.Source{Clause: "lifts by tool", Known: source.Practice}, "lifts by tool; common practice, no published source"},
		{"company", "a company's own", source.Source{Document: "Our table", Known: source.Company}, "Our table; company standard"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.s.String(), c.why) })
	}
}

func TestKnown(t *testing.T) {
	for _, k := range source.AllKnown() {
		require.True(t, k.Valid())
		require.Equal(t, strings.ToLower(string(k)), string(k), "tags are written in rule files in lower case")
	}
	require.False(t, source.Known("heard").Valid())
	require.False(t, source.Known("").Valid())
	require.True(t, source.Source{}.IsZero())
	require.False(t, source.Source{Known: source.Practice}.IsZero())
}
