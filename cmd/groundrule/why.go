package main

import (
	"errors"
	"fmt"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
)

func runWhy(c *call) error {
	switch {
	case len(c.args) == 0:
		return noJob
	case len(c.args) == 1 && c.json:
		return misused("--json needs the name of a layer or a decision; groundrule design --json has all of them")
	}
	if len(c.args) == 2 {
		c.forms = append(c.forms, section.Crew, section.Client, section.Takeoff) // a step, a sentence for the client and a quantity have reasons too
	}
	book, s, err := c.section(c.args[0])
	if err != nil {
		return err
	}
	if len(c.args) == 1 {
		return done(s.Status, sheet.Asked(c.out, s, c.system))
	}
	name := c.args[1]
	if told, err := c.whyJoints(book, name); told || err != nil {
		return done(s.Status, err)
	}
	err = c.reason(book, s, name)
	var missing *sheet.NoCourseError
	switch {
	case errors.As(err, &missing) && s.Status == section.Refused: // there are no layers, and this is why
		return c.writeAreas(book, &section.Areas{Sections: []*section.Section{s}})
	case errors.As(err, &missing):
		err = fmt.Errorf("%w%s", err, elsewhere(book.Rules(), name, c.args[0]))
	}
	return done(s.Status, err)
}

func (c *call) reason(book *groundrule.Book, s *section.Section, name string) error {
	if c.json {
		return sheet.ReasonJSON(c.out, s, name, c.forms...)
	}
	return sheet.Sheet{System: c.system, Lines: book.Lines()}.Why(c.out, s, name)
}

// whyJoints writes the reasons for what is decided under a name where the area of the job
// meets others, and reports whether there is any.
func (c *call) whyJoints(book *groundrule.Book, name string) (told bool, err error) {
	if c.area == "" {
		return false, nil
	}
	a, err := book.Areas(c.read.whole, section.Crew)
	if err != nil {
		return false, &located{err: err, job: c.read, files: &c.files}
	}
	for _, j := range a.Joints {
		if j.Of != c.area && j.Beside != c.area {
			continue
		}
		var missing *sheet.NoCourseError
		if err := c.reason(book, j.Section(), name); err == nil {
			told = true
		} else if !errors.As(err, &missing) {
			return told, err
		}
	}
	return told, nil
}

// elsewhere says what a name is that a section has no reason for.
func elsewhere(rules rulebook.Contents, name, job string) string {
	for _, each := range rules.Terms {
		if each.Name == name {
			return fmt.Sprintf("\n%s is a term; its value: groundrule calc '%s' %s", name, name, job)
		}
	}
	for _, each := range rules.Settings {
		if each.Name == name {
			return fmt.Sprintf("\n%s is a setting; its value: groundrule calc '%s'", name, name)
		}
	}
	for _, each := range rules.Work {
		if each.ID == name {
			return fmt.Sprintf("\n%s is a %s, which this job does not have", name, each.Sort)
		}
	}
	return fmt.Sprintf("\nall that can be asked: groundrule why %s", job)
}
