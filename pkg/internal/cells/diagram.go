package cells

import (
	"encoding/binary"
	"errors"
	"maps"
	"slices"
)

// Diagram keeps sets of abstract jobs as decision diagrams: at each node one
// variable is asked for its cell, and every cell leads on. Nodes that no cell
// tells apart are left out and equal nodes are one, so that the whole product of
// the partitions is walked without being written out: a set is empty if and only
// if it is the node [Never].
type Diagram struct {
	sizes  []int // cells of each variable
	nodes  []branch
	unique map[string]Node
	joined map[pair]Node
	nots   map[Node]Node
	key    []byte
	most   int
}

// Node is a set of abstract jobs.
type Node int32

// The sets of no job and of every job.
const (
	Never  Node = 0
	Always Node = 1
)

type branch struct {
	variable int
	kids     []Node
}

type pair struct {
	a, b Node
	or   bool
}

// errTooLarge is the panic of a diagram that outgrows its limit; whoever asks a
// question recovers it and says that the question was not analyzed.
var errTooLarge = errors.New("too many cells to walk")

// NewDiagram returns a diagram that may have so many nodes.
func NewDiagram(most int) *Diagram {
	return &Diagram{nodes: make([]branch, 2), unique: map[string]Node{}, joined: map[pair]Node{}, nots: map[Node]Node{}, most: most}
}

// Variable adds a variable of so many cells. Variables are asked in the order in
// which they were added.
func (d *Diagram) Variable(size int) int {
	d.sizes = append(d.sizes, size)
	return len(d.sizes) - 1
}

// In is the set of jobs whose variable lies in the cells.
func (d *Diagram) In(variable int, cells Set) Node {
	kids := make([]Node, d.sizes[variable])
	for i := range kids {
		if cells.Has(i) {
			kids[i] = Always
		}
	}
	return d.make(variable, kids)
}

func (d *Diagram) make(variable int, kids []Node) Node {
	same := true
	for _, kid := range kids[1:] {
		same = same && kid == kids[0]
	}
	if same {
		return kids[0]
	}
	d.key = binary.AppendUvarint(d.key[:0], uint64(variable))
	for _, kid := range kids {
		d.key = binary.AppendUvarint(d.key, uint64(kid))
	}
	if n, ok := d.unique[string(d.key)]; ok {
		return n
	}
	if len(d.nodes) >= d.most {
		panic(errTooLarge)
	}
	n := Node(len(d.nodes))
	d.nodes = append(d.nodes, branch{variable, kids})
	d.unique[string(d.key)] = n
	return n
}

// Not is the set of the jobs that are not in a set.
func (d *Diagram) Not(a Node) Node {
	if a <= Always {
		return 1 - a
	}
	if n, ok := d.nots[a]; ok {
		return n
	}
	at := d.nodes[a]
	kids := make([]Node, len(at.kids))
	for i, kid := range at.kids {
		kids[i] = d.Not(kid)
	}
	n := d.make(at.variable, kids)
	d.nots[a], d.nots[n] = n, a
	return n
}

// And is the set of the jobs that are in every set, Or that of the jobs that are
// in some.
func (d *Diagram) And(ns ...Node) Node { return d.fold(false, Always, Never, ns) }
func (d *Diagram) Or(ns ...Node) Node  { return d.fold(true, Never, Always, ns) }

// fold joins sets by halves: what is joined one after another is large nearly from the
// start, and makes most of its nodes again for every further set.
func (d *Diagram) fold(or bool, start, end Node, ns []Node) Node {
	switch half := len(ns) / 2; {
	case len(ns) == 0:
		return start
	case slices.Contains(ns, end):
		return end
	case half == 0:
		return ns[0]
	default:
		return d.join(or, d.fold(or, start, end, ns[:half]), d.fold(or, start, end, ns[half:]))
	}
}

func (d *Diagram) join(or bool, a, b Node) Node {
	neutral, end := Always, Never
	if or {
		neutral, end = Never, Always
	}
	switch {
	case a == b || b == neutral || a == end:
		return a
	case a == neutral || b == end:
		return b
	case a > b:
		a, b = b, a
	}
	k := pair{a, b, or}
	if n, ok := d.joined[k]; ok {
		return n
	}
	x, y := d.nodes[a], d.nodes[b]
	at := min(x.variable, y.variable)
	kids := make([]Node, d.sizes[at])
	for i := range kids {
		p, q := a, b
		if x.variable == at {
			p = x.kids[i]
		}
		if y.variable == at {
			q = y.kids[i]
		}
		kids[i] = d.join(or, p, q)
	}
	n := d.make(at, kids)
	d.joined[k] = n
	return n
}

// Way is how the cell of a variable in one job may differ from that in another.
type Way uint8

// The ways.
const (
	Stays    Way = iota // it is the same
	Up                  // it is the same or a later one
	Down                // it is the same or an earlier one
	Anywhere            // it may be any
)

// Move is the set of the jobs from which some job of a set can be come to, where
// variables move in their ways and the others stay.
func (d *Diagram) Move(n Node, ways map[int]Way) Node {
	done := map[Node]Node{Never: Never, Always: Always}
	var move func(Node) Node
	move = func(n Node) Node {
		if out, ok := done[n]; ok {
			return out
		}
		at := d.nodes[n]
		kids := make([]Node, len(at.kids))
		for i, kid := range at.kids {
			kids[i] = move(kid)
		}
		switch ways[at.variable] {
		case Up:
			for i := len(kids) - 2; i >= 0; i-- {
				kids[i] = d.Or(kids[i], kids[i+1])
			}
		case Down:
			for i := 1; i < len(kids); i++ {
				kids[i] = d.Or(kids[i], kids[i-1])
			}
		case Anywhere:
			any := d.Or(kids...)
			for i := range kids {
				kids[i] = any
			}
		}
		out := d.make(at.variable, kids)
		done[n] = out
		return out
	}
	return move(n)
}

// Support lists the variables that a set depends on, in rising order.
func (d *Diagram) Support(n Node) []int {
	seen := map[Node]bool{}
	used := map[int]bool{}
	var walk func(Node)
	walk = func(n Node) {
		if n <= Always || seen[n] {
			return
		}
		seen[n] = true
		used[d.nodes[n].variable] = true
		for _, kid := range d.nodes[n].kids {
			walk(kid)
		}
	}
	walk(n)
	return slices.Sorted(maps.Keys(used))
}

// Step is one variable on a way through a diagram with its cell.
type Step struct{ Variable, Cell int }

// Cheapest returns the way to [Always] that costs least, false if there is none.
// cost tells what it costs to take a cell, at least 0.
func (d *Diagram) Cheapest(n Node, cost func(variable, cell int) float64) ([]Step, bool) {
	if n == Never {
		return nil, false
	}
	type best struct {
		cost float64
		cell int
	}
	found := map[Node]best{Always: {}}
	var walk func(Node) (float64, bool)
	walk = func(n Node) (float64, bool) {
		if n == Never {
			return 0, false
		}
		if b, ok := found[n]; ok {
			return b.cost, b.cell >= 0
		}
		b := best{cell: -1}
		for cell, kid := range d.nodes[n].kids {
			below, ok := walk(kid)
			if !ok {
				continue
			}
			if c := below + cost(d.nodes[n].variable, cell); b.cell < 0 || c < b.cost {
				b = best{c, cell}
			}
		}
		found[n] = b
		return b.cost, b.cell >= 0
	}
	walk(n)
	var way []Step
	for n > Always {
		b := found[n]
		way = append(way, Step{d.nodes[n].variable, b.cell})
		n = d.nodes[n].kids[b.cell]
	}
	return way, true
}

// Size is how many nodes there are.
func (d *Diagram) Size() int { return len(d.nodes) }

// Briefly is [Guarded] for a set that may take so many more nodes and no more.
func (d *Diagram) Briefly(more int, instead Node, work func() Node) (n Node, ok bool) {
	most := d.most
	defer func() { d.most = most }()
	d.most = min(most, len(d.nodes)+more)
	return Guarded(instead, work)
}

// Guarded works out a set, or what follows from sets; ok is false, and the result is
// that given, if there were too many cells.
func Guarded[T any](instead T, work func() T) (result T, ok bool) {
	defer func() {
		if r := recover(); r != nil {
			if r != any(errTooLarge) {
				panic(r)
			}
			result, ok = instead, false
		}
	}()
	return work(), true
}
