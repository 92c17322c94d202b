// Package small makes small rulebooks for tests: a file of their own, beside the
// words of jobs of the standard rulebook and its sources.
package small

import (
	"io/fs"
	"testing/fstest"

	"example.com/groundrule/rules"
)

// Rulebook is a folder of rule files: one of this text, and the words of jobs.
func Rulebook(name, text string) fstest.MapFS {
	out := fstest.MapFS{name: {Data: []byte(text)}}
	for _, words := range []string{"10-sources.yaml", "15-job-words.yaml"} {
		data, err := fs.ReadFile(rules.Files(), words)
		if err != nil {
			panic(err)
		}
		out[words] = &fstest.MapFile{Data: data}
	}
	return out
}
