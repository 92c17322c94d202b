package site

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/sieve"
	"example.com/groundrule/pkg/quantity"
)

// parse reads a value as a job file writes it: a float64 in SI, a bool, or the
// text of a word or of anything else.
func (f *Field) parse(text string) (any, *fault) {
	switch f.Form {
	case FlagForm:
		switch strings.ToLower(strings.TrimSpace(text)) {
		case "yes", "true":
			return true, nil
		case "no", "false":
			return false, nil
		}
		return nil, &fault{code: document.CodeNotBool, says: "is neither yes nor no", want: f.Wanted(), near: []string{"yes", "no", "true", "false"}}
	case WordForm:
		return f.parseWord(text)
	case NumberForm, NumbersForm:
		return f.parseNumber(text)
	case MeasuredForm:
		return f.parseMeasured(text)
	}
	if f.Day && !isDay(text) {
		return nil, &fault{code: CodeText, says: "is not a date", want: f.Wanted()}
	}
	return text, nil
}

// isDay reports whether a text is a day of the calendar.
func isDay(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}

// parseWord finds the word that text writes. Where words are open it is the text.
func (f *Field) parseWord(text string) (any, *fault) {
	if len(f.Vocabulary.Words) == 0 && strings.TrimSpace(text) != "" && printable(text) {
		return text, nil
	}
	word, problem := f.wordOf(text), ""
	if f.read != nil {
		word, problem = f.read(text)
	}
	if word == "" {
		return nil, f.unknownWord(problem, text)
	}
	return word, nil
}

// unknownWord is the fault of a text that is not a word of the vocabulary; the
// problem says more than that, if there is more to say.
func (f *Field) unknownWord(problem, text string) *fault {
	if problem == "" {
		problem = "is not a known word for " + cmp.Or(f.Vocabulary.About, f.About)
	}
	out := &fault{code: CodeWord, says: problem, text: text, found: shown(text), want: f.Wanted(), near: f.mayBe()}
	for _, w := range f.Vocabulary.Words {
		if slices.ContainsFunc(w.Loosely, func(said string) bool { return plain(said) == plain(text) }) {
			out.nearest = w.GoValue()
			out.want = fmt.Sprintf("%s: %s (%s), or %s", f.key, w.GoValue(), w.About, out.want)
			break
		}
		out.near = append(out.near, w.Also...)
	}
	return out
}

// plainNumber is a decimal, with thousands in threes if they are set apart.
var plainNumber = regexp.MustCompile(`^[+-]?(\d{1,3}(,\d{3})+|\d+)?(\.\d*)?([eE][+-]?\d+)?$`)

// parseNumber reads a plain number; the sign of a percentage may be left out.
func (f *Field) parseNumber(text string) (any, *fault) {
	number := strings.TrimSpace(text)
	if f.Range.Unit == "%" {
		number = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(number, "%"), "percent"))
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(number, ",", ""), 64)
	if err == nil && f.Dim == quantity.DimShare {
		var q quantity.Quantity
		q, err = quantity.ParseAs(f.Dim, number+" %")
		x = q.SI
	}
	if err != nil || !plainNumber.MatchString(number) {
		return nil, &fault{code: document.CodeNotNumber, says: "is not a number", want: f.Wanted()}
	}
	return x, nil
}

func (f *Field) parseMeasured(text string) (any, *fault) {
	if f.slope {
		if x, ok := slopeOf(text); ok {
			return float64(x), nil
		}
		return nil, &fault{code: CodeQuantity, says: "is not a slope with its unit", want: f.Wanted()}
	}
	if f.sieve {
		if l, err := sieve.Opening(text); err == nil {
			return float64(l), nil
		}
		if sieveByName.MatchString(text) {
			return nil, &fault{code: CodeWord, says: "is not a sieve of the US series", want: f.Wanted(), near: usualSieves}
		}
	}
	q, err := quantity.ParseAs(f.Dim, text)
	if err == nil {
		return q.SI, nil
	}
	if long, wide, ok := rectangle(text); ok && f.Dim == quantity.DimArea {
		return float64(long) * float64(wide), nil
	}
	out := &fault{code: CodeQuantity, says: "cannot be read: " + err.Error(), want: f.Wanted()}
	var bad *quantity.ParseError
	if errors.As(err, &bad) {
		out.says, out.nearest, out.offset = "cannot be read: "+bad.Problem, bad.Nearest, bad.Offset
		if len(bad.Wanted) > 0 {
			out.want += "; units are " + strings.Join(bad.Wanted, ", ")
		}
	}
	return nil, out
}

// sieveByName matches what names a sieve and is not its opening: a number of the
// series, or inches, which a sieve of that name does not exactly open.
var sieveByName = regexp.MustCompile(`(?i)^\s*(no\b|no\.|#)|(in|in\.|inch|inches|")\s*$`)

// usualSieves are those offered for a name that is not a sieve's.
var usualSieves = []string{
	"3 in", "2 in", "1-1/2 in", "1 in", "3/4 in", "1/2 in", "3/8 in", "No. 4", "No. 8", "No. 10",
	"No. 16", "No. 20", "No. 30", "No. 40", "No. 50", "No. 60", "No. 100", "No. 140", "No. 200",
}

// oneTo matches a fall of one in so many, such as 1:50.
var oneTo = regexp.MustCompile(`^\s*1\s*(?::|in)\s*(\d+(?:\.\d+)?)\s*$`)

// sides matches the two sides of a rectangle.
var sides = regexp.MustCompile(`(?i)^(.+?)\s*(?:[x×*]|\bby\b)\s*(.+)$`)

// rectangle reads the sides of one, such as 20 x 30 ft or 20 ft by 12 ft 6 in. A side
// without a unit has that of the other.
func rectangle(text string) (first, second quantity.Length, ok bool) {
	m := sides.FindStringSubmatch(text)
	if m == nil {
		return 0, 0, false
	}
	b, err := quantity.ParseAs(quantity.DimLength, m[2])
	if err != nil {
		return 0, 0, false
	}
	if _, err := strconv.ParseFloat(m[1], 64); err == nil {
		m[1] += strings.TrimLeft(m[2], "0123456789.,/- ")
	}
	a, err := quantity.ParseAs(quantity.DimLength, m[1])
	return quantity.Length(a.SI), quantity.Length(b.SI), err == nil
}

// rectangular gives a job the rectangle that an area of so much by so much tells; any
// other area takes one away that is not of its size.
func rectangular(s *Site, text string) {
	if long, wide, ok := rectangle(text); ok {
		s.Shape.Length, s.Shape.Width = &long, &wide
	} else if r := s.Shape; r.Length != nil && r.Width != nil && apart(float64(s.Area), float64(*r.Length**r.Width)) {
		s.Shape.Length, s.Shape.Width = nil, nil
	}
}

// slopeOf reads a fall: a percentage, one in so many, or a length per length. A bare number is
// refused, since 2 and 0.02 are both written for 2 %.
func slopeOf(text string) (quantity.Share, bool) {
	if q, err := quantity.ParseAs(quantity.DimShare, text); err == nil {
		return quantity.Share(q.SI), true
	}
	if m := oneTo.FindStringSubmatch(text); m != nil {
		run, err := strconv.ParseFloat(m[1], 64)
		return quantity.Share(1 / run), err == nil && run > 0
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

// verify returns what is wrong with a value of the Go type that the site holds,
// or nil.
func (f *Field) verify(x any) *fault {
	possible := true
	switch v := x.(type) {
	case string:
		switch {
		case !printable(v):
			return &fault{code: CodeText, says: "holds characters that cannot be printed", found: shown(v), want: "plain text"}
		case v != "" && strings.TrimSpace(v) == "":
			return &fault{code: CodeText, says: "is blank", want: "text, or nothing"}
		case v != "" && f.Day && !isDay(v):
			return &fault{code: CodeText, says: "is not a date", found: shown(v), want: f.Wanted()}
		}
	case int:
		return f.verify(float64(v))
	case float64:
		possible = f.holds(v) && (!f.Whole || v == math.Trunc(v))
	case quantity.Measure:
		possible = f.holds(v.Quantity().SI)
	}
	if !possible {
		return &fault{code: CodeRange, says: "is out of range", found: f.text(x), want: f.possible(), fits: f.fitting}
	}
	if f.Form == WordForm {
		_, wrong := f.parseWord(reflect.ValueOf(x).String())
		return wrong
	}
	return nil
}

// printable leaves out control characters other than a line break and a tab,
// and bytes that are no characters.
func printable(text string) bool {
	if !utf8.ValidString(text) {
		return false
	}
	return !strings.ContainsFunc(text, func(c rune) bool {
		return c != '\n' && c != '\t' && unicode.IsControl(c) || c == unicode.ReplacementChar
	})
}
