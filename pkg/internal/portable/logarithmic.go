package portable

// Between returns low*(high/low)^share, the value at a share of 0 to 1 of the
// way from low to high on a logarithmic scale; 0 < low <= high.
func Between(low, high, share float64) float64 {
	return min(max(low*Pow(high/low, share), low), high)
}

// Share is the inverse of [Between]: log(x/low) over log(high/low), for
// 0 < low <= x <= high and low < high.
func Share(low, high, x float64) float64 {
	return Log(x/low) / Log(high/low)
}
