// Package portable computes logarithms, powers and the error function with the
// same bits on every machine.
//
// The functions of the standard library's math package may differ in the last
// bit: some processors have versions of their own in assembly, and where a
// processor can multiply and add in one step, the compiler may round once where
// it rounds twice elsewhere. A section is to be the same wherever it is worked
// out, so whatever it rests on uses these functions. They use only what IEEE 754
// rounds alike everywhere (sums, products, quotients, square roots) and exact
// operations on exponents, and every product is converted to float64 before it
// is added, which forbids the single step.
package portable
