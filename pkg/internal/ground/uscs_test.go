package ground_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
)

func TestClassify(t *testing.T) {
	mm := quantity.Millimeters
	for _, c := range []struct {
		name, why string
		sample    ground.Sample
		want      ground.Classification
	}{
		{"peat by declaration", "the eye decides, no sieve is needed", ground.Sample{Peat: true}, ground.Classification{Group: ground.PT, Name: "peat"}},
		{"nonplastic silt", "no limits are needed", ground.Sample{P4: 100, P200: 60, Nonplastic: true}, ground.Classification{Group: ground.ML, Name: "sandy silt"}},
		{"plastic limit over liquid limit", "D4318 calls it nonplastic", ground.Sample{P4: 100, P200: 90, LL: 20, PL: 22}, ground.Classification{Group: ground.ML, Name: "silt"}},
		{"nonplastic with a high liquid limit", "elastic silt without a thread", ground.Sample{P4: 100, P200: 90, LL: 55, Nonplastic: true}, ground.Classification{Group: ground.MH, Name: "elastic silt"}},
		{"on the A-line", "a point on the line is above it: LL 70 has 36.5, PI 37", ground.Sample{P4: 100, P200: 100, LL: 70, PL: 33}, ground.Classification{Group: ground.CH, Name: "fat clay"}},
		{"just under the A-line", "LL 70, PI 36", ground.Sample{P4: 100, P200: 100, LL: 70, PL: 34}, ground.Classification{Group: ground.MH, Name: "elastic silt"}},
		{"49.6 rounds to fine", "percentages are whole numbers first", ground.Sample{P4: 100, P200: 49.6, LL: 30, PL: 20}, ground.Classification{Group: ground.CL, Name: "sandy lean clay"}},
		{"49.4 rounds to coarse", "percentages are whole numbers first", ground.Sample{P4: 100, P200: 49.4, LL: 30, PL: 20}, ground.Classification{Group: ground.SC, Name: "clayey sand"}},
		{"gravel and sand alike", "S >= G is a sand", ground.Sample{P4: 60, P200: 20, LL: 30, PL: 20}, ground.Classification{Group: ground.SC, Name: "clayey sand with gravel"}},
		{"Cu alone fails", "Cc cannot save it and is not needed", ground.Sample{P4: 40, P200: 2, Cu: 3}, ground.Classification{Group: ground.GP, Name: "poorly graded gravel with sand"}},
		{"Cc alone fails", "Cu cannot save it and is not needed", ground.Sample{P4: 95, P200: 2, Cc: 4}, ground.Classification{Group: ground.SP, Name: "poorly graded sand"}},
		{"edges of well graded", "Cu 4 and Cc 1 pass for a gravel", ground.Sample{P4: 40, P200: 2, Cu: 4, Cc: 1}, ground.Classification{Group: ground.GW, Name: "well-graded gravel with sand"}},
		{"sizes at the edge", "the turning of units must not decide: Cu 6, Cc 1.5", ground.Sample{P4: 100, P200: 2, D10: mm(0.2), D30: mm(0.6), D60: mm(1.2)}, ground.Classification{Group: ground.SW, Name: "well-graded sand"}},
		{"silty clay in a dual symbol", "5 to 12 % of CL-ML make GW-GC", ground.Sample{P4: 40, P200: 8, Cu: 20, Cc: 2, LL: 22, PL: 16}, ground.Classification{Group: ground.GWGC, Name: "well-graded gravel with silty clay and sand"}},
		{"limits before the eye", "what was measured counts", ground.Sample{P4: 100, P200: 20, LL: 40, PL: 20, Fines: ground.SiltyFines}, ground.Classification{Group: ground.SC, Name: "clayey sand"}},
		{"organic fines in a sand", "the name says so", ground.Sample{P4: 100, P200: 30, LL: 40, PL: 20, LLOvenDried: 20}, ground.Classification{Group: ground.SC, Name: "clayey sand with organic fines"}},
		{"organic, high liquid limit", "OH below the A-line is a silt", ground.Sample{P4: 100, P200: 100, LL: 70, PL: 50, LLOvenDried: 40}, ground.Classification{Group: ground.OH, Name: "organic silt"}},
		{"ratio of just 0.75", "organic is under it", ground.Sample{P4: 100, P200: 100, LL: 40, PL: 20, LLOvenDried: 30}, ground.Classification{Group: ground.CL, Name: "lean clay"}},
		{"gravelly with sand", "G over S and S of 15", ground.Sample{P4: 75, P200: 60, LL: 30, PL: 20}, ground.Classification{Group: ground.CL, Name: "gravelly lean clay with sand"}},
		{"with gravel", "15 to 29 % coarse, mostly gravel", ground.Sample{P4: 82, P200: 75, LL: 30, PL: 20}, ground.Classification{Group: ground.CL, Name: "lean clay with gravel"}},
		{"30 % coarse", "sandy from 30 on", ground.Sample{P4: 100, P200: 70, LL: 30, PL: 20}, ground.Classification{Group: ground.CL, Name: "sandy lean clay"}},
		{"29 % coarse", "with sand to 29", ground.Sample{P4: 100, P200: 71, LL: 30, PL: 20}, ground.Classification{Group: ground.CL, Name: "lean clay with sand"}},
		{"15 % coarse", "with sand from 15", ground.Sample{P4: 100, P200: 85, LL: 30, PL: 20}, ground.Classification{Group: ground.CL, Name: "lean clay with sand"}},
		{"sandy with gravel", "S over G and G of 15", ground.Sample{P4: 85, P200: 60, LL: 30, PL: 20}, ground.Classification{Group: ground.CL, Name: "sandy lean clay with gravel"}},
		{"oversize", "cobbles and boulders go to the name", ground.Sample{P4: 22, P200: 6, Cu: 3, Fines: ground.SiltyFines, Cobbles: true, Boulders: true}, ground.Classification{Group: ground.GPGM, Name: "poorly graded gravel with silt, sand, cobbles and boulders"}},
		{"above the U-line", "D2487 asks to verify, and classes it all the same", ground.Sample{P4: 100, P200: 100, LL: 38, PL: 9}, ground.Classification{Group: ground.CL, Name: "lean clay", Suspect: &ground.SuspectError{LL: 38, PI: 29}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.Classify(c.sample)
			require.NoError(t, err, c.why)
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("%s (-want +got):\n%s", c.why, diff)
			}
		})
	}
}

func TestClassifyRefuses(t *testing.T) {
	mm := quantity.Millimeters
	const missing, impossible = "missing", "impossible"
	for _, c := range []struct {
		name, why, kind string
		sample          ground.Sample
		what            []string
	}{
		{"dual without gradation", "7 % fines and no Cu leave GW and GP open", missing, ground.Sample{P4: 40, P200: 7, Fines: ground.SiltyFines},
			[]string{"coefficient of uniformity Cu (or D10 and D60)", "coefficient of curvature Cc (or D10, D30 and D60)"}},
		{"passing Cu without Cc", "one passed test does not decide", missing, ground.Sample{P4: 40, P200: 2, Cu: 9}, []string{"coefficient of curvature Cc (or D10, D30 and D60)"}},
		{"dirty without fines", "20 % fines of an unknown kind", missing, ground.Sample{P4: 40, P200: 20}, []string{"liquid limit", "plastic limit"}},
		{"fine without plastic limit", "the plasticity chart needs both", missing, ground.Sample{P4: 100, P200: 80, LL: 40}, []string{"plastic limit"}},
		{"oven dried without liquid limit", "a ratio needs both", missing, ground.Sample{P4: 100, P200: 80, Nonplastic: true, LLOvenDried: 20}, []string{"liquid limit"}},
		{"more through the finer sieve", "cannot be", impossible, ground.Sample{P4: 30, P200: 40}, nil},
		{"over 100 %", "cannot be", impossible, ground.Sample{P4: 130, P200: 40}, nil},
		{"not a number", "cannot be", impossible, ground.Sample{P4: math.NaN(), P200: 40}, nil},
		{"Cu under 1", "as printed for the crushed rock of D2487 App. X2: 0.9", impossible, ground.Sample{P4: 11, P200: 0, Cu: 0.9, Cc: 2.4}, nil},
		{"Cc that Cu does not allow", "D30 would be over D60", impossible, ground.Sample{P4: 11, P200: 0, Cu: 2, Cc: 2.4}, nil},
		{"sizes out of order", "D60 under D10", impossible, ground.Sample{P4: 100, P200: 2, D10: mm(1), D30: mm(0.6), D60: mm(0.5)}, nil},
		{"sizes in the wrong unit", "D60 of 1.2 in cannot be where all passes 4.75 mm", impossible, ground.Sample{P4: 100, P200: 2, D10: mm(0.2), D30: mm(0.6), D60: quantity.Inches(1.2)}, nil},
		{"size finer than the sieve says", "D10 of clay size with 2 % fines", impossible, ground.Sample{P4: 100, P200: 2, D10: mm(0.002), D30: mm(0.6), D60: mm(1.2)}, nil},
		{"negative limit", "cannot be", impossible, ground.Sample{P4: 100, P200: 80, LL: -3, PL: 2}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.Classify(c.sample)
			require.Error(t, err, c.why)
			require.Zero(t, got)
			var lacking *ground.MissingError
			var outside *calculation.RangeError
			switch c.kind {
			case missing:
				require.ErrorAs(t, err, &lacking, c.why)
				require.Equal(t, c.what, lacking.What)
			case impossible:
				require.ErrorAs(t, err, &outside, c.why)
				require.NotEmpty(t, outside.Want.Document)
			}
		})
	}
}

func TestRuleFunctionsRefuseSuspectLimits(t *testing.T) {
	var suspect *ground.SuspectError
	for name, call := range map[string]func() (ground.Group, error){
		"fine":       func() (ground.Group, error) { return ground.USCSFine(100, 100, 38, 9) },
		"by limits":  func() (ground.Group, error) { return ground.USCSByLimits(100, 30, 38, 9) },
		"oven dried": func() (ground.Group, error) { return ground.USCSFineOvenDried(100, 100, 38, 9, 37) },
	} {
		got, err := call()
		require.ErrorAs(t, err, &suspect, name)
		require.Empty(t, got, name)
	}
	_, err := ground.FinesKind(15, 13)
	require.ErrorAs(t, err, &suspect, "left of the upright part of the U-line")
}

func TestRuleFunctionsSendElsewhere(t *testing.T) {
	_, err := ground.USCSFine(100, 30, 40, 20)
	require.ErrorContains(t, err, "uscs_coarse")
	_, err = ground.USCSClean(100, 30, 5, 2)
	require.ErrorContains(t, err, "uscs_coarse")
	_, err = ground.USCSSiltyOrClayey(100, 12, ground.SiltyFines)
	require.ErrorContains(t, err, "uscs_clean")
}

// random makes a sample that is physically possible and fully known. Whole
// numbers and the edges of the classification come up often.
func random(r *rand.Rand) ground.Sample {
	percent := func(most float64) float64 {
		x := r.Float64() * most
		switch r.IntN(3) {
		case 0:
			x = math.Floor(x)
		case 1:
			x = min(most, []float64{0, 4.5, 5, 12, 12.5, 13, 15, 29, 30, 49.5, 50}[r.IntN(11)])
		}
		return x
	}
	var s ground.Sample
	s.P4 = 100 - percent(100)
	s.P200 = percent(s.P4)
	// D10 <= D30 <= D60 makes Cu and Cc possible.
	a, b := r.Float64()*3, r.Float64()*3
	s.Cu, s.Cc = math.Exp(a+b), math.Exp(a-b)
	s.LL = float64(1 + r.IntN(120))
	s.PL = float64(1 + r.IntN(int(s.LL)+10))
	if r.IntN(3) == 0 {
		s.LLOvenDried = s.LL * (0.5 + r.Float64()/2)
	}
	s.Nonplastic = r.IntN(10) == 0
	return s
}

// member says for each group, on its own and from the text of the standard,
// whether a sample belongs to it: the other route to the class.
func member(s ground.Sample) map[ground.Group]bool {
	round := func(x float64) float64 { return math.Floor(x + 0.5) }
	g, f := 100-round(s.P4), round(s.P200)
	sand := 100 - g - f
	ll, pi := round(s.LL), round(s.LL)-round(s.PL)
	if s.Nonplastic || pi < 0 {
		pi = 0
	}
	above := pi >= 4 && pi >= 0.73*(ll-20)-1e-9
	clay := above && (pi > 7 || ll >= 50)
	both := above && pi <= 7 && ll < 50
	silt := !above
	organic := s.LLOvenDried > 0 && s.LLOvenDried/s.LL < 0.75
	fine, gravel := f >= 50, f < 50 && g > sand
	sandy := f < 50 && g <= sand
	gw := s.Cu >= 4 && s.Cc >= 1 && s.Cc <= 3
	sw := s.Cu >= 6 && s.Cc >= 1 && s.Cc <= 3
	clean, dual, dirty := f < 5, f >= 5 && f <= 12, f > 12
	return map[ground.Group]bool{
		ground.GW: gravel && clean && gw, ground.GP: gravel && clean && !gw,
		ground.GWGM: gravel && dual && gw && silt, ground.GPGM: gravel && dual && !gw && silt,
		ground.GWGC: gravel && dual && gw && !silt, ground.GPGC: gravel && dual && !gw && !silt,
		ground.GM: gravel && dirty && silt, ground.GC: gravel && dirty && clay, ground.GCGM: gravel && dirty && both,
		ground.SW: sandy && clean && sw, ground.SP: sandy && clean && !sw,
		ground.SWSM: sandy && dual && sw && silt, ground.SPSM: sandy && dual && !sw && silt,
		ground.SWSC: sandy && dual && sw && !silt, ground.SPSC: sandy && dual && !sw && !silt,
		ground.SM: sandy && dirty && silt, ground.SC: sandy && dirty && clay, ground.SCSM: sandy && dirty && both,
		ground.CL: fine && !organic && ll < 50 && clay, ground.CLML: fine && !organic && both, ground.ML: fine && !organic && ll < 50 && silt,
		ground.CH: fine && !organic && ll >= 50 && clay, ground.MH: fine && !organic && ll >= 50 && silt,
		ground.OL: fine && organic && ll < 50, ground.OH: fine && organic && ll >= 50,
	}
}

// Every possible sample has one class and never two, and the class worked out is
// the one that the definitions of the groups, read one by one, allow.
func TestEverySampleHasOneClass(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	seen := map[ground.Group]int{}
	for range 60_000 {
		s := random(r)
		got, err := ground.Classify(s)
		if err != nil {
			t.Fatalf("%+v: %v", s, err)
		}
		var groups []ground.Group
		for g, is := range member(s) {
			if is {
				groups = append(groups, g)
			}
		}
		if len(groups) != 1 || groups[0] != got.Group || got.Name == "" {
			t.Fatalf("%+v: worked out %+v, the definitions allow %v", s, got, groups)
		}
		seen[got.Group]++
	}
	for _, g := range ground.Groups() {
		if g != ground.PT && seen[g] == 0 {
			t.Errorf("no sample was %s: the test does not reach it", g)
		}
	}
}

// Left out knowledge gives the same class or an error, never another class.
func TestKnowingLessNeverChangesTheClass(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	answered, refused := 0, 0
	for range 15_000 {
		s := random(r)
		s.LLOvenDried = 0
		full, err := ground.Classify(s)
		require.NoError(t, err)
		for _, drop := range []func(*ground.Sample){
			func(s *ground.Sample) { s.Cu = 0 }, func(s *ground.Sample) { s.Cc = 0 },
			func(s *ground.Sample) { s.LL = 0 }, func(s *ground.Sample) { s.PL = 0 },
		} {
			less := s
			if drop(&less); less.Nonplastic && less.LL == 0 {
				continue // a nonplastic soil without a liquid limit is taken as low
			}
			got, err := ground.Classify(less)
			var missing *ground.MissingError
			switch {
			case err == nil:
				answered++
				if got.Group != full.Group {
					t.Fatalf("%+v is %s, knowing less it is %s", s, full.Group, got.Group)
				}
			case errors.As(err, &missing):
				refused++
			default:
				t.Fatalf("%+v: %v", less, err)
			}
		}
	}
	require.Positive(t, answered)
	require.Positive(t, refused)
}

func TestParseGroup(t *testing.T) {
	for text, want := range map[string]ground.Group{
		"GW-GM": ground.GWGM, " cl_ml ": ground.CLML, "GM-GC": ground.GCGM, "sm-sc": ground.SCSM, "Pt": ground.PT, "ML-CL": ground.CLML,
	} {
		got, err := ground.ParseGroup(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "CL/CH", "XX", "GW-", "CL-CH"} {
		_, err := ground.ParseGroup(text)
		require.Error(t, err, text)
	}
}

func TestGroupParts(t *testing.T) {
	is := func(f func(ground.Group) (bool, error), g ground.Group) bool {
		got, err := f(g)
		require.NoError(t, err)
		return got
	}
	for _, g := range ground.Groups() {
		kinds := 0
		for _, yes := range []bool{is(ground.IsGravel, g), is(ground.IsSand, g), is(ground.IsFineGrained, g), g == ground.PT} {
			if yes {
				kinds++
			}
		}
		require.Equal(t, 1, kinds, "%s is of one kind", g)
		require.Contains(t, ground.Groups(), g.First())
		require.Contains(t, ground.Groups(), g.Second())
		require.NotEmpty(t, g.Name())
	}
	require.Equal(t, ground.GW, ground.GWGM.First())
	require.Equal(t, ground.GM, ground.GWGM.Second())
	_, err := ground.IsSand("S?")
	var unknown *calculation.WordError
	require.ErrorAs(t, err, &unknown)
}
