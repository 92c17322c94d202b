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
	length := utf8.RuneCountInString(name)
	most := (length + 1) / 3 // one slip in two to four letters, two in five to seven
	best, bestDistance := "", most+1
	for _, c := range candidates {
		// The distance is no less than the difference in length, and takes long
		// to work out for long names.
		if n := utf8.RuneCountInString(c) - length; n >= bestDistance || -n >= bestDistance {
			continue
		}
		d := distance(strings.ToLower(name), strings.ToLower(c))
		if d < bestDistance {
			best, bestDistance = c, d
		}
	}
	return best
}

// distance counts single insertions, deletions, changes and swaps of
// neighbors between a and b (optimal string alignment).
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(x)][len(y)]
}
