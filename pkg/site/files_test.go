package site_test

import (
	_ "embed"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/site"
)

// least is the least that a job file may say.
const least = "area: 400 sq ft\nuse: foot\nbase: dense\n"

// patio is the sample job: it has every entry that one job can have at once. What
// cannot stand beside it is in other.
//
//go:embed testdata/job.yaml
var patio string

// other holds the entries that patio cannot have, in the same job.
const other = least + `traffic: {trucks_over_life: 500, esal_over_life: "10,000"}
heights: {low_edge: 26 in}
`

// alike compares two sites by what they say and not by where it was written.
var alike = cmp.Options{
	cmpopts.IgnoreUnexported(site.Site{}),
	cmpopts.IgnoreFields(site.Override{}, "Place"),
	cmpopts.EquateEmpty(),
}

func read(t testing.TB, text string) *site.Site {
	t.Helper()
	s, err := standard(t).Read("job.yaml", []byte(text))
	require.NoError(t, err)
	return s
}

func sameSite(t testing.TB, want, got *site.Site) {
	t.Helper()
	if diff := cmp.Diff(want, got, alike); diff != "" {
		t.Errorf("site differs (-want +got):\n%s", diff)
	}
}

func at(line, column int) diagnostic.Place {
	return diagnostic.Place{File: "job.yaml", Line: line, Column: column}
}
