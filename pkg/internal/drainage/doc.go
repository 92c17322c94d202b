// Package drainage works out what water and grains do in a paver section: how
// an aggregate is graded, whether one course holds another or the soil back,
// how deep a reservoir course must be, how long it takes to empty, and how fast
// the soil takes water.
//
// The functions are plain Go. They know nothing of rules, files or screens;
// [Calculations] describes those that a rule may call. Every measured value is
// a typed quantity; percent passing, ratios and porosities are plain numbers.
//
// What the data do not tell is an error, [ErrCannotTell], and never a guess: a
// size finer than the finest tabulated sieve is not extrapolated. A value that
// makes no sense is a [calculation.RangeError]. No function returns NaN or an
// infinity.
package drainage
