package engine

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

const crew = `chapter: a
about: What a crew works by.
vocabularies:
  course_kind: {about: courses, because: told, source: practice, words: {stone: stone, sand: sand, iron: iron}}
  quantity_kind: {about: quantities, because: told, source: practice, words: {material: material}}
decisions:
  depth: {asks: how deep, answers: length, take: first, when: cbr > 2, rules: [{rule: DEPTH, answer: inches(4), because: b, source: practice}]}
  top: {asks: how thick, answers: length, take: first, rules: [{rule: TOP, answer: inches(1), because: b, source: practice}]}
courses:
  - {course: base, label: Base, is: stone, when: known(depth), because: b, source: practice, attributes: {thickness: depth}}
  - {course: below, label: Below, is: stone, when: known(depth) && cbr < 4, because: b, source: practice, attributes: {thickness: depth}}
  - {course: bed, label: Bed, is: sand, because: b, source: practice, attributes: {thickness: top}}
`

// TestWorkFaults holds what a step, a tolerance or a stop must not leave open.
func TestWorkFaults(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"no because", "nobody could ask why", "steps: [{step: S, says: Dig., source: practice}]", `a step needs the key "because"`},
		{"no source", "nobody would answer for it", "tolerances: [{tolerance: T, says: Flat., measure: By eye., because: b}]", `a tolerance needs the key "source"`},
		{"no measure", "nobody could check it", "tolerances: [{tolerance: T, says: Flat., because: b, source: practice}]", `a tolerance needs the key "measure"`},
		{"calls nobody", "the crew would go on", "stops: [{stop: S, finds: Water., does: Stop., because: b, source: practice}]", `a stop needs the key "calls"`},
		{"an id that is taken", "why names it alone", "steps: [{step: TOP, says: Dig., because: b, source: practice}]", "TOP is there already"},
		{"a course that is not there", "it would never be done", "steps: [{step: S, course: bas, says: Dig., because: b, source: practice}]", `no course is called bas; found bas; wanted the name of a course, or a word of course_kind; did you mean "base"?`},
		{"what one course does not settle", "where the other is laid it may be missing", "steps: [{step: S, says: '{depth}.', because: b, source: practice}]", "depth may be missing here"},
		{"a kind of which no course knows it", "sand is laid without it", "steps: [{step: S, course: sand, says: '{depth}.', because: b, source: practice}]", "depth may be missing here"},
		{"finds what no job says", "nothing could come of it", "stops: [{stop: S, finds: W., does: D., calls: C., found: {cbrr: 1}, because: b, source: practice}]", `no value of a job is called cbrr; found cbrr; wanted the path of a value in a job file; did you mean "cbr"?`},
		{"a quantity of no kind", "no price would know what it counts as", "quantities: [{quantity: Q, about: sand, amount: cu_yd(3), because: b, source: practice}]", `a quantity needs the key "kind"`},
		{"of a kind that there is not", "nor of this one", "quantities: [{quantity: Q, about: sand, kind: thing, amount: cu_yd(3), because: b, source: practice}]", "thing"},
		{"a yes or no", "nobody buys it", "quantities: [{quantity: Q, about: sand, kind: material, amount: cbr > 2, because: b, source: practice}]", "nothing is measured in this; found bool; wanted a count, a length, an area, a volume, a mass, a time or a layout"},
		{"a step of another kind", "it does not divide the amount", "quantities: [{quantity: Q, about: sand, kind: material, item: \"'sand'\", amount: cu_yd(3), step: tons(1), because: b, source: practice}]", "this is of the wrong kind; found tons(1), which is a mass"},
		{"a step of nothing bought", "nothing is ordered of it", "quantities: [{quantity: Q, about: sand, kind: material, amount: cu_yd(3), step: cu_yd(1), because: b, source: practice}]", "what is ordered in whole units is an item, and rolls and panels have a name"},
		{"an item that is a measure", "nobody sells it by that name", "quantities: [{quantity: Q, about: sand, kind: material, item: depth, amount: cu_yd(3), when: known(depth), because: b, source: practice}]", "an item is named by a word or a text; found length"},
		{"a count that is weighed by volume", "it has none", "quantities: [{quantity: Q, about: pins, kind: material, amount: 3.0, weighs: pcf(100), because: b, source: practice}]", "an amount of this kind is not weighed so; found number"},
		{"weighed by no density", "a volume is weighed by nothing else", "quantities: [{quantity: Q, about: sand, kind: material, amount: cu_yd(3), weighs: lb_per_sq_ft(1), because: b, source: practice}]", "this is of the wrong kind; found lb_per_sq_ft(1), which is an areal mass"},
		{"an option that lacks nothing", "each says what it gives and lacks", "options: [{option: O, about: a, gives: G., because: b, source: practice}]", `an option needs the key "lacks"`},
		{"takes what there is not", "neither a job nor a person could say it", "options: [{option: O, about: a, gives: G., lacks: L., takes: {topp: inches(1)}, because: b, source: practice}]", "no value of a job is called topp"},
		{"takes a value of another kind", "no decision answers so", "options: [{option: O, about: a, gives: G., lacks: L., takes: {top: 3}, because: b, source: practice}]", "this is of the wrong kind"},
		{"a stop that decides", "what is found is no decision", "stops: [{stop: S, finds: W., does: D., calls: C., found: {top: inches(2)}, because: b, source: practice}]", "no value of a job is called top"},
		{"a remedy of nothing", "it would never be told", "remedies: [{remedy: R, as: topp rises, says: Dig., because: b, source: practice}]", "nothing is called topp"},
		{"a remedy without a way", "nor this", "remedies: [{remedy: R, as: top, says: Dig., because: b, source: practice}]", "this does not say how it differs"},
		{"a remedy that rises and has no order", "words do not rise", "remedies: [{remedy: R, as: wet rises, says: Dig., because: b, source: practice}]", "this does not say how it differs"},
		{"tells the client in no part", "the sheet has no place for it", "client: [{client: C, says: Look., because: b, source: practice}]", `needs the key "part"`},
		{"in a part that there is not", "nor for this", "client: [{client: C, part: nowhere, says: Look., because: b, source: practice}]", "this is not a word of client_part"},
		{"tells of what is not there", "it would never be told", "client: [{client: C, part: nowhere, tells: [TOPP], says: Look., because: b, source: practice}]", `no rule, limit, check, caution or refusal is called TOPP; found TOPP; wanted the id of a rule, a limit, a check, a caution or a refusal; did you mean "TOP"?`},
		{"tells of a rule on a condition", "it would be told twice over when", "client: [{client: C, part: nowhere, tells: [TOP], when: cbr > 2, says: Look., because: b, source: practice}]", "has no condition of its own"},
		{"finds a value of another kind", "a job could not say it", "stops: [{stop: S, finds: W., does: D., calls: C., found: {cbr: inches(2)}, because: b, source: practice}]", "this is of the wrong kind; found inches(2), which is a length"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Open(filesOf(map[string]string{"a.yaml": crew + c.text + "\n"}), testSetup())
			require.Error(t, err, c.why)
			require.Contains(t, strings.Join(linesOf(t, err), "\n"), c.want, c.why)
		})
	}
}

// TestWorkIsThereWithItsCourse holds on which jobs a step is taken, and what a job
// would say if what a crew stops for were found.
func TestWorkIsThereWithItsCourse(t *testing.T) {
	text := crew + `steps:
  - {step: ALWAYS, says: Mark., because: b, source: practice}
  - {step: OF-BASE, course: base, says: "Dig {depth}.", because: "For {depth}.", source: practice}
  - {step: OF-STONE, course: stone, when: depth > inches(3), says: "Place {depth}.", hold: "Look.", because: b, source: practice}
  - {step: OF-IRON, course: iron, says: Weld., because: b, source: practice}
stops:
  - {stop: SOFT, finds: It sinks., does: Stop., calls: An engineer., found: {cbr: cbr / 2}, because: b, source: practice}
`
	book, err := Open(filesOf(map[string]string{"a.yaml": text}), testSetup())
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		cbr       float64
		want      []string
	}{
		{"no stone", "what is about stone is not there", 1, []string{"ALWAYS", "SOFT"}},
		{"one stone", "a kind of course needs one of them", 5, []string{"ALWAYS", "OF-BASE", "OF-STONE", "SOFT"}},
		{"two stones", "it is there once", 3, []string{"ALWAYS", "OF-BASE", "OF-STONE", "SOFT"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			o, err := book.Run(plain().with("cbr", c.cbr), nil)
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(c.want, namesIn(o.Work, func(w *Work) string { return w.ID })), c.why)
			found, _, err := o.Found(o.Work[len(o.Work)-1])
			require.NoError(t, err)
			require.Len(t, found, 1)
			half, _ := found[0].Value.Number()
			require.Equal(t, c.cbr/2, half)
		})
	}
}

// TestWorkGoesWithItsCourse: what is about a course alone goes with it when a company
// retires it, and is told as that.
func TestWorkGoesWithItsCourse(t *testing.T) {
	book, err := openHouse(keeper + "retire:\n  - {course: course_other, because: We lay none.}\n")
	require.NoError(t, err)
	require.Empty(t, cmp.Diff([]string{"course_other", "STEP-HAVE"}, namesIn(book.Lifted(), func(l rulebook.Lifted) string { return l.ID })))
	require.NotContains(t, namesIn(book.Work(), func(w *Work) string { return w.ID }), "STEP-HAVE")
	require.Contains(t, namesIn(book.Work(), func(w *Work) string { return w.ID }), "STEP-OTHER", "another course of its kind is left")
}

// TestNarrowedWorkIsTold: a step that a company takes only sometimes is told where the
// rulebook's would have been taken.
func TestNarrowedWorkIsTold(t *testing.T) {
	book, err := openHouse(keeper + "replace:\n  - {step: STEP-HAVE, set: {when: decision_have > inches(50), source: company}, because: Seldom.}\n")
	require.NoError(t, err)
	o, err := book.Run(plain(), nil)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff([]string{"STEP-HAVE"}, namesIn(o.Lifted(), func(l Lifted) string { return l.ID })))
}

// TestMeasured holds what a quantity comes to on a job.
func TestMeasured(t *testing.T) {
	text := crew + `quantities:
  - {quantity: TOLD, about: depth, kind: material, amount: top, because: b, source: practice}
  - {quantity: SAND, about: "sand, {top}", course: sand, kind: material, item: "'sand'", amount: top * sq_ft(24), step: cu_ft(1), counted_in: bag, weighs: pcf(100), because: b, source: practice}
  - {quantity: STONE, about: stone, course: base, kind: material, amount: 3.0, because: b, source: practice}
`
	book, err := Open(filesOf(map[string]string{"a.yaml": text}), testSetup())
	require.NoError(t, err)
	o, err := book.Run(plain().with("cbr", 1.0), nil)
	require.NoError(t, err)
	var got []string
	for _, w := range o.Work {
		m, err := o.Measured(w)
		require.NoError(t, err)
		got = append(got, w.ID, m.Amount.String(), m.Item.String(), m.Step.String(), m.Weighs.String())
	}
	require.Empty(t, cmp.Diff([]string{"TOLD", "1 in", "nothing", "nothing", "nothing", "SAND", "2 cu ft", "sand", "1 cu ft", "100 pcf"}, got), "and none of a course that is not laid")
	require.Empty(t, cmp.Diff([]string{"top"}, namesIn(o.Quoted(o.Work[1]), func(v rulebook.NamedValue) string { return v.Name })), "what its sentences and its amount read")
	var keys []string
	for _, m := range o.Work[1].Measures() {
		keys = append(keys, m.Key)
	}
	require.Empty(t, cmp.Diff([]string{"kind", "amount", "item", "step", "counted_in", "weighs"}, keys))
}

// TestOptionsAndRemedies holds what an option takes of a job and of its decisions, and
// which remedies are told beside another section.
func TestOptionsAndRemedies(t *testing.T) {
	book, err := Open(filesOf(map[string]string{"a.yaml": crew + `
options:
  - {option: O, when: cbr > 2, about: a, gives: G., lacks: L., takes: {cbr: cbr * 2, top: top + inches(1)}, because: b, source: practice}
remedies:
  - {remedy: RISES, as: top rises, says: "To {top}.", because: b, source: practice}
  - {remedy: FALLS, as: top falls, says: Fill., because: b, source: practice}
  - {remedy: CHANGES, as: depth changes, says: Look., because: b, source: practice}
  - {remedy: NOT-HERE, as: top changes, when: cbr > 100, says: Look., because: b, source: practice}
`}), testSetup())
	require.NoError(t, err)
	run := func(cbr float64, top string) *Outcome {
		var overrides []Override
		if top != "" {
			overrides = []Override{{Decision: "top", Answer: top, By: "A", Because: "b"}}
		}
		o, err := book.Run(plain().with("cbr", cbr), overrides)
		require.NoError(t, err)
		return o
	}
	id := func(w *Work) string { return w.ID }
	var as []string
	for _, w := range book.Work() {
		as = append(as, w.ID+": "+w.As)
	}
	require.Equal(t, []string{"O: ", "RISES: top rises", "FALLS: top falls", "CHANGES: depth changes", "NOT-HERE: top changes"}, as, "as it is written")
	for _, c := range []struct {
		name, why     string
		before, after *Outcome
		want          []string
	}{
		{"the same", "nothing is to be done", run(3, ""), run(3, ""), []string{}},
		{"more", "it rises, and nothing else differs", run(3, ""), run(3, "inches(2)"), []string{"RISES"}},
		{"less", "it falls", run(3, "inches(2)"), run(3, ""), []string{"FALLS"}},
		{"not there any more", "what goes has changed, and has no order", run(3, ""), run(1, ""), []string{"CHANGES"}},
		{"there now", "so has what comes", run(1, ""), run(3, "inches(2)"), []string{"RISES", "CHANGES"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.after.Remedies(c.before)
			require.NoError(t, err)
			require.Equal(t, c.want, namesIn(got, id), c.why)
		})
	}
	none, err := run(1, "").Offered()
	require.NoError(t, err)
	require.Empty(t, none)
	offered, err := run(3, "").Offered()
	require.NoError(t, err)
	require.Len(t, offered, 1)
	says, decides, err := run(3, "").Found(offered[0])
	require.NoError(t, err)
	six, _ := says[0].Value.Number()
	require.Equal(t, 6.0, six)
	require.Equal(t, "top", decides[0].Name)
	require.Equal(t, "2 in", decides[0].Value.Text(quantity.US))
}

// TestClientIsTold holds when the client is told something: by its condition, or where a
// rule, a caution or a refusal speaks that it tells of; of a refused job, only why.
func TestClientIsTold(t *testing.T) {
	book, err := Open(filesOf(map[string]string{"a.yaml": crew, "b.yaml": `chapter: b
vocabularies:
  client_part: {about: parts, because: b, source: practice, words: {told: told}}
cautions:
  - {caution: SOFT, when: cbr < 3, says: Mind., source: practice}
refusals:
  - {refusal: SOFTEST, when: cbr < 1, says: Too soft., who: An engineer., source: practice}
client:
  - {client: ALWAYS, part: told, says: Pavers., because: b, source: practice}
  - {client: FIRM, part: told, when: cbr > 2, says: "Firm.", because: b, source: practice}
  - {client: OF-RULE, part: told, tells: [DEPTH], says: Deep., because: b, source: practice}
  - {client: OF-CAUTION, part: told, tells: [SOFT], says: Soft., because: b, source: practice}
  - {client: OF-REFUSAL, part: told, tells: [SOFTEST, SOFT], says: Too soft., because: b, source: practice}
`}), testSetup())
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		cbr       float64
		want      []string
	}{
		{"firm", "the rule of the depth speaks, and no caution", 5, []string{"ALWAYS", "FIRM", "OF-RULE"}},
		{"soft", "the depth is not asked, and the caution is given", 1.5, []string{"ALWAYS", "OF-CAUTION", "OF-REFUSAL"}},
		{"softest", "there is no section to tell of", 0.5, []string{"OF-REFUSAL"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(plain().with("cbr", c.cbr), nil)
			require.NoError(t, err)
			require.Equal(t, c.want, namesIn(out.Work, func(w *Work) string { return w.ID }), c.why)
		})
	}
}

// TestWorkHandsOut holds what a work tells of itself: what it is about, its sentences, and
// by what an item is named.
func TestWorkHandsOut(t *testing.T) {
	setup := testSetup()
	setup.Inputs = append(setup.Inputs, rulebook.Input{Name: "readings", Kind: value.ListOf(value.NumberKind)})
	book, err := Open(filesOf(map[string]string{"a.yaml": crew + `steps:
  - {step: OF-BASE, course: base, says: "Dig {depth}.", hold: Look., because: b, source: practice}
  - {step: OF-STONE, course: stone, says: Lay., because: b, source: practice}
  - {step: OF-NOTHING, says: Mark., because: b, source: practice}
quantities:
  - {quantity: BY-WORD, about: a, kind: material, item: stone, amount: cu_yd(3), because: b, source: practice}
  - {quantity: BY-TEXT, about: a, kind: material, item: "'pins'", amount: 3.0, because: b, source: practice}
stops:
  - {stop: SOFT, finds: W., does: D., calls: C., found: {readings: cbr / 2}, because: b, source: practice}
`}), setup)
	require.NoError(t, err)
	out, err := book.Run(plain().with("cbr", 5.0), nil)
	require.NoError(t, err)
	var told []string
	for _, w := range book.Work() {
		about, needs := w.About()
		line := w.ID + ": " + strings.Join(namesIn(about, func(c *Course) string { return c.Name }), " ")
		if needs {
			line += " is needed"
		}
		if says := w.Says("says"); says != nil {
			said, err := out.Say(says)
			require.NoError(t, err)
			line += "; " + said.Text(quantity.US)
		}
		if w.amount != nil {
			m, err := out.Measured(w)
			require.NoError(t, err)
			line += "; " + m.Item.Text(quantity.US) + " " + m.Amount.Text(quantity.US)
		}
		found, _, err := out.Found(w)
		require.NoError(t, err)
		for _, f := range found {
			line += "; " + f.Name + " " + f.Value.Text(quantity.US)
		}
		told = append(told, line)
	}
	require.Equal(t, []string{"BY-WORD: ; stone 3 cu yd", "BY-TEXT: ; pins 3", "OF-BASE: base is needed; Dig 4 in.", "OF-STONE: base below is needed; Lay.", "OF-NOTHING: ; Mark.", "SOFT: ; readings 2.5"}, told)
	require.Nil(t, book.Work()[2].Says("measure"), "a step is not measured")
}
