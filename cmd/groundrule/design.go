package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

func runDesign(c *call) error {
	if c.stream {
		return runStream(c)
	}
	if len(c.found) > 0 {
		return c.foundThen()
	}
	switch {
	case len(c.args) == 0:
		return noJob
	case len(c.args) > 1:
		return misused("one job file at a time; %d given", len(c.args))
	}
	if !c.json {
		which := c.written()
		if err := which.Check(); err != nil {
			return misused("%v", err)
		}
		c.forms = append(c.forms, which.Forms()...)
	} else if c.sheet != "" || c.format != "" {
		return misused("--json is a form of its own, for programs; leave out --sheet and --format")
	}
	c.several = true
	book, a, err := c.areas(c.args[0])
	if err != nil {
		return err
	}
	return c.writeAreas(book, a)
}

// noJob is the error of a command line without a job file.
const noJob = misuse("no job file given")

// opened opens the rulebook and reads a job by its words, on its day. It reports
// whether the flag says in which measure the job is built.
func (c *call) opened(path string) (book *groundrule.Book, job *jobFile, byFlag bool, err error) {
	if book, err = c.book(); err != nil {
		return nil, nil, false, err
	}
	if job, err = c.job(book, path); err != nil {
		return nil, nil, false, err
	}
	c.setJobDay(job.site)
	return book, job, c.measure(book.Table(), job.site), nil
}

// areas designs the job of a file, and returns the rulebook with it. For an area
// that gets no section to build it is the section that says why.
func (c *call) areas(path string) (*groundrule.Book, *section.Areas, error) {
	book, job, byFlag, err := c.opened(path)
	if err != nil {
		return nil, nil, err
	}
	c.read = job
	a, err := book.Areas(job.site, c.forms...)
	if err != nil {
		return nil, nil, &located{err: err, job: job, files: &c.files}
	}
	for _, s := range a.Sections {
		if byFlag { // what the job does not say has no effect to tell of
			s.Absent = slices.DeleteFunc(s.Absent, func(a section.Absent) bool { return a.Sort == "input" && a.Name == "built_in" })
		}
	}
	return book, a, nil
}

// section designs the one area of a job.
func (c *call) section(path string) (*groundrule.Book, *section.Section, error) {
	book, a, err := c.areas(path)
	if err != nil {
		return nil, nil, err
	}
	return book, a.Sections[0], nil
}

// metric is the word of a job that is built in millimeters.
const metric = "millimeters"

// measure lets the flag say in which measure a job is built that does not say, and
// shows in SI units what is built in millimeters.
// It reports whether the flag says so.
func (c *call) measure(table *site.Table, job *site.Site) bool {
	switch {
	case c.system == quantity.SI && job.BuiltIn == "" && table.Check("built_in", metric) == nil:
		job.BuiltIn = metric
		return true
	case c.system == quantity.EitherSystem && job.BuiltIn == metric:
		c.system = quantity.SI
	}
	return false
}

// runStream designs jobs one a line.
func runStream(c *call) error {
	switch {
	case c.sheet != "" || c.format != "" || c.into != "":
		return misused("--stream writes JSON to standard output; for the crew's part of each job use --json=crew")
	case len(c.found) > 0 || c.area != "":
		return misused("--found is of one job, and --stream reads many")
	case len(c.args) == 0:
		c.args = []string{"-"}
	case len(c.args) > 1:
		return misused("one file of jobs at a time; %d given", len(c.args))
	}
	c.json = true
	book, err := c.book()
	if err != nil {
		return err
	}
	in, name := c.in, stdinName
	if path := c.args[0]; path != "-" {
		file, err := os.Open(path)
		if err != nil {
			return cannot("file of jobs", path, err)
		}
		defer file.Close()
		in, name = file, filepath.ToSlash(path)
	}
	table := book.Table()
	ctx, stop := interruptible()
	defer stop()
	wrong, err := book.Stream(ctx, c.out, func(yield func(*site.Site, error) bool) {
		for job, err := range review.ReadJobLines(name, in) {
			if err == nil {
				c.measure(table, job)
			}
			if !yield(job, err) {
				return
			}
		}
	}, c.forms...)
	switch {
	case errors.Is(err, section.ErrForm):
		return misused("%v", err)
	case err != nil:
		fmt.Fprintf(c.err, "groundrule %s: %s\n", c.Name, plain(err.Error()))
		return exit(exitFailed)
	case wrong > 0:
		fmt.Fprintf(c.err, "groundrule %s: %d of the lines have no section, but their faults\n", c.Name, wrong)
		return exit(exitBadUse)
	}
	return nil
}

// written says which sheet is written, and how.
func (c *call) written() sheet.Sheet {
	return sheet.Sheet{Of: c.sheet, As: c.format, System: c.system, Columns: c.columns()}
}

// The columns of a text on a terminal.
const leastColumns, mostColumns = 40, 100

// columns is how many columns a text has: on a terminal as many as the variable
// COLUMNS says, 0 for the usual.
func (c *call) columns() int {
	out, is := c.out.(*output)
	if !is || c.into != "" || !isTerminal(out.w) {
		return 0
	}
	return columnsOf(os.Getenv("COLUMNS"))
}

// columnsOf reads the variable COLUMNS.
func columnsOf(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil || n < leastColumns {
		return 0
	}
	return min(n, mostColumns)
}

// writeAreas writes the areas of a job as a sheet or as JSON. Its error is that of
// their status, if it is no other.
func (c *call) writeAreas(book *groundrule.Book, a *section.Areas) error {
	var out bytes.Buffer
	var err error
	switch {
	case !c.json:
		which := c.written()
		which.Lines, which.Drawn = book.Lines(), book.Drawn()
		if slices.Contains(which.Forms(), section.Client) {
			c.forms = []section.Form{section.Client, section.Takeoff}
			var areas []areaOptions
			areas, err = c.offered(book, c.read)
			for _, a := range areas {
				which.Options, which.Costs = append(which.Options, a.options...), append(which.Costs, a.costs...)
			}
		}
		if err == nil {
			err = which.Write(&out, a)
		}
	default:
		var data []byte
		if a.Sections[0].Job.Part == "" {
			data, err = a.Sections[0].JSON(c.forms...)
		} else {
			data, err = a.JSON(c.forms...)
		}
		out.Write(data)
	}
	if err == nil {
		err = c.deliver(out.Bytes())
	}
	return done(a.Status(), err)
}

// deliver writes to the file of the flags, or to standard output, which keeps its
// error.
func (c *call) deliver(data []byte) error {
	if c.into != "" {
		return c.writeFile(c.into, data)
	}
	_, _ = c.out.Write(data)
	return nil
}

// done returns the exit code of a job that is not to be built, if there is no other
// error.
func done(status section.Status, err error) error {
	if err == nil && status != section.Designed {
		return exit(exitNo)
	}
	return err
}

// encode writes a value as JSON, on one line or indented.
func (c *call) encode(x any, indent string) error {
	enc := json.NewEncoder(c.out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", indent)
	return enc.Encode(x)
}
