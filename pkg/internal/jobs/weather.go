package jobs

import (
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// climate is an invented climate: how cold its winters are.
type climate struct {
	frost       float64 // of all jobs there, percent that are known to be free of frost; 0 where it freezes
	depth       [2]float64
	index       [2]float64 // F-days
	temperature [2]float64 // F
	season      [2]float64 // days
	place       string
}

var climates = []share[climate]{
	{18, climate{place: "Palmetto Reach", frost: 80}},
	{30, climate{place: "Marlow Valley", depth: [2]float64{8, 20}, index: [2]float64{20, 250}, temperature: [2]float64{55, 60}, season: [2]float64{15, 45}}},
	{34, climate{place: "Tamarack Bend", depth: [2]float64{30, 44}, index: [2]float64{400, 1200}, temperature: [2]float64{46, 52}, season: [2]float64{70, 110}}},
	{15, climate{place: "Iron Portage", depth: [2]float64{48, 72}, index: [2]float64{1500, 2600}, temperature: [2]float64{38, 44}, season: [2]float64{115, 150}}},
	{0.4, climate{place: "Far Muskeg", depth: [2]float64{90, 120}, index: [2]float64{4000, 6500}, temperature: [2]float64{27, 33}, season: [2]float64{190, 220}}},
}

// winter draws the climate, and how much of it is told.
func winter(d draw, s *site.Site) {
	c := pick(d, climates)
	s.Place = c.place
	f := &s.Frost
	if c.frost > 0 {
		if d.chance(c.frost) {
			f.FrostFree = new(true)
		}
		return
	}
	if d.chance(62) {
		f.Depth = inches(d.between(c.depth[0], c.depth[1]), 2)
	}
	if d.chance(20) {
		f.FreezingIndex = new(quantity.FahrenheitDays(stepped(d.between(c.index[0], c.index[1]), 10)))
		if d.chance(60) {
			f.MeanAnnualTemperature = new(quantity.Fahrenheit(stepped(d.between(c.temperature[0], c.temperature[1]), 1)))
			f.FreezingSeason = new(quantity.Days(stepped(d.between(c.season[0], c.season[1]), 5)))
		}
	}
}

// water draws what is known of groundwater and of ground that stays wet.
func water(d draw, s *site.Site) {
	if d.chance(14) {
		s.Water.GroundwaterDepth = new(quantity.Feet(stepped(d.among(1.5, 4, 6, 9, 14, 25), 0.5)))
	}
	if d.chance(25) {
		s.Water.WetGround = new(d.chance(35))
	}
}

// rain draws the storage of open-graded jobs; now and then someone wants it of
// a base that holds none.
func rain(d draw, s *site.Site) {
	r := &s.Rain
	if s.Base != "open" {
		if d.chance(0.4) {
			r.StorageWanted = new(true)
		}
		return
	}
	if !d.chance(55) {
		r.StorageWanted = new(false)
		return
	}
	r.StorageWanted = new(true)
	if d.chance(97) {
		r.Depth = new(quantity.Inches(stepped(d.among(0.5, 1, 1.2, 1.5, 2, 3, 4.5), 0.1)))
	}
	if d.chance(70) {
		r.InfiltrationRate = new(quantity.InchesPerHour(stepped(d.among(0.02, 0.1, 0.25, 0.5, 0.9, 2, 6), 0.02)))
	}
	if d.chance(25) {
		r.RunOnArea = new(quantity.SquareFeet(stepped(s.Area.SquareFeet()*d.between(0.1, 1.4), 10)))
	}
	if d.chance(25) {
		r.DrainTimeLimit = new(quantity.Hours(oneOf(d, 24.0, 48, 72)))
	}
	if d.chance(60) {
		s.Water.GroundwaterDepth = new(quantity.Feet(stepped(d.between(3, 25), 0.5)))
	}
	if d.chance(50) {
		s.Nearby.WellDistance = feet(d.among(60, 110, 150, 300, 900), 10)
	}
	if d.chance(60) {
		s.Nearby.FoundationDistance = feet(d.among(6, 11, 14, 20, 60), 1)
	}
}
