package engine_test

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"os"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
)

var update = flag.Bool("update", false, "write the golden files anew")

// slip is a way of getting an amendment wrong: testdata/slips/right.yaml with one
// text put in place of another, or a whole file where nothing is taken out.
type slip struct{ name, why, from, to string }

//go:embed testdata/slips/right.yaml
var right string

func (s slip) file(t *testing.T) string {
	if s.from == "" {
		return s.to
	}
	require.Equal(t, 1, strings.Count(right, s.from), "%q must stand once in the right file", s.from)
	return strings.Replace(right, s.from, s.to, 1)
}

// slipFaults lays a file over the standard rulebook and returns what is wrong.
func slipFaults(t *testing.T, file string) diagnostic.List {
	t.Helper()
	opened.Lock()
	faults, done := opened.faults[file]
	opened.Unlock()
	if done {
		return faults
	}
	_, err := groundrule.OpenStandard(groundrule.AsOf(rulebook.DateOf(time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC))),
		groundrule.WithAmendments(rulebook.Layer{FS: fstest.MapFS{"a.yaml": {Data: []byte(file)}}}))
	var wrong *rulebook.Error
	if err != nil && !errors.As(err, &wrong) {
		t.Fatal(err)
	}
	if wrong != nil {
		faults = wrong.Faults
	}
	opened.Lock()
	opened.faults[file] = faults
	opened.Unlock()
	return faults
}

// opened are the files that have been laid over the standard, with their faults.
var opened = struct {
	sync.Mutex
	faults map[string]diagnostic.List
}{faults: map[string]diagnostic.List{}}

// TestSlips holds what a keeper of a company's standard is told of each slip.
func TestSlips(t *testing.T) {
	slow(t)
	const golden, shown = "testdata/slips/slips.txt", 6
	var out bytes.Buffer
	var ahead sync.WaitGroup
	turns := make(chan bool, runtime.NumCPU())
	for _, s := range allSlips {
		file := s.file(t)
		ahead.Go(func() {
			turns <- true
			slipFaults(t, file)
			<-turns
		})
	}
	ahead.Wait()
	for _, s := range allSlips {
		file := s.file(t)
		out.WriteString("=== " + s.name + "\n" + s.why + "\n\n")
		faults := slipFaults(t, file)
		if len(faults) == 0 {
			out.WriteString("taken as it stands\n")
		}
		more := max(0, len(faults)-shown)
		faults = slices.Clone(faults[:len(faults)-more])
		require.NoError(t, faults.Render(&out, func(name string) ([]byte, bool) { return []byte(file), name == "a.yaml" }))
		if more > 0 {
			fmt.Fprintf(&out, "\nand more\n")
		}
		out.WriteString("\n")
	}
	got := ruleLine.ReplaceAllString(out.String(), "$1")
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(got), 0o600))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), got))
}

// ruleLine is a place in the standard's files, whose lines change with every edit
// of them.
var ruleLine = regexp.MustCompile(`(rules/[0-9a-z-]+\.yaml):\d+:\d+`)

// slow leaves a test out where tests are to be short: it opens the standard
// rulebook hundreds of times.
func slow(t *testing.T) {
	if testing.Short() {
		t.Skip("slow")
	}
}

// pastable are repairs that are told as what is wanted, and are the text to write.
var pastable = regexp.MustCompile(`^([&|=!<>*/]{1,2}|[a-z_]+\([-0-9.]+\)|"'.*'")$`)

// secondThoughts are slips whose repair, as told, leaves another slip at the place.
var secondThoughts = map[string]string{
	"48-ternary":       "in quotes it is read, and then it hides a rule",
	"variance-setting": "once its setting is found, nothing needs the variance",
	"84-notexpr":       "in quotes it is read, and then ! stands before a word",
	"71-tag":           "without its tag the value is read, and has no unit",
	"72-python-tag":    "without its tag the value is read, and has no unit",
	"table-above":      "over 8 is what it says, and then 8 itself is in no row",
}

// TestRepairs pastes every repair that a slip is told, alone, and opens the file
// again: the fault is gone, and there is none in its place.
func TestRepairs(t *testing.T) {
	slow(t)
	pasted := 0
	for _, s := range allSlips {
		file := s.file(t)
		faults := slipFaults(t, file)
		for _, d := range faults[:min(len(faults), 6)] {
			for _, repaired := range repairs(d, file) {
				pasted++
				left := slipFaults(t, repaired)
				_, again := secondThoughts[s.name]
				for _, other := range left {
					same := other.Place.Line == d.Place.Line && (other.Code == d.Code && other.Message == d.Message || other.Place.Column == d.Place.Column)
					if same && !again {
						t.Errorf("%s: %v\nleaves: %v", s.name, d, other)
					}
				}
			}
		}
	}
	t.Log(pasted, "repairs")
	require.Greater(t, pasted, 90, "so many repairs are told")
}

// repairs are the files that the repairs of a fault lead to.
func repairs(d *diagnostic.Diagnostic, file string) []string {
	ending := "\n"
	if strings.Contains(file, "\r\n") {
		ending = "\r\n"
	} else if strings.Contains(file, "\r") {
		ending = "\r"
	}
	lines := strings.Split(strings.TrimPrefix(file, "\ufeff"), ending)
	if d.Place.Line == 0 || d.Place.File != "a.yaml" {
		return nil
	}
	with := func(line string) string {
		out := slices.Clone(lines)
		out[d.Place.Line-1] = line
		return strings.Join(out, ending)
	}
	over := func(text string) string {
		line := []rune(lines[d.Place.Line-1])
		from := d.Place.Column - 1
		return with(string(line[:from]) + text + string(line[min(len(line), from+max(1, d.Width)):]))
	}
	var out []string
	if d.Repaired != "" {
		out = append(out, with(d.Repaired))
	}
	if d.Nearest != "" {
		out = append(out, over(d.Nearest))
	}
	if pastable.MatchString(d.Wanted) {
		out = append(out, over(d.Wanted))
	}
	return out
}

// utf16 is a text in UTF-16, the lower byte first, as some editors save it.
func utf16(text string) string {
	out := "\xff\xfe"
	for _, r := range text {
		out += string([]byte{byte(r), byte(r >> 8)})
	}
	return out
}

const bomb = `amendment: x
who: y
when: 2026-01-01
why: z
a: &a [x,x,x,x,x,x,x,x,x]
b: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]
c: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]
d: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c]
e: &e [*d,*d,*d,*d,*d,*d,*d,*d,*d]
f: &f [*e,*e,*e,*e,*e,*e,*e,*e,*e]
g: &g [*f,*f,*f,*f,*f,*f,*f,*f,*f]
h: &h [*g,*g,*g,*g,*g,*g,*g,*g,*g]
i: &i [*h,*h,*h,*h,*h,*h,*h,*h,*h]
`
