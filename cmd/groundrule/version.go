package main

import (
	"fmt"
	"runtime/debug"

	"example.com/groundrule/pkg/groundrule"
)

var versionCommand = &command{
	name:  "version",
	usage: "groundrule version",
	about: "the version of this program and of the standard rulebook",
	text: `Shows the version of this program, and the files of the standard rulebook in it
with the hash of their bytes (SHA-256), which is that on every sheet.
`,
	run: runVersion,
	exits: `Exit code: 0 done; 2 the command line is wrong.
`,
}

func runVersion(c *call) int {
	if len(c.args) > 0 {
		return c.usageError("it takes no arguments, and %d given", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	version, commit := groundrule.Version, ""
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				commit = ", commit " + s.Value
			}
		}
		version += ", " + info.GoVersion
	}
	fmt.Fprintf(c.out, "groundrule %s%s\nstandard rulebook:\n", version, commit)
	for _, f := range book.Rules().Files {
		fmt.Fprintf(c.out, "  %s  %s\n", f.SHA256, f.Name)
	}
	return exitDone
}
