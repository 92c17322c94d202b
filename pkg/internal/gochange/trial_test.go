package gochange

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"time"
)

// outcome is what became of a change.
type outcome string

const (
	survived    outcome = "survived"
	noticed     outcome = "noticed"
	timedOut    outcome = "noticed, as the tests did not end"
	notCompiled outcome = "did not compile"
)

// sample says how many changes are drawn, and how they are tried.
type sample struct {
	count, seed int
	workers     int           // how many are tried at a time
	importers   bool          // the tests of importing packages are run where a change survives
	further     bool          // and those of the packages that import these
	whole       bool          // or else the package's own tests are run whole
	least       time.Duration // that tests may take before they are taken to have no end
	dir         string
}

// report is what became of the sample of one package.
type report struct {
	folder  string
	of      int // changes that the package allows
	drawn   []change
	became  []outcome
	sources map[string][]byte
}

// counts returns how many changes a test noticed, and how many compiled.
func (r *report) counts() (noticed, tried int) {
	for _, o := range r.became {
		switch o {
		case notCompiled:
			continue
		case survived:
		default:
			noticed++
		}
		tried++
	}
	return noticed, tried
}

// String is the report as text.
func (r *report) String() string {
	var b strings.Builder
	noticed, tried := r.counts()
	fmt.Fprintf(&b, "%s: %d of %d tried (of %d that there are), %d did not compile; noticed %d, %.0f %%\n",
		r.folder, tried, len(r.drawn), r.of, len(r.drawn)-tried, noticed, 100*float64(noticed)/float64(max(1, tried)))
	for i, c := range r.drawn {
		if r.became[i] == survived {
			fmt.Fprintf(&b, "  survived %s\n", c.tell(r.sources[c.file]))
		}
	}
	return b.String()
}

// try draws a sample of the changes of a package and tries each.
func (s sample) try(m *module, folder string, told func(string)) (*report, error) {
	p, err := m.named(folder)
	if err != nil {
		return nil, err
	}
	l, all, err := m.load(p)
	if err != nil {
		return nil, err
	}
	r := &report{folder: folder, of: len(all), sources: l.sources}
	seed := fnv.New64()
	seed.Write([]byte(p.ImportPath)) // what is drawn of one package depends on no other
	rand.New(rand.NewPCG(uint64(s.seed), seed.Sum64())).Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	compile := 0
	for _, c := range all {
		if compile == s.count {
			break
		}
		became := survived
		if !l.compiles(c) {
			became = notCompiled
		} else {
			compile++
		}
		r.drawn, r.became = append(r.drawn, c), append(r.became, became)
	}
	own, err := s.suite(m, false, p.ImportPath)
	if err != nil {
		return nil, err
	}
	others := sync.OnceValues(func() (*suite, error) {
		if s.whole {
			return s.suite(m, true, p.ImportPath)
		}
		return s.suite(m, false, m.importers(p, s.further)...)
	})
	return r, s.each(len(r.drawn), func(i int) error {
		if r.became[i] == notCompiled {
			return nil
		}
		became, err := own.run(l, r.drawn[i])
		if err == nil && became == survived && s.importers {
			var more *suite
			if more, err = others(); err == nil {
				became, err = more.run(l, r.drawn[i])
			}
		}
		r.became[i] = became
		told(fmt.Sprintf("%s %s", became, r.drawn[i].tell(l.sources[r.drawn[i].file])))
		return err
	})
}

// each calls f for 0 to n-1, by as many workers as the sample has, and returns
// the first error.
func (s sample) each(n int, f func(int) error) error {
	next := make(chan int)
	errs := make(chan error, s.workers)
	var wait sync.WaitGroup
	for range s.workers {
		wait.Go(func() {
			var err error
			for i := range next {
				if err == nil {
					err = f(i)
				}
			}
			errs <- err
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wait.Wait()
	close(errs)
	var first error
	for err := range errs {
		first = errors.Join(first, err)
	}
	return first
}

// suite is the tests of some packages, and how long they may take.
type suite struct {
	m        *module
	dir      string
	packages []string
	whole    bool // not short
	most     time.Duration
}

// slower is how many times as long as without a change the tests may take. A
// change that makes them slower than that is taken to have no end.
const slower = 5

// suite runs the tests without a change, to see that they pass and how long
// they take.
func (s sample) suite(m *module, whole bool, packages ...string) (*suite, error) {
	u := &suite{m: m, dir: s.dir, packages: packages, whole: whole, most: 10 * time.Minute}
	if len(packages) == 0 {
		return u, nil
	}
	start := time.Now()
	out, err := u.test("")
	if err != nil {
		return nil, fmt.Errorf("without a change: %w\n%s", err, out)
	}
	u.most = max(s.least, slower*time.Since(start))
	return u, nil
}

// test runs the tests with the files of an overlay, "" for none.
func (u *suite) test(overlay string) ([]byte, error) {
	args := []string{"test", "-vet=off", "-failfast", "-count=1", "-timeout=" + u.most.String()}
	if !u.whole {
		args = append(args, "-short")
	}
	if runtime.GOOS == "linux" {
		// A change may make a loop that fills the memory.
		args = append(args, `-exec=sh -c 'ulimit -v 8000000; exec "$0" "$@"'`)
	}
	if overlay != "" {
		args = append(args, "-overlay="+overlay)
	}
	// The tests end themselves at the timeout; what comes before is compiling.
	ctx, cancel := context.WithTimeout(context.Background(), u.most+10*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, "go", append(args, u.packages...)...)
	cmd.Dir = u.m.root
	cmd.WaitDelay = time.Second
	return cmd.CombinedOutput()
}

// run runs the tests with a change made.
func (u *suite) run(l *loaded, c change) (outcome, error) {
	if len(u.packages) == 0 {
		return survived, nil
	}
	dir, err := os.MkdirTemp(u.dir, "change")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(dir)
	changed, overlay := filepath.Join(dir, "changed.go"), filepath.Join(dir, "overlay.json")
	replace, err := json.Marshal(map[string]map[string]string{"Replace": {c.file: changed}})
	if err != nil {
		return "", err
	}
	if err := errors.Join(os.WriteFile(changed, c.apply(l.sources[c.file]), 0o600), os.WriteFile(overlay, replace, 0o600)); err != nil {
		return "", err
	}
	out, err := u.test(overlay)
	var failed *exec.ExitError
	switch {
	case err == nil:
		return survived, nil
	case !errors.As(err, &failed):
		return "", fmt.Errorf("%w\n%s", err, out)
	case bytes.Contains(out, []byte("[build failed]")):
		return notCompiled, nil
	case bytes.Contains(out, []byte("panic: test timed out")):
		return timedOut, nil
	}
	return noticed, nil
}
