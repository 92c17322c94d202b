package groundrule_test

import (
	"errors"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/amounts"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// ordered is how many whole units package takeoff orders of an amount.
func ordered(amount, step value.Value) (float64, error) {
	t, err := takeoff.Of(&section.Section{Status: section.Designed, Quantities: []section.Quantity{
		{ID: "Q", Item: value.Text("it"), Amount: amount, Step: step, CountedIn: "load"}}})
	if err != nil {
		return 0, err
	}
	return float64(t.Orders[0].Units), nil
}

// ordering are the functions by which published rows order through package takeoff.
func ordering() []calculation.Function {
	volume := func(amount, step quantity.Volume) (float64, error) {
		return ordered(value.Measured(amount), value.Measured(step))
	}
	function := func(name string, does any, params ...string) calculation.Function {
		f := calculation.Function{Name: name, About: "What is ordered.", Result: calculation.Param{Name: "units", About: "whole units"},
			Sources: []value.Source{{ID: "arithmetic", Known: value.Computed}}, Go: does}
		for _, name := range params {
			f.Params = append(f.Params, calculation.Param{Name: name, About: name})
		}
		return f
	}
	return []calculation.Function{
		function("ordered_by_volume", volume, "amount", "step"),
		function("ordered_by_mass", func(amount, step quantity.Mass) (float64, error) {
			return ordered(value.Measured(amount), value.Measured(step))
		}, "amount", "step"),
		function("loads_of_fill", func(fill quantity.Volume, shrink, swell quantity.Share, body quantity.Volume) (float64, error) {
			bank, err := amounts.BankVolume(fill, shrink)
			if err != nil {
				return 0, err
			}
			loose, err := amounts.LooseVolume(bank, swell)
			if err != nil {
				return 0, err
			}
			return volume(loose, body)
		}, "fill", "shrink", "swell", "body"),
	}
}

// priceAddsUp tells of which sums of a price do not add up to the cent, and whether
// anything that is ordered has neither a line nor stands among what is missing.
func priceAddsUp(prices *takeoff.Prices, s *section.Section) (faults []string) {
	off, err := takeoff.Of(s)
	if err != nil {
		return []string{err.Error()}
	}
	day, err := rulebook.ParseDate("2026-06-01")
	if err != nil {
		return []string{err.Error()}
	}
	c, err := prices.Cost(off, day)
	if err != nil {
		return []string{err.Error()}
	}
	hold := func(what string, want takeoff.Money, sums []takeoff.CostSum) {
		for _, each := range sums {
			want -= each.Amount
		}
		if want != 0 {
			faults = append(faults, fmt.Sprintf("%s: %s too little", what, want))
		}
	}
	hold("kinds", c.Direct, c.Kinds)
	hold("courses", c.Direct, c.Courses)
	hold("areas", c.Direct, c.Areas)
	hold("price", c.Price, []takeoff.CostSum{{Amount: c.Direct}, {Amount: c.Overhead}, {Amount: c.Profit}})
	for _, l := range c.Lines {
		hold(l.Item, l.Amount, l.Parts)
	}
	if met := len(c.Lines) + len(c.Missing); met < len(off.Orders) {
		faults = append(faults, fmt.Sprintf("%d orders, and %d lines and things that are missing", len(off.Orders), met))
	}
	return faults
}

// TestTakeoffs holds over generated jobs what a take-off owes. GROUNDRULE_MANY=1
// tries 5,000.
func TestTakeoffs(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	var all []*site.Site
	for job := range jobs.Generate(book.Table(), many(5000, 40), 123) {
		if len(job.Areas) == 0 {
			all = append(all, job)
		}
	}
	list, err := os.ReadFile("../../examples/wrenfold/prices/2026.yaml")
	require.NoError(t, err)
	prices, err := takeoff.ReadPrices("2026.yaml", list)
	require.NoError(t, err)
	faults, sections := make([][]string, len(all)), make([]*section.Section, len(all))
	inParallel(4, len(all), func(i int) {
		if sections[i], faults[i] = taken(book, all[i]); sections[i] == nil {
			return
		}
		faults[i] = slices.Concat(faults[i], ordersCover(sections[i]), addsUp(sections[i]), priceAddsUp(prices, sections[i]), moreOrdersNoLess(book, all[i], sections[i]), knownEdgesCostNoMore(book, all[i], sections[i]))
	})
	designed := slices.DeleteFunc(slices.Clone(sections), func(s *section.Section) bool { return s == nil })
	for i, found := range faults {
		require.Empty(t, found, asFile(all[i]))
	}
	require.Greater(t, len(designed), len(all)/3, "most jobs are built")
	for i := 0; i+2 < len(designed); i += 3 {
		require.Empty(t, areasAddUp(designed[i:i+3]))
	}
	_, err = takeoff.Of(&section.Section{Status: section.Stopped})
	require.ErrorIs(t, err, takeoff.ErrNone, "what is not to be built is not bought")
}

// TestAreasShareTheirEdge holds that nothing is dug or edged twice where two areas
// of a job meet, and that their orders are one.
func TestAreasShareTheirEdge(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	const text = `{job: Two, soil: {uscs: SC, cbr: [9]}, use: foot, base: dense, surface_slope: 2 %, areas: [
{name: patio, shape: {length: 20 ft, width: 15 ft}, edges: [{joins: walk, side: 2}]}, {name: walk, shape: {length: 30 ft, width: 15 ft}}]}`
	job, err := site.Read("job.yaml", []byte(text))
	require.NoError(t, err)
	all, err := book.Areas(job, section.Takeoff)
	require.NoError(t, err)
	two, err := takeoff.Of(all.Sections...)
	require.NoError(t, err)
	require.Equal(t, "Two", two.Job)
	require.Equal(t, []string{"patio", "walk"}, two.Areas)
	got := map[string]string{}
	for _, o := range two.Orders {
		got[o.Item.String()] = fmt.Sprintf("%s, %d", o.Amount, o.Units)
	}
	const edge = "130 ft, 0" // 70 and 90 ft around, less 15 ft of each
	require.Equal(t, edge, got["setting the edge"])
	for _, s := range all.Sections {
		require.Equal(t, section.Designed, s.Status)
	}
	// 16 x 21 and 16 x 31 ft of dig, less 15/70 and 15/90 of the strips of 36 and 46 sq ft
	// around the pavers: 816.6 sq ft, 9.375 in deep, where one paving of 50 by 15 ft is dug
	// over 816 sq ft; of it 6 in are stone, at 140 pcf and with 5 % lost.
	require.Equal(t, "23.63 cu yd, 0", got["digging"])
	require.Equal(t, "30.01 tons, 31", got["Dense-graded crushed stone base (ASTM D2940)"])
}

// taken designs a job with its quantities; nil for one that is refused or stopped.
func taken(book *groundrule.Book, job *site.Site) (*section.Section, []string) {
	d, err := book.Design(job)
	var refused *groundrule.Refused
	switch {
	case errors.As(err, &refused):
		if refused.Section.Quantities != nil {
			return nil, []string{"quantities of what is not to be built"}
		}
		return nil, nil
	case err != nil:
		return nil, []string{err.Error()}
	}
	s, err := d.Section(section.Takeoff)
	if err != nil {
		return nil, []string{err.Error()}
	}
	if depth, _ := d.Answer("section_depth"); !depth.Equal(s.Depth) {
		return s, []string{fmt.Sprintf("the dig is counted %s deep, and the courses go %s deep", depth, s.Depth)}
	}
	return s, nil
}

// ordersCover lists what is ordered in too few units or in too many, or has no reason.
func ordersCover(s *section.Section) (faults []string) {
	for _, q := range s.Quantities {
		if q.Because.US == "" || s.Source(q.Source).Text == "" || q.Place.File == "" || q.About.US == "" {
			faults = append(faults, q.ID+" is not accounted for")
		}
	}
	t, err := takeoff.Of(s)
	if err != nil {
		return append(faults, err.Error())
	}
	for _, o := range t.Orders {
		amount, _ := o.Amount.Measure()
		step, is := o.Step.Measure()
		if !is {
			continue
		}
		bought := step.SI * float64(o.Units)
		if bought < amount.SI*(1-1e-9) || o.Layout.IsZero() && bought-step.SI > amount.SI*(1-1e-9) {
			faults = append(faults, fmt.Sprintf("%d of %s for %s of %s", o.Units, o.Step, o.Amount, o.Item))
		}
	}
	return faults
}

// addsUp lists where the thicknesses, as they are printed, do not come to the depth as
// it is printed.
func addsUp(s *section.Section) (faults []string) {
	for _, system := range []quantity.System{quantity.US, quantity.SI} {
		if metric := strings.Contains(string(s.Job.Input), `"built_in":"millimeters"`); metric != (system == quantity.SI) {
			continue // it is printed as it is built
		}
		printed := func(v value.Value) float64 {
			q, err := quantity.ParseAs(quantity.DimLength, v.Text(system))
			if err != nil {
				faults = append(faults, err.Error())
			}
			return q.SI
		}
		sum := 0.0
		for _, c := range s.Courses {
			if thick := c.Attribute("thickness").Value; !thick.IsZero() {
				sum += printed(thick)
			}
		}
		if depth := printed(s.Depth); math.Abs(sum-depth) > 1e-9 {
			faults = append(faults, fmt.Sprintf("the courses are printed as %g m in all, and the dig as %s", sum, s.Depth.Text(system)))
		}
	}
	return faults
}

// moreOrdersNoLess lists what is ordered less of where the area is greater by a tenth.
func moreOrdersNoLess(book *groundrule.Book, job *site.Site, s *section.Section) (faults []string) {
	if _, shaped := job.Input("shape"); shaped || job.Perimeter != nil {
		return nil
	}
	larger := *job
	larger.Area *= 1.1
	other, faults := taken(book, &larger)
	if other == nil || len(faults) > 0 || built(s) != built(other) {
		return faults // another section takes other things
	}
	before, err := takeoff.Of(s)
	after, err2 := takeoff.Of(other)
	if err != nil || err2 != nil {
		return []string{fmt.Sprint(err, err2)}
	}
	for _, o := range before.Orders {
		at := slices.IndexFunc(after.Orders, func(x takeoff.Order) bool {
			return x.Item.Equal(o.Item) && x.CountedIn == o.CountedIn && x.Amount.Kind() == o.Amount.Kind()
		})
		if at < 0 {
			faults = append(faults, fmt.Sprintf("%s is not ordered any more", o.Item))
			continue
		}
		x := after.Orders[at]
		was, _ := o.Amount.Measure()
		is, _ := x.Amount.Measure()
		if x.Units < o.Units || o.Layout.IsZero() && is.SI < was.SI*(1-1e-9) {
			faults = append(faults, fmt.Sprintf("%s: %s in %d where it was %s in %d", o.Item, x.Amount, x.Units, o.Amount, o.Units))
		}
	}
	return faults
}

// knownEdgesCostNoMore lists quantities of a job of which it is known what its edges meet
// that are larger than where nothing is known of them, or less than nothing, and edges
// that do not add up to the perimeter.
func knownEdgesCostNoMore(book *groundrule.Book, job *site.Site, s *section.Section) (faults []string) {
	if len(job.Edges) > 0 || job.Beside.Length != nil {
		return nil
	}
	around, _ := s.Reason("perimeter_used").Answer.Length()
	for _, known := range []struct {
		meets string
		share float64
		held  bool
	}{{"lawn", 1, false}, {"street", 0.4, false}, {"curb", 0.01, true}, {"house", 0.3, true}, {"house", 1, true}} {
		length := quantity.Length(known.share) * around
		other := *job
		other.Edges = []site.Edge{{Meets: known.meets, Length: &length}}
		than, wrong := taken(book, &other)
		if than == nil || len(wrong) > 0 {
			faults = append(faults, fmt.Sprintf("%s: it is not built: %v", known.meets, wrong))
			continue
		}
		open, _ := than.Reason("edge_length").Answer.Length()
		if known.held {
			open += length
		}
		if math.Abs(float64(open-around)) > 1e-9*float64(around) {
			faults = append(faults, fmt.Sprintf("%s: %s of edge in all, of %s", known.meets, open, around))
		}
		amounts := map[string]float64{}
		for _, q := range s.Quantities {
			m, _ := q.Amount.Measure()
			amounts[q.ID] = m.SI
		}
		for _, q := range than.Quantities {
			if m, _ := q.Amount.Measure(); m.SI < 0 || m.SI > amounts[q.ID]*(1+1e-9) {
				faults = append(faults, fmt.Sprintf("%s: %s is %s, and %g where nothing is known", known.meets, q.ID, q.Amount, amounts[q.ID]))
			}
		}
	}
	return faults
}

// built is what a section is made of, and how thick.
func built(s *section.Section) string {
	var out []string
	for _, c := range s.Courses {
		for _, a := range c.Attributes {
			out = append(out, c.Name, a.Name, a.Value.String())
		}
	}
	return strings.Join(out, " ")
}

// areasAddUp lists orders of several sections that are not the sum of theirs, with the
// step applied once.
func areasAddUp(sections []*section.Section) (faults []string) {
	t, err := takeoff.Of(sections...)
	if err != nil {
		return []string{err.Error()}
	}
	for at, o := range t.Orders {
		var sum, steps float64
		apart := 0
		for _, q := range t.Quantities {
			if q.Order != at {
				continue
			}
			amount, _ := q.Amount.Measure()
			sum += amount.SI
			if step, is := q.Step.Measure(); is {
				steps += amount.SI / step.SI
			}
			apart += q.Units
		}
		all, _ := o.Amount.Measure()
		want := int(math.Ceil(steps * (1 - 1e-9)))
		if math.Abs(all.SI-sum) > 1e-9*sum || o.Layout.IsZero() && o.Units != want || !o.Layout.IsZero() && (o.Units > apart || o.Units < want) {
			faults = append(faults, fmt.Sprintf("%s: %s in %d; its parts are %g, %g steps, %d apart", o.Item, o.Amount, o.Units, sum, steps, apart))
		}
	}
	return faults
}
