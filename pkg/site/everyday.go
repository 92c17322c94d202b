package site

// Words of daily life that a job does not take, since they leave open what has
// to be known, with the word that most who write them mean.
var (
	everydayUses = []everyday{
		{[]string{"patio", "walk", "walkway", "sidewalk", "path", "pool deck", "pool surround", "terrace", "pedestrian", "people"}, "foot", "a patio or a walk"},
		{[]string{"driveway", "drive", "car", "cars", "carport", "garage"}, "car_driveway", "a driveway of cars and light pick-ups"},
		{[]string{"truck", "trucks", "rv", "motor home"}, "heavy_driveway", "a driveway that a truck or a motor home also uses"},
		{[]string{"parking", "parking lot", "car park"}, "light_parking", "parking for cars"},
		{[]string{"street", "road"}, "residential_street", "a street that serves homes"},
		{[]string{"fire", "fire truck", "fire access"}, "fire_lane", "a way for fire apparatus"},
		{[]string{"yard", "loading dock", "dock"}, "truck_yard", "a yard where trucks stand and turn"},
	}
	everydayBases = []everyday{
		{[]string{"gravel", "stone", "crushed stone", "crushed rock", "crushed gravel", "crusher run", "road base", "aggregate", "dense graded", "standard"}, "dense",
			"crushed stone with fines, compacted in lifts"},
		{[]string{"open graded", "clean stone", "clear stone", "drain rock", "permeable", "washed stone", "no fines"}, "open", "clean stone through which water drains"},
		{[]string{"foam", "foam panel", "panels", "board"}, "panel", "foam panels"},
	}
	everydaySoils = []everyday{
		{[]string{"bedrock", "ledge", "solid rock"}, "rock", "rock that a pick does not loosen"},
		{[]string{"muck", "bog", "organic"}, "peat", "dark, fibrous ground"},
		{[]string{"black dirt", "garden soil"}, "topsoil", "the dark top layer, with roots"},
		{[]string{"rubble", "made ground", "backfill"}, "fill", "ground that was put there"},
		{[]string{"dirt", "earth", "soil", "native", "not sure"}, "unknown", "ground at which nobody has looked"},
	}
	everydayJoints = []everyday{
		{[]string{"polymeric", "polymeric sand", "jointing sand", "joint sand", "sanded", "narrow", "tight"}, "sand", "joints filled with any sand"},
		{[]string{"permeable", "stone", "chips", "aggregate", "wide"}, "open", "wide joints filled with small stone"},
	}
	everydayCompactors = []everyday{
		{[]string{"tamper", "hand", "by hand", "manual"}, "hand_tamper", "a tamper worked by hand"},
		{[]string{"plate", "vibrating plate", "vibratory plate", "forward plate", "small plate"}, "plate_compactor", "a plate that moves forward only"},
		{[]string{"reversible", "heavy plate", "reversing plate", "large plate", "big plate"}, "reversible_plate", "a plate that also moves backward"},
		{[]string{"walk behind roller", "padfoot", "trench compactor"}, "trench_roller", "a walk-behind roller"},
		{[]string{"roller", "drum roller", "ride on", "smooth drum", "vibratory roller", "double drum"}, "ride_on_roller", "a roller with a seat"},
	}
	everydayMeasures = []everyday{
		{[]string{"us", "imperial", "inch", "in", "feet", "ft"}, "inches", "a tape in inches"},
		{[]string{"si", "metric", "mm", "cm", "meters"}, "millimeters", "a tape in millimeters"},
	}
)
