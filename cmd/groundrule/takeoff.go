package main

import (
	"fmt"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
)

func runTakeoff(c *call) error {
	return c.takeoff(func(_ *groundrule.Book, t *takeoff.Takeoff) error {
		if c.json {
			return c.encode(t, "")
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
func (c *call) takeoff(write func(*groundrule.Book, *takeoff.Takeoff) error) error {
	if len(c.args) != 1 {
		return misused("one job file; %d given", len(c.args))
	}
	c.forms = append(c.forms, section.Takeoff)
	c.several = true
	book, a, err := c.areas(c.args[0])
	if err != nil {
		return err
	}
	if a.Status() != section.Designed {
		return c.writeAreas(book, a)
	}
	t, err := takeoff.Of(a.Sections...)
	if err != nil {
		return err
	}
	return write(book, t)
}

func runPrice(c *call) error {
	if c.prices == "" {
		return misused("no price list given; name it with --prices FILE")
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
			return c.encode(cost, "")
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
