package takeoff

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// cautions are what a price is and is not.
var cautions = []string{
	"The prices are the company's own, as of their date. This is no offer, and binds nobody.",
	"Taxes are in it only where the prices of the list include them.",
	"The price is rounded to the cent once. The cents left over go to the lines that lost most, so that every column adds up and a line may be a cent off its own product.",
}

// labor is the kind of what crews do.
const labor = "labor"

// costing works out one cost.
type costing struct {
	*Prices
	cost   *Cost
	faults diagnostic.List
	// exact are the amounts of the lines, hours those of labor, days of crews.
	exact       []*big.Rat
	orders      []*order // of the lines
	hours, days *big.Rat
}

// Cost works out what a take-off costs on a day. The error is a [diagnostic.List] of
// places in the price list: one that does not hold on the day, or whose unit does not
// measure the thing.
func (p *Prices) Cost(t *Takeoff, day rulebook.Date) (*Cost, error) {
	orders := t.priced()
	c := &costing{Prices: p, hours: new(big.Rat), days: new(big.Rat), cost: &Cost{Schema: "groundrule/price", Version: 1, Job: t.Job, List: p.list,
		Lines: []CostLine{}, Missing: []Unpriced{}, Kinds: []CostSum{}, Courses: []CostSum{}, Areas: []CostSum{}, Cautions: slices.Clone(cautions)}}
	c.inForce(day)
	for _, o := range orders {
		c.order(o)
	}
	if len(orders) > 0 && !slices.ContainsFunc(c.cost.Lines, func(l CostLine) bool { return l.Kind == labor }) &&
		!slices.ContainsFunc(c.cost.Missing, func(u Unpriced) bool { return u.Wants == "hours" }) {
		c.cost.Missing = append(c.cost.Missing, Unpriced{Item: labor, Label: "labor of the crew", Wants: "hours"})
	}
	if err := c.faults.Err(); err != nil {
		return nil, err
	}
	c.cost.Complete = len(c.cost.Missing) == 0
	return c.cost, c.total()
}

// inForce reports a list that does not hold on the day.
func (c *costing) inForce(day rulebook.Date) {
	message, wanted, at := "", "a list that holds on "+day.String(), c.until
	switch {
	case day.IsZero():
		message, wanted = "a price list holds on some days only, and no day was told", "the day, as --as-of or as the date of the job; it is never taken from the clock"
	case day.Before(c.list.From):
		message, at = "the price list does not hold yet: it is valid from "+c.list.From.String(), c.from
	case c.list.Until.Before(day):
		message = "the price list has lapsed: it was valid until " + c.list.Until.String()
	default:
		return
	}
	d := at.Fault(codeLapsed, message)
	if day.IsZero() {
		d.Code = rulebook.CodeNoDay
	}
	d.Found, d.Wanted = day.String(), wanted
	c.faults.Add(d)
}

// order adds the lines of an order.
func (c *costing) order(o *order) {
	entry := c.item(o.item)
	if entry == nil {
		entry = &itemPrices{}
	}
	if entry.price == nil && (o.Kind != labor || entry.hours == nil) {
		wants := "price"
		if o.Kind == labor {
			wants = "hours"
		}
		c.cost.Missing = append(c.cost.Missing, Unpriced{Item: o.item, Label: o.Item.Text(quantity.US), Amount: o.Amount, Wants: wants})
	}
	if units, ok := c.units(o, entry.price, entry.cut); ok {
		bought, amount, notes := entry.buy(units)
		c.line(o, CostLine{Kind: o.Kind, Bought: figure(bought), Rate: entry.price.node.Text(), Notes: notes}, amount)
	}
	if units, ok := c.units(o, entry.hours, false); ok && entry.crew != nil {
		hours := units.Mul(units, entry.hours.amount)
		c.hours.Add(c.hours, hours)
		perDay := new(big.Rat).Mul(entry.crew.people, c.hoursPerDay)
		if perDay.Sign() > 0 {
			c.days.Add(c.days, new(big.Rat).Quo(hours, perDay))
		}
		c.line(o, CostLine{Kind: labor, Bought: figure(hours), Rate: entry.crew.rate.FloatString(2) + " per hour",
			Notes: []string{entry.hours.node.Text() + ", crew " + entry.crew.name}}, new(big.Rat).Mul(hours, entry.crew.rate))
	}
}

// units is how much of an order a price meets; false without one, or if it is
// reported that its unit is of another dimension.
func (c *costing) units(o *order, r *rate, cut bool) (*big.Rat, bool) {
	if r == nil {
		return nil, false
	}
	// Bags of the list's own are for what is needed, as is what is cut; and nobody lays
	// or hauls what is left over.
	units, ok := o.in(r.per, r.per.whole || r.hours || cut || o.Kind != material)
	if ok {
		return units, true
	}
	amount, _ := o.Amount.Measure()
	what := "a price"
	if r.hours {
		what = "hours"
	}
	would, measured := []string{o.CountedIn}, "as "+amount.Dim.String()
	if amount.Dim == quantity.DimRatio {
		measured = "by the piece"
		if o.CountedIn == "" {
			would[0] = piece
		}
	} else {
		for _, u := range amount.Dim.Units() {
			would = append(would, u.Symbol)
		}
	}
	message := fmt.Sprintf("%s per %s of what is measured %s", what, r.per.word, measured)
	wanted := what + " per " + strings.Join(slices.DeleteFunc(would, func(w string) bool { return w == "" }), ", ")
	if d := r.per.one.Dim; d == quantity.DimMass && amount.Dim == quantity.DimVolume {
		message += ", and no density says what it weighs"
		wanted += "; or its quantity says what it weighs, as weighs: pcf(140)"
	}
	d := r.node.Fault(codeUnit, message)
	d.Found, d.Wanted, d.Nearest = r.node.Text(), wanted, diagnostic.Nearest(r.per.word, would)
	c.faults.Add(d)
	return nil, false
}

// buy is how much is bought where so many units are needed, and for how much, with
// what is to be said of it. More than is needed is bought where that costs less than
// the fee, so that more never costs less.
func (i *itemPrices) buy(units *big.Rat) (bought, amount *big.Rat, notes []string) {
	if i.least != nil && units.Cmp(i.least) < 0 {
		units = i.least
		notes = append(notes, "minimum order "+figure(units))
	}
	amount = new(big.Rat).Mul(units, i.price.amount)
	if i.below == nil || units.Cmp(i.below) >= 0 {
		return units, amount, notes
	}
	full := new(big.Rat).Mul(i.below, i.price.amount)
	if amount.Add(amount, i.fee); amount.Cmp(full) >= 0 {
		return i.below, full, append(notes, "ordered up to "+figure(i.below)+", which costs no more than the short-load fee")
	}
	return units, amount, append(notes, "with a short-load fee of "+i.fee.FloatString(2))
}

func (c *costing) line(o *order, l CostLine, amount *big.Rat) {
	l.Item, l.Label = o.item, o.Item.Text(quantity.US)
	c.cost.Lines = append(c.cost.Lines, l)
	c.exact = append(c.exact, amount)
	c.orders = append(c.orders, o)
}

// total adds overhead and profit, rounds the price once and shares its cents out.
func (c *costing) total() (err error) {
	direct := sum(c.exact)
	overhead := new(big.Rat)
	if c.overhead != nil {
		overhead.Mul(c.hours, c.overhead.amount)
		c.cost.Overheads = c.overhead.node.Text() + " of labor"
	} else {
		overhead.Mul(direct, c.overheadShare)
		c.cost.Overheads = figure(new(big.Rat).Mul(c.overheadShare, big.NewRat(100, 1))) + " % of direct cost"
	}
	even, one := new(big.Rat).Add(direct, overhead), big.NewRat(1, 1)
	profit := new(big.Rat)
	if c.margin != nil {
		profit.Quo(new(big.Rat).Mul(even, c.margin), new(big.Rat).Sub(one, c.margin))
	} else {
		profit.Mul(even, c.markup)
	}
	price := new(big.Rat).Add(even, profit)
	to := c.cost
	if to.Price, err = cents(price); err != nil {
		return err
	}
	whole := split(to.Price, []*big.Rat{direct, overhead, profit})
	to.Direct, to.Overhead, to.Profit = whole[0], whole[1], whole[2]
	to.Hours, to.Days = c.hours.FloatString(2), c.days.FloatString(2)
	to.Markup, to.Margin = percent(profit, even), percent(profit, price)
	for i, amount := range split(to.Direct, c.exact) {
		l := &to.Lines[i]
		l.Amount, l.Parts = amount, c.orders[i].share(amount, c.exact[i])
		to.Kinds = add(to.Kinds, CostSum{Kind: l.Kind, Amount: amount})
		for _, part := range l.Parts {
			to.Courses = add(to.Courses, CostSum{Course: part.Course, Amount: part.Amount})
			to.Areas = add(to.Areas, CostSum{Area: part.Area, Amount: part.Amount})
		}
	}
	return nil
}

// share splits the amount of a line among the parts of its order, by how much of it
// each takes.
func (o *order) share(total Money, exact *big.Rat) []CostSum {
	parts, all := make([]*big.Rat, len(o.parts)), new(big.Rat)
	for i, p := range o.parts {
		parts[i] = decimal(p.amount.SI)
		all.Add(all, parts[i])
	}
	if all.Sign() <= 0 {
		return []CostSum{{Amount: total}}
	}
	for _, p := range parts {
		p.Quo(p.Mul(p, exact), all)
	}
	out := make([]CostSum, len(parts))
	for i, amount := range split(total, parts) {
		out[i] = CostSum{Area: o.parts[i].area, Course: o.parts[i].course, Amount: amount}
	}
	return out
}

// add adds an amount to the sum of its names, a new one behind the rest.
func add(sums []CostSum, of CostSum) []CostSum {
	for i := range sums {
		if s := &sums[i]; s.Area == of.Area && s.Course == of.Course && s.Kind == of.Kind {
			s.Amount += of.Amount
			return sums
		}
	}
	return append(sums, of)
}

// percent is a part of a whole in percent; of nothing it is 0.
func percent(part, whole *big.Rat) string {
	if whole.Sign() == 0 {
		return "0.00"
	}
	return new(big.Rat).Quo(new(big.Rat).Mul(part, big.NewRat(100, 1)), whole).FloatString(2)
}

// figure writes a number with up to three decimals, as many as it needs.
func figure(x *big.Rat) string {
	return strings.TrimSuffix(strings.TrimRight(x.FloatString(3), "0"), ".")
}
