package engine

import (
	"cmp"
	"slices"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// LayoutKind is the kind of an amount that is cut from rolls or laid in panels.
const LayoutKind value.Kind = "layout"

// quantityKind is the vocabulary of the kinds of quantities.
const quantityKind value.Kind = "quantity_kind"

// amounts are the kinds in which a quantity is measured.
var amounts = []value.Kind{value.NumberKind, value.DimensionKind(quantity.DimLength), value.DimensionKind(quantity.DimArea),
	value.DimensionKind(quantity.DimVolume), value.DimensionKind(quantity.DimMass), value.DimensionKind(quantity.DimTime), LayoutKind}

// weighing is by what an amount of a kind is weighed, or a mass is told as a volume.
var weighing = map[value.Kind]value.Kind{value.DimensionKind(quantity.DimVolume): value.DimensionKind(quantity.DimDensity), value.DimensionKind(quantity.DimMass): value.DimensionKind(quantity.DimDensity),
	value.DimensionKind(quantity.DimArea): value.DimensionKind(quantity.DimArealMass)}

// measured compiles what a quantity measures.
func (c *compiler) measured(e *document.Entry, out *Work, given language.Given) {
	of, amount, item, step, weighs := e.Need("kind"), e.Need("amount"), e.Get("item"), e.Get("step"), e.Get("weighs")
	out.Kind, out.Amount, out.Item, out.Step, out.Weighs, out.CountedIn = text(of).Text, text(amount), text(item), text(step), text(weighs), e.Text("counted_in")
	if amount == nil {
		return // it is reported
	}
	c.literal(of, quantityKind)
	if out.item = c.expression(item, value.NoKind, given); out.item != nil {
		kind := out.item.source.Kind
		if !(kind == value.TextKind || len(c.book.env.Words(kind)) > 0) {
			fault(&c.faults, item, language.CodeWrongKind, "an item is named by a word or a text", string(kind), "a material, such as base_material, or a text, such as 'trench sand'")
		}
	}
	if out.amount = c.expression(amount, value.NoKind, given); out.amount == nil {
		return
	}
	kind := out.amount.source.Kind
	if !slices.Contains(amounts, kind) {
		fault(&c.faults, amount, language.CodeWrongKind, "nothing is measured in this", string(kind), "a count, a length, an area, a volume, a mass, a time or a layout")
		return
	}
	if kind != LayoutKind {
		out.step = c.expression(step, kind, given)
	} else if step != nil {
		fault(&c.faults, step, language.CodeWrongKind, "a layout counts its own rolls", step.Text(), "no step")
	}
	by, weighed := weighing[kind]
	if weighs != nil && !weighed {
		fault(&c.faults, weighs, language.CodeWrongKind, "an amount of this kind is not weighed so", string(kind), "weighs of a volume or an area alone")
		return
	}
	out.weighs = c.expression(weighs, by, given)
	if kind == LayoutKind && out.CountedIn == "" || item == nil && (step != nil || out.CountedIn != "") {
		fault(&c.faults, cmp.Or(step, amount), codeEntry, "what is ordered in whole units is an item, and rolls and panels have a name", "", "item, and counted_in of a layout, such as roll")
	}
}

// Measure is one of the expressions of a quantity, by its key, or what it is called.
type Measure struct {
	Key, Text string
	// Expression is nil for a word.
	Expression *Expression
}

// Measures lists what a quantity says of its amount; nothing for other work.
func (w *Work) Measures() []Measure {
	if w.amount == nil {
		return nil
	}
	out := []Measure{{"kind", w.Kind, nil}}
	for _, m := range []Measure{{"amount", w.Amount.Text, w.amount}, {"item", w.Item.Text, w.item}, {"step", w.Step.Text, w.step}, {"counted_in", w.CountedIn, nil}, {"weighs", w.Weighs.Text, w.weighs}} {
		if m.Text != "" {
			out = append(out, m)
		}
	}
	return out
}

// measuring lists what the amounts of quantities read, through terms.
func (c *compiler) measuring() (out []string) {
	for _, w := range c.book.work {
		if w.amount != nil {
			out = append(out, namesOf(w.amount, w.step, w.weighs)...)
		}
	}
	for i := 0; i < len(out); i++ {
		if term, is := c.book.byName[out[i]].(*Term); is {
			for _, name := range reads(term) {
				if !slices.Contains(out, name) { // terms in a circle are reported later
					out = append(out, name)
				}
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Measured is how much a quantity comes to on one job. Item, Step and Weighs are
// zero for a quantity that has none.
type Measured struct{ Amount, Item, Step, Weighs value.Value }

// Measured works a quantity out.
func (o *Outcome) Measured(w *Work) (out Measured, err error) {
	for _, each := range []struct {
		x    *Expression
		into *value.Value
	}{{w.amount, &out.Amount}, {w.item, &out.Item}, {w.step, &out.Step}, {w.weighs, &out.Weighs}} {
		if each.x != nil && err == nil {
			*each.into, err = o.run.eval(each.x, place{sort: w.Sort, name: w.ID})
		}
	}
	return out, err
}
