package site

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/groundrule/pkg/internal/document"
)

// scalarText returns the text of a scalar, or reports that there is none.
func scalarText(r *report, n *document.Node, path, want string) (string, bool) {
	switch n.Shape() {
	case document.Scalar:
		return n.Text(), true
	case document.NoShape: // refused, and reported, when the file was read
	default:
		r.add(fault{path: path, code: document.CodeNotSingle, says: "takes a single value", found: n.Shape().String(), want: want})
	}
	return "", false
}

// text is a field of free text.
func text[S any](key string, at func(*S) *string, about string) field[S] {
	f := field[S]{key: key, about: about, reads: "text"}
	parse := func(r *report, n *document.Node, path string) (string, bool) {
		return scalarText(r, n, path, "text")
	}
	verify := func(r *report, path, v string) {
		switch {
		case !printable(v):
			r.add(fault{path: path, code: CodeText, says: "holds characters that cannot be printed", found: shown(v), want: "plain text"})
		case v != "" && strings.TrimSpace(v) == "":
			r.add(fault{path: path, code: CodeText, says: "is blank", want: "text, or nothing"})
		}
	}
	return keep(f, filled(at), parse, verify, func(v string) string { return v })
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

// flag is a field that is yes or no.
func flag[S any](key string, at func(*S) **bool, about string) field[S] {
	const reads = "yes or no"
	f := field[S]{key: key, about: about, reads: reads}
	parse := func(r *report, n *document.Node, path string) (bool, bool) {
		text, ok := scalarText(r, n, path, reads)
		if !ok {
			return false, false
		}
		switch strings.ToLower(text) {
		case "yes", "true":
			return true, true
		case "no", "false":
			return false, true
		}
		r.add(fault{path: path, code: document.CodeNotBool, says: "is neither yes nor no", want: reads, near: []string{"yes", "no", "true", "false"}})
		return false, false
	}
	write := func(v bool) string {
		if v {
			return "yes"
		}
		return "no"
	}
	return keep(f, optional(at), parse, func(*report, string, bool) {}, write)
}

// worded is a field that takes a word of a vocabulary.
func worded[S any, W word](key string, at func(*S) *W, about string) field[S] {
	return wordedBy(key, wordOf[W], at, about)
}

// wordedBy is [worded] with a reading of its own.
func wordedBy[S any, W word](key string, read func(string) (W, string), at func(*S) *W, about string) field[S] {
	reads := "one of " + strings.Join(labels[W](), ", ")
	f := field[S]{key: key, about: about, reads: reads}
	unknown := func(r *report, path, problem, text string) {
		d := r.add(fault{path: path, code: CodeWord, says: problem, found: shown(text), want: reads})
		d.Nearest = nearestOf(text, labels[W]())
	}
	parse := func(r *report, n *document.Node, path string) (W, bool) {
		text, ok := scalarText(r, n, path, reads)
		if !ok {
			return "", false
		}
		w, problem := read(text)
		if problem != "" {
			unknown(r, path, problem, text)
		}
		return w, problem == ""
	}
	verify := func(r *report, path string, w W) {
		if !isWord(w) {
			unknown(r, path, noWord[W](), string(w))
		}
	}
	return keep(f, filled(at), parse, verify, func(w W) string { return string(w) })
}

// plainNumber is a decimal, with thousands in threes if they are set apart.
var plainNumber = regexp.MustCompile(`^[+-]?(\d{1,3}(,\d{3})+|\d+)?(\.\d*)?([eE][+-]?\d+)?$`)

// numberOf reads a plain number; a % sign behind it is allowed where the number
// is a percentage.
func numberOf(text string, percent bool) (float64, bool) {
	text = strings.TrimSpace(text)
	if percent {
		text = strings.TrimSpace(strings.TrimSuffix(text, "%"))
	}
	if !plainNumber.MatchString(text) {
		return 0, false
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", ""), 64)
	return x, err == nil
}

// writeNumber writes the shortest decimal that reads back as x, with a power of
// ten only where there would be a long row of noughts.
func writeNumber(x float64) string {
	const few, many = 1e-7, 1e15
	if size := math.Abs(x); size != 0 && (size < few || size >= many) {
		return strconv.FormatFloat(x, 'e', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// numeric is how a plain number is read and checked.
type numeric struct {
	percent bool
	in      bounds
	reads   string
}

func percentIn(in bounds, such string) numeric {
	return numeric{percent: true, in: in, reads: "percent, such as " + such}
}

func countIn(in bounds, such string) numeric {
	return numeric{in: in, reads: "a plain number, such as " + such}
}

func (k numeric) parse(r *report, n *document.Node, path string) (float64, bool) {
	text, ok := scalarText(r, n, path, k.reads)
	if !ok {
		return 0, false
	}
	x, ok := numberOf(text, k.percent)
	if !ok {
		r.add(fault{path: path, code: document.CodeNotNumber, says: "is no number", want: k.reads})
	}
	return x, ok
}

func (k numeric) verify(r *report, path string, x float64) {
	if !k.in.holds(x) {
		r.add(fault{path: path, code: CodeRange, says: "is out of range", found: fmt.Sprintf("%g", x), want: k.in.says})
	}
}

// number is a field that takes a plain number.
func number[S any](key string, k numeric, in slot[S, float64], about string) field[S] {
	return keep(field[S]{key: key, about: about, reads: k.reads}, in, k.parse, k.verify, writeNumber)
}

// whole is a field that takes a whole number of 1 or more.
func whole[S any](key, such string, at func(*S) *int, about string) field[S] {
	k := countIn(bounds{least: 1, most: 1e6, says: "a whole number, 1 or more"}, such)
	parse := func(r *report, n *document.Node, path string) (int, bool) {
		x, ok := k.parse(r, n, path)
		if !ok {
			return 0, false
		}
		if x != float64(int(x)) || !k.in.holds(x) {
			r.add(fault{path: path, code: CodeRange, says: "is out of range", want: k.in.says})
			return 0, false
		}
		return int(x), true
	}
	verify := func(r *report, path string, v int) { k.verify(r, path, float64(v)) }
	return keep(field[S]{key: key, about: about, reads: k.reads}, filled(at), parse, verify, strconv.Itoa)
}

// numbers is a field that takes one plain number or a list of them.
func numbers[S any](key string, k numeric, at func(*S) *[]float64, about string) field[S] {
	f := field[S]{key: key, about: about, reads: k.reads + ", or a list of such"}
	in := slot[S, []float64]{
		get: func(s *S) ([]float64, bool) { return *at(s), len(*at(s)) > 0 },
		set: func(s *S, v []float64) { *at(s) = v },
	}
	parse := func(r *report, n *document.Node, path string) ([]float64, bool) {
		if n.Shape() != document.Sequence {
			x, ok := k.parse(r, n, path)
			return []float64{x}, ok
		}
		var out []float64
		all := true
		for i, each := range n.Items() {
			at := index(path, i)
			r.nodes[at] = each
			x, ok := k.parse(r, each, at)
			if ok {
				k.verify(r, at, x)
			}
			out, all = append(out, x), all && !r.failed[at]
		}
		return out, all
	}
	verify := func(r *report, path string, v []float64) {
		for i, x := range v {
			at := index(path, i)
			if r.nodes[path] != nil && r.nodes[at] == nil {
				at = path
			}
			k.verify(r, at, x)
		}
	}
	f = keep(f, in, parse, verify, func([]float64) string { return "" })
	f.value = func(s *S) (any, bool) {
		v, given := in.get(s)
		return slices.Clone(v), given
	}
	f.write = func(s *S) (item, bool) {
		v, given := in.get(s)
		it := item{flow: make([]string, len(v))}
		for i, x := range v {
			it.flow[i] = writeNumber(x)
		}
		return it, given
	}
	return f
}

// list is a field that takes a list of mappings, each read into an E.
func list[S, E any](key, what string, at func(*S) *[]E, about string, fields ...field[E]) field[S] {
	f := field[S]{key: key, about: about, reads: "a list, each " + what}
	f.items = documented("", fields, nil)
	f.read = func(r *report, n *document.Node, path string, s *S) {
		switch n.Shape() {
		case document.Sequence:
		case document.NoShape:
			r.failed[path] = true
			return
		default:
			r.add(fault{path: path, code: document.CodeNotList, says: "takes a list", found: n.Shape().String(), want: f.reads})
			return
		}
		for i, each := range n.Items() {
			r.nodes[index(path, i)] = each
			var e E
			readFields(r, each, what, index(path, i), fields, &e)
			*at(s) = append(*at(s), e)
		}
	}
	f.check = func(r *report, path string, s *S) {
		for i := range *at(s) {
			if !r.failed[index(path, i)] {
				checkFields(r, index(path, i), fields, &(*at(s))[i])
			}
		}
	}
	f.value = func(s *S) (any, bool) { return *at(s), len(*at(s)) > 0 }
	f.write = func(s *S) (item, bool) {
		var it item
		for i := range *at(s) {
			it.list = append(it.list, writeFields(fields, &(*at(s))[i]))
		}
		return it, len(it.list) > 0
	}
	return f
}
