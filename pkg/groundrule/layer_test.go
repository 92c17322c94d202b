package groundrule_test

import (
	"testing/fstest"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/ground"
)

// layer is a folder that holds one amendment.
func layer(label, text string) engine.Layer {
	return engine.Layer{Label: label, FS: fstest.MapFS{"amendment.yaml": {Data: []byte(text)}}}
}

func groupNamed(symbol string) ground.Group { return ground.Group(symbol) }
