package document

import (
	"strconv"
	"unicode/utf16"
)

// escapes are the escapes of one letter, of YAML and JSON together: which of
// them the file may have is the parser's concern.
var escapes = map[byte]string{
	'0': "\x00", 'a': "\a", 'b': "\b", 't': "\t", '\t': "\t", 'n': "\n", 'v': "\v",
	'f': "\f", 'r': "\r", 'e': "\x1b", ' ': " ", '"': `"`, '\'': "'", '\\': `\`,
	'/': "/", 'N': "\u0085", '_': "\u00a0", 'L': "\u2028", 'P': "\u2029",
}

// escape returns what the escape at the start of s stands for and its width in
// bytes; of one that the parser would refuse, a text that is not in the scalar.
func escape(s string) (string, int) {
	digits := 0
	switch s[1] {
	case 'x':
		digits = 2
	case 'u':
		digits = 4
	case 'U':
		digits = 8
	default:
		return escapes[s[1]], 2
	}
	r := hexRune(s, 2, digits)
	if s[1] == 'u' && utf16.IsSurrogate(r) { // half of a character of JSON
		return string(utf16.DecodeRune(r, hexRune(s, 8, 4))), 12
	}
	return string(r), 2 + digits
}

// hexRune reads digits hexadecimal digits of s from i on.
func hexRune(s string, i, digits int) rune {
	v, _ := strconv.ParseUint(s[min(i, len(s)):min(i+digits, len(s))], 16, 32)
	return rune(v)
}
