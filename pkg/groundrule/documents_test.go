package groundrule_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/value"
)

// document is a publication with what of it is known in which way.
type document struct {
	Document string `yaml:"document"`
	Seen     string `yaml:"seen"`
	Relayed  string `yaml:"relayed"`
	Memory   string `yaml:"memory"`
}

// knows returns what of the document is known in a way, "" for nothing.
func (d document) knows(how value.Known) string {
	return map[value.Known]string{value.Seen: d.Seen, value.Relayed: d.Relayed, value.Memory: d.Memory}[how]
}

// TestDocuments holds every source of the rulebook and of the calculations, and
// every published row, against one table of documents: none is cited as better
// known than it is, what is relayed says by what, and the table has no more than
// what is cited.
func TestDocuments(t *testing.T) {
	var table []document
	f, err := os.Open("../../testdata/documents.yaml")
	require.NoError(t, err)
	defer f.Close()
	dec := yaml.NewDecoder(f)
	dec.KnownFields(true)
	require.NoError(t, dec.Decode(&table))

	cited := map[string]bool{}
	hold := func(where, name string, how value.Known) {
		if !slices.Contains([]value.Known{value.Seen, value.Relayed, value.Memory}, how) {
			return
		}
		var best document
		for _, d := range table {
			if strings.HasPrefix(name, d.Document) && len(d.Document) > len(best.Document) {
				best = d
			}
		}
		require.NotEmpty(t, best.Document, "%s: %q is not in the table of documents", where, name)
		require.NotEmpty(t, best.knows(how), "%s: nothing of %q is %s", where, best.Document, how)
		cited[best.Document+string(how)] = true
	}
	source := func(where string, s value.Source) {
		hold(where, s.Document, s.Known)
		if s.Known == value.Relayed {
			require.NotEmpty(t, s.Via, "%s: what relays %q?", where, s.Document)
		}
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, s := range book.Rules().Sources {
		source("source "+s.ID, s.Source)
	}
	for _, f := range groundrule.Calculations() {
		for _, s := range f.Sources {
			source("calculation "+f.Name, s)
		}
	}
	files, err := filepath.Glob("../../testdata/published/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, path := range files {
		r, err := os.Open(path)
		require.NoError(t, err)
		rows, err := readRows(r)
		require.NoError(t, err)
		require.NoError(t, r.Close())
		for _, row := range rows {
			hold("row "+row.Name, row.Document, row.Known)
		}
	}
	for _, d := range table {
		for _, how := range []value.Known{value.Seen, value.Relayed, value.Memory} {
			require.Equal(t, d.knows(how) != "", cited[d.Document+string(how)], "%s, %s: cited and in the table, or neither", d.Document, how)
		}
	}
}
