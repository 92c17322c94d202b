package groundrule_test

import (
	"math"
	"slices"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// evidence is what the oracle makes of the ground of a job. Every strength here
// is the most that the evidence can honestly be taken for, so that whatever
// claims more is wrong by any of the published readings.
type evidence struct {
	// least is the least that any test of strength reads, +Inf without one.
	least float64
	// readings are the measured CBR, or those that the cone gives, ascending.
	readings []float64
	// hand is the most that the hand test allows, +Inf without one; beside is that
	// without what reads as hard, the band that has no upper edge.
	hand, beside float64
	// tested reports whether strength was measured, by the hand test too.
	tested bool
	// class is the USCS symbol that was told or that the word stands for, "" for
	// none; sieve is "fine" or "coarse" where a sieve tells, and fines the percent
	// that passes No. 200, NaN where it is not known.
	class string
	sieve string
	fines float64
	// fine reports whether the soil is told to be a clay or a silt.
	fine, organic, fill, swells, wet, cone bool
	// index is the plasticity index, NaN where it is not known.
	index float64
}

// handMost is the upper edge of each band of undrained strength over 23 kPa for
// each percent, the greater of the two CBR that are published for it: bands of
// TM 5-818-1 (seen), divisor of LR 889 (relayed). facts, 2.
var handMost = map[site.Consistency]float64{"very soft": 12.5 / 23, "soft": 25.0 / 23, "medium": 50.0 / 23, "stiff": 100.0 / 23, "very stiff": 200.0 / 23}

// untestedMost is the most that an untested soil of a class is taken for where it
// drains well: Look, Table 13.9 (relayed), and CBR 20 for any subgrade that is not
// proved to meet the limits of a subbase, UFC 3-260-02 ch. 6 (seen). facts, 1 and 2.
var untestedMost = map[string]float64{
	"GW": 20, "GP": 20, "GM": 15, "GC": 15, "SW": 15, "SP": 15, "SM": 10, "SC": 10,
	"ML": 7, "CL-ML": 7, "CL": 5, "CH": 5, "MH": 5,
}

// wordClass is the strongest class that a plain word can stand for.
var wordClass = map[string]string{
	"gravel": "GW", "sand": "SW", "silty_sand": "SM", "clayey_sand": "SC",
	"silt": "ML", "loam": "ML", "sandy_clay": "CL", "clay": "CL",
}

// coneCBR is the general curve of D6951 (from memory, high), which every curve for
// a clay lies below but that for CH. facts on ground, 3.1.
func coneCBR(mm float64, fat bool) float64 {
	if fat {
		return 1 / (0.002871 * mm)
	}
	return 292 / math.Pow(mm, 1.12)
}

func inputOf(j *site.Site, path string) float64 {
	x, given := j.Input(path)
	if !given {
		return math.NaN()
	}
	switch v := x.(type) {
	case float64:
		return v
	case quantity.Share:
		return v.Percent()
	}
	return math.NaN()
}

func yes(b *bool) bool { return b != nil && *b }

func read(j *site.Site) evidence {
	g := j.Soil
	e := evidence{hand: math.Inf(1), beside: math.Inf(1), least: math.Inf(1), fines: inputOf(j, "soil.passing_no200"), index: inputOf(j, "soil.plasticity_index")}
	e.class = string(g.Group)
	if e.class == "" {
		e.class = wordClass[g.Word]
	}
	switch {
	case e.fines >= 50:
		e.sieve = "fine"
	case e.fines < 50:
		e.sieve = "coarse"
	}
	symbol := strings.HasPrefix(e.class, "C") || strings.HasPrefix(e.class, "M") || strings.HasPrefix(e.class, "O")
	e.fine = e.sieve == "fine" || e.sieve == "" && symbol
	e.organic = yes(g.Organic) || g.Word == "peat" || slices.Contains([]site.Group{"OL", "OH", "PT"}, g.Group)
	e.fill = yes(g.UncontrolledFill) || g.Word == "fill"
	e.swells = yes(g.Expansive)
	e.wet = yes(j.Water.WetGround)
	e.strengths(j)
	return e
}

func (e *evidence) strengths(j *site.Site) {
	g := j.Soil
	e.readings = append(e.readings, g.CBR...)
	factor := 1.0
	if g.DCP.Hammer == "4.6 kg" {
		factor = 2
	}
	if cone, given := j.Input("soil.penetration_index"); given {
		e.cone = len(g.CBR) == 0
		for _, mm := range cone.([]float64) {
			e.readings = append(e.readings, coneCBR(mm*factor, g.Group == "CH"))
		}
	}
	if g.UndrainedStrength != nil {
		e.pressed(2 * g.UndrainedStrength.Kilopascals())
	}
	hard := false
	// What was found at one of several points counts as what was found of the whole.
	for _, p := range append(slices.Clone(g.Points), site.Point{Consistency: g.Consistency, PocketPenetrometer: g.PocketPenetrometer}) {
		if most, told := handMost[p.Consistency]; told {
			e.hand, e.beside = min(e.hand, most), min(e.beside, most)
		}
		if p.PocketPenetrometer != nil {
			e.pressed(p.PocketPenetrometer.Kilopascals())
		}
		if p.CBR != nil {
			e.readings = append(e.readings, *p.CBR)
		}
		hard = hard || p.Consistency == "hard"
	}
	slices.Sort(e.readings)
	e.least = e.hand
	if len(e.readings) > 0 {
		e.least = min(e.least, e.readings[0])
	}
	e.tested = !math.IsInf(e.least, 1) || hard
}

// hardFrom is the low edge of the band of hard clay, in kPa unconfined: 4 tsf by
// TM 5-818-1, Table 2-2 (seen).
const hardFrom = 4 * 95.7605

// pressed counts an unconfined strength in kPa, of which 46 are a point of CBR.
func (e *evidence) pressed(kilopascals float64) {
	e.hand = min(e.hand, kilopascals/46)
	if kilopascals < hardFrom {
		e.beside = min(e.beside, kilopascals/46)
	}
}

// lowest is the least that a reading may stand for. For the cone that is the curve for lean
// clay where it gives less than CBR 10 (D6951, from memory, high).
func (e *evidence) lowest(reading float64) float64 {
	if !e.cone {
		return reading
	}
	mm := math.Pow(292/reading, 1/1.12)
	if lean := 1 / math.Pow(0.017019*mm, 2); lean < 10 {
		return min(reading, lean)
	}
	return reading
}

// farBelow reports whether a reading is that of a soft spot.
func (e *evidence) farBelow(reading, middle float64) bool {
	return e.lowest(reading) <= 0.5*e.lowest(middle)
}

// most is the greatest CBR that a section may be designed for, with the reason.
// Without the soft spots that the section says to dig out, the rest counts.
func (e *evidence) most(dugOut bool) (float64, string) {
	readings := e.readings
	if dugOut && len(readings) > 1 {
		middle := readings[len(readings)/2]
		for len(readings) > 1 && e.farBelow(readings[0], middle) {
			readings = readings[1:]
		}
	}
	limit, why := math.Inf(1), "nothing limits it"
	lower := func(x float64, reason string) {
		if x < limit {
			limit, why = x, reason
		}
	}
	switch n := len(readings); {
	case n == 0:
	case n < 6:
		lower(readings[0], "the least of fewer than six readings counts")
	default:
		lower(readings[int(math.Ceil(0.4*float64(n-1)))], "60 % of the readings or more are equal or greater")
	}
	if len(e.readings) > 0 {
		lower(2*e.beside, "a reading twice what the hand test allows contradicts it")
	} else {
		lower(e.hand, "the hand test allows no more")
	}
	if !e.tested { // a hard soil was tested by hand, and nothing bounds it
		e.untested(lower)
	}
	return limit, why
}

func (e *evidence) untested(lower func(float64, string)) {
	if cap, known := untestedMost[e.class]; known && e.sieve == "" {
		lower(cap, "an untested "+e.class+" is taken for no more")
	}
	if e.sieve == "fine" {
		lower(untestedMost["ML"], "half of it and more passes No. 200, so it is a clay or a silt")
		if e.index > 7 {
			lower(untestedMost["CL"], "it is a clay by its sieve and its limits")
		}
	}
	if e.fines > 12 && e.sieve == "coarse" {
		lower(untestedMost["GM"], "more than 12 % passes No. 200, so it is not clean")
	}
	if e.fill {
		lower(2, "nobody vouches for the fill, so its class lends it no strength")
	}
}
