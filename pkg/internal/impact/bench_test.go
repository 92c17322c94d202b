package impact_test

import (
	"context"
	"testing"

	"example.com/groundrule/pkg/internal/impact"
	"example.com/groundrule/pkg/internal/jobs"
)

// BenchmarkImpact10000 designs 10,000 jobs by two rulebooks on two goroutines.
func BenchmarkImpact10000(b *testing.B) {
	before, after := standard(b), edited(b, noPrecaution, moreCover)
	for b.Loop() {
		r, err := impact.Run(context.Background(), before, after, jobs.Sure(jobs.Generate(nil, 10_000, 1)), impact.Options{Workers: 2})
		if err != nil || r.Jobs.All != 10_000 || r.Jobs.Section == 0 {
			b.Fatal(err, r.Jobs)
		}
	}
}
