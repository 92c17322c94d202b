package engine

import (
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
)

// Symbols are as what a course can be drawn, with what each shows of the attributes
// of the course.
var Symbols = map[string][]string{
	// A bed is as thick as the course, hatched by its material, and may reach beyond the
	// edge; units are a bed of pieces, which shows the fall of the surface.
	"bed":   {"thick", "material", "beyond"},
	"units": {"thick", "material", "fall", "toward"},
	// Joints are the gaps between units.
	"joints": {"material", "wide"},
	// Lines are sheets without thickness: up is how far the sides are turned up.
	"grid":   {"material", "beyond"},
	"fabric": {"material", "up"},
	"liner":  {"material"},
	// A ground is what the rest lies on.
	"ground": {"soil", "fall"},
	// A pipe lies at the depth of the course, in a trench if there is one: bed is what
	// lies under the pipe in it, wrap what lines it.
	"pipe":      {"pipe", "trench_wide", "trench_deep", "bed", "stone", "wrap"},
	"standpipe": {"pipe"},
	// An edge stands beside the units; spikes hold it, and a block is an edge with a
	// size.
	"edge":   {"material"},
	"spikes": {"long", "apart"},
	"block":  {"wide", "deep"},
	// A meeting is where two sections meet: over what length the bottom passes from one
	// depth to the other, and how far the sheets of the deeper run on into the other.
	"meeting": {"taper", "grid", "fabric"},
}

// drawn reads as what a course is drawn.
func (c *compiler) drawn(said []document.Field, attributes []string) map[string]string {
	if len(said) == 0 {
		return nil
	}
	out := map[string]string{}
	for _, f := range said {
		out[f.Key.Text()] = f.Value.Text()
	}
	shows, ok := Symbols[out["symbol"]]
	for _, f := range said {
		switch key, n := f.Key.Text(), f.Value; {
		case key == "symbol" && !ok:
			c.notOneOf(n, codeEntry, "nothing is drawn so", slices.Sorted(maps.Keys(Symbols))...)
		case key == "symbol" || !ok && out["symbol"] != "":
		case !slices.Contains(shows, key):
			c.notOneOf(f.Key, codeEntry, "a drawing does not show this", append(slices.Clone(shows), "symbol")...)
		case !slices.Contains(attributes, n.Text()):
			fault(&c.faults, n, codeEntry, "the course has no such attribute", n.Text(), "an attribute of the course", attributes...)
		}
	}
	if out["symbol"] == "" {
		fault(&c.faults, said[0].Key, codeEntry, "as what is it drawn?", "", "symbol: one of "+strings.Join(slices.Sorted(maps.Keys(Symbols)), ", "))
	}
	return out
}
