package main

import (
	"bytes"
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

var designCommand = &command{
	name:  "design",
	usage: "groundrule design JOB [flags]\n       groundrule design --stream [FILE] [flags]",
	about: "the section to build for a job, with the reason for every choice",
	text: `Reads the job file JOB (YAML or JSON; - reads standard input), designs the
section to build, and writes it as one page: what matters on this job, how deep
to dig, the layers from the top down, what to confirm first, and what was
checked. Other sheets say the rest:

  --sheet page    the page, if no other is named
  --sheet crew    what the crew builds from: steps, tolerances, what to stop for
  --sheet client  what is built and why, in words for the client, with what was
                  compared and, by --prices FILE, what that costs
  --sheet audit   every choice with its rule, its values and its source
  --sheet full    the page, and all of what it says in short
  --sheet all     client, crew and audit in one, with a contents

A sheet is text, or with --format markdown, html or svg: the drawn section of
each area, then where areas meet, and of the crew's sheet how rolls and panels
are laid. What is refused or stopped is not drawn. Text is 80 columns wide; on a
terminal, as wide as the variable COLUMNS says, from 40 to 100. With -o it goes
to a file, which must not be there yet unless --over.

A job that does not say in which measure it is built (built_in) is built in
inches, or with --units si in millimeters.

A job outside what the rulebook covers gets no section, but the limit that it
crossed and who should design it. A section that fails a check is shown as one
not to build. Of several areas each has its part; --in AREA shows one.

With --json the section is on one line, without the rules that were passed over;
--json=full has them too, --json=crew the crew's part, --json=client what the
client is told, --json=takeoff what is ordered, --json=questions what is worth
asking, and --json=indented is for reading (or several, as in
--json=full,indented). groundrule book schema section describes the fields.
Faults are then lines of JSON on standard output too.

With --found it tells what to do when the dig shows something else than the job
says: what differs then, by which rules, and what to do with what is in the
ground already. Of several areas, --in names the one where it was found; KEY=
leaves out what the job says and the dig shows to be wrong:

  groundrule design job.yaml --found soil.cbr=1.5 --in driveway

With --stream it reads any number of jobs, one a line as JSON, from FILE or
standard input, and writes a section for each, one a line as JSON, in their
order. A line that is no job gets a line with its number and its faults, and the
exit code is then 2; refused and stopped jobs are sections, and it is 0.
`,
	flags: append([]string{flagUnits, flagSheet, flagFormat, flagOut, flagOver, flagPrices, flagJSON, flagFound, flagIn, flagStream}, ofBook...),
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
	if !c.json {
		which := c.written()
		if err := which.Check(); err != nil {
			return c.usageError("%v", err)
		}
		c.forms = append(c.forms, which.Forms()...)
	} else if c.sheet != "" || c.format != "" {
		return c.usageError("--json is a form of its own, for programs; leave out --%s and --%s", flagSheet, flagFormat)
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
func runStream(c *call) int {
	switch {
	case c.sheet != "" || c.format != "" || c.into != "":
		return c.usageError("--stream writes JSON to standard output; for the crew's part of each job use --json=crew")
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

// written says which sheet is written, and how.
func (c *call) written() sheet.Sheet {
	return sheet.Sheet{Of: c.sheet, As: c.format, System: c.system, Columns: c.columns()}
}

// The columns of a text on a terminal.
const leastColumns, mostColumns = 40, 100

// columns is how many columns a text has: on a terminal as many as the variable
// COLUMNS says, 0 for the usual.
func (c *call) columns() int {
	out, _ := c.out.(*output)
	if out == nil || c.into != "" {
		return 0
	}
	file, isFile := out.w.(*os.File)
	if !isFile {
		return 0
	}
	if info, err := file.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
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

// writeAreas writes the areas of a job as a sheet or as JSON, and returns the exit code
// of their status.
func (c *call) writeAreas(book *groundrule.Book, a *section.Areas) int {
	var out bytes.Buffer
	var err error
	switch {
	case !c.json:
		which := c.written()
		which.Lines, which.Drawn = book.Lines(), book.Drawn()
		if slices.Contains(which.Forms(), section.Client) && len(c.read.site.Areas) == 0 {
			c.forms = []section.Form{section.Client, section.Takeoff}
			which.Options, which.Costs, err = c.offered(book, c.read)
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
	return c.done(a.Status(), err)
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
