package mutation

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"runtime"
	"strings"
	"sync"
	"testing/fstest"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/rules"
)

// outcome is what came of a mutant.
type outcome string

// What can come of a mutant.
const (
	noticed  outcome = "noticed" // a trial failed
	refused  outcome = "refused" // the rulebook could not be opened any more
	survived outcome = "not noticed"
	untried  outcome = "not tried"
)

// tried is a mutant with what came of it.
type tried struct {
	mutant  mutant
	outcome outcome
}

// report is what came of all mutants, in the order of the text.
type report []tried

func (r report) count(o outcome) int {
	n := 0
	for _, t := range r {
		if t.outcome == o {
			n++
		}
	}
	return n
}

// share returns the part of the mutants that still open which some trial noticed.
func (r report) share() float64 {
	return float64(r.count(noticed)) / float64(max(1, r.count(noticed)+r.count(survived)))
}

// String tells the counts, and each mutant that no trial noticed.
func (r report) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d changes of one comparison, number or word each.\n%d are of promises and were not tried: a promise decides no section, and the survey's testdata/promises.txt holds what becomes of each.\n%d left no rulebook that opens, and count neither way.\nOf the other %d, %d were noticed by a trial: %.1f %%.\n",
		len(r), r.count(untried), r.count(refused), r.count(noticed)+r.count(survived), r.count(noticed), 100*r.share())
	if r.count(survived) > 0 {
		b.WriteString("\nNot noticed:\n")
	}
	for _, t := range r {
		if t.outcome == survived {
			fmt.Fprintf(&b, "  %s\n", t.mutant)
		}
	}
	return b.String()
}

// errUnfit is the error of a measure on trials that fail, or cannot be run, on the
// rulebook as it stands: they would notice everything, or nothing.
var errUnfit = errors.New("the trials do not hold of the rulebook as it stands")

// measure tries every mutant of a rulebook's files against its trials. The error
// wraps [errUnfit] if the trials fail on the rulebook before any change.
func measure(ctx context.Context, fsys fs.FS, trials []trial.Trial, mutants []mutant) (report, error) {
	files, err := copyOf(fsys)
	if err != nil {
		return nil, err
	}
	if was := try(ctx, files, trials); was != survived {
		return nil, fmt.Errorf("%w: %s", errUnfit, was)
	}
	out := make(report, len(mutants))
	next := make(chan int)
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := range next {
				changed := maps.Clone(files)
				m := mutants[i]
				if m.promise {
					out[i] = tried{m, untried}
					continue
				}
				changed[m.file] = &fstest.MapFile{Data: m.apply(files[m.file].Data)}
				out[i] = tried{m, try(ctx, changed, trials)}
			}
		})
	}
	for i := range mutants {
		next <- i
	}
	close(next)
	wait.Wait()
	return out, ctx.Err()
}

func copyOf(fsys fs.FS) (fstest.MapFS, error) {
	names, err := fs.Glob(fsys, "*.yaml")
	if err != nil {
		return nil, err
	}
	out := fstest.MapFS{}
	for _, name := range names {
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, err
		}
		out[name] = &fstest.MapFile{Data: data}
	}
	return out, nil
}

// try runs the trials on a rulebook until one fails. A trial that tries a setting
// beyond its limits, or by a variance where no limit is crossed, notices the
// mutant too: it is how a trial holds a limit.
func try(ctx context.Context, files fstest.MapFS, trials []trial.Trial) outcome {
	book, err := groundrule.Open(files, groundrule.WithLabel(rules.Label))
	if err != nil {
		return refused
	}
	r, err := trial.Run(ctx, inside.Rules(book), trials, trial.Options{UntilFailure: true})
	var faults diagnostic.List
	switch {
	case errors.As(err, &faults):
		for _, d := range faults {
			if d.Code != trial.CodeLimit {
				return refused
			}
		}
		return noticed
	case err != nil:
		return refused
	case !r.OK():
		return noticed
	}
	return survived
}
