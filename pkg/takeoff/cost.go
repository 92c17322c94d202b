package takeoff

import (
	"strings"

	"example.com/groundrule/pkg/value"
)

// Cost is what a take-off costs by a price list. Every amount is worked out exactly
// and the price rounded to the cent once, half a cent up. Direct cost, overhead and
// profit share its cents out, then the lines those of direct cost, and the parts of a
// line those of the line: each rounded down, and the cents left over one each to
// those that lost most. So whatever is added up comes to the cent, and what is whole
// cents stays.
type Cost struct {
	// Schema names the form.
	Schema string `json:"schema"`
	// Version of the form.
	Version int `json:"version"`
	// Job is the name of the job, "" if it has none.
	Job string `json:"job,omitempty"`
	// List is the price list.
	List PriceList `json:"list"`
	// Complete reports whether everything has a price; if not, what has none is not
	// in any sum.
	Complete bool `json:"complete"`
	// Lines in the order of the take-off.
	Lines []CostLine `json:"lines"`
	// Missing is what has no price.
	Missing []Unpriced `json:"missing"`
	// Kinds, Courses and Areas are sums of direct cost, in the order of the lines.
	Kinds   []CostSum `json:"kinds"`
	Courses []CostSum `json:"courses"`
	Areas   []CostSum `json:"areas"`
	// Hours of labor, and Days that the crews take for them, one after the other; they
	// and the percentages below are written with two decimals.
	Hours string `json:"hours"`
	Days  string `json:"days"`
	// Direct is the cost of all lines.
	Direct Money `json:"direct"`
	// Overhead of the company, and how the list tells it in Overheads.
	Overhead  Money  `json:"overhead"`
	Overheads string `json:"overheads"`
	// Profit on both.
	Profit Money `json:"profit"`
	// Price is the sum of the three.
	Price Money `json:"price"`
	// Markup is profit as a percentage of cost, Margin the same profit as a percentage
	// of the price.
	Markup string `json:"markup"`
	Margin string `json:"margin"`
	// Cautions say what a price is and is not.
	Cautions []string `json:"cautions"`
}

// CostLine is one item, or the labor that it takes.
type CostLine struct {
	// Item as the price list names it, with its Label to show a person.
	Item  string `json:"item"`
	Label string `json:"label"`
	// Kind of the quantity, "labor" for hours.
	Kind string `json:"kind"`
	// Bought is how much is paid for, in the unit of the price; Rate is that price.
	Bought string `json:"bought"`
	Rate   string `json:"rate"`
	// Notes tell a least order and a fee.
	Notes []string `json:"notes,omitempty"`
	// Amount of money.
	Amount Money `json:"amount"`
	// Parts by area and course.
	Parts []CostSum `json:"parts"`
}

// CostSum is the cost of what belongs to an area, a course or a kind. A sum by one of
// them does not name the others, and what belongs to the whole job names no course.
type CostSum struct {
	Area   string `json:"area,omitempty"`
	Course string `json:"course,omitempty"`
	Kind   string `json:"kind,omitempty"`
	Amount Money  `json:"amount"`
}

// Unpriced is an item that the price list has no price of.
type Unpriced struct {
	// Item as the price list would name it, with its Label to show a person.
	Item  string `json:"item"`
	Label string `json:"label"`
	// Amount that is needed.
	Amount value.Value `json:"amount"`
	// Wants is what the list lacks: price or hours.
	Wants string `json:"wants"`
}

// Say tells an amount as a person says it: to the whole unit of the currency from 10 on,
// with $ for US dollars.
func (c *Cost) Say(m Money) string {
	text := m.String()
	if m >= 10_00 {
		text = strings.TrimSuffix(((m + 50) / 100 * 100).String(), ".00")
	}
	if c.List.Currency == "USD" {
		return "$" + text
	}
	return text + " " + c.List.Currency
}
