package language

import (
	"maps"
	"slices"

	"example.com/groundrule/pkg/value"
)

// Properties lists the properties of a kind of material, by name.
func (e *Env) Properties(kind value.Kind) []Property {
	var out []Property
	for _, name := range slices.Sorted(maps.Keys(e.properties[kind])) {
		out = append(out, e.properties[kind][name])
	}
	return out
}
