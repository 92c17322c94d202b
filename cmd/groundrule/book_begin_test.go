package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A company's standard begins without faults and with trials that pass, and a
// second beginning leaves it as it is.
func TestBookBegin(t *testing.T) {
	var out string
	t.Run("begun", func(t *testing.T) {
		t.Chdir(t.TempDir())
		told := func(code int, args ...string) {
			got := try("", append([]string{"book"}, args...)...)
			require.Equal(t, code, got.code, got.out+got.err)
			out += "$ groundrule book " + strings.Join(args, " ") + "\n" + got.out + got.err + "\n"
		}
		told(exitDone, "begin", "ours")
		told(exitDone, "trials", "--amend", "ours")
		require.Equal(t, exitDone, try("", "book", "check", "--amend", "ours").code)
		require.NoError(t, os.WriteFile("ours/our-standard.yaml", []byte("edited"), 0o600))
		require.NoError(t, os.Remove("ours/trials/our-standard.yaml"))
		told(exitBadUse, "begin", "ours")
		text, err := os.ReadFile("ours/our-standard.yaml")
		require.NoError(t, err)
		require.Equal(t, "edited", string(text), "it is not written over")
		require.NoFileExists(t, "ours/trials/our-standard.yaml", "and nothing else is written")
		told(exitBadUse, "begin")
		told(exitBadUse, "begin", "ours/our-standard.yaml")
	})
	golden(t, "begin.txt", out)
}
