package survey

import (
	"cmp"
	"context"
	"maps"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/site"
)

// searcher runs jobs through the engine and keeps what they show. Which jobs are
// run, and in which order what they show is kept, follows from the seed alone,
// whatever the number of goroutines.
type searcher struct {
	w        *drafter
	m        *model
	ctx      context.Context
	aims     []*aim
	drafts   []draft // of the jobs that were given
	seed     uint64
	budget   int
	ran      int
	possible int // jobs among those drafted that can be
	troubles map[string]*aim
	report   func(stage string, done, total int)
	// disagree lists what the walk ruled out and the engine did.
	disagree []*aim
}

// shown is what one job showed; x is nil for one that cannot be.
type shown struct {
	x    *seen
	aims []int
}

// rng returns the random source of one part of the search.
func (s *searcher) rng(part ...uint64) *rand.Rand {
	mixed := s.seed
	for _, p := range part {
		mixed = (mixed ^ p) * 0x9e3779b97f4a7c15
		mixed ^= mixed >> 29
	}
	return rand.New(rand.NewPCG(s.seed, mixed))
}

// parallel calls work for 0 to n-1, on as many goroutines as there are cores.
func (s *searcher) parallel(n int, work func(i int)) error {
	var group sync.WaitGroup
	var next atomic.Int64
	for range min(n, runtime.GOMAXPROCS(0)) {
		group.Go(func() {
			for i := int(next.Add(1)) - 1; i < n && s.ctx.Err() == nil; i = int(next.Add(1)) - 1 {
				work(i)
			}
		})
	}
	group.Wait()
	return s.ctx.Err()
}

// try runs one job and tells what it shows.
func (s *searcher) try(d draft) shown {
	if x, ok := s.w.look(d); ok {
		return s.shows(x)
	}
	return shown{}
}

// tryWhole runs a job that was given, unless the survey holds an input elsewhere.
func (s *searcher) tryWhole(job *site.Site) shown {
	x := s.w.lookAt(nil, job)
	for _, p := range s.w.fixed {
		if x.cellOf(s.m, s.m.variables[s.m.input(p.input)]) != p.cell {
			return shown{}
		}
	}
	return s.shows(x)
}

func (s *searcher) shows(x *seen) shown {
	out := shown{x: x}
	for i, a := range s.aims {
		if (a.hits == 0 || a.wantsSmaller() || a.proven()) && a.shows(x) {
			out.aims = append(out.aims, i)
		}
	}
	return out
}

// wantsSmaller reports whether a job is to be shown, so that a smaller one is better.
func (a *aim) wantsSmaller() bool {
	return a.what == noAnswer || a.what == twoAnswers || a.what == holds
}

// keep keeps what jobs showed, in their order.
func (s *searcher) keep(all []shown) {
	for _, each := range all {
		for _, i := range each.aims {
			a := s.aims[i]
			if a.keep(each.x); a.proven() {
				s.disagree = append(s.disagree, a)
			}
		}
		if each.x != nil && each.x.troubled() {
			s.keepTrouble(each.x)
		}
	}
}

// keepTrouble keeps a job that the engine did not answer: the smallest of those that
// fail in the same way.
func (s *searcher) keepTrouble(x *seen) {
	key := x.key()
	if s.troubles[key] == nil {
		s.troubles[key] = &aim{trouble: x, shows: func(y *seen) bool { return y.troubled() && y.key() == key }}
	}
	s.troubles[key].keep(x)
}

// key is the same for the same rule that fails in the same way.
func (s *seen) key() string {
	if s.at == nil {
		return s.Err.Error()
	}
	return string(s.Status) + " " + s.at.Place.String() + " " + s.at.In + " " + s.at.Rule
}

// batchSize is how many jobs are run between two reports of progress.
const batchSize = 256

// run runs the jobs of a stage.
func (s *searcher) run(name string, total int, try func(int) shown) error {
	for from := 0; from < total; from += batchSize {
		found := make([]shown, min(batchSize, total-from))
		err := s.parallel(len(found), func(i int) { found[i] = try(from + i) })
		if err != nil {
			return err
		}
		s.keep(found)
		for _, each := range found {
			if each.x != nil {
				s.possible++
			}
		}
		s.ran += len(found)
		s.report(name, from+len(found), total)
	}
	return nil
}

// The search for one aim in one round, and how many rounds there are.
const (
	huntRounds = 6
	mostHunt   = 800
	leastHunt  = 40
)

// hunt looks for a job for each aim that is still open.
func (s *searcher) hunt() error {
	for round := range huntRounds {
		var open []int
		for i, a := range s.aims {
			if a.open() {
				open = append(open, i)
			}
		}
		left := s.budget - s.ran
		if len(open) == 0 || left < leastHunt {
			return nil
		}
		each := min(mostHunt, max(leastHunt, left/len(open)/(huntRounds-round)))
		open = open[:min(len(open), left/each)]
		for part := range slices.Chunk(open, huntersAtOnce) {
			found := make([]*hunter, len(part))
			err := s.parallel(len(part), func(i int) { found[i] = s.huntOne(part[i], round, each) })
			if err != nil {
				return err
			}
			for i, h := range found {
				s.keep(h.found)
				s.ran += h.ran
				s.possible += h.valid
				s.aims[part[i]].tried += h.ran
			}
			s.report("looking for what was not shown", s.ran, s.budget)
		}
	}
	return nil
}

const huntersAtOnce = 32

func (s *searcher) huntOne(i, round, budget int) *hunter {
	h := &hunter{searcher: s, aim: s.aims[i], number: i, budget: budget, rng: s.rng(2, uint64(i), uint64(round))}
	h.hunt()
	return h
}

// sortedTroubles returns the troubles in the order of their places.
func (s *searcher) sortedTroubles() []*aim {
	place := func(a *aim) diagnostic.Place {
		if a.trouble.at == nil {
			return diagnostic.Place{}
		}
		return a.trouble.at.Place
	}
	return slices.SortedFunc(maps.Values(s.troubles), func(a, b *aim) int {
		return cmp.Or(place(a).Compare(place(b)), cmp.Compare(a.trouble.key(), b.trouble.key()))
	})
}
