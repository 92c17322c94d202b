package main

import (
	"embed"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

//go:embed begin
var begun embed.FS

var bookBeginCommand = &command{
	name:  "book begin",
	usage: "groundrule book begin DIR",
	about: "a folder of amendments to begin a company's standard with",
	text: `Writes a folder of amendments that begins a company's own standard: who, when
and why to fill in, an example of each kind of change with what it is for, and a
trial. It is without faults as it stands; change the examples or delete them:

  groundrule book begin ours
  groundrule book check --amend ours
  groundrule book trials --amend ours

Nothing is written over: where one of its files is there already, none is
written.
`,
	exits: `Exit code: 0 done; 2 a file is there already, or the command line is wrong.
`,
	run: runBookBegin,
}

func runBookBegin(c *call) int {
	if len(c.args) != 1 {
		return c.usageError("one folder is needed, and %d given", len(c.args))
	}
	files, err := fs.Sub(begun, "begin")
	if err != nil {
		return c.fail(err)
	}
	var names []string
	for _, pattern := range []string{"*.yaml", "*/*.yaml"} {
		found, _ := fs.Glob(files, pattern)
		names = append(names, found...)
	}
	for _, name := range names {
		to := filepath.Join(c.args[0], filepath.FromSlash(name))
		if _, there := os.Lstat(to); there == nil {
			return c.fail(fmt.Errorf("%s is there already, and nothing is written over; name another folder", to))
		}
	}
	if err := os.CopyFS(c.args[0], files); err != nil {
		return c.fail(err)
	}
	for _, name := range names {
		fmt.Fprintln(c.out, "wrote", filepath.Join(c.args[0], filepath.FromSlash(name)))
	}
	fmt.Fprint(c.out, "\nFill in company, who, when and why, and work through the examples: each is in\nforce until you change or delete it.\n")
	return exitDone
}
