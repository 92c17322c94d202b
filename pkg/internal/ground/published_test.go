package ground_test

import (
	"testing"

	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/internal/published"
)

func TestPublishedValues(t *testing.T) {
	published.Test(t, "../../../testdata/published/ground.yaml", ground.Calculations())
}
