package survey

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

func testDrafter(t testing.TB, text string) (*drafter, *asker) {
	t.Helper()
	rules := opened(t, text)
	scope, err := narrow(rules, Within{}, subjects(rules), "")
	require.NoError(t, err)
	q, err := walk(t.Context(), newModel(rules, mostNodes), scope, func(string, int, int) {})
	require.NoError(t, err)
	q.w.findUsed(q.names(scope))
	return q.w, q
}

// Every input can be told: one that package site adds must be given a way here. A shape
// is not told, but the area and the perimeter that come of one.
func TestEveryInputCanBeTold(t *testing.T) {
	w, _ := testDrafter(t, oneDecision("first", "A, answer: apple"))
	rng := rand.New(rand.NewPCG(1, 1))
	for _, in := range site.Inputs() {
		if in.Path == "shape" {
			continue
		}
		t.Run(in.Path, func(t *testing.T) {
			d := w.plain()
			require.True(t, w.put(d, in.Path, 0, rng), "no way to tell %s", in.Path)
			require.NotEmpty(t, w.entriesOf(in.Path))
			s, ok := w.site(d)
			require.True(t, ok)
			_, given := s.Input(in.Path)
			require.True(t, given)
			if !in.Required {
				require.True(t, w.put(d, in.Path, w.m.notTold(in.Path), rng))
				s, ok := w.site(d)
				require.True(t, ok)
				_, given := s.Input(in.Path)
				require.False(t, given)
			}
		})
	}
}

// The limits of each number are those at which package site begins to refuse.
func TestLimitsOfNumbers(t *testing.T) {
	w, _ := testDrafter(t, oneDecision("first", "A, answer: apple"))
	for i, e := range w.entries {
		if !e.numeric() || e.Path == "perimeter" || ofEdges(e.Field) { // the least perimeter follows from the area, and the most of an edge from that
			continue
		}
		t.Run(e.Path, func(t *testing.T) {
			usual, _ := e.usual.(float64)
			require.Greater(t, usual, e.low)
			require.Less(t, usual, e.high)
			width := min(e.high-e.low, 1)
			for _, side := range []struct{ last, beyond float64 }{{e.low, e.low - max(width, math.Abs(e.low))/1e4}, {e.high, e.high + max(width, e.high)/1e4}} {
				_, ok := w.site(w.plain().with(i, side.last))
				require.True(t, ok, "%g may be told", side.last)
				_, ok = w.site(w.plain().with(i, side.beyond))
				require.False(t, ok, "%g may not", side.beyond)
			}
		})
	}
}

// contradicting is a rulebook about inputs that contradict each other in some cells.
const contradicting = `
decisions:
  fruit:
    asks: which fruit?
    answers: answer_word
    take: first
    rules:
      - {rule: A, when: known(soil.plasticity_index) && soil.plasticity_index > 7 && known(soil.liquid_limit_ratio) && soil.liquid_limit_ratio < 0.75, answer: apple}
      - {rule: B, when: known(frost.depth) && frost.depth > inches(0) && known(frost.freezing_index) && frost.freezing_index > f_days(0), answer: pear}
      - {rule: C, when: known(soil.passing_no4) && soil.passing_no4 > percent(50) && known(surface_slope) && surface_slope < percent(2), answer: plum}
      - {rule: D, when: known(soil.d10) && soil.d10 < mm(1), answer: plum}
      - {rule: E, answer: pear}
`

// Whatever job package site takes is among those that the walk holds possible.
func TestPossibleHoldsEveryJob(t *testing.T) {
	w, q := testDrafter(t, contradicting)
	possible := w.m.possible(w)
	require.NotEqual(t, cells.Always, possible)
	rng := rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		s := jobs.Any(rng, w.table)
		x := q.w.lookAt(nil, s)
		require.True(t, allows(w.m.d, possible, inputsOf(w.m, x)))
	}
}

// inputsOf returns the cells of the inputs, and 0 for whatever else.
func inputsOf(m *model, x *seen) []int {
	out := make([]int, len(m.variables))
	for i, v := range m.variables {
		if v.role == inputCell {
			out[i] = x.cellOf(m, v)
		}
	}
	return out
}

// A number drawn for a cell lies in it, at whatever end.
func TestDrawnNumbersLieInTheirCell(t *testing.T) {
	w, _ := testDrafter(t, oneDecision("first",
		"A, when: 'known(frost.depth) && frost.depth in [inches(0), inches(1), inches(100)] && known(surface_slope) && surface_slope > percent(2)', answer: apple",
		"B, when: known(frost.mean_annual_temperature) && frost.mean_annual_temperature > celsius(0), answer: pear", "C, answer: plum"))
	rng := rand.New(rand.NewPCG(5, 6))
	for _, name := range []string{"frost.depth", "surface_slope", "frost.mean_annual_temperature", "soil.plasticity_index", "soil.liquid_limit_ratio"} {
		for cell := range w.m.cells[name].Count() {
			if i, isEntry := w.index[name]; isEntry && !w.m.cells[name].Reaches(cell, w.entries[i].low, w.entries[i].high) {
				continue
			}
			for range 200 {
				d := w.plain()
				require.True(t, w.put(d, name, cell, rng))
				s, ok := w.site(d)
				require.True(t, ok, "%s in cell %d", name, cell)
				x, given := s.Input(name)
				require.True(t, given)
				got, _ := w.m.cells[name].Of(valueOf(t, w.m, x, w.m.inputs[name].Kind))
				require.Equal(t, cell, got, "%s = %v", name, x)
			}
		}
	}
}

func valueOf(t *testing.T, m *model, x any, kind value.Kind) value.Value {
	t.Helper()
	v, err := m.book.ValueOf(x, kind)
	require.NoError(t, err)
	return v
}

// TestDrafts holds to the letter which jobs are drafted, so that the same seed tries the
// same jobs on every machine: some at random, and one for each cell of each input. A change
// of how jobs are drafted shows here.
func TestDrafts(t *testing.T) {
	w, _ := testDrafter(t, contradicting)
	for i := range w.used {
		w.used[i] = true
	}
	w.gather(w.draftsOf(jobsOf(t, several)[0]))
	rng := rand.New(rand.NewPCG(41, 42))
	var text strings.Builder
	tell := func(d draft) {
		for i, v := range d {
			if x, number := v.(float64); number {
				v = strconv.FormatFloat(x, 'g', 9, 64)
			}
			if v != nil && d[i] != w.plain()[i] {
				fmt.Fprintf(&text, " %s %v;", w.entries[i].Path, v)
			}
		}
	}
	for n := range 12 {
		fmt.Fprintf(&text, "random %d:", n)
		tell(w.randomDraft(rng))
		text.WriteString("\n")
	}
	text.WriteString("told by others:")
	for range 150 {
		fmt.Fprint(&text, " ", w.randomDraft(rng).told())
	}
	text.WriteString("\n")
	for _, in := range w.m.book.Inputs() {
		for cell := range w.m.cells[in.Name].Count() + 1 {
			fmt.Fprintf(&text, "%s, %d:", in.Name, cell)
			for range 3 {
				d := w.plain()
				is := w.put(d, in.Name, cell, rng)
				if tell(d); !is {
					text.WriteString(" no way to;")
				}
				if !w.m.cells[in.Name].Ordered() {
					break
				}
			}
			text.WriteString("\n")
		}
	}
	keptIn(t, "drafts", text.String())
}
