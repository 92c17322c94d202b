package section_test

import (
	"fmt"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// A section that was kept or sent is read back. What it does not have is a zero
// value, however long the chain.
func ExampleRead() {
	data := []byte(`{"schema": "groundrule/section", "version": 2, "status": "designed",
		"depth": {"kind": "length", "value": 0.2378, "unit": "m"},
		"courses": [{"name": "stone_top", "label": "Base", "attributes": [
			{"name": "thickness", "value": {"kind": "length", "value": 0.1524, "unit": "m"}, "because": {"us": "6 in, for frost.", "si": "152.4 mm, for frost."}}]}]}`)
	s, err := section.Read(data)
	if err != nil {
		fmt.Println(err)
		return
	}
	thickness := s.Course("stone_top").Attribute("thickness")
	fmt.Println(s.Status, s.Depth)
	fmt.Println(thickness.Value.Text(quantity.SI), thickness.Because.In(quantity.SI))
	fmt.Println(s.Course("roof").Attribute("thickness").Value)
	// Output:
	// designed 9.36 in
	// 152.4 mm 152.4 mm, for frost.
	// nothing
}
