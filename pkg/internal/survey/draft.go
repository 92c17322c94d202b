package survey

import (
	"math"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// draft is a job in the making: for each entry its value, nil for what the job
// does not tell.
type draft []any

func (d draft) told() int {
	n := 0
	for _, v := range d {
		if v != nil {
			n++
		}
	}
	return n
}

// desk is what jobs are drafted with: the entries, and for each the values that
// it can have.
type desk struct {
	entries []entry
	index   map[string]int
	usual   []any     // the value that the documentation of the field gives
	unit    []string  // the unit of that value, "" for a plain number
	low     []float64 // the least and the most that a job may tell
	high    []float64
	words   [][]string
}

func newDesk(book *engine.Book) *desk {
	k := &desk{entries: entries(), index: map[string]int{}}
	reads := map[string]string{}
	for _, f := range site.Fields() {
		reads[f.Path] = f.Reads
	}
	kinds := map[string]value.Kind{}
	for _, in := range book.Inputs() {
		kinds[in.Name] = in.Kind
	}
	n := len(k.entries)
	k.usual, k.unit, k.low, k.high, k.words = make([]any, n), make([]string, n), make([]float64, n), make([]float64, n), make([][]string, n)
	for i, e := range k.entries {
		k.index[e.name] = i
		for _, w := range book.Words(kinds[e.name]) {
			k.words[i] = append(k.words[i], w.Go)
		}
		k.usual[i], k.unit[i] = usual(e, reads[e.path])
		if e.form == worded && len(k.words[i]) > 0 {
			k.usual[i] = k.words[i][0]
		}
	}
	for i, e := range k.entries {
		if e.form == numeric {
			k.limits(i)
		}
	}
	return k
}

// usual reads the value that a field's documentation shows, after "such as".
func usual(e entry, reads string) (v any, unit string) {
	switch e.form {
	case flag:
		return true, ""
	case worded, free:
		return "", ""
	}
	_, such, _ := strings.Cut(reads, "such as ")
	such, _, _ = strings.Cut(such, ", or ")
	such, _, _ = strings.Cut(such, " or ")
	q, err := quantity.ParseAs(e.dim, such)
	if err != nil {
		// The sign of a percentage may be left out in a job file.
		if q, err = quantity.ParseAs(e.dim, such+" %"); err != nil {
			return 1.0, ""
		}
		return q.SI, ""
	}
	_, unit, _ = strings.Cut(such, " ")
	return q.SI, unit
}

// plain is the shortest job: what every job must tell, and nothing else.
func (k *desk) plain() draft {
	d := make(draft, len(k.entries))
	for i, e := range k.entries {
		if e.required {
			d[i] = k.usual[i]
		}
	}
	return d
}

// site builds the job; ok is false for one that cannot be.
func (k *desk) site(d draft) (s *site.Site, ok bool) {
	s = &site.Site{}
	for i, v := range d {
		if v != nil {
			k.entries[i].set(s, v)
		}
	}
	k.level(s)
	return s, s.Validate() == nil
}

// level lets no more pass a sieve than passes the coarser ones.
func (k *desk) level(s *site.Site) {
	most := quantity.Share(math.Inf(1))
	for i := range s.Soil.Sieves {
		sieve := &s.Soil.Sieves[i]
		if fine := s.Soil.Passing002; fine != nil && sieve.Opening < quantity.Millimeters(0.02) {
			*fine = min(*fine, most)
			most = *fine
		}
		sieve.Passing = min(sieve.Passing, most)
		most = sieve.Passing
	}
	if fine := s.Soil.Passing002; fine != nil {
		*fine = min(*fine, most)
	}
}

// The sizes between which package site takes a value other than 0, drawn in a
// little.
const (
	tiny = 1e-99
	huge = 1e101
)

// limits finds the least and the most that a job may tell of a number. Those
// that may be told are one stretch, and may hold 0 besides.
func (k *desk) limits(i int) {
	may := func(x float64) bool {
		d := k.plain()
		d[i] = x
		_, ok := k.site(d)
		return ok
	}
	k.low[i], k.high[i] = math.Inf(-1), math.Inf(1)
	start, _ := k.usual[i].(float64)
	if start <= 0 || !may(start) {
		return
	}
	if !may(huge) {
		k.high[i] = lastThatMay(start, huge, may)
	}
	switch {
	case may(-tiny) && !may(-huge):
		k.low[i] = lastThatMay(-tiny, -huge, may)
	case may(-tiny):
	case may(0):
		k.low[i] = 0
	default:
		k.low[i] = lastThatMay(start, tiny/100, may)
	}
}

// lastThatMay finds by bisection the last value, from one that may be told on
// toward one that may not, that may be told. Both are of one sign.
func lastThatMay(may, mayNot float64, test func(float64) bool) float64 {
	a, b := math.Float64bits(math.Abs(may)), math.Float64bits(math.Abs(mayNot))
	for a+1 < b || b+1 < a {
		mid := a/2 + b/2 + a&b&1
		if test(math.Copysign(math.Float64frombits(mid), may)) {
			a = mid
		} else {
			b = mid
		}
	}
	return math.Copysign(math.Float64frombits(a), may)
}

// with returns the draft with one entry changed.
func (d draft) with(i int, v any) draft {
	out := slices.Clone(d)
	out[i] = v
	return out
}
