package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Percent returns x % as a share: Percent(12) is 0.12 of the whole.
func Percent(x float64) Share { return Share(moved(x, -2)) }

// Percent returns the share in percent: 12 for 0.12 of the whole.
func (s Share) Percent() float64 { return moved(float64(s), 2) }

// Fraction returns the share as a fraction of 1.
func (s Share) Fraction() float64 { return float64(s) }

// MarshalText writes the share in percent, such as "12 %", in as many figures as
// it takes for [Parse] to read the same bits.
func (s Share) MarshalText() ([]byte, error) {
	if err := s.Quantity().check(); err != nil {
		return nil, err
	}
	text := strconv.FormatFloat(s.Percent(), 'f', -1, 64)
	if movedText(text, -2) != float64(s) {
		number, power, _ := strings.Cut(strconv.FormatFloat(float64(s), 'e', -1, 64), "e")
		n, _ := strconv.Atoi(power)
		text = number + "e" + strconv.Itoa(n+2)
	}
	return []byte(text + " %"), nil
}

// moved returns x with its decimal point moved to the right, or to the left for
// fewer than 0 places. A share is turned so, and not by a product, so that
// every percentage comes back as it was written: 28.5 % is never
// 28.499999999999996 %, which rounds to another whole number.
func moved(x float64, places int) float64 {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	return movedText(strconv.FormatFloat(x, 'e', -1, 64), places)
}

// movedText is moved for a number as written, before it is rounded to a float64.
func movedText(text string, places int) float64 {
	number, power, _ := strings.Cut(text, "e")
	n, _ := strconv.Atoi(power)
	x, _ := strconv.ParseFloat(number+"e"+strconv.Itoa(n+places), 64)
	return x // infinite if it is too large
}
