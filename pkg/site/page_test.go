package site_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

var update = flag.Bool("update", false, "write the page of keys anew")

// JOB.md lists every key of a job file, from the table that its reader follows.
func TestPageOfKeys(t *testing.T) {
	var b strings.Builder
	b.WriteString("# The keys of a job file\n\nMade from the table of fields by a test, with the words of the standard rulebook, which amendments add to; `area`, `use` and `base` are needed, and the rest is left out where it is not known. " +
		"A dot stands for lines indented under the key before it, and [] for each item of a list.\n\n| key | what it is | what is written | possible |\n|---|---|---|---|\n")
	for _, f := range standard(t).Fields() {
		possible := ""
		switch f.Form {
		case site.NumberForm, site.NumbersForm, site.MeasuredForm:
			possible = f.Range.Text(quantity.US)
		}
		if f.Required {
			possible = strings.TrimPrefix(possible+"; needed", "; ")
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", f.Path, f.About, f.Wanted(), possible)
	}
	const page = "JOB.md"
	if *update {
		require.NoError(t, os.WriteFile(page, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(page)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), b.String()))
}
