package main

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/section"
)

// foundThen tells what comes of a job with what the dig shows, beside what it was.
func (c *call) foundThen() int {
	switch {
	case len(c.args) != 1:
		return c.usageError("one job file; %d given", len(c.args))
	case c.sheet != "" || c.format != "" || c.into != "":
		return c.usageError("--found tells what differs, as text; write the new values to the job for its sheets")
	}
	c.forms = append(c.forms, section.Takeoff)
	book, job, _, err := c.opened(c.args[0])
	if err != nil {
		return c.fail(err)
	}
	values := map[string]string{}
	for _, each := range c.found {
		key, value, _ := strings.Cut(each, "=")
		values[key] = value
	}
	var is section.Otherwise
	was, err := book.Otherwise(job.site, nil, c.forms...)
	if err == nil {
		is, err = book.Otherwise(job.site, values, c.forms...)
	}
	if err != nil {
		return c.fail(&located{err: err, job: job, files: &c.files})
	}
	code := c.changes(was.Section, is.Section, &is)
	if code == exitDone && !c.json && is.Status == section.Refused {
		fmt.Fprintln(c.out, "  What the job says and the dig shows to be wrong can be left out: --found KEY=")
	}
	return code
}
