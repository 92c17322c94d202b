package main

import (
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
)

var priceCommand = &command{
	name:  "price",
	usage: "groundrule price JOB --prices FILE [flags]",
	about: "what the job costs by a company's own price list",
	text: `Reads the job file JOB (- reads standard input), designs it, takes it off, and
works out what it costs by the price list FILE: material, labor, equipment,
haulage and dumping, overhead and profit, with sums by course.

What the list has no price for is told first, and is in no sum: the total then
says that it is incomplete. The list must hold on the day of the job, or on that
of --as-of. A price per ton of what is measured by volume needs a density, and
is refused without one.

groundrule book schema prices describes the list; examples/wrenfold/prices has
one.

A job that is refused or stopped has no price; its section says why.
`,
	flags: append([]string{flagIn, flagPrices, flagUnits, flagJSON}, ofBook...),
	run:   runPrice,
}

func runPrice(c *call) int {
	if c.prices == "" {
		return c.usageError("no price list given; name it with --prices FILE")
	}
	return c.takeoff(func(book *groundrule.Book, t *takeoff.Takeoff) error {
		prices, list, err := c.priceList(book)
		if err != nil {
			return err
		}
		cost, err := prices.Cost(t, c.day)
		switch {
		case err != nil:
			return &located{err: err, list: list}
		case c.json:
			return c.encode(cost)
		}
		return sheet.Price(c.out, cost, c.system)
	})
}

// setJobDay keeps the day on which a price list must hold: that of the flag, or else
// of the job, which may have none.
func (c *call) setJobDay(job *site.Site) {
	if c.day = c.files.asOf; c.day.IsZero() {
		c.day, _ = rulebook.ParseDate(job.Date)
	}
}

// priceList reads the price list that the flag names, and holds its items to those of
// the rulebook; nil without one. The file goes with its errors.
func (c *call) priceList(book *groundrule.Book) (*takeoff.Prices, *jobFile, error) {
	if c.prices == "" {
		return nil, nil, nil
	}
	list, err := c.file("price list", c.prices)
	if err != nil {
		return nil, nil, err
	}
	prices, err := takeoff.ReadPrices(list.name, list.data)
	if err == nil {
		err = prices.Check(book.Rules())
	}
	if err != nil {
		return nil, nil, &located{err: err, list: list}
	}
	return prices, list, nil
}
