package jobs

import (
	"math/rand/v2"

	"example.com/groundrule/pkg/quantity"
)

// draw draws from one stream of random numbers. It uses sums, products and
// comparisons only, so that every machine draws the same.
type draw struct{ *rand.Rand }

// chance is true in so many of a hundred draws.
func (d draw) chance(percent float64) bool { return d.Float64()*100 < percent }

// between returns a value from least up to most.
func (d draw) between(least, most float64) float64 {
	return float64((most-least)*d.Float64()) + least
}

// among returns a value of a distribution told by its quantiles, evenly spaced
// from the least to the greatest; between two of them every value is as likely.
func (d draw) among(quantiles ...float64) float64 {
	at := d.Float64() * float64(len(quantiles)-1)
	i := int(at)
	return float64((quantiles[i+1]-quantiles[i])*(at-float64(i))) + quantiles[i]
}

// stepped rounds to the nearest whole number of steps, one at the least.
func stepped(x, step float64) float64 {
	return max(1, float64(int(x/step+0.5))) * step
}

// tenths rounds to tenths, as a reading is written down.
func tenths(x float64) float64 { return float64(int(float64(x*10)+0.5)) / 10 }

// share is a choice with its share of a hundred.
type share[T any] struct {
	percent float64
	what    T
}

// pick draws one of the choices by their shares.
func pick[T any](d draw, choices []share[T]) T {
	var sum float64
	for _, c := range choices {
		sum += c.percent
	}
	at := d.Float64() * sum
	for _, c := range choices {
		if at -= c.percent; at < 0 {
			return c.what
		}
	}
	return choices[len(choices)-1].what
}

// oneOf draws one of the choices, each as likely.
func oneOf[T any](d draw, choices ...T) T { return choices[d.IntN(len(choices))] }

// inches returns a length in inches, rounded to a step of inches.
func inches(x, step float64) *quantity.Length { return new(quantity.Inches(stepped(x, step))) }

func feet(x, step float64) *quantity.Length { return new(quantity.Feet(stepped(x, step))) }
