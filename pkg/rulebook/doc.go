// Package rulebook reads rule files, checks them and compiles them.
package rulebook

import (
	_ "github.com/google/cel-go/cel"
)
