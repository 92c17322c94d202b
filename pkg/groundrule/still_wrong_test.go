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
	"drain on wet fine soil": {"5", `area: 80 sq ft
use: foot
base: dense
soil:
  word: silty_sand
  sieves:
    - sieve: No. 4
      passing: 100
    - sieve: No. 200
      passing: 80
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
	"organic ground": {"2", `area: 1225 sq ft
use: foot
base: dense
soil:
  word: peat
  uscs: CL`},
	"panel on soft ground": {"6", `area: 1245 sq ft
use: foot
base: panel
soil:
  word: rock
  cbr: [2]`},
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
	"soft ground left alone": {"7", `area: 155 sq ft
use: foot
base: dense
soil:
  consistency: very soft
  cbr: [15]`},
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
}
