package language

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/value"
)

type faultCase struct {
	name, why, text string
	want            []string
}

func checkConditions(t *testing.T, cases []faultCase) {
	t.Helper()
	e := testEnv(t)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			cond, faults := e.Condition(c.text, nil)
			require.Nil(t, cond)
			require.Empty(t, cmp.Diff(c.want, allWritten(c.text, faults)), c.why)
		})
	}
}

func allWritten(text string, faults []Fault) []string {
	var out []string
	for _, f := range faults {
		out = append(out, written(text, f))
	}
	return out
}

const (
	bases  = "a word of base_type (open_graded, dense_graded, panel, sand)"
	aBool  = "a bool: a comparison such as cbr < 3, or a name that is true or false"
	aValue = "a value: a name, a number, a word or an opening bracket"
	anOp   = "an operator such as ==, < or &&, or the end of the expression"
)

func TestWrongOperands(t *testing.T) {
	checkConditions(t, []faultCase{
		{"length and number", "the classic error of this trade", "cover >= 6",
			[]string{"[cover >= 6] wrong-operands: >= does not go between these; found length >= number; wanted a length, such as inches(6)"}},
		{"number and length", "the repair is for the number, on whichever side", "6.5 < cover",
			[]string{"[6.5 < cover] wrong-operands: < does not go between these; found number < length; wanted a length, such as inches(6.5)"}},
		{"length equal number", "equality refuses it as an order does", "cover == 6",
			[]string{"[cover == 6] wrong-operands: == does not go between these; found length == number; wanted a length, such as inches(6)"}},
		{"length and a calculated number", "no unit can be put about it", "cover > cbr * 2",
			[]string{"[cover > cbr * 2] wrong-operands: > does not go between these; found length > number; wanted a length, such as inches(6)"}},
		{"length in numbers", "in compares with each item of the list", "cover in [6, 8]",
			[]string{"[cover in [6, 8]] wrong-operands: in does not go between these; found length in list(number); wanted a length, such as inches(6)"}},
		{"length plus pressure", "the part that is wrong, not the whole clause", "cover + load > inches(3)",
			[]string{"[cover + load] wrong-operands: + does not go between these; found length + pressure; wanted length on both sides, or pressure on both sides"}},
		{"length equal pressure", "no unit would mend it, so both repairs are offered", "cover == load",
			[]string{"[cover == load] wrong-operands: == does not go between these; found length == pressure; wanted length on both sides, or pressure on both sides"}},
		{"share and number", "2 and 0.02 are both written for 2 %", "slope > 0.02",
			[]string{"[slope > 0.02] wrong-operands: > does not go between these; found share > number; wanted a share, such as percent(0.02), which is 0.02 %"}},
		{"number less a share", "what is left of a whole is left of 100 %", "cover * (1 - slope) > cover",
			[]string{"[1 - slope] wrong-operands: - does not go between these; found number - share; wanted a share, such as percent(1), which is 1 %"}},
		{"share in numbers", "of each item", "slope in [1, 2]",
			[]string{"[slope in [1, 2]] wrong-operands: in does not go between these; found share in list(number); wanted a share, such as percent(1), which is 1 %"}},
		{"no such product", "a dimension that nobody named cannot be checked further on", "cover * rain * rain > cover",
			[]string{"[cover * rain] wrong-operands: * does not go between these; found length * rate; wanted dimensions whose product or quotient is one that the rule language has"}},
		{"temperature and number", "the repair names the unit of a temperature", "frost < 3",
			[]string{"[frost < 3] wrong-operands: < does not go between these; found temperature < number; wanted a temperature, such as fahrenheit(3)"}},
		{"temperatures added", "a scale, not a difference", "frost + frost > frost",
			[]string{"[frost + frost] wrong-operands: + does not go between these; found temperature + temperature; wanted " + scaleOnly}},
		{"temperature doubled", "twice 5 degrees depends on the scale", "2 * frost > frost",
			[]string{"[2 * frost] wrong-operands: * does not go between these; found number * temperature; wanted " + scaleOnly}},
		{"temperature negated", "a sign means nothing on a scale whose zero was chosen", "-frost > frost",
			[]string{"[-frost] wrong-operands: - does not go with this; found frost, which is a temperature; wanted " + scaleOnly}},
		{"not a number", "0 is not taken for no, as other languages take it", "!cbr",
			[]string{"[!cbr] wrong-operands: ! does not go with this; found cbr, which is a number; wanted " + aBool}},
		{"number where a yes or no is wanted", "and the other side as well", "cbr && label",
			[]string{"[cbr] wrong-kind: this is of the wrong kind; found cbr, which is a number; wanted " + aBool,
				"[label] wrong-kind: this is of the wrong kind; found label, which is a text; wanted " + aBool}},
		{"a number alone", "a number other than 0 is not taken for yes", "cbr", []string{"[cbr] wrong-kind: this is of the wrong kind; found cbr, which is a number; wanted " + aBool}},
		{"texts have no order", "alphabetical order would depend on a language", "label < 'x'",
			[]string{"[label < 'x'] wrong-operands: < does not go between these; found text < text; wanted numbers, or quantities of one dimension"}},
		{"words have no order", "the order of a list of words says nothing of size", "base < panel",
			[]string{"[base < panel] wrong-operands: < does not go between these; found base_type < base_type; wanted == or !=: words have no order"}},
		{"in without a list", "one item is written as a list of one, or with ==", "cbr in 3",
			[]string{"[cbr in 3] wrong-operands: in does not go between these; found number in number; wanted a list behind in, such as [a, b]"}},
		{"mixed list", "CEL makes a list of anything of it, of which the odd item is never equal", "cover in [inches(6), 8]",
			[]string{"[8] mixed-list: the items of a list are of one kind; found 8, which is a number; wanted a length, such as inches(8)"}},
		{"mixed words", "the first item says which vocabulary the list is of", "base in [open_graded, 3]",
			[]string{"[3] mixed-list: the items of a list are of one kind; found 3, which is a number; wanted " + bases}},
		{"mixed arguments", "a calculation would be handed a text", "mean([1, 'a']) > 3",
			[]string{"['a'] mixed-list: the items of a list are of one kind; found 'a', which is a text; wanted a number, such as 6"}},
		{"empty list", "nothing is in it", "base in []", []string{"[[]] empty-list: the list is empty; wanted at least one item"}},
		{"wrong argument", "marked alone, with what it takes", "modulus(cover) > load",
			[]string{"[cover] wrong-arguments: argument cbr of modulus is of the wrong kind; found cover, which is a length; wanted a number, such as 6"}},
		{"too many arguments", "the whole call is marked, since none of its arguments is the wrong one", "inches(3, 4) > cover",
			[]string{"[inches(3, 4)] wrong-arguments: inches takes 1 argument, not 2; found inches(number, number); wanted inches(number) length"}},
		{"bare number for a share", "95 and 0.95 are both written for 95 %", "fall(feet(10), 2) > cover",
			[]string{"[2] wrong-arguments: argument slope of fall is of the wrong kind; found 2, which is a number; wanted a share, such as percent(2), which is 2 %"}},
		{"share for a number", "a share is never silently a number", "modulus(percent(95)) > load",
			[]string{"[percent(95)] wrong-arguments: argument cbr of modulus is of the wrong kind; found percent(95), which is a share; wanted a number, such as 6"}},
		{"both arguments wrong", "each where it stands", "fall(10, 0.02) > cover",
			[]string{"[10] wrong-arguments: argument run of fall is of the wrong kind; found 10, which is a number; wanted a length, such as inches(10)",
				"[0.02] wrong-arguments: argument slope of fall is of the wrong kind; found 0.02, which is a number; wanted a share, such as percent(0.02), which is 0.02 %"}},
		{"two dimensions", "either could be the wrong one, so both forms are told", "larger(3, cover) > cover",
			[]string{"[larger(3, cover)] wrong-arguments: larger does not take these; found larger(number, length); wanted larger(number, number) number or larger(quantity, quantity) quantity, all of one dimension"}},
		{"word of a text, on the left", "the repair is for the text, on whichever side", "'panel' == base",
			[]string{"['panel'] wrong-operands: this is a text, and a word is wanted; found 'panel'; wanted a word of base_type (open_graded, dense_graded, panel, sand); words stand without quotes; nearest panel"}},
		{"number and temperature added", "no unit makes a sum of a reading", "3 + frost > frost",
			[]string{"[3 + frost] wrong-operands: + does not go between these; found number + temperature; wanted a comparison, such as < fahrenheit(32): a temperature is a reading on a scale and takes no part in arithmetic"}},
		{"temperature in numbers", "to be in a list is a comparison, so a unit mends it", "frost in [3]",
			[]string{"[frost in [3]] wrong-operands: in does not go between these; found temperature in list(number); wanted a temperature, such as fahrenheit(3)"}},
		{"length in readings", "there is no number there to put a unit about", "cover in readings",
			[]string{"[cover in readings] wrong-operands: in does not go between these; found length in list(number); wanted a length, such as inches(6)"}},
		{"list and number", "what lists are compared with is a list", "readings == 3",
			[]string{"[readings == 3] wrong-operands: == does not go between these; found list(number) == number; wanted the same kind on both sides"}},
		{"texts joined", "no rule makes a text", "'a' + 'b' == label",
			[]string{"['a' + 'b'] wrong-operands: + does not go between these; found text + text; wanted numbers, or quantities of one dimension"}},
		{"bools have no order", "no is not less than yes", "wet < wet",
			[]string{"[wet < wet] wrong-operands: < does not go between these; found bool < bool; wanted numbers, or quantities of one dimension"}},
		{"word negated", "a sign goes with numbers alone", "-base == base",
			[]string{"[-base] wrong-operands: - does not go with this; found base, which is a word of base_type; wanted a number or a quantity"}},
		{"mixed words, a text first", "the item is what it would be without its quotes", "grid in ['biaxil', biaxial]",
			[]string{"['biaxil'] mixed-list: the items of a list are of one kind; found 'biaxil', which is a text; wanted a word of grid (no_grid, biaxial, multiaxial); words stand without quotes; nearest biaxial"}},
		{"unit of a length", "a unit's function takes a bare number, which has no name", "inches(cover) > cover",
			[]string{"[cover] wrong-arguments: the number of inches is of the wrong kind; found cover, which is a length; wanted a number, such as 6"}},
		{"unit behind a dot", "CEL would call it as a method of the value", "cover.inches() > 3",
			[]string{"[cover.inches()] wrong-arguments: inches takes 1 argument, not 0; found inches(); wanted inches(number) length"}},
		{"one for a list", "a function of readings takes the list of them", "mean(cbr) > 3",
			[]string{"[cbr] wrong-arguments: argument readings of mean is of the wrong kind; found cbr, which is a number; wanted a list of number"}},
		{"number for a bool", "a yes or no may be an argument", "stronger(grid, 3, label) == grid",
			[]string{"[3] wrong-arguments: argument wet of stronger is of the wrong kind; found 3, which is a number; wanted a bool: a comparison such as cbr < 3, or a name that is true or false"}},
		{"all at once", "every fault of an expression is told in one run", "cover > 6 && base == biaxial || cbrr > 3", []string{
			"[cover > 6] wrong-operands: > does not go between these; found length > number; wanted a length, such as inches(6)",
			"[biaxial] word-of-another: biaxial is a word of grid, not of base_type; found biaxial; wanted " + bases,
			"[cbrr] unknown-name: no value or word is called cbrr; found cbrr; nearest cbr"}},
	})
}

func TestWords(t *testing.T) {
	checkConditions(t, []faultCase{
		{"misspelt", "the nearest word of the vocabulary that is compared", "base == pannel",
			[]string{"[pannel] unknown-name: no value or word is called pannel; found pannel; wanted " + bases + "; nearest panel"}},
		{"misspelt, on the left", "the vocabulary is known from the other side", "pannel == base",
			[]string{"[pannel] unknown-name: no value or word is called pannel; found pannel; wanted " + bases + "; nearest panel"}},
		{"misspelt, in a list", "only the wrong item is marked, not the list", "base in [panel, opengraded]",
			[]string{"[opengraded] unknown-name: no value or word is called opengraded; found opengraded; wanted " + bases + "; nearest open_graded"}},
		{"nothing near", "the words are listed, no nearest is made up", "base == gravel",
			[]string{"[gravel] unknown-name: no value or word is called gravel; found gravel; wanted " + bases}},
		{"of another vocabulary", "its own is named", "base == biaxial",
			[]string{"[biaxial] word-of-another: biaxial is a word of grid, not of base_type; found biaxial; wanted " + bases}},
		{"of another, on the left", "the name on the right says which vocabulary is meant", "biaxial != base",
			[]string{"[biaxial] word-of-another: biaxial is a word of grid, not of base_type; found biaxial; wanted " + bases}},
		{"of another, in a list", "CEL lets a mixed list pass", "base in [panel, biaxial]",
			[]string{"[biaxial] word-of-another: biaxial is a word of grid, not of base_type; found biaxial; wanted " + bases}},
		{"of another, all of a list", "the list is of one kind in itself, and still not of the name's", "base in [biaxial]",
			[]string{"[biaxial] word-of-another: biaxial is a word of grid, not of base_type; found biaxial; wanted " + bases}},
		{"two words of two vocabularies", "the left one is taken to be wrong", "river_sand == sand",
			[]string{"[river_sand] word-of-another: river_sand is a word of sand, not of base_type; found river_sand; wanted " + bases}},
		{"of another, as an argument", "the argument says which vocabulary is meant", "stronger(panel, wet, label) == grid",
			[]string{"[panel] word-of-another: panel is a word of base_type, not of grid; found panel; wanted a word of grid (no_grid, biaxial, multiaxial)"}},
		{"in quotes, as an argument", "quotes are taken off there too", "stronger('biaxial', wet, label) == grid",
			[]string{"['biaxial'] wrong-arguments: argument grid of stronger is of the wrong kind; found 'biaxial', which is a text; wanted a word of grid (no_grid, biaxial, multiaxial); words stand without quotes; nearest biaxial"}},
		{"misspelt, as an argument", "the nearest word is sought in the vocabulary of the argument", "stronger(biaxiall, wet, label) == grid",
			[]string{"[biaxiall] unknown-name: no value or word is called biaxiall; found biaxiall; wanted a word of grid (no_grid, biaxial, multiaxial); nearest biaxial"}},
		{"two names of two vocabularies", "neither name is misspelt, so the clause is marked", "base == grid",
			[]string{"[base == grid] wrong-operands: == does not go between these; found base_type == grid; wanted words of one vocabulary on both sides, not of base_type and grid"}},
		{"in quotes", "an answer is a word, not a text", `base == "panel"`,
			[]string{`["panel"] wrong-operands: this is a text, and a word is wanted; found "panel"; wanted ` + bases + "; words stand without quotes; nearest panel"}},
		{"vocabulary as a value", "CEL has a type there, and no good word for it", "base_type == panel",
			[]string{"[base_type] kind-as-value: base_type is the name of a vocabulary, not a value; found base_type; wanted the name of such a value: base, old.base"}},
		{"vocabulary as a word", "on the right a word is meant, so words are offered", "base == base_type",
			[]string{"[base_type] kind-as-value: base_type is the name of a vocabulary, not a value; found base_type; wanted " + bases}},
		{"vocabulary alone", "with nothing to compare it with, names of its kind are offered", "base_type",
			[]string{"[base_type] kind-as-value: base_type is the name of a vocabulary, not a value; found base_type; wanted the name of such a value: base, old.base"}},
		{"dimension as a value", "people write the kind for the value that they mean", "length > inches(3)",
			[]string{"[length] kind-as-value: length is the name of a dimension, not a value; found length; wanted the name of such a value: cover, depth, water"}},
		{"kind of material as a value", "a property is one of a product, not of a kind", "grid_product.aperture > inches(1)",
			[]string{"[grid_product] kind-as-value: grid_product is the name of a kind of material, not a value; found grid_product; wanted the name of such a value: net, spare"}},
		{"number as a value", "the kinds that every rulebook has are told apart from values too", "number > 3",
			[]string{"[number] kind-as-value: number is the name of a kind of value, not a value; found number; wanted the name of such a value: cbr, soil.cbr, soil.liquid_limit, zero, swell"}},
		{"kind of no value", "where no name is of the kind, its unit is offered", "tonnage == 3 || freezing_index > 3",
			[]string{"[freezing_index] kind-as-value: freezing_index is the name of a dimension, not a value; found freezing_index; wanted a freezing index, such as f_days(6)"}},
	})
}

// TestKindThatIsAWord holds that a word may share its name with a kind: sand
// can be a base and a material.
func TestKindThatIsAWord(t *testing.T) {
	e := testEnv(t)
	for _, text := range []string{"base == sand", "base in [sand, panel]", "grid == grid"} {
		_, faults := e.Condition(text, nil)
		require.Empty(t, faults, text)
	}
}

func TestNames(t *testing.T) {
	checkConditions(t, []faultCase{
		{"misspelt", "the nearest name is offered", "cbrr > 3", []string{"[cbrr] unknown-name: no value or word is called cbrr; found cbrr; nearest cbr"}},
		{"misspelt in a group", "the whole dotted name is marked", "soil.cbrr > 3",
			[]string{"[soil.cbrr] unknown-name: no value or word is called soil.cbrr; found soil.cbrr; nearest soil.cbr"}},
		{"with a hyphen", "a hyphen reads as a minus", "soil.liquid-limit > 50",
			[]string{"[soil.liquid-limit] unknown-name: no value or word is called soil.liquid-limit; found soil.liquid-limit; nearest soil.liquid_limit"}},
		{"compared with a number", "no vocabulary is meant", "soil.cbr == pannel", []string{"[pannel] unknown-name: no value or word is called pannel; found pannel; nearest panel"}},
		{"compared with the one word there is", "the vocabulary has a word", "bed == riversand", []string{"[riversand] unknown-name: no value or word is called riversand; found riversand; wanted a word of sand (river_sand); nearest river_sand"}},
		{"a number's argument", "no vocabulary is meant there either", "modulus(pannel) > load", []string{"[pannel] unknown-name: no value or word is called pannel; found pannel; nearest panel"}},
		{"without its group", "the group is found, however far the whole name is from what was written", "liquid_limit > 50",
			[]string{"[liquid_limit] unknown-name: no value or word is called liquid_limit; found liquid_limit; nearest soil.liquid_limit"}},
		{"a group alone", "what stands in the group is listed", "soil > 3",
			[]string{"[soil] unknown-name: soil is not a value: it is the first part of other names; found soil; wanted one of soil.cbr, soil.liquid_limit"}},
		{"below a number", "a number has no parts, so nothing near is offered", "cbr.mean > 3", []string{"[cbr.mean] unknown-name: no value is called cbr.mean; found cbr.mean"}},
		{"property misspelt", "the nearest is sought among the properties of that kind", "net.strenght > load",
			[]string{"[strenght] unknown-property: net is a word of grid_product, which has no property called strenght; found strenght; wanted one of aperture, note, strength; nearest strength"}},
		{"property of a word that has none", "no list of properties follows where there are none", "panel.weight > load",
			[]string{"[weight] unknown-property: panel is a word of base_type, which has no property called weight; found weight"}},
		{"property in brackets", "brackets about a name change nothing", "(net).strenght > load",
			[]string{"[strenght] unknown-property: net is a word of grid_product, which has no property called strenght; found strenght; wanted one of aperture, note, strength; nearest strength"}},
		{"property of a quantity", "a quantity has no name to tell it by", "inches(3).x > 3",
			[]string{"[x] unknown-property: no property is called x; found x"}},
		{"property of a property", "a property has no properties", "net.aperture.x > 3",
			[]string{"[x] unknown-property: no property is called x; found x"}},
		{"property of readings", "a list has no parts with names", "readings.mean > 3",
			[]string{"[readings.mean] unknown-name: no value is called readings.mean; found readings.mean"}},
		{"function misspelt", "the nearest is sought among functions, not among names", "modullus(cbr) > load",
			[]string{"[modullus] unknown-function: no function is called modullus; found modullus; nearest modulus"}},
		{"unit for its function", "inch is a unit's name everywhere but here", "cover > inch(6)",
			[]string{"[inch] unknown-function: no function is called inch; found inch; nearest inches"}},
		{"function without brackets", "the repair is the way in which it is called", "cover > inches",
			[]string{"[inches] function-as-value: inches is a function, not a value; found inches; wanted inches(number) length"}},
		{"value with brackets", "the brackets are what is wrong, not the name", "cbr(3) > 3",
			[]string{"[cbr] unknown-function: cbr is a value, not a function; found cbr; wanted cbr without brackets"}},
	})
}

// TestLeftOut holds that what the language leaves out of CEL is refused, each
// with what to write instead.
func TestLeftOut(t *testing.T) {
	const loops = "maps, structures and loops are not part of the rule language; wanted a plain condition or value"
	checkConditions(t, []faultCase{
		{"choice", "it hides a rule without a reason; a chain of them ends in CEL at 250", "(cbr > 3 ? 1 : 2) > 1",
			[]string{"[cbr > 3 ? 1 : 2] hidden-rule: the choice a ? b : c hides a rule; wanted two rules, each with its own reason"}},
		{"logic in a value", "no reason could be told for it", "wet == (cbr > 3 && wet)",
			[]string{"[cbr > 3 && wet] hidden-logic: &&, || and ! cannot stand inside a value; wanted a condition of its own, such as a term that is a bool"}},
		{"logic in logic in a value", "told once, at the outer", "!(!wet || wet) == wet",
			[]string{"[!(!wet || wet)] hidden-logic: &&, || and ! cannot stand inside a value; wanted a condition of its own, such as a term that is a bool"}},
		{"map", "CEL's maps have no order", "{'a': 1} == {'a': 1}", []string{"[{'a': 1}] no-such-form: " + loops, "[{'a': 1}] no-such-form: " + loops}},
		{"structure", "CEL would build a message, which no rule reads", "grid{} == grid", []string{"[grid{}] no-such-form: " + loops}},
		{"loop", "its cost would not be bound by its length", "readings.all(x, x > 3)", []string{"[readings.all(x, x > 3)] no-such-form: " + loops}},
		{"index", "the order of readings means nothing, so only what holds of all can be asked", "readings[0] > 3",
			[]string{"[readings[0]] no-such-form: indexes are not part of the rule language; wanted least(...), greatest(...) or count(...)"}},
		{"has", "in CEL false for a zero", "has(net.aperture)", []string{"[has(net.aperture)] no-such-form: has is not part of the rule language; wanted known(name)"}},
		{"null", "a missing value is asked for by known, never compared", "cbr == null", []string{"[null] no-such-literal: this kind of literal is not part of the rule language; wanted a number, a word or a quoted text"}},
		{"unsigned", "CEL's third kind of number, where one is enough", "cbr == 1u", []string{"[1u] no-such-literal: this kind of literal is not part of the rule language; wanted a number, a word or a quoted text"}},
		{"bytes", "rules read texts only", "label == b'x'", []string{"[b'x'] no-such-literal: this kind of literal is not part of the rule language; wanted a number, a word or a quoted text"}},
		{"remainder", "CEL has it for whole numbers alone, and values are not whole", "cbr % 2 > 1", []string{"[cbr % 2] no-such-form: % is not part of the rule language; found cbr % 2"}},
		{"percent behind a number", "a share is meant", "2 % cbr > 1", []string{"[2 % cbr] no-such-form: % is not part of the rule language; found 2 % cbr; wanted percent(2) for a share"}},
		{"CEL's own functions", "none is there but those described", "size(readings) > 3", []string{"[size] unknown-function: no function is called size; found size"}},
		{"CEL's conversions", "they would make a text or a number of anything", "int(cbr) > 3", []string{"[int] unknown-function: no function is called int; found int"}},
		{"CEL's patterns", "a rule that hangs on the spelling of a label cannot be explained", "label.matches('n.*')", []string{"[label.matches('n.*')] unknown-function: no function is called matches; found matches"}},
		{"CEL's clock", "the same inputs give the same answer", "timestamp('2026-01-01T00:00:00Z') == timestamp('2026-01-01T00:00:00Z')",
			[]string{"[timestamp] unknown-function: no function is called timestamp; found timestamp",
				"[timestamp] unknown-function: no function is called timestamp; found timestamp"}},
	})
}

func TestSyntax(t *testing.T) {
	const cannot = " not-an-expression: this cannot be read as an expression; found "
	checkConditions(t, []faultCase{
		{"nothing", "spaces and line ends are nothing", "  \n", []string{"[] empty-expression: nothing is written here; wanted an expression"}},
		{"one equals sign", "a person writes it before any other", "cbr = 3", []string{"[=]" + cannot + "=; wanted =="}},
		{"every letter and digit", "a name is one sign from its first letter to its last digit", "azAZ_09 = zZ9", []string{"[=]" + cannot + "=; wanted =="}},
		{"a number of every digit", "as is a number", "cbr = 90", []string{"[=]" + cannot + "=; wanted =="}},
		{"one ampersand", "one sign is left out as easily as written", "wet & wet", []string{"[&]" + cannot + "&; wanted &&"}},
		{"and", "English is tried before signs", "wet and wet", []string{"[and]" + cannot + "and; wanted &&"}},
		{"OR", "in capitals too", "wet OR wet", []string{"[OR]" + cannot + "OR; wanted ||"}},
		{"not", "it stands before what it denies, where the parser reads two values", "not wet", []string{"[not]" + cannot + "not; wanted !"}},
		{"at least, turned", "the two signs are easily turned around", "cbr => 3", []string{"[=>]" + cannot + "=>; wanted >="}},
		{"unequal of other languages", "spreadsheets write it so", "cbr <> 3", []string{"[<>]" + cannot + "<>; wanted !="}},
		{"remark of other languages", "a remark is not read, however it begins", "cbr > 3 # note", []string{"[#]" + cannot + "#; wanted // before a remark"}},
		{"one bar", "half a sign has the whole one's meaning", "wet | wet", []string{"[|]" + cannot + "|; wanted ||"}},
		{"brackets of two kinds", "neither closes the other, and both are told, in the order of the text", "(cbr > 3]", []string{
			"[(] not-an-expression: this bracket is not closed; found (; wanted )", "[]] not-an-expression: this bracket closes nothing; found ]; wanted its opening bracket, or none"}},
		{"a slip and a bracket", "what is found later in the search stands in the order of the text", "wet and (not wet", []string{
			"[and]" + cannot + "and; wanted &&", "[(] not-an-expression: this bracket is not closed; found (; wanted )", "[not]" + cannot + "not; wanted !"}},
		{"hexadecimal with a slip", "what CEL reads as a number is none", "cbr > 0x1g", []string{"[0x1g] not-an-expression: this is not a number; found 0x1g; wanted a number such as 6, 0.5 or 1.5e6"}},
		{"decimal comma", "the comma parts two values", "cbr > 6,5", []string{"[,]" + cannot + ",; wanted a point before the decimals, or square brackets about a list"}},
		{"unit of two words", "every spelling that a setting may have is read", "cbr > 6 sq ft", []string{"[6 sq ft] unit-behind: in an expression a unit is written as a function; found 6 sq ft; wanted sq_ft(6)"}},
		{"typeset signs", "as a word processor writes them", "cbr ≥ 3 && label == “x”",
			[]string{"[≥]" + cannot + "≥; wanted >=", "[“]" + cannot + `“; wanted straight quotes, "..."`, "[”]" + cannot + `”; wanted straight quotes, "..."`}},
		{"minus of a word processor", "it looks the same, so its number is told", "cbr − 1 > 3", []string{"[−]" + cannot + "− (U+2212); wanted -"}},
		{"unit behind", "as a setting is written", "cover > 6 in", []string{"[6 in] unit-behind: in an expression a unit is written as a function; found 6 in; wanted inches(6)"}},
		{"unit behind, at once", "no space parts the unit from its number", "cover > 150mm", []string{"[150mm] unit-behind: in an expression a unit is written as a function; found 150mm; wanted mm(150)"}},
		{"inch sign", "an unclosed quote to CEL", `cover > 6" && wet`, []string{`[6"] unit-behind: in an expression a unit is written as a function; found 6"; wanted inches(6)`}},
		{"unit of several signs", "the slash belongs to the unit and is no division", "rain > 0.5 in/h", []string{"[0.5 in/h] unit-behind: in an expression a unit is written as a function; found 0.5 in/h; wanted in_per_hour(0.5)"}},
		{"in behind a number", "is the operator where a list follows", "3 in readings &&",
			[]string{"[]" + cannot + "the end of the expression; wanted " + aValue}},
		{"not closed", "the bracket itself is marked", "(cbr > 3 && (wet || wet)", []string{"[(] not-an-expression: this bracket is not closed; found (; wanted )"}},
		{"closes nothing", "one bracket too many at the end", "cbr > 3)", []string{"[)] not-an-expression: this bracket closes nothing; found ); wanted its opening bracket, or none"}},
		{"quote", "all that follows it is marked, since any of it may have been meant", "label == 'north", []string{"['north] not-an-expression: the quote is not closed; found 'north; wanted a text between two quotes, such as 'north'"}},
		{"quote, over lines", "it is closed on its own line or not at all", "label == 'a\n'", []string{"['a] not-an-expression: the quote is not closed; found 'a; wanted a text between two quotes, such as 'north'",
			"['] not-an-expression: the quote is not closed; found '; wanted a text between two quotes, such as 'north'"}},
		{"hexadecimal", "CEL reads it, so that the fault is elsewhere", "cbr > 0x10 wet", []string{"[wet]" + cannot + "wet; wanted " + anOp}},
		{"end", "just behind the text", "cbr >", []string{"[]" + cannot + "the end of the expression; wanted " + aValue}},
		{"operator first", "a clause deleted before it leaves it so", "&& wet", []string{"[&&]" + cannot + "&&; wanted " + aValue}},
		{"two values", "an operator is missing between them", "cbr > 3 wet", []string{"[wet]" + cannot + "wet; wanted " + anOp}},
		{"exponent with a sign", "the sign belongs to the number", "cbr > 1e+5 wet", []string{"[wet]" + cannot + "wet; wanted " + anOp}},
		{"exponent with a minus", "as does the other sign", "cbr > 1E-5 wet", []string{"[wet]" + cannot + "wet; wanted " + anOp}},
		{"sum of what looks like an exponent", "without a digit behind it the sign is an operator", "cbr > 1e+wet", []string{"[1e] not-an-expression: this is not a number; found 1e; wanted a number such as 6, 0.5 or 1.5e6"}},
		{"two values, the first a text", "a text is a value like others", "label == 'a' wet", []string{"[wet]" + cannot + "wet; wanted " + anOp}},
		{"two operators", "the second one is marked, where a value was due", "cbr > > 3", []string{"[>]" + cannot + ">; wanted " + aValue}},
		{"comma", "a list of conditions is not a condition", "wet, wet", []string{"[,]" + cannot + ",; wanted an operator such as ==, < or &&, or square brackets about a list"}},
		{"reserved", "a person who wants a choice writes it", "if == 3", []string{"[if] not-an-expression: if is a word that the rule language keeps for itself; found if; wanted another name, or two rules instead of a choice"}},
		{"not a number", "a version or a date is written so", "cbr > 1.5.5", []string{"[1.5.5] not-an-expression: this is not a number; found 1.5.5; wanted a number such as 6, 0.5 or 1.5e6"}},
		{"point without digits", "CEL takes the point for the dot of a property", "cbr > 5.", []string{"[5] not-an-expression: a number has digits behind its point; found 5; wanted 5 or 5.0"}},
		{"too large", "it would be infinite, and above every limit", "cbr > 1e999", []string{"[1e999] not-an-expression: the number is too large to be read; found 1e999; wanted a number below 9e18, or one with an exponent such as 1e20"}},
		{"too large, whole", "CEL reads whole numbers in 64 bits", "cbr > 9223372036854775808", []string{"[9223372036854775808] not-an-expression: the number is too large to be read; found 9223372036854775808; wanted a number below 9e18, or one with an exponent such as 1e20"}},
		{"sign of no language", "no name, number or operator begins with it", "cbr > @3", []string{"[@]" + cannot + "@; wanted letters, digits and the signs of the rule language"}},
		{"behind non-ASCII and lines", "offsets count characters", "label == 'größe' ||\n  cbr = 3", []string{"[=]" + cannot + "=; wanted =="}},
	})
}

// TestExpressionKinds holds that a value of the wrong kind is refused with what
// would do.
func TestExpressionKinds(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct {
		name, why, text string
		want            value.Kind
		fault           string
	}{
		{"number for a length", "the number is put into the repair", "8", "length", "[8] wrong-kind: this is of the wrong kind; found 8, which is a number; wanted a length, such as inches(8)"},
		{"text for a word", "the word is there, in quotes that it does not need", `"biaxial"`, "grid", `["biaxial"] wrong-kind: this is of the wrong kind; found "biaxial", which is a text; wanted a word of grid (no_grid, biaxial, multiaxial); words stand without quotes; nearest biaxial`},
		{"word of another", "its own vocabulary is named beside the one that is wanted", "panel", "grid", "[panel] wrong-kind: this is of the wrong kind; found panel, a word of base_type; wanted a word of grid (no_grid, biaxial, multiaxial)"},
		{"pressure for a length", "the whole expression is marked, brackets and all", "(load + load) * 2", "length", "[(load + load) * 2] wrong-kind: this is of the wrong kind; found (load + load) * 2, which is a pressure; wanted a length, such as inches(6)"},
		{"list for one", "which of the two is meant is not guessed", "[1, 2]", value.NumberKind, "[[1, 2]] wrong-kind: this is of the wrong kind; found [1, 2], which is a list of number; wanted a number, such as 6"},
		{"long text", "what was found is cut in the message, and marked whole", "larger(larger(inches(1), inches(2)), larger(inches(3), inches(4)))", value.NumberKind,
			"[larger(larger(inches(1), inches(2)), larger(inches(3), inches(4)))] wrong-kind: this is of the wrong kind; found larger(larger(inches(1), inches(2)), ..., which is a length; wanted a number, such as 6"},
		{"logic", "a bool is refused where no reason could be told for it", "wet && wet", value.BoolKind, "[wet && wet] hidden-logic: &&, || and ! cannot stand inside a value; wanted a condition of its own, such as a term that is a bool"},
	} {
		t.Run(c.name, func(t *testing.T) {
			x, faults := e.Expression(c.text, c.want, nil)
			require.Nil(t, x)
			require.Empty(t, cmp.Diff([]string{c.fault}, allWritten(c.text, faults)), c.why)
		})
	}
}

// TestSpans holds that a fault marks the whole of what is wrong: CEL keeps of a
// call only its bracket, of a property only its dot, and of a sum only its sign.
func TestSpans(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct{ text, marked string }{
		{"cbr", "cbr"}, {"soil.cbr", "soil.cbr"}, {"soil . cbr", "soil . cbr"}, {"net.strength", "net.strength"}, {"inches(3)", "inches(3)"},
		{"inches ( 3 )", "inches ( 3 )"}, {"(inches(3))", "inches(3)"}, {"inches(3) * 2", "inches(3) * 2"},
		{"(inches(2) + inches(3)) * (2 + cbr)", "(inches(2) + inches(3)) * (2 + cbr)"}, {"larger((cbr), (3))", "larger((cbr), (3))"},
		{"[1, 2]", "[1, 2]"}, {"[[1], [2]]", "[[1], [2]]"}, {"'a)b('", "'a)b('"}, {"inches(3 // )\n)", "inches(3 // )\n)"},
		{"modulus(\n  cbr\n)", "modulus(\n  cbr\n)"}, {"-inches(3)", "-inches(3)"}, {"mean([1, 2])", "mean([1, 2])"},
		{"  larger(cbr, (3)) - (2)  ", "larger(cbr, (3)) - (2)"}, {"wet && soil.cbr", "soil.cbr"}, {"r'\\' + 'é' == label && cbr", "cbr"},
		{"known(water) && water", "water"}, {"label == '''a'b\n''' && load", "load"}, {`label == "\")" && load`, "load"},
	} {
		_, faults := e.Condition(c.text, nil)
		require.NotEmpty(t, faults, c.text)
		last := faults[len(faults)-1]
		require.Equal(t, c.marked, string([]rune(c.text)[last.Offset:last.Offset+last.Width]), "in %s", c.text)
	}
}

// TestRareFaults holds what is said of slips that are rarer.
func TestRareFaults(t *testing.T) {
	const cannot, looks = " not-an-expression: this cannot be read as an expression; found ", " not-an-expression: this only looks like a letter or sign of the keyboard; found "
	const keyboard = "; wanted the letter or sign of the keyboard; nearest "
	checkConditions(t, []faultCase{
		{"fraction before a unit", "a tape is read so", "cover > 6 1/2 in", []string{"[6 1/2 in] unit-behind: in an expression a unit is written as a function; found 6 1/2 in; wanted inches(6.5)"}},
		{"feet with inches", "in one unit", "cover > 5 ft 6 in", []string{"[5 ft 6 in] unit-behind: in an expression a unit is written as a function; found 5 ft 6 in; wanted inches(66)"}},
		{"letter of another alphabet", "it looks the same", "сbr > 3", []string{"[с]" + looks + "с (U+0441)" + keyboard + "c"}},
		{"wide letters", "all of them are one slip", "ｃｂｒ > 3", []string{"[ｃｂｒ]" + looks + "ｃｂｒ (U+FF43 U+FF42 U+FF52)" + keyboard + "cbr"}},
		{"wide digit", "the last of the wide signs and the first are too", "cbr > ３", []string{"[３]" + looks + "３ (U+FF13)" + keyboard + "3"}},
		{"character that nobody sees", "its number tells which", "cbr\u200b > 3", []string{"[\u200b] not-an-expression: a character stands here that nobody sees; found \u200b (U+200B); wanted the text without it"}},
		{"two typeset signs", "each is told", "cbr ≠ 3 ≠ 4", []string{"[≠]" + cannot + "≠; wanted !=", "[≠]" + cannot + "≠; wanted !="}},
		{"property misspelled", "the property alone is marked", "net.strenght > kn_per_m(20)", []string{"[strenght] unknown-property: net is a word of grid_product, which has no property called strenght; found strenght; wanted one of aperture, note, strength; nearest strength"}},
		{"property of a number", "a number has none", "cbr.value > 3", []string{"[cbr.value] unknown-name: no value is called cbr.value; found cbr.value"}},
		{"property of nothing", "the whole is no name", "nothing.value > 3", []string{"[nothing.value] unknown-name: no value or word is called nothing.value; found nothing.value"}},
		{"property of words without any", "nothing else would do", "panel.strength > 3", []string{"[strength] unknown-property: panel is a word of base_type, which has no property called strength; found strength"}},
		{"object as an argument", "no number makes one", "spread(cover, cbr) > load", []string{"[cbr] wrong-arguments: argument wheel of spread is of the wrong kind; found cbr, which is a number; wanted a wheel"}},
		{"bool as an argument", "a number would do", "modulus(wet) > load", []string{"[wet] wrong-arguments: argument cbr of modulus is of the wrong kind; found wet, which is a bool; wanted a number, such as 6"}},
		{"no argument", "how many it takes", "modulus() > load", []string{"[modulus()] wrong-arguments: modulus takes 1 argument, not 0; found modulus(); wanted modulus(cbr number) pressure"}},
		{"two arguments for one", "and which", "modulus(cbr, 3) > load", []string{"[modulus(cbr, 3)] wrong-arguments: modulus takes 1 argument, not 2; found modulus(number, number); wanted modulus(cbr number) pressure"}},
		{"arguments of two kinds", "each form that it has", "larger(cbr, cover) > 3", []string{"[larger(cbr, cover)] wrong-arguments: larger does not take these; found larger(number, length); wanted larger(number, number) number or larger(quantity, quantity) quantity, all of one dimension"}},
		{"text compared with a number", "no text has an order", "label > 3", []string{"[label > 3] wrong-operands: > does not go between these; found text > number; wanted numbers, or quantities of one dimension"}},
		{"bool compared with a number", "nor has a yes or no", "wet > 3", []string{"[wet > 3] wrong-operands: > does not go between these; found bool > number; wanted numbers, or quantities of one dimension"}},
		{"list equal a number", "one is many", "[cbr] == 3", []string{"[[cbr] == 3] wrong-operands: == does not go between these; found list(number) == number; wanted the same kind on both sides"}},
		{"length equal a list", "in asks for one of many", "cover == [inches(3)]", []string{"[cover == [inches(3)]] wrong-operands: == does not go between these; found length == list(length); wanted in, which asks for one of a list: cover in [inches(3)]"}},
		{"text for a word, turned round", "on whichever side", "'a' == base", []string{"['a'] wrong-operands: this is a text, and a word is wanted; found 'a'; wanted " + bases + "; words stand without quotes"}},
		{"not of a number", "a comparison would do", "!cbr", []string{"[!cbr] wrong-operands: ! does not go with this; found cbr, which is a number; wanted " + aBool}},
		{"negative of a bool", "nothing is below no", "-wet", []string{"[-wet] wrong-operands: - does not go with this; found wet, which is a bool; wanted a number or a quantity"}},
		{"known of a number", "a number is always there", "known(3)", []string{"[3] known-of-nothing: known takes the name of a value; wanted known(name)"}},
		{"known of a sum", "only a name may be missing", "known(cbr + 1)", []string{"[cbr + 1] known-of-nothing: known takes the name of a value; wanted known(name)"}},
		{"known of nothing", "it needs a name", "known()", []string{"[known()] known-of-nothing: known takes the name of one value that may be missing; wanted known(name)"}},
	})
}
