package amounts

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

var (
	sourceVolumes  = value.Source{ID: "volume-changes", Document: "NAVEDTRA 14080, US Navy training manual", Clause: "volume changes, p. 4-5", Known: value.Seen}
	sourceGeometry = value.Source{ID: "plane-geometry", Document: "plane geometry", Known: value.Computed}
)

// Calculations describes every calculation of this package.
func Calculations() []calculation.Function {
	param := func(name, about string) calculation.Param { return calculation.Param{Name: name, About: about} }
	bank, compacted := param("bank", "volume in the ground, 0 to 100,000,000 cu yd"), param("compacted", "volume placed and rolled, 0 to 100,000,000 cu yd")
	swell, shrink := param("swell", "by how much it grows when dug, 0 to 100 %"), param("shrink", "by how much it is smaller once compacted, -50 to 50 %")
	dense, area := param("bank", "density in the ground, 30 to 250 pcf"), param("area", "above 0, to 1,000,000,000 sq ft")
	volumes, geometry := []value.Source{sourceVolumes}, []value.Source{sourceGeometry}
	return []calculation.Function{
		{Name: "loose_volume", About: "What soil measures once it is dug.", Params: []calculation.Param{bank, swell}, Result: param("loose", "volume in the truck"),
			Range: "a swell of 0 to 100 %", Sources: volumes, Moves: "++", Positive: true, Example: "loose_volume(cu_yd(100), percent(25))", Go: LooseVolume},
		{Name: "compacted_volume", About: "What soil measures once it is placed and rolled.", Params: []calculation.Param{bank, shrink}, Result: param("compacted", "volume in place"),
			Range: "a shrink of -50 to 50 %", Sources: volumes, Moves: "+-", Positive: true, Example: "compacted_volume(cu_yd(100), percent(12))", Go: CompactedVolume},
		{Name: "bank_volume", About: "How much soil is dug for what it measures once it is placed and rolled.", Params: []calculation.Param{compacted, shrink}, Result: param("bank", "volume in the ground"),
			Range: "a shrink of -50 to 50 %", Sources: volumes, Moves: "++", Positive: true, Example: "bank_volume(cu_yd(100), percent(12))", Go: BankVolume},
		{Name: "swell_by_density", About: "By how much soil grows when dug, by its densities.", Params: []calculation.Param{dense, param("loose", "density in the truck, 30 to 250 pcf")},
			Result: param("swell", "share of the volume in the ground"), Range: "densities of 30 to 250 pcf", Sources: volumes, Moves: "+-", Example: "swell_by_density(lb_per_cu_yd(2800), lb_per_cu_yd(2295))", Go: SwellByDensity},
		{Name: "shrink_by_density", About: "By how much soil is smaller once compacted, by its densities.", Params: []calculation.Param{dense, param("compacted", "density in place, 30 to 250 pcf")},
			Result: param("shrink", "share of the volume in the ground"), Range: "densities of 30 to 250 pcf", Sources: volumes, Moves: "-+", Example: "shrink_by_density(lb_per_cu_yd(2800), lb_per_cu_yd(3256))", Go: ShrinkByDensity},
		{Name: "joint_filler", About: "The volume of the joints on each unit of area, as a depth.",
			Params: []calculation.Param{param("length", "of a paver, 1 to 120 in"), param("width", "of a paver, 1 to 120 in"), param("joint", "width of the joints, 0 to 6 in"), param("depth", "how deep they are filled, 0 to 24 in")},
			Result: param("filler", "volume over area"), Range: "pavers of 1 to 120 in", Sources: geometry, Moves: "--++", Positive: true, Example: "joint_filler(inches(8), inches(4), inches(0.125), inches(2.375))", Go: JointFiller},
		{Name: "cut_waste", About: "The share of an area that is wasted where pavers are cut along its perimeter.",
			Params: []calculation.Param{area, param("perimeter", "0 to 1,000,000 ft"), param("strip", "width that is lost of each cut paver, 0 to 24 in")},
			Result: param("waste", "share of the area"), Range: "a strip of 0 to 24 in", Sources: geometry, Moves: "-++", Positive: true, Example: "cut_waste(sq_ft(300), feet(70), inches(4))", Go: CutWaste},
		{Name: "pieces_along", About: "How many pieces stand along a length, one at each end unless it is a closed loop.",
			Params: []calculation.Param{param("length", "0 to 1,000,000 ft"), param("spacing", "how far apart they stand at most, 1 to 1,200 in"), param("closed", "whether the length is a closed loop")},
			Result: param("pieces", "whole pieces"), Range: "a spacing of 1 to 1,200 in", Sources: geometry, Moves: "+-.", Positive: true, Example: "pieces_along(feet(70), inches(12), false)", Go: PiecesAlong},
		{Name: "perimeter_of", About: "The perimeter of the rectangle of an area and of given proportions.",
			Params: []calculation.Param{area, param("proportion", "how many times as long as it is wide, 1 to 100")},
			Result: param("perimeter", "length all around"), Range: "a proportion of 1 to 100", Sources: geometry, Moves: "++", Positive: true, Example: "perimeter_of(sq_ft(300), 1.5)", Go: PerimeterOf},
	}
}
