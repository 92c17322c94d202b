package impact

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"runtime"
	"sync"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// Options change how a report is made and written. The zero value is the usual.
type Options struct {
	// Workers is how many jobs are worked on at once; 0 is one for each
	// processor. The report does not depend on it.
	Workers int
	// Shown is how many changed jobs [Report.Write] tells in full; 0 is 20, and
	// less is none. The JSON form has all.
	Shown int
	// System is the system of units of [Report.Write].
	System quantity.System
}

// ErrNoBook is returned where a rulebook is missing.
var ErrNoBook = errors.New("impact: two rulebooks are needed")

// batchSize is how many jobs a worker takes at a time.
const batchSize = 32

type batch struct {
	first int // the number of its first job
	jobs  []*site.Site
	errs  []error
	out   []compared
	done  chan struct{}
}

// Run designs every job by both rulebooks and reports what differs. A job that
// comes with an error, or does not validate, is listed as unreadable. The report
// is in the order of the jobs, whatever the number of workers.
//
// The error is that of the context, or [ErrNoBook].
func Run(ctx context.Context, before, after *groundrule.Book, jobs iter.Seq2[*site.Site, error], o Options) (*Report, error) {
	if before == nil || after == nil {
		return nil, ErrNoBook
	}
	c := newComparer(before, after)
	r := &Report{Schema: Schema, Version: FormVersion, Before: before.Rules().Files(), After: after.Rules().Files(),
		Edits: make([]Effect, len(c.edits)), Changed: []*Job{}, options: o}
	for _, k := range c.kinds {
		r.Volumes = append(r.Volumes, Volume{CourseKind: k})
	}
	workers := o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	todo, inOrder := make(chan *batch), make(chan *batch, 2*workers)
	var working sync.WaitGroup
	for range workers {
		working.Go(func() {
			for b := range todo {
				c.work(ctx, b)
				close(b.done)
			}
		})
	}
	working.Go(func() {
		defer close(todo)
		defer close(inOrder)
		hand(ctx, jobs, todo, inOrder)
	})
	for b := range inOrder {
		<-b.done
		for i, one := range b.out {
			r.count(b.first+i, one)
		}
	}
	working.Wait()
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("impact: %w", err)
	}
	r.gather(c)
	return r, nil
}

// hand hands out the jobs in batches, and the batches in their order to whoever
// gathers them.
func hand(ctx context.Context, jobs iter.Seq2[*site.Site, error], todo, inOrder chan<- *batch) {
	give := func(b *batch) {
		b.done = make(chan struct{})
		b.out = make([]compared, len(b.jobs))
		inOrder <- b
		todo <- b
	}
	b := &batch{first: 1}
	for job, err := range jobs {
		if ctx.Err() != nil {
			return
		}
		b.jobs, b.errs = append(b.jobs, job), append(b.errs, err)
		if len(b.jobs) == batchSize {
			give(b)
			b = &batch{first: b.first + batchSize}
		}
	}
	if len(b.jobs) > 0 {
		give(b)
	}
}

func (c *comparer) work(ctx context.Context, b *batch) {
	for i, job := range b.jobs {
		switch {
		case ctx.Err() != nil:
			b.out[i] = compared{err: ctx.Err()}
		case b.errs[i] != nil:
			b.out[i] = compared{err: b.errs[i]}
		default:
			b.out[i] = c.compare(b.first+i, job)
		}
	}
}
