package engine_test

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"os"
	"strings"
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
	_, err := groundrule.OpenStandard(groundrule.AsOf(rulebook.DateOf(time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC))),
		groundrule.WithAmendments(rulebook.Layer{FS: fstest.MapFS{"a.yaml": {Data: []byte(file)}}}))
	var wrong *rulebook.Error
	if err != nil && !errors.As(err, &wrong) {
		t.Fatal(err)
	}
	if wrong == nil {
		return nil
	}
	return wrong.Faults
}

// TestSlips holds what a keeper of a company's standard is told of each slip.
func TestSlips(t *testing.T) {
	const golden, shown = "testdata/slips/slips.txt", 6
	var out bytes.Buffer
	for _, s := range append(slips, moreSlips...) {
		file := s.file(t)
		out.WriteString("=== " + s.name + "\n" + s.why + "\n\n")
		faults := slipFaults(t, file)
		if len(faults) == 0 {
			out.WriteString("taken as it stands\n")
		}
		more := max(0, len(faults)-shown)
		faults = faults[:len(faults)-more]
		require.NoError(t, faults.Render(&out, func(name string) ([]byte, bool) { return []byte(file), name == "a.yaml" }))
		if more > 0 {
			fmt.Fprintf(&out, "\nand more\n")
		}
		out.WriteString("\n")
	}
	if *update {
		require.NoError(t, os.WriteFile(golden, out.Bytes(), 0o600))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), out.String()))
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
