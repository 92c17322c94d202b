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
// leave a gap the survey must find it, or prove that there is none. In one it can do
// neither, and says so: check dams closer than a foot would stand on a slope that is
// refused, and the walk does not bound what their spacing is calculated to be.
func TestStandardWithoutAFallback(t *testing.T) {
	book, jobs := standardAsked(t), standardJobs(t)
	found, none := 0, 0
	var open []string
	for _, d := range book.Decisions() {
		last := d.Rules[len(d.Rules)-1]
		if d.Take != rulebook.First || last.When != nil || len(d.Rules) < 2 {
			continue
		}
		t.Run(d.Name, func(t *testing.T) {
			changed, err := groundrule.Open(without(t, last.ID))
			require.NoError(t, err)
			mutant := inside.Rules(changed)
			r, err := Run(context.Background(), mutant, Options{Within: Within{Decisions: []string{d.Name}}, Budget: 6000, Jobs: jobs})
			require.NoError(t, err)
			for _, f := range r.Findings {
				if f.Kind == NoAnswer {
					holdsInEngine(t, mutant, f)
					found++
					return
				}
			}
			point := r.Settled[0].Points[0]
			require.Equal(t, "a job without an answer", point.Asks)
			if point.How != Proven {
				open = append(open, d.Name)
				return
			}
			none++
		})
	}
	t.Logf("%d gaps found, %d proven not to be there", found, none)
	require.Positive(t, found)
	require.Equal(t, []string{"barrier_spacing"}, open, "neither found nor ruled out")
}

// without returns the standard rule files less one rule, and less what a client is told,
// which names rules.
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
		if name == "97-client.yaml" {
			continue
		}
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
