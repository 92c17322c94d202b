package schema_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/internal/schema"
)

// validator is as much of a JSON Schema validator as the schemas here need. It
// knows the schemas as Go values; that their JSON says the same is a test of
// its own.
type validator struct {
	root *schema.Schema
	// keys has, by the path of each mapping, the keys that a schema declares
	// there and those that it needs.
	keys   map[string]*declared
	faults []string
}

type declared struct {
	keys, needed []string
	// either reports whether one of several schemas is wanted here, which need other
	// keys.
	either bool
}

// validate returns what is wrong with an instance.
func validate(root *schema.Schema, instance any) *validator {
	v := &validator{root: root, keys: map[string]*declared{}}
	v.faults = v.check(root, instance, "")
	return v
}

func (v *validator) check(s *schema.Schema, x any, path string) (faults []string) {
	bad := func(format string, args ...any) { faults = append(faults, path+": "+fmt.Sprintf(format, args...)) }
	if s.Nothing() {
		return []string{path + ": nothing may stand here"}
	}
	if s.Ref != "" {
		to := v.root
		steps := strings.Split(s.Ref, "/")[1:] // "$defs" or "properties", and a name below it, as often as it needs
		for len(steps) > 1 && to != nil {
			in := to.Properties
			if steps[0] == "$defs" {
				in = to.Definitions
			}
			to, steps = in.Get(steps[1]), steps[2:]
		}
		if to == nil {
			return []string{path + ": no definition " + s.Ref}
		}
		faults = append(faults, v.check(to, x, path)...)
	}
	if len(s.Type) > 0 && !slices.Contains(s.Type, typeOf(x)) {
		bad("is %s, not %v", typeOf(x), s.Type)
	}
	if len(s.Enum) > 0 && !slices.Contains(s.Enum, x) {
		bad("%v is none of %v", x, s.Enum)
	}
	if text, ok := x.(string); ok && s.Pattern != "" && !pattern(s.Pattern).MatchString(text) {
		bad("%q does not match %s", text, s.Pattern)
	}
	switch x := x.(type) {
	case map[string]any:
		faults = append(faults, v.mapping(s, x, path)...)
	case []any:
		if len(x) < s.MinItems || s.MaxItems > 0 && len(x) > s.MaxItems {
			bad("has %d items", len(x))
		}
		if s.Items != nil {
			for i, item := range x {
				faults = append(faults, v.check(s.Items, item, fmt.Sprintf("%s/%d", path, i))...)
			}
		}
	}
	return append(faults, v.joined(s, x, path)...)
}

// patterns are compiled once.
var patterns sync.Map

func pattern(text string) *regexp.Regexp {
	p, ok := patterns.Load(text)
	if !ok {
		p, _ = patterns.LoadOrStore(text, regexp.MustCompile(text))
	}
	return p.(*regexp.Regexp)
}

func (v *validator) mapping(s *schema.Schema, x map[string]any, path string) (faults []string) {
	if s.Others != nil && len(s.Properties) > 0 || len(s.Properties) > 1 {
		d := v.keys[path]
		if d == nil {
			d = &declared{needed: s.Required}
			v.keys[path] = d
		}
		d.either = d.either || !slices.Equal(d.needed, s.Required)
		for _, p := range s.Properties {
			d.keys = append(d.keys, p.Name)
		}
	}
	if len(x) < s.Fewest {
		faults = append(faults, path+": is empty")
	}
	for _, key := range s.Required {
		if _, has := x[key]; !has {
			faults = append(faults, path+": has no "+key)
		}
	}
	for key, each := range x {
		at := path + "/" + key
		if s.Names != nil {
			faults = append(faults, v.check(s.Names, key, at)...)
		}
		if p := s.Properties.Get(key); p != nil {
			faults = append(faults, v.check(p, each, at)...)
		} else if s.Others != nil {
			faults = append(faults, v.check(s.Others, each, at)...)
		}
	}
	return faults
}

func (v *validator) joined(s *schema.Schema, x any, path string) (faults []string) {
	count := func(list []*schema.Schema, enough bool) (hold int, all []string) {
		for _, each := range list {
			f := v.check(each, x, path)
			if len(f) == 0 {
				hold++
			}
			if hold > 0 && enough {
				break // the keys of the others are not those of this mapping
			}
			all = append(all, f...)
		}
		return hold, all
	}
	if hold, why := count(s.AnyOf, true); len(s.AnyOf) > 0 && hold == 0 {
		faults = append(faults, path+": none of "+strings.Join(why, " | "))
	}
	if hold, _ := count(s.OneOf, false); len(s.OneOf) > 0 && hold != 1 {
		faults = append(faults, fmt.Sprintf("%s: %d of those of which one is wanted", path, hold))
	}
	_, why := count(s.AllOf, false)
	faults = append(faults, why...)
	if s.Not != nil && len(v.check(s.Not, x, path)) == 0 {
		faults = append(faults, path+": is what it must not be")
	}
	return faults
}

func typeOf(x any) string {
	switch x.(type) {
	case nil:
		return "null"
	case bool:
		return "boolean"
	case float64:
		return "number"
	case string:
		return "string"
	case []any:
		return "array"
	}
	return "object"
}

// instance reads YAML as an editor does that validates it.
func instance(t *testing.T, data []byte) any {
	t.Helper()
	var root yaml.Node
	require.NoError(t, yaml.Unmarshal(data, &root))
	return plainOf(t, &root)
}

func plainOf(t *testing.T, n *yaml.Node) any {
	t.Helper()
	switch n.Kind {
	case yaml.DocumentNode:
		return plainOf(t, n.Content[0])
	case yaml.MappingNode:
		out := map[string]any{}
		for i := 0; i < len(n.Content); i += 2 {
			out[n.Content[i].Value] = plainOf(t, n.Content[i+1])
		}
		return out
	case yaml.SequenceNode:
		out := []any{}
		for _, each := range n.Content {
			out = append(out, plainOf(t, each))
		}
		return out
	}
	switch n.ShortTag() {
	case "!!null":
		return nil
	case "!!bool":
		return n.Value == "true" || n.Value == "True" || n.Value == "TRUE"
	case "!!int", "!!float":
		var x float64
		require.NoError(t, n.Decode(&x))
		return x
	}
	require.True(t, utf8.ValidString(n.Value))
	return n.Value
}
