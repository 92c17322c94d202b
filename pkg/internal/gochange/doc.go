// Package gochange measures how much of the Go code the tests hold: it changes
// the code in one place at a time and sees whether a test notices.
//
// It has test files only. TestSingleChanges draws a random sample of changes of
// the packages that GROUNDRULE_CHANGES names, and is skipped if it names none;
// DEVELOPERS.md says how to run it. The tree is never touched: a changed file
// lies in a temporary folder, and go test reads it by -overlay.
package gochange
