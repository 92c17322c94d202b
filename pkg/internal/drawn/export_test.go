package drawn

import (
	"maps"
	"slices"
)

// Hatches lists the words of hatching that can be drawn.
func Hatches() []string { return slices.Collect(maps.Keys(hatches)) }
