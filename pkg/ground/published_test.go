package ground_test

import (
	"testing"

	"example.com/groundrule/pkg/calculation/published"
	"example.com/groundrule/pkg/ground"
)

func TestPublishedValues(t *testing.T) {
	published.Test(t, "../../testdata/published/ground.yaml", ground.Calculations())
}
