package main

import (
	"encoding/json"
	"fmt"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/takeoff"
)

var takeoffCommand = &command{
	name:  "takeoff",
	usage: "groundrule takeoff JOB [flags]",
	about: "what the job takes: quantities course by course, and what to order",
	text: `Reads the job file JOB (- reads standard input), designs it, and lists what it
takes: what is dug and hauled away, each layer in place and as it is bought, and
what is rented. What is bought as one thing is one order, rounded up once to
whole loads, tons, bags, rolls or pieces.

Where a quantity comes from: groundrule why JOB QUANTITY. Truck and bag sizes,
waste and swell are settings of the rules, in rules/83-quantities.yaml.

A job that is refused or stopped has no take-off; its section says why.
`,
	flags: append([]string{flagIn, flagUnits, flagJSON, flagDraw}, ofBook...),
	run:   runTakeoff,
}

func runTakeoff(c *call) int {
	return c.takeoff(func(_ *groundrule.Book, t *takeoff.Takeoff) error {
		if c.json {
			return c.encode(t)
		}
		if err := sheet.Takeoff(c.out, t, c.system); err != nil || !c.draw {
			return err
		}
		for _, o := range t.Orders {
			if layout, is := o.Layout.Data().(interface {
				Draw(int, quantity.System) string
			}); is {
				fmt.Fprintf(c.out, "\n%s\n%s", o.Item.Text(c.system), layout.Draw(60, c.system))
			}
		}
		return nil
	})
}

// takeoff designs a job and writes something of its take-off, or the section that
// says why there is none.
func (c *call) takeoff(write func(*groundrule.Book, *takeoff.Takeoff) error) int {
	if len(c.args) != 1 {
		return c.usageError("one job file; %d given", len(c.args))
	}
	c.forms = append(c.forms, section.Takeoff)
	c.several = true
	book, a, err := c.areas(c.args[0])
	if err != nil {
		return c.fail(err)
	}
	if a.Status() != section.Designed {
		return c.writeAreas(book, a)
	}
	t, err := takeoff.Of(a.Sections...)
	if err == nil {
		err = write(book, t)
	}
	return c.done(a.Status(), err)
}

// encode writes a line of JSON.
func (c *call) encode(x any) error {
	enc := json.NewEncoder(c.out)
	enc.SetEscapeHTML(false)
	return enc.Encode(x)
}
