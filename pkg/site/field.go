package site

import (
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Field is one value that a job can give, and all that there is to say of it:
// how it is written, what may stand there, and how a [Site] holds it. [Fields]
// and [Inputs] list them.
type Field struct {
	// Path is the key in a job file with those of the groups it stands in, such as
	// "soil.liquid_limit"; [] stands behind a list, as in "soil.sieves[].passing".
	// Rules read the value by the same name.
	Path string
	// Label is a short name, for a form; About says what the value is.
	Label, About string
	Form         Form
	// Dim is the dimension of a measured value.
	Dim quantity.Dimension
	// Range is what is possible at all; it may be more than a rulebook covers.
	// Its unit is that of a plain number too. Whole numbers alone count something.
	Range calculation.Range
	Whole bool
	// Day reports that the text is a day, such as "2026-04-20".
	Day bool
	// Vocabulary holds the words that may be written; one without words is open: any
	// text may stand there, until a rulebook is asked.
	Vocabulary value.Vocabulary
	// Example is a value as a job file writes it.
	Example string
	// Required fields may not be missing: from the job, or from the item of the
	// list in which they stand.
	// A key of Unless that the job has takes its place.
	Required bool
	Unless   []string
	// Rules reports whether rules read the value.
	Rules bool
	// Contradictions are the values of other fields beside which this one cannot
	// stand. NotBelow is the path of a field that it cannot be less than.
	Contradictions []Contradiction
	NotBelow       string
	// From are the paths from which a derived value is worked out, by arithmetic
	// alone; empty for a value that is written. Total reports whether it is known
	// wherever all of these are.
	From  []string
	Total bool
	// WholeJob fields are said of the whole job alone; any other may differ in an area.
	WholeJob bool
	// Item names one item of a list.
	Item string

	key  string
	kids []*Field // of a group, or of each item of a list
	// words names the vocabulary of a rulebook that the value is a word of.
	words string
	// at returns the address of the Go field, of the struct that holds it.
	at func(any) any
	// keys are what people write in place of the key, and confused the units that
	// they take for each other.
	keys, confused []string
	// read reads a word where the vocabulary alone does not tell.
	read func(text string) (word, problem string)
	// zero reports that the zero value is one like any other, and question that the
	// field is a question of a company.
	zero, slope, sieve, question bool
	// object is the kind of a derived value that rules only pass on.
	object value.Kind
	// told is what a text tells a job beside the value itself.
	told   func(s *Site, text string)
	derive func(*Site) (any, bool)
	put    func(*Site, float64)
	solve  func(value, other float64) float64
}

// Form is the form in which a value is written.
type Form string

// objectForm is that of a derived value that rules only pass on.
const objectForm Form = "object"

// The forms of a field.
const (
	GroupForm    Form = "group"    // keys of its own
	ListForm     Form = "list"     // a list of items with keys of their own
	TextForm     Form = "text"     // free text
	WordForm     Form = "word"     // a word of a vocabulary
	FlagForm     Form = "flag"     // yes or no
	NumberForm   Form = "number"   // a plain number
	NumbersForm  Form = "numbers"  // one plain number, or a list of them
	MeasuredForm Form = "measured" // a quantity with its unit
	AnswersForm  Form = "answers"  // answers to questions of a company, before a rulebook says which there are
)

// Contradiction is a value of another field beside which a field cannot stand.
type Contradiction struct {
	// Is is the value of the field of which this is so, "" for any.
	Is string
	// With is the path of the other field, and Words the values that it cannot
	// have; with none, any. AboveZero means any above zero.
	With      string
	Words     []string
	AboveZero bool
	// Because follows the path in a message.
	Because string
}

// of makes the address of a Go field out of the struct that holds it.
func of[S any](at func(*S) any) func(any) any { return func(x any) any { return at(x.(*S)) } }

// complete works out of the Go type what a row of the table leaves unsaid.
func complete(fields []*Field, path string, holder any) {
	for _, f := range fields {
		f.Path = join(path, f.key)
		if f.at == nil {
			f.Form = GroupForm
			complete(f.kids, f.Path, holder)
			continue
		}
		t := reflect.TypeOf(f.at(holder)).Elem()
		if t.Kind() == reflect.Pointer {
			t = t.Elem()
		}
		f.Form, f.Dim, f.Vocabulary = formOf(t)
		if f.words != "" {
			f.Form, f.Vocabulary = WordForm, value.Vocabulary{Name: f.words}
		}
		if f.slope {
			f.Form = MeasuredForm
		}
		switch f.Form {
		case FlagForm:
			f.Example = "yes"
		case ListForm:
			complete(f.kids, f.Path+"[]", reflect.New(t.Elem()).Interface())
		}
	}
}

func formOf(t reflect.Type) (Form, quantity.Dimension, value.Vocabulary) {
	switch x := reflect.Zero(t).Interface().(type) {
	case value.Worded:
		return WordForm, quantity.NoDimension, x.Vocabulary()
	case quantity.Share:
		return NumberForm, quantity.DimShare, value.Vocabulary{}
	case quantity.Measure:
		return MeasuredForm, x.Quantity().Dim, value.Vocabulary{}
	case bool:
		return FlagForm, quantity.NoDimension, value.Vocabulary{}
	case float64, int:
		return NumberForm, quantity.DimRatio, value.Vocabulary{}
	case []float64:
		return NumbersForm, quantity.DimRatio, value.Vocabulary{}
	case string:
		return TextForm, quantity.NoDimension, value.Vocabulary{}
	case map[string]string:
		return AnswersForm, quantity.NoDimension, value.Vocabulary{}
	}
	return ListForm, quantity.NoDimension, value.Vocabulary{}
}

// Fields lists every field of a job file whose words are open: see [Table.Fields].
func Fields() []Field { return open().Fields() }

// copied returns a field that whoever gets it may change.
func (f *Field) copied() Field {
	out := *f
	out.Vocabulary.Words = slices.Clone(f.Vocabulary.Words)
	out.Contradictions, out.From = slices.Clone(f.Contradictions), slices.Clone(f.From)
	for i, c := range out.Contradictions {
		out.Contradictions[i].Words = slices.Clone(c.Words)
	}
	return out
}

// needless reports whether a job gives what takes the place of a required value.
func (f *Field) needless(job any) bool {
	return slices.ContainsFunc(f.Unless, func(key string) bool {
		fields := job.(*Site).fields().fields
		return written(fields[slices.IndexFunc(fields, func(f *Field) bool { return f.key == key }):][:1], job) != nil
	})
}

// Kind returns the kind of value that rules read; that of a group, and of a list
// of items, is none.
func (f Field) Kind() value.Kind {
	switch f.Form {
	case objectForm:
		return f.object
	case TextForm:
		return value.TextKind
	case WordForm:
		return value.Kind(f.Vocabulary.Name)
	case FlagForm:
		return value.BoolKind
	case NumberForm, MeasuredForm:
		return value.DimensionKind(f.Dim)
	case NumbersForm:
		return value.ListOf(value.NumberKind)
	}
	return value.NoKind
}

// Derived reports whether the value is worked out from others.
func (f Field) Derived() bool { return len(f.From) > 0 }

// Wanted says in words what may be written, such as "length, such as 82 ft".
func (f Field) Wanted() string {
	such := ", such as " + f.Example
	switch f.Form {
	case GroupForm:
		return "keys of its own"
	case ListForm:
		return "a list, each " + f.Item
	case AnswersForm:
		return "names of questions, each with its answer"
	case TextForm:
		if f.Day {
			return "a date" + such
		}
	case WordForm:
		if len(f.Vocabulary.Words) == 0 {
			return "a word" + such
		}
		return "one of " + strings.Join(f.mayBe(), ", ")
	case FlagForm:
		return "yes or no"
	case NumbersForm:
		one := f
		one.Form = NumberForm
		return one.Wanted() + ", or a list of such"
	case NumberForm:
		if f.Range.Unit == "%" {
			return "percent" + such
		}
		return "a plain number" + such
	case MeasuredForm:
		switch {
		case f.slope:
			return "slope" + such + ", 1/4 in per ft or 1:50"
		case f.sieve:
			return "sieve" + such + " or 3/4 in, or an opening, such as 0.02 mm"
		}
		return f.Dim.String() + such
	}
	return "text"
}

// mayBe lists the words that may be written.
func (f *Field) mayBe() []string {
	var out []string
	for _, w := range f.Vocabulary.Words {
		out = append(out, w.GoValue())
	}
	return out
}

// Get returns the value that a site gives: a float64, a bool, a quantity of its
// own type, a string, which may be a word, or a []float64. given is false where it
// is not known, for a group, and for what stands in a list.
func (f Field) Get(s *Site) (x any, given bool) {
	switch {
	case s == nil || f.Form == GroupForm || strings.Contains(f.Path, "[]"):
		return nil, false
	case f.derive != nil:
		x, given = f.derive(s)
	default:
		x, given = f.get(s)
	}
	switch v := reflect.ValueOf(x); {
	case !given || !finite(v):
		return nil, false
	case f.Form == WordForm:
		return v.String(), true
	case f.question && f.Form == MeasuredForm:
		return quantity.Quantity{Dim: f.Dim, SI: v.Float()}, true
	}
	return x, true
}

// finite is false for what is not a number, which only a site that does not
// validate can hold.
func finite(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return portable.Finite(v.Float())
	case reflect.Slice:
		for i := range v.Len() {
			if !finite(v.Index(i)) {
				return false
			}
		}
	}
	return true
}

// get returns what a struct holds, and whether it is known.
func (f *Field) get(holder any) (x any, given bool) {
	if f.question {
		text, told := holder.(*Site).Company[f.key]
		if x, wrong := f.parse(text); told && wrong == nil {
			return x, true
		}
		return nil, false
	}
	v := reflect.ValueOf(f.at(holder)).Elem()
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return nil, false
		}
		return v.Elem().Interface(), true
	case reflect.Slice:
		given = v.Len() > 0
		return reflect.AppendSlice(reflect.Zero(v.Type()), v).Interface(), given
	}
	return v.Interface(), f.zero || !v.IsZero()
}

// Set gives a site a value, or with nil takes it away. A number is a float64, a
// quantity too, in SI; a word is a string, as a job file writes it. Of a derived
// value it gives what that is worked out from, where one value tells. The error
// says that the field takes no such value; whether the value is possible is for
// [Site.Validate].
func (f Field) Set(s *Site, x any) error {
	number, isNumber := x.(float64)
	list, isList := x.([]float64)
	text, isText := x.(string)
	flag, isFlag := x.(bool)
	switch {
	case strings.Contains(f.Path, "[]"):
	case f.put != nil && isNumber:
		f.put(s, number)
		return nil
	case f.at == nil && !f.question:
	case x == nil:
		f.clear(s)
		return nil
	case isNumber && (f.Form == NumberForm || f.Form == MeasuredForm):
		f.set(s, number)
		return nil
	case isNumber && f.Form == NumbersForm:
		f.set(s, []float64{number})
		return nil
	case isList && f.Form == NumbersForm:
		f.set(s, slices.Clone(list))
		return nil
	case isText && (f.Form == WordForm || f.Form == TextForm):
		f.set(s, text)
		return nil
	case isFlag && f.Form == FlagForm:
		f.set(s, flag)
		return nil
	}
	return fmt.Errorf("site: %s cannot be set to a value of type %T", f.Path, x)
}

// set puts a value of the field's form into the struct that holds it.
func (f *Field) set(holder, x any) {
	if f.question {
		if si, measured := x.(float64); measured && f.Form == MeasuredForm {
			x = quantity.Quantity{Dim: f.Dim, SI: si}
		}
		f.answer(holder, f.text(x))
		return
	}
	v := reflect.ValueOf(f.at(holder)).Elem()
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	v.Set(reflect.ValueOf(x).Convert(v.Type()))
}

// clear takes a value out of the struct that holds it.
func (f *Field) clear(holder any) {
	if f.question {
		f.answer(holder, "")
		return
	}
	reflect.ValueOf(f.at(holder)).Elem().SetZero()
}

// answer gives a site the answer to a question, or takes it away.
func (f *Field) answer(holder any, text string) {
	s := holder.(*Site)
	if s.Company = maps.Clone(s.Company); s.Company == nil {
		s.Company = map[string]string{}
	}
	if s.Company[f.key] = text; text == "" {
		delete(s.Company, f.key)
	}
}

// Sample returns the example as [Field.Set] takes it, nil for a group and a list.
func (f Field) Sample() any {
	if f.Form == GroupForm || f.Form == ListForm || f.Form == AnswersForm {
		return nil
	}
	x, _ := f.parse(f.Example) // tests hold that every example can be read
	return x
}

// Solve returns what the first of From must be for a derived value to come out
// as wanted, where the second is other; ok is false where that is not how the
// value is worked out.
func (f Field) Solve(wanted, other float64) (first float64, ok bool) {
	if f.solve == nil {
		return 0, false
	}
	first = f.solve(wanted, other)
	return first, !math.IsNaN(first)
}

// items returns the address of each item of a list.
func (f *Field) items(holder any) []any {
	v := reflect.ValueOf(f.at(holder)).Elem()
	out := make([]any, v.Len())
	for i := range out {
		out[i] = v.Index(i).Addr().Interface()
	}
	return out
}

// grow adds an empty item to a list and returns its address.
func (f *Field) grow(holder any) any {
	v := reflect.ValueOf(f.at(holder)).Elem()
	v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
	return v.Index(v.Len() - 1).Addr().Interface()
}
