package sheet

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/takeoff"
)

// Price writes what a job costs: what has no price first, then every line under its
// kind, the sums, and what a price is. The only error is that of w.
func Price(w io.Writer, c *takeoff.Cost, system quantity.System) error {
	p := &page{system: system}
	total := "price"
	if !c.Complete {
		total = "INCOMPLETE price"
	}
	p.Put(0, "", strings.TrimSuffix("PRICE: "+c.Job, ": "))
	l := c.List
	p.Put(0, "", fmt.Sprintf("By the price list %s of %s, dated %s, valid from %s until %s. Amounts are in %s.", l.Name, l.Company, l.Dated, l.From, l.Until, l.Currency))
	if !c.Complete {
		p.Heading("NOT COMPLETE: the price list lacks")
		for _, m := range c.Missing {
			of := fmt.Sprintf("a %s of %s", m.Wants, m.Item)
			if m.Wants == "hours" {
				of = "hours of " + m.Item
			}
			if m.Label != m.Item {
				of += ", " + m.Label
			}
			if !m.Amount.IsZero() {
				of += ": " + p.amount(m.Amount)
			}
			p.Put(2, "- ", of)
		}
	}
	for _, k := range c.Kinds {
		p.Heading(strings.ToUpper(k.Kind))
		for _, line := range c.Lines {
			if line.Kind == k.Kind {
				p.row(line.Label+": "+line.Bought+" x "+line.Rate, line.Amount)
				for _, note := range line.Notes {
					p.Put(4, "", note)
				}
			}
		}
		p.row("all "+k.Kind, k.Amount)
	}
	p.Heading("TOTAL")
	p.row("direct cost", c.Direct)
	p.row("overhead: "+c.Overheads, c.Overhead)
	p.row("cost", c.Direct+c.Overhead)
	p.row("profit: "+whole(c.Markup)+" % of cost, "+whole(c.Margin)+" % of the price", c.Profit)
	p.row(total, c.Price)
	p.sums("DIRECT COST BY COURSE", c.Courses)
	p.sums("DIRECT COST BY AREA", c.Areas)
	p.Heading("NOTES")
	p.Put(2, "- ", fmt.Sprintf("Labor: %s hours, %s days of the crews one after the other.", whole(c.Hours), whole(c.Days)))
	for _, s := range c.Cautions {
		p.Put(2, "- ", s)
	}
	return p.Write(w)
}

// whole writes a number of two decimals without them where they are none.
func whole(number string) string { return strings.TrimSuffix(number, ".00") }

// moneyWidth is that of the column of money, 999,999,999.99.
const moneyWidth = 14

// row writes what an amount of money is for, and the amount at the right; what is too
// long for the line stands above it.
func (p *page) row(text string, amount takeoff.Money) {
	const room = pages.Width - moneyWidth
	if utf8.RuneCountInString(text) > room-3 {
		p.Put(2, "", text)
		text = ""
	}
	p.Verbatim(2, text+strings.Repeat(" ", room-2-utf8.RuneCountInString(text))+fmt.Sprintf("%*s", moneyWidth, amount))
}

// sums writes sums by course or by area, if there are several.
func (p *page) sums(heading string, sums []takeoff.CostSum) {
	if len(sums) < 2 {
		return
	}
	p.Heading(heading)
	for _, s := range sums {
		p.row(cmp.Or(s.Course, s.Area, "the dig and the whole job"), s.Amount)
	}
}
