package inorder_test

import (
	"context"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/inorder"
)

// counted hands out the numbers from 0 up, and counts how many were asked for.
func counted(n int, asked *atomic.Int64) func(func(int, bool) bool) {
	return func(yield func(int, bool) bool) {
		for i := range n {
			asked.Add(1)
			if !yield(i, i%7 == 0) {
				return
			}
		}
	}
}

func TestOrder(t *testing.T) {
	for _, c := range []struct {
		name, why  string
		workers, n int
	}{
		{"one worker", "the plainest case", 1, 100},
		{"many workers", "those that end first must wait for those before them", 8, 1000},
		{"one for each processor", "the usual case", 0, 500},
		{"nothing", "an empty sequence ends", 4, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			var asked atomic.Int64
			got := 0
			for out := range inorder.Each(t.Context(), c.workers, counted(c.n, &asked), func(number, a int, b bool) [2]int {
				for i := 0; b && i < 10000; i++ { // some take longer
					asked.Load()
				}
				return [2]int{number, a}
			}) {
				require.Equal(t, [2]int{got + 1, got}, out, c.why)
				got++
			}
			require.Equal(t, c.n, got, c.why)
		})
	}
}

// processors are those that the machine gives before anything here has run.
var processors = runtime.GOMAXPROCS(0)

// TestWindow holds that 32 pairs for each worker are in hand while nobody takes what
// was made, with one more that waits to be; never more, and not less.
func TestWindow(t *testing.T) {
	for _, c := range []struct {
		name, why     string
		workers, want int
	}{
		{"one worker", "the least", 1, 32 + 1},
		{"three workers", "as many as are asked for, whatever the machine has", 3, 3*32 + 1},
		{"one for each processor", "0 asks for it", 0, processors*32 + 1},
		{"fewer than none", "is taken for none", -1, processors*32 + 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			var asked atomic.Int64
			for n := range inorder.Each(t.Context(), c.workers, counted(100_000, &asked), func(number, _ int, _ bool) int { return number }) {
				inHand := func() int { return int(asked.Load()) - n }
				require.LessOrEqual(t, inHand(), c.want, "after %d: %s", n, c.why)
				if n%1000 == 1 {
					require.Eventually(t, func() bool { return inHand() == c.want }, 10*time.Second, 10*time.Microsecond, "after %d: %s", n, c.why)
				}
				if n == 5001 {
					break
				}
			}
			require.Equal(t, processors, runtime.GOMAXPROCS(0), "the machine is left as it was")
		})
	}
}

func TestEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	var asked atomic.Int64
	got := 0
	for range inorder.Each(ctx, 2, counted(100_000, &asked), func(number, _ int, _ bool) int { return number }) {
		if got++; got == 10 {
			cancel()
		}
	}
	require.Equal(t, 10, got)
	require.Less(t, asked.Load(), int64(200))
}

// TestEndsWhileItWaits holds that it ends while a reader gives nothing.
func TestEndsWhileItWaits(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	never := make(chan int)
	defer close(never)
	for range inorder.Each(ctx, 2, func(yield func(int, bool) bool) {
		yield(1, true)
		<-never
	}, func(number, _ int, _ bool) int { return number }) {
		cancel()
	}
}
