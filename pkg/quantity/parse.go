package quantity

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
)

// The sizes between which a quantity other than 0 is read, in SI. Nothing in
// this trade comes near them; they keep every turn between units finite.
const (
	largestRead  = 1e100
	smallestRead = 1e-100
	// longestRead is the most runes that a quantity may take.
	longestRead = 200
)

// Parse reads a quantity as the trade writes it: 6 in, 6", 3-1/8 in, 1' 6",
// 150 mm, 8,000 psi, 0.5 in/h, 145 pcf, 1.9 t/yd3, 1,000 F-days, 2 %, 2 percent.
// The dimension follows from the unit; a plain number is a ratio, and never a
// share.
//
// Numbers are whole, decimal, with a fraction (3-1/8, 3 1/8, 1/2, 3⅛), or with a
// power of ten (1e-5, 1 x 10^-5). A comma stands only between thousands: "8,000"
// is read and "1,5" refused, since it may be 1.5 or a slip for 1,500.
//
// "t" is the metric tonne of 1,000 kg, "ton" the short ton of 2,000 lb, and "T"
// is refused. In "t/yd3" alone "t" is the short ton: whoever orders by the cubic
// yard means that one, and 1.9 of them are the 141 pcf of compacted base. "lb" is
// a mass and "lbf" a force, but lb/in2 is a pressure and lb/ft a line strength,
// as the trade writes; lb/ft2 may be a pressure or an areal mass, so it is read
// by [ParseAs] alone. "F" is a temperature and "F-days" a freezing index.
//
// A negative number is read; whether it makes sense is for the caller. Every
// error is a [*ParseError].
func Parse(text string) (Quantity, error) {
	return read(text, NoDimension)
}

// ParseAs is [Parse] for a wanted dimension: a unit of another dimension, or no
// unit where one is needed, is an error that says which units would do.
func ParseAs(dim Dimension, text string) (Quantity, error) {
	if !dim.Valid() {
		return Quantity{}, &ParseError{Text: text, Problem: "no dimension is wanted", cause: ErrDimension}
	}
	return read(text, dim)
}

// reader reads one quantity from a text.
type reader struct {
	text string
	in   []rune
	at   int
	want Dimension
}

func (r *reader) fail(at int, format string, args ...any) *ParseError {
	return &ParseError{Text: r.text, Offset: at, Problem: fmt.Sprintf(format, args...)}
}

// peek returns the rune at an offset from the place of reading, 0 past the end.
func (r *reader) peek(offset int) rune {
	if r.at+offset < len(r.in) {
		return r.in[r.at+offset]
	}
	return 0
}

func (r *reader) spaces() {
	for r.at < len(r.in) && unicode.IsSpace(r.in[r.at]) {
		r.at++
	}
}

func read(text string, want Dimension) (Quantity, error) {
	r := &reader{text: text, in: []rune(text), want: want}
	if len(r.in) > longestRead {
		// Only the head is kept, so that the error stays readable.
		r.text = string(r.in[:longestRead])
		return Quantity{}, r.fail(longestRead, "longer than the %d characters that a quantity may take", longestRead)
	}
	for len(r.in) > 0 && unicode.IsSpace(r.in[len(r.in)-1]) {
		r.in = r.in[:len(r.in)-1]
	}
	r.spaces()
	sign := 1.0
	switch {
	case isMinus(r.peek(0)):
		sign = -1
		r.at++
	case r.peek(0) == '+':
		r.at++
	}
	n, err := r.number()
	if err != nil {
		return Quantity{}, err
	}
	n.value *= sign
	q, err := r.measured(n)
	if err != nil {
		return Quantity{}, err
	}
	if size := math.Abs(q.SI); !(size <= largestRead) {
		e := r.fail(n.at, "the number is too large")
		e.cause = ErrNotFinite
		return Quantity{}, e
	} else if size < smallestRead && n.value != 0 && q.Dim != DimTemperature {
		return Quantity{}, r.fail(n.at, "the number is too small")
	}
	return q, nil
}

// measured reads what follows the number.
func (r *reader) measured(n number) (Quantity, *ParseError) {
	r.spaces()
	start := r.at
	text := string(r.in[start:])
	if text == "" {
		return r.plain(n)
	}
	units := find(text)
	if len(units) == 0 {
		if q, done, err := r.feetAndInches(n); done {
			return q, err
		}
		return Quantity{}, r.unknown(start, text)
	}
	u, err := r.pick(start, text, units)
	if err != nil {
		return Quantity{}, err
	}
	si := u.toSI(n.value)
	if u.Dim == DimShare && n.decimal != "" {
		si = math.Copysign(movedText(n.decimal, -2), n.value)
	}
	return Quantity{u.Dim, si}, nil
}

func (r *reader) plain(n number) (Quantity, *ParseError) {
	if r.want == NoDimension || r.want == DimRatio {
		return Quantity{DimRatio, n.value}, nil
	}
	e := r.fail(len(r.in), "a unit is missing, and %s is wanted", article(r.want))
	if e.Wanted = symbols(r.want); len(e.Wanted) == 1 {
		e.Nearest = strings.TrimSpace(r.text) + " " + e.Wanted[0]
	}
	return Quantity{}, e
}

// pick chooses among the units that a text may mean by the wanted dimension.
func (r *reader) pick(at int, text string, units []Unit) (Unit, *ParseError) {
	if r.want == NoDimension {
		if len(units) == 1 {
			return units[0], nil
		}
		e := r.fail(at, "%q may be %s or %s", text, article(units[0].Dim), article(units[1].Dim))
		for _, u := range units {
			e.Wanted = append(e.Wanted, symbols(u.Dim)...)
		}
		e.Wanted = slices.DeleteFunc(e.Wanted, func(s string) bool { return len(find(s)) > 1 })
		return Unit{}, e
	}
	for _, u := range units {
		if u.Dim == r.want {
			return u, nil
		}
	}
	e := r.fail(at, "%s", misfit(text, units, r.want))
	e.cause = ErrDimension
	e.Wanted = symbols(r.want)
	if u, ok := UnitNamed("lb", NoDimension); ok && r.want == DimForce && units[0].Builder == u.Builder {
		e.Nearest = "lbf"
	}
	return Unit{}, e
}

// unknown says what is wrong with a text behind a number that is not a unit.
func (r *reader) unknown(at int, text string) *ParseError {
	first := r.in[at]
	switch {
	case trap(unitKey(text)) != "":
		return r.fail(at, "%q %s", text, trap(unitKey(text)))
	case startsNumber(first):
		return r.fail(at, "a second number; write one, thousands as 8,000 and fractions as 3-1/8")
	case isMinus(first) || first == '…':
		return r.fail(at, "a range, or a sign out of place; write one number")
	}
	e := r.fail(at, "unknown unit %q", text)
	e.Nearest = nearestUnit(text, r.want)
	if head := leadingUnit(text); head != "" && (e.Nearest == "" || r.nextNumber() > 0) {
		return r.fail(at+len([]rune(head)), "more text after the unit %q", head)
	}
	if r.want != NoDimension {
		e.Wanted = symbols(r.want)
	} else if e.Nearest == "" {
		for _, d := range Dimensions() {
			e.Wanted = append(e.Wanted, symbols(d)[0])
		}
	}
	return e
}

// nextNumber returns how many runes on the next number begins, -1 if none does.
func (r *reader) nextNumber() int {
	for i := range len(r.in) - r.at {
		if c := r.peek(i); startsNumber(c) && (c != '.' || isDigit(r.peek(i+1))) {
			return i
		}
	}
	return -1
}

// leadingUnit returns the unit with which a text begins, up to a space, or "".
func leadingUnit(text string) string {
	for i, c := range text {
		if unicode.IsSpace(c) && len(find(text[:i])) > 0 {
			return text[:i]
		}
	}
	return ""
}

// feetAndInches reads 1' 6", 1'-6", 1 ft 6 in and the like, from the mark of
// the feet on. done is false if that is not what stands there.
func (r *reader) feetAndInches(n number) (q Quantity, done bool, err *ParseError) {
	start := r.at
	i := r.nextNumber()
	if i < 1 {
		return Quantity{}, false, nil
	}
	head := strings.TrimRightFunc(string(r.in[start:start+i]), func(c rune) bool {
		return unicode.IsSpace(c) || isMinus(c) || c == ','
	})
	if u, ok := UnitNamed(head, DimLength); !ok || u.Builder != "feet" {
		return Quantity{}, false, nil
	}
	if !n.whole {
		return Quantity{}, true, r.fail(n.at, "feet before inches must be a whole number")
	}
	r.at = start + i
	second, err := r.number()
	if err != nil {
		return Quantity{}, true, err
	}
	r.spaces()
	tail := string(r.in[r.at:])
	u, ok := UnitNamed(tail, DimLength)
	switch {
	case tail == "":
		e := r.fail(r.at, "a unit is missing after the inches")
		e.Wanted = []string{`"`, "in"}
		return Quantity{}, true, e
	case !ok || u.Builder != "inches":
		e := r.fail(r.at, "%q after feet is not inches", tail)
		e.Wanted = []string{`"`, "in"}
		return Quantity{}, true, e
	case second.value >= 12:
		return Quantity{}, true, r.fail(second.at, "inches after feet must be under 12")
	case r.want != NoDimension && r.want != DimLength:
		_, e := r.pick(start, head, []Unit{u})
		return Quantity{}, true, e
	}
	total := float64(math.Abs(n.value)*12) + second.value
	return Quantity{DimLength, u.toSI(math.Copysign(total, n.value))}, true, nil
}
