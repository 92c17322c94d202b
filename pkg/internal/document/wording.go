package document

import (
	"fmt"
	"strconv"
	"unicode/utf8"
)

func bytesText(n int) string { return fmt.Sprintf("%d bytes", n) }

// quote shows text in quotes, cut if it is long, with escapes for what does not
// print.
func quote(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most]) + "..."
	}
	return strconv.Quote(s)
}
