package ground_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
)

// pct is a share in percent.
var pct = quantity.Percent

func TestClasses(t *testing.T) {
	mm := quantity.Millimeters
	limits := func(p4, p200, ll, pl float64) func() (ground.Group, error) {
		return func() (ground.Group, error) { return ground.USCSByLimits(pct(p4), pct(p200), ll, pl) }
	}
	oven := func(p4, p200, ll, pl, dried float64) func() (ground.Group, error) {
		return func() (ground.Group, error) { return ground.USCSFineOvenDried(pct(p4), pct(p200), ll, pl, dried) }
	}
	clean := func(p4, p200, cu, cc float64) func() (ground.Group, error) {
		return func() (ground.Group, error) { return ground.USCSClean(pct(p4), pct(p200), cu, cc) }
	}
	sieve := func(p4, p200, d10, d30, d60, ll, pl float64) func() (ground.Group, error) {
		return func() (ground.Group, error) {
			return ground.USCSFromSieve(pct(p4), pct(p200), mm(d10), mm(d30), mm(d60), ll, pl)
		}
	}
	for _, c := range []struct {
		name, why string
		call      func() (ground.Group, error)
		want      ground.Group
	}{
		{"plastic limit over liquid limit", "D4318 calls it nonplastic", limits(100, 90, 20, 22), ground.ML},
		{"nonplastic with a high liquid limit", "an elastic silt without a thread", limits(100, 90, 55, 56), ground.MH},
		{"on the A-line", "a point on the line is above it: LL 70 has 36.5, PI 37", limits(100, 100, 70, 33), ground.CH},
		{"just under the A-line", "LL 70, PI 36", limits(100, 100, 70, 34), ground.MH},
		{"PI 7", "the hatched zone ends above 7", limits(100, 100, 25, 18), ground.CLML},
		{"PI 8", "the hatched zone ends above 7", limits(100, 100, 25, 17), ground.CL},
		{"PI 4", "the hatched zone begins at 4", limits(100, 100, 22, 18), ground.CLML},
		{"PI 3", "the hatched zone begins at 4", limits(100, 100, 22, 19), ground.ML},
		{"liquid limit 49", "50 is high", limits(100, 100, 49, 20), ground.CL},
		{"liquid limit 49.5", "limits are whole numbers first", limits(100, 100, 49.5, 20), ground.CH},
		{"49.6 rounds to fine", "percentages are whole numbers first", limits(100, 49.6, 30, 20), ground.CL},
		{"49.4 rounds to coarse", "percentages are whole numbers first", limits(100, 49.4, 30, 20), ground.SC},
		{"gravel and sand alike", "as much sand as gravel is a sand", limits(60, 20, 30, 20), ground.SC},
		{"more gravel than sand", "41 % against 40 %", limits(59, 19, 30, 20), ground.GC},
		{"silty, clayey gravel", "more than 12 % in the hatched zone", limits(40, 20, 22, 16), ground.GCGM},
		{"12.5 within the tolerance of a rule", "what a rule lets through is not refused", limits(100, 12.5*(1-1e-12), 30, 20), ground.SC},
		{"edges of a well-graded gravel", "Cu 4 and Cc 1 pass", clean(40, 2, 4, 1), ground.GW},
		{"Cc 3", "passes", clean(40, 2, 9, 3), ground.GW},
		{"Cc over 3", "fails", clean(40, 2, 9, 3.01), ground.GP},
		{"Cc under 1", "fails", clean(95, 2, 9, 0.99), ground.SP},
		{"sand of Cu 5.9", "a sand needs 6", clean(95, 2, 5.9, 1.5), ground.SP},
		{"gravel of Cu 3.9", "a gravel needs 4", clean(40, 2, 3.9, 1.5), ground.GP},
		{"organic, high liquid limit", "LL 50 and more is OH", oven(100, 100, 70, 50, 40), ground.OH},
		{"ratio of just 0.75", "organic is under it", oven(100, 100, 40, 20, 30), ground.CL},
		{"ratio under 0.75", "organic is under it", oven(100, 100, 40, 20, 29.9), ground.OL},
		{"sizes at the edge", "the turning of units must not decide: Cu 6, Cc 1.5", sieve(100, 2, 0.2, 0.6, 1.2, 30, 25), ground.SW},
		{"silty clay in a dual symbol", "5 to 12 % of CL-ML make the clayey symbol", sieve(40, 8, 0.2, 2, 9, 22, 16), ground.GWGC},
		{"suspect limits of few fines", "under 5 % fines the limits do not count", sieve(100, 2, 0.2, 0.6, 1.2, 38, 9), ground.SW},
		{"full sieve of a dirty sand", "goes by the limits", sieve(100, 30, 0.02, 0.075, 0.5, 40, 20), ground.SC},
		{"full sieve of a clay", "goes by the limits", sieve(100, 90, 0.001, 0.01, 0.05, 40, 20), ground.CL},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.call()
			require.NoError(t, err, c.why)
			require.Equal(t, c.want, got, c.why)
		})
	}
}

func TestClassesRefuse(t *testing.T) {
	mm, in := quantity.Millimeters, quantity.Inches
	sieve := func(p4, p200 float64, d10, d30, d60 quantity.Length) error {
		_, err := ground.USCSFromSieve(pct(p4), pct(p200), d10, d30, d60, 40, 38)
		return err
	}
	limits := func(p4, p200, ll, pl float64) error {
		_, err := ground.USCSByLimits(pct(p4), pct(p200), ll, pl)
		return err
	}
	clean := func(p4, p200, cu, cc float64) error {
		_, err := ground.USCSClean(pct(p4), pct(p200), cu, cc)
		return err
	}
	for _, c := range []struct {
		name, why, want string
		err             error
	}{
		{"more through the finer sieve", "cannot be", "p200 is 40 %; it must be 0 to 30 % (no more than passes the No. 4 sieve)", limits(30, 40, 40, 20)},
		{"over 100 %", "cannot be", "p4 is 130 %; it must be 0 to 100 % (a percentage by mass)", limits(130, 40, 40, 20)},
		{"few fines", "the limits alone do not tell", "p200 is 12.4 %; it must be 12.5 to 100 % (ASTM D2487; for fewer fines see uscs_clean and uscs_from_sieve)", limits(100, 12.4, 40, 20)},
		{"negative limit", "cannot be", "liquid limit is -3; it must be above 0 and at most 1,000 (Atterberg limit)", limits(100, 80, -3, 2)},
		{"above the U-line", "the tests should be verified", "plasticity index is 29; it must be 0 to 27 (at liquid limit 38, the U-line of ASTM D2487; verify the tests)", limits(100, 100, 38, 9)},
		{"left of the U-line", "its upright part", "liquid limit is 15; it must be at least 16 (the U-line of ASTM D2487; verify the tests)", limits(100, 100, 15, 13)},
		{"Cu under 1", "as printed for the crushed rock of D2487 App. X2: 0.9", "Cu is 0.9; it must be 1 to 1,000,000 (ASTM D2487, Cu = D60/D10)", clean(11, 0, 0.9, 2.4)},
		{"Cc that Cu does not allow", "D30 would be over D60", "Cc is 2.4; it must be 0.4762 to 2.1 (ASTM D2487, what Cu allows)", clean(11, 0, 2, 2.4)},
		{"sizes out of order", "D30 under D10", "grain size is 0.6 mm; it must be 1 to 3,000 mm (no smaller than the size before it)", sieve(100, 2, mm(1), mm(0.6), mm(0.5))},
		{"sizes in the wrong unit", "D60 of 1.2 in where all passes 4.75 mm", "D60 is 30.48 mm; it must be above 0 and at most 4.75 mm (100 % passes the No. 4 sieve)", sieve(100, 2, mm(0.2), mm(0.6), in(1.2))},
		{"size finer than the sieve says", "D10 of clay size with 2 % fines", "D10 is 0.002 mm; it must be 0.075 to 3,000 mm (2 % passes the No. 200 sieve)", sieve(100, 2, mm(0.002), mm(0.6), mm(1.2))},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.EqualError(t, c.err, c.want, c.why)
			var outside *calculation.RangeError
			require.ErrorAs(t, c.err, &outside)
		})
	}
	_, err := ground.USCSCoarse(pct(95), pct(8), 6, 1, "muddy")
	var unknown *calculation.WordError
	require.ErrorAs(t, err, &unknown)
	require.Equal(t, "fines", unknown.Name)
}

// sample is a soil that is fully known.
type sample struct{ p4, p200, cu, cc, ll, pl, oven float64 }

// random makes a sample that is physically possible. Whole numbers and the edges
// of the classification come up often.
func random(r *rand.Rand) sample {
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
	var s sample
	s.p4 = 100 - percent(100)
	s.p200 = percent(s.p4)
	// D10 <= D30 <= D60 makes Cu and Cc possible.
	a, b := r.Float64()*3, r.Float64()*3
	s.cu, s.cc = math.Exp(a+b), math.Exp(a-b)
	s.ll = float64(1 + r.IntN(120))
	s.pl = float64(1 + r.IntN(int(s.ll)+10))
	if r.IntN(3) == 0 {
		s.oven = s.ll * (0.5 + r.Float64()/2)
	}
	return s
}

// plots is what the limits show, read from the text of the standard.
func (s sample) plots() (ll float64, suspect, clay, both, silt bool) {
	round := func(x float64) float64 { return math.Floor(x + 0.5) }
	ll, pi := round(s.ll), max(0, round(s.ll)-round(s.pl))
	suspect = pi > 0 && (ll < 16 || pi > 0.9*(ll-8)+1e-9)
	above := pi >= 4 && pi >= 0.73*(ll-20)-1e-9
	return ll, suspect, above && (pi > 7 || ll >= 50), above && pi <= 7 && ll < 50, !above
}

// member says for each group, on its own and from the text of the standard,
// whether a sample belongs to it: the other route to the class.
func member(s sample) map[ground.Group]bool {
	round := func(x float64) float64 { return math.Floor(x + 0.5) }
	g, f := 100-round(s.p4), round(s.p200)
	sand := 100 - g - f
	ll, _, clay, both, silt := s.plots()
	organic := s.oven > 0 && s.oven/s.ll < 0.75
	fine, gravel := f >= 50, f < 50 && g > sand
	sandy := f < 50 && g <= sand
	gw := s.cu >= 4 && s.cc >= 1 && s.cc <= 3
	sw := s.cu >= 6 && s.cc >= 1 && s.cc <= 3
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

// classes works a sample out in every way that a rule could: by each function
// that takes what is known of it.
func (s sample) classes(t *testing.T) []ground.Group {
	_, suspect, clay, both, _ := s.plots()
	kind := ground.SiltyFines
	switch {
	case clay:
		kind = ground.ClayeyFines
	case both:
		kind = ground.SiltyClayeyFines
	}
	var out []ground.Group
	add := func(g ground.Group, err error) {
		require.NoError(t, err, "%+v", s)
		out = append(out, g)
	}
	byLimits := func(g ground.Group, err error) {
		if suspect {
			require.ErrorContains(t, err, "U-line", "%+v", s)
			return
		}
		add(g, err)
	}
	nonplastic := s.pl >= s.ll
	switch {
	case s.p200 >= 49.5 && s.oven > 0:
		byLimits(ground.USCSFineOvenDried(pct(s.p4), pct(s.p200), s.ll, s.pl, s.oven))
	case s.p200 >= 12.5:
		byLimits(ground.USCSByLimits(pct(s.p4), pct(s.p200), s.ll, s.pl))
		if s.p200 < 49.5 {
			add(ground.USCSSiltyOrClayey(pct(s.p4), pct(s.p200), kind))
			add(ground.USCSCoarse(pct(s.p4), pct(s.p200), s.cu, s.cc, kind))
		} else if nonplastic && s.ll < 49.5 {
			add(ground.USCSFineNonplastic(pct(s.p4), pct(s.p200)))
		}
	case s.p200 < 4.5:
		add(ground.USCSClean(pct(s.p4), pct(s.p200), s.cu, s.cc))
		fallthrough
	default:
		add(ground.USCSCoarse(pct(s.p4), pct(s.p200), s.cu, s.cc, kind))
	}
	return out
}

// Every possible sample has one class and never two, whichever function works it
// out, and it is the one that the definitions of the groups, read one by one,
// allow.
func TestEverySampleHasOneClass(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	seen := map[ground.Group]int{}
	for range 60_000 {
		s := random(r)
		got := s.classes(t)
		for i := range got {
			var groups []ground.Group
			for g, is := range member(s) {
				if is {
					groups = append(groups, g)
				}
			}
			if len(groups) != 1 || groups[0] != got[i] {
				t.Fatalf("%+v: worked out %v, the definitions allow %v", s, got, groups)
			}
			seen[got[i]]++
		}
	}
	for _, g := range ground.Groups() {
		if g != ground.PT && seen[g] == 0 {
			t.Errorf("no sample was %s: the test does not reach it", g)
		}
	}
}

func TestParseGroup(t *testing.T) {
	for _, c := range []struct {
		name, why, text string
		want            ground.Group // "" is refused
	}{
		{"as printed", "the usual way", "GW-GM", ground.GWGM},
		{"as a word of the rules", "lower case, an underscore, blanks", " cl_ml ", ground.CLML},
		{"gravel in the Army's order", "older manuals", "GM-GC", ground.GCGM},
		{"sand in the Army's order", "older manuals, lower case", "sm-sc", ground.SCSM},
		{"silt first", "older manuals", "ML-CL", ground.CLML},
		{"peat", "with a small t, as it is often written", "Pt", ground.PT},
		{"nothing", "is no symbol", "", ""},
		{"borderline", "two groups; the weaker is to be given", "CL/CH", ""},
		{"unknown", "is no symbol", "XX", ""},
		{"half a symbol", "is no symbol", "GW-", ""},
		{"no such pair", "two groups that make no dual symbol", "CL-CH", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.ParseGroup(c.text)
			require.Equal(t, c.want == "", err != nil, "%s: %v", c.why, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
}

func TestGroupsAreOfOneKind(t *testing.T) {
	for _, c := range []struct {
		name, why     string
		group         ground.Group
		fine, organic bool
	}{
		{"gravel", "a single symbol", ground.GW, false, false},
		{"dual sand", "goes by its first symbol", ground.SPSC, false, false},
		{"clay", "fine", ground.CL, true, false},
		{"silty clay", "fine, though its symbol is dual", ground.CLML, true, false},
		{"organic silt", "fine and organic", ground.OL, true, true},
		{"peat", "neither fine nor coarse", ground.PT, false, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			fine, err := ground.IsFineGrained(c.group)
			require.NoError(t, err)
			organic, err := ground.IsOrganic(c.group)
			require.NoError(t, err)
			require.Equal(t, []bool{c.fine, c.organic}, []bool{fine, organic}, c.why)
		})
	}
	for _, g := range ground.Groups() {
		name, err := ground.PlainName(g)
		require.NoError(t, err)
		require.NotEmpty(t, name, "%s", g)
	}
	_, err := ground.IsFineGrained("S?")
	var unknown *calculation.WordError
	require.ErrorAs(t, err, &unknown)
}
