package groundrule_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/amounts"
	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/internal/structure"
	"example.com/groundrule/pkg/quantity"
)

// exampleCall is a calculation with the arguments of its example.
type exampleCall struct {
	calculation.Function
	sig signature.Signature
	in  []reflect.Value
}

// exampleCalls reads the example of every calculation of the library.
func exampleCalls(t *testing.T) []exampleCall {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	var out []exampleCall
	for _, f := range groundrule.Calculations() {
		sig, err := signature.Of(f)
		require.NoError(t, err)
		call := exampleCall{Function: f, sig: sig}
		arguments := split(strings.TrimSuffix(strings.TrimPrefix(f.Example, f.Name+"("), ")"))
		require.Len(t, arguments, len(sig.Params), f.Example)
		for i, text := range arguments {
			v, err := book.Calculate(text, nil)
			require.NoError(t, err, f.Example)
			in := reflect.New(sig.Params[i].Go).Elem()
			switch data := v.Value.Data().(type) {
			case quantity.Quantity:
				in.SetFloat(data.SI)
			case float64:
				in.SetFloat(data)
			case bool:
				in.SetBool(data)
			default:
				if word, ok := v.Value.Word(); ok {
					in.SetString(word.Go)
				} else if list, ok := v.Value.List(); ok {
					for _, each := range list {
						x, _ := each.Number()
						in.Set(reflect.Append(in, reflect.ValueOf(x)))
					}
				} else {
					in.Set(reflect.ValueOf(data))
				}
			}
			call.in = append(call.in, in)
		}
		out = append(out, call)
	}
	return out
}

// split cuts at the commas that stand in no bracket and in no quotes.
func split(text string) []string {
	var out []string
	depth, from, quoted := 0, 0, false
	for i, r := range text {
		switch {
		case r == '"':
			quoted = !quoted
		case quoted:
		case strings.ContainsRune("([", r):
			depth++
		case strings.ContainsRune(")]", r):
			depth--
		case r == ',' && depth == 0:
			out = append(out, strings.TrimSpace(text[from:i]))
			from = i + 1
		}
	}
	return append(out, strings.TrimSpace(text[from:]))
}

// call works the calculation out with other arguments.
func (c exampleCall) call(in []reflect.Value) (reflect.Value, error) {
	out := reflect.ValueOf(c.Go).Call(in)
	if !c.sig.Fails {
		return out[0], nil
	}
	err, _ := out[1].Interface().(error)
	return out[0], err
}

// numeric returns the value of a numeric argument, of a list its first.
func numeric(v reflect.Value) (float64, bool) {
	switch {
	case v.Kind() == reflect.Float64:
		return v.Float(), true
	case v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.Float64 && v.Len() > 0:
		return v.Index(0).Float(), true
	}
	return 0, false
}

// takes reports whether the calculation answers with x in place of argument i.
func (c exampleCall) takes(i int, x float64) bool {
	in := append([]reflect.Value(nil), c.in...)
	in[i] = reflect.New(c.in[i].Type()).Elem()
	if in[i].Kind() == reflect.Slice {
		in[i].Set(reflect.AppendSlice(in[i], c.in[i]))
		in[i].Index(0).SetFloat(x)
	} else {
		in[i].SetFloat(x)
	}
	_, err := c.call(in)
	return err == nil
}

// end halves what lies between a value that is taken and one that is not, down
// to the last place where it is taken; infinity if all is taken.
func (c exampleCall) end(i int, taken, far float64) float64 {
	if c.takes(i, far) {
		return math.Inf(int(far))
	}
	for math.Abs(far-taken) > 1e-13*math.Abs(taken) && math.Abs(far-taken) > 1e-16 {
		if middle := taken + (far-taken)/2; c.takes(i, middle) {
			taken = middle
		} else {
			far = middle
		}
	}
	return taken
}

// bound is one end of a range as a person writes it.
type bound struct {
	at   float64
	open bool
}

// readRange reads "0 to 100 %", "above 0 to below 5", "1 psi and up".
func readRange(k signature.Kind, text string) (low, high bound, err error) {
	read := func(text string) bound {
		b := bound{open: strings.HasPrefix(text, "above ") || strings.HasPrefix(text, "below ")}
		text = strings.TrimPrefix(strings.TrimPrefix(text, "above "), "below ")
		if k.Form == signature.Measured {
			q, fault := quantity.ParseAs(k.Dim, text)
			if fault != nil {
				err = fault
			}
			b.at = q.SI
			return b
		}
		var fault error
		if b.at, fault = strconv.ParseFloat(strings.ReplaceAll(text, ",", ""), 64); fault != nil {
			err = fault
		}
		return b
	}
	if from, ok := strings.CutSuffix(text, " and up"); ok {
		return read(from), bound{at: math.Inf(1)}, err
	}
	from, to, ok := strings.Cut(text, " to ")
	if !ok {
		return low, high, fmt.Errorf("%q is not a range", text)
	}
	if _, unit, ok := strings.Cut(strings.TrimPrefix(to, "below "), " "); ok && k.Form == signature.Measured {
		if _, own, _ := strings.Cut(strings.TrimPrefix(from, "above "), " "); own == "" {
			from += " " + unit
		}
	}
	return read(from), read(to), err
}

// TestEnds holds, for every number that a calculation takes, both ends of what
// is taken beside its example against testdata/ends, which was written from the
// words of the descriptions and not from the code.
func TestEnds(t *testing.T) {
	calls := map[string]exampleCall{}
	for _, c := range exampleCalls(t) {
		calls[c.Name] = c
	}
	for name, functions := range map[string][]calculation.Function{
		"amounts": amounts.Calculations(), "drainage": drainage.Calculations(), "geosynthetic": geosynthetic.Calculations(),
		"ground": ground.Calculations(), "plan": plan.Calculations(), "structure": structure.Calculations(),
	} {
		t.Run(name, func(t *testing.T) { testEnds(t, "../../testdata/ends/"+name+".yaml", functions, calls) })
	}
}

func testEnds(t *testing.T, path string, functions []calculation.Function, calls map[string]exampleCall) {
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	table := map[string]map[string]string{}
	require.NoError(t, yaml.Unmarshal(data, &table))
	for _, f := range functions {
		c := calls[f.Name]
		row := table[c.Name]
		delete(table, c.Name)
		for i, p := range c.Params {
			x, ok := numeric(c.in[i])
			if !ok {
				continue
			}
			text := row[p.Name]
			delete(row, p.Name)
			t.Run(c.Name+" "+p.Name, func(t *testing.T) {
				lowest, highest := c.end(i, x, -1e15), c.end(i, x, 1e15)
				if text == "" {
					t.Fatalf("testdata/ends has no range for it; in SI it takes %g to %g", lowest, highest)
				}
				low, high, err := readRange(c.sig.Params[i], text)
				require.NoError(t, err)
				c.holds(t, i, low, lowest)
				c.holds(t, i, high, highest)
			})
		}
		require.Empty(t, row, "testdata/ends has arguments that %s does not take", c.Name)
	}
	require.Empty(t, table, "testdata/ends has calculations that are not there")
}

// holds compares an end with the one found. The table may be rounded where an
// end follows from a formula; an end that is exact is in or out as it says.
func (c exampleCall) holds(t *testing.T, i int, want bound, found float64) {
	t.Helper()
	const rounded, exact = 1e-3, 1e-8
	nothing := 1e-12
	if c.sig.Params[i].Dim == quantity.DimTemperature {
		nothing = 1e-6 // degrees: a temperature is near to another on the absolute scale
	}
	off := math.Abs(found - want.at)
	if want.at != found && !(off <= rounded*math.Abs(want.at) || off <= nothing) {
		t.Errorf("what is taken ends at %g, and its description says %g (both in SI)", found, want.at)
	} else if near := off <= exact*math.Abs(want.at) || off <= nothing; near && c.takes(i, want.at) == want.open {
		t.Errorf("%g itself (in SI) is taken: %t, and its description says otherwise", want.at, want.open)
	}
}

// TestCalculationsStayFinite varies the arguments of every example, near and far:
// no calculation may panic, return what is not finite, return a value beside an
// error, or fail without saying why.
func TestCalculationsStayFinite(t *testing.T) {
	far := []float64{0, 1, -1, 1e-300, 1e300, math.MaxFloat64, math.SmallestNonzeroFloat64, math.NaN(), math.Inf(1), math.Inf(-1)}
	for _, c := range exampleCalls(t) {
		t.Run(c.Name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(15, 16))
			answers := 0
			for range 200 {
				in := append([]reflect.Value(nil), c.in...)
				for i := range in {
					if in[i].Kind() != reflect.Float64 || r.IntN(3) == 0 {
						continue
					}
					x := in[i].Float() * math.Exp(r.NormFloat64()*r.Float64()*3)
					if r.IntN(10) == 0 {
						x = far[r.IntN(len(far))]
					}
					in[i] = reflect.New(in[i].Type()).Elem()
					in[i].SetFloat(x)
				}
				out, err := c.call(in)
				switch {
				case err == nil && out.Kind() == reflect.Float64:
					require.True(t, portable.Finite(out.Float()), "%v is %v", in, out)
				case err != nil:
					require.NotEmpty(t, err.Error(), "%v", in)
					require.True(t, out.IsZero(), "%v: %v beside %v", in, out, err)
				}
				if err == nil {
					answers++
				}
			}
			require.Positive(t, answers, "it never answers near its example")
		})
	}
}
