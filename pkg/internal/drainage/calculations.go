package drainage

import (
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// Calculations describes every calculation of the package that a rule may call.
func Calculations() []calculation.Function {
	return slices.Concat(
		gradationCalculations(),
		filterCalculations(),
		filterSizeCalculations(),
		soilFilterCalculations(),
		reservoirCalculations(),
		stateReservoirCalculations(),
		bedCalculations(),
		infiltrationCalculations(),
	)
}

func param(name, about string) calculation.Param {
	return calculation.Param{Name: name, About: about}
}

func from(sources ...value.Source) []value.Source { return sources }

// Arguments and results that many descriptions share.
var (
	paramGradation = param("gradation", "the aggregate or the soil")
	paramFilter    = param("filter", "the coarser course")
	paramProtected = param("protected", "the finer course, or the soil")
	paramSet       = param("criteria", "the set of filter criteria")
	paramFines     = param("fines", "percent passing No. 200, of what passes No. 4, 0 to 100")
	paramD85       = param("d85", "the size that 85 percent of the soil pass")
	paramRain      = param("rain", "depth of rain on the pavement")
	paramRunoff    = param("runoff", "depth of runoff from the area that runs on")
	paramRunOn     = param("run_on_ratio", "area that runs on over area of pavement, 0 or more")
	paramRate      = param("infiltration", "infiltration of the ground")
	paramFilling   = param("filling", "time of filling, generally 2 h")
	paramDrain     = param("drain", "time allowed to drain")
	paramVoids     = param("voids", "porosity of the stone, between 0 and 1, such as 0.40")
	paramDepth     = param("depth", "depth of the reservoir")
	paramGroup     = param("group", "hydrologic soil group")
	paramTexture   = param("texture", "texture of the soil")
	paramSlope     = param("slope", "rise over run, 0 to 1, so 0.02 for 2 percent")

	resultDepth = param("depth", "depth of stone, 0 where none is needed")
	resultRatio = param("ratio", "a plain ratio")
)

const (
	beyondSieves = "refuses a size or percent beyond the tabulated sieves"
	ofVoids      = "voids between 0 and 1; depths, rates and times not negative"
)
