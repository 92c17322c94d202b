package structure_test

import (
	"testing"

	"example.com/groundrule/pkg/calculation/published"
	"example.com/groundrule/pkg/structure"
)

func TestPublishedValues(t *testing.T) {
	published.Test(t, "../../testdata/published/structure.yaml", structure.Calculations())
}
