package groundrule_test

import (
	"testing/fstest"

	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/rulebook"
)

// layer is a folder that holds one amendment.
func layer(label, text string) rulebook.Layer {
	return rulebook.Layer{Label: label, FS: fstest.MapFS{"amendment.yaml": {Data: []byte(text)}}}
}

func groupNamed(symbol string) ground.Group { return ground.Group(symbol) }
