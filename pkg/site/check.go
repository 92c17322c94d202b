package site

import (
	"fmt"
	"math"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
)

// Validate checks a site that was built in Go as [Read] checks a file. The
// error is an [*Error] whose messages name each field by the path that it would
// have in a file; no fault has a place.
func (s *Site) Validate() error {
	r := &report{failed: map[string]bool{}}
	if s == nil {
		r.add(fault{code: document.CodeMissingKey, says: "there is no site"})
		return r.err()
	}
	check(r, s)
	return r.err()
}

// check reports every value that is impossible, and every two that contradict
// each other. What has been reported already has no part in it.
func check(r *report, s *Site) {
	checkFields(r, "", table, s)
	checkPerimeter(r, s)
	checkTraffic(r, s)
	checkPenetrometer(r, s)
	checkLimits(r, s)
	checkCurve(r, s)
	checkOrganic(r, s)
	checkFrost(r, s)
	checkOverrides(r, s)
}

// sound reports whether none of the paths has been reported.
func (r *report) sound(paths ...string) bool {
	for _, p := range paths {
		if r.failed[p] {
			return false
		}
	}
	return true
}

// contradict reports two fields that cannot both be so.
func (r *report) contradict(path, other, says string) {
	if r.sound(path, other) {
		r.add(fault{path: path, code: CodeContradiction, says: says, want: "one of " + path + " and " + other, also: []string{other}})
	}
}

// perimeterSlack allows for rounding: no perimeter is shorter than that of the
// circle of the same area, and both may be rounded to the foot.
const perimeterSlack = 0.03

func checkPerimeter(r *report, s *Site) {
	if s.Perimeter == nil || !r.sound("area", "perimeter") {
		return
	}
	least := 2 * math.Sqrt(math.Pi*float64(s.Area))
	if float64(*s.Perimeter) < least*(1-perimeterSlack) {
		r.add(fault{path: "perimeter", code: CodeContradiction, says: "is shorter than that of a circle of the area",
			found: writeQuantity(s.Perimeter.Quantity()),
			want:  fmt.Sprintf("%.1f ft or more", quantity.Meters(least).Feet()), also: []string{"area"}})
	}
}

func checkTraffic(r *report, s *Site) {
	if s.Traffic.TrucksPerDay != nil && s.Traffic.TrucksOverLife != nil {
		r.contradict("traffic.trucks_over_life", "traffic.trucks_per_day", "counts the trucks a second time")
	}
	if s.Traffic.ESALPerDay != nil && s.Traffic.ESALOverLife != nil {
		r.contradict("traffic.esal_over_life", "traffic.esal_per_day", "counts the axles a second time")
	}
}

func checkPenetrometer(r *report, s *Site) {
	if len(s.Soil.DCP.Readings) > 0 && len(s.Soil.DCP.MMPerBlow) > 0 {
		r.contradict("soil.dcp.mm_per_blow", "soil.dcp.readings", "gives the sounding a second time")
	}
}

func checkLimits(r *report, s *Site) {
	g := s.Soil
	if is(g.Nonplastic) {
		if g.LiquidLimit != nil {
			r.contradict("soil.nonplastic", "soil.liquid_limit", "cannot be, with a liquid limit")
		}
		if g.PlasticLimit != nil {
			r.contradict("soil.nonplastic", "soil.plastic_limit", "cannot be, with a plastic limit")
		}
	}
	if g.LiquidLimit != nil && g.PlasticLimit != nil && *g.LiquidLimit < *g.PlasticLimit && r.sound("soil.liquid_limit", "soil.plastic_limit") {
		r.add(fault{path: "soil.liquid_limit", code: CodeContradiction, says: "is below the plastic limit",
			found: fmt.Sprintf("%g", *g.LiquidLimit), want: fmt.Sprintf("%g or more", *g.PlasticLimit),
			also: []string{"soil.plastic_limit"}})
	}
}

// checkCurve wants each size once, and no more passing a finer one.
func checkCurve(r *report, s *Site) {
	var before *point
	for _, p := range s.Soil.curve() {
		size := p.path + ".sieve"
		if !r.sound(p.path, size, p.path+".passing") {
			continue
		}
		if before != nil {
			switch {
			case sameSieve(before.Opening, p.Opening):
				// What was written later is the repetition.
				first, second := before.path, p.path
				r.add(fault{path: second, code: CodeRepeated, says: "gives the same size again", found: writeQuantity(p.Opening.Quantity()), also: []string{first}})
				continue
			case p.Passing > before.Passing:
				r.add(fault{path: passingPath(p.path), code: CodeContradiction, says: "is more than passes a coarser sieve",
					found: p.Passing.String(), want: before.Passing.String() + " or less", also: []string{passingPath(before.path)}})
				continue
			}
		}
		before = &p
	}
}

// passingPath is where the share of a point of the curve was written.
func passingPath(path string) string {
	if path == "soil.passing_0_02_mm" {
		return path
	}
	return path + ".passing"
}

func checkOrganic(r *report, s *Site) {
	if s.Soil.Organic == nil || *s.Soil.Organic {
		return
	}
	if s.Soil.Word == Peat {
		r.contradict("soil.organic", "soil.word", "cannot be no, in peat")
	}
	switch s.Soil.Group {
	case ground.OL, ground.OH, ground.PT:
		r.contradict("soil.organic", "soil.uscs", "cannot be no, in group "+string(s.Soil.Group))
	}
}

func checkFrost(r *report, s *Site) {
	if !is(s.Frost.FrostFree) {
		return
	}
	if f := s.Frost.FreezingIndex; f != nil && *f > 0 {
		r.contradict("frost.frost_free", "frost.freezing_index", "cannot be, with a freezing index above 0")
	}
	if d := s.Frost.Depth; d != nil && *d > 0 {
		r.contradict("frost.frost_free", "frost.depth", "cannot be, with a frost depth above 0")
	}
}

func checkOverrides(r *report, s *Site) {
	first := map[string]string{}
	for i, o := range s.Overrides {
		path := index("overrides", i) + ".decision"
		if o.Decision == "" || !r.sound(path) {
			continue
		}
		if other, again := first[o.Decision]; again {
			r.add(fault{path: path, code: CodeRepeated, says: "is overridden already", found: shown(o.Decision), also: []string{other}})
			continue
		}
		first[o.Decision] = path
	}
}

func is(p *bool) bool { return p != nil && *p }
