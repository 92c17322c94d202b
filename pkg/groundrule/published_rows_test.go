package groundrule_test

import (
	"encoding"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/sieve"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// TestPublishedValues works out every row of testdata/published: worked examples
// and table cells, kept as text with their document, place and tag, apart from
// the code that they check.
func TestPublishedValues(t *testing.T) {
	functions := append(groundrule.Calculations(), calculation.Function{
		Name: "sieve_opening", About: "The opening of a sieve.",
		Params: []calculation.Param{{Name: "name", About: "its name"}}, Result: calculation.Param{Name: "opening", About: "its opening"},
		Sources: []value.Source{{ID: "astm-e11", Known: value.Seen}}, Go: sieve.Opening,
	})
	functions = append(functions, ordering()...)
	files, err := filepath.Glob("../../testdata/published/*.yaml")
	require.NoError(t, err)
	require.Len(t, files, 7)
	for _, path := range files {
		t.Run(filepath.Base(path), func(t *testing.T) { checkRows(t, path, functions) })
	}
}

// publishedRow is one published value.
type publishedRow struct {
	// Name is unique in its file.
	Name string `yaml:"name"`
	// Why says what the row is there to catch.
	Why string `yaml:"why"`
	// Document, Place and Known say where the printed value stands and how it
	// is known.
	Document string      `yaml:"document"`
	Place    string      `yaml:"place"`
	Known    value.Known `yaml:"known"`
	// Call names the calculation, Args its arguments as text.
	Call string   `yaml:"call"`
	Args []string `yaml:"args"`
	// Printed is the value as published, in the unit in which it is printed.
	Printed string `yaml:"printed"`
	// Tolerance is how far the calculation may be from the print, in the same
	// unit; Because says why that far. Words and names must agree exactly and
	// need no tolerance.
	Tolerance string `yaml:"tolerance"`
	Because   string `yaml:"because"`
}

// readRows reads a file of rows and checks that each is complete.
func readRows(r io.Reader) ([]publishedRow, error) {
	var rows []publishedRow
	dec := yaml.NewDecoder(r)
	dec.KnownFields(true)
	if err := dec.Decode(&rows); err != nil {
		return nil, err
	}
	seen := map[string]bool{}
	for i, row := range rows {
		switch {
		case row.Name == "" || seen[row.Name]:
			return nil, fmt.Errorf("row %d: the name %q is missing or given twice", i+1, row.Name)
		case row.Why == "" || row.Document == "" || row.Place == "" || row.Call == "" || row.Printed == "":
			return nil, fmt.Errorf("row %q: why, document, place, call and printed are all needed", row.Name)
		case !row.Known.Valid():
			return nil, fmt.Errorf("row %q: known is %q, wanted one of %v", row.Name, row.Known, value.AllKnown())
		case (row.Tolerance == "") != (row.Because == ""):
			return nil, fmt.Errorf("row %q: a tolerance and its because go together", row.Name)
		}
		seen[row.Name] = true
	}
	return rows, nil
}

// holds works the row out with the function of its name and compares it with
// the print. The error says what was worked out and what was printed.
func (row publishedRow) holds(functions []calculation.Function) error {
	for _, f := range functions {
		if f.Name == row.Call {
			return row.check(f)
		}
	}
	return fmt.Errorf("no calculation is called %q", row.Call)
}

func (row publishedRow) check(f calculation.Function) error {
	sig, err := signature.Of(f)
	if err != nil {
		return err
	}
	if len(row.Args) != len(sig.Params) {
		return fmt.Errorf("%d arguments given, %s takes %d", len(row.Args), f.Name, len(sig.Params))
	}
	in := make([]reflect.Value, len(row.Args))
	for i, text := range row.Args {
		if in[i], err = goValue(sig.Params[i], text); err != nil {
			return fmt.Errorf("argument %d (%s): %w", i+1, f.Params[i].Name, err)
		}
	}
	out := reflect.ValueOf(f.Go).Call(in)
	if sig.Fails {
		if err, _ := out[1].Interface().(error); err != nil {
			return err
		}
	}
	return row.compare(sig.Result, out[0])
}

func (row publishedRow) compare(kind signature.Kind, got reflect.Value) error {
	if _, read := reflect.New(kind.Go).Interface().(encoding.TextUnmarshaler); kind.Form == signature.Object && !read {
		if text := fmt.Sprint(got.Interface()); text != row.Printed {
			return fmt.Errorf("worked out %s, printed %s", text, row.Printed)
		}
		return nil
	}
	want, err := goValue(kind, row.Printed)
	if err != nil {
		return fmt.Errorf("printed: %w", err)
	}
	switch kind.Form {
	case signature.Number, signature.Measured:
		var tolerance float64
		if row.Tolerance != "" {
			t, err := goValue(kind, row.Tolerance)
			if err != nil {
				return fmt.Errorf("tolerance: %w", err)
			}
			tolerance = t.Float()
		}
		if off := math.Abs(got.Float() - want.Float()); !(off <= tolerance) {
			per := want.Float() / printedNumber(row.Printed)
			return fmt.Errorf("worked out %.6g, printed %s, tolerance %q", got.Float()/per, row.Printed, row.Tolerance)
		}
		return nil
	}
	if fmt.Sprint(got.Interface()) != fmt.Sprint(want.Interface()) {
		return fmt.Errorf("worked out %v, printed %s", got.Interface(), row.Printed)
	}
	return nil
}

// printedNumber is the number at the head of a printed value, 1 if there is none.
func printedNumber(text string) float64 {
	head, _, _ := strings.Cut(strings.ReplaceAll(text, ",", ""), " ")
	if x, err := strconv.ParseFloat(head, 64); err == nil && x != 0 {
		return x
	}
	return 1
}

func goValue(kind signature.Kind, text string) (reflect.Value, error) {
	out := reflect.New(kind.Go).Elem()
	switch kind.Form {
	case signature.Number:
		x, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", ""), 64)
		if err != nil {
			return out, err
		}
		out.SetFloat(x)
	case signature.Measured:
		q, err := quantity.ParseAs(kind.Dim, text)
		if err != nil {
			return out, err
		}
		out.SetFloat(q.SI)
	case signature.Bool:
		b, err := strconv.ParseBool(text)
		if err != nil {
			return out, err
		}
		out.SetBool(b)
	case signature.Word, signature.Text:
		out.SetString(text)
	case signature.Numbers:
		var xs []float64
		for _, field := range strings.Fields(text) {
			x, err := strconv.ParseFloat(field, 64)
			if err != nil {
				return out, err
			}
			xs = append(xs, x)
		}
		out.Set(reflect.ValueOf(xs))
	case signature.Object:
		u, ok := reflect.New(kind.Go).Interface().(encoding.TextUnmarshaler)
		if !ok { // an expression of the rule language
			book, err := groundrule.Standard()
			if err != nil {
				return out, err
			}
			v, err := book.Calculate(text, nil)
			if err != nil {
				return out, err
			}
			out.Set(reflect.ValueOf(v.Value.Data()))
			return out, nil
		}
		if err := u.UnmarshalText([]byte(text)); err != nil {
			return out, err
		}
		out.Set(reflect.ValueOf(u).Elem())
	}
	return out, nil
}

// checkRows checks every row of a file against the calculations, each as a subtest,
// and logs how many rows were read, relayed, recalled and worked by a second
// route. A row that is none of these fails.
func checkRows(t *testing.T, path string, functions []calculation.Function) {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := readRows(file)
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) == 0 {
		t.Fatalf("%s holds no rows", path)
	}
	count := map[value.Known]int{}
	for _, row := range rows {
		count[row.Known]++
		t.Run(row.Name, func(t *testing.T) {
			switch row.Known {
			case value.Seen, value.Relayed, value.Memory, value.Computed:
			default:
				t.Errorf("a value that is %s is neither published nor worked by a second route", row.Known)
			}
			if err := row.holds(functions); err != nil {
				t.Error(err)
			}
		})
	}
	t.Logf("%d rows: %d seen, %d relayed, %d from memory, %d computed", len(rows),
		count[value.Seen], count[value.Relayed], count[value.Memory], count[value.Computed])
}
