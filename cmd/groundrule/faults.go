package main

import (
	"errors"
	"fmt"
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
	texts := map[string][]byte{}
	shown := make(diagnostic.List, len(list))
	for i, d := range list {
		own := *d
		own.Place = relocate(files, d.Place, texts)
		own.Related = nil
		for _, r := range d.Related {
			own.Related = append(own.Related, diagnostic.Related{Place: relocate(files, r.Place, texts), Message: r.Message})
		}
		shown[i] = &own
	}
	if err := shown.Render(c.err, func(file string) ([]byte, bool) { data, ok := texts[file]; return data, ok }); err != nil {
		return exitBadUse
	}
	if len(shown) > 1 {
		fmt.Fprintf(c.err, "\n%d faults\n", len(shown))
	}
	return exitBadUse
}

// relocate names a place's file as the user knows it, and keeps its text.
func relocate(files *located, p diagnostic.Place, texts map[string][]byte) diagnostic.Place {
	shown, data, ok := files.file(p.File)
	if ok {
		texts[shown] = data
	}
	p.File = shown
	return p
}

// faultsOf gives the faults in an error that has places; none for any other.
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
	d := &diagnostic.Diagnostic{Place: run.Place, Width: len([]rune(run.Text)), Code: "no-answer", Message: in + ": " + run.Err.Error()}
	var values []string
	for _, v := range run.Values {
		values = append(values, v.Name+" = "+v.Value.Text(system))
	}
	d.Found = strings.Join(values, ", ")
	return diagnostic.List{d}
}
