package groundrule_test

// drained are the sentences that a pipe has to keep.
var drained = keeps("drain where rain stays", "drain over clay", "pipe in its stone", "no grid through the pipe", "nothing left below the pipe", "fall of the pipe")

var falls = keeps("slope is told", "slope is asked")

// wantedOfReviewed are the reviewed jobs with what is wanted of each: by the finding
// of the review, and by the published facts where they differ.
var wantedOfReviewed = []expected{
	{job: "001", wants: "designed, and an untold slope is asked for or set (A12)", check: all(isBuilt, falls)},
	{job: "002", wants: "clay alone is designed for CBR 2, falls away (A2, A12)", check: all(isBuilt, claimAtMost(2), keeps("slope is told"), stoneWithin(4, 12))},
	{job: "006", wants: "20 sq ft: one piece without a lap, no laboratory (B7)", check: all(isBuilt, lapAtMost(0), confirmsNone("atterberg", "hydrometer", "laborator"), confirmsAtMost(9)), differs: "the review found nine things to confirm too many; three of the nine are now the fall, its way and the outlet, which items 5 and 9 ask for, and those of the laboratory are gone"},
	{job: "010", wants: "fill under feet is dug out, proved or refused, and lends no strength (A15)", check: or(notBuilt, all(claimAtMost(2), saysOf("dig out", "remove the fill", "dug out")))},
	{job: "011", wants: "a pool deck on backfill: no strength by class, the published slab is told (A15, facts 12)", check: or(notBuilt, all(claimAtMost(2), saysOf("slab")))},
	{job: "015", wants: "CBR 1 is not compacted to 98 %, and nothing drives on it (A8)", check: all(isBuilt, keeps("soft ground left alone", "platform on soft ground"), fabricIs("woven"))},
	{job: "020", wants: "a walk on soft clay is undercut or bridged, not refused (A2)", check: all(isBuilt, keeps("soft ground left alone", "platform on soft ground"))},
	{job: "021", wants: "a patio on medium clay: people walk on it, laps of 24 in do (A2)", check: all(isBuilt, lapAtMost(36), silentOf("carry no foot"), gridsAtLeast(1))},
	{job: "025", wants: "a patio at 12 % is refused (A12)", check: all(notBuilt, named("SLOPE"))},
	{job: "028", wants: "water at 12 in below a patio: a drain at the low side or a stop (A11)", check: or(notBuilt, keeps("drain near water", "water in the section"))},
	{job: "036", wants: "a wish for pavers of 1 in is refused or answered, and 60 mm are laid (requirement 3)", check: or(notBuilt, all(keeps("pavers at least"), saysOf("pavers wanted", "thinner", "1 in pavers", "pavers of 1 in")))},
	{job: "038", wants: "no hand tamper where it cannot reach the density; the pipe fits (B2, A5)", check: or(notBuilt, all(or(compactorNot("hand_tamper"), saysOf("rent", "hire")), drained))},
	{job: "039", wants: "an unknown compactor is answered, not taken for none (G)", check: saysOf("jumping jack"), fault: true},
	{job: "044", wants: "6 in of No. 57, an edge other than a cast curb, a pipe that fits (A5, A13)", check: all(isBuilt, stoneWithin(6, 10), edgeNot("concrete curb"), drained)},
	{job: "045", wants: "6 in of No. 57 on firm clay, a pipe that fits, a light edge (A5, A13)", check: all(isBuilt, stoneWithin(6, 9), edgeNot("concrete curb"), drained)},
	{job: "051", wants: "on rock the pipe lies in the stone; 6 in of No. 57 at the least (A5, A13)", check: all(isBuilt, keeps("base at least", "pipe in its stone", "nothing left below the pipe"))},
	{job: "053", wants: "panels on sand: no word that a thicker base rides out the heave (A7)", check: silentOf("thicker base")},
	{job: "055", wants: "panels on clay in frost: drained or refused, no thicker base (A7)", check: or(notBuilt, all(silentOf("thicker base"), saysOf("drain")))},
	{job: "057", wants: "no panels on loose fill (A7)", check: notBuilt},
	{job: "059", wants: "no panels with water at 1 ft (A7, A11)", check: notBuilt},
	{job: "060", wants: "no panels on CBR 0.6 (A7)", check: notBuilt},
	{job: "061", wants: "no panels on expansive clay (A7)", check: notBuilt},
	{job: "066", wants: "clean gravel: 6 in under cars in frost, and no word that it moves (B1)", check: all(isBuilt, stoneWithin(6, 6), quiet("FROST-MOVES"))},
	{job: "067", wants: "CBR 1: trimmed, not compacted; two grids under cars or a true reason (A8, C)", check: all(isBuilt, keeps("soft ground left alone", "two grids", "platform on soft ground", "grid too low for its cover"), silentOf("one layer is enough"))},
	{job: "069", wants: "CBR 2: trimmed, not compacted; woven, 12 in (A8, C)", check: all(isBuilt, keeps("soft ground left alone"), stoneWithin(10, 16), silentOf("one layer is enough"))},
	{job: "076", wants: "a drive at 12 %: headers, uphill, a drained toe (A12)", check: or(notBuilt, saysOf("header"))},
	{job: "077", wants: "No. 57 all through below CBR 5, 12 in; the pipe fits, no grid through it (A13, A5)", check: all(isBuilt, stoneWithin(8, 13), drained)},
	{job: "080", wants: "the pipe fits, no grid through it, the soil is left alone (A5, A8)", check: all(isBuilt, drained, keeps("soft ground left alone"))},
	{job: "081", wants: "12 in of No. 57, not 15; the pipe fits (A13, A5)", check: all(isBuilt, stoneWithin(8, 13), drained)},
	{job: "083", wants: "lifts that divide evenly, no caution of the tool's own rounding; overflow (B3, F)", check: all(isBuilt, quiet("STONE-IN-LIFT"), keeps("overflow of storage", "even lifts"))},
	{job: "092", wants: "free of frost: no reason that speaks of frost (E); within 1.4 of the published charts (B5)", check: all(isBuilt, silentOf("in frost, on weak ground"), stoneWithin(6, 14))},
	{job: "093", wants: "trucks below CBR 2 are refused (B9)", check: notBuilt},
	{job: "095", wants: "no grid through the pipe, no caution of the tool's own lifts (A5, B3)", check: all(isBuilt, drained, quiet("STONE-IN-LIFT"))},
	{job: "096", wants: "a lot on CBR 5 in frost: 14-1/2 in is 1.4 times what is built; no caution of its own lifts (B5, B3)", check: all(isBuilt, stoneWithin(8, 12.5), quiet("STONE-IN-LIFT"))},
	{job: "101", wants: "a fire lane is rolled, not plated (B2)", check: all(isBuilt, compactorNot("plate_compactor", "hand_tamper"), gridsAtLeast(2))},
	{job: "105", wants: "a street is rolled; 16-1/2 in on CBR 5 is too much (B2, B5)", check: all(isBuilt, compactorNot("plate_compactor", "hand_tamper"), stoneWithin(8, 14))},
	{job: "107", wants: "a street on clean gravel: 8 in, and no word that it moves (B1)", check: all(isBuilt, stoneWithin(8, 8), quiet("FROST-MOVES"))},
	{job: "108", wants: "lifts that divide evenly (B3)", check: all(isBuilt, quiet("STONE-IN-LIFT"), keeps("even lifts"))},
	{job: "109", wants: "a street is rolled, and clay alone is not compacted to 98 % at CBR 2 (B2, A8)", check: all(isBuilt, compactorNot("plate_compactor", "hand_tamper"))},
	{job: "112", wants: "a uniaxial stops it (D)", check: all(notBuilt, named("UNIAXIAL"))},
	{job: "115", wants: "a grid under panels stops it (D)", check: all(notBuilt, named("PANEL"))},
	{job: "118", wants: "a spiked aluminum edge in clean stone is checked (A3)", check: or(all(notBuilt, named("EDGE")), heeds), differs: "published: metal edges with geogrid tails have performed for feet on No. 57 (facts 5, seen); the override stands on the section"},
	{job: "120", wants: "an override below every need is stopped (A3)", check: all(notBuilt, named("stone"))},
	{job: "123", wants: "a rain depth without storage is answered (G)", check: or(notBuilt, answered("rain.depth"))},
	{job: "125", wants: "permeable 2 ft from a foundation is refused, or lined (A6)", check: keepsBuilt("permeable near a foundation")},
	{job: "129", wants: "trucks on a car driveway: 80 mm or a refusal that names both (A4)", check: or(notBuilt, keeps("trucks under a light use"))},
	{job: "135", wants: "open joints over fat clay: lined, refused, or cautioned as a clay that may swell (A6)", check: or(notBuilt, saysOf("liner", "swell"))},
	{job: "136", wants: "open joints over expansive clay are refused or lined (A6)", check: keepsBuilt("permeable on swelling soil")},
	{job: "137", wants: "permeable at the foundation is refused or lined (A6)", check: keepsBuilt("permeable near a foundation")},
	{job: "201", wants: "a driveway on medium clay: woven, 12 in and more (A2)", check: all(isBuilt, fabricIs("woven"), stoneWithin(12, 24))},
	{job: "205", wants: "5 in under the 6 in minimum is stopped (A3)", check: all(notBuilt, named("stone"))},
	{job: "206", wants: "8 in where a fire lane needs 16 is stopped (A3)", check: all(notBuilt, named("stone"))},
	{job: "208", wants: "a reservoir that does not hold its rain is stopped (A3)", check: all(notBuilt, named("stone"))},
	{job: "209", wants: "20 trucks a day on a car driveway: as a heavy driveway, or refused (A4)", check: or(notBuilt, keeps("trucks under a light use"))},
	{job: "210", wants: "a heavy driveway on CBR 2: 80 mm, two grids in deep stone (A4, C)", check: all(isBuilt, keeps("pavers at least", "two grids", "soft ground left alone"))},
	{job: "211", wants: "trucks under feet are refused or designed for (A4)", check: or(notBuilt, keeps("trucks under a light use"))},
	{job: "212", wants: "a 9,000 lb wheel under feet is refused or designed for (A4)", check: or(notBuilt, keeps("heavy wheel under a light use"))},
	{job: "213", wants: "no panels with water at 3 in (A7)", check: notBuilt},
	{job: "214", wants: "no panels at 12 % (A7, A12)", check: notBuilt},
	{job: "215", wants: "clean gravel of CBR 40 in frost: 6 in, no caution (B1)", check: all(isBuilt, stoneWithin(6, 6), quiet("FROST-MOVES"))},
	{job: "216", wants: "the same with the hydrometer: as 215 (B1)", check: all(isBuilt, stoneWithin(6, 6))},
	{job: "218", wants: "an index of 20,000: nobody is sent to the building department for what changes nothing (B8)", check: or(notBuilt, confirmsNone("building department"))},
	{job: "219", wants: "frost to 120 in is not built as frost to 3 in (B8)", check: all(isBuilt, stoneWithin(6, 16), saysOf("frost"))},
	{job: "220", wants: "frost to 3 in adds nothing (B8)", check: all(isBuilt, stoneWithin(6, 8), quiet("FROST-MOVES"))},
	{job: "225", wants: "lifts that divide evenly; barriers, an overflow and a pipe that fits (B3, F)", check: all(isBuilt, quiet("STONE-IN-LIFT"), keeps("overflow of storage"), drained)},
	{job: "231", wants: "no open base on fill that nobody vouches for (A6)", check: keepsBuilt("permeable on fill")},
	{job: "232", wants: "no storage over fill (A6)", check: keepsBuilt("permeable on fill")},
	{job: "235", wants: "no hand tamper on a street (B2)", check: or(notBuilt, saysOf("rent", "hire"))},
	{job: "242", wants: "the wish for no herringbone is answered (G)", check: or(notBuilt, all(keeps("herringbone"), or(answered("paver.herringbone"), saysOf("not want herringbone"))))},
	{job: "247", wants: "a street on CBR 1 is refused (B9)", check: notBuilt},
	{job: "258", wants: "a measured CBR of 2 beats the word rock (A10)", check: or(notBuilt, claimAtMost(2))},
	{job: "260", wants: "storage over fat clay: refused, lined, or cautioned as a clay that may swell (A6)", check: or(notBuilt, saysOf("liner", "swell"))},
	{job: "301", wants: "a plastic edge on a driveway is checked or stands on the section as an override (A3)", check: or(notBuilt, heeds), differs: "no published limit forbids it on a car driveway: plastic and metal edges have performed there (facts 5, seen); the override stands on the section with what it changes"},
	{job: "302", wants: "a spiked edge on foam is stopped (A3)", check: notBuilt},
	{job: "303", wants: "3 in of bedding is stopped (A3)", check: all(notBuilt, named("bedding"))},
	{job: "304", wants: "mason sand as bedding is stopped (A3)", check: all(notBuilt, named("BEDDING"))},
	{job: "313", wants: "lifts of 12 in with a small plate are stopped (A3)", check: all(notBuilt, named("lift"))},
	{job: "316", wants: "sand joints on an open base under cars are stopped (A14; CMHA PAV-FAQ-002, seen)", check: notBuilt},
	{job: "318", wants: "an open base on clay without fabric is stopped (A3)", check: all(notBuilt, named("FABRIC"))},
	{job: "320", wants: "a bare number for a length is a fault of the file (A3)", check: notBuilt, fault: true},
	{job: "321", wants: "a lap of 6 in is stopped (D)", check: all(notBuilt, named("overlap"))},
	{job: "401", wants: "0.3 among 9s: refused, or a soft spot to dig out (A1)", check: or(notBuilt, all(keeps("below CBR 0.5", "strength claimed"), saysOf("soft spot")))},
	{job: "402", wants: "a silt with PI 6 is no CBR 20, and is to be confirmed (A9; facts 15, row 9)", check: all(isBuilt, claimAtMost(7), confirmed("cbr"))},
	{job: "404", wants: "a silt with PI 4 under trucks: capped, to be confirmed, no less than by class (A9)", check: all(isBuilt, claimAtMost(7), confirmed("cbr"), stoneWithin(9, 30))},
}

// keepsBuilt holds a sentence, and that a job that is not built says so by a
// refusal or a check.
func keepsBuilt(name string) test {
	return func(x *look) string {
		return when(!x.built() && x.why() == "", "no word of why it is not built") + keeps(name)(x)
	}
}

// confirmed holds that a value is asked to be confirmed.
func confirmed(name string) test {
	return func(x *look) string {
		return when(!x.confirms(name), "nothing asks to confirm %s", name)
	}
}

// reviewedStillWrong are the reviewed jobs that do not come to what is wanted yet,
// with the item of the requirements. The list only shrinks.
var reviewedStillWrong = map[string]string{}
