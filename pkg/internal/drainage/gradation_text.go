package drainage

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/sieve"
)

// ParseGradation reads a gradation as a specification lists it, sieve by sieve:
//
//	1-1/2 in: 100, 1 in: 95-100, 1/2 in: 25-60, No. 4: 0-10, No. 8: 0-5
//
// A sieve is a US name or a size in mm or um, see [sieve.Opening]; after the
// colon stands a percent passing, or the low and the high. The order is free.
// Errors wrap [ErrGradation] and name the sieve.
func ParseGradation(text string) (Gradation, error) {
	var bands []Band
	for item := range strings.SplitSeq(text, ",") {
		item = strings.TrimSpace(item)
		if item == "" {
			return Gradation{}, fmt.Errorf("%w: nothing stands between two commas or at an end of %q", ErrGradation, clip(text))
		}
		name, percents, ok := strings.Cut(item, ":")
		if !ok {
			return Gradation{}, fmt.Errorf("%w: %q: wanted a sieve, a colon and the percent passing, such as No. 4: 0-10", ErrGradation, clip(item))
		}
		opening, err := sieve.Opening(name)
		if err != nil {
			return Gradation{}, fmt.Errorf("%w: %w", ErrGradation, err)
		}
		low, high, err := percentBand(percents)
		if err != nil {
			return Gradation{}, fmt.Errorf("%w: sieve %s: %w", ErrGradation, strings.TrimSpace(name), err)
		}
		bands = append(bands, Band{opening, low, high})
		if len(bands) > mostSieves {
			break // NewGradation says what is wrong
		}
	}
	return NewGradation(bands...)
}

func percentBand(text string) (low, high float64, err error) {
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	text = strings.ReplaceAll(text, "–", "-")
	first, second, isBand := strings.Cut(text, "-")
	if low, err = sieve.Number(strings.TrimSpace(first)); err != nil {
		return 0, 0, err
	}
	if !isBand {
		return low, low, nil
	}
	high, err = sieve.Number(strings.TrimSpace(second))
	return low, high, err
}

// UnmarshalText reads the form of [ParseGradation].
func (g *Gradation) UnmarshalText(text []byte) error {
	read, err := ParseGradation(string(text))
	if err != nil {
		return err
	}
	*g = read
	return nil
}

// MarshalText writes the form that [ParseGradation] reads, coarse to fine; equal
// gradations give equal bytes. The zero Gradation cannot be written: leave it
// out (json: omitzero).
func (g Gradation) MarshalText() ([]byte, error) {
	if g.IsZero() {
		return nil, fmt.Errorf("%w: the zero gradation has no text", ErrGradation)
	}
	return []byte(g.String()), nil
}

// String returns the text form, or "no gradation" for the zero Gradation.
func (g Gradation) String() string {
	if g.IsZero() {
		return "no gradation"
	}
	percent := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	var parts []string
	for _, r := range g.table() {
		part := nameOf(r.mm) + ": " + percent(r.low)
		if r.high != r.low {
			part += "-" + percent(r.high)
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, ", ")
}

// clip shortens text quoted in an error.
func clip(text string) string {
	const most = 60
	if len(text) <= most {
		return text
	}
	return strings.ToValidUTF8(text[:most], "") + "..."
}
