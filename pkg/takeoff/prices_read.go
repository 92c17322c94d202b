package takeoff

import (
	"math/big"
	"regexp"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// ReadPrices reads a price list. The error is a [diagnostic.List] of everything that
// is wrong in it.
func ReadPrices(file string, data []byte) (*Prices, error) {
	root, faults := document.Read(file, data, document.Limits{})
	if root == nil {
		return nil, faults.Err()
	}
	r := &priceReader{faults: faults}
	out := r.prices(root.Entry("a price list", &r.faults))
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	return out, nil
}

type priceReader struct{ faults diagnostic.List }

// fault reports what is wrong with a node.
func (r *priceReader) fault(n *document.Node, code diagnostic.Code, message, wanted string) *diagnostic.Diagnostic {
	d := n.Fault(code, message)
	d.Found, d.Wanted = n.Text(), wanted
	r.faults.Add(d)
	return d
}

func (r *priceReader) prices(e *document.Entry) *Prices {
	p := &Prices{list: PriceList{Name: e.NeedText("prices"), Company: e.NeedText("company"), Currency: r.currency(e)}}
	dated := e.Need("dated").Day(&r.faults)
	p.from, p.until = e.Need("from"), e.Need("until")
	from, until := document.Span(p.from, p.until, &r.faults)
	for day, text := range map[*rulebook.Date]string{&p.list.Dated: dated, &p.list.From: from, &p.list.Until: until} {
		*day, _ = rulebook.ParseDate(text) // what is no day was reported
	}
	p.hoursPerDay = big.NewRat(8, 1)
	if n := e.Get("hours_per_day"); n != nil {
		p.hoursPerDay = r.amount(n, n.Text(), "8")
	}
	crews := map[string]*crew{}
	var names []string
	for _, f := range r.named(e.Get("crews"), "the crews") {
		names = append(names, f.Key.Text())
		crews[f.Key.Text()] = r.crew(f)
	}
	for _, f := range r.named(e.Need("items"), "the items") {
		p.items = append(p.items, r.item(f, crews, names))
	}
	r.overhead(e, p)
	r.profit(e, p)
	e.Done()
	return p
}

// named returns the entries of a mapping of names, reporting what is none.
func (r *priceReader) named(n *document.Node, what string) []document.Field {
	n.Entry(what, &r.faults)
	return n.Fields()
}

var threeLetters = regexp.MustCompile(`^[A-Z]{3}$`)

func (r *priceReader) currency(e *document.Entry) string {
	n := e.Need("currency")
	if n != nil && !threeLetters.MatchString(n.Text()) {
		r.fault(n, codeCurrency, "a currency is told by its three letters", "three capital letters, such as USD")
	}
	return n.Text()
}

func (r *priceReader) crew(f document.Field) *crew {
	e := f.Value.Entry("a crew", &r.faults)
	out := &crew{name: f.Key.Text()}
	if n := e.Need("people"); n != nil {
		out.people = r.amount(n, n.Text(), "3")
	}
	paid := r.rate(e.Need("rate"), "41.50 per hour")
	if paid != nil && paid.per.one != quantity.Hours(1).Quantity() {
		r.fault(paid.node, codeUnit, "what a crew costs is told for an hour of one person", "an amount such as 41.50 per hour")
	}
	if paid != nil {
		out.rate = paid.amount
	}
	// What the employer pays beside the wage, where the rate is the wage alone.
	if n := e.Get("burden"); n != nil && paid != nil {
		out.rate = new(big.Rat).Mul(out.rate, new(big.Rat).Add(big.NewRat(1, 1), r.share(n, "30 %")))
	}
	e.Done()
	return out
}

func (r *priceReader) item(f document.Field, crews map[string]*crew, names []string) *itemPrices {
	e := f.Value.Entry("an item", &r.faults)
	out := &itemPrices{name: f.Key.Text(), key: f.Key, price: r.rate(e.Get("price"), "24.50 per ton"), hours: r.rate(e.Get("hours"), "0.12 per sq ft")}
	if out.hours != nil {
		out.hours.hours = true
	}
	out.cut = e.Bool("cut")
	least, short := e.Get("least"), e.Get("short_load")
	if e.Get("hours") == nil || least != nil || short != nil {
		e.Need("price")
	}
	if n := e.Get("crew"); n != nil {
		if out.crew = crews[n.Text()]; out.crew == nil {
			r.fault(n, codeCrew, "there is no such crew in the list", strings.Join(names, " or ")).Nearest = diagnostic.Nearest(n.Text(), names)
		}
	} else if e.Get("hours") != nil {
		e.Need("crew")
	}
	out.least = r.inUnits(least, out.price)
	if short != nil {
		e := short.Entry("a short load", &r.faults)
		out.below = r.inUnits(e.Need("below"), out.price)
		if n := e.Need("fee"); n != nil {
			out.fee = r.amount(n, n.Text(), "85.00")
		}
		e.Done()
	}
	e.Done()
	return out
}

// inUnits reads an order, in units of its price.
func (r *priceReader) inUnits(n *document.Node, of *rate) *big.Rat {
	if n == nil || of == nil {
		return nil
	}
	if of.per.whole {
		return r.amount(n, n.Text(), "2")
	}
	q, err := quantity.ParseAs(of.per.one.Dim, n.Text())
	if err == nil && q.SI >= 0 {
		if x, err := exactly(q, of.per.one); err == nil {
			return x
		}
	}
	r.fault(n, codeUnit, "this is not how much of the item is ordered", "an amount in the unit of its price, such as 5 "+of.per.word)
	return nil
}

func (r *priceReader) overhead(e *document.Entry, p *Prices) {
	n := e.Need("overhead")
	switch {
	case n == nil:
	case strings.Contains(n.Text(), "per "):
		p.overhead = r.rate(n, "20.00 per hour")
		if p.overhead != nil && p.overhead.per.one != quantity.Hours(1).Quantity() {
			r.fault(n, codeUnit, "overhead is told for an hour of labor, or as a share of direct cost", "20.00 per hour, or 12 %")
		}
	default:
		p.overheadShare = r.share(n, "12 % of direct cost, or 20.00 per hour of labor")
	}
}

func (r *priceReader) profit(e *document.Entry, p *Prices) {
	markup, margin := e.Get("markup"), e.Get("margin")
	switch {
	case markup != nil && margin != nil:
		d := r.fault(e.Key("margin"), codeProfit, "a price has a markup on cost or a margin of the price, and not both", "one of the two: a markup of 25 % is a margin of 20 %")
		d.Related = []diagnostic.Related{{Place: e.Key("markup").Place(), Message: "the markup"}}
	case markup != nil:
		p.markup = r.share(markup, "15 % of cost")
	case margin != nil:
		p.margin = r.share(margin, "15 % of the price")
		if p.margin.Cmp(big.NewRat(1, 1)) >= 0 {
			r.fault(margin, codeProfit, "a margin is a part of the price", "less than 100 %")
		}
	default:
		e.Need("markup")
	}
}

// rate reads an amount for a unit; nil if there is none, or if it is reported.
func (r *priceReader) rate(n *document.Node, such string) *rate {
	if n == nil {
		return nil
	}
	wanted := "an amount for a unit, such as " + such
	amount, per, found := strings.Cut(n.Text(), " per ")
	if !found {
		if amount, found = strings.CutSuffix(n.Text(), " each"); found {
			per = piece
		}
	}
	if n.Shape() != document.Scalar || !found {
		r.fault(n, codePrice, "this is not an amount for a unit", wanted)
		return nil
	}
	out := &rate{node: n, amount: r.amount(n, amount, such)}
	word, holds, whole := strings.Cut(strings.TrimSpace(per), " of ")
	out.per.word = word
	if u, known := quantity.UnitNamed(word, quantity.NoDimension); known && !whole {
		out.per.one, _ = u.Quantity(1)
		return out
	}
	if !oneThing.MatchString(word) {
		r.fault(n, codePrice, "no unit and no thing is called "+word, wanted+", 8.20 per bag, or 8.20 per bag of 50 lb").Nearest = diagnostic.Nearest(word, unitNames())
		return nil
	}
	out.per.whole = true
	if whole {
		one, err := quantity.Parse(holds)
		if err != nil || one.SI <= 0 {
			r.fault(n, codePrice, "this is not what one "+word+" holds", "such as 8.20 per bag of 50 lb")
			return nil
		}
		out.per.one = one
	}
	return out
}

// piece is what is counted without being called anything else.
const piece = "piece"

var oneThing = regexp.MustCompile(`^[a-z]+( [a-z]+)*$`)

func unitNames() []string {
	var out []string
	for _, u := range quantity.Units() {
		out = append(out, append(u.Spellings(), u.Symbol)...)
	}
	return out
}

var decimals = regexp.MustCompile(`^-?([0-9]{1,9}|[0-9]{1,3}(,[0-9]{3}){1,2})(\.[0-9]{1,6})?$`)

// amount reads a number of no less than 0 to the letter, 0 if it is reported.
func (r *priceReader) amount(n *document.Node, text, such string) *big.Rat {
	text = strings.TrimSpace(text)
	switch {
	case !decimals.MatchString(text):
		r.fault(n, codePrice, "this is not a plain number", "an amount without a sign of currency, such as "+such)
	case strings.HasPrefix(text, "-"):
		r.fault(n, codeNegative, "nothing costs less than nothing", "0 or more; what has no price is left out, and the total then says that it is incomplete")
	default:
		x, _ := new(big.Rat).SetString(strings.ReplaceAll(text, ",", ""))
		return x
	}
	return new(big.Rat)
}

// share reads a part of a hundred, 0 if it is reported.
func (r *priceReader) share(n *document.Node, such string) *big.Rat {
	number, isShare := strings.CutSuffix(strings.TrimSpace(n.Text()), "%")
	if !isShare {
		r.fault(n, codePrice, "this is not a percentage", "such as "+such)
		return new(big.Rat)
	}
	return new(big.Rat).Quo(r.amount(n, number, such), big.NewRat(100, 1))
}
