package impact

import (
	"context"
	"fmt"
	"iter"
	"runtime"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/site"
)

// batchSize is how many jobs a worker takes at a time.
const batchSize = 32

type batch struct {
	first int // the number of its first job
	jobs  []*site.Site
	errs  []error
	out   []compared
	done  chan struct{}
}

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
// The error wraps the context's. Once that is done Run
// returns at once, even while it waits for the next job: whoever is asked for it
// is left to answer to nobody.
func Run(ctx context.Context, before, after *engine.Book, jobs iter.Seq2[*site.Site, error], o Options) (*Report, error) {
	c := newComparer(before, after)
	r := &Report{Schema: Schema, Version: FormVersion, Before: before.Files(), After: after.Files(),
		Edits: make([]Effect, len(c.edits)), Changed: []*Job{}}
	for _, k := range c.kinds {
		r.Volumes = append(r.Volumes, Volume{CourseKind: k})
	}
	workers := o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	todo, inOrder := make(chan *batch), make(chan *batch, 2*workers)
	go hand(ctx, jobs, todo, inOrder)
	for range workers {
		go c.work(ctx, todo)
	}
	for {
		b, more := next(ctx, inOrder)
		if more {
			_, _ = next(ctx, b.done)
		}
		if err := ctx.Err(); err != nil {
			return nil, fmt.Errorf("impact: after %d jobs: %w", r.Jobs.All, err)
		}
		if !more {
			break
		}
		for i, one := range b.out {
			r.count(b.first+i, one)
		}
		if o.Progress != nil {
			o.Progress(r.Jobs.All)
		}
	}
	r.gather(c)
	return r, nil
}

// next receives from a channel; false if it is closed or the context is done.
func next[T any](ctx context.Context, from <-chan T) (T, bool) {
	select {
	case one, ok := <-from:
		return one, ok
	case <-ctx.Done():
		var none T
		return none, false
	}
}

// hand hands out the jobs in batches, and the batches in their order to whoever
// gathers them.
func hand(ctx context.Context, jobs iter.Seq2[*site.Site, error], todo, inOrder chan<- *batch) {
	defer close(todo)
	defer close(inOrder)
	give := func(b *batch) bool {
		b.done, b.out = make(chan struct{}), make([]compared, len(b.jobs))
		for _, to := range []chan<- *batch{inOrder, todo} {
			select {
			case to <- b:
			case <-ctx.Done():
				return false
			}
		}
		return true
	}
	b := &batch{first: 1}
	for job, err := range jobs {
		b.jobs, b.errs = append(b.jobs, job), append(b.errs, err)
		if len(b.jobs) < batchSize {
			continue
		}
		if !give(b) {
			return
		}
		b = &batch{first: b.first + batchSize}
	}
	if len(b.jobs) > 0 {
		give(b)
	}
}

func (c *comparer) work(ctx context.Context, todo <-chan *batch) {
	for {
		b, more := next(ctx, todo)
		if !more {
			return
		}
		for i, job := range b.jobs {
			if ctx.Err() != nil {
				return
			}
			if b.out[i].err = b.errs[i]; b.errs[i] == nil {
				b.out[i] = c.compare(b.first+i, job)
			}
		}
		close(b.done)
	}
}
