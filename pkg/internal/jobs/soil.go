package jobs

import (
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// earth is an invented kind of ground: what it is called, and what tests of it
// would read. The readings are demonstration data, chosen to be of the size that
// such ground has; none is a published range.
type earth struct {
	word     string
	cohesive bool
	groups   []ground.Group
	// cbr by its quantiles, in percent.
	cbr []float64
	// passing the sieves of the curve, each from least to most.
	passing [][2]float64
}

var (
	fines  = [][2]float64{{98, 100}, {95, 98}, {85, 95}, {58, 84}}
	siltyS = [][2]float64{{92, 100}, {80, 91}, {45, 70}, {15, 42}}
	cleanS = [][2]float64{{90, 100}, {72, 88}, {25, 50}, {1, 11}}
	stones = [][2]float64{{35, 48}, {25, 34}, {12, 22}, {1, 11}}
)

var earths = []share[earth]{
	{23, earth{"clay", true, []ground.Group{ground.CH, ground.CL}, []float64{1.2, 2.2, 3, 3.8, 5, 8}, fines}},
	{18, earth{"sandy_clay", true, []ground.Group{ground.CL, ground.SC}, []float64{2, 3.5, 5, 6.5, 9, 15}, fines}},
	{8, earth{"silt", true, []ground.Group{ground.ML, ground.CLML, ground.MH}, []float64{1.5, 2.5, 4, 5.5, 8, 14}, fines}},
	{13, earth{"loam", true, []ground.Group{ground.ML, ground.CL, ground.CLML}, []float64{2, 3.5, 5, 7, 9, 14}, fines}},
	{12, earth{"silty_sand", false, []ground.Group{ground.SM, ground.SCSM}, []float64{5, 9, 12, 16, 20, 32}, siltyS}},
	{8, earth{"clayey_sand", false, []ground.Group{ground.SC, ground.SCSM}, []float64{4, 6, 9, 11, 14, 20}, siltyS}},
	{7, earth{"sand", false, []ground.Group{ground.SP, ground.SW, ground.SPSM}, []float64{8, 11, 14, 18, 24, 38}, cleanS}},
	{4, earth{"gravel", false, []ground.Group{ground.GP, ground.GW, ground.GPGM, ground.GM}, []float64{20, 28, 36, 45, 55, 75}, stones}},
	{2, earth{"fill", true, []ground.Group{ground.CL, ground.SC}, []float64{1, 2, 4, 6, 9, 15}, siltyS}},
	{0.8, earth{"topsoil", true, []ground.Group{ground.OL}, []float64{0.8, 1.5, 2.5, 4}, fines}},
	{0.3, earth{"peat", true, []ground.Group{ground.PT}, []float64{0.2, 0.5, 1}, fines}},
	{1, earth{word: "rock"}},
	{2, earth{word: "unknown"}},
	{2, earth{}},
}

// soils are the words of [earths].
var soils = func() (out []share[string]) {
	for _, e := range earths {
		out = append(out, share[string]{e.percent, e.what.word})
	}
	return out
}()

// soil draws the ground, what it was called, and the few tests of it.
func soil(d draw, g *site.Subgrade) {
	e := pick(d, earths)
	if !d.chance(3) {
		g.Word = e.word
	}
	if e.cbr == nil {
		return
	}
	cbr := d.among(e.cbr...)
	if e.cohesive && d.chance(58) {
		g.Consistency = site.Consistency(handTest(d, cbr))
	}
	strength(d, g, cbr, e.cohesive)
	if d.chance(14) {
		laboratory(d, g, e)
	}
	if d.chance(3) {
		g.UncontrolledFill = new(d.chance(50))
	}
	if e.word == "clay" && d.chance(7) {
		g.Expansive = new(d.chance(50))
	}
	if e.word == "topsoil" && d.chance(50) {
		g.Organic = new(true)
	}
}

// handTest goes with the strength, roughly.
func handTest(d draw, cbr float64) ground.Consistency {
	cbr *= d.between(0.7, 1.4)
	switch {
	case cbr < 0.45:
		return ground.VerySoft
	case cbr < 1.2:
		return ground.Soft
	case cbr < 3.2:
		return ground.Medium
	case cbr < 7:
		return ground.Stiff
	case cbr < 13:
		return ground.VeryStiff
	}
	return ground.Hard
}

// strength draws the tests of strength that few jobs have.
func strength(d draw, g *site.Subgrade, cbr float64, cohesive bool) {
	near := func() float64 { return max(0.1, tenths(cbr*d.between(0.75, 1.35))) }
	switch {
	case d.chance(11):
		for range 1 + d.IntN(5) {
			g.CBR = append(g.CBR, near())
		}
	case d.chance(7):
		g.DCP.Hammer = site.Hammer(oneOf(d, ground.Hammer8kg, ground.Hammer8kg, ground.Hammer46kg))
		for range 3 + d.IntN(5) {
			g.DCP.Readings = append(g.DCP.Readings, site.Blows{Count: oneOf(d, 1, 2, 3, 5),
				Penetration: quantity.Millimeters(stepped(min(180, max(6, 260/(cbr+1)))*d.between(0.8, 1.3), 1))})
		}
	case cohesive && d.chance(7):
		g.PocketPenetrometer = new(quantity.Kilopascals(stepped(min(430, max(25, cbr*60*d.between(0.8, 1.2))), 5)))
	case cohesive && d.chance(2):
		g.UndrainedStrength = new(quantity.Kilopascals(stepped(cbr*30*d.between(0.8, 1.2), 5)))
	}
}

// curveSieves are those that the curves of [earth] are given on.
var curveSieves = []quantity.Length{quantity.Millimeters(4.75), quantity.Millimeters(2), quantity.Millimeters(0.425), quantity.Millimeters(0.075)}

// laboratory draws a report: the symbol, for some the limits, for some a sieve
// curve.
func laboratory(d draw, g *site.Subgrade, e earth) {
	group := oneOf(d, e.groups...)
	if d.chance(80) {
		g.Group = site.Group(group)
	}
	limits(d, g, group)
	if !d.chance(45) {
		return
	}
	if e.word == "gravel" {
		g.Sieves = append(g.Sieves, site.Sieve{Opening: quantity.Millimeters(19), Passing: quantity.Percent(stepped(d.between(70, 95), 1))})
	}
	for i, opening := range curveSieves {
		g.Sieves = append(g.Sieves, site.Sieve{Opening: opening, Passing: quantity.Percent(stepped(d.between(e.passing[i][0], e.passing[i][1]), 1))})
	}
	if finest := g.Sieves[len(g.Sieves)-1].Passing; d.chance(40) {
		g.Passing002 = new(quantity.Percent(float64(int(finest.Percent() * d.between(0.2, 0.8)))))
	}
}

// limits draws Atterberg limits that go with the symbol, on the right side of
// the A-line.
func limits(d draw, g *site.Subgrade, group ground.Group) {
	var liquid, index float64
	aLine := func() float64 { return float64(0.73 * (liquid - 20)) }
	switch group {
	case ground.CL, ground.SC:
		liquid = stepped(d.between(28, 48), 1)
		index = max(8, aLine()+d.between(1, 5))
	case ground.CH:
		liquid = stepped(d.between(51, 78), 1)
		index = aLine() + d.between(1, 7)
	case ground.CLML, ground.SCSM:
		liquid = stepped(d.between(18, 26), 1)
		index = d.between(5, 7)
	case ground.ML:
		liquid = stepped(d.between(26, 46), 1)
		index = max(1, aLine()-d.between(3, 8))
	case ground.MH:
		liquid = stepped(d.between(51, 66), 1)
		index = aLine() - d.between(3, 9)
	case ground.SM, ground.GM, ground.SPSM, ground.GPGM:
		g.Nonplastic = new(true)
		return
	default:
		return
	}
	g.LiquidLimit = new(liquid)
	g.PlasticLimit = new(liquid - stepped(index, 1))
}
