package survey

import (
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// model is a rulebook over abstract jobs. Every condition becomes the set of
// abstract jobs in which it holds, as a diagram over variables: the cell of each
// input, and where something is calculated, the cell that the calculation comes
// to, which is left free. Every real job that the engine answers without an
// error is among the abstract ones, so what holds for no abstract job holds for
// none at all. The other way round is not so: an abstract job may not be there
// in the world, and needs a witness.
type model struct {
	book   *engine.Book
	d      *cells.Diagram
	inputs map[string]rulebook.Input
	cells  map[string]*cells.Cells // of every input, term, decision and worked value
	worked map[string]*calculated  // the values that clauses and checks compare, by their keys
	// compares keeps the comparisons of clauses that compare worked values.
	compares map[int]engine.Comparison
	// from are the inputs from which an input is worked out, and places those of each
	// clause.
	from   map[string][]string
	places map[int][]diagnostic.Place
	// limited reports whether the limits of answers are looked at too.
	limited bool

	variables []variable
	inputVar  map[string]int
	openVar   map[string]int // of calculations, by key

	names     map[nameCells]cells.Node
	clauses   map[int]cells.Node
	tables    map[string]*table
	decisions map[string]*decisionModel
}

type nameCells struct {
	name string
	in   cells.Set
}

// variable is what a variable of the diagram stands for.
type variable struct {
	role role
	// name is the input; or the term or decision whose value is calculated.
	name        string
	cells       *cells.Cells
	*calculated // nil of an input
}

type role uint8

const (
	inputCell     role = iota // an input; its last cell is: not told
	leftOpen                  // what is calculated
	settingClause             // a clause that reads settings alone
)

func newModel(book *engine.Book, mostNodes int) *model {
	m := &model{book: book, d: cells.NewDiagram(mostNodes), inputs: map[string]rulebook.Input{}, cells: map[string]*cells.Cells{},
		worked: map[string]*calculated{}, compares: map[int]engine.Comparison{}, from: map[string][]string{}, places: map[int][]diagnostic.Place{},
		inputVar: map[string]int{}, openVar: map[string]int{}, names: map[nameCells]cells.Node{}, clauses: map[int]cells.Node{},
		tables: map[string]*table{}, decisions: map[string]*decisionModel{}}
	for _, f := range site.Inputs() {
		m.from[f.Path] = f.From
	}
	for _, in := range book.Inputs() {
		m.inputs[in.Name] = in
		m.cells[in.Name] = m.newCells(in.Kind)
	}
	for _, t := range book.Terms() {
		m.cells[t.Name] = m.newCells(t.Kind)
	}
	for _, d := range book.Decisions() {
		m.cells[d.Name] = m.newCells(d.Kind)
	}
	for _, each := range conditions(book) {
		for _, at := range each.condition.Clauses() {
			m.places[at.Index] = append(m.places[at.Index], at.Place)
		}
	}
	return m
}

func (m *model) newCells(kind value.Kind) *cells.Cells { return cells.New(kind, m.book.Words(kind)) }

func (m *model) addVariable(v variable, size int) int {
	m.variables = append(m.variables, v)
	return m.d.Variable(size)
}

// input returns the variable of an input.
func (m *model) input(name string) int {
	v, ok := m.inputVar[name]
	if !ok {
		v = m.addVariable(variable{role: inputCell, name: name, cells: m.cells[name]}, m.cells[name].Count()+1)
		m.inputVar[name] = v
	}
	return v
}

// notTold is the cell of an input that the job does not tell.
func (m *model) notTold(name string) int { return m.cells[name].Count() }

// known is the set of jobs in which a name has a value, or is asked.
func (m *model) known(name string) cells.Node {
	if m.isInput(name) {
		return m.name(name, m.cells[name].All())
	}
	if t, ok := m.book.Term(name); ok {
		return m.condition(t.When)
	}
	if d, ok := m.book.Decision(name); ok {
		return m.condition(d.When)
	}
	return cells.Always
}

// name is the set of jobs in which a name has a value in the cells.
func (m *model) name(name string, in cells.Set) cells.Node {
	if in.Empty() {
		return cells.Never
	}
	k := nameCells{name, in}
	if n, ok := m.names[k]; ok {
		return n
	}
	if m.isInput(name) {
		m.names[k] = m.d.In(m.input(name), in)
	} else {
		m.names[k] = m.workedOut(name, in)
	}
	return m.names[k]
}

func (m *model) isInput(name string) bool { _, ok := m.inputs[name]; return ok }

func (m *model) workedOut(name string, in cells.Set) cells.Node {
	if t, ok := m.book.Term(name); ok {
		return m.d.And(m.condition(t.When), m.term(t, in))
	}
	if d, ok := m.book.Decision(name); ok {
		return m.d.And(m.condition(d.When), m.decision(d).answersIn(in))
	}
	if w, ok := m.worked[name]; ok && in != m.cells[name].All() {
		return m.calculated(w, name, m.cells[name], in)
	}
	return cells.Always
}

func (m *model) term(t *engine.Term, in cells.Set) cells.Node {
	if c := t.TermCondition; c != nil {
		return m.yesOrNo(m.condition(c), in)
	}
	f, ok := m.book.TermFormula(t)
	if !ok {
		return cells.Always
	}
	return m.formula(f, t.Name, m.cells[t.Name], in)
}

// yesOrNo is the set of jobs in which a yes or no lies in the cells, given those in which
// it is yes.
func (m *model) yesOrNo(yes cells.Node, in cells.Set) cells.Node {
	switch in {
	case cells.One(1):
		return yes
	case cells.One(0):
		return m.d.Not(yes)
	case cells.Set{}:
		return cells.Never
	}
	return cells.Always
}

// condition is the set of jobs in which a condition holds.
func (m *model) condition(c *engine.Condition) cells.Node { return m.tree(c.Tree()) }

func (m *model) tree(t *logic.Tree) cells.Node {
	return logic.Fold(t, m.clause, func(op logic.Op, parts []cells.Node) cells.Node {
		out := cells.Always
		if op == logic.Any {
			out = cells.Never
		}
		for _, part := range parts {
			switch op {
			case logic.Not:
				return m.d.Not(part)
			case logic.Any:
				out = m.d.Or(out, part)
			default:
				out = m.d.And(out, part)
			}
		}
		return out
	})
}

// clause is the set of jobs in which a clause holds.
func (m *model) clause(i int) cells.Node {
	if _, ok := m.clauses[i]; !ok {
		m.clauses[i] = m.clauseOf(i)
	}
	return m.clauses[i]
}

func (m *model) clauseOf(i int) cells.Node {
	if c, ok := m.clauseComparison(i); ok {
		if n, ok := m.comparison(c); ok {
			return n
		}
	}
	f, yes := m.clauseItself(i), cells.New(value.BoolKind, nil)
	if len(f.reads) > 0 {
		return m.name(f.key, cells.One(1))
	}
	// A clause that no job changes. One that reads settings is a variable of its own,
	// so that it can be told what would come of other settings.
	v, err := f.on(nothing)
	is, _ := v.Bool()
	switch reads := len(m.book.ClauseNames(i)); {
	case err != nil:
		return m.d.In(m.open(f, leftOpen, "", yes), cells.One(1))
	case reads > 0:
		return m.d.In(m.open(f, settingClause, "", yes), cells.One(1))
	case is:
		return cells.Always
	}
	return cells.Never
}

// settingsStand is the set of abstract jobs in which every clause that reads
// settings alone comes to what it comes to. Such clauses are met as questions are asked.
func (m *model) settingsStand() cells.Node {
	out := cells.Always
	for i, v := range m.variables {
		if v.role == settingClause {
			out = m.d.And(out, m.stands(i))
		}
	}
	return out
}

// stands pins one clause that reads settings alone.
func (m *model) stands(variable int) cells.Node {
	is, _ := m.variables[variable].on(nothing)
	cell, _ := m.variables[variable].cells.Of(is)
	return m.d.In(variable, cells.One(cell))
}

// comparison is the set of jobs in which a comparison of a name with values
// holds; ok is false if the cells of the name cannot tell.
func (m *model) comparison(c engine.Comparison) (cells.Node, bool) {
	cs, ok := m.cells[c.Name]
	if !ok || cs.Count() > cells.Most {
		return cells.Never, false
	}
	if c.Op == "known" {
		return m.known(c.Name), true
	}
	in, ok := cs.Where(c.Op, c.Values)
	if !ok {
		return cells.Never, false
	}
	return m.name(c.Name, in), true
}

// notSettings returns each name once, without those of settings.
func (m *model) notSettings(names []string) []string {
	return slices.DeleteFunc(unique(names), func(n string) bool {
		origin, _ := m.book.OriginOf(n)
		return origin == rulebook.FromSetting
	})
}

// unique returns each name once, as they are met.
func unique(names []string) []string {
	var out []string
	for _, n := range names {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// under lists names and those from which they are worked out, all the way, each once
// and as they are met.
func (m *model) under(names []string) []string {
	var out []string
	seen := map[string]bool{}
	var visit func([]string)
	visit = func(names []string) {
		for _, n := range names {
			if !seen[n] {
				seen[n] = true
				out = append(out, n)
				visit(m.book.Reads(n))
				visit(m.from[n])
			}
		}
	}
	visit(names)
	return out
}
