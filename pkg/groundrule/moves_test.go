package groundrule_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// TestMoves holds every calculation to what it says of the way in which its result
// goes as an argument rises, over the whole range of all its arguments: from each
// value to both of its neighbors, to the ends of the range, and to any other. Two
// results are alike within the tolerance by which rules compare.
func TestMoves(t *testing.T) {
	said := 0
	for _, c := range exampleCalls(t) {
		if c.Moves == "" && !c.Positive {
			continue
		}
		t.Run(c.Name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(uint64(len(c.Name)), 17))
			ends := c.ranges()
			answers, moved := 0, make([]bool, len(c.in))
			for range many(20_000, 3_000) {
				in := c.draw(r, ends)
				was, err := c.call(in)
				if err != nil {
					continue
				}
				answers++
				if x, ok := numeric(was); ok && c.Positive {
					require.GreaterOrEqual(t, x, 0.0, "%v", in)
				}
				for i, way := range c.Moves {
					if way != '.' {
						moved[i] = c.holdsWay(t, r, in, i, way == '+', was, ends[i]) || moved[i]
					}
				}
			}
			require.Greater(t, answers, 100, "too few of the draws are in range")
			for i, way := range c.Moves {
				if way != '.' {
					said++
					require.True(t, moved[i], "nothing shows that %s matters", c.Params[i].Name)
				}
			}
		})
	}
	require.Greater(t, said, 40)
}

// ranges are the ends of what each numeric argument may be beside the example.
func (c exampleCall) ranges() [][2]float64 {
	out := make([][2]float64, len(c.in))
	for i := range c.in {
		if x, ok := numeric(c.in[i]); ok {
			out[i] = [2]float64{max(c.end(i, x, -1e15), -1e9), min(c.end(i, x, 1e15), 1e9)}
		}
	}
	return out
}

// draw draws every argument: numbers over their range, words among all of theirs.
func (c exampleCall) draw(r *rand.Rand, ends [][2]float64) []reflect.Value {
	in := make([]reflect.Value, len(c.in))
	for i, k := range c.sig.Params {
		in[i] = reflect.New(c.in[i].Type()).Elem()
		in[i].Set(c.in[i])
		switch {
		case k.Form == signature.Word:
			words := reflect.Zero(k.Go).Interface().(value.Worded).Vocabulary().Words
			in[i].SetString(words[r.IntN(len(words))].GoValue())
		case k.Form == signature.Numbers:
			list := make([]float64, 1+r.IntN(8))
			for j := range list {
				list[j] = between(r, ends[i])
			}
			in[i].Set(reflect.ValueOf(list))
		case in[i].Kind() == reflect.Float64:
			in[i].SetFloat(between(r, ends[i]))
		}
	}
	return in
}

// between draws a number: mostly by its size, now and then an end.
func between(r *rand.Rand, ends [2]float64) float64 {
	low, high := ends[0], ends[1]
	switch r.IntN(8) {
	case 0:
		return low
	case 1:
		return high
	case 2, 3:
		return low + r.Float64()*(high-low)
	}
	from := max(low, math.Abs(high)*1e-6)
	if from <= 0 || high <= from {
		return low + r.Float64()*(high-low)
	}
	return min(high, from*math.Pow(high/from, r.Float64()))
}

// holdsWay moves one argument and reports whether the result ever went the way that
// is said; it fails where the result goes the other way.
func (c exampleCall) holdsWay(t *testing.T, r *rand.Rand, in []reflect.Value, i int, rises bool, was reflect.Value, ends [2]float64) (moved bool) {
	t.Helper()
	tries := 3
	for n := range tries {
		next := append([]reflect.Value(nil), in...)
		next[i] = reflect.New(in[i].Type()).Elem()
		up := func(x float64) float64 {
			return [...]float64{math.Nextafter(x, math.Inf(1)), max(x, ends[1]), x + r.Float64()*(ends[1]-x)}[n]
		}
		if in[i].Kind() == reflect.Slice {
			list := append([]float64(nil), in[i].Interface().([]float64)...)
			at := r.IntN(len(list))
			for j := range list {
				if j == at || r.IntN(2) == 0 {
					list[j] = up(list[j])
				}
			}
			next[i].Set(reflect.ValueOf(list))
		} else {
			next[i].SetFloat(up(in[i].Float()))
		}
		is, err := c.call(next)
		if err != nil {
			continue
		}
		for j := range lengthOf(was) {
			a, b := partOf(was, j), partOf(is, j)
			order, _ := quantity.Quantity{Dim: quantity.DimRatio, SI: b}.Compare(quantity.Quantity{Dim: quantity.DimRatio, SI: a})
			if rises && order < 0 || !rises && order > 0 {
				t.Fatalf("%s: as %s rises the result goes from %v to %v\n%v\n%v", c.Name, c.Params[i].Name, a, b, in, next)
			}
			moved = moved || order != 0
		}
	}
	return moved
}

// lengthOf and partOf read a result that is a number, or a list of such.
func lengthOf(v reflect.Value) int {
	if v.Kind() == reflect.Slice {
		return v.Len()
	}
	return 1
}

func partOf(v reflect.Value, j int) float64 {
	if v.Kind() == reflect.Slice {
		return v.Index(j).Float()
	}
	return v.Float()
}
