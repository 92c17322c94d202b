package jobs

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// Any draws a site from everything that a job file can say, as the table of a
// rulebook has it: every word, every field told or left out, and values from the smallest
// that validate to the largest, mostly of the size that they have in the world.
// Every site validates; few make sense. It is for tests: of whatever a rulebook
// does with such a site, a panic, a value that is not a number or an answer
// without a reason is never right.
//
// Overrides name decisions of a rulebook, which this package does not know; they
// are left out. So are areas, each of which is a job of its own, edges, and
// corners told by sides and angles.
func Any(rng *rand.Rand, t *site.Table) *site.Site {
	fields := t.Fields()
	d := wild{draw{rng}, fields, anyNumber}
	told := oneOf(d.draw, 5.0, 20, 50, 85)
	s := &site.Site{}
	for _, f := range fields {
		if slices.Contains([]string{"areas", "alternatives", "overrides", "shape", "edges"}, group(f.Path)) || !f.Required && !d.chance(told) {
			continue
		}
		if _, inList := cutList(f.Path); !inList {
			d.field(s, f)
		}
	}
	switch across := quantity.Feet(float64(1 + d.IntN(100))); {
	case d.chance(20):
		s.Perimeter = nil
		_ = s.Set("area", fmt.Sprintf("%s x %d ft", across, 1+d.IntN(100))) // which gives it a shape
	case d.chance(5):
		s.Perimeter, s.Shape.Diameter, s.Area = nil, &across, quantity.Area(across*across*math.Pi/4)
	case d.chance(5):
		s.Perimeter, s.Area = nil, quantity.Area(across*across/2)
		s.Shape.Corners = []site.Corner{{X: new(quantity.Length), Y: new(quantity.Length)}, {X: &across, Y: new(quantity.Length)}, {X: new(quantity.Length), Y: &across}}
	}
	level(s)
	d.mend(s)
	return s
}

// group returns the key of the job under which a path stands.
func group(path string) string {
	key, _, _ := strings.Cut(path, ".")
	list, _ := cutList(key)
	return list
}

// cutList returns the list in which a path stands.
func cutList(path string) (list string, inList bool) {
	list, _, inList = strings.Cut(path, "[")
	return list, inList
}

// wild draws without regard to what is likely.
type wild struct {
	draw
	fields []site.Field
	number func(draw, site.Field) float64
}

// field gives a job some value of a field.
func (d wild) field(s *site.Site, f site.Field) {
	var x any
	switch f.Form {
	case site.GroupForm:
		return
	case site.ListForm:
		for i := range 1 + d.IntN(8) {
			d.item(s, f.Path, i)
		}
		return
	case site.TextForm:
		x = oneOf(d.draw, "C", "null", "- a", "Ö", "yes", "a, b", "1e3", "{}", "größte: \"7\" {x}\n# tag", "000123")
		if f.Day {
			x = oneOf(d.draw, f.Example, "1999-12-31", "2024-02-29")
		}
	case site.WordForm:
		if x = f.Example; len(f.Vocabulary.Words) > 0 {
			x = oneOf(d.draw, f.Vocabulary.Words...).GoValue()
		}
	case site.FlagForm:
		x = d.chance(50)
	case site.NumbersForm:
		list := make([]float64, 1+d.IntN(6))
		for i := range list {
			list[i] = d.number(d.draw, f)
		}
		x = list
	default:
		x = d.number(d.draw, f)
	}
	_ = f.Set(s, x) // the value is of the form
}

// item gives a job an item of a list.
func (d wild) item(s *site.Site, list string, i int) {
	for _, f := range d.fields {
		in, _ := cutList(f.Path)
		if in != list || in == f.Path || !f.Required && d.chance(50) {
			continue
		}
		x := d.number(d.draw, f)
		text := strconv.FormatFloat(x, 'g', -1, 64)
		switch {
		case f.Form == site.WordForm:
			text = oneOf(d.draw, f.Vocabulary.Words...).GoValue()
		case f.Form == site.TextForm:
			text = f.Example
		case f.Whole:
			text = strconv.Itoa(int(x))
		case f.Dim == quantity.DimShare:
			text = strconv.FormatFloat(x*100, 'g', -1, 64)
		case f.Form == site.MeasuredForm:
			text += " " + f.Dim.BaseUnit()
		}
		path := strings.Replace(f.Path, "[]", "["+strconv.Itoa(i)+"]", 1)
		_ = s.Set(path, text) // every value that is drawn is possible
	}
}

// anyNumber draws a number or a quantity: at times an end of what is possible or
// anything between, mostly something of the size of the field's example.
func anyNumber(d draw, f site.Field) float64 {
	least, most := f.Bounds()
	closed := most < 1e100
	switch {
	case d.chance(3):
		return least
	case d.chance(3):
		return most
	case d.chance(20) && closed:
		return whole(d.between(least, most))
	case d.chance(4):
		return min(most, max(least, math.Ldexp(1+d.Float64(), d.IntN(660)-330)))
	}
	usual, _ := f.Sample().(float64)
	_, size := math.Frexp(usual)
	x := math.Ldexp(0.5+d.Float64()/2, size+d.IntN(13)-6)
	if usual < 0 {
		x = -x
	}
	return min(most, max(least, x))
}

// whole takes what is too small to be written for nothing.
func whole(x float64) float64 {
	if math.Abs(x) < 1e-100 {
		return 0
	}
	return x
}

// level lets the sieve curve fall, and gives each size once.
func level(s *site.Site) {
	curve := s.Soil.Sieves
	slices.SortFunc(curve, func(a, b site.Sieve) int { return cmp.Compare(b.Opening, a.Opening) })
	curve = slices.CompactFunc(curve, func(a, b site.Sieve) bool { return a.Opening == b.Opening })
	var passing []quantity.Share
	for _, each := range curve {
		passing = append(passing, each.Passing)
	}
	slices.SortFunc(passing, func(a, b quantity.Share) int { return cmp.Compare(b, a) })
	for i := range curve {
		curve[i].Passing = passing[i]
	}
	s.Soil.Sieves = curve
}

// mend takes values away, at random, until none contradicts another.
func (d wild) mend(s *site.Site) {
	var wrong *site.Error
	for errors.As(s.Validate(), &wrong) {
		for _, fault := range wrong.Faults {
			paths := []string{fault.Path}
			for _, r := range fault.Related {
				paths = append(paths, r.Path)
			}
			d.take(s, oneOf(d.draw, paths...))
		}
	}
}

// take takes the value at a path away, unless every job needs it.
func (d wild) take(s *site.Site, path string) {
	list, _ := cutList(path)
	for _, f := range d.fields {
		if f.Path == list && !f.Required {
			_ = f.Set(s, nil) // any field can be left out
		}
	}
}
