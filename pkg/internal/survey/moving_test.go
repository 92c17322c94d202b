package survey

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
)

// promising is a rulebook of a few decisions with one promise.
func promising(t *testing.T, decisions, promise string) *engine.Book {
	t.Helper()
	return opened(t, decisions+"promises:\n  - {promise: P, "+promise+", because: told, source: practice}\n")
}

func proven(t *testing.T, book *engine.Book) Verdict {
	t.Helper()
	r, err := Prove(t.Context(), book, Options{Budget: testBudget})
	require.NoError(t, err)
	require.Len(t, r.Verdicts, 1)
	return r.Verdicts[0]
}

// measured is a decision called x.
func measured(kind, take string, rules ...string) string {
	return "decisions:\n" + measuredAs("x", kind, take, rules...)
}

func measuredAs(name, kind, take string, rules ...string) string {
	out := "  " + name + ":\n    asks: how much?\n    answers: " + kind + "\n    take: " + take + "\n    rules:\n"
	for i, r := range rules {
		out += fmt.Sprintf("      - {rule: %s%d, %s}\n", strings.ToUpper(name), i+1, r)
	}
	return out
}

// What moves is tried at several values, each once, in the order in which it moves.
func TestValuesThatMove(t *testing.T) {
	for _, way := range []string{"rises", "falls"} {
		book := promising(t, measured("length", "first", "when: known(frost.depth) && frost.depth == inches(10), answer: inches(4)", "answer: inches(2)"), "when: known(frost.depth), as: frost.depth "+way+", then: x never falls")
		q, err := walk(t.Context(), newModel(book, mostNodes), &scope{met: subjects(book)}, func(string, int, int) {})
		require.NoError(t, err)
		g := (&searcher{ctx: t.Context(), w: q.w, m: q.m}).pairing(book.Promises()[0], 0)
		for range 20 {
			got := g.values(q.w.plain())
			require.Greater(t, len(got), 1)
			for i, x := range got[1:] {
				require.Equal(t, way == "rises", x > got[i])
				require.NotEqual(t, got[i], x)
			}
		}
	}
}

// What keeps a promise from being proven is told from what it is about to what that
// rests on, each once.
func TestInTheWay(t *testing.T) {
	const seldom = "when: known(soil.cbr), answer: 'count(firm_readings(soil.cbr, 0.5))'"
	book := promising(t, measured("number", "first", seldom, "answer: 1")+measuredAs("y", "number", "first", "when: base == open, answer: x", "answer: x * 2"),
		"when: known(soil.cbr), as: soil.cbr rises, then: y + y never falls")
	var got []string
	for _, u := range proven(t, book).InTheWay {
		got = append(got, u.Text+": "+u.Why)
	}
	require.Equal(t, []string{
		"y: Y1: its answer, x, may fall as soil.cbr rises",
		"x: X1: its answer, count(firm_readings(soil.cbr, 0.5)), may fall as soil.cbr rises",
	}, got)
}

// A promise that takes too many cells to follow is searched, and says so.
func TestMovesThroughTooManyCells(t *testing.T) {
	book := promising(t, measured("length", "first", "when: known(frost.depth) && frost.depth > inches(20), answer: inches(4)", "answer: inches(2)"), "when: known(frost.depth), as: frost.depth rises, then: x never falls")
	many := 0
	for most := 2; ; most++ {
		r, err := prove(t.Context(), book, Options{Budget: 60}, most)
		require.NoError(t, err)
		v := r.Verdicts[0]
		if v.How == Proven {
			break
		}
		require.Equal(t, Searched, v.How)
		require.NotZero(t, v.InTheWay[0].Places[0].Line)
		if v.InTheWay[0].Why == tooMany {
			many++
		}
	}
	require.Positive(t, many)
}

// TestPromises settles promises of each form on small rulebooks. Each that is not
// kept has a part of the proof that would let it pass if it were left out.
func TestPromises(t *testing.T) {
	const (
		depth = "when: known(frost.depth), as: frost.depth rises, then: x never falls"
		told  = "when: known(frost.depth) && frost.depth"
		else0 = "answer: inches(0)"
	)
	how := ""
	for _, c := range []struct {
		name, why, book, promise string
		want                     How
	}{
		{"always", "a rule that is asked for answers", measured("length", "first", "when: base == panel, answer: inches(1)", "answer: inches(2)"), "when: base == panel, always: x == inches(1)", Proven},
		{"always, not so", "another use of the same word", measured("length", "first", "when: use == foot, answer: inches(1)", "answer: inches(2)"), "when: base == panel, always: x == inches(1)", Refuted},
		{"never", "no rule answers so much", measured("length", "largest", "answer: inches(1)", "when: base == panel, answer: inches(2)"), "never: x > inches(2)", Proven},
		{"never, by a refusal", "the guard is needed", measured("length", "first", told+" > inches(60), answer: inches(9)", else0) +
			"refusals:\n  - {refusal: DEEP, when: known(frost.depth) && frost.depth > inches(60), says: Too deep., who: Another., source: practice}\n", "never: x > inches(5)", Proven},
		{"never, by a limit", "an answer beyond it is no section", measured("length", "first", "when: known(frost.depth), answer: frost.depth * 2", else0) +
			"    limits:\n      - {limit: MOST, at_most: inches(50), because: told, source: practice}\n", "never: x > inches(50)", Proven},
		{"never, beyond the limit", "the limit is not that near", measured("length", "first", "when: known(frost.depth), answer: frost.depth * 2", else0) +
			"    limits:\n      - {limit: MOST, at_most: inches(50), because: told, source: practice}\n", "never: x > inches(49)", Refuted},
		{"never, by a check", "one that stops", measured("length", "first", "when: known(frost.depth), answer: frost.depth * 2", else0) +
			"checks:\n  - {check: MOST, asks: Is it, holds: x <= inches(50), failing: stop, says: Look., because: told, source: practice}\n", "never: x > inches(50)", Proven},
		{"never, by a check that only cautions", "the section is built all the same", measured("length", "first", "when: known(frost.depth), answer: frost.depth * 2", else0) +
			"checks:\n  - {check: MOST, asks: Is it, holds: x <= inches(50), failing: caution, says: Look., because: told, source: practice}\n", "never: x > inches(50)", Refuted},

		{"rises with it", "a sum of what rises", measured("length", "first", "when: known(frost.depth), answer: frost.depth / 4 + inches(2)", else0), depth, Proven},
		{"falls", "taken away", measured("length", "first", "when: known(frost.depth), answer: inches(40) - frost.depth", else0), depth, Refuted},
		{"divided by it", "the sign turns", measured("number", "first", "when: known(frost.depth), answer: 10 / (frost.depth / inches(1) + 1)", "answer: 0"), depth, Refuted},
		{"divided by it, the other way", "and is followed", measured("number", "first", "when: known(frost.depth), answer: 10 / (frost.depth / inches(1) + 1)", "answer: 0"), "when: known(frost.depth), as: frost.depth rises, then: x never rises", Proven},
		{"times what may be below zero", "a product is no sum", measured("number", "first", "when: known(frost.depth), answer: (frost.depth / inches(1) - 50) * (frost.depth / inches(1))", "answer: 0"), depth, Refuted},
		{"times what is told", "no depth of rain is below zero", measured("length", "first", "when: known(frost.depth) && known(rain.depth), answer: frost.depth * (rain.depth / inches(1))", else0), depth, Proven},
		{"times what is told, less some", "now it may be", measured("length", "first", "when: known(frost.depth) && known(rain.depth), answer: frost.depth * (rain.depth / inches(1) - 3)", else0), depth, Refuted},
		{"rounded up", "steps that never fall", measured("length", "first", "when: known(frost.depth), answer: 'round_up(frost.depth, inches(2))'", else0), depth, Proven},
		{"a rule that begins with less", "from one rule to another", measured("length", "first", told+" > inches(20), answer: inches(2)", "answer: inches(4)"), depth, Refuted},
		{"a rule that begins with more", "from one rule to another", measured("length", "first", told+" > inches(20), answer: inches(4)", "answer: inches(2)"), depth, Proven},
		{"at one value alone", "the value itself is a cell", measured("length", "first", told+" == inches(20), answer: inches(1)", "answer: inches(4)"), depth, Refuted},
		{"a requirement that ends", "the largest that is left is less", measured("length", "largest", told+" < inches(10), answer: inches(6)", "answer: inches(4)"), depth, Refuted},
		{"a requirement that another follows", "which is larger", measured("length", "largest", told+" < inches(10), answer: inches(6)", told+" >= inches(10), answer: inches(8)", "answer: inches(4)"), depth, Proven},
		{"a requirement that another follows late", "there is a gap between them", measured("length", "largest", told+" < inches(10), answer: inches(6)", told+" >= inches(12), answer: inches(8)", "answer: inches(4)"), depth, Refuted},
		{"a smaller one that begins", "the smallest falls", measured("length", "smallest", told+" > inches(10), answer: inches(3)", "answer: inches(5)"), depth, Refuted},
		{"a smaller one that ends", "the smallest rises", measured("length", "smallest", told+" < inches(10), answer: inches(3)", "answer: inches(5)"), depth, Proven},
		{"not", "the other way about", measured("length", "first", "when: 'known(frost.depth) && !(frost.depth > inches(10))', answer: inches(6)", "answer: inches(4)"), depth, Refuted},
		{"or", "one side is enough", measured("length", "first", "when: 'known(frost.depth) && (frost.depth > inches(10) || base == panel)', answer: inches(6)", "answer: inches(4)"), depth, Proven},
		{"two that move", "which is the larger may turn", measured("length", "first", "when: known(frost.depth) && known(rain.depth) && rain.depth > frost.depth, answer: inches(6)", "answer: inches(4)"), depth, Refuted},
		{"within a range", "the jobs beyond are not meant", measured("length", "first", told+" > inches(20), answer: inches(2)", "answer: inches(4)"),
			"when: known(frost.depth) && frost.depth > inches(25), as: frost.depth rises, then: x never falls", Proven},
		{"up to a refusal", "the jobs beyond get no section", measured("length", "first", told+" > inches(60), answer: inches(2)", "answer: inches(4)") +
			"refusals:\n  - {refusal: DEEP, when: known(frost.depth) && frost.depth > inches(60), says: Too deep., who: Another., source: practice}\n", depth, Proven},
		{"a word", "it comes and does not go", oneDecision("first", "A, when: known(frost.depth) && frost.depth > inches(9), answer: apple", "B, answer: pear"), "when: known(frost.depth), as: frost.depth rises, then: fruit == apple never lapses", Proven},
		{"a word that goes", "and the other", oneDecision("first", "A, when: known(frost.depth) && frost.depth > inches(9), answer: apple", "B, answer: pear"), "when: known(frost.depth), as: frost.depth rises, then: fruit == pear never lapses", Refuted},
		{"through another", "decisions on decisions", measured("length", "first", "when: known(frost.depth), answer: frost.depth", else0) + measuredAs("y", "length", "largest", "answer: x * 2", "answer: inches(4)"),
			"when: known(frost.depth), as: frost.depth rises, then: y never falls", Proven},
		{"given", "a decision by hand", measured("length", "first", "answer: inches(5)") + measuredAs("y", "length", "first", "when: x > inches(7), answer: inches(4)", "answer: inches(3)"), "as: x rises, then: y never falls", Proven},
		{"given, with less", "a decision by hand", measured("length", "first", "answer: inches(5)") + measuredAs("y", "length", "first", "when: x > inches(7), answer: inches(2)", "answer: inches(3)"), "as: x rises, then: y never falls", Refuted},
		{"readings", "each of them", measured("number", "first", "when: known(soil.cbr), answer: least(soil.cbr)", "answer: 3"), "when: known(soil.cbr), as: soil.cbr rises, then: x never falls", Proven},
		{"times a reading", "none is below zero", measured("length", "first", "when: known(frost.depth) && known(soil.cbr), answer: frost.depth * least(soil.cbr)", else0), depth, Proven},
		{"readings, counted", "there are as many", measured("number", "first", "when: known(soil.cbr), answer: count(soil.cbr) - greatest(soil.cbr)", "answer: 3"), "when: known(soil.cbr), as: soil.cbr rises, then: x never rises", Proven},
		{"by a calculation", "which says how it goes", measured("length", "first", "when: known(frost.depth), answer: barrier_height_denver(frost.depth)", else0), depth, Proven},
		{"by a calculation that does not say", "nothing is taken for granted", measured("number", "first", "when: known(soil.cbr), answer: 'count(firm_readings(soil.cbr, 0.5))'", "answer: 1"), "when: known(soil.cbr), as: soil.cbr rises, then: x never falls", Searched},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := proven(t, promising(t, c.book, c.promise))
			how += "=== " + c.name + "\n" + end(got)
			require.Equal(t, c.want, got.How, "%s: %+v", c.why, got)
			switch got.How {
			case Refuted:
				require.NotNil(t, got.Job)
				require.Equal(t, strings.Contains(c.promise, "as:"), got.Then != nil)
			case Searched:
				require.NotEmpty(t, got.InTheWay)
			}
		})
	}
	keptIn(t, "verdicts", how)
}

// end tells in a few lines what became of a promise.
func end(v Verdict) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %d jobs, %d aimed\n", v.How, v.Jobs, v.Tried)
	for _, g := range v.By {
		fmt.Fprintf(&b, "  by %s %s\n", g.What, g.Name)
	}
	for _, each := range v.Values {
		fmt.Fprintf(&b, "  %s: %s\n", each.Name, strings.Join(each.Is, ", then "))
	}
	for _, job := range []*Job{v.Job, v.Then} {
		if job != nil {
			fmt.Fprintf(&b, "  job %s", job.flowed())
		}
	}
	for _, name := range v.RestsOn {
		fmt.Fprintf(&b, "  rests on %s\n", name)
	}
	for _, u := range v.InTheWay {
		fmt.Fprintf(&b, "  in the way %s: %s\n", u.Text, u.Why)
	}
	return b.String()
}

// TestNothingProvenIsBroken makes rulebooks at random, with rules that hold and
// answer by two depths in every way, and tries what is proven of them on a grid of
// jobs.
func TestNothingProvenIsBroken(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	pick := func(of ...string) string { return of[r.IntN(len(of))] }
	depths := []float64{0, 5, 10, 15, 20, 25, 30}
	of := func() string { return pick("frost.depth", "rain.depth") }
	condition := func() string {
		one := of() + pick(" < ", " <= ", " > ", " >= ", " == ") + pick("inches(5)", "inches(10)", "inches(20)", "frost.depth", "rain.depth")
		switch r.IntN(4) {
		case 0:
			return "!(" + one + ")"
		case 1:
			return "(" + one + pick(" || ", " && ") + pick("base == panel", of()+" > inches(15)") + ")"
		}
		return one
	}
	answer := func() string {
		return pick("inches(3)", "inches(8)", of(), of()+" * 2", of()+" + "+of(), of()+" - "+of(), "'larger("+of()+", inches(9))'", "'smaller(inches(12), "+of()+")'",
			of()+" * (rain.depth / inches(5) - 1)", of()+" / (frost.depth / inches(9) + 1)", "'round_up("+of()+", inches(4))'")
	}
	which := ""
	for range 80 {
		rules := []string{"answer: " + answer()}
		for range 1 + r.IntN(4) {
			rules = append([]string{"when: '" + "known(frost.depth) && known(rain.depth) && " + condition() + "', answer: " + answer()}, rules...)
		}
		text := "  both:\n    is: bool\n    about: both are told\n    because: told\n    source: practice\n    value: known(frost.depth) && known(rain.depth)\n"
		for i, rule := range rules {
			if !strings.HasPrefix(rule, "when") {
				rules[i] = "when: known(frost.depth) && known(rain.depth), " + rule
			}
		}
		rules = append(rules, "answer: inches(1)")
		take := pick("first", "largest", "smallest")
		if take == "smallest" {
			rules = append(rules[:len(rules)-1], "answer: inches(90)")
		}
		book := promising(t, "terms:\n"+text+measured("length", take, rules...), "when: both, as: frost.depth rises, then: x never falls")
		p := book.Promises()[0]
		m := newModel(book, mostNodes)
		m.limited = true
		q, err := walk(t.Context(), m, &scope{met: subjects(book)}, func(string, int, int) {})
		require.NoError(t, err)
		out := proveMove(q, p)
		if !out.proven {
			which += "."
			continue
		}
		which += "P"
		s := &searcher{ctx: t.Context(), w: q.w, m: m}
		g := s.pairing(p, 0)
		for _, base := range []string{"panel", "dense"} {
			for _, rain := range depths {
				d := q.w.plain()
				d[q.w.index["base"]], d[q.w.index["rain.depth"]] = base, inch(rain)
				for i, was := range depths {
					for _, is := range depths[i+1:] {
						require.False(t, g.holds(pair{d, inch(was), inch(is)}), "%s at %v in of rain from %v to %v:\n%s", base, rain, was, is, strings.Join(rules, "\n"))
					}
				}
			}
		}
	}
	require.Equal(t, "..P....P....P.....P......................P..P....P..P..P............P..P...PP...", which, "those that are proven")
}

func inch(x float64) float64 { return x * 0.0254 }

// TestAmendmentsAreHeldToPromises holds that a promise that an amendment breaks is
// refuted, and that what it changed is told.
func TestAmendmentsAreHeldToPromises(t *testing.T) {
	book := measured("length", "first", "answer: inches(4)") + "promises:\n  - {promise: P, always: x >= inches(4), because: told, source: practice}\n"
	ours := rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte("amendment: ours\ncompany: Ours\nwho: A. Example\nwhen: 2026-01-01\nwhy: a test\n" +
		"replace:\n  - {rule: X1, set: {answer: inches(3), source: company}, because: It will do.}\n")}}}
	amended, err := open(book, groundrule.WithAmendments(ours))
	require.NoError(t, err)
	require.Equal(t, Proven, proven(t, opened(t, book)).How)
	got := proven(t, inside.Rules(amended))
	require.Equal(t, Refuted, got.How)
	require.Equal(t, []string{"rule X1 ours/a.yaml:7:5"}, []string{got.Changed[0].Name + " " + got.Changed[0].Place.String()})
}

// moverOf follows frost.depth through a rulebook with a setting, terms and decisions.
func moverOf(t *testing.T) *mover {
	t.Helper()
	_, q := testDrafter(t, `
settings:
  cover: {value: 4 in}
terms:
  wheels:
    is: number
    about: wheels
    value: 3 + 4
    because: told
    source: practice
  on_foot:
    is: bool
    about: whether people walk there
    value: use == foot
    because: told
    source: practice
`+"decisions:\n"+measuredAs("size", "number", "largest", "answer: 2", "when: on_foot, answer: 5")+measuredAs("deep", "length", "all", "answer: inches(1)"))
	return newMover(q, "frost.depth", nil)
}

// TestSpan bounds expressions, whatever the job is.
func TestSpan(t *testing.T) {
	v := moverOf(t)
	least, most := v.q.w.inputs["soil.cbr"].Bounds()
	require.True(t, 0 <= least && least < most)
	for _, c := range []struct {
		text, why string
		want      span
	}{
		{"3", "a number is itself", span{3, 3}},
		{"inches(2)", "a length in meters", span{0.0508, 0.0508}},
		{"true", "yes is 1", span{1, 1}},
		{"false", "and no is 0", span{0, 0}},
		{"'a'", "a text has no bounds", anything},
		{"soil.cbr", "of a list each reading is bounded", span{least, most}},
		{"least(soil.cbr)", "and so is one of them", span{least, most}},
		{"count(soil.cbr)", "there are some", positive},
		{"cover", "a setting is its value", span{0.1016, 0.1016}},
		{"wheels", "a term is what it stands for", span{7, 7}},
		{"on_foot", "a condition may be either, and is not bounded", anything},
		{"size", "a decision is one of its answers", span{2, 5}},
		{"deep", "one that takes all is a list", anything},
		{"use", "a word has no order", anything},
		{"known(frost.depth)", "nor has what is told", anything},
		{"2 + size", "the least and the most of both", span{4, 7}},
		{"size - wheels", "the least less the most", span{-5, -2}},
		{"wheels - size", "and the other way about", span{2, 5}},
		{"-size", "its sign turned", span{-5, -2}},
		{"size * wheels", "of two above zero", span{14, 35}},
		{"(size - 3) * (size - 4)", "of ends on both sides of zero", span{-4, 2}},
		{"wheels / size", "the least by the most", span{1.4, 3.5}},
		{"wheels / (size - 2)", "by zero at the least", positive},
		{"(size - 3) / (size - 2)", "from below zero", anything},
		{"wheels / (size - 3)", "by what may be below zero", anything},
		{"1 / (size - 3) * 0", "nothing of what has no end", span{0, 0}},
		{"larger(size, 3)", "one of the two", span{2, 5}},
		{"smaller(size, 9)", "one of the two", span{2, 9}},
		{"round_up(cover, inches(3))", "a step from what is above zero", positive},
		{"round_up(cover - inches(6), inches(3))", "from below zero", anything},
		{"whole_up(size)", "as rounding is", positive},
		{"whole_up(size - 2)", "from nothing", positive},
		{"whole_up(size - 4)", "as rounding is", anything},
		{"barrier_height_denver(cover)", "a calculation that says so", positive},
	} {
		got := v.span(v.tree(c.text))
		require.InDelta(t, 0, difference(c.want.low, got.low)+difference(c.want.high, got.high), 1e-12, "%s: %s: %v", c.text, c.why, got)
	}
	require.Equal(t, map[string]bool{"barrier_height_denver": true}, v.calls, "on what it says the bounds rest")
	v.as, v.bounds = "size", map[string]span{}
	require.Equal(t, anything, v.span(v.tree("size")), "what moves may be anything")
}

func difference(a, b float64) float64 {
	if a == b {
		return 0 // without end, too
	}
	return math.Abs(a - b)
}

// TestWay holds which way an expression goes as each of its parts rises.
func TestWay(t *testing.T) {
	v := moverOf(t)
	for _, c := range []struct{ text, why, want string }{
		{"size + 1", "with both", "++"},
		{"size - 1", "with the first", "+-"},
		{"-size", "against it", "-"},
		{"size * wheels", "with both, of which none is below zero", "++"},
		{"size * (size - 3)", "anywhere with what is multiplied by less than zero", ".+"},
		{"wheels / size", "against the second", "+-"},
		{"(size - 3) / size", "anywhere with it, from below zero", "+."},
		{"wheels / (size - 3)", "anywhere, by what may be below zero", ".."},
		{"size < 3", "to no", "-+"},
		{"size <= 3", "to no", "-+"},
		{"size > 3", "to yes", "+-"},
		{"size >= 3", "to yes", "+-"},
		{"size == 3", "to either", ".."},
		{"larger(size, 3)", "with both", "++"},
		{"least(soil.cbr)", "with each reading", "+"},
		{"whole_up(size)", "in steps", "+"},
		{"round_up(cover, inches(2))", "with the first; another step may go anywhere", "+."},
		{"inches(size)", "a unit is a number of it", "+"},
		{"barrier_height_denver(cover)", "as the calculation says", "+"},
		{"firm_readings(soil.cbr, 0.5)", "one that says nothing may go anywhere", ".."},
	} {
		got, n := "", v.tree(c.text)
		for i := range n.Parts {
			got += string(v.way(n, i))
		}
		require.Equal(t, c.want, got, "%s: %s", c.text, c.why)
	}
}
