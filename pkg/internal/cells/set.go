package cells

import "math/bits"

// Most is how many cells a name can be split into; one with more is not
// analyzed.
const Most = 256

// Set is a set of cells. It can be compared, and be the key of a map.
type Set [Most / 64]uint64

// With is the set with one cell more.
func (s Set) With(cell int) Set {
	s[cell/64] |= 1 << (cell % 64)
	return s
}

// Has reports whether a cell is in the set.
func (s Set) Has(cell int) bool { return s[cell/64]&(1<<(cell%64)) != 0 }

// Empty reports whether no cell is.
func (s Set) Empty() bool { return s == Set{} }

// Count is how many cells are.
func (s Set) Count() int {
	n := 0
	for _, part := range s {
		n += bits.OnesCount64(part)
	}
	return n
}

// And is the set of the cells that are in both.
func (s Set) And(t Set) Set {
	for i := range s {
		s[i] &= t[i]
	}
	return s
}

// Without is the set less the cells of another.
func (s Set) Without(t Set) Set {
	for i := range s {
		s[i] &^= t[i]
	}
	return s
}

// First is the set of the first n cells.
func First(n int) Set {
	var s Set
	for cell := range min(n, Most) {
		s = s.With(cell)
	}
	return s
}

// One is the set of one cell.
func One(cell int) Set { return Set{}.With(cell) }
