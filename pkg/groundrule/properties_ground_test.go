package groundrule_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/site"
)

var properties = []property{
	rising("lower CBR", "a lower CBR is given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, strengths...), row("soil.cbr", "20", "12", "8", "5.01", "5", "4.99", "3.5", "3", "2.99", "2", "1.99", "1.2", "1", "0.99", "0.6")
	}),
	rising("softer by hand", "a softer hand test is given no less", func(job *site.Site) (*site.Site, []step) {
		if !read(job).fine {
			return job, nil
		}
		return without(job, strengths...), row("soil.consistency", "hard", "very stiff", "stiff", "medium", "soft", "very soft")
	}),
	rising("weaker by penetrometer", "a lower reading of the penetrometer is given no less", func(job *site.Site) (*site.Site, []step) {
		if !read(job).fine {
			return job, nil
		}
		return without(job, strengths...), row("soil.pocket_penetrometer", "4.5 tsf", "300 kPa", "200 kPa", "150 kPa", "90 kPa", "60 kPa", "40 kPa")
	}),
	rising("easier for the cone", "a cone that goes deeper with each blow is given no less", func(job *site.Site) (*site.Site, []step) {
		return with(without(job, strengths...), "soil.dcp.hammer", "8 kg"), row("soil.dcp.mm_per_blow", "5", "10", "15", "18", "19", "25", "35", "50", "70", "110")
	}),
	rising("one lower reading more", "a reading lower than all others is given no less", func(job *site.Site) (*site.Site, []step) {
		if len(job.Soil.CBR) == 0 {
			job = with(without(job, strengths...), "soil.cbr", "9")
		}
		if job.Soil.SoftSpots == "dig_out" {
			job = without(job, "soil.soft_spots") // "a soft spot dug out" has these
		}
		n, low := len(job.Soil.CBR), read(job).readings[0]
		var out []step
		for _, share := range []float64{1, 0.9, 0.6, 0.4, 0.2, 0.05} {
			out = append(out, step{fmt.Sprintf("soil.cbr[%d]", n), strconv.FormatFloat(low*share, 'g', 6, 64)})
		}
		return job, append([]step{{}}, out...)
	}),
	{"a soft spot dug out", "a reading far below the others, where it is dug out and refilled, leaves the section as the others have it", "requirement 1", func(book *groundrule.Book, job *site.Site) string {
		if len(job.Soil.CBR) < 3 || read(job).readings[0] < 0.6*slices.Max(job.Soil.CBR) {
			job = with(without(job, strengths...), each("soil.cbr", []string{"9", "7", "8"})...)
		}
		job = with(job, "soil.soft_spots", "dig_out")
		spot := with(job, fmt.Sprintf("soil.cbr[%d]", len(job.Soil.CBR)), strconv.FormatFloat(0.2*read(job).readings[0], 'g', 6, 64))
		if a, b := come(book, job), come(book, spot); !same(a, b) {
			return fmt.Sprintf("without it: %s\nwith %v: %s", a, spot.Soil.CBR, b)
		}
		return ""
	}},
	rising("weaker class", "a weaker class, untested and without frost, is given no less", func(job *site.Site) (*site.Site, []step) {
		return frostless(untested(job)), row("soil.uscs", "GW", "GP", "SP", "SM", "SC", "CL", "CH")
	}),
	rising("weaker word", "a weaker word, untested and without frost, is given no less", func(job *site.Site) (*site.Site, []step) {
		return frostless(untested(job)), row("soil.word", "gravel", "sand", "silty_sand", "clayey_sand", "sandy_clay", "clay")
	}),
	rising("more fines", "a sand with more fines, without frost, is given no less", func(job *site.Site) (*site.Site, []step) {
		var out []step
		for _, p := range []string{"1", "4.4", "4.6", "5.1", "8", "10", "10.1", "12", "12.4", "12.6", "20", "40", "49", "51", "80", "95"} {
			out = append(out, step{"soil.sieves[0].sieve", "No. 4", "soil.sieves[0].passing", "100", "soil.sieves[1].sieve", "No. 10", "soil.sieves[1].passing", "99",
				"soil.sieves[2].sieve", "No. 40", "soil.sieves[2].passing", "97", "soil.sieves[3].sieve", "No. 200", "soil.sieves[3].passing", p})
		}
		return with(frostless(untested(job)), "soil.nonplastic", "yes"), out
	}),
	rising("softer under a heel", "a heel that goes deeper is given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, "soil.points"), row("soil.boot", "no_mark", "prints", "sinks")
	}),
	rising("softer for the rod", "a rod that goes deeper is given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, "soil.points"), row("soil.probe", "0 in", "3 in", "6 in", "6.1 in", "12 in", "4 ft")
	}),
	rising("tested when dry", "what was tested in the dry season is given no less", func(job *site.Site) (*site.Site, []step) {
		return job, row("soil.tested_in", "wet_season", "dry_season")
	}),
	rising("one softer point", "a point that is softer is given no less", func(job *site.Site) (*site.Site, []step) {
		if !read(job).fine {
			return job, nil
		}
		return with(without(job, strengths...), "soil.consistency", "stiff", "soil.points[0].place", "a"), row("soil.points[0].consistency", "hard", "stiff", "medium", "soft", "very soft")
	}),
	rising("deeper topsoil", "topsoil that goes deeper is given no less", func(job *site.Site) (*site.Site, []step) {
		return job, row("soil.topsoil_depth", "0 in", "6 in", "18 in", "30 in", "6 ft")
	}),
	rising("deeper fill", "fill that goes deeper is given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, "soil.uncontrolled_fill"), row("soil.fill_depth", "0 in", "2 in", "12 in", "24 in", "48 in", "12 ft")
	}),
	rising("known worse", "nobody's fill, organic soil and swelling soil are given no less than what is not", func(job *site.Site) (*site.Site, []step) {
		return job, []step{{"soil.uncontrolled_fill", "no"}, {"soil.uncontrolled_fill", "yes"}}
	}),
	{"fines by a tenth", "a tenth of a percent of fines moves the stone by no more than one step, but at the class limits of ASTM D2487 and of the frost groups", "requirement 2; search A7", func(book *groundrule.Book, job *site.Site) string {
		of := func(p float64) *site.Site {
			return with(untested(job), "soil.nonplastic", "yes", "soil.sieves[0].sieve", "No. 4", "soil.sieves[0].passing", "95", "soil.sieves[1].sieve", "No. 10", "soil.sieves[1].passing", "90",
				"soil.sieves[2].sieve", "No. 40", "soil.sieves[2].passing", "85", "soil.sieves[3].sieve", "No. 200", "soil.sieves[3].passing", fmt.Sprintf("%.4g", p))
		}
		for _, p := range []float64{0, 1, 3.5, 6, 9, 9.9, 10, 10.1, 11, 13, 14, 18, 25, 40, 45, 55, 70, 84} {
			a, b := come(book, of(p)), come(book, of(p+0.1))
			if a.none != b.none || math.Abs(a.stone-b.stone) > 1.01 {
				return fmt.Sprintf("%g %%: %s\n%g %%: %s", p, a, p+0.1, b)
			}
		}
		return ""
	}},
	{"cone and CBR agree", "readings of the cone are what readings of the CBR are", "requirement 1; review A1", func(book *groundrule.Book, job *site.Site) string {
		base := with(without(job, append(strengths, "soil.word", "soil.uscs", "soil.sieves", "soil.liquid_limit", "soil.plastic_limit", "soil.nonplastic", "soil.passing_0_02_mm")...), "soil.uscs", "SM", "soil.dcp.hammer", "8 kg")
		var cone, cbr []string
		for _, mm := range []float64{12, 14, 30} {
			cone = append(cone, fmt.Sprint(mm))
			cbr = append(cbr, strconv.FormatFloat(coneCBR(mm, false), 'g', 17, 64))
		}
		a, b := with(base, each("soil.dcp.mm_per_blow", cone)...), with(with(base, each("soil.cbr", cbr)...), "soil.dcp.hammer", "")
		if x, y := come(book, a), come(book, b); !same(x, y) {
			return fmt.Sprintf("cone %v: %s\nCBR %v: %s", cone, x, cbr, y)
		}
		return ""
	}},
	{"as many of the same", "five readings of one value are one reading, in any order", "requirement 1", func(book *groundrule.Book, job *site.Site) string {
		base := without(job, strengths...)
		for _, v := range []string{"9", "4", "2.5"} {
			one := come(book, with(base, "soil.cbr", v))
			if five := come(book, with(base, each("soil.cbr", []string{v, v, v, v, v, v, v})...)); !same(one, five) {
				return fmt.Sprintf("CBR %s: %s\nseven times: %s", v, one, five)
			}
		}
		up, down := come(book, with(base, each("soil.cbr", []string{"4", "6", "9"})...)), come(book, with(base, each("soil.cbr", []string{"9", "6", "4"})...))
		if !same(up, down) {
			return fmt.Sprintf("4, 6, 9: %s\n9, 6, 4: %s", up, down)
		}
		return ""
	}},
	rising("heavier use", "feet, cars, trucks: the heavier is given no less", func(job *site.Site) (*site.Site, []step) {
		return with(without(job, "traffic", "rain.storage"), "surface_slope", "2 %"), row("use", "foot", "car_driveway", "heavy_driveway")
	}),
	rising("busier use", "a parking lot and a street are given no less than a car driveway", func(job *site.Site) (*site.Site, []step) {
		return with(without(job, "traffic"), "surface_slope", "2 %"), row("use", "car_driveway", "residential_street", "collector_street")
	}),
	rising("heavier wheel", "a heavier wheel is given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, "traffic"), row("traffic.wheel_load", "300 lbf", "1,000 lbf", "2,000 lbf", "3,000 lbf", "4,400 lbf", "4,600 lbf", "6,000 lbf", "9,000 lbf", "12,000 lbf", "15,000 lbf")
	}),
	rising("more trucks", "more trucks are given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, "traffic"), row("traffic.trucks_per_day", "0", "0.01", "0.1", "0.5", "1", "2", "5", "20", "60", "200")
	}),
	rising("more axles", "more axles are given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, "traffic"), row("traffic.esal_over_life", "0", "10", "1,000", "5,000", "20,000", "50,000", "200,000", "700,000", "2,000,000")
	}),
	rising("longer life", "a longer life is given no less", func(job *site.Site) (*site.Site, []step) {
		return with(without(job, "traffic"), "traffic.trucks_per_day", "2"), row("traffic.life", "1 year", "10 years", "20 years", "40 years", "80 years")
	}),
	rising("harder tire", "a harder tire is given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, "traffic"), row("traffic.tire_pressure", "20 psi", "35 psi", "60 psi", "80 psi", "110 psi")
	}),
}

// untested returns a job of whose ground nothing is told.
func untested(job *site.Site) *site.Site { return without(job, "soil") }

func frostless(job *site.Site) *site.Site {
	return with(without(job, "frost"), "frost.frost_free", "yes")
}

// each makes the pairs by which a list gets its values.
func each(path string, texts []string) []string {
	var out []string
	for i, text := range texts {
		out = append(out, fmt.Sprintf("%s[%d]", path, i), text)
	}
	return out
}

func init() { properties = append(properties, weatherProperties...) }
