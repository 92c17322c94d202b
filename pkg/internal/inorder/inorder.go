// Package inorder works on many things at once and hands out what comes of each in
// the order in which they came.
package inorder

import (
	"context"
	"iter"
	"runtime"
)

// ahead is how many things may be in hand for each worker, so that one that takes
// long does not keep the others waiting.
const ahead = 32

type task[A, B, Out any] struct {
	number int
	a      A
	b      B
	out    Out
	done   chan struct{}
}

// Each returns what work makes of each pair of a sequence, in their order. Work gets
// the number of the pair, counted from 1, and is called by several workers at once;
// 0 workers are one for each processor. No more pairs are in hand than a fixed number
// for each worker, however many come.
//
// Once the context is done it ends at once, even while it waits for the next pair:
// whoever is asked for it is left to answer to nobody.
func Each[A, B, Out any](ctx context.Context, workers int, in iter.Seq2[A, B], work func(number int, a A, b B) Out) iter.Seq[Out] {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	return func(yield func(Out) bool) {
		ctx, stop := context.WithCancel(ctx)
		defer stop()
		todo, inOrder := make(chan *task[A, B, Out]), make(chan *task[A, B, Out], ahead*workers)
		go hand(ctx, in, inOrder, todo)
		for range workers {
			go func() {
				for t := range until(ctx, todo) {
					t.out = work(t.number, t.a, t.b)
					close(t.done)
				}
			}()
		}
		for t := range until(ctx, inOrder) {
			for range until(ctx, t.done) {
			}
			if ctx.Err() != nil || !yield(t.out) {
				return
			}
		}
	}
}

// hand hands out each pair twice: to whoever gathers them in their order, and to a
// worker.
func hand[A, B, Out any](ctx context.Context, in iter.Seq2[A, B], to ...chan<- *task[A, B, Out]) {
	for _, each := range to {
		defer close(each)
	}
	number := 0
	for a, b := range in {
		number++
		t := &task[A, B, Out]{number: number, a: a, b: b, done: make(chan struct{})}
		for _, each := range to {
			select {
			case each <- t:
			case <-ctx.Done():
				return
			}
		}
	}
}

// until receives from a channel until it is closed or the context is done.
func until[T any](ctx context.Context, from <-chan T) iter.Seq[T] {
	return func(yield func(T) bool) {
		for {
			select {
			case one, more := <-from:
				if !more || !yield(one) {
					return
				}
			case <-ctx.Done():
				return
			}
		}
	}
}
