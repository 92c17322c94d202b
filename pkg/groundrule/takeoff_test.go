package groundrule_test

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/amounts"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// ordered is how many whole units package takeoff orders of an amount.
func ordered(amount, step value.Value) (float64, error) {
	t, err := takeoff.Of(&section.Section{Status: section.Designed, Quantities: []section.Quantity{
		{ID: "Q", Item: value.Text("it"), Amount: amount, Step: step, CountedIn: "load"}}})
	if err != nil {
		return 0, err
	}
	return float64(t.Orders[0].Units), nil
}

// ordering are the functions by which published rows order through package takeoff.
func ordering() []calculation.Function {
	volume := func(amount, step quantity.Volume) (float64, error) {
		return ordered(value.Measured(amount), value.Measured(step))
	}
	function := func(name string, does any, params ...string) calculation.Function {
		f := calculation.Function{Name: name, About: "What is ordered.", Result: calculation.Param{Name: "units", About: "whole units"},
			Sources: []value.Source{{ID: "arithmetic", Known: value.Computed}}, Go: does}
		for _, name := range params {
			f.Params = append(f.Params, calculation.Param{Name: name, About: name})
		}
		return f
	}
	return []calculation.Function{
		function("ordered_by_volume", volume, "amount", "step"),
		function("ordered_by_mass", func(amount, step quantity.Mass) (float64, error) {
			return ordered(value.Measured(amount), value.Measured(step))
		}, "amount", "step"),
		function("loads_of_fill", func(fill quantity.Volume, shrink, swell quantity.Share, body quantity.Volume) (float64, error) {
			bank, err := amounts.BankVolume(fill, shrink)
			if err != nil {
				return 0, err
			}
			loose, err := amounts.LooseVolume(bank, swell)
			if err != nil {
				return 0, err
			}
			return volume(loose, body)
		}, "fill", "shrink", "swell", "body"),
	}
}
