package sheet

import (
	"cmp"
	"io"
	"strconv"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// Calculation is one expression of the rule language with its value.
type Calculation struct {
	// Text is the expression.
	Text  string
	Value value.Value
	// Functions are the calculations that it calls.
	Functions []rulebook.Function
	// Values are the values of the job and the rulebook that it reads.
	Values []section.Used
}

// used is a value with where it comes from.
func (p *page) used(v section.Used) string {
	from := cmp.Or(string(v.Origin), "unknown origin")
	if v.Presumed {
		from += ", PRESUMED"
	}
	if v.Amended != nil {
		from += ", AMENDED"
	}
	return v.Name + " = " + p.exact(v.Value) + " (" + from + ")"
}

// siFigures are more than any measurement needs, and fewer than would show the
// rounding of binary arithmetic.
const siFigures = 12

// CalculationText writes a calculation: the value in one system of units, and
// for a quantity also in SI to twelve figures; the sources of the functions; the
// values read, with where each comes from. The only error is that of w.
func CalculationText(w io.Writer, c Calculation, system quantity.System) error {
	p := &page{system: system}
	p.Put(0, "", p.exact(c.Value))
	if q, ok := c.Value.Quantity(); ok && q.Dim != quantity.DimShare {
		p.Put(2, "in SI: ", strconv.FormatFloat(q.SI, 'g', siFigures, 64)+" "+q.Dim.BaseUnit())
	}
	if word, ok := c.Value.Word(); ok {
		p.Put(2, "", "the word "+word.Name+" of "+string(word.Vocabulary))
	}
	if len(c.Values) > 0 {
		p.Heading("READ")
		for _, v := range c.Values {
			p.Put(2, "", p.used(v))
		}
	}
	if len(c.Functions) > 0 {
		p.Heading("CALCULATIONS")
		for _, f := range c.Functions {
			p.Put(2, f.Name+": ", fullStop(f.About))
			if f.Function.Range != "" {
				p.Put(4, "range: ", f.Function.Range)
			}
			p.sources(4, f)
		}
	}
	return p.Write(w)
}
