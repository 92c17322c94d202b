package sheet_test

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

// Print a section as a sheet, in inches and pounds or in millimeters.
func ExampleText() {
	book, err := groundrule.Standard()
	if err != nil {
		panic(err)
	}
	job := &site.Site{Job: "back walk", Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
	design, err := book.Design(job)
	if err != nil {
		panic(err)
	}
	s, err := design.Section()
	if err != nil {
		panic(err)
	}
	var text strings.Builder
	if err := sheet.Text(&text, s, quantity.US); err != nil {
		panic(err)
	}
	title, _, _ := strings.Cut(text.String(), "\n")
	fmt.Println(title)
	// Output:
	// SECTION TO BUILD: back walk
}
