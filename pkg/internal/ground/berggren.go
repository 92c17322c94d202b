package ground

import (
	"cmp"
	"math"

	"example.com/groundrule/pkg/internal/portable"
)

// BerggrenLambda returns the correction to Stefan's depth for a thermal ratio alpha,
// 0 to 1e6, and a fusion parameter mu, 1e-9 to 10: above 0 and at most 1,
// falling as either rises.
//
// It is Neumann's solution for equal properties frozen and thawed (Aldrich and
// Paynter 1953, derivation from memory): g solves
//
//	exp(-g^2)/erf(g) - alpha exp(-g^2)/erfc(g) = sqrt(pi) g/mu
//
// and lambda = g sqrt(2/mu).
func BerggrenLambda(alpha, mu float64) (float64, error) {
	if err := cmp.Or(anAlpha.Check(alpha), aMu.Check(mu)); err != nil {
		return 0, err
	}
	// That lambda is 1 at most is proved below; the last bit may say otherwise.
	return min(1, neumannRoot(alpha, mu)*math.Sqrt(2/mu)), nil
}

// neumannRoot halves a bracket that holds the one root of the falling function
// [neumann]. Its high end is sqrt(mu/2): erf(g) is at least 2g exp(-g^2)/sqrt(pi),
// so there the first term is at most sqrt(pi)/(2g) = sqrt(pi) g/mu and the
// function is not above 0. (So lambda is 1 at most.) The low end is halved until
// the function is above 0, which must come, as it grows without bound toward 0.
func neumannRoot(alpha, mu float64) float64 {
	high := math.Sqrt(mu / 2)
	low := high / 2
	for neumann(low, alpha, mu) <= 0 {
		high, low = low, low/2
	}
	for {
		middle := low + float64((high-low)/2)
		if middle <= low || middle >= high {
			return middle
		}
		if neumann(middle, alpha, mu) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
}

// neumann is the left side of the equation less the right.
func neumann(g, alpha, mu float64) float64 {
	cool := portable.Exp(-float64(g * g))
	return cool/portable.Erf(g) - float64(alpha*cool/portable.Erfc(g)) - float64(math.SqrtPi*g/mu)
}
