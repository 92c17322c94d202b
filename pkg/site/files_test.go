package site_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/site"
)

// least is the least that a job file may say.
const least = "area: 400 sq ft\nuse: foot\nbase: dense\n"

// patio is a job with every entry that one job can have at once. What cannot
// stand beside it is in other.
const patio = `job: Maple Court patio
client: R. Ellery
place: 14 Maple Court
area: 400 sq ft
perimeter: 82 ft
use: car_driveway
base: dense
traffic:
  trucks_per_day: 2
  esal_per_day: 1.5
  life: 20 years
  wheel_load: 9,000 lbf
  tire_pressure: 80 psi
soil:
  word: clay
  consistency: very stiff
  uscs: CL
  cbr: [3, 4.5 %, 4]
  dcp:
    hammer: 8 kg
    readings:
      - {blows: 5, penetration: 55 mm}
      - blows: 10
        penetration: 4 in
  undrained_strength: 50 kPa
  pocket_penetrometer: 2,000 psf
  sieves:
    - {sieve: No. 4, passing: 95 %}
    - {sieve: "#200", passing: 62}
    - {sieve: 3/4 in, passing: 100}
  passing_0_02_mm: 30
  liquid_limit: 34
  plastic_limit: 18
  nonplastic: no
  liquid_limit_oven_dried: 32
  organic: no
  uncontrolled_fill: no
  expansive: no
water:
  groundwater: 5 ft
  wet_ground: no
frost:
  freezing_index: 900 F-days
  depth: 40 in
  mean_annual_temperature: 48 F
  freezing_season: 90 days
  frost_free: no
rain:
  storage: yes
  depth: 2 in
  run_on_area: 300 sq ft
  infiltration: 0.5 in/h
  drain_within: 48 h
surface_slope: 2 %
paver:
  thickness: 60 mm
  herringbone: yes
compactor: plate_5000
nearby:
  utilities: yes
  well_distance: 120 ft
  foundation_distance: 8 ft
overrides:
  - decision: base_thickness
    answer: inches(8)
    by: J. Orr
    because: "Clay: the last job settled."
note: |
  Gate is 36 in wide.
  # the dog is friendly
`

// other holds the entries that patio cannot have, in the same job.
const other = least + `traffic: {trucks_over_life: 500, esal_over_life: "10,000"}
`

// alike compares two sites by what they say and not by where it was written.
var alike = cmp.Options{
	cmpopts.IgnoreUnexported(site.Site{}),
	cmpopts.IgnoreFields(site.Override{}, "Place"),
	cmpopts.EquateEmpty(),
}

func read(t testing.TB, text string) *site.Site {
	t.Helper()
	s, err := site.Read("job.yaml", []byte(text))
	require.NoError(t, err)
	return s
}

func sameSite(t testing.TB, want, got *site.Site) {
	t.Helper()
	if diff := cmp.Diff(want, got, alike); diff != "" {
		t.Errorf("site differs (-want +got):\n%s", diff)
	}
}

func at(line, column int) diagnostic.Place {
	return diagnostic.Place{File: "job.yaml", Line: line, Column: column}
}
