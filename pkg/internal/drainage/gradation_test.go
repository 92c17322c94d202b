package drainage_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

func TestParseGradationForms(t *testing.T) {
	want := gradation(t, no57)
	for _, c := range []struct{ name, why, text string }{
		{"openings in mm", "as an SI specification lists it", "37.5 mm: 100, 25 mm: 95-100, 12.5 mm: 25-60, 4.75 mm: 0-10, 2.36 mm: 0-5"},
		{"openings in um", "the fine sieves are named so, with either letter for micro", "37500 um: 100, 25 mm: 95-100, 12500 µm: 25-60, 4750 um: 0-10, 2360 um: 0-5"},
		{"any order", "a specification may start at either end", "No. 8: 0-5, 1-1/2 in: 100, No. 4: 0-10, 1/2 in: 25-60, 1 in: 95-100"},
		{"inch marks and number marks", "as written on site", `1.5": 100, 1": 95-100, 1/2": 25-60, #4: 0-10, #8: 0-5`},
		{"percent signs, spaces and long dashes", "as copied from a printed table", "1 1/2 in: 100 %, 1 in: 95 – 100 %, 1/2 in:25–60%, no 4 : 0 - 10, NO.8:0-5"},
		{"decimals", "as a laboratory reports it", "1-1/2 in: 100.0, 1 in: 95.0-100, 1/2 in: 25.00-60, No. 4: 0-10, No. 8: 0-5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := gradation(t, c.text)
			require.Equal(t, want.String(), got.String(), c.why)
			require.True(t, got == want, "equal content is equal by ==")
			require.Equal(t, no57, got.String())
		})
	}
}

func TestParseGradationRefuses(t *testing.T) {
	for _, c := range []struct{ name, why, text, says string }{
		{"nothing", "an empty text is no gradation", "", "nothing stands"},
		{"one sieve", "a curve has two ends", "No. 4: 100", "number of sieves is 1; it must be 2 to 32"},
		{"trailing comma", "a sieve may have been forgotten", "No. 4: 100, No. 8: 5,", "nothing stands"},
		{"no colon", "the repair is shown", "No. 4 100, No. 8: 5", "wanted a sieve, a colon"},
		{"above 100", "more than all cannot pass", "No. 4: 101, No. 8: 5", "sieve No. 4: percent passing is 101 to 101; it must be 0 to 100"},
		{"high edge above 100", "an edge alone is enough", "No. 4: 90-101, No. 8: 5", "sieve No. 4: percent passing is 90 to 101; it must be 0 to 100"},
		{"below 0", "a sign is not read; it stands for a band without a low", "No. 4: -5, No. 8: 0", `sieve No. 4: "" is not a plain number`},
		{"low above high", "the band is written the wrong way", "No. 4: 100, No. 8: 60-40", "sieve No. 8: the low percent passing 60 is above the high 40"},
		{"low edge rises", "no finer sieve passes more", "3/8 in: 40-90, No. 4: 50-80", "sieve No. 4: the low percent passing rises from 40 on 3/8 in to 50"},
		{"high edge rises", "no finer sieve passes more", "3/8 in: 40-70, No. 4: 30-80", "sieve No. 4: the high percent passing rises from 70 on 3/8 in to 80"},
		{"same sieve by two names", "which of them counts cannot be told", "No. 4: 100, 4.75 mm: 90, No. 8: 5", "sieve No. 4 is given twice"},
		{"no such sieve", "the error of the sieve is kept", "No. 9: 100, No. 16: 5", `not a sieve: "No. 9"`},
		{"words for a number", "infinity is not a percent", "No. 4: inf, No. 8: 5", `"inf" is not a plain number`},
		{"an exponent", "nobody writes a percent so", "No. 4: 1e2, No. 8: 5", "is not a plain number"},
		{"too many sieves", "a gradation holds 32", strings.Repeat("No. 4: 100, ", 40) + "No. 8: 5", "number of sieves is 33; it must be 2 to 32"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := drainage.ParseGradation(c.text)
			require.ErrorIs(t, err, drainage.ErrGradation, c.why)
			require.ErrorContains(t, err, c.says, c.why)
		})
	}
}

func TestNewGradationRefuses(t *testing.T) {
	for _, c := range []struct {
		name, why string
		coarse    drainage.Band
		says      string
	}{
		{"an opening of nothing", "hydrometer sizes are the finest", drainage.Band{Low: 100, High: 100}, "opening is 0 mm; it must be 0.0001 to 3,000 mm"},
		{"an opening of a cliff", "boulders are the coarsest", drainage.Band{Opening: 3.1, Low: 100, High: 100}, "opening is 3,100 mm; it must be 0.0001 to 3,000 mm"},
		{"a low that is not a number", "it would compare with nothing", drainage.Band{Opening: 0.01, Low: math.NaN(), High: 100}, "it must be 0 to 100"},
		{"a high that is not a number", "it would compare with nothing", drainage.Band{Opening: 0.01, Low: 50, High: math.NaN()}, "it must be 0 to 100"},
		{"a low below 0", "less than none cannot pass", drainage.Band{Opening: 0.01, Low: -0.1, High: 100}, "percent passing is -0.1 to 100; it must be 0 to 100"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := drainage.NewGradation(c.coarse, drainage.Band{Opening: 0.001, Low: 5, High: 5})
			require.ErrorIs(t, err, drainage.ErrGradation, c.why)
			require.ErrorContains(t, err, c.says, c.why)
		})
	}
}

func TestGradationTakesTwoSievesToThirtyTwo(t *testing.T) {
	for sieves, want := range map[int]bool{0: false, 1: false, 2: true, 32: true, 33: false} {
		var bands []drainage.Band
		for i := range sieves {
			bands = append(bands, drainage.Band{Opening: quantity.Millimeters(float64(1 + i)), Low: float64(i), High: float64(i)})
		}
		_, err := drainage.NewGradation(bands...)
		require.Equal(t, want, err == nil, "%d sieves: %v", sieves, err)
	}
}

func TestGradationBandsMakeItAgain(t *testing.T) {
	for _, c := range computedSizes {
		t.Run(c.name, func(t *testing.T) {
			g := gradation(t, c.envelope)
			again, err := drainage.NewGradation(g.Bands()...)
			require.NoError(t, err)
			require.Equal(t, g, again)
		})
	}
}

// Rules know a gradation as an object of that name.
func TestGradationInARule(t *testing.T) {
	v, err := value.Of(gradation(t, no57), nil)
	require.NoError(t, err)
	require.Equal(t, value.Kind("gradation"), v.Kind())
	require.Equal(t, no57, v.String())
	require.Equal(t, "no gradation", drainage.Gradation{}.String())
}

// A negative zero, as arithmetic may leave it, is written as zero.
func TestGradationOfNegativeZero(t *testing.T) {
	none := math.Copysign(0, -1)
	g, err := drainage.NewGradation(drainage.Band{Opening: 0.0095, Low: none, High: 90}, drainage.Band{Opening: 0.00475, Low: none, High: none})
	require.NoError(t, err)
	require.Equal(t, "3/8 in: 0-90, No. 4: 0", g.String())
	require.False(t, math.Signbit(g.Bands()[1].High), "nor is it handed out")
}

// Half a percent apart is another sieve; a twentieth of a percent is not.
func TestSameSieve(t *testing.T) {
	for _, c := range []struct {
		name, why string
		mm        float64
		taken     bool
	}{
		{"0.05 % finer", "the same sieve by another turning of units", 9.9950, false},
		{"0.5 % finer", "finer than any two sieves of a series are apart", 9.950, true},
		{"0.102 % finer", "just beyond the tenth of a percent", 9.9898, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := drainage.NewGradation(drainage.Band{Opening: 0.01, Low: 50, High: 50}, drainage.Band{Opening: quantity.Millimeters(c.mm), Low: 50, High: 50})
			require.Equal(t, c.taken, err == nil, "%s: %v", c.why, err)
		})
	}
}

// A long text is quoted by its beginning, without half a letter.
func TestLongTextIsClipped(t *testing.T) {
	for _, c := range []struct{ name, why, text, says string }{
		{"as long as is quoted", "60 bytes stand whole", strings.Repeat("x", 60), `"` + strings.Repeat("x", 60) + `": wanted`},
		{"longer", "the rest is left out", strings.Repeat("x", 61), `"` + strings.Repeat("x", 60) + `...": wanted`},
		{"half a letter", "the letter at the cut has two bytes", strings.Repeat("x", 59) + "µm", `"` + strings.Repeat("x", 59) + `...": wanted`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := drainage.ParseGradation(c.text)
			require.ErrorContains(t, err, c.says, c.why)
		})
	}
}

func TestGradationFromSizes(t *testing.T) {
	g, err := drainage.GradationFromSizes(quantity.Millimeters(0.38), quantity.Millimeters(0.75), quantity.Millimeters(1.5))
	require.NoError(t, err)
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

	require.ErrorIs(t, json.Unmarshal([]byte(`{"base": "No. 4"}`), &holder{}), drainage.ErrGradation, "what cannot be read is no gradation of nothing")

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
