package drainage_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

func TestParseGradationForms(t *testing.T) {
	want := gradation(t, no57)
	for _, c := range []struct{ name, text string }{
		{"openings in mm", "37.5 mm: 100, 25 mm: 95-100, 12.5 mm: 25-60, 4.75 mm: 0-10, 2.36 mm: 0-5"},
		{"openings in um", "37500 um: 100, 25 mm: 95-100, 12500 µm: 25-60, 4750 um: 0-10, 2360 um: 0-5"},
		{"any order", "No. 8: 0-5, 1-1/2 in: 100, No. 4: 0-10, 1/2 in: 25-60, 1 in: 95-100"},
		{"inch marks and number marks", `1.5": 100, 1": 95-100, 1/2": 25-60, #4: 0-10, #8: 0-5`},
		{"percent signs, spaces and long dashes", "1 1/2 in: 100 %, 1 in: 95 – 100 %, 1/2 in:25–60%, no 4 : 0 - 10, NO.8:0-5"},
		{"decimals", "1-1/2 in: 100.0, 1 in: 95.0-100, 1/2 in: 25.00-60, No. 4: 0-10, No. 8: 0-5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := gradation(t, c.text)
			require.Empty(t, cmp.Diff(want, got))
			require.True(t, got == want, "equal content is equal by ==")
			require.Equal(t, no57, got.String())
		})
	}
}

func TestParseGradationRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, says string }{
		{"nothing", "", "nothing stands"},
		{"one sieve", "No. 4: 100", "at least two"},
		{"trailing comma", "No. 4: 100, No. 8: 5,", "nothing stands"},
		{"no colon", "No. 4 100, No. 8: 5", "wanted a sieve, a colon"},
		{"above 100", "No. 4: 101, No. 8: 5", "sieve No. 4: 101 to 101 percent passing, outside 0 to 100"},
		{"below 0 reads as a band without a low", "No. 4: -5, No. 8: 0", "sieve No. 4"},
		{"low above high", "No. 4: 100, No. 8: 60-40", "sieve No. 8: the low percent passing 60 is above the high 40"},
		{"low edge rises", "3/8 in: 40-90, No. 4: 50-80", "sieve No. 4: the low percent passing rises from 40 on 3/8 in to 50"},
		{"high edge rises", "3/8 in: 40-70, No. 4: 30-80", "sieve No. 4: the high percent passing rises from 70 on 3/8 in to 80"},
		{"same sieve by two names", "No. 4: 100, 4.75 mm: 90, No. 8: 5", "sieve No. 4 is given twice"},
		{"no unit", "4.75: 100, No. 8: 5", `sieve "4.75": wanted a name`},
		{"no such number", "No. 9: 100, No. 16: 5", `sieve "No. 9" is not in the table`},
		{"no such inch size", "1.3 in: 100, No. 16: 5", "give its opening in mm"},
		{"a fraction of nothing", "1/0 in: 100, No. 16: 5", "divides by nothing"},
		{"no opening", "0 mm: 100, No. 16: 5", "an opening must be"},
		{"words for a number", "No. 4: inf, No. 8: 5", `"inf" is no plain number`},
		{"an exponent", "No. 4: 1e2, No. 8: 5", "is no plain number"},
		{"too many sieves", strings.Repeat("No. 4: 100, ", 40) + "No. 8: 5", "at most 32"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := drainage.ParseGradation(c.text)
			require.ErrorIs(t, err, drainage.ErrGradation)
			require.ErrorContains(t, err, c.says)
		})
	}
}

func TestGradationBandsMakeItAgain(t *testing.T) {
	for _, c := range computedSizes {
		g := gradation(t, c.envelope)
		again, err := drainage.NewGradation(g.Bands()...)
		require.NoError(t, err)
		require.Equal(t, g, again, c.name)
		require.False(t, g.Single())
	}
}

func TestGradationFromSizes(t *testing.T) {
	g, err := drainage.GradationFromSizes(quantity.Millimeters(0.38), quantity.Millimeters(0.75), quantity.Millimeters(1.5))
	require.NoError(t, err)
	require.True(t, g.Single())
	require.Equal(t, "1.5 mm: 85, 0.75 mm: 50, 0.38 mm: 15", g.String())
	_, err = drainage.GradationFromSizes(quantity.Millimeters(0.8), quantity.Millimeters(0.75), quantity.Millimeters(1.5))
	require.ErrorIs(t, err, drainage.ErrGradation, "D15 above D50")
}

func TestGradationAsJSON(t *testing.T) {
	type holder struct {
		Base drainage.Gradation `json:"base,omitzero"`
	}
	text, err := json.Marshal(holder{gradation(t, no57)})
	require.NoError(t, err)
	var back holder
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, gradation(t, no57), back.Base)

	text, err = json.Marshal(holder{})
	require.NoError(t, err)
	require.Equal(t, "{}", string(text))
	_, err = drainage.Gradation{}.MarshalText()
	require.ErrorIs(t, err, drainage.ErrGradation, "none has no text")
}

func FuzzGradationText(f *testing.F) {
	for _, c := range computedSizes {
		f.Add(c.envelope)
	}
	f.Add("37.4 mm: 100, 0.0001 mm: 0.125-7")
	f.Add(`#4: 0.000000000000000000001-3, 1": 5`)
	f.Fuzz(func(t *testing.T, text string) {
		var g drainage.Gradation
		if err := g.UnmarshalText([]byte(text)); err != nil {
			require.ErrorIs(t, err, drainage.ErrGradation)
			require.True(t, g.IsZero(), "a refused text leaves nothing behind")
			return
		}
		written, err := g.MarshalText()
		require.NoError(t, err)
		var again drainage.Gradation
		require.NoError(t, again.UnmarshalText(written), "%s", written)
		require.Equal(t, g, again, "%s", written)
		byBands, err := drainage.NewGradation(g.Bands()...)
		require.NoError(t, err)
		require.Equal(t, g, byBands)
	})
}
