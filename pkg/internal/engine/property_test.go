package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/rulebook"
)

const widthOfLoad = "load_have: {label: load, because: told, source: practice, properties: {width: 2 in}}"

// openWidth opens the house with another width of its load case, and amendments.
func openWidth(width string, amendments ...string) (*Book, error) {
	setup := testSetup()
	setup.AsOf, _ = rulebook.ParseDate("2026-03-01")
	files := map[string]string{}
	for i, text := range amendments {
		files[string(rune('a'+i))+".yaml"] = keeper + text
	}
	setup.Amendments = []rulebook.Layer{{Label: "ours", FS: filesOf(files)}}
	return Open(filesOf(map[string]string{"house.yaml": strings.Replace(house, widthOfLoad, strings.Replace(widthOfLoad, "2 in", width, 1), 1)}), setup)
}

// TestPropertyWithASourceOfItsOwn holds that the value of a property can be known
// from elsewhere than its word, and is as accountable as any other.
func TestPropertyWithASourceOfItsOwn(t *testing.T) {
	require.Contains(t, house, widthOfLoad)
	const own = `{value: 2 in, because: Measured once., source: "have, page 4"}`
	const change = "replace:\n  - {load_case: load_have, set: {because: told, source: company, properties: {width: %s}}}\n"
	for _, c := range []struct {
		name, why, width, amendment string
		says, because, source       string
	}{
		{name: "plain", why: "without one it rests on what its word rests on", width: "2 in"},
		{name: "own", why: "its reason and source are kept", width: own, because: "Measured once.", source: "A Printed Book, page 4"},
		{name: "no because", why: "a source alone does not say why", width: "{value: 2 in, source: have}", says: `a property needs the key "because"`},
		{name: "no source", why: "a reason alone does not say whence", width: "{value: 2 in, because: told}", says: `a property needs the key "source"`},
		{name: "no value", why: "there is nothing to account for", width: "{because: told, source: have}", says: `a property needs the key "value"`},
		{name: "unknown source", why: "it is one that there is", width: "{value: 2 in, because: told, source: hav}", says: "no source is called hav"},
		{name: "another kind", why: "its value is of the kind that is declared", width: "{value: 2 psi, because: told, source: have}", says: "length"},
		{name: "changed to a plain one", why: "the old source goes with the old value", width: own, amendment: "3 in"},
		{name: "changed under the same place", why: "that page says what was there before", width: own, amendment: strings.Replace(own, "2 in", "3 in", 1),
			says: "this place in the document says what was there before, and not the amendment's width"},
		{name: "changed under another place", why: "another page may say so", width: own, amendment: `{value: 3 in, because: Measured again., source: "have, page 5"}`,
			because: "Measured again.", source: "A Printed Book, page 5"},
		{name: "changed by choice", why: "own is the choice of the rulebook and not of an amendment", width: "2 in", amendment: "{value: 3 in, because: told, source: own}",
			says: "own is the rulebook's own choice"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var amendments []string
			if c.amendment != "" {
				amendments = append(amendments, strings.Replace(change, "%s", c.amendment, 1))
			}
			book, err := openWidth(c.width, amendments...)
			if c.says != "" {
				require.ErrorContains(t, err, c.says, c.why)
				return
			}
			require.NoError(t, err, c.why)
			p, ok := book.Word("load_have").Own["width"]
			require.Equal(t, c.source != "", ok, c.why)
			require.Equal(t, c.because, p.Because.Text)
			if ok {
				require.Contains(t, p.Source.String(), c.source)
			}
		})
	}
}
