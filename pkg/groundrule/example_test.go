package groundrule_test

import (
	"errors"
	"fmt"
	"os"
	"time"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// Design a section from what is known of a job, and print it from the top down.
func Example() {
	book, err := groundrule.Standard()
	if err != nil {
		panic(err)
	}
	job := &site.Site{Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
	job.Soil.Word = "clay" // what is not known is left out
	design, err := book.Design(job)
	if err != nil {
		panic(err) // a *groundrule.Refused says whom to take it to
	}
	s, err := design.Section()
	if err != nil {
		panic(err)
	}
	fmt.Println("dig", s.Depth)
	for i := len(s.Courses) - 1; i >= 0; i-- {
		c := s.Courses[i]
		fmt.Printf("%s to %s: %s\n", c.Top, c.Bottom, c.Label)
	}
	// Output:
	// dig 11-3/8 in
	// 0 in to 0 in: Spikes of the edge
	// 0 in to 0 in: Edge restraint
	// 0 in to 0 in: Joints
	// 0 in to 2-3/8 in: Pavers
	// 2-3/8 in to 3-3/8 in: Bedding
	// 3-3/8 in to 7-3/8 in: Base
	// 7-3/8 in to 7-3/8 in: Geogrid within the base
	// 7-3/8 in to 11-3/8 in: Base below the geogrid
	// 11-3/8 in to 11-3/8 in: Fabric
	// 18-3/8 in to 18-3/8 in: Underdrain in a trench
	// 11-3/8 in to 11-3/8 in: Prepared subgrade
}

// A company lays its amendments over the standard, as of a day.
func ExampleWithAmendments() {
	day := rulebook.DateOf(time.Date(2026, time.November, 1, 0, 0, 0, 0, time.UTC))
	book, err := groundrule.OpenStandard(
		groundrule.WithAmendments(rulebook.Layer{Label: "wrenfold", FS: os.DirFS("../../examples/wrenfold")}),
		groundrule.AsOf(day))
	if err != nil {
		panic(err) // a *rulebook.Error lists every fault with its place
	}
	for _, a := range book.Rules().Amendments {
		fmt.Printf("%s, by %s, %s\n", a.Name, a.Who, a.When)
	}
	// Output:
	// wrenfold geogrid, by Ines Wrenfold, standards, 2026-02-02
	// wrenfold stone, by Ines Wrenfold, standards, 2026-02-02
	// wrenfold thickness table, by Ines Wrenfold, standards, 2026-03-16
	// wrenfold surface, by Ines Wrenfold, standards, 2026-04-20
	// wrenfold words and questions, by Ines Wrenfold, standards, 2026-05-04
}

// A job outside what the rules cover gets a refusal, never a guess.
func ExampleRefused() {
	book, err := groundrule.Standard()
	if err != nil {
		panic(err)
	}
	_, err = book.Design(&site.Site{Area: quantity.SquareFeet(9000), Use: "truck_yard", Base: "dense"})
	var refused *groundrule.Refused
	if errors.As(err, &refused) {
		for _, r := range refused.Section.Refusals {
			fmt.Printf("%s: %s\n%s\n", r.ID, r.Says.US, r.Who.US)
		}
	}
	// Output:
	// HEAVIER-USE: This rulebook covers loads up to residential streets and fire lanes. This job is a truck yard.
	// A licensed pavement engineer.
}

// A company's own calculation is described once; then rules and people call it.
func ExampleWithFunctions() {
	sand := calculation.Function{
		Name: "sand_for_joints", About: "Jointing sand for an area, by the company's own tally.",
		Params:  []calculation.Param{{Name: "area", About: "area paved"}},
		Result:  calculation.Param{Name: "volume", About: "sand as delivered"},
		Sources: []value.Source{{Document: "own tally of 40 jobs", Known: value.Company}},
		Example: "sand_for_joints(sq_ft(400))",
		Go:      func(a quantity.Area) quantity.Volume { return quantity.Volume(a.SquareMeters() * 0.0025) },
	}
	book, err := groundrule.OpenStandard(groundrule.WithFunctions(sand))
	if err != nil {
		panic(err)
	}
	worked, err := book.Calculate("sand_for_joints(sq_ft(400))", nil)
	if err != nil {
		panic(err)
	}
	fmt.Println(worked.Value)
	// Output:
	// 3.281 cu ft
}

// One value of the rulebook for a job, with nothing built from it.
func ExampleBook_Calculate() {
	book, err := groundrule.Standard()
	if err != nil {
		panic(err)
	}
	job := &site.Site{Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
	job.Soil.CBR = []float64{4, 5, 4.5}
	for _, text := range []string{"inches(6) + mm(50)", "support_cbr", "stone_need"} {
		worked, err := book.Calculate(text, job)
		if err != nil {
			panic(err)
		}
		fmt.Println(text, "=", worked.Value)
	}
	// Output:
	// inches(6) + mm(50) = 7.97 in
	// support_cbr = 4
	// stone_need = 6 in
}

// What a rulebook holds, to show it in a screen of one's own.
func ExampleBook_Rules() {
	book, err := groundrule.Standard()
	if err != nil {
		panic(err)
	}
	for _, d := range book.Rules().Decisions {
		if d.Name == "grid_kind" {
			fmt.Println(d.Asks)
			for _, r := range d.Rules {
				fmt.Println(" ", r.ID)
			}
		}
	}
	// Output:
	// Which geogrid is in the base?
	//   KIND-NONE
	//   KIND-MULTIAXIAL
	//   KIND-BIAXIAL
}
