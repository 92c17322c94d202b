package main

import (
	"strings"
	"testing"
)

// TestShow runs the example as an embedder would, from outside the library's
// module.
func TestShow(t *testing.T) {
	var out strings.Builder
	if err := show(&out); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"dig ", "Pavers, thickness: ", "crew days: 2.5"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the output lacks %q:\n%s", want, out.String())
		}
	}
}
