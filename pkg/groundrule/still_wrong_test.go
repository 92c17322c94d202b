package groundrule_test

// wrong is a fault that is known: the item of the issue that it belongs to, and a
// job that shows it.
type wrong struct{ item, job string }

// stillWrong are the sentences of the oracle and the properties that the standard
// rulebook breaks. The list only shrinks.
var stillWrong = map[string]wrong{
	"below CBR 0.5": {"1", `area: 1030 sq ft
use: car_driveway
base: dense
soil:
  cbr: [9, 0.3, 9]`},
	"drain near water": {"5", `area: 95 sq yd
use: foot
base: dense
water:
  groundwater: 18 in`},
	"drain on wet fine soil": {"5", `area: 1945 sq ft
use: foot
base: dense
soil:
  word: clay
water:
  wet_ground: yes`},
	"drain over clay": {"5", `area: 1760 sq ft
use: car_driveway
base: open
soil:
  word: sand
  sieves:
    - sieve: No. 4
      passing: 100
    - sieve: No. 200
      passing: 95`},
	"fabric on fine soil": {"2", `area: 205 sq ft
use: foot
base: dense
soil:
  word: sand
  sieves:
    - sieve: No. 4
      passing: 100
    - sieve: No. 200
      passing: 95`},
	"fall of the pipe": {"5", `area: 700 sq ft
use: heavy_driveway
base: open`},
	"feet on a steep slope": {"9", `area: 245 sq ft
use: foot
base: panel
soil:
  uscs: SW
surface_slope: 9 %`},
	"feet on medium clay": {"2", `area: 110 sq ft
use: car_driveway
base: dense
soil:
  word: clay
  consistency: medium`},
	"fines by a tenth": {"2", `area: 470 sq ft
use: car_driveway
base: dense`},
	"frost group of clay and silt": {"2", `area: 205 sq ft
use: foot
base: dense
soil:
  word: sand
  sieves:
    - sieve: No. 4
      passing: 100
    - sieve: No. 200
      passing: 95`},
	"grid too low for its cover": {"10", `area: 20 sq ft
use: heavy_driveway
base: open
traffic:
  trucks_per_day: 5`},
	"lap of the fabric": {"10", `area: 155 sq ft
use: foot
base: dense
soil:
  consistency: very soft
  cbr: [15]`},
	"lap of the grid": {"10", `area: 155 sq ft
use: foot
base: dense
soil:
  consistency: very soft
  cbr: [15]`},
	"more fines": {"2", `area: 700 sq ft
use: heavy_driveway
base: open`},
	"no grid through the pipe": {"5", `area: 700 sq ft
use: heavy_driveway
base: open`},
	"nothing left below the pipe": {"5", `area: 780 sq ft
use: heavy_driveway
base: open
rain:
  infiltration: 0.02 in/h`},
	"organic ground": {"2", `area: 1225 sq ft
use: foot
base: dense
soil:
  word: peat
  uscs: CL`},
	"overflow of storage": {"5", `area: 340 sq ft
use: foot
base: open
rain:
  storage: yes
  depth: 0.05842000000000001 m`},
	"panel on a slope": {"6", `area: 245 sq ft
use: foot
base: panel
soil:
  uscs: SW
surface_slope: 9 %`},
	"panel on soft ground": {"6", `area: 1245 sq ft
use: foot
base: panel
soil:
  word: rock
  cbr: [2]`},
	"permeable above groundwater": {"4", `area: 755 sq ft
use: foot
base: open
water:
  groundwater: 20 in`},
	"permeable near a foundation": {"4", `area: 469.37273255541743 m2
use: foot
base: open
nearby:
  foundation_distance: 0.8181950721777742 m`},
	"permeable near a well": {"4", `area: 1850 sq ft
use: light_parking
base: open
nearby:
  well_distance: 49 ft`},
	"permeable on fill": {"4", `area: 340 sq ft
use: foot
base: open
soil:
  word: fill`},
	"permeable on swelling soil": {"4", `area: 335 sq ft
use: foot
base: open
soil:
  expansive: yes`},
	"pipe in its stone": {"5", `area: 600 sq ft
use: car_driveway
base: open`},
	"platform on soft ground": {"7", `area: 660 sq ft
use: foot
base: dense
soil:
  consistency: soft
  cbr: [6.6, 6.4, 7.1]`},
	"presumed values told": {"2", `area: 175 sq ft
use: foot
base: open
soil:
  word: loam`},
	"slope is asked": {"9", `area: 960 sq ft
use: foot
base: open`},
	"slope is told": {"9", `area: 960 sq ft
use: foot
base: open`},
	"soft ground left alone": {"7", `area: 155 sq ft
use: foot
base: dense
soil:
  consistency: very soft
  cbr: [15]`},
	"steep without care": {"9", `area: 70 sq ft
use: foot
base: dense
surface_slope: 10 %`},
	"strength claimed": {"1 and 2", `area: 20 sq ft
use: foot
base: dense
soil:
  word: silty_sand
  uncontrolled_fill: yes`},
	"trucks on CBR 2": {"1 (B9)", `area: 5250 sq ft
use: residential_street
base: dense
soil:
  cbr: [9, 0.3, 9]`},
	"whole steps": {"Must hold", `area: 960 sq ft
use: foot
base: open`},
}
