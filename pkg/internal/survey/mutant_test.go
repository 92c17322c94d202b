package survey

import (
	"context"
	"io/fs"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/rules"
)

// TestStandardWithoutAFallback takes the last rule out of each decision of the
// standard rulebook that ends in one without a condition. Where the other rules
// leave a gap the survey must find it, or say that it could not rule one out; it
// may be silent only where it proves that there is none.
func TestStandardWithoutAFallback(t *testing.T) {
	book := standardAsked(t)
	found, none := 0, 0
	for _, d := range book.Decisions() {
		last := d.Rules[len(d.Rules)-1]
		if d.Take != rulebook.First || last.When != nil || len(d.Rules) < 2 {
			continue
		}
		t.Run(d.Name, func(t *testing.T) {
			changed, err := groundrule.Open(without(t, last.ID))
			require.NoError(t, err)
			mutant := inside.Rules(changed)
			r, err := Run(context.Background(), mutant, Options{Within: Within{Decisions: []string{d.Name}}, Budget: 6000})
			require.NoError(t, err)
			for _, f := range r.Findings {
				if f.Kind == NoAnswer {
					holdsInEngine(t, mutant, f)
					found++
					return
				}
			}
			require.Equal(t, Point{"a job without an answer", Proven}, r.Settled[0].Points[0], "neither found nor ruled out")
			none++
		})
	}
	t.Logf("%d gaps found, %d proven not to be there", found, none)
	require.Positive(t, found)
}

// without returns the standard rule files less one rule.
func without(t *testing.T, rule string) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	names, err := fs.Glob(rules.Files(), "*.yaml")
	require.NoError(t, err)
	for _, name := range names {
		data, err := fs.ReadFile(rules.Files(), name)
		require.NoError(t, err)
		var n yaml.Node
		require.NoError(t, yaml.Unmarshal(data, &n))
		drop(&n, rule)
		data, err = yaml.Marshal(&n)
		require.NoError(t, err)
		out[name] = &fstest.MapFile{Data: data}
	}
	return out
}

func drop(n *yaml.Node, rule string) {
	var kept []*yaml.Node
	for _, kid := range n.Content {
		if n.Kind == yaml.SequenceNode && kid.Kind == yaml.MappingNode && len(kid.Content) > 1 && kid.Content[0].Value == "rule" && kid.Content[1].Value == rule {
			continue
		}
		drop(kid, rule)
		kept = append(kept, kid)
	}
	n.Content = kept
}
