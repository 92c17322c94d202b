package survey

import (
	"maps"
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
)

// mover works out which values never fall as one value moves and all else stays.
//
// It looks at pairs of jobs, x and y, that both get a section and that differ in
// the moving value alone: an input, or a decision that is given in both. Two
// things come together. Which rules may hold in x and in y is told by the diagrams:
// the set of the jobs y, widened to all jobs x from which it can be come to, is
// compared with the set of the jobs x. What a formula comes to is told by its
// parts: a sum of things that never fall never falls, a calculation goes as it says
// of itself.
//
// never falls(y) is what is proven; that something never rises as the value rises
// is that it never falls as the value falls, with x and y changed about.
type mover struct {
	q  *asker
	m  *model
	as string
	// far are the names that are worked out of the moving one.
	far map[string]bool
	// sections hold the abstract jobs that may get a section and that the promise is
	// about, each more narrowly than the one before.
	sections []cells.Node
	// calls are the calculations of which the proof takes as declared how they go.
	calls     map[string]bool
	functions map[string]*calculation.Function
	done      map[question]answer
	trees     map[string]*language.Outline
	bounds    map[string]span
	obstacles []Unanalyzed
}

// question asks whether a name, or a part of an expression, never falls as the
// moving value rises or falls.
type question struct {
	of    string
	rises bool
}

// answer is whether that is so, and the calculations on which it rests.
type answer struct {
	is   bool
	uses map[string]bool
}

func newMover(q *asker, as string, when *engine.Condition) *mover {
	v := &mover{q: q, m: q.m, as: as, far: map[string]bool{}, calls: map[string]bool{}, functions: map[string]*calculation.Function{},
		done: map[question]answer{}, trees: map[string]*language.Outline{}, bounds: map[string]span{}}
	for _, f := range q.m.book.Functions() {
		v.functions[f.Name] = f.Function
	}
	for name := range q.m.cells {
		v.far[name] = slices.Contains(q.m.under([]string{name}), as)
	}
	about := v.both(cells.Always, q.m.condition(when), q.m.known(as), q.m.settingsStand())
	possible := v.both(about, q.domain)
	designed := possible
	for _, r := range q.m.book.Refusals() {
		designed = v.both(designed, q.m.d.Not(q.m.condition(r.When)))
	}
	v.sections = slices.Compact([]cells.Node{cells.Always, about, possible, designed})
	return v
}

// both narrows a set by others, as far as that is cheap.
func (v *mover) both(set cells.Node, by ...cells.Node) cells.Node {
	for _, n := range by {
		set, _ = v.m.d.Briefly(mostForGuard, set, func() cells.Node { return v.m.d.And(set, n) })
	}
	return set
}

// mostForPair is how many nodes it may take to ask of one pair of sets.
const mostForPair = 20000

// apart reports whether no job of the first set comes to one of the second as the
// value moves.
func (v *mover) apart(x, y cells.Node, rises bool) bool {
	d := v.m.d
	for _, in := range v.sections {
		none, _ := v.using(func() bool {
			n, ok := d.Briefly(mostForPair, cells.Always, func() cells.Node {
				x, y := d.And(x, in), d.And(y, in)
				if x == cells.Never || y == cells.Never {
					return cells.Never
				}
				return d.And(x, d.Move(y, v.ways(y, rises)))
			})
			return ok && n == cells.Never
		})
		if none {
			return true
		}
	}
	return false
}

// ways tells of each variable of a set how its cell in y may differ from that in x.
func (v *mover) ways(set cells.Node, rises bool) map[int]cells.Way {
	out := map[int]cells.Way{}
	for _, i := range v.m.d.Support(set) {
		x := v.m.variables[i]
		switch {
		case x.role == inputCell && x.name == v.as:
			out[i] = wayOf(rises, !rises)
		case x.role == inputCell && v.far[x.name]:
			out[i] = cells.Anywhere
		case x.role == inputCell || x.role == settingClause || !slices.ContainsFunc(x.reads, func(n string) bool { return v.far[n] }):
		default:
			out[i] = wayOf(v.openUp(i, rises), v.openUp(i, !rises))
		}
	}
	return out
}

func wayOf(up, down bool) cells.Way {
	switch {
	case up && down:
		return cells.Stays
	case up:
		return cells.Up
	case down:
		return cells.Down
	}
	return cells.Anywhere
}

// openUp reports whether what a variable stands for never falls.
func (v *mover) openUp(i int, rises bool) bool {
	parts := v.m.variables[i].parts
	return len(parts) > 0 && v.up(v.tree(parts[0]), rises) && (len(parts) == 1 || v.up(v.tree(parts[1]), !rises))
}

func (v *mover) tree(text string) *language.Outline {
	n, ok := v.trees[text]
	if !ok {
		n = v.m.book.Outline(text)
		v.trees[text] = n
	}
	return n
}

// nameUp reports whether the value of a name never falls, where it has one in both
// jobs.
func (v *mover) nameUp(name string, rises bool) bool {
	switch {
	case !v.far[name]:
		return true
	case name == v.as:
		return rises
	}
	return v.once(question{name, rises}, func() bool {
		if t, ok := v.m.book.Term(name); ok {
			return v.termUp(t, rises)
		}
		d, ok := v.m.book.Decision(name)
		return ok && v.decisionUp(d, rises)
	})
}

// once answers a question once. What is asked again while it is being answered is
// not known.
func (v *mover) once(ask question, work func() bool) bool {
	if known, done := v.done[ask]; done {
		maps.Copy(v.calls, known.uses)
		return known.is
	}
	v.done[ask] = answer{}
	is, uses := v.using(work)
	v.done[ask] = answer{is, uses}
	return is
}

// using answers a question and returns the calculations on which a yes rests; it
// notes them for whatever rests on that.
func (v *mover) using(answer func() bool) (is bool, calls map[string]bool) {
	outer := v.calls
	calls = map[string]bool{}
	v.calls = calls
	is = answer()
	if v.calls = outer; is {
		maps.Copy(outer, calls)
		return true, calls
	}
	return false, nil
}

func (v *mover) termUp(t *engine.Term, rises bool) bool {
	if c := t.TermCondition; c != nil {
		return v.lasting(v.m.condition(t.When), v.m.condition(c), rises)
	}
	f, _ := v.m.book.TermFormula(t)
	return v.up(v.tree(f.Text()), rises)
}

// lasting reports whether what holds in x holds in y too, where it is asked in
// both.
func (v *mover) lasting(asked, set cells.Node, rises bool) bool {
	d := v.m.d
	return v.apart(d.And(asked, set), d.And(asked, d.Not(set)), rises)
}

// decisionUp reports whether the answer of a decision never falls.
func (v *mover) decisionUp(d *engine.Decision, rises bool) bool {
	dm, asked := v.m.decision(d), v.m.condition(d.When)
	switch d.Take {
	case rulebook.First, rulebook.Only:
		return v.firstUp(d, dm, asked, rises)
	case rulebook.Largest, rulebook.Smallest:
		return v.extremeUp(d, d.Take == rulebook.Largest, rises)
	}
	for i, r := range d.Rules {
		if !v.lasting(asked, dm.holds[i], rises) || !v.lasting(asked, dm.holds[i], !rises) || !v.up(v.answer(r), rises) {
			return false
		}
	}
	return true
}

func (v *mover) answer(r *engine.Rule) *language.Outline {
	return v.tree(v.m.book.AnswerFormula(r).Text())
}

// firstUp looks at every two rules of which one may answer in x and the other in y.
func (v *mover) firstUp(d *engine.Decision, dm *decisionModel, asked cells.Node, rises bool) bool {
	for i, from := range d.Rules {
		x := v.m.d.And(asked, dm.fires[i])
		for j, to := range d.Rules {
			if !v.atMost(v.answer(from), v.answer(to), rises) && !v.apart(x, v.m.d.And(asked, dm.fires[j]), rises) {
				v.obstacle(d, from, to, rises)
				return false
			}
		}
	}
	return true
}

// extremeUp looks, for each answer that may be the largest in x, for one in y that
// is no less, the rule itself first; for the smallest with x and y changed about.
func (v *mover) extremeUp(d *engine.Decision, largest, rises bool) bool {
	dm, asked := v.m.decision(d), v.m.condition(d.When)
	for i, from := range d.Rules {
		here, left := v.m.d.And(asked, dm.holds[i]), asked
		covered := func() bool {
			if largest {
				return v.apart(here, left, rises)
			}
			return v.apart(left, here, rises)
		}
		covers := func(j int) bool {
			a, b := v.answer(from), v.answer(d.Rules[j])
			if !largest {
				a, b = b, a
			}
			if !v.atMost(a, b, rises) {
				return false
			}
			left = v.m.d.And(left, v.m.d.Not(dm.holds[j]))
			return true
		}
		if covers(i) && covered() {
			continue
		}
		for j := 0; j < len(d.Rules) && left != cells.Never; j++ {
			if j != i {
				covers(j)
			}
		}
		if left != cells.Never && !covered() {
			v.obstacle(d, from, nil, rises)
			return false
		}
	}
	return true
}

// obstacle notes what keeps a decision from being proven.
func (v *mover) obstacle(d *engine.Decision, from, to *engine.Rule, rises bool) {
	moves := " as " + v.as + " falls"
	if rises {
		moves = " as " + v.as + " rises"
	}
	u := Unanalyzed{Text: d.Name + ": " + from.ID, Places: []diagnostic.Place{from.Place}}
	switch {
	case to == nil:
		u.Why = "its answer may fall, or it may no longer hold," + moves + ", and no other answer is known to be as large"
	case to == from:
		u.Why = "its answer, " + from.Answer.Text + ", may fall" + moves
	default:
		u.Text, u.Places = u.Text+", then "+to.ID, append(u.Places, to.Place)
		u.Why = "the answer may go from the one to the other" + moves + ", and is not known to be no less"
	}
	if !slices.ContainsFunc(v.obstacles, func(o Unanalyzed) bool { return o.Text == u.Text && o.Why == u.Why }) {
		v.obstacles = append(v.obstacles, u)
	}
}
