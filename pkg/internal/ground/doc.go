// Package ground works out what a soil is and what it can carry: its class, its
// strength and stiffness, how frost and water treat it, and how its volume
// changes when it is dug.
//
// Everything here is a plain function of what was measured. The package knows
// nothing of rules, files or screens; [Calculations] describes each function
// once, so that a rule language can call it.
//
// What a document does not cover is an error and never a guess. A value outside
// a range is a [calculation.RangeError], and a word for which a table has no entry
// a [calculation.WordError]. No function extrapolates.
//
// Most large tables here are from memory, and say so; each source keeps its tag
// in the description of the function that uses it.
package ground
