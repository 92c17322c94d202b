package quantity

// Parse reads a quantity as the trade writes it: 6 in, 6", 3-1/8 in, 1' 6",
// 150 mm, 8,000 psi, 0.5 in/h, 145 pcf, 1.9 t/yd3. The dimension follows from
// the unit. STUB.
func Parse(text string) (Quantity, error) { panic("stub") }

// ParseAs is [Parse] for a wanted dimension; a unit of another dimension, or no
// unit, is an error that says which units would do. STUB.
func ParseAs(dim Dimension, text string) (Quantity, error) { panic("stub") }
