package cells

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
func (d *Diagram) holds(n Node, cell []int) bool {
	for n > Always {
		at := d.nodes[n]
		n = at.kids[cell[at.variable]]
	}
	return n == Always
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
func built(d *Diagram, steps []byte) ([]Node, []truth) {
	nodes, truths := []Node{Never, Always}, []truth{make(truth, 24), make(truth, 24)}
	for i := range truths[1] {
		truths[1][i] = true
	}
	for i := 0; i+2 < len(steps); i += 3 {
		a, b := int(steps[i+1])%len(nodes), int(steps[i+2])%len(nodes)
		t := make(truth, 24)
		var n Node
		switch steps[i] % 4 {
		case 0:
			variable := int(steps[i+1]) % len(testSizes)
			in := Set{uint64(steps[i+2])}
			n = d.In(variable, in)
			everyJob(func(j int, cells []int) { t[j] = in.Has(cells[variable]) })
		case 1:
			n = d.And(nodes[a], nodes[b])
			everyJob(func(j int, _ []int) { t[j] = truths[a][j] && truths[b][j] })
		case 2:
			n = d.Or(nodes[a], nodes[b])
			everyJob(func(j int, _ []int) { t[j] = truths[a][j] || truths[b][j] })
		case 3:
			n = d.Not(nodes[a])
			everyJob(func(j int, _ []int) { t[j] = !truths[a][j] })
		}
		nodes, truths = append(nodes, n), append(truths, t)
	}
	return nodes, truths
}

func checkDiagram(t *testing.T, steps []byte) {
	d := NewDiagram(10000)
	for _, size := range testSizes {
		d.Variable(size)
	}
	nodes, truths := built(d, steps)
	for i, n := range nodes {
		some := false
		everyJob(func(j int, cells []int) {
			require.Equal(t, truths[i][j], d.holds(n, cells))
			some = some || truths[i][j]
		})
		require.Equal(t, some, n != Never, "a Set is empty if and only if it is the Node Never")
		way, ok := d.Cheapest(n, func(_, cell int) float64 { return float64(cell) })
		require.Equal(t, some, ok)
		if ok {
			checkCheapest(t, truths[i], way)
		}
		for j, other := range nodes {
			require.Equal(t, equalTruths(truths[i], truths[j]), n == other, "equal sets are one Node")
		}
	}
}

// checkCheapest holds the way to the cheapest job of the set written out; cells
// that the way leaves open are the first, which costs nothing.
func checkCheapest(t *testing.T, Set truth, way []Step) {
	cells, cost := []int{0, 0, 0}, 0
	for _, s := range way {
		cells[s.Variable] = s.Cell
		cost += s.Cell
	}
	least := 1 << 20
	everyJob(func(j int, each []int) {
		if Set[j] {
			least = min(least, each[0]+each[1]+each[2])
		}
		if each[0] == cells[0] && each[1] == cells[1] && each[2] == cells[2] {
			require.True(t, Set[j], "the way leads into the Set")
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
	d := NewDiagram(4)
	for range 10 {
		d.Variable(2)
	}
	instead, ok := Guarded(Always, func() Node {
		out := Always
		for v := range 10 {
			out = d.And(out, d.In(v, One(1)))
		}
		return out
	})
	require.False(t, ok)
	require.Equal(t, Always, instead, "what was asked for instead")
	n, ok := Guarded(Always, func() Node { return d.In(0, One(1)) })
	require.True(t, ok, "what is there already can still be used")
	require.NotEqual(t, Never, n)
}

func TestSupport(t *testing.T) {
	d := NewDiagram(100)
	a, b, c := d.Variable(2), d.Variable(3), d.Variable(2)
	n := d.And(d.In(a, One(1)), d.Or(d.In(b, One(0)), d.In(b, One(1).With(2))))
	require.Equal(t, []int{a}, d.Support(n), "a variable of which every cell will do has no part")
	require.Equal(t, []int{a, c}, d.Support(d.Or(n, d.In(c, One(0)))))
	require.Equal(t, []int{c}, d.Support(d.In(c, One(0))), "the first variable is no part of what does not ask it")
	require.Empty(t, d.Support(Always))
}

// TestCheapestByTwoWays: what two cells lead to is worked out once, and counts for
// both.
func TestCheapestByTwoWays(t *testing.T) {
	d := NewDiagram(100)
	a, b := d.Variable(3), d.Variable(2)
	n := d.And(d.In(a, One(0).With(1)), d.In(b, One(1)))
	way, ok := d.Cheapest(n, func(variable, cell int) float64 { return []float64{5, 1, 0}[cell] })
	require.True(t, ok)
	require.Equal(t, []Step{{a, 1}, {b, 1}}, way)
}

// TestMove holds the jobs from which a set can be come to to those written out.
func TestMove(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	may := map[Way]func(from, to int) bool{
		Stays:    func(from, to int) bool { return from == to },
		Up:       func(from, to int) bool { return to >= from },
		Down:     func(from, to int) bool { return to <= from },
		Anywhere: func(int, int) bool { return true },
	}
	for range 200 {
		d := NewDiagram(10000)
		set := Never
		for range testSizes {
			d.Variable(testSizes[len(d.sizes)])
		}
		everyJob(func(_ int, at []int) {
			if rng.IntN(6) == 0 {
				set = d.Or(set, d.And(d.In(0, One(at[0])), d.In(1, One(at[1])), d.In(2, One(at[2]))))
			}
		})
		ways := map[int]Way{0: Way(rng.IntN(4)), 1: Way(rng.IntN(4)), 2: Way(rng.IntN(4))}
		moved := d.Move(set, ways)
		everyJob(func(_ int, from []int) {
			want := false
			everyJob(func(_ int, to []int) {
				comes := d.holds(set, to)
				for v, way := range ways {
					comes = comes && may[way](from[v], to[v])
				}
				want = want || comes
			})
			require.Equal(t, want, d.holds(moved, from), "%v from %v", ways, from)
		})
	}
}
