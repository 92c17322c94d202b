package takeoff

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/quantity"
)

// Money is an amount in cents, hundredths of a currency's unit.
type Money int64

// String returns the amount with two decimals and thousands set apart, such as
// 15,664.00.
func (m Money) String() string {
	units, sign := strconv.FormatInt(int64(max(m, -m))/100, 10), ""
	if m < 0 {
		sign = "-"
	}
	for at := len(units) - 3; at > 0; at -= 3 {
		units = units[:at] + "," + units[at:]
	}
	return fmt.Sprintf("%s%s.%02d", sign, units, max(m, -m)%100)
}

// MarshalText writes the amount with two decimals, such as 15664.00.
func (m Money) MarshalText() ([]byte, error) {
	return []byte(strings.ReplaceAll(m.String(), ",", "")), nil
}

// errTooMuch is for an amount of money that no job costs.
var errTooMuch = errors.New("more money than can be told to the cent")

// mostMoney is the most that is told, in cents.
var mostMoney = big.NewInt(1e15)

// cents rounds an amount of no less than 0 to the cent, half a cent up.
func cents(x *big.Rat) (Money, error) {
	n := floor(new(big.Rat).Add(new(big.Rat).Mul(x, big.NewRat(100, 1)), big.NewRat(1, 2)))
	if n.Cmp(mostMoney) > 0 {
		return 0, errTooMuch
	}
	return Money(n.Int64()), nil
}

// floor is the greatest whole number that is not more than x.
func floor(x *big.Rat) *big.Int { return new(big.Int).Div(x.Num(), x.Denom()) }

// ceiling is the least whole number that is not less than x.
func ceiling(x *big.Rat) *big.Rat {
	return new(big.Rat).SetInt(new(big.Int).Neg(floor(new(big.Rat).Neg(x))))
}

// split shares a total out among parts whose sum comes to it when it is rounded:
// each has its whole cents, and the cents that are left over go one each to the
// parts with the largest rest, the earlier of two alike. So the parts add up to the
// total, and what comes to whole cents keeps them.
func split(total Money, parts []*big.Rat) []Money {
	out, order := make([]Money, len(parts)), make([]int, len(parts))
	rest := make([]*big.Rat, len(parts))
	left := total
	for i, part := range parts {
		exact := new(big.Rat).Mul(part, big.NewRat(100, 1))
		whole := floor(exact)
		out[i], order[i] = Money(whole.Int64()), i
		rest[i] = exact.Sub(exact, new(big.Rat).SetInt(whole))
		left -= out[i]
	}
	slices.SortStableFunc(order, func(a, b int) int { return rest[b].Cmp(rest[a]) })
	for _, i := range order[:left] {
		out[i]++
	}
	return out
}

// sum adds amounts.
func sum(parts []*big.Rat) *big.Rat {
	out := new(big.Rat)
	for _, part := range parts {
		out.Add(out, part)
	}
	return out
}

// exactly is a quantity in a unit as a decimal number of twelve figures, so that 26
// tons are 26 and not what a float makes of them.
func exactly(q quantity.Quantity, unit quantity.Quantity) (*big.Rat, error) {
	x, err := q.Divide(unit)
	if err != nil {
		return nil, err
	}
	return decimal(x.SI), nil
}

func decimal(x float64) *big.Rat {
	out, _ := new(big.Rat).SetString(strconv.FormatFloat(x, 'g', 12, 64))
	return out
}
