// Package rules holds the standard rulebook and its material catalog, as
// plain files that a company can read, copy and amend.
package rules

import (
	"embed"
	"io/fs"
)

//go:embed *.yaml trials/*.yaml
var files embed.FS

// Files returns the rule files of the standard rulebook, and under trials what
// they are held to.
func Files() fs.FS { return files }

// Label is the folder that the files lie in, as places name it.
const Label = "rules"
