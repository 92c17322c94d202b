package quantity

import "math"

// LogBetween returns low*(high/low)^share, the value at a share of 0 to 1 of the way
// from low to high on a logarithmic scale; 0 < low <= high. It uses only square
// roots and products, which every machine rounds alike; a library logarithm is
// not so.
func LogBetween(low, high, share float64) float64 {
	at, root := low, high/low
	for range 60 {
		root = math.Sqrt(root)
		share *= 2
		if share >= 1 {
			at *= root
			share--
		}
	}
	return min(max(at, low), high)
}

// LogShare is the inverse of [LogBetween]: log(x/low) over log(high/low), for
// 0 < low <= x <= high and low < high.
func LogShare(low, high, x float64) float64 {
	want, root := x/low, high/low
	at, share, step := 1.0, 0.0, 1.0
	for range 52 {
		root = math.Sqrt(root)
		step /= 2
		if next := at * root; next <= want {
			at = next
			share += step
		}
	}
	return share
}
