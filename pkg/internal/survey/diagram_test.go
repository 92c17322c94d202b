package survey

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// truth is a set of jobs written out, to hold the diagrams to: one bit for each
// of the jobs over three variables.
type truth []bool

var testSizes = []int{2, 3, 4}

// holds reports whether a set holds a job, told by the cell of each variable.
func (d *diagram) holds(n node, cell []int) bool {
	for n > always {
		at := d.nodes[n]
		n = at.kids[cell[at.variable]]
	}
	return n == always
}

func everyJob(visit func(n int, cells []int)) {
	n := 0
	for a := range testSizes[0] {
		for b := range testSizes[1] {
			for c := range testSizes[2] {
				visit(n, []int{a, b, c})
				n++
			}
		}
	}
}

// built makes a diagram and the set written out by the same steps, which the
// bytes tell.
func built(d *diagram, steps []byte) ([]node, []truth) {
	nodes, truths := []node{never, always}, []truth{make(truth, 24), make(truth, 24)}
	for i := range truths[1] {
		truths[1][i] = true
	}
	for i := 0; i+2 < len(steps); i += 3 {
		a, b := int(steps[i+1])%len(nodes), int(steps[i+2])%len(nodes)
		t := make(truth, 24)
		var n node
		switch steps[i] % 4 {
		case 0:
			variable := int(steps[i+1]) % len(testSizes)
			in := set{uint64(steps[i+2])}
			n = d.in(variable, in)
			everyJob(func(j int, cells []int) { t[j] = in.has(cells[variable]) })
		case 1:
			n = d.and(nodes[a], nodes[b])
			everyJob(func(j int, _ []int) { t[j] = truths[a][j] && truths[b][j] })
		case 2:
			n = d.or(nodes[a], nodes[b])
			everyJob(func(j int, _ []int) { t[j] = truths[a][j] || truths[b][j] })
		case 3:
			n = d.not(nodes[a])
			everyJob(func(j int, _ []int) { t[j] = !truths[a][j] })
		}
		nodes, truths = append(nodes, n), append(truths, t)
	}
	return nodes, truths
}

func checkDiagram(t *testing.T, steps []byte) {
	d := newDiagram(10000)
	for _, size := range testSizes {
		d.variable(size)
	}
	nodes, truths := built(d, steps)
	for i, n := range nodes {
		some := false
		everyJob(func(j int, cells []int) {
			require.Equal(t, truths[i][j], d.holds(n, cells))
			some = some || truths[i][j]
		})
		require.Equal(t, some, n != never, "a set is empty if and only if it is the node never")
		way, ok := d.cheapest(n, func(_, cell int) float64 { return float64(cell) })
		require.Equal(t, some, ok)
		if ok {
			checkCheapest(t, truths[i], way)
		}
		for j, other := range nodes {
			require.Equal(t, equalTruths(truths[i], truths[j]), n == other, "equal sets are one node")
		}
	}
}

// checkCheapest holds the way to the cheapest job of the set written out; cells
// that the way leaves open are the first, which costs nothing.
func checkCheapest(t *testing.T, set truth, way []step) {
	cells, cost := []int{0, 0, 0}, 0
	for _, s := range way {
		cells[s.variable] = s.cell
		cost += s.cell
	}
	least := 1 << 20
	everyJob(func(j int, each []int) {
		if set[j] {
			least = min(least, each[0]+each[1]+each[2])
		}
		if each[0] == cells[0] && each[1] == cells[1] && each[2] == cells[2] {
			require.True(t, set[j], "the way leads into the set")
		}
	})
	require.Equal(t, least, cost)
}

func equalTruths(a, b truth) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func TestDiagramAgainstSetsWrittenOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		steps := make([]byte, 60)
		for i := range steps {
			steps[i] = byte(rng.UintN(256))
		}
		checkDiagram(t, steps)
	}
}

func FuzzDiagram(f *testing.F) {
	f.Add([]byte{0, 0, 1, 0, 1, 3, 1, 2, 3, 3, 4, 0})
	f.Fuzz(func(t *testing.T, steps []byte) { checkDiagram(t, steps[:min(len(steps), 90)]) })
}

func TestDiagramStopsAtItsLimit(t *testing.T) {
	d := newDiagram(4)
	for range 10 {
		d.variable(2)
	}
	_, ok := guarded(func() node {
		out := always
		for v := range 10 {
			out = d.and(out, d.in(v, oneCell(1)))
		}
		return out
	})
	require.False(t, ok)
	n, ok := guarded(func() node { return d.in(0, oneCell(1)) })
	require.True(t, ok, "what is there already can still be used")
	require.NotEqual(t, never, n)
}

func TestSupport(t *testing.T) {
	d := newDiagram(100)
	a, b, c := d.variable(2), d.variable(3), d.variable(2)
	n := d.and(d.in(a, oneCell(1)), d.or(d.in(b, oneCell(0)), d.in(b, oneCell(1).with(2))))
	require.Equal(t, []int{a}, d.support(n), "a variable of which every cell will do has no part")
	require.Equal(t, []int{a, c}, d.support(d.or(n, d.in(c, oneCell(0)))))
}
