package quantity_test

import (
	"errors"
	"fmt"

	"example.com/groundrule/pkg/quantity"
)

func ExampleParse() {
	for _, text := range []string{`3-1/8 in`, `1' 6"`, "8,000 psi", "1,000 F-days"} {
		q, err := quantity.Parse(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%s: %s, %s\n", q.Dim, q.Text(quantity.US), q.Text(quantity.SI))
	}
	// Output:
	// length: 3-1/8 in, 79.4 mm
	// length: 18 in, 457.2 mm
	// pressure: 8,000 psi, 55.16 MPa
	// freezing index: 1,000 F-days, 555.6 C-days
}

func ExampleParseAs() {
	_, err := quantity.ParseAs(quantity.DimLength, "6 psi")
	fmt.Println(err)
	fmt.Println(errors.Is(err, quantity.ErrDimension))
	// Output:
	// "6 psi" at character 3: "psi" measures a pressure, and a length is wanted; wanted one of: in, ft, yd, mm, cm, m, um
	// true
}

func ExampleQuantity_RoundUp() {
	depth, err := quantity.Millimeters(150).Quantity().RoundUp(quantity.Inches(0.5).Quantity())
	fmt.Println(depth, err)
	// Output: 6 in <nil>
}

func ExampleQuantity_Multiply() {
	stone, _ := quantity.SquareFeet(600).Quantity().Multiply(quantity.Inches(6).Quantity())
	weight, err := stone.Multiply(quantity.PCF(140).Quantity())
	fmt.Println(stone, weight, err)
	// Output: 11.11 cu yd 21 tons <nil>
}
