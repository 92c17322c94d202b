package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

var designCommand = &command{
	name:  "design",
	usage: "groundrule design JOB [flags]\n       groundrule design --stream [FILE] [flags]",
	about: "the section to build for a job, with the reason for every choice",
	text: `Reads the job file JOB (YAML or JSON; - reads standard input) and writes the
section to build, from the top down: how deep to dig, each layer with its
thickness and how it is laid, what to confirm before building, why each choice
was made, and what was checked.

A job that does not say in which measure it is built (built_in) is built in
inches, or with --units si in millimeters. Every thickness comes out in whole
parts of that measure, so that they add up as printed.

A job outside what the rulebook covers gets no section, but the limit that it
crossed and who should design it. A section that fails a check is shown as one
not to build.

Of a job of several areas it writes a section for each, and how they join where
they meet; with --in AREA that of one.

With --sheet crew it writes what the crew builds from instead: the steps from
the bottom up with their hold points, the tolerances, and what the crew stops
for.

With --json the section is on one line, without the rules that were passed over;
--json=full has them too, --json=crew the crew's part, --json=takeoff what is
ordered, --json=questions what is worth asking, and --json=indented is for
reading (or several, as in --json=full,indented). groundrule book schema section
describes the fields.

With --json, faults of the job or the rules are written to standard output as
well, a line of JSON for each: place, width, code, message, found, wanted and
nearest; the exit code is then 2.

With --found it tells what to do when the dig shows something else than the job
says: the job is designed once more with that, and what differs is told, by
which rules, and what to do with what is in the ground already. Of a job of
several areas, --in names the one where it was found; KEY= leaves out what the
job says and the dig shows to be wrong:

  groundrule design job.yaml --found soil.cbr=1.5 --in driveway

With --stream it reads any number of jobs, one a line as JSON, from FILE or
standard input, and writes a section for each, one a line as JSON, in their
order. A line that is no job gets a line with its number and its faults, and the
exit code is then 2; refused and stopped jobs are sections, and it is 0.
`,
	flags: append([]string{flagUnits, flagSheet, flagFormat, flagOut, flagOver, flagJSON, flagFound, flagIn, flagStream}, ofBook...),
	run:   runDesign,
}

func runDesign(c *call) int {
	if c.stream {
		return runStream(c)
	}
	if len(c.found) > 0 {
		return c.foundThen()
	}
	switch len(c.args) {
	case 0:
		return c.usageError("no job file given")
	case 1:
	default:
		return c.usageError("one job file at a time; %d given", len(c.args))
	}
	if !c.json && c.sheet == "" {
		c.forms = append(c.forms, section.Questions)
	}
	c.several = true
	book, a, err := c.areas(c.args[0])
	if err != nil {
		return c.fail(err)
	}
	return c.writeAreas(book, a)
}

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
func runStream(c *call) int {
	switch {
	case c.sheet != "":
		return c.usageError("--stream writes JSON; for the crew's part of each job use --json=crew")
	case len(c.found) > 0 || c.area != "":
		return c.usageError("--found is of one job, and --stream reads many")
	case len(c.args) == 0:
		c.args = []string{"-"}
	case len(c.args) > 1:
		return c.usageError("one file of jobs at a time; %d given", len(c.args))
	}
	c.json = true
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	in, name := c.in, stdinName
	if path := c.args[0]; path != "-" {
		file, err := os.Open(path)
		if err != nil {
			return c.fail(cannot("file of jobs", path, err))
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
		return c.usageError("%v", err)
	case err != nil:
		fmt.Fprintf(c.err, "groundrule %s: %s\n", c.name, plain(err.Error()))
		return exitFailed
	case wrong > 0:
		fmt.Fprintf(c.err, "groundrule %s: %d of the lines have no section, but their faults\n", c.name, wrong)
		return exitBadUse
	}
	return exitDone
}

// writeAreas writes the section of each area and how they join, and returns the exit
// code of their status.
func (c *call) writeAreas(book *groundrule.Book, a *section.Areas) int {
	if !c.json && c.sheet != "" && c.sheet != crewSheet {
		return c.done(a.Status(), sheet.Sheet{Of: c.sheet, As: c.format, System: c.system, Lines: book.Lines(), Drawn: book.Drawn()}.Write(c.out, a))
	}
	if a.Sections[0].Job.Part == "" {
		return c.write(a.Sections[0])
	}
	if c.json {
		data, err := a.JSON(c.forms...)
		if err == nil {
			_, err = c.out.Write(data)
		}
		return c.done(a.Status(), err)
	}
	for i, s := range a.Sections {
		if i > 0 {
			_, _ = c.out.Write([]byte("\n\n")) // output keeps its error
		}
		c.write(s)
	}
	return c.done(a.Status(), sheet.Joints(c.out, a, c.system))
}

// write writes a whole section, and returns the exit code of its status.
func (c *call) write(s *section.Section) int {
	var err error
	if c.json {
		var data []byte
		if data, err = s.JSON(c.forms...); err == nil {
			_, err = c.out.Write(data)
		}
	} else {
		write := sheet.Text
		if c.sheet == crewSheet {
			write = sheet.Crew
		}
		err = write(c.out, s, c.system)
	}
	return c.done(s.Status, err)
}

// done returns the exit code after a sheet was written.
func (c *call) done(status section.Status, err error) int {
	switch {
	case err != nil:
		return c.fail(err)
	case status != section.Designed:
		return exitNo
	}
	return exitDone
}
