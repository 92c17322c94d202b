package site

import (
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/document"
)

// Check answers for one field of a form: the error says what is wrong with a
// text that stands in the place of the value at a path, such as "soil.cbr[2]" or
// "soil.sieves[0].passing". It is nil for a value that is possible by itself, and
// an [*Error] for any other. A blank text is a value that is not known.
func Check(path, text string) error { return new(Site).Set(path, text) }

// Set gives the site the value that text writes, if [Check] has nothing against
// it; a blank text takes the value away. Items of a list are counted from 0, and
// a list grows as far as is needed.
func (s *Site) Set(path, text string) error {
	r := newReport(Limits{})
	f, holder, item := r.find(s, path)
	if f == nil {
		d := r.add(path, &fault{code: document.CodeUnknownKey, says: "is not the path of a value"})
		if d.Nearest = r.nearest(path, s.fields().paths()); d.Nearest == "" {
			d.Nearest = s.fields().elsewhere(path)
		}
		return r.err()
	}
	if strings.TrimSpace(text) == "" && item < 0 {
		if f.Required {
			r.add(path, f.missing())
		}
		f.clear(holder)
		return r.err()
	}
	x, ok := r.text(f, path, text)
	if !ok {
		return r.err()
	}
	if f.Form == NumbersForm {
		given, _ := f.get(holder)
		x = placed(given.([]float64), item, x.(float64))
	}
	f.set(holder, x)
	if f.told != nil {
		f.told(holder.(*Site), text)
	}
	return nil
}

// placed puts x at a place of a list, which grows as far as is needed; below 0 it
// is all there is.
func placed(list []float64, at int, x float64) []float64 {
	if at < 0 {
		return []float64{x}
	}
	list = append(list, make([]float64, max(0, at+1-len(list)))...)
	list[at] = x
	return list
}

// find returns the field at a path, the struct that holds it, and the place in a
// list of numbers, -1 for no place; the field is nil if there is none.
func (r *report) find(s *Site, path string) (f *Field, holder any, item int) {
	holder, item = s, -1
	fields := s.fields().fields
	for rest, more := path, true; more; {
		var key string
		key, rest, more = strings.Cut(rest, ".")
		key, number, counted := strings.Cut(strings.TrimSuffix(key, "]"), "[")
		at := slices.IndexFunc(fields, func(f *Field) bool { return f.key == key })
		if at < 0 {
			return nil, nil, -1
		}
		f, fields = fields[at], fields[at].kids
		n, err := strconv.Atoi(number)
		switch {
		case counted && (err != nil || n < 0 || n >= r.limits.Items):
			return nil, nil, -1
		case counted && f.Form == ListForm:
			for len(f.items(holder)) <= n {
				f.grow(holder)
			}
			holder = f.items(holder)[n]
		case counted && f.Form == NumbersForm && !more:
			item = n
		case counted || f.Form == ListForm:
			return nil, nil, -1
		}
	}
	if f.Form == GroupForm || f.Form == ListForm || f.Form == AnswersForm {
		return nil, nil, -1
	}
	return f, holder, item
}
