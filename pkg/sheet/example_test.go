package sheet_test

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

// Write a job as a page, in inches and pounds or in millimeters.
func ExampleSheet_Write() {
	book, err := groundrule.Standard()
	if err != nil {
		panic(err)
	}
	page := sheet.Sheet{System: quantity.US, Lines: book.Lines()}
	job := &site.Site{Job: "back walk", Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
	areas, err := book.Areas(job, page.Forms()...)
	if err != nil {
		panic(err)
	}
	var text strings.Builder
	if err := page.Write(&text, areas); err != nil {
		panic(err)
	}
	title, _, _ := strings.Cut(text.String(), "\n")
	fmt.Println(title)
	// Output:
	// back walk
}
