package quantity

import (
	"fmt"
	"math"
	"strconv"
)

const (
	inchesUpTo = 48
	sixteenths = 16
	// mostSixteenths keeps the count within an int of any machine.
	mostSixteenths = 1e9
)

func (q Quantity) usLength() string {
	inches := inchScale.from(math.Abs(q.SI))
	n, fits := tradeFraction(inches)
	switch {
	case fits:
	case inches <= inchesUpTo:
		return q.textIn("inches", decimalsFrom(inches, 2))
	default:
		return q.textIn("feet", 2)
	}
	const oneFoot = 12 * sixteenths
	text := fractional(n) + " in"
	if n > inchesUpTo*sixteenths {
		text = grouped(strconv.Itoa(n/oneFoot)) + " ft"
		if n%oneFoot != 0 {
			text += " " + fractional(n%oneFoot) + " in"
		}
	}
	if q.SI < 0 {
		text = "-" + text
	}
	return text
}

// tradeFraction returns the sixteenths by which a length is printed, and whether
// it is. Below 1 in the four figures of the decimals must be the sixteenth
// itself, and up to 48 in the hundredths must be those nearest to it, so that a
// fraction is no coarser than the decimals it stands for: a wider net would show
// 6.01 in as 6 in, beside a limit of 6 in that it crosses. A run is measured to
// the nearest sixteenth, and no finer.
func tradeFraction(inches float64) (n int, fits bool) {
	const halfHundredth = 0.005 + 1e-9
	printed := inches
	if inches < 1 {
		printed = rounded(inches)
	} else if inches <= inchesUpTo {
		printed, _ = strconv.ParseFloat(strconv.FormatFloat(inches, 'f', 2, 64), 64)
	}
	steps := math.Round(printed * sixteenths)
	off := math.Abs(printed - float64(steps/sixteenths))
	switch {
	case steps > mostSixteenths:
		return 0, false
	case inches < 1:
		return int(steps), off == 0
	}
	return int(steps), inches > inchesUpTo || off <= halfHundredth
}

// fractional writes a number of sixteenths as 3, 1/2 or 3-1/8.
func fractional(n int) string {
	whole, top, bottom := n/sixteenths, n%sixteenths, sixteenths
	if top == 0 {
		return strconv.Itoa(whole)
	}
	for top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	fraction := fmt.Sprintf("%d/%d", top, bottom)
	if whole == 0 {
		return fraction
	}
	return fmt.Sprintf("%d-%s", whole, fraction)
}

func (q Quantity) siLength() string {
	mm := millimeterScale.from(math.Abs(q.SI))
	const meter, tenth = 1000, 0.05
	if mm < meter-tenth {
		return q.textIn("mm", decimalsFrom(mm, 1))
	}
	return q.textIn("m", 3)
}

// decimalsFrom returns the decimals for values from 1 on; below, four figures.
func decimalsFrom(x float64, decimals int) int {
	if x < 1 {
		return -1
	}
	return decimals
}
