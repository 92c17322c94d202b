package drainage_test

import (
	"testing"

	"example.com/groundrule/pkg/calculation/published"
	"example.com/groundrule/pkg/drainage"
)

func TestPublishedValues(t *testing.T) {
	published.Test(t, "../../testdata/published/drainage.yaml", drainage.Calculations())
}
