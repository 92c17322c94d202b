package quantity

import (
	"strconv"
	"strings"
	"unicode"
)

// number is a number as read.
type number struct {
	value float64
	at    int
	// whole reports whether it was written without a point, fraction or power.
	whole bool
	// decimal is the number as strconv reads it; "" if it has a fraction.
	decimal string
}

// mixed are the fractions that have a character of their own.
var mixed = map[rune][2]float64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4},
	'⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6},
	'⅐': {1, 7}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}, '⅑': {1, 9}, '⅒': {1, 10},
}

func isDigit(c rune) bool { return '0' <= c && c <= '9' }
func isMinus(c rune) bool { return c == '-' || c == '−' || c == '–' || c == '‐' || c == '‑' }
func isSlash(c rune) bool { return c == '/' || c == '⁄' || c == '∕' }

func startsNumber(c rune) bool {
	_, fraction := mixed[c]
	return isDigit(c) || fraction || c == '.'
}

// number reads an unsigned number.
func (r *reader) number() (number, *ParseError) {
	n := number{at: r.at}
	if f, ok := mixed[r.peek(0)]; ok {
		r.at++
		n.value = f[0] / f[1]
		return n, nil
	}
	digits, grouped, err := r.digits()
	if err != nil {
		return n, err
	}
	n.whole = true
	if r.peek(0) == '.' && (isDigit(r.peek(1)) || digits != "" && !isDigit(r.peek(1))) {
		n.whole = false
		r.at++
		digits += "." + r.run()
		if c := r.peek(0); c == ',' || c == '.' {
			return n, r.fail(r.at, "%q after the decimals; write a decimal with one point and thousands with commas, as in 1,250.5", c)
		}
	}
	if digits == "" {
		return n, r.fail(n.at, "no number to read; a quantity begins with one, as in 6 in")
	}
	if n.whole && !grouped && isSlash(r.peek(0)) && isDigit(r.peek(1)) {
		n.whole = false
		n.value, err = r.fraction(digits, n.at)
		return n, err
	}
	power, err := r.power()
	if err != nil {
		return n, err
	}
	if err := r.value(&n, digits, power); err != nil || power != "" || !n.whole {
		n.whole = n.whole && power == ""
		return n, err
	}
	return n, r.addFraction(&n)
}

// value turns decimal digits and a power of ten into a float64.
func (r *reader) value(n *number, digits, power string) *ParseError {
	var fault error
	n.decimal = digits + power
	n.value, fault = strconv.ParseFloat(n.decimal, 64)
	switch {
	case fault != nil:
		e := r.fail(n.at, "the number is too large")
		e.cause = ErrNotFinite
		return e
	case n.value == 0 && strings.ContainsAny(digits, "123456789"):
		return r.fail(n.at, "the number is too small")
	}
	return nil
}

// run reads digits.
func (r *reader) run() string {
	start := r.at
	for isDigit(r.peek(0)) {
		r.at++
	}
	return string(r.in[start:r.at])
}

// digits reads the digits before a point, and takes out the commas between
// thousands.
func (r *reader) digits() (digits string, grouped bool, err *ParseError) {
	start := r.at
	groups := []string{r.run()}
	for r.peek(0) == ',' {
		r.at++
		groups = append(groups, r.run())
	}
	if len(groups) == 1 {
		return groups[0], false, nil
	}
	if groups[0] == "" {
		return "", false, r.fail(start, "no number to read; a quantity begins with one, as in 6 in")
	}
	formed := len(groups[0]) <= 3 && groups[0][0] != '0'
	for _, g := range groups[1:] {
		formed = formed && len(g) == 3
	}
	if !formed {
		return "", false, r.fail(start, "the comma in %q does not part thousands; write 8,000 for thousands, and a decimal with a point, as in 1.5",
			string(r.in[start:r.at]))
	}
	return strings.Join(groups, ""), true, nil
}

// power reads a power of ten, as e-5 or as x 10^-5, into the form e-5.
func (r *reader) power() (string, *ParseError) {
	start := r.at
	i := 0
	if c := r.peek(0); c == 'e' || c == 'E' {
		i = 1
	} else if i = r.timesTen(); i == 0 {
		return "", nil
	}
	sign := ""
	switch c := r.peek(i); {
	case isMinus(c) || c == '⁻':
		sign = "-"
		i++
	case c == '+' || c == '⁺':
		i++
	}
	var digits []rune
	for {
		c := r.peek(i)
		if s := strings.IndexRune("⁰¹²³⁴⁵⁶⁷⁸⁹", c); s >= 0 && c > unicode.MaxASCII {
			c = '0' + rune(len([]rune("⁰¹²³⁴⁵⁶⁷⁸⁹"[:s])))
		}
		if !isDigit(c) {
			break
		}
		digits = append(digits, c)
		i++
	}
	if len(digits) == 0 {
		return "", nil
	}
	if len(digits) > 4 {
		return "", r.fail(start, "the power of ten is out of all reason")
	}
	r.at += i
	return "e" + sign + string(digits), nil
}

// timesTen returns how many runes an "x 10^" takes, 0 if none stands there. The
// ^ may be left out before a raised digit or sign.
func (r *reader) timesTen() int {
	i := 0
	skip := func() {
		for unicode.IsSpace(r.peek(i)) {
			i++
		}
	}
	skip()
	if c := r.peek(i); c != 'x' && c != 'X' && c != '×' && c != '*' && c != '·' {
		return 0
	}
	i++
	skip()
	if r.peek(i) != '1' || r.peek(i+1) != '0' {
		return 0
	}
	i += 2
	if r.peek(i) == '^' {
		return i + 1
	}
	if c := r.peek(i); c > unicode.MaxASCII && strings.ContainsRune("⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹", c) {
		return i
	}
	return 0
}

// fraction reads the slash and the denominator after a numerator.
func (r *reader) fraction(numerator string, at int) (float64, *ParseError) {
	const most = 6 // digits; finer fractions are no measure of the trade
	r.at++
	denominator := r.run()
	if len(numerator) > most || len(denominator) > most {
		return 0, r.fail(at, "the fraction has too many digits")
	}
	n, _ := strconv.ParseFloat(numerator, 64)
	d, _ := strconv.ParseFloat(denominator, 64)
	if d == 0 {
		return 0, r.fail(at, "the fraction divides by 0")
	}
	return n / d, nil
}

// addFraction reads a fraction behind a whole number: 3-1/8, 3 1/8, 3⅛, 3 ⅛.
// Anything else is left to be read as a unit.
func (r *reader) addFraction(n *number) *ParseError {
	back := r.at
	r.spaces()
	parted := r.at > back
	if !parted && isMinus(r.peek(0)) {
		r.at++
		parted = true
	}
	if f, ok := mixed[r.peek(0)]; ok {
		r.at++
		n.value += f[0] / f[1]
		n.whole, n.decimal = false, ""
		return nil
	}
	at := r.at
	if top := r.run(); parted && top != "" && isSlash(r.peek(0)) && isDigit(r.peek(1)) {
		f, err := r.fraction(top, at)
		if err != nil {
			return err
		}
		if f >= 1 {
			return r.fail(at, "the fraction behind a whole number must be under 1")
		}
		n.value += f
		n.whole, n.decimal = false, ""
		return nil
	}
	r.at = back
	return nil
}
