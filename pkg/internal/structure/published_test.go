package structure_test

import (
	"testing"

	"example.com/groundrule/pkg/internal/published"
	"example.com/groundrule/pkg/internal/structure"
)

func TestPublishedValues(t *testing.T) {
	published.Test(t, "../../../testdata/published/structure.yaml", structure.Calculations())
}
