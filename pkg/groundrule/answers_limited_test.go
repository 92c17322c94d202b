package groundrule_test

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// laid are the decisions that courses take their attributes from, with whether
// their answers can have limits: a text cannot.
func laid(b rulebook.Contents) map[string]bool {
	out := map[string]bool{}
	for _, c := range b.Courses {
		for _, a := range c.Attributes {
			for _, d := range b.Decisions {
				if d.Name == a.Decision {
					out[d.Name] = d.Kind != value.TextKind
				}
			}
		}
	}
	return out
}

// unlimited are the decisions behind a course that any word of theirs may answer,
// and why.
var unlimited = map[string]string{
	"compactor_used":  "what the crew has is a fact of the job",
	"underdrain_pipe": "the catalog has one kind of pipe",
	"standpipe":       "the catalog has one kind of pipe",
	"liner_material":  "the catalog has one kind of liner",
	"panel_material":  "a company lays the panel that it buys; what it bears is checked",
}

// TestEveryAttributeHasLimits holds that each length, number, material and kind
// of a course is held to limits.
func TestEveryAttributeHasLimits(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	limits := map[string]int{}
	for _, d := range book.Rules().Decisions {
		limits[d.Name] = len(d.Bounds)
	}
	for name, can := range laid(book.Rules()) {
		if can && unlimited[name] == "" {
			require.NotZero(t, limits[name], "%s has no limit", name)
		}
	}
}

// limitJobs are jobs on which each limit of the standard applies.
func limitJobs() map[string]*site.Site {
	with := func(use string, base string, cbr float64, more ...func(*site.Site)) *site.Site {
		return job(use, base, cbr, more...)
	}
	storing := func(s *site.Site) {
		s.Rain.StorageWanted, s.Rain.Depth, s.Rain.InfiltrationRate, s.SurfaceSlope = new(true), new(quantity.Inches(2)), new(quantity.InchesPerHour(1)), new(quantity.Percent(4))
		s.Rain.RunOnArea = new(quantity.SquareFeet(100))
	}
	rock := func(s *site.Site) { s.Soil.CBR, s.Soil.Group, s.Soil.Word = nil, "", "rock" }
	frosty := func(s *site.Site) { s.Frost.FrostFree, s.Frost.Depth = nil, new(quantity.Inches(40)) }
	slow := func(s *site.Site) {
		storing(s)
		s.Rain.Depth, s.Rain.InfiltrationRate, s.Rain.DrainTimeLimit = new(quantity.Inches(6)), new(quantity.InchesPerHour(0.35)), new(quantity.Hours(6))
	}
	lean := func(s *site.Site) { s.Soil.Group = "CL" }
	wet := func(s *site.Site) { s.Soil.Group, s.Water.WetGround, s.GroundFalls = "CL", new(true), "toward_house" }
	watery := func(s *site.Site) { s.Water.GroundwaterDepth = new(quantity.Inches(20)) }
	lined := func(s *site.Site) { s.Rain.Infiltrate = new(false) }
	expansive := func(s *site.Site) { s.Soil.Expansive = new(true) }
	soaking := func(s *site.Site) {
		s.Rain.StorageWanted, s.Rain.Depth, s.Rain.InfiltrationRate = new(true), new(quantity.Inches(2.5)), new(quantity.InchesPerHour(0.2))
	}
	steep := func(s *site.Site) { s.SurfaceSlope, s.GroundFalls = new(quantity.Percent(9)), "toward_house" }
	fill := func(s *site.Site) { s.Soil.UncontrolledFill = new(true) }
	organic := func(s *site.Site) { s.Soil.Organic = new(true) }
	sloping := func(s *site.Site) {
		s.Heights = site.Heights{Sill: new(quantity.Inches(6)), LowEdge: new(quantity.Inches(40)), Run: new(quantity.Feet(10))}
	}
	by := func(depth float64, use string, also ...func(*site.Site)) func(*site.Site) {
		return func(s *site.Site) {
			s.Beside = site.Beside{Depth: new(quantity.Inches(depth)), Use: use, Base: "dense"}
			for _, each := range also {
				each(s)
			}
		}
	}
	return map[string]*site.Site{
		"wet drive by a walk": with("car_driveway", "dense", 2, by(5, "foot", wet)), "walk by a deep drive": with("foot", "dense", 9, by(40, "car_driveway")),
		"storing drive by a walk": with("car_driveway", "open", 8, by(5, "foot", storing)), "street by a drive": with("residential_street", "dense", 6, by(12, "car_driveway")),
		"walk with heights": with("foot", "dense", 9, sloping), "walk below a sill": with("foot", "dense", 9, func(s *site.Site) { s.Heights.Sill = new(quantity.Inches(6)) }),
		"walk above a lawn":    with("foot", "dense", 9, func(s *site.Site) { s.Heights.LowEdge = new(quantity.Inches(6)) }),
		"walk on deep topsoil": with("foot", "dense", 9, func(s *site.Site) { s.Soil.TopsoilDepth = new(quantity.Inches(20)) }),
		"wet walk":             with("foot", "dense", 9, wet), "walk near water": with("foot", "dense", 9, watery), "lined walk": with("foot", "open", 9, lined),
		"walk on swelling soil": with("foot", "open", 9, expansive), "soaking walk": with("foot", "open", 9, soaking),
		"walk": with("foot", "dense", 9), "walk on soft clay": with("foot", "dense", 2), "walk on very soft clay": with("foot", "dense", 0.7),
		"open walk": with("foot", "open", 4), "drive": with("car_driveway", "dense", 5), "steep drive": with("car_driveway", "dense", 9, steep), "soft drive": with("car_driveway", "dense", 2),
		"open drive": with("car_driveway", "open", 4), "storing drive": with("car_driveway", "open", 8, storing), "street": with("residential_street", "dense", 6),
		"fire lane": with("fire_lane", "dense", 12), "panels": with("foot", "panel", 9), "slow drive": with("car_driveway", "open", 8, slow), "walk on clay": with("foot", "dense", 6, lean), "walk on fill": with("foot", "dense", 6, fill), "frosty walk": with("foot", "dense", 5, frosty), "organic topsoil": with("foot", "dense", 5, organic), "rock": with("foot", "dense", 0, rock),
		"walk with daily axles": with("foot", "dense", 9, func(s *site.Site) { s.Traffic.ESALPerDay = new(0.1) }),
	}
}

// answersBeside returns answers of a kind to override with: every word, and
// values on either side of what the rules answer.
func answersBeside(b rulebook.Contents, d rulebook.Decision, has value.Value) []string {
	if n, ok := has.Number(); ok {
		return []string{fmt.Sprint(n * 0.5), fmt.Sprint(n*3 + 3), "-5.0", fmt.Sprint(n + 0.5)}
	}
	if q, ok := has.Quantity(); ok {
		unit := map[quantity.Dimension]string{quantity.DimLength: "inches", quantity.DimPressure: "psi", quantity.DimForce: "lbf", quantity.DimTime: "hours",
			quantity.DimRate: "in_per_hour", quantity.DimShare: "percent", quantity.DimDensity: "pcf"}[q.Dim]
		return []string{unit + "(0.01)", unit + "(99.0)", unit + "(100000.0)", unit + "(-5.0)"}
	}
	return answersOf(b, d.Kind)
}

// TestEveryLimitIsKept takes over each decision that has limits, on jobs of every
// sort, with answers on either side of them: no answer beyond one is ever
// designed, and each limit of the standard stops some job.
func TestEveryLimitIsKept(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	rules := book.Rules()
	crossed := map[string]bool{}
	jobs := limitJobs()
	names := slices.Sorted(maps.Keys(jobs))
	for _, name := range everyNth(names, fewer(1, 4)) {
		job := jobs[name]
		d, err := book.Design(job)
		require.NoError(t, err, name)
		for _, decision := range rules.Decisions {
			has, asked := d.Answer(decision.Name)
			if len(decision.Bounds) == 0 || !asked {
				continue
			}
			for _, answer := range answersBeside(rules, decision, has) {
				tried := *job
				tried.Overrides = []site.Override{{Decision: decision.Name, Answer: answer, By: "A. Tester", Because: "to try it"}}
				o, err := inside.Rules(book).Run(&tried, inside.Overrides(&tried))
				if err != nil || slices.ContainsFunc(o.Crossed, func(c *engine.Crossed) bool { return !crossed[c.Limit.ID] }) {
					s, err := cameTo(book, &tried)
					var wrong *site.Error
					if errors.As(err, &wrong) {
						continue // the answer leaves a rule without one, and is told
					}
					require.NoError(t, err, "%s: %s = %s", name, decision.Name, answer)
					for _, c := range s.Crossed {
						require.NotEqual(t, section.Designed, s.Status, "%s: %s = %s", name, decision.Name, answer)
						require.NotEmpty(t, c.By)
						crossed[c.Limit] = true
					}
					continue
				}
				for _, c := range o.Crossed {
					status, _ := inside.Status(o)
					require.NotEqual(t, section.Designed, status, "%s: %s = %s, beyond %s", name, decision.Name, answer, c.Limit.ID)
				}
			}
		}
	}
	if testing.Short() {
		return // a fourth of the jobs meets no more than some of the limits
	}
	var never []string
	for _, d := range rules.Decisions {
		for _, l := range d.Bounds {
			if !crossed[l.ID] {
				never = append(never, l.ID)
			}
		}
	}
	slices.Sort(never)
	require.Empty(t, never, "limits that stop no job here: %s", strings.Join(never, " "))
}
