package diagnostic

import (
	"strings"
	"unicode/utf8"
)

// Nearest returns the candidate that a writer most likely meant by name, or "" if
// none is near: at most one slip for each three letters. Case does not count;
// of two equally near, the earlier is taken.
func Nearest(name string, candidates []string) string {
	if name == "" {
		return ""
	}
	sought := []rune(strings.ToLower(name))
	most := (len(sought) + 1) / 3 // one slip in two to four letters, two in five to seven
	best := ""
	for _, c := range candidates {
		// The slips are no fewer than the difference in length.
		if n := utf8.RuneCountInString(c) - len(sought); n > most || -n > most {
			continue
		}
		if d := slips(sought, []rune(strings.ToLower(c)), most); d <= most {
			if best, most = c, d-1; most < 0 {
				return best
			}
		}
	}
	return best
}

// slips counts single insertions, deletions, changes and swaps of neighbors
// between two names (optimal string alignment), or returns more than most as soon
// as there are more.
func slips(x, y []rune, most int) int {
	// The last two rows of the table, and the one being made.
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		least := i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
			least = min(least, row[j])
		}
		// A swap reaches back two rows, so that one row above the most is not
		// enough to give up.
		if i > 1 && least > most+1 {
			return most + 1
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}
