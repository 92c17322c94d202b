package groundrule_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// outcome is what the properties compare of a design.
type outcome struct {
	none  bool // refused or stopped
	why   string
	stone float64 // in inches
	paver float64 // in inches
	class int     // of the fabric: 1 is the strongest, 9 is none
	grids int
}

func (o outcome) String() string {
	if o.none {
		return "no section (" + o.why + ")"
	}
	return fmt.Sprintf("%.4g in of stone, fabric class %d, pavers of %.4g in, %d grids", o.stone, o.class, o.paver, o.grids)
}

// come returns what a job comes to, by the answers alone, which are had sooner
// than the section that is told of them.
func come(book *groundrule.Book, job *site.Site) outcome {
	d, err := book.Design(job)
	var refused *groundrule.Refused
	if errors.As(err, &refused) {
		x := look{Section: refused.Section, job: job}
		return outcome{none: true, why: strings.TrimSpace(strings.ReplaceAll(x.why(), "\n", "; "))}
	}
	if err != nil {
		return outcome{none: true, why: "a fault: " + err.Error()}
	}
	o := outcome{class: 9}
	for name, to := range map[string]*float64{"stone_depth": &o.stone, "paver_thickness": &o.paver} {
		if v, asked := d.Answer(name); asked {
			*to = inches(v)
		}
	}
	if v, asked := d.Answer("fabric_class"); asked {
		_, _ = fmt.Sscanf(word(v), "fabric_class_%d", &o.class)
	}
	if v, asked := d.Answer("fabric_kind"); asked && word(v) == "no_fabric" {
		o.class = 9
	}
	if v, asked := d.Answer("grid_layers"); asked {
		n, _ := v.Number()
		o.grids = int(n)
	}
	return o
}

// least says in what a job that asks more is given less, "" for nothing.
func least(before, after outcome) string {
	const hair, step = 1e-6, 0.51 // in: thicker pavers stand for some of the depth that frost asks for
	oneStep := hair
	if after.paver > before.paver+hair {
		oneStep = step
	}
	switch {
	case after.none:
		return ""
	case before.none && strings.Contains(before.why, "EVIDENCE-"):
		return "" // what contradicts itself is neither better nor worse than what does not
	case before.none:
		return "what is refused is designed where more is asked"
	case after.stone < before.stone-hair && after.stone+after.paver < before.stone+before.paver-oneStep:
		return "less stone"
	case after.class > before.class:
		return "a weaker fabric"
	case after.paver < before.paver-hair:
		return "thinner pavers"
	case after.grids < before.grids:
		return "fewer grids"
	}
	return ""
}

// property is something that holds between a job and others like it.
type property struct {
	name, says, source string
	// breaks returns what of a job breaks it, "" for nothing.
	breaks func(book *groundrule.Book, job *site.Site) string
}

// step is one value in a row, as pairs of a path and a text.
type step []string

// rising holds that each of a row of jobs, which asks more than the one before it,
// is given no less. of returns the first job and the rows of it, nil for none.
func rising(name, says string, of func(job *site.Site) (*site.Site, []step)) property {
	return property{name, says, "requirement", func(book *groundrule.Book, job *site.Site) string {
		base, row := of(job)
		var before outcome
		var prior *site.Site
		var last step
		for i, each := range row {
			changed := copied(base)
			if !put(changed, each) {
				continue
			}
			after := come(book, changed)
			if last != nil {
				if before.none && !after.none && strings.HasPrefix(before.why, "GROUNDWATER-BELOW ") && strings.Count(before.why, ";") == 1 {
					// Worse ground may owe the liner that is advised where water is near, so the two are compared as lined.
					before = come(book, with(prior, "rain.infiltrate", "no"))
				}
				if less := least(before, after); less != "" {
					return fmt.Sprintf("%s\n%v: %s\n%v: %s", less, last, before, row[i], after)
				}
			}
			before, prior, last = after, changed, each
		}
		return ""
	}}
}

// put gives a job the values of a step, and reports whether the job is possible.
func put(job *site.Site, s step) bool {
	for i := 0; i+1 < len(s); i += 2 {
		if job.Set(s[i], s[i+1]) != nil {
			return false
		}
	}
	return job.Validate() == nil
}

// row makes the steps of one path.
func row(path string, texts ...string) []step {
	var out []step
	for _, text := range texts {
		out = append(out, step{path, text})
	}
	return out
}

// without returns a copy of a job with keys left out, and all below them.
func without(job *site.Site, paths ...string) *site.Site {
	out := copied(job)
	for _, path := range paths {
		take(out, path)
	}
	return out
}

var strengths = []string{"soil.cbr", "soil.dcp", "soil.consistency", "soil.pocket_penetrometer", "soil.undrained_strength", "soil.points"}

// hold tries one property, or all where there is no name, on a job.
func hold(book *groundrule.Book, name string, job *site.Site) []finding {
	var out []finding
	for _, p := range properties {
		if p.name != name {
			continue
		}
		if found := p.breaks(book, job); found != "" {
			out = append(out, finding{p.name, found, job, 1})
		}
	}
	return out
}

// TestProperties tries one of the properties on each of the generated jobs.
// GROUNDRULE_MANY=1 tries 100,000.
func TestProperties(t *testing.T) {
	if testing.Short() {
		t.Skip("a thousand designs and more")
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	check := func(name string, job *site.Site) []finding { return hold(book, name, job) }
	tellFindings(t, sweep(t, many(100_000, 1_500), func(i int) []finding {
		return hold(book, properties[i%len(properties)].name, ordinary(i/len(properties)*10+5+i%5))
	}), check)
}

// TestAnswersAreTheSection holds that the answers that the properties compare are
// what the section lays.
func TestAnswersAreTheSection(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for i := range 150 {
		job := ordinary(i)
		x, err := judged(book, job)
		require.NoError(t, err)
		if x.Status != section.Designed || job.Base == "panel" {
			continue
		}
		_, class, _ := x.fabric()
		got := come(book, job)
		require.InDelta(t, x.stone(), got.stone, 1e-6, jobFile(job))
		require.InDelta(t, x.paver(), got.paver, 1.0/16, "80 mm is laid as 3-1/8 in")
		require.Equal(t, class, got.class, jobFile(job))
		require.Len(t, x.of("grid_course"), got.grids, jobFile(job))
	}
}

func same(a, b outcome) bool {
	return a.none == b.none && (a.none || math.Abs(a.stone-b.stone) < 1e-6 && a.class == b.class && math.Abs(a.paver-b.paver) < 1e-6 && a.grids == b.grids)
}
