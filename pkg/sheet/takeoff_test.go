package sheet_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// TestTakeoff holds how quantities and orders read.
func TestTakeoff(t *testing.T) {
	quantities := func(all ...section.Quantity) *section.Section {
		return &section.Section{Status: section.Designed, Job: section.Job{Name: "Yard"}, Courses: []section.Course{{Name: "base", Label: "Base"}}, Quantities: all}
	}
	of := func(item string, amount, step quantity.Measure, unit string) section.Quantity {
		q := section.Quantity{ID: strings.ToUpper(item), About: section.Plain(item), Kind: "material", Courses: []string{"base"}, Item: value.Text(item), Amount: value.Measured(amount), CountedIn: unit, Counted: map[string][]string{"bag": {"bag", "bags"}, "box": {"box", "boxes"}, "piece": {"piece", "pieces"}}[unit]}
		if step != nil {
			q.Step = value.Measured(step)
		}
		return q
	}
	parsed := func(dim quantity.Dimension, text string) quantity.Quantity {
		q, err := quantity.ParseAs(dim, text)
		require.NoError(t, err)
		return q
	}
	mass := func(text string) quantity.Quantity { return parsed(quantity.DimMass, text) }
	count := func(n float64) quantity.Quantity { return quantity.Quantity{Dim: quantity.DimRatio, SI: n} }
	whole := of("digging", parsed(quantity.DimVolume, "3.14159 cu yd"), nil, "")
	whole.Courses, whole.Kind = nil, "labor"
	off, err := takeoff.Of(quantities(whole, of("stone", mass("2.127 tons"), mass("1 ton"), ""), of("sand", mass("80 lb"), mass("50 lb"), "bag"), of("spikes", count(60), count(50), "box"),
		of("caps", count(1), count(1), "piece"), of("edging", quantity.Feet(70.51), quantity.Feet(8), "piece"), of("pipe", quantity.Inches(20), nil, "")))
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		system    quantity.System
		want      string
	}{
		{"US", "three figures, long runs to the inch, whole units with what they are for", quantity.US, `TAKE-OFF: Yard

THE DIG AND THE WHOLE JOB
  - Digging: 3.14 cu yd (DIGGING)

BASE
  - Stone: 2.13 tons (STONE)
  - Sand: 80 lb (SAND)
  - Spikes: 60 (SPIKES)
  - Caps: 1 (CAPS)
  - Edging: 70 ft 7 in (EDGING)
  - Pipe: 20 in (PIPE)

IN ALL: LABOR
  - Digging: 3.14 cu yd

IN ALL: MATERIAL
  - Stone: 3 tons, for 2.13 tons
  - Sand: 2 bags of 50 lb, for 80 lb
  - Spikes: 2 boxes of 50, for 60
  - Caps: 1 piece
  - Edging: 9 pieces of 8 ft, for 70 ft 7 in
  - Pipe: 20 in
`},
		{"SI", "the same in meters and kilograms", quantity.SI, `TAKE-OFF: Yard

THE DIG AND THE WHOLE JOB
  - Digging: 2.4 m3 (DIGGING)

BASE
  - Stone: 1.93 t (STONE)
  - Sand: 36.3 kg (SAND)
  - Spikes: 60 (SPIKES)
  - Caps: 1 (CAPS)
  - Edging: 21.5 m (EDGING)
  - Pipe: 508 mm (PIPE)

IN ALL: LABOR
  - Digging: 2.4 m3

IN ALL: MATERIAL
  - Stone: 2.722 t, for 1.93 t
  - Sand: 2 bags of 22.68 kg, for 36.3 kg
  - Spikes: 2 boxes of 50, for 60
  - Caps: 1 piece
  - Edging: 9 pieces of 2.438 m, for 21.5 m
  - Pipe: 508 mm
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b strings.Builder
			require.NoError(t, sheet.Takeoff(&b, off, c.system))
			require.Empty(t, cmp.Diff(c.want, b.String()), c.why)
		})
	}
}
