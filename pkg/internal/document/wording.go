package document

import (
	"fmt"
	"strconv"
	"unicode/utf8"
)

// bytesText is a size as a person would say it.
func bytesText(n int) string {
	switch {
	case n%(1<<20) == 0:
		return fmt.Sprintf("%d MiB", n>>20)
	case n%(1<<10) == 0:
		return fmt.Sprintf("%d KiB", n>>10)
	}
	return fmt.Sprintf("%d bytes", n)
}

// quote shows text in quotes, cut if it is long, with escapes for what does not
// print.
func quote(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most]) + "..."
	}
	return strconv.Quote(s)
}
