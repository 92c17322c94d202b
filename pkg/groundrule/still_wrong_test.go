package groundrule_test

// wrong is a fault that is known: what it is, and a job that shows it.
type wrong struct{ what, job string }

// stillWrong are the sentences of the oracle and the properties that the standard
// rulebook breaks. The list only shrinks.
var stillWrong = map[string]wrong{
	"shallow frost": {"80 mm pavers count as 60 mm against frost, so that a street never gets less stone than a driveway; so frost that ends within an inch of the bottom of the dig still adds stone", `area: 2550 sq ft
use: fire_lane
base: dense
soil:
  consistency: very stiff`},
}
