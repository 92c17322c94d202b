package main

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/section"
)

// foundThen tells what comes of a job with what the dig shows, beside what it was.
func (c *call) foundThen() int {
	switch {
	case len(c.args) != 1:
		return c.usageError("one job file; %d given", len(c.args))
	case len(c.found) == 0:
		return c.usageError("--in says where something was found; say what with --found KEY=VALUE")
	case c.sheet != "":
		return c.usageError("--found tells what differs; write the new values to the job for its crew's sheet")
	}
	c.forms = append(c.forms, section.Takeoff)
	book, job, _, err := c.opened(c.args[0])
	if err != nil {
		return c.fail(err)
	}
	parts := job.site.Parts()
	var names []string
	for _, a := range job.site.Areas {
		names = append(names, a.Job)
	}
	at := slices.Index(names, c.area)
	switch {
	case len(names) == 0 && c.area != "":
		return c.usageError("this job has no areas, so that nothing is found in %q", c.area)
	case len(names) == 0:
		at = 0
	case at < 0:
		return c.usageError("--in names the area where it was found: one of %s%s", strings.Join(names, ", "), didYouMean(c.area, names))
	}
	values := map[string]string{}
	for _, each := range c.found {
		key, value, _ := strings.Cut(each, "=")
		values[key] = value
	}
	var is section.Otherwise
	was, err := book.Otherwise(parts[at], nil, c.forms...)
	if err == nil {
		is, err = book.Otherwise(parts[at], values, c.forms...)
	}
	if err != nil {
		return c.fail(&located{err: err, job: job, files: &c.files})
	}
	return c.changes(was.Section, is.Section, &is)
}
