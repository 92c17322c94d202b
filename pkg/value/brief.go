package value

import (
	"math"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/quantity"
)

// Brief returns the value as a person says it to another: as [Value.Text], but a
// number that is not whole to two figures below 10 and to three above, unless
// three tell it exactly, and one of a million or more in millions. A measured CBR
// of 3.192 is 3.2, a count of 1,749,932 is 1.75 million, and 2.25 stays 2.25.
// A quantity that is written with decimals is told to three figures, 304.8 mm as
// 305 mm; one in sixteenths stays as it is.
func (v Value) Brief(system quantity.System) string {
	switch x := v.data.(type) {
	case float64:
		return system.Write(brief(x))
	case quantity.Quantity:
		return system.Write(briefly(v.Text(system.Base())))
	case *list:
		if len(x.items) > 0 {
			return x.joined(func(each Value) string { return each.Brief(system) })
		}
	}
	return v.Text(system)
}

// briefly tells the text of a quantity to three figures, or to all before the
// point, if its number has decimals.
func briefly(text string) string {
	number, unit, _ := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(strings.ReplaceAll(number, ",", ""), 64)
	if err != nil || !strings.Contains(number, ".") {
		return text
	}
	whole := len(strconv.FormatFloat(math.Trunc(math.Abs(x)), 'f', 0, 64))
	return Number(toFigures(x, max(3, whole))).Text(quantity.US) + " " + unit
}

func brief(x float64) string {
	const million, small, fewest = 1e6, 10, 2
	three := toFigures(x, 3)
	switch size := math.Abs(x); {
	case size >= million:
		return Number(toFigures(x/million, 3)).Text(quantity.US) + " million"
	case x == math.Trunc(x), Number(three).Equal(Number(x)):
	case size < small:
		x = toFigures(x, fewest)
	default:
		x = three
	}
	return Number(x).Text(quantity.US)
}

// toFigures rounds a number to so many significant figures.
func toFigures(x float64, figures int) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', figures, 64), 64)
	if err != nil {
		return x
	}
	return rounded
}
