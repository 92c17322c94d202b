// Package structure works out traffic, thickness and the stress under a wheel:
// the flexible-pavement equation of the AASHTO Guide, axle equivalence, cover
// over a subgrade of known CBR, and the stress beneath pavers and on a panel.
//
// They are plain functions that know nothing of rules or files. [Calculations]
// describes each of them for whoever calls them by name. Every number of a
// publication stands beside the formula that it belongs to, with its source and
// with how it is known; a value from memory says so. A value outside the range
// in which a formula holds is a [calculation.RangeError], never an extrapolation.
package structure
