// Package sieve is the table of US sieves: the opening of each, by the names
// that the trade gives it.
package sieve

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// ErrUnknown is wrapped by the error of a name that is not a sieve.
var ErrUnknown = errors.New("not a sieve")

// Openings is the range of an opening: hydrometer sizes to boulders. No
// publication sets it.
var Openings = calculation.Range{Name: "opening", Unit: "mm", Low: 0.0001, High: 3000, Document: "limit of this library"}

// row is one sieve: its US name and its opening in mm.
type row struct {
	name string
	mm   float64
}

// table holds the openings of ASTM E11, coarse to fine. 3 in to 3/8 in are seen
// (Colorado DOT Table 703-1 pairs 2-1/2 in to 3/8 in with these openings,
// UFGS-03701 the 3 in) as far as those documents list them; No. 4 to No. 200 are
// relayed by GNU units 2.22; 4, 3-1/2, 1-3/4, 1-1/4, 7/8, 5/8, 7/16, 5/16 and
// 1/4 in, and all that is finer than No. 200, are from memory.
var table = [...]row{
	{"4 in", 100}, {"3-1/2 in", 90}, {"3 in", 75}, {"2-1/2 in", 63}, {"2 in", 50},
	{"1-3/4 in", 45}, {"1-1/2 in", 37.5}, {"1-1/4 in", 31.5}, {"1 in", 25},
	{"7/8 in", 22.4}, {"3/4 in", 19}, {"5/8 in", 16}, {"1/2 in", 12.5},
	{"7/16 in", 11.2}, {"3/8 in", 9.5}, {"5/16 in", 8}, {"1/4 in", 6.3},
	{"No. 4", 4.75}, {"No. 5", 4}, {"No. 6", 3.35}, {"No. 7", 2.8}, {"No. 8", 2.36},
	{"No. 10", 2}, {"No. 12", 1.7}, {"No. 14", 1.4}, {"No. 16", 1.18}, {"No. 18", 1},
	{"No. 20", 0.85}, {"No. 25", 0.71}, {"No. 30", 0.6}, {"No. 35", 0.5},
	{"No. 40", 0.425}, {"No. 45", 0.355}, {"No. 50", 0.3}, {"No. 60", 0.25},
	{"No. 70", 0.212}, {"No. 80", 0.18}, {"No. 100", 0.15}, {"No. 120", 0.125},
	{"No. 140", 0.106}, {"No. 170", 0.09}, {"No. 200", 0.075}, {"No. 230", 0.063},
	{"No. 270", 0.053}, {"No. 325", 0.045}, {"No. 400", 0.038},
}

// Opening returns the opening of a sieve named as the trade names it: a US inch
// size ("1-1/2 in", `3/8"`), a US number ("No. 200", "#200"), or a size
// ("37.5 mm", "75 um"). A US inch size is the sieve of that name and not the
// inch itself: "1 in" is 25.0 mm. The error of any other name wraps [ErrUnknown].
//
// Source: ASTM E11; inch sizes seen in Colorado DOT Table 703-1, numbers
// relayed by GNU units, the sieves beside them from memory.
func Opening(name string) (quantity.Length, error) {
	mm, err := openingMM(name)
	if err != nil {
		return 0, fmt.Errorf("%w: %q: %w", ErrUnknown, name, err)
	}
	return quantity.Millimeters(mm), nil
}

// Name returns the US name of the sieve with this opening, or the opening in mm
// where no sieve of the table has it.
func Name(opening quantity.Length) string {
	mm := Millimeters(opening)
	for _, s := range table {
		if s.mm == mm {
			return s.name
		}
	}
	return strconv.FormatFloat(mm, 'f', -1, 64) + " mm"
}

// Millimeters returns an opening in mm, rounded to 1e-9 mm, so that a size turned
// from meters is again the number that was written.
func Millimeters(opening quantity.Length) float64 { return rounded(opening.Millimeters()) }

func rounded(mm float64) float64 {
	const perMM = 1e9
	return math.Round(mm*perMM) / perMM
}

func openingMM(name string) (float64, error) {
	text := strings.ToLower(strings.TrimSpace(name))
	for _, prefix := range []string{"no.", "no", "#"} {
		if rest, ok := strings.CutPrefix(text, prefix); ok {
			return inTable(func(s row) bool { return s.name == "No. "+strings.TrimSpace(rest) })
		}
	}
	for _, suffix := range []string{"inches", "inch", "in.", "in", `"`} {
		if rest, ok := strings.CutSuffix(text, suffix); ok {
			return inchOpening(strings.TrimSpace(rest))
		}
	}
	for _, unit := range []struct {
		suffix string
		perMM  float64
	}{{"mm", 1}, {"um", 1000}, {"µm", 1000}, {"μm", 1000}} {
		if rest, ok := strings.CutSuffix(text, unit.suffix); ok {
			x, err := Number(strings.TrimSpace(rest))
			if err != nil {
				return 0, err
			}
			mm := rounded(x / unit.perMM)
			return mm, Openings.Check(mm)
		}
	}
	return 0, errors.New("wanted a name such as 3/8 in or No. 8, or a size such as 9.5 mm")
}

func inTable(is func(row) bool) (float64, error) {
	for _, s := range table {
		if is(s) {
			return s.mm, nil
		}
	}
	return 0, errors.New("the table of US sieves has no such name; give its opening in mm")
}

// inchOpening finds the inch sieve by its number: 1-1/2, 1 1/2, 1.5 and 3/8.
func inchOpening(number string) (float64, error) {
	inches, err := mixedNumber(number)
	if err != nil {
		return 0, err
	}
	return inTable(func(s row) bool {
		name, ok := strings.CutSuffix(s.name, " in")
		x, err := mixedNumber(name)
		return ok && err == nil && x == inches
	})
}

func mixedNumber(text string) (float64, error) {
	whole, fraction, ok := strings.Cut(text, "-")
	if !ok {
		whole, fraction, ok = strings.Cut(text, " ")
	}
	if !ok {
		whole, fraction = "0", text
	}
	top, bottom, ok := strings.Cut(strings.TrimSpace(fraction), "/")
	if !ok {
		bottom = "1"
	}
	var parts [3]float64
	for i, part := range []string{whole, top, bottom} {
		x, err := Number(part)
		if err != nil {
			return 0, err
		}
		parts[i] = x
	}
	if parts[2] == 0 {
		return 0, fmt.Errorf("%q divides by zero", text)
	}
	return parts[0] + parts[1]/parts[2], nil
}

// Number reads digits with at most one point; no sign, exponent or word.
func Number(text string) (float64, error) {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || strings.Trim(text, "0123456789.") != "" {
		return 0, fmt.Errorf("%q is not a plain number", text)
	}
	return x, nil
}
