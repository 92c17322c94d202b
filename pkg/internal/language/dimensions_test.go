package language

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// all are the dimensions with a number among them.
func all() []quantity.Dimension { return quantity.Dimensions() }

// operandEnv has a name for each dimension, a_ and b_ before its name.
func operandEnv(t testing.TB) (*Env, *Frame) {
	t.Helper()
	b := &Declarations{}
	values := map[string]value.Value{}
	for i, d := range all() {
		for j, side := range []string{"a_", "b_"} {
			name := side + d.Name()
			b.Names = append(b.Names, Name{Name: name, Kind: value.DimensionKind(d)})
			values[name] = value.Measured(quantity.Quantity{Dim: d, SI: float64(3 + 2*i + j)})
		}
	}
	e, err := New(*b)
	require.NoError(t, err)
	return e, frameOf(e, values)
}

// TestAlgebra holds that the operators between any two dimensions compile
// exactly where package quantity knows a result, and give that result.
func TestAlgebra(t *testing.T) {
	e, frame := operandEnv(t)
	works := map[string]func(a, b quantity.Quantity) (quantity.Quantity, error){
		"*": quantity.Quantity.Multiply, "/": quantity.Quantity.Divide,
		"+": func(a, b quantity.Quantity) (quantity.Quantity, error) {
			return quantity.Quantity{Dim: a.Dim, SI: a.SI + b.SI}, nil
		},
		"-": func(a, b quantity.Quantity) (quantity.Quantity, error) {
			return quantity.Quantity{Dim: a.Dim, SI: a.SI - b.SI}, nil
		},
	}
	known := func(op string, a, b quantity.Dimension) bool {
		switch op {
		case "*":
			_, ok := a.Product(b)
			return ok
		case "/":
			_, ok := a.Quotient(b)
			return ok
		}
		return a == b && a != quantity.DimTemperature
	}
	compiled, refused := 0, 0
	for _, a := range all() {
		for _, b := range all() {
			for op, work := range works {
				text := "a_" + a.Name() + " " + op + " b_" + b.Name()
				x, faults := e.Expression(text, value.NoKind, nil)
				if !known(op, a, b) {
					require.Len(t, faults, 1, text)
					require.EqualValues(t, "wrong-operands", faults[0].Code, text)
					refused++
					continue
				}
				require.Empty(t, faults, text)
				got, err := x.Eval(frame)
				require.NoError(t, err, text)
				qa, _ := frame.Value("a_" + a.Name())
				qb, _ := frame.Value("b_" + b.Name())
				want, err := work(quantityOf(qa), quantityOf(qb))
				require.NoError(t, err)
				require.Empty(t, cmp.Diff(want, quantityOf(got)), text)
				require.Equal(t, value.DimensionKind(want.Dim), x.Kind, text)
				compiled++
			}
		}
	}
	require.Greater(t, compiled, 50, "the algebra is there")
	require.Greater(t, refused, 500, "and the rest is refused")
}

func quantityOf(v value.Value) quantity.Quantity {
	if x, ok := v.Number(); ok {
		return quantity.Quantity{Dim: quantity.DimRatio, SI: x}
	}
	q, _ := v.Quantity()
	return q
}

// TestComparisons holds that only like is compared with like, by every operator.
func TestComparisons(t *testing.T) {
	e, frame := operandEnv(t)
	for _, a := range all() {
		for _, b := range all() {
			for op, want := range map[string]bool{"<": true, "<=": true, ">": false, ">=": false, "==": false, "!=": true} {
				text := "a_" + a.Name() + " " + op + " b_" + b.Name()
				c, faults := e.Condition(text, nil)
				if a != b {
					require.Len(t, faults, 1, text)
					require.EqualValues(t, "wrong-operands", faults[0].Code, text)
					continue
				}
				require.Empty(t, faults, text)
				got, err := c.Clauses[0].Holds(frame)
				require.NoError(t, err)
				require.Equal(t, want, got, text)
			}
		}
	}
}

func TestUnitBuilders(t *testing.T) {
	e := testEnv(t)
	for _, u := range quantity.Units() {
		x, faults := e.Expression(u.Builder+"(6)", value.DimensionKind(u.Dim), nil)
		require.Empty(t, faults, u.Builder)
		got, err := x.Eval(testFrame(e))
		require.NoError(t, err)
		want, err := u.Quantity(6)
		require.NoError(t, err)
		require.Equal(t, want, quantityOf(got), "%s is the unit %s", u.Builder, u.Symbol)
	}
}

// TestArithmetic has the cases that go wrong in plain CEL, or in plain float64.
func TestArithmetic(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct{ name, why, text, want string }{
		{"whole numbers divide", "CEL makes 3 of 7 / 2", "7 / 2", "3.5"},
		{"whole by fraction", "CEL has no int * double", "2 * 1.5", "3"},
		{"whole times a name", "nor between a literal and a double", "cbr * 2", "6"},
		{"negative literal", "CEL folds the sign into the literal", "-7 / 2", "-3.5"},
		{"large whole number", "as a double", "9223372036854775807 / 1e18", "9.223"},
		{"number times length", "CEL dispatches on the left side", "2 * inches(3)", "6 in"},
		{"length times number", "the left side need not be the number", "inches(3) * 2", "6 in"},
		{"length over length", "is a plain number again", "inches(3) / inches(2)", "1.5"},
		{"minus a length", "a sign keeps the dimension", "-inches(3) + inches(5)", "2 in"},
		{"force over area", "a quotient has a dimension of its own", "force / area", "0.2417 psi"},
		{"rate by time", "what rains in two hours is a depth", "rain * time", "0.7874 in"},
		{"volume by density", "what trucks bring is ordered by mass", "volume * density", "13.23 tons"},
		{"share of a length", "2 % of 10 ft", "slope * feet(10)", "2.4 in"},
		{"length over a share", "what 95 % of it is left of", "cu_yd(500) / percent(95)", "526.3 cu yd"},
		{"share of a share", "and so a share", "percent(10) * percent(50)", "5 %"},
		{"share over share", "is a plain number", "percent(12) / percent(6)", "2"},
		{"shares added", "what is left of a whole is a share again", "percent(100) - slope + percent(1)", "99 %"},
		{"share by a number", "in either order", "2 * slope / 4", "1 %"},
		{"larger share", "they have an order", "larger(slope, percent(1.5))", "2 %"},
		{"bracket", "the place of brackets counts", "(inches(2) + inches(4)) * 2", "12 in"},
		{"larger", "two units are compared as lengths", "larger(inches(6), mm(150))", "6 in"},
		{"smaller", "of two nearly equal ones the first", "smaller(inches(6), mm(152.4))", "6 in"},
		{"larger of temperatures", "they have an order", "larger(celsius(3), frost)", "37.4 F"},
		{"round up", "steps that fit are kept", "round_up(inches(2) + inches(4), inches(0.5))", "6 in"},
		{"round up, beyond", "a part of a step counts as a whole one", "round_up(inches(6.2), inches(0.5))", "6-1/2 in"},
		{"round down", "a part of a step is left off", "round_down(inches(6.2), inches(0.5))", "6 in"},
		{"round near", "the nearer step", "round_near(inches(6.2), inches(0.5))", "6 in"},
		{"round near, half way", "the greater of two that are as near", "round_near(inches(6.25), inches(0.5))", "6-1/2 in"},
		{"whole up", "0.1 + 0.2 over 0.1 is 3 and a little", "whole_up((0.1 + 0.2) / 0.1)", "3"},
		{"least", "of readings, wherever the least stands", "least(readings)", "3"},
		{"greatest", "of a list that is written out", "greatest([1, cbr, 2])", "3"},
		{"word of a calculation", "a word goes in and comes out, with a bool and a text beside it", "stronger(grid, wet, label)", "multiaxial"},
		{"words of a calculation", "each of them is handed on as it is", "stronger(no_grid, wet, label)", "no grid"},
		{"bool of a calculation", "a yes or no may be worked out", "is_soft(cbr)", "yes"},
		{"text of a calculation", "as may a text", "sign(cbr)", "CBR 3"},
		{"object of a calculation", "what one works out the next takes", "spread(cover, wheel_of(2)) == spread(cover, wheel_of(2.0))", "yes"},
		{"object", "it comes out as the calculation made it", "wheel_of(2)", "{2}"},
		{"list", "it comes out with all its items", "[cbr, 1.5]", "3, 1.5"},
		{"property", "a text may be one", "heavy_net.strength", "1,370 lb/ft"},
		{"count", "as a number, to compare with", "count(readings)", "3"},
	} {
		t.Run(c.name, func(t *testing.T) {
			x, faults := e.Expression(c.text, value.NoKind, nil)
			require.Empty(t, faults)
			got, err := x.Eval(testFrame(e))
			require.NoError(t, err)
			require.Equal(t, c.want, got.Text(quantity.US), c.why)
		})
	}
}

func TestEqualWithinTolerance(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct {
		name, why, text string
		want            bool
	}{
		{"tenths", "0.1+0.2 is not 0.3 in float64", "0.1 + 0.2 == 0.3", true},
		{"tenths, differ", "!= is the contrary of ==", "0.1 + 0.2 != 0.3", false},
		{"tenths, at most", "and agrees with <= and <", "0.1 + 0.2 <= 0.3", true},
		{"tenths, less", "what is equal is not less", "0.3 < 0.1 + 0.2", false},
		{"tenths, in", "in is == with each", "0.1 + 0.2 in [1, 0.3]", true},
		{"tenths, in a list", "lists compare item by item, with the same tolerance", "[0.1 + 0.2] == [0.3]", true},
		{"lists of two lengths", "the longer begins like the shorter, and is another", "[1] == [1, 1]", false},
		{"lengths", "2 in and 4 in are 6 in", "inches(2) + inches(4) == inches(6)", true},
		{"tenths, in none", "it is equal to no item", "0.1 + 0.2 in [0.1, 0.2]", false},
		{"words, in none", "a word that is not listed", "base in [sand, open_graded]", false},
		{"other name of a word", "it stands for the word", "stronger(grid, wet, label) == triaxial", true},
		{"other name of another", "and for no other", "grid == triaxial", false},
		{"lengths, in", "in has the tolerance for quantities too", "inches(2) + inches(4) in [mm(1), inches(6)]", true},
		{"two systems", "152.4 mm is 6 in", "mm(152.4) == inches(6)", true},
		{"near", "a millionth apart is apart", "0.300001 == 0.3", false},
		{"ratio of lengths", "1.5000000000000002 to float64", "inches(3) / inches(2) == 1.5", true},
		{"temperatures", "-5 C is 23 F", "frost == fahrenheit(23)", true},
		{"words", "a word equals itself", "base == panel", true},
		{"words, differ", "and so does not differ from itself", "base != panel", false},
		{"words, in", "the last of the list counts as the first does", "base in [open_graded, panel]", true},
		{"texts", "compared letter by letter, without a tolerance", `label == 'north'`, true},
		{"bools", "a yes can be compared with a yes", "wet == true", true},
		{"objects, differ", "by what they hold", "wheel_of(2) == wheel_of(3)", false},
		{"objects, alike", "wherever they were worked out", "wheel_of(2) == wheel_of(1 + 1)", true},
		{"objects", "what has no text is compared with itself all the same", "tire == tire", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			cond, faults := e.Condition(c.text, nil)
			require.Empty(t, faults)
			got, err := cond.Clauses[0].Holds(testFrame(e))
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
}

// TestNoResult holds that what has no finite result is an error and never Inf,
// which would be more than any limit.
func TestNoResult(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct {
		name, why, text, want string
		is                    error
	}{
		{"by zero", "CEL gives +Inf, and +Inf > 5 holds", "1 / 0", "1 / 0: arithmetic without a result: division by zero", ErrArithmetic},
		{"zero by zero", "NaN", "0 / zero", "0 / zero: arithmetic without a result: division by zero", ErrArithmetic},
		{"length by zero", "the quotient of a quantity has a check of its own", "cover / 0", "cover / 0: arithmetic without a result: division by zero", ErrArithmetic},
		{"length by no length", "a zero with a unit is a zero", "cover / inches(0)", "cover / inches(0): arithmetic without a result: division by zero", ErrArithmetic},
		{"within a comparison", "the error is not lost there", "1 / zero > 5", "1 / zero > 5: arithmetic without a result: division by zero", ErrArithmetic},
		{"too large", "a product of two finite numbers need not be finite", "1e308 * 10", "1e308 * 10: arithmetic without a result: the result is beyond all numbers", ErrArithmetic},
		{"sum too large", "nor need a sum", "1e308 + 1e308", "1e308 + 1e308: arithmetic without a result: the result is beyond all numbers", ErrArithmetic},
		{"no readings", "the least of nothing is not 0", "least(readings)", "least(readings): arithmetic without a result: no readings", ErrArithmetic},
		{"step of zero", "rounding to it would divide by zero", "round_up(cover, inches(0))", "round_up(cover, inches(0)): arithmetic without a result: the step of rounding must be above 0, got 0 in", ErrArithmetic},
		{"calculation gives NaN", "a calculation is held to it too", "endless(1)", "endless(1): arithmetic without a result: the result is NaN", ErrArithmetic},
		{"calculation panics", "one fault in it is not the end of the program", "panics(3)", "panics(3): a calculation is at fault: a fault of its own", ErrCalculation},
		{"calculation gives a word of no vocabulary", "it is told, not passed on", "lost(1)", "lost(1): \"paper\" is not a word of grid", nil},
		{"calculation refuses", "its own error comes through", "mean(readings)", "mean(readings): mean(none): refused", errRefused},
		{"out of range", "with the range and the document", "modulus(zero)", "modulus(zero): modulus(0): cbr is 0 percent; it must be 1 to 20 percent (the test's own table)", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			x, faults := e.Expression(c.text, value.NoKind, nil)
			require.Empty(t, faults)
			values := testValues(e)
			values["readings"] = value.List(value.NumberKind, nil)
			got, err := x.Eval(frameOf(e, values))
			require.EqualError(t, err, c.want, c.why)
			require.True(t, got.IsZero())
			if c.is != nil {
				require.ErrorIs(t, err, c.is)
			}
			var at *EvalError
			require.ErrorAs(t, err, &at)
			require.Equal(t, c.text, at.Text)
		})
	}
	x, _ := e.Expression("modulus(zero)", value.NoKind, nil)
	_, err := x.Eval(testFrame(e))
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside)
	require.Equal(t, "cbr", outside.Want.Name)
}

// TestNoNumberFromOutside holds that a value that is not a number does not enter.
func TestNoNumberFromOutside(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct {
		name, why, text, input string
		v                      value.Value
	}{
		{"NaN", "every comparison with it is false, and no rule would say so", "cbr", "cbr", value.Number(math.NaN())},
		{"infinite", "it is above every limit", "cbr > 3", "cbr", value.Number(math.Inf(1))},
		{"infinite length", "a quantity is checked as a number is", "cover", "cover", value.Measured(quantity.Length(math.Inf(-1)))},
		{"in a list", "each item is checked, not the first alone", "count(readings)", "readings", value.List(value.NumberKind, []value.Value{value.Number(1), value.Number(math.NaN())})},
	} {
		t.Run(c.name, func(t *testing.T) {
			x, faults := e.Expression(c.text, value.NoKind, nil)
			require.Empty(t, faults)
			values := testValues(e)
			values[c.input] = c.v
			_, err := x.Eval(frameOf(e, values))
			require.ErrorIs(t, err, quantity.ErrNotFinite, c.why)
		})
	}
}
