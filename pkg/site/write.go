package site

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/internal/sieve"
	"example.com/groundrule/pkg/quantity"
)

// item is one entry to write: a text, a list of plain numbers, entries of its
// own, or a list of such. The text of a number and of a yes or no needs no
// quotes in JSON.
type item struct {
	key   string
	text  string
	plain bool
	flow  []string
	kids  []item
	list  [][]item
}

// Write writes a site as a job file that [Read] reads back as the same site, to
// the last bit of each value. Only what is known is written. The error is the
// [*Error] of a site that does not validate.
func Write(s *Site) ([]byte, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	writeItems(&b, "", written(s.fields().fields, s))
	return b.Bytes(), nil
}

// MarshalJSON writes the site as a job file in JSON, with its values in the units
// in which people write them. The error is the [*Error] of a site that does not
// validate.
func (s Site) MarshalJSON() ([]byte, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	writeObject(&b, written(s.fields().fields, &s))
	return b.Bytes(), nil
}

// UnmarshalJSON reads a job file in JSON, as [Read] does. The error is an
// [*Error].
func (s *Site) UnmarshalJSON(data []byte) error {
	read, err := Read("job.json", data)
	if err != nil {
		return err
	}
	*s = *read
	return nil
}

// written returns the items to write, in the order of the table.
func written(fields []*Field, holder any) []item {
	var out []item
	for _, f := range fields {
		it := item{key: f.key}
		if f.Form == GroupForm {
			if it.kids = written(f.kids, holder); it.kids != nil {
				out = append(out, it)
			}
			continue
		}
		x, given := f.get(holder)
		if !given {
			continue
		}
		if f.question {
			it.text = holder.(*Site).Company[f.key]
			out = append(out, it)
			continue
		}
		switch f.Form {
		case AnswersForm:
			answers := x.(map[string]string)
			for _, name := range slices.Sorted(maps.Keys(answers)) {
				it.kids = append(it.kids, item{key: name, text: answers[name]})
			}
		case ListForm:
			for _, each := range f.items(holder) {
				it.list = append(it.list, written(f.kids, each))
			}
		case NumbersForm:
			for _, each := range x.([]float64) {
				it.flow = append(it.flow, writeNumber(each))
			}
		default:
			it.text, it.plain = f.text(x), f.Form == FlagForm || f.Form == NumberForm
		}
		out = append(out, it)
	}
	return out
}

// text writes one value as a job file has it.
func (f *Field) text(x any) string {
	switch v := x.(type) {
	case bool:
		if v {
			return "yes"
		}
		return "no"
	case float64:
		return writeNumber(v)
	case quantity.Share:
		if f.slope {
			return writeSlope(v)
		}
		return strings.TrimSuffix(writeShare(v), " %")
	case int:
		return strconv.Itoa(v)
	case quantity.Length:
		if f.sieve {
			return writeSieve(v)
		}
		return writeQuantity(v.Quantity())
	case quantity.Measure:
		return writeQuantity(v.Quantity())
	}
	return reflect.ValueOf(x).String()
}

const step = "  "

func writeItems(b *bytes.Buffer, indent string, items []item) {
	for _, it := range items {
		b.WriteString(indent + it.key + ":")
		switch {
		case it.kids != nil:
			b.WriteByte('\n')
			writeItems(b, indent+step, it.kids)
		case it.list != nil:
			b.WriteByte('\n')
			for _, each := range it.list {
				// The first entry stands behind the dash.
				var inner bytes.Buffer
				writeItems(&inner, indent+step+step, each)
				b.WriteString(indent + step + "- ")
				b.WriteString(strings.TrimPrefix(inner.String(), indent+step+step))
			}
		case it.flow != nil:
			b.WriteString(" [" + strings.Join(it.flow, ", ") + "]\n")
		default:
			b.WriteString(" " + scalar(it.text) + "\n")
		}
	}
}

func writeObject(b *bytes.Buffer, items []item) {
	b.WriteByte('{')
	for i, it := range items {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(quoted(it.key) + ":")
		switch {
		case it.kids != nil:
			writeObject(b, it.kids)
		case it.list != nil:
			for j, each := range it.list {
				b.WriteByte("[,"[min(j, 1)])
				writeObject(b, each)
			}
			b.WriteByte(']')
		case it.flow != nil:
			b.WriteString("[" + strings.Join(it.flow, ",") + "]")
		case it.plain:
			b.WriteString(strings.NewReplacer("yes", "true", "no", "false").Replace(it.text))
		default:
			b.WriteString(quoted(it.text))
		}
	}
	b.WriteByte('}')
}

// quoted writes a text in JSON, with <, > and & as they are.
func quoted(text string) string {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	_ = enc.Encode(text) // a text is always written
	return strings.TrimSuffix(b.String(), "\n")
}

// bare matches texts that mean themselves in YAML without quotes.
var bare = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9 _./%()+-]*$`)

// scalar writes a text bare where that is safe and in double quotes elsewhere.
// The escapes of a Go string are all escapes of YAML.
func scalar(text string) string {
	if bare.MatchString(text) && !strings.HasSuffix(text, " ") && !strings.EqualFold(text, "null") {
		return text
	}
	return strconv.Quote(text)
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

// writeSieve writes a sieve's name, or its opening where no name reads back.
func writeSieve(l quantity.Length) string {
	name := sieve.Name(l)
	if back, err := sieve.Opening(name); err != nil || back != l {
		return inBaseUnit(l.Quantity())
	}
	return name
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

// writeShare writes a share in percent; one that is not a number as the text that
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
	return y, err == nil && portable.Finite(y)
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
