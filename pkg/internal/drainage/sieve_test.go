package drainage_test

import (
	"bufio"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

// The openings that GNU units gives are an oracle of its own.
func TestSieveOpeningsAgainstGNUUnits(t *testing.T) {
	file, err := os.Open("../../../testdata/units/sieves.tsv")
	require.NoError(t, err)
	defer file.Close()
	checked := 0
	for lines := bufio.NewScanner(file); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		number, opening, ok := strings.Cut(lines.Text(), "\t")
		require.True(t, ok, lines.Text())
		want, err := strconv.ParseFloat(opening, 64)
		require.NoError(t, err)
		got, err := drainage.SieveOpening("No. " + number)
		require.NoError(t, err)
		require.InEpsilon(t, want, got.Millimeters(), 1e-12, "No. %s", number)
		checked++
	}
	require.GreaterOrEqual(t, checked, 20)
}

func TestSieveNames(t *testing.T) {
	for _, c := range []struct {
		name string
		mm   float64
		want string
	}{
		{"an inch sieve", 37.5, "1-1/2 in"},
		{"a number sieve", 0.075, "No. 200"},
		{"no sieve of the table", 25.4, "25.4 mm"},
		{"a metric sieve", 0.63, "0.63 mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, drainage.SieveName(quantity.Millimeters(c.mm)))
			opening, err := drainage.SieveOpening(c.want)
			require.NoError(t, err)
			require.Equal(t, quantity.Millimeters(c.mm), opening)
		})
	}
}
