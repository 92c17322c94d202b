package engine_test

import (
	"slices"
	"strings"
)

// ownTable is a decision that is written as a table, without a slip.
const ownTable = `  - decision: our_lift
    asks: How thick is a lift here?
    answers: length
    table:
      columns: [compactor_used, support_cbr, ground_wet, answer]
      rows:
        OUR-PLATE: [plate_compactor, below 3, any, 3 in]
        OUR-PLATE-FIRM: [plate_compactor, 3 to 8, any, base_least_foot]
        OUR-PLATE-HARD: [plate_compactor, 8 and more, any, 5 in]
        OUR-ROLLER:
          cells: [[trench_roller, ride_on_roller], any, yes, 6 in]
          because: As it reaches.
      because: What our machines reach.
      source: company
`

// tabled is a slip in the table, where one text stands for another.
func tabled(name, why, from, to string) slip {
	if strings.Count(ownTable, from) != 1 {
		panic(name + ": it must stand once in the table: " + from)
	}
	return slip{name, why, addList, addList + strings.Replace(ownTable, from, to, 1)}
}

// tableSlips are slips in a table.
var tableSlips = []slip{
	tabled("table-right", "a table without a slip", "asks: How", "asks: How"),
	tabled("table-few-cells", "a cell too few", "below 3, any, 3 in", "below 3, 3 in"),
	tabled("table-many-cells", "a cell too many", "below 3, any, 3 in", "below 3, any, any, 3 in"),
	tabled("table-column", "a misspelt column", "support_cbr", "suport_cbr"),
	tabled("table-column-value", "a column that is worked out", "support_cbr", "support_cbr + 1"),
	tabled("table-columns-alike", "one column twice", "support_cbr", "compactor_used"),
	tabled("table-no-answer", "a misspelt column of answers", "answer]", "anwser]"),
	tabled("table-backward", "a band the wrong way round", "3 to 8", "8 to 3"),
	tabled("table-empty-band", "a band of nothing", "3 to 8", "3 to 3"),
	tabled("table-unit", "a unit where a number is wanted", "3 to 8", "3 in to 8 in"),
	tabled("table-hyphen", "a band as print has it", "3 to 8", "3-8"),
	tabled("table-above", "another word for more", "8 and more", "above 8"),
	tabled("table-end", "a misspelt setting as an end", "below 3", "below weak_below_crb"),
	tabled("table-gap", "a gap between two bands", "3 to 8", "4 to 8"),
	tabled("table-overlap", "two bands that overlap", "3 to 8", "2 to 8"),
	tabled("table-word", "a misspelt word", "[plate_compactor, below", "[plate_compacter, below"),
	tabled("table-other-word", "a word of another vocabulary", "[plate_compactor, below", "[nonwoven_fabric, below"),
	tabled("table-words", "a misspelt word among several", "[trench_roller, ride_on_roller]", "[trench_roller, ride_on_rollr]"),
	tabled("table-maybe", "neither yes nor no", "yes, 6 in", "maybe, 6 in"),
	tabled("table-always", "not known, of what always has a value", "yes, 6 in", "not known, 6 in"),
	tabled("table-list", "several values where a band is wanted", "3 to 8", "[3, 4]"),
	tabled("table-alike", "two rows that ask the same", "3 to 8", "below 3"),
	tabled("table-both-fit", "two rows that both fit, with other answers", "8 and more, any, 5 in", "any, any, 5 in"),
	tabled("table-row-id", "a row of a name that a rule has", "OUR-PLATE:", "LIFT-BY-COMPACTOR:"),
	tabled("table-answer", "an answer of another dimension", "any, 3 in", "any, 3 psi"),
	tabled("table-answer-name", "a misspelt setting as an answer", "base_least_foot", "base_lest_foot"),
	tabled("table-no-source", "a table without a source", "      source: company\n", ""),
	tabled("table-key", "a misspelt key of a row", "          because: As", "          becuase: As"),
	tabled("table-row-text", "a row that is one text", "[plate_compactor, below 3, any, 3 in]", "plate_compactor below 3"),
	tabled("table-rows-list", "rows in a list, without ids", "        OUR-ROLLER:\n          cells: [[trench_roller, ride_on_roller], any, yes, 6 in]\n          because: As it reaches.\n", "        - [any, any, any, 6 in]\n"),
	tabled("table-and-rules", "rules behind a table, and no way of taking", "    table:\n", "    rules: []\n    table:\n"),
	tabled("table-take", "a misspelt way of taking", "    table:\n", "    take: largst\n    table:\n"),
}

// allSlips are all of them.
var allSlips = slices.Concat(slips, moreSlips, tableSlips)
