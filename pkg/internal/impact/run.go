package impact

import (
	"context"
	"fmt"
	"iter"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inorder"
	"example.com/groundrule/pkg/site"
)

// Options are how jobs are run.
type Options struct {
	// Workers is how many jobs are worked on at once, 0 for one for each
	// processor. The report does not depend on it.
	Workers int
	// Progress, if there is one, is called now and then from the goroutine of the
	// caller with how many jobs are done.
	Progress func(done int)
}

// Run designs every job by both rulebooks and reports what differs. A job that
// comes with an error, or does not validate, is listed as unreadable. The report
// is in the order of the jobs.
//
// The error wraps the context's. Once that is done Run returns at once, even while
// it waits for the next job: whoever is asked for it is left to answer to nobody.
func Run(ctx context.Context, before, after *engine.Book, jobs iter.Seq2[*site.Site, error], o Options) (*Report, error) {
	c := newComparer(before, after)
	r := &Report{Schema: Schema, Version: FormVersion, Before: before.Files(), After: after.Files(),
		Edits: make([]Effect, len(c.edits)), Changed: []*Job{}}
	for _, k := range c.kinds {
		r.Volumes = append(r.Volumes, Volume{CourseKind: k})
	}
	for one := range inorder.Each(ctx, o.Workers, parts(jobs), c.compare) {
		r.count(r.Jobs.All+1, one)
		if o.Progress != nil && r.Jobs.All%progressEvery == 0 {
			o.Progress(r.Jobs.All)
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("impact: after %d jobs: %w", r.Jobs.All, err)
	}
	if o.Progress != nil {
		o.Progress(r.Jobs.All)
	}
	r.gather(c)
	return r, nil
}

// parts gives each area of a job as a job of its own.
func parts(jobs iter.Seq2[*site.Site, error]) iter.Seq2[*site.Site, error] {
	return func(yield func(*site.Site, error) bool) {
		for job, err := range jobs {
			for _, part := range job.Parts() {
				if !yield(part, err) {
					return
				}
			}
		}
	}
}

// progressEvery is after how many jobs progress is told.
const progressEvery = 32
