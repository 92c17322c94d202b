package main

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// fail shows an error on standard error: each fault of a file with its line
// quoted and marked. With --json it is on standard output, a line of JSON for
// each fault.
func (c *call) fail(err error) int {
	if out, ok := c.out.(*output); ok && out.err != nil {
		return exitFailed // which run says
	}
	list := faultsOf(err, c.system)
	switch {
	case c.json:
		if len(list) == 0 {
			list = diagnostic.List{{Message: plain(err.Error())}}
		}
		_ = list.WriteJSONLines(c.out) // output keeps its error
		return exitBadUse
	case len(list) == 0:
		fmt.Fprintf(c.err, "groundrule %s: %s\n", c.Name, plain(err.Error()))
		return exitBadUse
	}
	files := &located{}
	errors.As(err, &files)
	if list.Render(c.err, files.text) != nil {
		return exitBadUse
	}
	switch more := unlisted(err); {
	case more > 0:
		fmt.Fprintf(c.err, "\n%d faults, and %d more\n", len(list), more)
	case len(list) > 1:
		fmt.Fprintf(c.err, "\n%d faults\n", len(list))
	}
	if slices.ContainsFunc(list, func(d *diagnostic.Diagnostic) bool { return d.Code == rulebook.CodeNoDay }) {
		fmt.Fprintf(c.err, "\nadd the date, such as --as-of 2026-03-01\n")
	}
	return exitBadUse
}

// unlisted is how many faults an error has beside those that it lists.
func unlisted(err error) int {
	var job *site.Error
	var book *rulebook.Error
	switch {
	case errors.As(err, &job):
		return job.More
	case errors.As(err, &book):
		return book.More
	}
	return 0
}

// cannot says what is wrong with a file or a folder that the command line names.
func cannot(what, path string, err error) error {
	var at *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no %s %s", what, path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("the %s %s may not be read", what, path)
	case errors.As(err, &at):
		err = at.Err
	}
	return fmt.Errorf("the %s %s cannot be read: %w", what, path, err)
}

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
	said, values := runSays(run, system)
	for _, v := range run.Values {
		values = append(values, v.Name+" = "+v.Value.Text(system))
	}
	in := run.Asked()
	if run.Place.File == expressionName {
		in = "" // it is quoted and marked
	}
	return diagnostic.List{{Place: run.Place, Width: len([]rune(run.Text)), Code: rulebook.CodeNoAnswer,
		Message: strings.TrimPrefix(in+": "+said, ": "), Found: strings.Join(values, ", ")}}
}

// runSays returns why a rule came to no answer, without the text that the mark
// shows, and the call of the calculation that refused it, if one did.
func runSays(run *rulebook.RunError, system quantity.System) (said string, found []string) {
	var call interface {
		error
		Call(quantity.System) string
	}
	if !errors.As(run.Err, &call) {
		return strings.TrimPrefix(run.Err.Error(), run.Text+": "), nil
	}
	cause := errors.Unwrap(call)
	said = cause.Error()
	var inUnits interface {
		error
		Text(quantity.System) string
	}
	if errors.As(cause, &inUnits) {
		said = strings.Replace(said, inUnits.Error(), inUnits.Text(system), 1)
	}
	return said, []string{call.Call(system)}
}
