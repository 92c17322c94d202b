// Command embedder shows how other software embeds Groundrule: it is a module of
// its own, and asks for a section, its reasons, and a calculation of its own.
package main

import (
	"errors"
	"fmt"
	"io"
	"log"
	"os"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

func main() {
	if err := show(os.Stdout); err != nil {
		log.Fatal(err)
	}
}

func show(w io.Writer) error {
	book, err := groundrule.OpenStandard(groundrule.WithFunctions(crewDays))
	if err != nil {
		return err
	}
	job := &site.Site{Job: "A patio", Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
	job.Soil.Word = "clay"
	job.Frost.Depth = new(quantity.Inches(36)) // new of a value needs Go 1.26

	design, err := book.Design(job)
	var refused *groundrule.Refused
	if errors.As(err, &refused) {
		return fmt.Errorf("no section: %w", refused)
	}
	if err != nil {
		return err
	}
	s, err := design.Section()
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "dig %s\n", s.Depth.Text(quantity.US))
	for _, course := range s.Courses {
		for _, a := range course.Attributes {
			fmt.Fprintf(w, "%s, %s: %s (%s: %s)\n", course.Label, a.Name, a.Value.Text(quantity.US), a.Rule, a.Because.US)
		}
	}
	days, err := book.Calculate("crew_days(area)", job)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "crew days: %s\n", days.Value.Text(quantity.US))
	return nil
}

// crewDays is a calculation of the embedder's own: rules can call it like any of
// the library's.
var crewDays = calculation.Function{
	Name:    "crew_days",
	About:   "Days that a crew of three needs for the paving alone.",
	Params:  []calculation.Param{{Name: "area", About: "area to be paved"}},
	Result:  calculation.Param{Name: "days", About: "working days"},
	Sources: []value.Source{{Document: "the embedder's own records", Known: value.Company}},
	Example: "crew_days(sq_ft(400))",
	Go:      func(area quantity.Area) float64 { return area.SquareFeet() / 160 },
}
