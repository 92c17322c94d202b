package drainage_test

import (
	"testing"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/internal/published"
)

func TestPublishedValues(t *testing.T) {
	published.Test(t, "../../../testdata/published/drainage.yaml", drainage.Calculations())
}
