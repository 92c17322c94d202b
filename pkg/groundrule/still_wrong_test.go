package groundrule_test

// wrong is a fault that is known: what it is, and a job that shows it.
type wrong struct{ item, job string }

// stillWrong are the sentences of the oracle and the properties that the standard
// rulebook breaks. The list only shrinks.
var stillWrong = map[string]wrong{
	"shallow frost": {"11", `area: 2550 sq ft
use: fire_lane
base: dense
soil:
  consistency: very stiff`},
}
