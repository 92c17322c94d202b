package groundrule_test

import (
	"crypto/sha256"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/site"
)

// How many jobs TestSameOnAnotherMachine designs: half of them plausible, half
// drawn from everything that a job file can say.
const jobsOnBothMachines = 30_000

// TestSameOnAnotherMachine designs the same jobs here and in a test binary for a
// processor of another kind, and compares the bytes of every section. It takes
// minutes, so it runs only when asked: with GROUNDRULE_PORTABLE=1. The other
// binary is this test with the name of a file to write to.
func TestSameOnAnotherMachine(t *testing.T) {
	asked := os.Getenv("GROUNDRULE_PORTABLE")
	switch asked {
	case "":
		t.Skip("set GROUNDRULE_PORTABLE=1 to design 30,000 jobs on two kinds of processor")
	case "1":
	default:
		require.NoError(t, os.WriteFile(asked, []byte(strings.Join(hashes(t), "\n")), 0o600))
		return
	}
	const other = "386"
	if runtime.GOARCH == other {
		t.Skip("this is the other kind already")
	}
	binary, answers := filepath.Join(t.TempDir(), "other.test"), filepath.Join(t.TempDir(), "hashes")
	build := exec.Command("go", "test", "-c", "-o", binary, ".")
	build.Env = append(os.Environ(), "GOARCH="+other, "CGO_ENABLED=0")
	out, err := build.CombinedOutput()
	require.NoError(t, err, "%s", out)
	run := exec.Command(binary, "-test.run=^TestSameOnAnotherMachine$", "-test.timeout=0")
	run.Env = append(os.Environ(), "GROUNDRULE_PORTABLE="+answers)
	require.NoError(t, run.Start())
	here := hashes(t)
	require.NoError(t, run.Wait())
	text, err := os.ReadFile(answers)
	require.NoError(t, err)
	there := strings.Split(string(text), "\n")
	require.Len(t, there, jobsOnBothMachines)
	for i := range here {
		require.Equal(t, here[i], there[i], "job %d has other bytes on %s than on %s", i, other, runtime.GOARCH)
	}
	t.Logf("%d jobs, the same bytes on %s and %s", len(here), runtime.GOARCH, other)
}

// fused is how the assembler of arm64 writes a product that is added in one
// step, after the place in the source.
var fused = regexp.MustCompile(`\((\S+\.go:\d+)\)\s+FN?M(?:ADD|SUB)`)

// TestNothingIsFused compiles what a design runs for a processor that multiplies
// and adds in one step, and looks for places where the compiler made use of it:
// there a result would have other bits than here. It runs only when asked, with
// GROUNDRULE_PORTABLE=1.
func TestNothingIsFused(t *testing.T) {
	if os.Getenv("GROUNDRULE_PORTABLE") != "1" {
		t.Skip("set GROUNDRULE_PORTABLE=1 to compile for another kind of processor")
	}
	build := exec.Command("go", "build", "-gcflags=example.com/groundrule/...=-S", ".")
	build.Env = append(os.Environ(), "GOARCH=arm64", "CGO_ENABLED=0")
	out, err := build.CombinedOutput()
	require.NoError(t, err)
	require.Contains(t, string(out), "FMULD", "the assembly is listed")
	var places []string
	for _, m := range fused.FindAllSubmatch(out, -1) {
		places = append(places, string(m[1]))
	}
	slices.Sort(places)
	require.Empty(t, slices.Compact(places), "write float64(a*b) + c")
}

// hashes designs the jobs and returns a hash of each: of the job as text and of
// the JSON of its section, or of the fault if there is none.
func hashes(t *testing.T) []string {
	const seed = 11
	book, err := groundrule.Standard()
	require.NoError(t, err)
	var out []string
	add := func(job *site.Site) {
		text, err := site.Write(job)
		require.NoError(t, err)
		h := sha256.New()
		h.Write([]byte(text))
		section, err := cameTo(book, job)
		if err == nil {
			text, err := section.JSON()
			require.NoError(t, err)
			h.Write(text)
		} else {
			h.Write([]byte(err.Error()))
		}
		out = append(out, fmt.Sprintf("%x", h.Sum(nil)[:8]))
	}
	for job := range jobs.Generate(nil, jobsOnBothMachines/2, seed) {
		add(job)
	}
	rng := rand.New(rand.NewPCG(seed, 0))
	for range jobsOnBothMachines / 2 {
		add(jobs.Any(rng, standardWords))
	}
	return out
}
