package survey

import "math/bits"

// mostCells is how many cells a name can be split into; one with more is not
// analyzed.
const mostCells = 256

// set is a set of cells. It can be compared, and be the key of a map.
type set [mostCells / 64]uint64

func (s set) with(cell int) set {
	s[cell/64] |= 1 << (cell % 64)
	return s
}

func (s set) has(cell int) bool { return s[cell/64]&(1<<(cell%64)) != 0 }

func (s set) empty() bool { return s == set{} }

func (s set) count() int {
	n := 0
	for _, part := range s {
		n += bits.OnesCount64(part)
	}
	return n
}

func (s set) and(t set) set {
	for i := range s {
		s[i] &= t[i]
	}
	return s
}

func (s set) without(t set) set {
	for i := range s {
		s[i] &^= t[i]
	}
	return s
}

func firstCells(n int) set {
	var s set
	for cell := range min(n, mostCells) {
		s = s.with(cell)
	}
	return s
}

func oneCell(cell int) set { return set{}.with(cell) }
