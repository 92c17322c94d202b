package site_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/jobnode"
	"example.com/groundrule/pkg/site"
)

// under reads a file and gives what stands under each of its keys.
func under(t *testing.T, text string) map[string]*document.Node {
	t.Helper()
	root, faults := document.Read("all.yaml", []byte(text), document.Limits{})
	require.Empty(t, faults)
	out := map[string]*document.Node{}
	for _, f := range root.Fields() {
		out[f.Key.Text()] = f.Value
	}
	return out
}

func TestReadNodeIsReadOfAPart(t *testing.T) {
	const job = "{use: foot, base: dense, area: 10 sq ft, soil: {cbr: [1, 2], sieves: [{sieve: No. 4, passing: 100}]}, frost: {depth: 3 ft}}"
	whole, err := site.Read("all.yaml", []byte(job))
	require.NoError(t, err)
	part, err := readNode("all.yaml", under(t, "job: "+job)["job"])
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(whole, part, cmpopts.IgnoreUnexported(site.Site{})))
	at, ok := part.PlaceOf("soil.cbr")
	require.True(t, ok)
	require.Equal(t, "all.yaml:1:59", at.String(), "the place is that in the whole file")
}

func TestReadNodeLaysChangesOver(t *testing.T) {
	const job = "job: {use: foot, base: dense, area: 10 sq ft, soil: {word: clay, cbr: [1, 2]}, frost: {depth: 3 ft}}\n"
	cases := []struct{ name, why, changes, want string }{
		{"none", "the job as it stands", "", "{use: foot, base: dense, area: 10 sq ft, soil: {word: clay, cbr: [1, 2]}, frost: {depth: 3 ft}}"},
		{"entry", "one entry replaced", "a: {use: car_driveway}", "{use: car_driveway, base: dense, area: 10 sq ft, soil: {word: clay, cbr: [1, 2]}, frost: {depth: 3 ft}}"},
		{"entry added", "one that was not there", "a: {surface_slope: 2 %}", "{use: foot, base: dense, area: 10 sq ft, soil: {word: clay, cbr: [1, 2]}, frost: {depth: 3 ft}, surface_slope: 2 %}"},
		{"list", "a list as a whole", "a: {soil: {cbr: [9]}}", "{use: foot, base: dense, area: 10 sq ft, soil: {word: clay, cbr: [9]}, frost: {depth: 3 ft}}"},
		{"entry taken away", "what is left empty takes away", "a: {soil: {cbr: null}}", "{use: foot, base: dense, area: 10 sq ft, soil: {word: clay}, frost: {depth: 3 ft}}"},
		{"group taken away", "a group too", "a: {frost: }", "{use: foot, base: dense, area: 10 sq ft, soil: {word: clay, cbr: [1, 2]}}"},
		{"taken away and given again", "by a later change", "a: {soil: null}\nb: {soil: {word: sand}}", "{use: foot, base: dense, area: 10 sq ft, soil: {word: sand}, frost: {depth: 3 ft}}"},
		{"the last counts", "of two changes of one entry", "a: {use: car_driveway}\nb: {use: fire_lane}", "{use: fire_lane, base: dense, area: 10 sq ft, soil: {word: clay, cbr: [1, 2]}, frost: {depth: 3 ft}}"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			nodes := under(t, job+c.changes)
			got, err := readNode("all.yaml", nodes["job"], nodes["a"], nodes["b"])
			require.NoError(t, err)
			want, err := site.Read("want.yaml", []byte(c.want))
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(want, got, cmpopts.IgnoreUnexported(site.Site{})), c.why)
		})
	}
}

func TestReadNodeFaults(t *testing.T) {
	const job = "job: {use: foot, base: dense, area: 10 sq ft}\n"
	cases := []struct{ name, why, text, want string }{
		{"unknown key", "in the change, at its place", job + "a: {sole: {}}", `all.yaml:2:5: unknown key "sole" in a job`},
		{"needed taken away", "at the key that takes it", job + "a: {area: }", "all.yaml:2:5: area is missing"},
		{"group of the wrong shape", "once", job + "a: {soil: 3}", "all.yaml:2:11: soil needs indented lines under it, such as `cbr: 3`"},
		{"contradiction", "between the job and a change", job + "a: {frost: {frost_free: yes}}\nb: {frost: {depth: 1 ft}}", "all.yaml:2:25: frost.frost_free cannot be yes beside a frost depth above 0"},
		{"no job", "nothing to read", "a: {use: foot}", "all.yaml: the job is empty"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			nodes := under(t, c.text)
			_, err := readNode("all.yaml", nodes["job"], nodes["a"], nodes["b"])
			var bad *site.Error
			require.ErrorAs(t, err, &bad)
			require.Contains(t, err.Error(), c.want, c.why)
			require.Len(t, bad.Faults, 1)
		})
	}
}

// TestReadNodeOfTheWrongShape: a list is no job, and what a job needs is missing
// in it, as it is when a whole file is a list.
func TestReadNodeOfTheWrongShape(t *testing.T) {
	_, err := readNode("all.yaml", under(t, "job: []")["job"])
	require.ErrorContains(t, err, "all.yaml:1:6: a job needs indented lines under it, such as `area: 400 sq ft`")
	var part, whole *site.Error
	require.ErrorAs(t, err, &part)
	_, err = site.Read("all.yaml", []byte("[]"))
	require.ErrorAs(t, err, &whole)
	require.Len(t, part.Faults, len(whole.Faults))
}

// readNode reads a job as a file of trials does.
func readNode(file string, job *document.Node, changes ...*document.Node) (*site.Site, error) {
	s, err := jobnode.Read(file, job, changes...)
	got, _ := s.(*site.Site)
	return got, err
}
