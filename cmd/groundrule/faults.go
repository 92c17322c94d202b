package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// fail shows an error on standard error: each fault of a file with its line
// quoted and marked.
func (c *call) fail(err error) int {
	list := faultsOf(err, c.system)
	if len(list) == 0 {
		fmt.Fprintf(c.err, "groundrule %s: %v\n", c.name, err)
		return exitBadUse
	}
	files := &located{}
	errors.As(err, &files)
	if list.Render(c.err, files.text) != nil {
		return exitBadUse
	}
	if len(list) > 1 {
		fmt.Fprintf(c.err, "\n%d faults\n", len(list))
	}
	if slices.ContainsFunc(list, func(d *diagnostic.Diagnostic) bool { return d.Code == codeNoDay }) {
		fmt.Fprintf(c.err, "\nto tell the day: --as-of 2026-03-01\n")
	}
	return exitBadUse
}

const (
	codeNoDay    diagnostic.Code = "no-day"    // something holds on some days only, and no day was told
	codeNoAnswer diagnostic.Code = "no-answer" // a rule came to no answer on this job
)

// faultsOf returns the faults in an error that has places; none for any other.
func faultsOf(err error, system quantity.System) diagnostic.List {
	var list diagnostic.List
	if errors.As(err, &list) {
		return list
	}
	var run *rulebook.RunError
	if !errors.As(err, &run) || run.Place.File == "" {
		return nil
	}
	in := run.In
	if run.Rule != "" {
		in += ", rule " + run.Rule
	}
	d := &diagnostic.Diagnostic{Place: run.Place, Width: len([]rune(run.Text)), Code: codeNoAnswer, Message: in + ": " + run.Err.Error()}
	var values []string
	for _, v := range run.Values {
		values = append(values, v.Name+" = "+v.Value.Text(system))
	}
	d.Found = strings.Join(values, ", ")
	return diagnostic.List{d}
}
