// Package rules holds the standard rulebook and its material catalog, as
// plain files that a company can read, copy and amend.
package rules

import "embed"

// Files are the rule files of the standard rulebook, and under trials what they
// are held to.
//
//go:embed *.yaml trials/*.yaml
var Files embed.FS

// Label is the folder that the files lie in, as places name it.
const Label = "rules"
