package survey

import (
	"encoding/binary"
	"errors"
)

// diagram keeps sets of abstract jobs as decision diagrams: at each node one
// variable is asked for its cell, and every cell leads on. Nodes that no cell
// tells apart are left out and equal nodes are one, so that the whole product of
// the partitions is walked without being written out: a set is empty if and only
// if it is the node never.
type diagram struct {
	sizes  []int // cells of each variable
	nodes  []branch
	unique map[string]node
	joined map[pair]node
	nots   map[node]node
	key    []byte
	most   int
}

// node is a set of abstract jobs.
type node int32

const (
	never  node = 0
	always node = 1
)

type branch struct {
	variable int
	kids     []node
}

type pair struct {
	a, b node
	or   bool
}

// errTooLarge is the panic of a diagram that outgrows its limit; whoever asks a
// question recovers it and says that the question was not analyzed.
var errTooLarge = errors.New("too many cells to walk")

func newDiagram(most int) *diagram {
	return &diagram{nodes: make([]branch, 2), unique: map[string]node{}, joined: map[pair]node{}, nots: map[node]node{}, most: most}
}

// variable adds a variable of so many cells. Variables are asked in the order in
// which they were added.
func (d *diagram) variable(size int) int {
	d.sizes = append(d.sizes, size)
	return len(d.sizes) - 1
}

// in is the set of jobs whose variable lies in the cells.
func (d *diagram) in(variable int, cells set) node {
	kids := make([]node, d.sizes[variable])
	for i := range kids {
		if cells.has(i) {
			kids[i] = always
		}
	}
	return d.make(variable, kids)
}

func (d *diagram) make(variable int, kids []node) node {
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
	n := node(len(d.nodes))
	d.nodes = append(d.nodes, branch{variable, kids})
	d.unique[string(d.key)] = n
	return n
}

func (d *diagram) not(a node) node {
	if a <= always {
		return 1 - a
	}
	if n, ok := d.nots[a]; ok {
		return n
	}
	at := d.nodes[a]
	kids := make([]node, len(at.kids))
	for i, kid := range at.kids {
		kids[i] = d.not(kid)
	}
	n := d.make(at.variable, kids)
	d.nots[a], d.nots[n] = n, a
	return n
}

func (d *diagram) and(ns ...node) node { return d.fold(false, always, never, ns) }
func (d *diagram) or(ns ...node) node  { return d.fold(true, never, always, ns) }

func (d *diagram) fold(or bool, start, end node, ns []node) node {
	out := start
	for _, n := range ns {
		if out == end {
			return end
		}
		out = d.join(or, out, n)
	}
	return out
}

func (d *diagram) join(or bool, a, b node) node {
	neutral, end := always, never
	if or {
		neutral, end = never, always
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
	kids := make([]node, d.sizes[at])
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

// support lists the variables that a set depends on, in rising order.
func (d *diagram) support(n node) []int {
	seen := map[node]bool{}
	used := make([]bool, len(d.sizes))
	var walk func(node)
	walk = func(n node) {
		if n <= always || seen[n] {
			return
		}
		seen[n] = true
		used[d.nodes[n].variable] = true
		for _, kid := range d.nodes[n].kids {
			walk(kid)
		}
	}
	walk(n)
	var out []int
	for v, is := range used {
		if is {
			out = append(out, v)
		}
	}
	return out
}

// step is one variable on a way through a diagram with its cell.
type step struct{ variable, cell int }

// cheapest returns the way to always that costs least, false if there is none.
// cost tells what it costs to take a cell, at least 0.
func (d *diagram) cheapest(n node, cost func(variable, cell int) float64) ([]step, bool) {
	if n == never {
		return nil, false
	}
	type best struct {
		cost float64
		cell int
	}
	found := map[node]best{always: {}}
	var walk func(node) (float64, bool)
	walk = func(n node) (float64, bool) {
		if n == never {
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
	var way []step
	for n > always {
		b := found[n]
		way = append(way, step{d.nodes[n].variable, b.cell})
		n = d.nodes[n].kids[b.cell]
	}
	return way, true
}
