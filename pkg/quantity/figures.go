package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// afterFirst is how many figures a print keeps after the first: four in all,
// as many as any measurement of this trade is good for.
const afterFirst = 3

// rounded returns x to four figures.
func rounded(x float64) float64 {
	r, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', afterFirst, 64), 64)
	return r
}

// Sizes beyond which a number is written with a power of ten.
const (
	plainFrom = 1e-6
	plainTo   = 1e15
)

// figures writes x to four significant figures, and to the whole number if it
// has more digits than that.
func figures(x float64) string {
	size := math.Abs(x)
	if r := rounded(size); size != 0 && (r < plainFrom || r >= plainTo) {
		return powered(x)
	}
	decimals := afterFirst
	if size != 0 {
		// The figure count is taken after rounding, so that 9.9999 has two
		// digits before the point.
		_, power, _ := strings.Cut(strconv.FormatFloat(x, 'e', afterFirst, 64), "e")
		exponent, _ := strconv.Atoi(power)
		decimals = max(0, afterFirst-exponent)
	}
	return fixed(x, decimals)
}

// fixed writes x with at most so many decimals and commas between thousands.
func fixed(x float64, decimals int) string {
	if rounded(math.Abs(x)) >= plainTo {
		return powered(x)
	}
	text := trimmed(strconv.FormatFloat(x, 'f', decimals, 64))
	if text == "-0" {
		return "0"
	}
	return grouped(text)
}

// powered writes x with a power of ten, as 1.5e-7.
func powered(x float64) string {
	number, power, _ := strings.Cut(strconv.FormatFloat(x, 'e', afterFirst, 64), "e")
	n, _ := strconv.Atoi(power)
	return fmt.Sprintf("%se%d", trimmed(number), n)
}

// trimmed takes away the noughts at the end of decimals.
func trimmed(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// grouped puts commas between the thousands of the whole part.
func grouped(text string) string {
	whole, _, _ := strings.Cut(text, ".")
	sign := len(text) - len(strings.TrimPrefix(text, "-"))
	for i := len(whole) - 3; i > sign; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
