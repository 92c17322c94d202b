package takeoff

import (
	"math/big"
	"regexp"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// Prices is a company's price list. It is made by [ReadPrices], never changes, and
// may be used from many goroutines.
type Prices struct {
	// list says whose prices these are.
	list        PriceList
	from, until *document.Node
	items       []*itemPrices
	// overhead is a share of direct cost, or an amount per hour of labor; of the
	// others one is there.
	overhead       *rate
	overheadShare  *big.Rat
	markup, margin *big.Rat
	hoursPerDay    *big.Rat
}

// PriceList says which price list it is, and whose.
type PriceList struct {
	// Name of the list.
	Name string `json:"name"`
	// Company whose prices they are.
	Company string `json:"company"`
	// Dated is the day on which they were set.
	Dated rulebook.Date `json:"dated"`
	// From and Until are the first and the last day on which they hold.
	From  rulebook.Date `json:"from"`
	Until rulebook.Date `json:"until"`
	// Currency of all amounts, by its three letters.
	Currency string `json:"currency"`
}

// item returns what the list says of an item, nil if it has none of the name.
func (p *Prices) item(name string) *itemPrices {
	for _, i := range p.items {
		if i.name == name {
			return i
		}
	}
	return nil
}

// quoted is a text within an expression.
var quoted = regexp.MustCompile(`'([^']*)'|"([^"]*)"`)

// Check reports items that no quantity of a rulebook can be bought as. The error is a
// [diagnostic.List].
func (p *Prices) Check(book rulebook.Contents) error {
	var known []string
	for _, w := range book.Work {
		if w.Sort != "quantity" {
			continue
		}
		for _, text := range quoted.FindAllStringSubmatch(w.Item.Text, -1) {
			known = append(known, text[1]+text[2])
		}
	}
	for _, v := range book.Vocabularies {
		for _, w := range v.Words {
			known = append(known, w.Word.Name)
		}
	}
	var faults diagnostic.List
	for _, i := range p.items {
		if !slices.Contains(known, i.name) {
			d := i.key.Fault(codeItem, "no quantity of the rulebook is bought as "+i.name)
			d.Found, d.Nearest = i.name, diagnostic.Nearest(i.name, known)
			d.Wanted = "an item as groundrule takeoff --json names it"
			faults.Add(d)
		}
	}
	return faults.Err()
}

// itemPrices are what a list says of one item: its price, and the labor that it
// takes; either may be nil.
type itemPrices struct {
	name  string
	key   *document.Node
	price *rate
	// least is the least order in units of the price; below is the order under which
	// a fee is due; nil if there are none.
	least, below, fee *big.Rat
	// cut is of what the seller cuts to length: what is left over of a roll is not paid.
	cut   bool
	hours *rate // of labor
	crew  *crew
}

// crew is some people at one loaded rate.
type crew struct {
	name   string
	people *big.Rat
	rate   *big.Rat // per hour of one of them
}

// rate is an amount of money, or of hours, for each unit.
type rate struct {
	amount *big.Rat
	per    unit
	hours  bool // not money
	node   *document.Node
}

// unit is what a price is for one of: a unit of a dimension, or a thing that is
// counted.
type unit struct {
	// word as it stands in the list, such as ton or bag.
	word string
	// one is one of a dimension: the unit, or what a thing holds. It has no dimension
	// where things are counted.
	one quantity.Quantity
	// whole reports whether it is bought by the whole.
	whole bool
}

// The codes of faults of a price list.
const (
	codePrice    diagnostic.Code = "not-a-price"       // not an amount for a unit, such as 24.50 per ton
	codeNegative diagnostic.Code = "negative-price"    // an amount of money below zero
	codeCurrency diagnostic.Code = "not-a-currency"    // not three capital letters such as USD
	codeCrew     diagnostic.Code = "unknown-crew"      // a crew that the price list does not have
	codeProfit   diagnostic.Code = "markup-and-margin" // markup and margin both, or neither
	codeLapsed   diagnostic.Code = "list-not-in-force" // a price list on a day on which it does not hold
	codeItem     diagnostic.Code = "unknown-item"      // an item that no quantity of the rulebook is bought as
	codeUnit     diagnostic.Code = "price-unit"        // a price per a unit that does not measure the thing
)
