// Package rulebook shows what a compiled rulebook holds.
package rulebook

import "example.com/groundrule/pkg/internal/engine"

// The parts of a rulebook.
type (
	Book     = engine.Book
	Course   = engine.Course
	Date     = engine.Date
	Layer    = engine.Layer
	RunError = engine.RunError
)

// TrialsFolder is the folder beside the rules that holds their trials.
const TrialsFolder = engine.TrialsFolder

// ParseDate reads a day written as 2026-03-01.
func ParseDate(text string) (Date, bool) { return engine.ParseDate(text) }
