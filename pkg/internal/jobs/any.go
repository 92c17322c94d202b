package jobs

import (
	"math"
	"math/rand/v2"
	"slices"

	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// The sizes between which package site takes a value that is not 0.
const (
	smallest = 1e-100
	largest  = 1e100
)

// Any draws a site from everything that a job file can say: every word, every
// entry told or left out, and values from the smallest that validate to the
// largest, mostly of the size that they have in the world. Every site validates;
// few make sense. It is for tests: of whatever a rulebook does with such a site,
// a panic, a value that is no number or an answer without a reason is never
// right.
//
// Overrides name decisions of a rulebook, which this package does not know; they
// are left out.
func Any(rng *rand.Rand) *site.Site {
	d := wild{draw{rng}, oneOf(draw{rng}, 5.0, 20, 50, 85)}
	s := &site.Site{
		Job:  oneOf(d.draw, "", "job of any kind", "größte: \"7\" {x}\n# tag", "000123"),
		Use:  anyWord[site.Use](d),
		Base: anyWord[site.Base](d),
		Area: quantity.Area(d.above(1, 1e5)),
	}
	maybe(d, &s.Client, func() string { return oneOf(d.draw, "C", "null", "- a") })
	maybe(d, &s.Place, func() string { return oneOf(d.draw, "Ö", "yes", "a, b") })
	maybe(d, &s.Note, func() string { return oneOf(d.draw, "n", "1e3", "{}") })
	maybe(d, &s.Compactor, func() string {
		return oneOf(d.draw, "hand_tamper", "plate_compactor", "reversible_plate", "trench_roller", "ride_on_roller", "a mule")
	})
	around := 2 * math.Sqrt(math.Pi*float64(s.Area))
	ask(d, &s.Perimeter, func() quantity.Length { return quantity.Length(min(largest, around*d.between(1, 20))) })
	anyTraffic(d, &s.Traffic)
	anySoil(d, &s.Soil)
	anyWater(d, s)
	ask(d, &s.SurfaceSlope, func() quantity.Share { return quantity.Share(d.within(0, 0.5)) })
	ask(d, &s.Paver.Thickness, func() quantity.Length { return quantity.Length(d.above(0.03, 0.2)) })
	ask(d, &s.Paver.Herringbone, d.coin)
	ask(d, &s.Nearby.Utilities, d.coin)
	ask(d, &s.Nearby.WellDistance, func() quantity.Length { return quantity.Length(d.zeroUp(1, 500)) })
	ask(d, &s.Nearby.FoundationDistance, func() quantity.Length { return quantity.Length(d.zeroUp(0.1, 100)) })
	return s
}

// wild draws without regard to what is likely. told is the percent of entries
// that this job tells.
type wild struct {
	draw
	told float64
}

func (d wild) coin() bool { return d.chance(50) }

// above draws a value above zero, mostly between usual sizes, each size as
// likely as another; at times the smallest or largest that validates.
func (d wild) above(usualLeast, usualMost float64) float64 {
	switch {
	case d.chance(1):
		return smallest
	case d.chance(1):
		return largest
	case d.chance(4):
		return min(largest, max(smallest, math.Ldexp(1+d.Float64(), d.IntN(660)-330)))
	}
	_, low := math.Frexp(usualLeast)
	_, high := math.Frexp(usualMost)
	return math.Ldexp(0.5+d.Float64()/2, low+d.IntN(high-low+1))
}

// zeroUp is above, or zero.
func (d wild) zeroUp(usualLeast, usualMost float64) float64 {
	if d.chance(8) {
		return 0
	}
	return d.above(usualLeast, usualMost)
}

// within draws a value of a closed range, at times one of its ends.
func (d wild) within(least, most float64) float64 {
	switch {
	case d.chance(6):
		return least
	case d.chance(6):
		return most
	}
	x := d.between(least, most)
	if math.Abs(x) < smallest {
		return 0
	}
	return x
}

// share draws a share up to a greatest one.
func (d wild) share(most quantity.Share) quantity.Share {
	return quantity.Share(d.within(0, float64(most)))
}

// ask tells an entry for some jobs.
func ask[T any](d wild, at **T, value func() T) {
	if d.chance(d.told) {
		*at = told(value())
	}
}

func maybe[T any](d wild, at *T, value func() T) {
	if d.chance(d.told) {
		*at = value()
	}
}

// anyWord draws any word of a vocabulary.
func anyWord[W interface {
	~string
	value.Worded
}](d wild) W {
	var none W
	return W(oneOf(d.draw, none.Vocabulary().Words...).GoValue())
}

func anyTraffic(d wild, t *site.Traffic) {
	count := func() float64 { return d.zeroUp(0.05, 20) }
	lots := func() float64 { return d.zeroUp(10, 2e6) }
	if d.coin() {
		ask(d, &t.TrucksPerDay, count)
	} else {
		ask(d, &t.TrucksOverLife, lots)
	}
	if d.coin() {
		ask(d, &t.ESALPerDay, count)
	} else {
		ask(d, &t.ESALOverLife, lots)
	}
	ask(d, &t.Life, func() quantity.Time { return quantity.Time(d.above(3e7, 3e9)) })
	ask(d, &t.WheelLoad, func() quantity.Force { return quantity.Force(d.above(100, 1e5)) })
	ask(d, &t.TirePressure, func() quantity.Pressure { return quantity.Pressure(d.above(5e4, 1e6)) })
}

func anyWater(d wild, s *site.Site) {
	depth := func() quantity.Length { return quantity.Length(d.zeroUp(0.05, 5)) }
	ask(d, &s.Water.GroundwaterDepth, depth)
	ask(d, &s.Water.WetGround, d.coin)
	f := &s.Frost
	ask(d, &f.FrostFree, d.coin)
	if free := f.FrostFree; free == nil || !*free {
		ask(d, &f.FreezingIndex, func() quantity.FreezingIndex { return quantity.FreezingIndex(d.zeroUp(1e5, 5e8)) })
		ask(d, &f.Depth, depth)
	} else {
		ask(d, &f.FreezingIndex, func() quantity.FreezingIndex { return 0 })
		ask(d, &f.Depth, func() quantity.Length { return 0 })
	}
	ask(d, &f.MeanAnnualTemperature, func() quantity.Temperature { return quantity.Temperature(d.within(-60, 40)) })
	ask(d, &f.FreezingSeason, func() quantity.Time { return quantity.Time(d.within(0, 366*86400)) })
	r := &s.Rain
	ask(d, &r.StorageWanted, d.coin)
	ask(d, &r.Depth, func() quantity.Length { return quantity.Length(d.zeroUp(0.005, 0.2)) })
	ask(d, &r.RunOnArea, func() quantity.Area { return quantity.Area(d.zeroUp(1, 1e4)) })
	ask(d, &r.InfiltrationRate, func() quantity.Rate { return quantity.Rate(d.zeroUp(1e-8, 1e-4)) })
	ask(d, &r.DrainTimeLimit, func() quantity.Time { return quantity.Time(d.above(3600, 5e5)) })
}

func anySoil(d wild, g *site.Subgrade) {
	maybe(d, &g.Word, func() site.Soil { return anyWord[site.Soil](d) })
	maybe(d, &g.Consistency, func() ground.Consistency { return anyWord[ground.Consistency](d) })
	maybe(d, &g.Group, func() ground.Group { return anyWord[ground.Group](d) })
	maybe(d, &g.CBR, func() []float64 { return d.many(func() float64 { return d.within(0, oneOf(d.draw, 3.0, 20, 200)) }) })
	maybe(d, &g.DCP.Hammer, func() ground.DCPHammer { return anyWord[ground.DCPHammer](d) })
	if d.coin() {
		maybe(d, &g.DCP.MMPerBlow, func() []float64 { return d.many(func() float64 { return d.above(1, 200) }) })
	} else if d.chance(d.told) {
		for range 1 + d.IntN(4) {
			g.DCP.Readings = append(g.DCP.Readings, site.Blows{Count: oneOf(d.draw, 1, 3, 1_000_000), Penetration: quantity.Length(d.above(0.002, 0.2))})
		}
	}
	ask(d, &g.UndrainedStrength, func() quantity.Pressure { return quantity.Pressure(d.zeroUp(2e3, 3e5)) })
	ask(d, &g.PocketPenetrometer, func() quantity.Pressure { return quantity.Pressure(d.zeroUp(4e3, 6e5)) })
	anyCurve(d, g)
	anyLimits(d, g)
	organic := g.Word == site.Peat || slices.Contains([]ground.Group{ground.OL, ground.OH, ground.PT}, g.Group)
	ask(d, &g.Organic, func() bool { return organic || d.coin() })
	ask(d, &g.UncontrolledFill, d.coin)
	ask(d, &g.Expansive, d.coin)
}

func (d wild) many(one func() float64) []float64 {
	out := make([]float64, 1+d.IntN(6))
	for i := range out {
		out[i] = one()
	}
	return out
}

// anyCurve draws a sieve curve that falls, from sieves in any order.
func anyCurve(d wild, g *site.Subgrade) {
	mm := []float64{75, 37.5, 19, 9.5, 4.75, 2, 0.425, 0.15, 0.075, 0.02, 0.005}
	passing := d.share(1)
	if d.coin() {
		passing = 1
	}
	if d.chance(d.told) {
		dense := d.coin()
		for _, size := range mm {
			if (dense || d.coin()) && size != 0.02 {
				g.Sieves = append(g.Sieves, site.Sieve{Opening: quantity.Millimeters(size), Passing: passing})
			}
			if size == 0.02 {
				ask(d, &g.Passing002, func() quantity.Share { return passing })
			}
			if !d.chance(15) {
				passing = d.share(passing)
			}
		}
		d.Shuffle(len(g.Sieves), func(i, j int) { g.Sieves[i], g.Sieves[j] = g.Sieves[j], g.Sieves[i] })
		return
	}
	ask(d, &g.Passing002, func() quantity.Share { return d.share(1) })
}

func anyLimits(d wild, g *site.Subgrade) {
	ask(d, &g.Nonplastic, d.coin)
	ask(d, &g.LiquidLimitOvenDried, func() float64 { return d.zeroUp(4, 100) })
	if np := g.Nonplastic; np != nil && *np {
		return
	}
	ask(d, &g.LiquidLimit, func() float64 { return d.zeroUp(8, 150) })
	ask(d, &g.PlasticLimit, func() float64 {
		if g.LiquidLimit != nil {
			return d.within(0, *g.LiquidLimit)
		}
		return d.zeroUp(4, 60)
	})
}
