package groundrule_test

import (
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/section"
)

// expected is what a reviewed job has to come to.
type expected struct {
	job string
	// wants is what the review says, and where.
	wants string
	// check returns what is otherwise, "" for nothing.
	check func(x *look) string
	// differs is why the result is not what the review says, where it is not.
	differs string
	// fault reports that the job file itself is to be refused.
	fault bool
}

type test = func(x *look) string

// all holds several things of one job.
func all(tests ...test) test {
	return func(x *look) string {
		var out []string
		for _, each := range tests {
			if found := each(x); found != "" {
				out = append(out, found)
			}
		}
		return strings.Join(out, "; ")
	}
}

// or holds one of several things.
func or(tests ...test) test {
	return func(x *look) string {
		var out []string
		for _, each := range tests {
			found := each(x)
			if found == "" {
				return ""
			}
			out = append(out, found)
		}
		return strings.Join(out, ", and ")
	}
}

func notBuilt(x *look) string { return when(x.built(), "a section to build") }

func isBuilt(x *look) string {
	return when(!x.built(), "%s: %s", x.Status, x.why())
}

// named holds that a refusal, a check or a limit with a word in its code spoke.
func named(part string) test {
	return func(x *look) string {
		for _, r := range x.Refusals {
			if strings.Contains(r.ID, part) {
				return ""
			}
		}
		for _, c := range x.Failed() {
			if strings.Contains(c.ID, part) {
				return ""
			}
		}
		for _, c := range x.Crossed {
			if strings.Contains(c.Decision+c.Limit, part) {
				return ""
			}
		}
		return "no word of " + part + " in what refused it: " + x.why()
	}
}

func stoneWithin(least, most float64) test {
	return func(x *look) string {
		return when(x.built() && (x.stone() < least-0.01 || x.stone() > most+0.01), "%.4g in of stone, wanted %.4g to %.4g", x.stone(), least, most)
	}
}

func claimAtMost(most float64) test {
	return func(x *look) string {
		return when(x.built() && x.claim() > most*1.001, "designed for CBR %.3g, at most %.3g", x.claim(), most)
	}
}

func saysOf(words ...string) test {
	return func(x *look) string {
		return when(x.built() && !x.says(words...), "no word of %s", strings.Join(words, " or "))
	}
}

func silentOf(words ...string) test {
	return func(x *look) string {
		return when(x.built() && x.says(words...), "says %s", strings.Join(words, " or "))
	}
}

// keeps holds a sentence of the oracle.
func keeps(names ...string) test {
	return func(x *look) string {
		var out []string
		for _, s := range sentences() {
			if slices.Contains(names, s.name) {
				if found := s.judge(x); found != "" {
					out = append(out, s.name+": "+found)
				}
			}
		}
		return strings.Join(out, "; ")
	}
}

func gridsAtLeast(n int) test {
	return func(x *look) string {
		return when(x.built() && len(x.of("grid_course")) < n, "%d grids, at least %d", len(x.of("grid_course")), n)
	}
}

// confirmsNone holds that nothing is asked to be confirmed by such words.
func confirmsNone(words ...string) test {
	return func(x *look) string {
		for _, c := range x.Confirm {
			for _, w := range words {
				if strings.Contains(strings.ToLower(c.Confirm), w) {
					return "asks to confirm " + c.Name + ": " + c.Confirm
				}
			}
		}
		return ""
	}
}

func confirmsAtMost(n int) test {
	return func(x *look) string {
		return when(len(x.Confirm) > n, "%d things to confirm, at most %d", len(x.Confirm), n)
	}
}

// quiet holds that no check of a name failed and no such caution is printed.
func quiet(parts ...string) test {
	return func(x *look) string {
		ids := x.checksFailed()
		for _, c := range x.Cautions {
			ids = append(ids, c.ID)
		}
		for _, id := range ids {
			for _, part := range parts {
				if strings.Contains(id, part) {
					return "cautions " + id
				}
			}
		}
		return ""
	}
}

func compactorNot(names ...string) test {
	return func(x *look) string {
		for _, c := range x.of("stone_course") {
			if got := word(c.Attribute("compactor").Value); slices.Contains(names, got) && x.built() {
				return "compacted by " + got
			}
		}
		return ""
	}
}

func edgeNot(parts ...string) test {
	return func(x *look) string {
		for _, c := range x.of("edge_course") {
			m := c.Attribute("material").Value.String()
			for _, part := range parts {
				if strings.Contains(strings.ToLower(m), part) && x.built() {
					return fmt.Sprintf("the edge is %s", m)
				}
			}
		}
		return ""
	}
}

func fabricIs(kind string) test {
	return func(x *look) string {
		got, _, _ := x.fabric()
		return when(x.built() && !strings.HasPrefix(got, kind), "the fabric is %q, wanted %s", got, kind)
	}
}

// lapAtMost holds that no roll laps more, in inches.
func lapAtMost(most float64) test {
	return func(x *look) string {
		for _, c := range append(x.of("grid_course"), x.of("fabric_course")...) {
			if lap := inches(c.Attribute("overlap").Value); lap > most+0.01 && x.built() {
				return fmt.Sprintf("%s laps %.0f in, at most %.0f", c.Name, lap, most)
			}
		}
		return ""
	}
}

// heeds holds that an override is on the section, with what it changes.
func heeds(x *look) string {
	for _, o := range x.Overrides {
		if o.Asked && len(o.Effects) == 0 {
			return "the override of " + o.Decision + " has no effect that is told"
		}
	}
	return when(len(x.Overrides) == 0 && x.Status != section.Refused, "no override on the section")
}

// answered holds that a value makes a difference, or that the section says why it
// makes none.
func answered(path string) test {
	return func(x *look) string {
		return when(!slices.ContainsFunc(x.Absent, func(a section.Absent) bool { return a.Sort == "input" && a.Name == path }), "no word of why %s makes no difference", path)
	}
}
