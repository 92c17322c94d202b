package groundrule_test

// wrong is a fault that is known: the item of the issue that it belongs to, and a
// job that shows it.
type wrong struct{ item, job string }

// stillWrong are the sentences of the oracle and the properties that the standard
// rulebook breaks. The list only shrinks.
var stillWrong = map[string]wrong{
	"below CBR 0.5": {"1", `area: 216215.6641734295 m2
use: car_driveway
base: open
soil:
  dcp:
    readings:
      - blows: 221859
        penetration: 40 in
      - blows: 1
        penetration: 0.5924993880192521 m
      - blows: 204
        penetration: 0.02272471397937824 m`},
	"lap of the fabric": {"10", `area: 940 sq ft
use: foot
base: dense
soil:
  cbr: [10]
  dcp:
    mm_per_blow: [120]`},
	"platform on soft ground": {"7", `area: 940 sq ft
use: foot
base: dense
soil:
  cbr: [10]
  dcp:
    mm_per_blow: [120]`},
	"soft ground left alone": {"7", `area: 940 sq ft
use: foot
base: dense
soil:
  cbr: [10]
  dcp:
    mm_per_blow: [120]`},
	"strength claimed": {"1 and 2", `area: 940 sq ft
use: foot
base: dense
soil:
  cbr: [10]
  dcp:
    mm_per_blow: [120]`},
	"trucks below CBR 1": {"1: a sounding without its hammer", `area: 23.039437799327132 m2
use: residential_street
base: dense
soil:
  dcp:
    readings:
      - blows: 791649
        penetration: 0.012849299181229259 m
      - blows: 1
        penetration: 0.15529965533211199 m
      - blows: 1
        penetration: 0.5926639572847991 m
      - blows: 1
        penetration: 0.020787091510556306 m
      - blows: 1000000
        penetration: 0.003074558951098711 m
      - blows: 1
        penetration: 0.045165626600874115 m`},
	"lap of the grid": {"1: a sounding without its hammer", `area: 1200 sq ft
use: fire_lane
base: open
soil:
  consistency: very stiff
  dcp:
    mm_per_blow: [364, 563]`},
	"panel on soft ground": {"6", `area: 815 sq ft
use: foot
base: panel
soil:
  consistency: medium
  cbr: [3]
frost:
  frost_free: yes`},
	"shallow frost": {"11", `area: 2550 sq ft
use: fire_lane
base: dense
soil:
  consistency: very stiff`},
}
