package mutation

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"runtime"
	"sync"
	"testing/fstest"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/trial"
)

// Outcome is what came of a mutant.
type Outcome string

// What can come of a mutant.
const (
	Noticed  Outcome = "noticed" // a trial failed
	Refused  Outcome = "refused" // the rulebook could not be opened any more
	Survived Outcome = "not noticed"
)

// Tried is a mutant with what came of it.
type Tried struct {
	Mutant  Mutant
	Outcome Outcome
	// By is the first trial that noticed.
	By string
}

// Report is what came of all mutants, in the order of the text.
type Report struct{ Tried []Tried }

// Count returns how many mutants came to an outcome.
func (r *Report) Count(o Outcome) int {
	n := 0
	for _, t := range r.Tried {
		if t.Outcome == o {
			n++
		}
	}
	return n
}

// Share returns the part of the mutants that still open which some trial noticed.
func (r *Report) Share() float64 {
	noticed, survived := r.Count(Noticed), r.Count(Survived)
	if noticed+survived == 0 {
		return 1
	}
	return float64(noticed) / float64(noticed+survived)
}

// ErrUnfit is the error of a measure on trials that fail, or cannot be run, on the
// rulebook as it stands: they would notice everything, or nothing.
var ErrUnfit = errors.New("the trials do not hold of the rulebook as it stands")

// Run tries every mutant of a rulebook's files against its trials. progress, if
// there is one, is called after each with how many are done. The error wraps
// [ErrUnfit] if the trials fail on the rulebook before any change.
func Run(ctx context.Context, fsys fs.FS, trials []trial.Trial, mutants []Mutant, progress func(done, all int)) (*Report, error) {
	files, err := copyOf(fsys)
	if err != nil {
		return nil, err
	}
	if err := fit(files, trials); err != nil {
		return nil, err
	}
	out := &Report{Tried: make([]Tried, len(mutants))}
	next := make(chan int)
	var wait sync.WaitGroup
	var mu sync.Mutex
	done := 0
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := range next {
				out.Tried[i] = try(files, trials, mutants[i])
				mu.Lock()
				done++
				if progress != nil {
					progress(done, len(mutants))
				}
				mu.Unlock()
			}
		})
	}
	for i := range mutants {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wait.Wait()
	return out, ctx.Err()
}

func fit(files fstest.MapFS, trials []trial.Trial) error {
	book, err := groundrule.Open(files, groundrule.Labeled(groundrule.StandardLabel))
	if err != nil {
		return fmt.Errorf("%w: %w", ErrUnfit, err)
	}
	failed, err := trial.FirstFailure(book, trials)
	switch {
	case err != nil:
		return fmt.Errorf("%w: %w", ErrUnfit, err)
	case failed != nil:
		return fmt.Errorf("%w: %s fails", ErrUnfit, failed.Name)
	}
	return nil
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

func try(files fstest.MapFS, trials []trial.Trial, m Mutant) Tried {
	changed := fstest.MapFS{}
	for name, f := range files {
		changed[name] = f
	}
	changed[m.file] = &fstest.MapFile{Data: m.Apply(files[m.file].Data)}
	out := Tried{Mutant: m}
	book, err := groundrule.Open(changed, groundrule.Labeled(groundrule.StandardLabel))
	if err != nil {
		out.Outcome = Refused
		return out
	}
	failed, err := trial.FirstFailure(book, trials)
	switch {
	case err != nil:
		out.Outcome = Refused
	case failed != nil:
		out.Outcome, out.By = Noticed, failed.Name
	default:
		out.Outcome = Survived
	}
	return out
}

// Write tells the counts, and each mutant that no trial noticed.
func (r *Report) Write(w io.Writer) error {
	noticed, survived, refused := r.Count(Noticed), r.Count(Survived), r.Count(Refused)
	if _, err := fmt.Fprintf(w, "%d changes of one comparison, number or word each.\n%d left no rulebook that opens, and count neither way.\nOf the other %d, %d were noticed by a trial: %.1f %%.\n",
		len(r.Tried), refused, noticed+survived, noticed, 100*r.Share()); err != nil {
		return err
	}
	if survived == 0 {
		return nil
	}
	if _, err := fmt.Fprintf(w, "\nNot noticed:\n"); err != nil {
		return err
	}
	for _, t := range r.Tried {
		if t.Outcome == Survived {
			if _, err := fmt.Fprintf(w, "  %s\n", t.Mutant); err != nil {
				return err
			}
		}
	}
	return nil
}
