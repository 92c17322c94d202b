package site

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/sieve"
	"example.com/groundrule/pkg/quantity"
)

// measure is a measured type of package quantity.
type measure interface {
	~float64
	quantity.Measure
}

// measured is a field that takes a quantity with its unit.
func measured[S any, M measure](key string, in bounds, such string, at slot[S, M], about string) field[S] {
	dim := M(0).Quantity().Dim
	reads := fmt.Sprintf("%s, such as %s", dim, such)
	parse := func(r *report, n *document.Node, path string) (M, bool) {
		text, ok := scalarText(r, n, path, reads)
		if !ok {
			return 0, false
		}
		q, err := quantity.ParseAs(dim, text)
		if err != nil {
			quantityFault(r, n, path, reads, err)
			return 0, false
		}
		return M(q.SI), true
	}
	verify := func(r *report, path string, v M) {
		if !in.holds(float64(v)) {
			r.add(fault{path: path, code: CodeRange, says: "is out of range", found: writeQuantity(v.Quantity()), want: in.says})
		}
	}
	write := func(v M) string { return writeQuantity(v.Quantity()) }
	return keep(field[S]{key: key, about: about, reads: reads}, at, parse, verify, write)
}

// opening is a field that takes a sieve by its name, or its opening.
func opening[S any](key string, at func(*S) *quantity.Length, about string) field[S] {
	slot := filled(at)
	f := measured(key, aboveZero, "0.425 mm", slot, about)
	f.reads = "sieve, such as No. 200 or 3/4 in, or an opening, such as 0.02 mm"
	asLength := f.read
	f.read = func(r *report, n *document.Node, path string, s *S) {
		if n.Shape() == document.Scalar {
			l, err := sieve.Opening(n.Text())
			if err == nil {
				slot.set(s, l)
				return
			}
			if sieveByName.MatchString(n.Text()) {
				d := r.add(fault{path: path, code: CodeWord, says: "is no sieve of the US series", want: f.reads})
				d.Nearest = nearestOf(n.Text(), usualSieves)
				return
			}
		}
		asLength(r, n, path, s)
	}
	f.write = func(s *S) (item, bool) {
		l, given := slot.get(s)
		name := sieve.Name(l)
		if back, err := sieve.Opening(name); err != nil || back != l {
			name = inBaseUnit(l.Quantity())
		}
		return item{text: name}, given
	}
	return f
}

// sieveByName matches what names a sieve and is not its opening: a number of the
// series, or inches, which a sieve of that name does not exactly open.
var sieveByName = regexp.MustCompile(`(?i)^\s*(no\b|no\.|#)|(in|in\.|inch|inches|")\s*$`)

// usualSieves are those offered for a name that is none.
var usualSieves = []string{
	"3 in", "2 in", "1-1/2 in", "1 in", "3/4 in", "1/2 in", "3/8 in", "No. 4", "No. 8", "No. 10",
	"No. 16", "No. 20", "No. 30", "No. 40", "No. 50", "No. 60", "No. 100", "No. 140", "No. 200",
}

// slope is a field that takes a fall: a percentage, or a length per length. A
// bare number is refused, since 2 and 0.02 are both written for 2 %.
func slope[S any](key string, at func(*S) **quantity.Share, about string) field[S] {
	const reads = "slope, such as 2 % or 1/4 in per ft"
	return share(field[S]{key: key, about: about, reads: reads}, CodeQuantity, "is no slope with its unit",
		slopeRange, optional(at), slopeOf, writeSlope)
}

// part is a field that takes a percentage of a whole; its sign may be left out.
func part[S any](key, such string, in slot[S, quantity.Share], about string) field[S] {
	read := func(text string) (quantity.Share, bool) {
		if plainNumber.MatchString(strings.TrimSpace(text)) {
			text += " %"
		}
		q, err := quantity.ParseAs(quantity.DimShare, text)
		return quantity.Share(q.SI), err == nil
	}
	write := func(x quantity.Share) string { return strings.TrimSuffix(writeShare(x), " %") }
	return share(field[S]{key: key, about: about, reads: "percent, such as " + such}, document.CodeNotNumber, "is no number",
		percentage, in, read, write)
}

// share fills in a field that holds a share, read by a function of its own.
func share[S any](f field[S], code diagnostic.Code, wrong string, within bounds, in slot[S, quantity.Share], read func(string) (quantity.Share, bool), write func(quantity.Share) string) field[S] {
	parse := func(r *report, n *document.Node, path string) (quantity.Share, bool) {
		text, ok := scalarText(r, n, path, f.reads)
		if !ok {
			return 0, false
		}
		x, ok := read(text)
		if !ok {
			r.add(fault{path: path, code: code, says: wrong, want: f.reads})
		}
		return x, ok
	}
	verify := func(r *report, path string, x quantity.Share) {
		if !within.holds(float64(x)) {
			r.add(fault{path: path, code: CodeRange, says: "is out of range", found: x.String(), want: within.says})
		}
	}
	return keep(f, in, parse, verify, write)
}

// slopeOf reads a slope.
func slopeOf(text string) (quantity.Share, bool) {
	if q, err := quantity.ParseAs(quantity.DimShare, text); err == nil {
		return quantity.Share(q.SI), true
	}
	text = strings.ReplaceAll(text, " per ", "/")
	cut := strings.LastIndex(text, "/")
	if cut < 0 {
		return 0, false
	}
	run := strings.TrimSpace(text[cut+1:])
	if run == "" || run[0] < '0' || run[0] > '9' {
		run = "1 " + run
	}
	a, err := quantity.ParseAs(quantity.DimLength, text[:cut])
	if err != nil {
		return 0, false
	}
	b, err := quantity.ParseAs(quantity.DimLength, run)
	if err != nil || b.SI <= 0 {
		return 0, false
	}
	return quantity.Share(a.SI / b.SI), true
}

// writeSlope writes a percentage, or a fall in inches per foot where that alone
// is short and reads back as the same float64.
func writeSlope(x quantity.Share) string {
	percent := writeShare(x)
	if y, ok := rounded(x.Fraction() * inchesPerFoot); ok && len(percent) > shortDigits {
		text := writeNumber(y) + " in per ft"
		if back, ok := slopeOf(text); ok && back == x {
			return text
		}
	}
	return percent
}

const inchesPerFoot = 12

// writeShare writes a share in percent; one that is no number as the text that
// says so.
func writeShare(x quantity.Share) string {
	text, err := x.MarshalText()
	if err != nil {
		return err.Error()
	}
	return string(text)
}

// shortDigits is to how many digits a value is rounded to find the number that
// was first written: 6 in is held as 0.1524 m, and that is 6.000000000000001 in.
const shortDigits = 9

func rounded(x float64) (float64, bool) {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', shortDigits, 64), 64)
	return y, err == nil && !math.IsNaN(y) && !math.IsInf(y, 0)
}

// writeQuantity writes q in the unit of the trade that takes the fewest
// characters and reads back as the same float64, and otherwise in the SI base
// unit, which always does.
func writeQuantity(q quantity.Quantity) string {
	best, size := inBaseUnit(q), math.MaxInt
	for _, u := range q.Dim.Units() {
		x, err := q.In(u.Builder)
		x, ok := rounded(x)
		if err != nil || !ok {
			continue
		}
		number, unit := writeNumber(x), u.Symbol
		if u.Plural != "" && x != 1 {
			unit = u.Plural
		}
		back, err := quantity.ParseAs(q.Dim, number+" "+unit)
		if err == nil && back.SI == q.SI && len(number) < size {
			best, size = number+" "+unit, len(number)
		}
	}
	return best
}

func inBaseUnit(q quantity.Quantity) string { return writeNumber(q.SI) + " " + q.Dim.BaseUnit() }

// quantityFault reports a quantity that cannot be read, at the character that
// is at fault.
func quantityFault(r *report, n *document.Node, path, reads string, err error) {
	var bad *quantity.ParseError
	if !errors.As(err, &bad) {
		r.add(fault{path: path, code: CodeQuantity, says: "cannot be read: " + err.Error(), want: reads})
		return
	}
	d := r.add(fault{path: path, code: CodeQuantity, says: "cannot be read: " + bad.Problem, want: reads})
	d.Nearest = bad.Nearest
	if len(bad.Wanted) > 0 {
		d.Wanted = reads + "; units are " + strings.Join(bad.Wanted, ", ")
	}
	if bad.Offset > 0 {
		d.Place, d.Width = n.At(bad.Offset), 1
	}
}
