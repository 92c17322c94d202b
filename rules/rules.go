// Package rules holds the standard rulebook and its material catalogue, as
// plain files that a company can read, copy and amend.
package rules

import "embed"

// Files are the rule files of the standard rulebook.
//
//go:embed *.yaml
var Files embed.FS
