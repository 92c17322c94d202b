// Package takeoff is what a job takes, of one area or several: every quantity of
// its sections, and the orders that they add up to. The rulebook says what is
// counted, how, and in which whole units it is ordered; here it is only summed.
// The steps of ordering are applied once, to the sum of an item over all areas.
package takeoff

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// ErrNone is wrapped by the error of a section that has no take-off: its job was
// refused or stopped, or it was made without the form [section.Takeoff].
var ErrNone = errors.New("there is no take-off")

// Takeoff is what a job takes.
type Takeoff struct {
	// Schema names the form.
	Schema string `json:"schema"`
	// Version of the form.
	Version int `json:"version"`
	// Job is the name of the job, "" if it has none.
	Job string `json:"job,omitempty"`
	// Areas are the names of the sections, in the order in which they were given.
	Areas []string `json:"areas"`
	// Quantities of each section, section by section, in the order of the rulebook.
	Quantities []Quantity `json:"quantities"`
	// Orders in the order in which their items are first met.
	Orders []Order `json:"orders"`
}

// Quantity is a quantity of one section.
type Quantity struct {
	section.Quantity
	// Section that it is of, counted from 0 in the order in which they were given.
	Section int `json:"section"`
	// Course that it is about, by its label, the lowest of several; left out if it is
	// about none.
	Course string `json:"course,omitempty"`
	// Order that it is part of, counted from 0; -1 for what is only told.
	Order int `json:"order"`
}

// Order is all that is bought of one item.
type Order struct {
	// Item that is bought: a word, such as that of a material, or a text.
	Item value.Value `json:"item"`
	// Kind says what it counts as, as a quantity does.
	Kind string `json:"kind"`
	// KindLabel is that kind, to show a person; left out where it reads the same.
	KindLabel string `json:"kind_label,omitempty"`
	// Amount is the sum of the quantities.
	Amount value.Value `json:"amount"`
	// Units is how many whole units are ordered; 0 for what is ordered to the amount.
	Units int `json:"units,omitempty"`
	// Step is the size of a unit; null without units, and where it differs from area
	// to area.
	Step value.Value `json:"step"`
	// CountedIn names a unit, such as load; left out of what is told as a quantity, such
	// as 18 tons.
	CountedIn string `json:"counted_in,omitempty"`
	// Counted is what one such unit is called, and several.
	Counted []string `json:"counted,omitempty"`
	// Mass of the amount; null if not all of it is weighed.
	Mass value.Value `json:"mass"`
	// Layout says what is cut from which roll or panel, over all areas; left out of what
	// is not laid out, and of sections that were read back, whose areas share no roll.
	Layout value.Value `json:"layout,omitzero"`

	steps float64 // the sum of the quantities in steps
}

// Of sums the quantities of the sections of one job. The error wraps [ErrNone] for
// a section that has none to sum.
func Of(sections ...*section.Section) (*Takeoff, error) {
	t := &Takeoff{Schema: "groundrule/takeoff", Version: 1, Quantities: []Quantity{}, Orders: []Order{}}
	for i, s := range sections {
		switch {
		case s.Status != section.Designed:
			return nil, fmt.Errorf("%w: %s was %s", ErrNone, jobNamed(s), s.Status)
		case s.Quantities == nil:
			return nil, fmt.Errorf("%w: %s was made without the form %q", ErrNone, jobNamed(s), section.Takeoff)
		}
		t.Areas = append(t.Areas, cmp.Or(s.Job.Part, s.Job.Name))
		if t.Job == "" {
			t.Job = strings.TrimSuffix(s.Job.Name, ", "+s.Job.Part)
		}
		for _, q := range s.Quantities {
			course := ""
			if len(q.Courses) > 0 {
				course = s.Course(q.Courses[0]).Label
			}
			if err := t.add(i, course, q); err != nil {
				return nil, err
			}
		}
	}
	for i := range t.Orders {
		o := &t.Orders[i]
		if o.steps == 0 {
			continue
		}
		whole, err := quantity.Quantity{Dim: quantity.DimRatio, SI: o.steps}.RoundUp(quantity.Quantity{Dim: quantity.DimRatio, SI: 1})
		if err != nil {
			return nil, fmt.Errorf("count the units of %s: %w", o.Item, err)
		}
		o.Units = int(math.Round(whole.SI))
	}
	return t, nil
}

// material is the kind of what is bought to stay in the ground.
const material = "material"

// Mass is how much the material weighs that is ordered, as far as it is weighed.
func (t *Takeoff) Mass() quantity.Mass {
	var all float64
	for _, o := range t.Orders {
		if mass, weighed := o.Mass.Measure(); weighed && o.Kind == material {
			all += mass.SI
		}
	}
	return quantity.Mass(all)
}

func jobNamed(s *section.Section) string {
	if s.Job.Name == "" {
		return "the job"
	}
	return "the job " + s.Job.Name
}

// add adds a quantity, and to the order of its item.
func (t *Takeoff) add(at int, course string, q section.Quantity) error {
	amount, ok := q.Amount.Measure()
	if !ok || amount.SI < 0 {
		return fmt.Errorf("the quantity %s comes to %s; wanted an amount that is not below nothing", q.ID, q.Amount)
	}
	line := Quantity{Quantity: q, Section: at, Course: course, Order: -1}
	if !q.Item.IsZero() {
		line.Order = slices.IndexFunc(t.Orders, func(o Order) bool { return o.takes(q) })
		if line.Order < 0 {
			line.Order = len(t.Orders)
			t.Orders = append(t.Orders, Order{Item: q.Item, Kind: q.Kind, KindLabel: q.KindLabel, Amount: value.Measured(quantity.Quantity{Dim: amount.Dim}), Step: q.Step, CountedIn: q.CountedIn, Counted: q.Counted,
				Mass: value.Measured(quantity.Mass(0))})
		}
		if err := t.Orders[line.Order].add(q, amount); err != nil {
			return fmt.Errorf("the quantity %s: %w", q.ID, err)
		}
	}
	t.Quantities = append(t.Quantities, line)
	return nil
}

// takes reports whether a quantity is part of the order.
func (o *Order) takes(q section.Quantity) bool {
	return o.Item.Equal(q.Item) && o.Kind == q.Kind && o.CountedIn == q.CountedIn && o.Amount.Kind() == q.Amount.Kind()
}

// lay adds the pieces of a layout, so that what is left over of a roll serves them too.
func (o *Order) lay(v value.Value) error {
	layout, laid := v.Data().(plan.Layout)
	before, some := o.Layout.Data().(plan.Layout)
	switch {
	case !laid || !some && o.steps > float64(layout.Units()):
		o.Layout = value.Value{} // read back, a layout is its text
		return nil
	case some:
		merged, err := before.Merge(layout)
		if err != nil {
			return err
		}
		layout = merged
	}
	o.Layout, o.steps = value.Object(v.Kind(), layout), float64(layout.Units())
	return nil
}

func (o *Order) add(q section.Quantity, amount quantity.Quantity) error {
	sum, _ := o.Amount.Measure()
	sum.SI += amount.SI
	o.Amount = value.Measured(sum)
	if q.Units > 0 {
		o.steps += float64(q.Units)
		if err := o.lay(q.Layout); err != nil {
			return err
		}
	} else if !q.Step.IsZero() {
		step, _ := q.Step.Measure()
		if step.Dim != amount.Dim || step.SI <= 0 {
			return fmt.Errorf("it is ordered by %s; wanted a step above nothing, of its own dimension", q.Step)
		}
		o.steps += amount.SI / step.SI
	}
	if !o.Step.Equal(q.Step) {
		o.Step = value.Value{}
	}
	mass, weighed := o.Mass.Measure()
	switch per, given := q.Weighs.Measure(); {
	case amount.Dim == quantity.DimMass:
		mass.SI += amount.SI
	case given:
		mass.SI += float64(amount.SI * per.SI)
	default:
		weighed = false
	}
	if o.Mass = (value.Value{}); weighed {
		o.Mass = value.Measured(mass)
	}
	return nil
}

// Loads is how many loads are ordered, of whatever comes or goes in loads.
func (t *Takeoff) Loads() (loads int) {
	for _, o := range t.Orders {
		if o.CountedIn == "load" {
			loads += o.Units
		}
	}
	return loads
}
