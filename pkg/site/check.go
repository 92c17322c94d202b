package site

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/jobnode"
	"example.com/groundrule/pkg/quantity"
)

// Validate checks a site that was built in Go as [Read] checks a file. The
// error is an [*Error] whose faults name each field by the path that it would
// have in a file; no fault has a place.
func (s *Site) Validate() error {
	r := newReport(Limits{})
	if s == nil {
		r.add("", &fault{code: document.CodeMissingKey, says: "there is no site"})
		return r.err()
	}
	r.check(s)
	return r.err()
}

// check reports every value that is impossible, and every two that contradict
// each other. What has been reported already has no part in it.
func (r *report) check(s *Site) {
	r.values("", s.fields().fields, s)
	r.contradictions(s)
	r.shape(s)
	r.edges(s)
	r.curve(s)
	r.overrides(s)
	r.company(s)
	r.parts(s)
}

// values checks every value of a struct by itself.
func (r *report) values(path string, fields []*Field, holder any) {
	for _, f := range fields {
		at := join(path, f.key)
		if f.Form == GroupForm {
			r.values(at, f.kids, holder)
			continue
		}
		if r.failed[at] {
			continue
		}
		if f.question {
			if text := holder.(*Site).Company[f.key]; text != "" {
				r.text(f, at, text)
			}
			continue
		}
		x, given := f.get(holder)
		numbers, _ := x.([]float64)
		switch {
		case f.Form == AnswersForm:
			for _, name := range slices.Sorted(maps.Keys(x.(map[string]string))) {
				r.verify(&Field{Form: TextForm}, join(at, name), x.(map[string]string)[name])
			}
		case !given && f.Required && !f.needless(holder) && (r.nodes[at] == nil || f.Form == TextForm):
			r.add(at, f.missing())
		case !given && r.nodes[at] == nil:
		case f.Form == ListForm:
			items := f.items(holder)
			if r.fits(at, len(items)) {
				for i, each := range items {
					if !r.failed[index(at, i)] {
						r.values(index(at, i), f.kids, each)
					}
				}
			}
		case f.Form == NumbersForm && r.fits(at, len(numbers)):
			for i, each := range numbers {
				one := index(at, i)
				if r.nodes[at].Shape() == document.Scalar {
					one = at
				}
				r.verify(f, one, each)
			}
		case f.Form != NumbersForm:
			r.verify(f, at, x)
		}
	}
}

// company reports the answers to what nobody asks.
func (r *report) company(s *Site) {
	var known []string
	for path, f := range s.fields().byPath {
		switch {
		case f.Form == AnswersForm:
			return // every question may be there
		case f.question:
			known = append(known, strings.TrimPrefix(path, jobnode.Company+"."))
		}
	}
	slices.Sort(known)
	for _, name := range slices.Sorted(maps.Keys(s.Company)) {
		if !slices.Contains(known, name) && !r.failed[jobnode.Company] {
			r.add(join(jobnode.Company, name), &fault{code: document.CodeUnknownKey, says: "is not a question of this rulebook", found: shown(name),
				want: cmp.Or(strings.Join(known, ", "), "no answers: it asks none"), nearest: r.nearest(name, known)})
		}
	}
}

// fits reports a list that is too long.
func (r *report) fits(path string, items int) bool {
	if items > r.limits.Items {
		r.add(path, &fault{code: CodeRange, says: "is too long a list", found: fmt.Sprintf("%d items", items), want: fmt.Sprintf("at most %d", r.limits.Items)})
	}
	return items <= r.limits.Items
}

// contradictions reports the fields that cannot stand beside each other, as the
// table has them.
func (r *report) contradictions(s *Site) {
	table := s.fields()
	walk(table.fields, func(f *Field) {
		for _, c := range f.Contradictions {
			other := table.byPath[c.With]
			if r.sound(f.Path, c.With) && c.between(f, other, s) {
				r.add(f.Path, &fault{code: CodeContradiction, says: c.Because, want: "only one of " + f.Path + " and " + c.With, also: []string{c.With}})
			}
		}
		if f.NotBelow == "" || !r.sound(f.Path, f.NotBelow) {
			return
		}
		other := table.byPath[f.NotBelow]
		x, given := f.numberIn(s)
		if least, too := other.numberIn(s); given && too && x < least {
			r.add(f.Path, &fault{code: CodeContradiction, says: "is below " + f.NotBelow, found: writeNumber(x),
				want: writeNumber(least) + " or more", also: []string{f.NotBelow}})
		}
	})
}

// between reports whether two fields of a site contradict each other so.
func (c Contradiction) between(f, other *Field, s *Site) bool {
	x, given := f.get(s)
	y, too := other.get(s)
	if !given || !too || c.Is != "" && c.Is != f.text(x) || len(c.Words) > 0 && !slices.Contains(c.Words, other.text(y)) {
		return false
	}
	if number, ok := other.numberIn(s); c.AboveZero {
		return ok && number > 0
	}
	return true
}

// numberIn returns a number or a quantity that a site gives, in SI.
func (f *Field) numberIn(s *Site) (float64, bool) {
	x, given := f.get(s)
	if v := reflect.ValueOf(x); given && v.Kind() == reflect.Float64 {
		return v.Float(), true
	}
	return 0, false
}

// walk visits every field of a site that is not a group.
func walk(fields []*Field, visit func(*Field)) {
	for _, f := range fields {
		if f.Form == GroupForm {
			walk(f.kids, visit)
			continue
		}
		visit(f)
	}
}

// every visits every field, those of groups and lists too.
func every(fields []*Field, visit func(*Field)) {
	for _, f := range fields {
		visit(f)
		every(f.kids, visit)
	}
}

// roundedSlack allows for sizes that are rounded to the foot.
const roundedSlack = 0.03

// perimeter reports one that is shorter than that of the circle of the same area.
func (r *report) perimeter(s *Site) {
	if s.Perimeter == nil || !r.sound("perimeter", "area") {
		return
	}
	least := 2 * math.Sqrt(math.Pi*float64(s.Area))
	if float64(*s.Perimeter) < least*(1-roundedSlack) {
		r.add("perimeter", &fault{code: CodeContradiction, says: "is shorter than that of a circle of the area",
			found: writeQuantity(s.Perimeter.Quantity()),
			want:  fmt.Sprintf("%.1f ft or more", quantity.Meters(least).Feet()), also: []string{"area"}})
	}
}

// curve wants each size once, and no more passing a finer one.
func (r *report) curve(s *Site) {
	var before *point
	for _, p := range s.Soil.curve() {
		if !r.sound("soil.sieves", p.path, p.path+".sieve", p.passing) {
			continue
		}
		switch {
		case before == nil:
		case sameSieve(before.Opening, p.Opening):
			// What was written later is the repetition.
			r.add(p.path, &fault{code: CodeRepeated, says: "gives the same size again", found: writeQuantity(p.Opening.Quantity()), also: []string{before.path}})
			continue
		case cmp.Compare(p.Passing, before.Passing) > 0:
			r.add(p.passing, &fault{code: CodeContradiction, says: "is more than passes a coarser sieve",
				found: p.Passing.String(), want: before.Passing.String() + " or less", also: []string{before.passing}})
			continue
		}
		before = &p
	}
}

// overrides wants each decision taken once.
func (r *report) overrides(s *Site) {
	first := map[string]string{}
	for i, o := range s.Overrides {
		path := index("overrides", i) + ".decision"
		if o.Decision == "" || !r.sound("overrides", path) {
			continue
		}
		if other, again := first[o.Decision]; again {
			r.add(path, &fault{code: CodeRepeated, says: "is overridden already", found: shown(o.Decision), also: []string{other}})
			continue
		}
		first[o.Decision] = path
	}
}
